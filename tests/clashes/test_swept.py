"""The space that moving things sweep, against closed forms and against points moved with them.

A thin plate of length L swung by ±θ about an edge sweeps the sector L²θ, and half its own area to
either side of that: L·t in all. A round thing swung about its own axis sweeps itself.
"""

from math import pi
from pathlib import Path
from shutil import copytree

import numpy as np
import pytest
import trimesh
from tests.page.conftest import BOATS

from trimdive import Assessment, assess
from trimdive.arranging.pockets import pockets
from trimdive.boatfile import Travel
from trimdive.boatfile.placing import Pocket
from trimdive.errors import BoatFileError
from trimdive.geometry.clashes.found import touches
from trimdive.geometry.clashes.scene import with_shape
from trimdive.geometry.clashes.shapes import Shape, meets, of_mesh
from trimdive.geometry.clashes.swept import swept
from trimdive.geometry.lines.mesh import Mesh
from trimdive.placing.solve.free import room

PLATE = Shape(form="box", place=(0.3, 0.02, 0.1), size=(0.1, 0.002, 0.05))


def test_a_plate_that_slides_sweeps_a_box() -> None:
    found = swept(PLATE, Travel(slides=0.2, way="up"))
    assert found.volume == pytest.approx(0.1 * 0.002 * 0.25, rel=1e-9)
    assert found.spans[2] == pytest.approx((0.075, 0.325))


def test_the_one_to_starboard_slides_outward_to_starboard() -> None:
    port = swept(PLATE, Travel(slides=0.05, way="outward"))
    other = Shape(form="box", place=(0.3, -0.02, 0.1), size=PLATE.size)
    starboard = swept(other, Travel(slides=0.05, way="outward"))
    assert port.spans[1] == pytest.approx((0.019, 0.071))
    assert starboard.spans[1] == pytest.approx((-0.071, -0.019))


@pytest.mark.parametrize("angle", [0.2, 0.6, 1.4])
def test_a_plate_that_swings_about_its_edge_sweeps_a_sector(angle: float) -> None:
    found = swept(PLATE, Travel(swings=angle, about="z", ahead=0.05))
    assert found.volume == pytest.approx((0.1**2 * angle + 0.1 * 0.002) * 0.05, rel=1e-3)


def test_a_stock_that_turns_about_its_axis_sweeps_itself() -> None:
    stock = Shape(form="round", place=(0, 0, 0), size=(0.02, 0.02, 0.1), axis=2)
    found = swept(stock, Travel(swings=0.6, about="z"))
    assert found.volume == pytest.approx(pi / 4 * 0.02**2 * 0.1, rel=3e-3)


def test_a_mesh_sweeps_all_that_its_points_reach() -> None:
    """Turned by any angle, hardly anything of a bent part stands out of the space: trimesh."""
    bent = trimesh.boolean.union(
        [trimesh.creation.box((0.06, 0.01, 0.01)),
         trimesh.creation.box((0.01, 0.01, 0.05), trimesh.transformations.translation_matrix(
             (0.03, 0, 0.02)))], engine="manifold",
    )  # fmt: skip
    mesh = Mesh(vertices=np.array(bent.vertices), triangles=np.array(bent.faces))
    found = swept(of_mesh(mesh), Travel(swings=0.5, about="y"))
    assert found.mesh is not None
    space = trimesh.Trimesh(found.mesh.vertices, found.mesh.triangles)
    rng, middle = np.random.default_rng(4), mesh.bounds.mean(axis=0)
    for angle in rng.uniform(-0.5, 0.5, 8):
        turned = bent.copy()
        turned.apply_transform(trimesh.transformations.rotation_matrix(angle, (0, 1, 0), middle))
        left = trimesh.boolean.difference([turned, space], engine="manifold")
        assert left.volume < 1e-3 * bent.volume


def with_rudder(tmp_path: Path, moving: str, name: str = "rudders with stocks") -> Assessment:
    """Return Bittern with a part that moves."""
    file = Path(copytree(BOATS / "bittern", tmp_path / "bittern")) / "boat.toml"
    text = file.read_text("utf-8")
    assert f'name = "{name}"' in text
    line = f'moving = {moving}\nname = "{name}"'
    file.write_text(text.replace(f'name = "{name}"', line, 1), "utf-8")
    return assess(file)


def test_what_a_moving_part_meets_is_found_and_nothing_else_changes(tmp_path: Path) -> None:
    free = with_rudder(tmp_path / "a", '{ swings = "20°", ahead = "12 mm" }')
    assert not [one for one in free.first_findings if one.key == "room-moving"]
    far = with_rudder(tmp_path / "b", '{ slides = "400 mm", way = "forward" }')
    (found,) = [one for one in far.first_findings if one.key == "room-moving"]
    assert found.form.endswith(".moving")
    assert found.stands is not None
    assert found.stands > 0.001
    others = [one for one in far.first_findings if one is not found]
    assert {one.about for one in others} == {one.about for one in free.first_findings}
    assert far.floater.mass == free.floater.mass


@pytest.mark.parametrize(
    ("moving", "says"),
    [
        ('{ way = "up" }', "neither slides nor swings"),
        ('{ swings = "0°" }', "half a turn"),
        ('{ swings = "200°" }', "half a turn"),
        ('{ slides = "-3 mm" }', "is not more than 0"),
    ],
)
def test_a_movement_that_is_none_is_refused(tmp_path: Path, moving: str, says: str) -> None:
    with pytest.raises(BoatFileError, match=says):
        with_rudder(tmp_path, moving)


def test_nothing_is_placed_where_a_part_moves(tmp_path: Path) -> None:
    still = with_rudder(tmp_path / "a", '{ swings = "1°" }')
    far = with_rudder(tmp_path / "b", '{ slides = "400 mm", way = "forward" }')
    ((one, space), *_) = far.scene.aboard.moving
    middle = np.array([space.place])
    for her, is_free in ((still, True), (far, False)):
        moving = [(one.path, each.surface) for one, each in her.scene.aboard.moving]
        found = room(her.boat, her.hull.envelope, (), frozenset(), moving)
        assert bool(found.is_free(middle)[0]) is is_free
        assert bool(room(her.boat, her.hull.envelope, (), frozenset(), ()).is_free(middle)[0])
        assert bool(
            room(her.boat, her.hull.envelope, (), frozenset({one.path}), moving).is_free(middle)[0]
        )


def test_nothing_is_moved_or_arranged_into_the_way_of_a_moving_part(tmp_path: Path) -> None:
    still = with_rudder(tmp_path / "a", '{ swings = "1°" }')
    far = with_rudder(tmp_path / "b", '{ slides = "400 mm", way = "forward" }')
    ((one, space), *_) = far.scene.aboard.moving
    foam = next(each for each in far.scene.aboard.solids if each.kind == "foam")
    there = with_shape(foam, Shape(form="box", place=space.place, size=(0.01, 0.002, 0.01)))
    assert not far.scene.is_clear([there])
    gone = far.scene.is_clear([there], frozenset({one.path}))
    assert gone is still.scene.is_clear([there], frozenset({one.path})), "of the part alone"
    for pocket in pockets(far):
        box = of_pocket(pocket)
        assert not meets(space, box) or touches(space, box, 0.0), pocket.name


def of_pocket(pocket: Pocket) -> Shape:
    """Return the box of a pocket, the one to port of a pair."""
    low = np.array([pocket.x_aft, pocket.y_starboard, pocket.z_bottom])
    high = np.array([pocket.x_fore, pocket.y_port, pocket.z_top])
    return Shape("box", tuple((low + high) / 2), tuple(high - low))
