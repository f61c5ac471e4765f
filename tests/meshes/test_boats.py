"""Meshes in boat files: units, axes, scale, pieces and repairs, and what is said of them."""

from pathlib import Path

import numpy as np
import pytest
import trimesh
from tests.meshes.boats import BROAD, HIGH, LONG, REGION, boat, hull
from tests.meshes.shapes import as_file, inverted, together, without
from tests.said import mend_of, what_of

from trimdive.assessment import Assessment
from trimdive.errors import GeometryError, TrimdiveError
from trimdive.geometry.lines.mesh import volume


def of(her: Assessment, key: str) -> list[str]:
    return [what_of(one) for one in her.first_findings if one.key == key]


def test_a_clean_mesh(tmp_path: Path) -> None:
    her = boat(tmp_path, hull(), 'file_unit = "mm"\n')
    assert volume(her.hull.envelope) == pytest.approx(LONG * BROAD * HIGH, rel=1e-6)
    assert not of(her, "mesh-trouble")


@pytest.mark.parametrize(("name", "unit"), [("in", 0.0254), ("cm", 0.01), ("ft", 0.3048)])
def test_units(tmp_path: Path, name: str, unit: float) -> None:
    her = boat(tmp_path, hull(unit), f'file_unit = "{name}"\n')
    assert her.hull.envelope.bounds[1] == pytest.approx([LONG, BROAD / 2, HIGH], rel=1e-6)


def test_no_unit_is_asked_for(tmp_path: Path) -> None:
    with pytest.raises(GeometryError, match=r'do not say their unit.*file_unit = "mm"'):
        boat(tmp_path, hull(), "").hull  # noqa: B018


def test_drawn_at_full_size(tmp_path: Path) -> None:
    her = boat(tmp_path, hull(1 / 24), 'file_unit = "m"\nfile_scale = "1:24"\n')
    assert her.hull.envelope.bounds[1] == pytest.approx([LONG, BROAD / 2, HIGH], rel=1e-6)


def test_feet_read_as_metres_are_noticed(tmp_path: Path) -> None:
    her = boat(tmp_path, hull(0.3048), 'file_unit = "m"\n')
    assert "it is as long as she is only in feet" in of(her, "mesh-unit")[0]
    found = next(one for one in her.first_findings if one.key == "mesh-unit")
    assert not of(her.edited(found.edits), "mesh-unit")


@pytest.mark.parametrize(
    ("forward", "up"), [("y", "z"), ("-x", "z"), ("z", "y"), ("-y", "x"), ("x", "-z")]
)
def test_axes(tmp_path: Path, forward: str, up: str) -> None:
    """A lopsided hull is turned in the file, and turned back by forward and up."""
    shape = together(hull(), _mark())
    axes = [_axis(forward), np.cross(_axis(up), _axis(forward)), _axis(up)]
    drawn = trimesh.Trimesh(shape.vertices @ np.array(axes), shape.faces, process=False)
    more = f'file_unit = "mm"\nforward = "{forward}"\nup = "{up}"\nrepairs = ["union"]\n'
    (tmp_path / "plain").mkdir()
    plain = boat(tmp_path / "plain", shape, 'file_unit = "mm"\nrepairs = ["union"]\n')
    her = boat(tmp_path, drawn, more)
    assert her.hull.envelope.bounds == pytest.approx(plain.hull.envelope.bounds, abs=1e-7)
    assert volume(her.hull.envelope) == pytest.approx(volume(plain.hull.envelope), rel=1e-6)


def _mark() -> trimesh.Trimesh:
    """Return a block on the fore deck, to port."""
    shape = trimesh.creation.box((100.0, 20.0, 40.0))
    shape.apply_translation((500.0, 30.0, 90.0))
    return shape


def _axis(name: str) -> np.ndarray:
    vector = np.zeros(3)
    vector["xyz".index(name[-1])] = -1.0 if name.startswith("-") else 1.0
    return vector


