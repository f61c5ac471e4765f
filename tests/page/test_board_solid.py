"""Her bodies in 3D as one block, against the bodies of which her buoyancy is calculated."""

import json
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import pytest
from numpy.typing import NDArray
from tests.page.conftest import Page, page_of
from tests.page.hands import put

from trimdive.assessment import Assessment
from trimdive.geometry.lines.mesh import Mesh, volume
from trimdive.geometry.solids.shapes import box, cylinder, sphere
from trimdive.page.places.board_solid import ORDER, creased
from trimdive.pictures.drawings.things import shell, things, vessel_meshes

FLOAT32 = 2e-5  # of a volume [-]: corners are sent as 32-bit floats, walls are thin
ROOT = Path(__file__).parents[2]
BUNDLE = ROOT / "src" / "trimdive" / "page" / "static" / "three.min.js"
BOATS = ("bittern", "grebe", "plover")


@dataclass(frozen=True, kw_only=True)
class Block:
    """A block, read as its description says, by nothing of ours."""

    bodies: list[dict[str, object]]
    corners: NDArray[np.float32]  # shape (n, 3) [m]
    triangles: NDArray[np.uint32]  # shape (m, 3) [-]
    edges: NDArray[np.uint32]  # shape (e, 2) [-]

    def volume(self, body: dict[str, object]) -> float:
        """Return the volume inside a body by the divergence theorem: ∇ = ∮ r·n dA / 3 [m³]."""
        first, count = int(str(body["first"])), int(str(body["count"]))
        own = self.triangles.reshape(-1)[first : first + count].reshape(-1, 3)
        a, b, c = np.moveaxis(self.corners[own].astype(np.float64), 1, 0)
        return float(np.einsum("ij,ij->", a, np.cross(b, c)) / 6)


def read(block: bytes) -> Block:
    led = int.from_bytes(block[:4], "little")
    head = json.loads(block[4 : 4 + led])
    rest, found = 4 + led, []
    for kind, count in (("<f4", 3 * head["corners"]), ("<u4", 3 * head["triangles"])):
        found.append(np.frombuffer(block, kind, count, rest))
        rest += 4 * count
    found.append(np.frombuffer(block, "<u4", 2 * head["edges"], rest))
    assert rest + 8 * head["edges"] == len(block)
    return Block(
        bodies=head["bodies"],
        corners=found[0].reshape(-1, 3),
        triangles=found[1].reshape(-1, 3),
        edges=found[2].reshape(-1, 2),
    )


@pytest.fixture(params=BOATS)
def sent(request: pytest.FixtureRequest, copied: Callable[[str], Path]) -> tuple[Assessment, Block]:
    """Return a demo boat, and what the page is sent of her."""
    page = page_of(copied(request.param)).enter()
    answer = page.client.get("/board/solid")
    assert answer.status_code == 200
    assert answer.headers["content-type"] == "application/octet-stream"
    return page.desk.her, read(answer.content)


def of_kinds(block: Block, *kinds: str) -> dict[str, float]:
    """Return the volume of the bodies of some kinds, by path; a pair's together [m³]."""
    found: dict[str, float] = {}
    for body in block.bodies:
        if body["kind"] in kinds:
            path = str(body["path"])
            found[path] = found.get(path, 0.0) + block.volume(body)
    return found


def test_volumes_are_those_that_displace(sent: tuple[Assessment, Block]) -> None:
    """The sum over what was sent is the volume of the body of which buoyancy is calculated."""
    her, block = sent
    found = of_kinds(block, "skin", "lump", "cylinder", "part", "hollow", "lead", "foam", "sparse")
    displacing = {body.path: body for body in her.bodies if body.kind != "coat"}
    both = displacing.keys() & found.keys()
    assert len(both) >= len(her.boat.regions) + 10
    for path in both:
        whole = displacing[path].volume / displacing[path].share
        assert found[path] == pytest.approx(whole, rel=FLOAT32), path


def test_surfaces_face_outwards(sent: tuple[Assessment, Block]) -> None:
    """Each body has a volume above zero; only the room in a cylinder is turned inside out."""
    _, block = sent
    solid = [body for body in block.bodies if body["count"]]
    assert {body["kind"] for body in solid if block.volume(body) < 0} == {"bore"}
    assert all(block.volume(body) != 0 for body in solid)


