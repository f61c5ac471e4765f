"""Files of every kind, written by others; and what is no mesh, is damaged or claims too much."""

import gzip
import io
import json
import struct
import tracemalloc
import zipfile
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
import trimesh
from tests.meshes.shapes import BOX, as_file, box

from trimdive.errors import GeometryError
from trimdive.geometry.lines.mesh import Mesh, volume
from trimdive.geometry.meshes import Drawn, binary_stl, in_metres, read, reading

SAMPLES = Path(__file__).parent / "samples"


def sample(name: str) -> Drawn:
    return read((SAMPLES / name).read_bytes(), name)


def volume_of(held: Drawn, unit: float = 1.0) -> float:
    return volume(Mesh(vertices=held.points * unit, triangles=held.triangles))


def test_sample_stl() -> None:
    """Test data of numpy-stl; its own test prints the volume 1.416599."""
    held = sample("star.stl")
    assert volume_of(held) == pytest.approx(1.416599, abs=1e-6)
    assert len(held.triangles) == 68


def test_sample_stl_with_a_byte_too_many() -> None:
    with pytest.raises(GeometryError, match="1 byte too long for the 288 triangles"):
        sample("half-donut.stl")


def test_sample_obj() -> None:
    """A regular dodecahedron: V = (15 + 7√5)/4 a³; the file's points have five figures."""
    held = sample("dodecahedron.obj")
    edge = float(np.linalg.norm(held.points[0] - held.points[1]))
    assert volume_of(held) == pytest.approx((15 + 7 * 5**0.5) / 4 * edge**3, rel=1e-4)
    assert len(held.triangles) == 12 * 3  # twelve faces of five corners


def test_sample_3mf() -> None:
    """A plate and four posts, in millimetres by the file's word."""
    held = sample("assembly.3mf")
    assert held.unit == 1e-3
    assert volume_of(held) == pytest.approx(50 * 50 * 5 + 4 * 5 * 5 * 20, rel=1e-6)


@pytest.mark.parametrize("kind", ["stl", "stl_ascii", "obj", "ply", "glb"])
def test_kinds_written_by_trimesh(kind: str) -> None:
    held = read(as_file(box(), kind), f"box.{kind}")
    assert volume_of(held) == pytest.approx(BOX, rel=1e-6)
    assert len(held.points) == 8
    assert held.unit == (1.0 if kind == "glb" else None)


def test_ply_as_text() -> None:
    data = box().export(file_type="ply", encoding="ascii")
    data = data.encode() if isinstance(data, str) else data
    assert volume_of(read(data, "x.ply")) == pytest.approx(BOX, rel=1e-6)


@pytest.mark.parametrize(
    ("unit", "size"), [("inch", 0.0254), ("foot", 0.3048), ("meter", 1.0), ("micron", 1e-6)]
)
def test_units_of_3mf(unit: str, size: float) -> None:
    """3MF Core Specification, section 3.4: units of the model."""
    assert read(three_mf(unit=unit), "x.3mf").unit == size


def test_places_of_3mf() -> None:
    """3MF Core Specification, section 3.3: row vectors, the origin in the last row."""
    twice = '<item objectid="1" transform="0 1 0 -1 0 0 0 0 2 10 20 30"/>'
    held = read(three_mf(build=twice), "x.3mf")
    assert np.allclose(held.points.min(axis=0), [9.0, 20.0, 30.0])
    assert np.allclose(held.points.max(axis=0), [10.0, 21.0, 32.0])
    assert volume_of(held) == pytest.approx(2 / 6)


def test_components_and_mirroring_of_3mf() -> None:
    inner = '<object id="2"><components><component objectid="1" transform="{}"/></components>'
    mirrored = inner.format("-1 0 0 0 1 0 0 0 1 0 0 0") + "</object>"
    held = read(three_mf(more=mirrored, build='<item objectid="2"/>'), "x.3mf")
    assert volume_of(held) == pytest.approx(1 / 6)
    assert held.points[:, 0].min() == -1.0


