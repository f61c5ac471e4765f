"""Reads a mesh file by what it holds, whatever its name says."""

import zlib
from pathlib import Path

from trimdive.errors import GeometryError, fenced
from trimdive.geometry.meshes import obj, others, ply, stl, threemf
from trimdive.geometry.meshes.drawn import Drawn

MOST_BYTES = 2**29  # a mesh file larger than this is taken for a mistake
KINDS = ("STL", "OBJ", "PLY", "3MF", "GLB")
PICTURES = {
    b"\x89PNG": "a picture (PNG)",
    b"\xff\xd8\xff": "a picture (JPEG)",
    b"GIF8": "a picture (GIF)",
    b"BM": "a picture (BMP)",
    b"RIFF": "a picture (WebP)",
    b"%PDF": "a PDF",
}
GZIP = b"\x1f\x8b\x08"
UTF16 = (b"\xff\xfe", b"\xfe\xff")
BOM = b"\xef\xbb\xbf"


def contents_of(file: Path) -> bytes:
    """Return the bytes of a mesh file, refused by size before they are read.

    Raises:
        GeometryError: There is no such file, or it is too large.
    """
    try:
        if not file.is_file():
            what = "it is a folder" if file.is_dir() else "there is no such file"
            raise GeometryError(what, str(file), "Name a mesh file.")
        _check_size(file.stat().st_size, file.name)
        return file.read_bytes()
    except OSError as error:
        reason = (error.strerror or "it cannot be read").lower()
        raise GeometryError(reason, str(file), "Check that you may read it.") from None
    except ValueError:  # a name that no file can have
        raise GeometryError("there is no such file", repr(str(file)), "Name a file.") from None


def _no_mesh(what: str, name: str) -> GeometryError:
    """Return the error of a file of another kind."""
    mend = f"Name a mesh, exported as {', '.join(KINDS[:-1])} or {KINDS[-1]}."
    return GeometryError(what, name, mend)


def _unread(name: str) -> GeometryError:
    """Return the error of a file that a reader stumbled over."""
    return _no_mesh("this mesh cannot be read", name)


def _check_size(size: int, name: str) -> None:
    if size > MOST_BYTES:
        what = f"the mesh is {size / 2**20:.0f} MB"
        raise GeometryError(what, name, f"Thin it out to less than {MOST_BYTES // 2**20} MB.")


def read(data: bytes, name: str) -> Drawn:
    """Return the mesh that a file holds, in the unit of the file; it may be packed by gzip.

    Args:
        data: The file.
        name: What to call it in messages.

    Raises:
        GeometryError: It is no mesh, or damaged.
    """
    _check_size(len(data), name)
    with fenced(_unread(name)):
        return _read(_ungzipped(data, name), name)


def _ungzipped(data: bytes, name: str) -> bytes:
    """Return what a file packed by gzip holds, refused before it is too much; others as they are.

    Raises:
        GeometryError: It is damaged or too large.
    """
    if not data.startswith(GZIP) or stl.is_binary(data):
        return data
    unpacked = bytearray()
    while data.startswith(GZIP):
        one = zlib.decompressobj(zlib.MAX_WBITS | 16)
        try:
            unpacked += one.decompress(data, MOST_BYTES + 1 - len(unpacked))
        except zlib.error:
            raise GeometryError("it cannot be unpacked", name, "Copy the file again.") from None
        _check_size(len(unpacked), name)
        if not one.eof:
            raise GeometryError("it is cut short", name, "Copy the file again.")
        data = one.unused_data
    return bytes(unpacked)


def _read(data: bytes, name: str) -> Drawn:
    if not data.strip(b" \r\n\t"):
        raise GeometryError("the file is empty", name, "Export the mesh again.")
    if stl.is_binary(data):
        return stl.binary(data, name)
    data = data.removeprefix(BOM)
    _refuse_others(data, name)
    if data.startswith(b"PK\x03\x04"):
        return threemf.read(data, name)
    if data.startswith(b"glTF"):
        return others.glb(data, name)
    if data.startswith((b"ply\n", b"ply\r")):
        return ply.read(data, name)
    if data.lstrip().startswith(b"ISO-10303-21"):
        return others.step(data, name)
    if stl.is_text(data):
        return stl.text(data, name)
    if b"\0" not in data[:4096] and obj.is_obj(data):
        return obj.read(data, name)
    if b"\0" in data[:4096] or name.lower().endswith(".stl"):
        raise _unknown(data, name)
    raise _no_mesh("this is not a mesh that can be read", name)


def _refuse_others(data: bytes, name: str) -> None:
    """Refuse what is well known, and no mesh.

    Raises:
        GeometryError: It is a picture, or text in a code that no mesh is written in.
    """
    for start, what in PICTURES.items():
        if data.startswith(start):
            raise _no_mesh(f"this is {what}, not a mesh", name)
    if data.startswith(UTF16):
        raise GeometryError("it is text saved as UTF-16", name, "Save it as UTF-8 in an editor.")


def _unknown(data: bytes, name: str) -> GeometryError:
    """Return what to say of bytes that nothing tells apart from a damaged binary STL."""
    if b"\0" not in data[:4096]:
        return _no_mesh("this is text, but no STL", name)
    return stl.damaged(data, name)