def test_forward_and_up_along_one_axis(tmp_path: Path) -> None:
    with pytest.raises(GeometryError, match="both lie along z"):
        boat(tmp_path, hull(), 'file_unit = "mm"\nforward = "z"\n').hull  # noqa: B018


def test_places(tmp_path: Path) -> None:
    more = 'file_unit = "mm"\nx_aft = "20 mm"\ny = "5 mm"\nz_bottom = "10 mm"\n'
    low, high = boat(tmp_path, hull(), more).hull.envelope.bounds
    assert low == pytest.approx([0.02, 0.005 - BROAD / 2, 0.01], abs=1e-8)
    assert high == pytest.approx([0.02 + LONG, 0.005 + BROAD / 2, 0.01 + HIGH], abs=1e-8)


def test_several_pieces(tmp_path: Path) -> None:
    (tmp_path / "half.stl").write_bytes(as_file(trimesh.creation.box((300.0, 100.0, 80.0)), "stl"))
    region = REGION.replace("hull.stl", "half.stl")
    more = (
        'file_unit = "mm"\nx_aft = "0 mm"\nz_bottom = "0 mm"\nrepairs = ["union"]\n'
        '[[region.piece]]\nfile = "half.stl"\nfile_unit = "mm"\nx_aft = "300 mm"\n'
        'z_bottom = "0 mm"\n'
    )
    her = boat(tmp_path, hull(), more, region)
    assert volume(her.hull.envelope) == pytest.approx(LONG * BROAD * HIGH, rel=1e-6)
    assert her.hull.envelope.bounds[1, 0] == pytest.approx(LONG)


def test_a_piece_that_is_not_there(tmp_path: Path) -> None:
    more = 'file_unit = "mm"\n[[region.piece]]\nfile = "fore.stl"\nfile_unit = "mm"\n'
    with pytest.raises(TrimdiveError, match=r"there is no file 'fore\.stl'"):
        boat(tmp_path, hull(), more)


def test_inside_out_is_counted_right_and_said(tmp_path: Path) -> None:
    her = boat(tmp_path, inverted(hull()), 'file_unit = "mm"\n')
    assert volume(her.hull.envelope) == pytest.approx(LONG * BROAD * HIGH, rel=1e-6)
    assert "inside out (counted as if turned)" in of(her, "mesh-trouble")[0]
    found = next(one for one in her.first_findings if one.key == "mesh-trouble")
    assert dict(found.edits[0].fields) == {"repairs": ("flip",)}
    assert not of(her.edited(found.edits), "mesh-trouble")


def bars(*ends: tuple[int, int], turned: int) -> trimesh.Trimesh:
    """Return bars 100 mm broad and 80 mm high from end to end, one of them inside out."""
    made: list[trimesh.Trimesh] = []
    for k, (a, b) in enumerate(ends):
        bar = trimesh.creation.box(bounds=[[a, -50, 0], [b, 50, 80]])
        made.append(inverted(bar) if k == turned else bar)
    return together(*made)


def test_one_body_of_two_inside_out_is_counted_as_if_turned(tmp_path: Path) -> None:
    """By hand: two bars of 250 × 100 × 80 mm."""
    more = 'file_unit = "mm"\nsealed = true\n'
    her = boat(tmp_path, bars((0, 250), (350, 600), turned=1), more)
    assert her.hull.skins[0].shape_volume == pytest.approx(2 * 0.25 * BROAD * HIGH, rel=1e-6)
    assert "1 of its 2 bodies is inside out (counted as if turned)" in of(her, "mesh-trouble")[0]


def test_an_inverted_body_that_laps_another_is_checked_and_mended(tmp_path: Path) -> None:
    """By hand: bars of 350 mm lapped by 100 mm; each trouble has a repair that ends it."""
    her = boat(tmp_path, bars((0, 350), (250, 600), turned=1), 'file_unit = "mm"\nsealed = true\n')
    answer = of(her, "mesh-trouble")
    assert len(answer) == 2
    assert "overlap by 0.800 L" in answer[1]
    for _ in answer:
        her = her.edited(next(one for one in her.first_findings if one.key == "mesh-trouble").edits)
    assert not of(her, "mesh-trouble")
    assert volume(her.hull.envelope) == pytest.approx(LONG * BROAD * HIGH, rel=1e-6)