def three_mf(
    unit: str = "millimeter", more: str = "", build: str = '<item objectid="1"/>'
) -> bytes:
    """Return a tetrahedron as 3MF, as the specification has it."""
    points = "".join(
        f'<vertex x="{x}" y="{y}" z="{z}"/>' for x, y, z in ("000", "100", "010", "001")
    )
    faces = "".join(
        f'<triangle v1="{a}" v2="{b}" v3="{c}"/>' for a, b, c in ("021", "013", "032", "123")
    )
    mesh = f"<mesh><vertices>{points}</vertices><triangles>{faces}</triangles></mesh>"
    text = (
        f'<model unit="{unit}" xmlns="http://schemas.microsoft.com/3dmanufacturing/core/2015/02">'
        f'<resources><object id="1">{mesh}</object>{more}</resources><build>{build}</build></model>'
    )
    held = io.BytesIO()
    with zipfile.ZipFile(held, "w") as archive:
        archive.writestr("3D/3dmodel.model", text)
    return held.getvalue()


def head(count: int, title: bytes = b"") -> bytes:
    return title.ljust(80) + struct.pack("<I", count)


STL = as_file(box(), "stl")
GLB = as_file(box(), "glb")


def damaged_glb() -> bytes:
    text = json.dumps({"accessors": [{"count": 300_000_000_000}]}).encode()
    return b"glTF" + struct.pack("<III", 2, 20 + len(text), len(text)) + b"JSON" + text


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (b"", "empty"),
        (STL[:-1], "1 byte too short for the 12 triangles"),
        (STL + b"\0", "1 byte too long for the 12 triangles"),
        (head(4_000_000_000) + STL[84:], "claims 4000000000 triangles, but the file has room for"),
        (head(12, b"solid of text") + STL[84:-30], "30 bytes too short"),
        (head(0), "no triangles"),
        (b"solid x\nendsolid x\n", "no triangles"),
        (b"\x89PNG\r\n\x1a\n" + bytes(400), r"a picture \(PNG\)"),
        (b"\xff\xd8\xff\xe0" + bytes(400), r"a picture \(JPEG\)"),
        ("solid x\nendsolid x".encode("utf-16"), "UTF-16"),
        (
            b"ply\nformat ascii 1.0\nelement vertex 300000000000\nend_header\n",
            "claims 300000000000",
        ),
        (damaged_glb(), "claims 300000000000 numbers"),
        (GLB[:-8], "claims .* bytes, but the file has"),
        (b"PK\x03\x04" + bytes(100), "cannot be unpacked"),
        (b"v 1 2 3\nv 1 2\nf 1 2 3\n", "'v 1 2' cannot be read"),
        (b"v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 9\n", "names point 9 of 3"),
        (b"just some text\n" * 20, "no STL"),
        (b"solid x\nfacet\nouter loop\nvertex 0 0 0\nvertex 1 0 x\n", "not three numbers"),
        (STL[:84] + np.float32(np.nan).tobytes() * 12 + STL[132:], "no numbers"),
    ],
)
def test_what_is_no_mesh(data: bytes, says: str) -> None:
    with pytest.raises(GeometryError, match=says) as caught:
        read(data, "x.stl")
    assert caught.value.mend.endswith(".")
    assert "x.stl" in caught.value.where


def test_claims_take_no_memory() -> None:
    tracemalloc.start()
    for data in (head(4_294_967_295) + bytes(100), damaged_glb()):
        with pytest.raises(GeometryError):
            read(data, "x.stl")
    _, most = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert most < 2**20


