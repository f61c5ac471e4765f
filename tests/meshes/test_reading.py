"""Files of every kind, written by others; and what is no mesh, is damaged or claims too much."""

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
from trimdive.lines.mesh import Mesh, volume
from trimdive.meshes import Drawn, binary_stl, in_metres, read

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