def test_meshes_of_one_region_that_lap(tmp_path: Path) -> None:
    """By hand: two boxes of 300 mm, the second from 280 mm on: 20 × 100 × 80 mm in common."""
    (tmp_path / "half.stl").write_bytes(as_file(trimesh.creation.box((300.0, 100.0, 80.0)), "stl"))
    region = REGION.replace("hull.stl", "half.stl")
    more = (
        'file_unit = "mm"\nx_aft = "0 mm"\nz_bottom = "0 mm"\nsealed = true\n'
        '[[region.piece]]\nfile = "half.stl"\nfile_unit = "mm"\nx_aft = "280 mm"\n'
        'z_bottom = "0 mm"\n'
    )
    her = boat(tmp_path, hull(), more, region)
    assert "the meshes of hull overlap by 0.160 L" in of(her, "mesh-trouble")[0]
    found = next(one for one in her.first_findings if one.key == "mesh-trouble")
    assert not of(her.edited(found.edits), "mesh-trouble")


def test_a_part_that_counts_something_twice_is_refused(tmp_path: Path) -> None:
    for turned, says in ((1, "a body of it is inside out"), (-1, "which counts twice")):
        (tmp_path / "part.stl").write_bytes(as_file(bars((0, 30), (20, 50), turned=turned), "stl"))
        part = '[[part]]\nname = "block"\nshape = "mesh"\nmesh = "part.stl"\nfile_unit = "mm"\n'
        place = 'x = "300 mm"\ny = "0 mm"\nz = "20 mm"\nmass = "10 g"\nmaterial = "PETG"\n'
        with pytest.raises(GeometryError, match=says):
            boat(tmp_path, hull(), 'file_unit = "mm"\n' + part + place).floater  # noqa: B018


def test_a_hole_is_refused_until_the_boat_file_lets_it_be_capped(tmp_path: Path) -> None:
    ball = trimesh.creation.icosphere(subdivisions=4, radius=300.0)
    shape = without(ball, 5)
    with pytest.raises(GeometryError, match=r'hull.stl: it is not closed: .*repairs = \["cap"\]'):
        boat(tmp_path, shape, 'file_unit = "mm"\n').hull  # noqa: B018
    her = boat(tmp_path, shape, 'file_unit = "mm"\nrepairs = ["cap"]\n')
    assert volume(her.hull.envelope) == pytest.approx(ball.volume * 1e-9, rel=1e-3)


def test_a_large_hole_is_to_be_closed_where_it_was_drawn(tmp_path: Path) -> None:
    with pytest.raises(GeometryError, match="Close it where it was drawn"):
        boat(tmp_path, without(hull(), 0), 'file_unit = "mm"\n').hull  # noqa: B018


def test_a_repair_that_there_is_not(tmp_path: Path) -> None:
    with pytest.raises(TrimdiveError, match="weld"):
        boat(tmp_path, hull(), 'file_unit = "mm"\nrepairs = ["polish"]\n')


def test_overlapping_bodies_of_one_mesh(tmp_path: Path) -> None:
    her = boat(tmp_path, together(hull(), _mark()), 'file_unit = "mm"\n')
    assert "overlap" in of(her, "mesh-trouble")[0]
    common = 0.1 * 0.02 * 0.01  # of the block, 10 mm lies under the deck
    mended = her.edited(next(one for one in her.first_findings if one.key == "mesh-trouble").edits)
    whole = LONG * BROAD * HIGH + 0.1 * 0.02 * 0.04 - common
    assert volume(mended.hull.envelope) == pytest.approx(whole, rel=1e-6)
    assert not of(mended, "mesh-trouble")