def test_an_archive_that_unpacks_to_far_too_much_is_refused() -> None:
    held = io.BytesIO()
    with zipfile.ZipFile(held, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("3D/3dmodel.model", b"<model/>")
    data = bytearray(held.getvalue())
    for mark, offset in ((b"PK\x03\x04", 22), (b"PK\x01\x02", 24)):
        at = data.index(mark) + offset
        data[at : at + 4] = struct.pack("<I", 2**31)
    with pytest.raises(GeometryError, match="unpacks to 2048 MB"):
        read(bytes(data), "x.3mf")


def test_a_byte_order_mark_is_passed_over() -> None:
    data = b"\xef\xbb\xbf" + as_file(box(), "obj")
    assert volume_of(read(data, "x.obj")) == pytest.approx(BOX, rel=1e-6)


@pytest.mark.parametrize(
    "change", [bytes.upper, lambda text: text.replace(b"\n", b"\r\n"), lambda text: text]
)
def test_text_stl_in_other_hands(change: Callable[[bytes], bytes]) -> None:
    data = change(as_file(box(), "stl_ascii"))
    assert volume_of(read(data, "x.stl")) == pytest.approx(BOX, rel=1e-6)


def test_a_name_does_not_count() -> None:
    assert read(as_file(box(), "obj"), "x.stl").kind == "OBJ"


def test_parts_far_from_the_origin() -> None:
    far = box((30_000.0, 0.0, 0.0))
    with pytest.raises(GeometryError, match=r"30000 m from the origin, where STL is good to"):
        in_metres(read(as_file(far, "stl"), "x.stl"), 1.0)


def test_a_stray_part_far_off() -> None:
    both = trimesh.util.concatenate([box(), box((30_000.0, 0.0, 0.0))])
    with pytest.raises(GeometryError, match=r"30000 m long.*stray parts"):
        in_metres(read(as_file(both, "stl"), "x.stl"), 1.0)


def test_millimetres_read_as_metres() -> None:
    shape = trimesh.creation.box((1300.0, 120.0, 126.0))
    with pytest.raises(GeometryError, match=r'1300 m long.*"mm" is likely'):
        in_metres(read(as_file(shape, "stl"), "x.stl"), 1.0)


def test_no_unit_told() -> None:
    shape = trimesh.creation.box((1300.0, 120.0, 126.0))
    held = read(as_file(shape, "stl"), "x.stl")
    with pytest.raises(GeometryError, match=r'do not say their unit.*file_unit = "mm"'):
        in_metres(held, None)


def test_written_stl_is_read_by_trimesh() -> None:
    held = read(STL, "x.stl")
    data = binary_stl(Mesh(vertices=held.points, triangles=held.triangles))
    again = trimesh.load(io.BytesIO(data), file_type="stl")
    assert again.is_watertight
    assert again.volume == pytest.approx(BOX * 1e9, rel=1e-6)


def test_gzip_is_unpacked() -> None:
    for kind in ("stl", "obj", "ply"):
        data = gzip.compress(as_file(box(), kind))
        assert volume_of(read(data, f"box.{kind}.gz")) == pytest.approx(BOX, rel=1e-6)


def test_gzip_that_is_cut_short_or_far_too_much(monkeypatch: pytest.MonkeyPatch) -> None:
    data = gzip.compress(STL)
    with pytest.raises(GeometryError, match="cut short"):
        read(data[:-20], "x.stl.gz")
    with pytest.raises(GeometryError, match="cannot be unpacked"):
        read(data[:12] + bytes(40) + data[52:], "x.stl.gz")
    monkeypatch.setattr(reading, "MOST_BYTES", 2**20)
    bomb = gzip.compress(bytes(2**26))
    tracemalloc.start()
    with pytest.raises(GeometryError, match="the mesh is 1 MB"):
        read(bomb, "x.stl.gz")
    _, most = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert most < 2**23


def test_obj_lines_that_go_on_in_the_next() -> None:
    """A backslash at the end of a line joins it to the next."""
    text = as_file(box(), "obj").decode()
    rows = [
        row.replace(" ", " \\\n", 1) if row.startswith("f ") else row for row in text.split("\n")
    ]
    rows = [row.replace(" ", " \\\r\n ", 2) if row.startswith("v ") else row for row in rows]
    assert volume_of(read("\n".join(rows).encode(), "x.obj")) == pytest.approx(BOX, rel=1e-6)


def textured(order: str) -> bytes:
    """Return a box as PLY with a picture, colours and places in the picture."""
    head = (
        f"ply\nformat {order} 1.0\ncomment TextureFile skin.png\nelement vertex 8\n"
        "property float x\nproperty float y\nproperty double z\nproperty uchar red\n"
        "property float s\nproperty float t\nelement face 12\n"
        "property list uchar int vertex_indices\nproperty list uchar float texcoord\n"
        "property int texnumber\nelement edge 1\nproperty int vertex1\nend_header\n"
    )
    points, faces = box().vertices, box().faces
    if order == "ascii":
        rows = [f"{x} {y} {z} 200 0.5 0.5" for x, y, z in points]
        rows += [f"3 {a} {b} {c} 6 0 0 1 0 1 1 0" for a, b, c in faces]
        return (head + "\n".join([*rows, "7"]) + "\n").encode()
    mark = "<" if "little" in order else ">"
    body = b"".join(struct.pack(mark + "ffdBff", *point, 200, 0.5, 0.5) for point in points)
    for face in faces:
        body += struct.pack(mark + "B3iB6fi", 3, *face, 6, 0, 0, 1, 0, 1, 1, 0)
    return head.encode() + body + struct.pack(mark + "i", 7)


@pytest.mark.parametrize("order", ["ascii", "binary_little_endian", "binary_big_endian"])
def test_ply_with_textures(order: str) -> None:
    held = read(textured(order), "x.ply")
    assert volume_of(held) == pytest.approx(BOX, rel=1e-6)
    assert len(held.triangles) == 12


@pytest.mark.parametrize("order", ["ascii", "binary_little_endian"])
def test_ply_of_triangles_and_larger_faces(order: str) -> None:
    """A prism over a pentagon of area 5/2·sin 72°, 2 high: two faces of five, five of four."""
    turn = 2 * np.pi * np.arange(5) / 5
    points = [(np.cos(t), np.sin(t), z) for z in (0.0, 2.0) for t in turn]
    faces = [(4, 3, 2, 1, 0), (5, 6, 7, 8, 9)]
    faces += [(k, (k + 1) % 5, (k + 1) % 5 + 5, k + 5) for k in range(5)]
    head = (
        f"ply\nformat {order} 1.0\nelement vertex 10\nproperty double x\nproperty double y\n"
        "property double z\nelement face 7\nproperty list uchar uint vertex_index\nend_header\n"
    )
    if order == "ascii":
        rows = [" ".join(map(repr, map(float, p))) for p in points]
        rows += [f"{len(f)} {' '.join(map(str, f))}" for f in faces]
        data = (head + "\n".join(rows) + "\n").encode()
    else:
        data = head.encode() + b"".join(struct.pack("<3d", *point) for point in points)
        data += b"".join(struct.pack(f"<B{len(f)}I", len(f), *f) for f in faces)
    held = read(data, "x.ply")
    assert volume_of(held) == pytest.approx(5 * np.sin(np.radians(72)), rel=1e-9)


@pytest.mark.parametrize("order", ["ascii", "binary_little_endian"])
@pytest.mark.parametrize("lost", [1, 40, 200])
def test_ply_that_is_cut_short(order: str, lost: int) -> None:
    with pytest.raises(GeometryError, match=r"claims|no triangles|can be read"):
        read(textured(order)[: -lost - 2], "x.ply")


def glb_of(**changed: object) -> bytes:
    """Return a box as GLB with a part of its head changed."""
    length = struct.unpack_from("<I", GLB, 12)[0]
    text = json.dumps({**json.loads(GLB[20 : 20 + length]), **changed}).encode()
    text += b" " * (-len(text) % 4)
    rest = GLB[20 + length :]
    size = 20 + len(text) + len(rest)
    return b"glTF" + struct.pack("<III", 2, size, len(text)) + b"JSON" + text + rest


@pytest.mark.parametrize(
    ("changed", "says"),
    [
        ({"extensionsRequired": ["KHR_draco_mesh_compression"]}, "an extension that is not read"),
        ({"accessors": [{"count": float("inf")}]}, "contents cannot be read"),
        ({"accessors": [{"count": 10**400}]}, "it claims|contents cannot be read"),
        ({"nodes": [{"children": [1]}, {"children": [1]}]}, "contents cannot be read"),
        ({"nodes": [{"mesh": 0}] * 2_000_000}, r"2\.4e\+07 triangles"),
        ({"nodes": [{"mesh": 7}]}, "contents cannot be read"),
    ],
)
def test_glb_that_cannot_be(changed: dict[str, object], says: str) -> None:
    with pytest.raises(GeometryError, match=says):
        read(glb_of(**changed), "x.glb")


@pytest.mark.parametrize("kind", ["stl", "stl_ascii", "obj", "ply", "glb"])
def test_damaged_files_end_in_one_sentence(kind: str) -> None:
    """Bytes changed at random end in a mesh or in a sentence with the file's name."""
    for seed in range(60):
        random = np.random.default_rng(seed)
        data = bytearray(as_file(box(), kind))
        for _ in range(random.integers(1, 8)):
            data[random.integers(len(data))] = random.integers(256)
        said = ""
        try:
            in_metres(read(bytes(data), f"x.{kind}"), 1e-3)
        except GeometryError as error:
            said = error.where
        assert said == "" or said.startswith(f"x.{kind}")


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (b"v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 " + b"9" * 30 + b"\n", "cannot be read"),
        (b"v 0 0 0\nv 1 0 0\nv 0 1 1e400\nf 1 2 3\n", "no numbers"),
        (b"v 0 0 0\nv 1 0 0\nv 0 1 1e300\nf 1 2 3\n", "beyond all measure"),
    ],
)
def test_numbers_that_are_too_large(data: bytes, says: str) -> None:
    with pytest.raises(GeometryError, match=says):
        read(data, "x.obj")