def test_a_cylinder_and_the_room_in_it_make_its_wall(sent: tuple[Assessment, Block]) -> None:
    her, block = sent
    wall = of_kinds(block, "cylinder", "bore")
    for i, vessel in enumerate(her.boat.cylinders, 1):
        outside, bore = (vessel_meshes(vessel, bore=one) for one in (False, True))
        asked = sum(map(volume, outside)) - sum(map(volume, bore))
        assert 0 < wall[f"cylinder[{i}]"] == pytest.approx(asked, rel=1e-4)


def test_places_are_metres_in_her_own_axes(sent: tuple[Assessment, Block]) -> None:
    her, block = sent
    used = [shell(her), *(mesh for thing in things(her) for mesh in thing.meshes)]
    low = np.min([mesh.bounds[0] for mesh in used], axis=0)
    high = np.max([mesh.bounds[1] for mesh in used], axis=0)
    assert block.corners.min(axis=0) == pytest.approx(low, abs=1e-6)
    assert block.corners.max(axis=0) == pytest.approx(high, abs=1e-6)
    assert block.triangles.max() == len(block.corners) - 1 >= block.edges.max()


def test_each_kind_lies_together_and_everything_is_there(sent: tuple[Assessment, Block]) -> None:
    her, block = sent
    kinds = [ORDER.index(str(body["kind"])) for body in block.bodies]
    assert kinds == sorted(kinds)
    ends = [int(str(body["first"])) + int(str(body["count"])) for body in block.bodies]
    assert [int(str(body["first"])) for body in block.bodies] == [0, *ends[:-1]]
    assert ends[-1] == block.triangles.size
    paths = {str(body["path"]) for body in block.bodies}
    assert paths == {thing.path for thing in things(her)} | {
        f"region[{i}]" for i, _ in enumerate(her.boat.regions, 1)
    }


def test_it_is_made_once_for_each_state_of_her_file(sprat: Page) -> None:
    first = sprat.client.get("/board/solid").content
    kept = sprat.desk.kept["in 3D"]
    assert sprat.client.get("/board/solid").content == first
    assert sprat.desk.kept["in 3D"] is kept
    put(sprat.desk, "region[1].thickness", "2.5 mm")
    assert sprat.client.get("/board/solid").content != first


RIM = np.sqrt(2 * np.pi * 0.25 / (24 * np.sin(np.pi / 12)))  # of a 24-gon as large as a circle [m]


@pytest.mark.parametrize(
    ("mesh", "corners", "edges", "long"),
    [
        (box(3.0, 2.0, 1.0), 24, 12, 4 * (3.0 + 2.0 + 1.0)),
        (cylinder(1.0, 4.0, 24), 96, 48, 48 * 2 * RIM * np.sin(np.pi / 24)),
        (sphere(1.0, 48), len(sphere(1.0, 48).vertices), 0, 0.0),
    ],
)
def test_a_mesh_is_parted_where_faces_meet_at_an_angle(
    mesh: Mesh, corners: int, edges: int, long: float
) -> None:
    """A box has eight corners on three faces each, a cylinder two rims, a ball no edge."""
    parted, sharp = creased(mesh)
    assert (len(parted.vertices), len(sharp)) == (corners, edges)
    assert np.array_equal(parted.corners, mesh.corners)
    ends = parted.vertices[sharp]
    assert np.linalg.norm(ends[:, 0] - ends[:, 1], axis=1).sum() == pytest.approx(long)


def test_the_bundle_is_of_the_pinned_version_and_builds_no_code() -> None:
    """The page's content security policy has no unsafe-eval and no worker from a blob."""
    lock = (ROOT / "package-lock.json").read_text("utf-8")
    pinned = json.loads(lock)["packages"]["node_modules/three"]["version"]
    bundle = BUNDLE.read_text("utf-8")
    assert f"three.js {pinned}, MIT licence" in bundle.split("\n", 1)[0]
    assert "three.js authors" in BUNDLE.with_name("three.LICENSE").read_text("utf-8")
    assert not [word for word in ("eval(", "new Function", "new Worker", "blob:") if word in bundle]
    assert "resolved" not in lock
    assert "http" not in lock