def test_a_hull_drawn_about_its_middle_is_asked_about_and_moved(tmp_path: Path) -> None:
    """By hand: half its length lies aft of zero; LCB from the stern is half its length."""
    her = boat(tmp_path, trimesh.creation.box((600.0, 100.0, 80.0)), 'file_unit = "mm"\n')
    assert float(her.hull.envelope.bounds[0, 0]) == pytest.approx(-0.3)
    assert of(her, "mesh-origin") == [
        "hull (hull.stl) begins 300 mm aft of and 40.0 mm below the zero of its drawing, but "
        "places are counted from the aftermost point and from the keel"
    ]
    moved = her.edited(next(one for one in her.first_findings if one.key == "mesh-origin").edits)
    assert moved.hull.envelope.bounds[0] == pytest.approx([0.0, -0.05, 0.0], abs=1e-9)
    assert moved.surfaced.lcb == pytest.approx(0.3, abs=1e-4)
    assert not of(moved, "mesh-origin")


def test_a_hull_with_parts_by_the_drawing_is_left_where_it_is(tmp_path: Path) -> None:
    part = '[[part]]\nname = "motor"\nx = "-200 mm"\ny = "0 mm"\nz = "0 mm"\nmass = "50 g"\n'
    part += 'material = "steel"\n'
    shape = trimesh.creation.box((600.0, 100.0, 80.0))
    her = boat(tmp_path, shape, 'file_unit = "mm"\n' + part)
    found = next(one for one in her.first_findings if one.key == "mesh-origin")
    assert "move them too" in mend_of(found)
    assert found.edits == ()


def test_a_hull_that_begins_at_zero_is_not_asked_about(tmp_path: Path) -> None:
    assert not of(boat(tmp_path, hull(), 'file_unit = "mm"\n'), "mesh-origin")


def fin(low: float, high: float) -> trimesh.Trimesh:
    """Return a fin on top of the hull amidships, from one height to another [mm]."""
    return trimesh.creation.box(bounds=[[250, -10, low], [350, 10, high]])


FIN = REGION.replace('"hull"', '"fin"').replace("hull.stl", "fin.stl") + 'file_unit = "mm"\n'
MYRING = (
    '[[region]]\nname = "pod"\nsurface = "myring"\nnose = "100 mm"\nmiddle = "100 mm"\n'
    'tail = "100 mm"\ndiameter = "60 mm"\npower = 2\ntail_angle = "20°"\nx_aft = "150 mm"\n'
    'z = "40 mm"\nmaterial = "GRP"\nthickness = "2 mm"\n'
)


def test_a_fin_that_reaches_into_the_hull_drawn_before_it(tmp_path: Path) -> None:
    """By hand: 100 × 20 × 10 mm."""
    (tmp_path / "fin.stl").write_bytes(as_file(fin(70, 110), "stl"))
    her = boat(tmp_path, hull(), 'file_unit = "mm"\n' + FIN)
    assert of(her, "mesh-overlap") == ["fin reaches into hull: 0.020 L of it counts twice"]


def test_one_mesh_twice_in_places_that_lap(tmp_path: Path) -> None:
    """The same file names two regions: by hand 500 × 100 × 80 mm in common."""
    again = REGION.replace('name = "hull"', 'name = "twin"')
    more = f'file_unit = "mm"\n{again}file_unit = "mm"\nx_aft = "100 mm"\n'
    assert of(boat(tmp_path, hull(), more), "mesh-overlap") == [
        "twin reaches into hull: 4.000 L of it counts twice"
    ]


def test_a_round_body_named_after_the_mesh_that_it_fills(tmp_path: Path) -> None:
    her = boat(tmp_path, hull(), 'file_unit = "mm"\n' + MYRING)
    found = next(one for one in her.first_findings if one.key == "mesh-overlap")
    assert "hull reaches into pod" in what_of(found)
    assert mend_of(found).startswith("Name hull after pod")
    assert found.edits == ()
