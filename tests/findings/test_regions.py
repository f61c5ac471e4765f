"""Towers told with a bottom or shut, meshes of no likely size, and waterlines off the hull.

Volumes are boxes worked by hand; what is a slip of a unit is by the units themselves.
"""

from pathlib import Path

import numpy as np
import pytest
import trimesh
from tests.findings.checks import assert_mended, one, part, ran, with_answers
from tests.meshes.boats import boat, hull
from tests.meshes.shapes import as_file
from tests.rest.crate import crate
from tests.said import mend_of, what_of

from trimdive.assessment import Assessment
from trimdive.errors import GeometryError
from trimdive.findings import Edit, limit_of
from trimdive.findings.regions import unit_instead
from trimdive.text.say import Say

TOWER = """
[[region]]
name = "tower"
surface = "prism"
outline = "box"
x_aft = 450
x_fore = 550
breadth = 40
z_bottom = 170
z_top = 240
density = "1.60 g/cm3"
{}
"""
ROOM = 100 * 40 * 60 * 1e-9  # from the deck at 180 mm to its top [m³]


def test_a_tower_told_with_a_bottom_where_it_stands_on_the_hull() -> None:
    boat = crate(TOWER.format("thickness = 2"))
    found = one("tower-floor", boat)
    assert "240 cm³ of air" in what_of(found, Say(boat.boat))
    assert "enter it as open below" in mend_of(found)
    assert "drill it" in mend_of(found)
    assert_mended(found, boat)


def test_the_room_over_a_bottom_at_the_limit() -> None:
    facts = crate(TOWER.format("thickness = 2"))
    assert ran("tower-floor", facts, ROOM * (1 + 1e-6)) == ()
    assert len(ran("tower-floor", facts, ROOM * (1 - 1e-6))) == 1


def test_a_tower_without_a_bottom_and_one_beside_the_hull_have_none() -> None:
    assert ran("tower-floor", crate(TOWER.format("thickness = 2\nopen_below = true"))) == ()
    high = TOWER.format("thickness = 2").replace("z_bottom = 170", "z_bottom = 181")
    assert ran("tower-floor", crate(high)) == ()


def test_a_moulding_told_as_sealed() -> None:
    """56 g at 1.60 g/cm³ are 35 cm³ of skin: 205 of the 240 cm³ are air."""
    boat = crate(TOWER.format("sealed = true\nmass = 56"))
    found = one("tower-shut", boat)
    assert "205 cm³ of air" in what_of(found, Say(boat.boat))
    assert "enter it as not sealed, open below" in mend_of(found)
    after = assert_mended(found, boat)
    assert after.need.volume == pytest.approx(boat.need.volume - 205e-6, rel=0.01)
    assert ran("tower-floor", after) == ()


def test_air_in_a_sealed_tower_at_the_limit() -> None:
    facts = crate(TOWER.format("sealed = true\nmass = 56"))
    assert ran("tower-shut", facts, (ROOM - 35e-6) * (1 + 1e-6)) == ()
    assert len(ran("tower-shut", facts, (ROOM - 35e-6) * (1 - 1e-6))) == 1
    assert ran("tower-shut", crate(TOWER.format("thickness = 2"))) == ()


def test_a_dry_hull_is_sealed_as_it_should_be() -> None:
    dry = crate(
        TOWER.format("sealed = true\nmass = 56"),
        hull="thickness = 2 -> thickness = 2\nsealed = true",
    )
    assert ran("tower-shut", dry) == ()


FIN = (
    '[[region]]\nname = "fin"\nsurface = "mesh"\nfile = "fin.stl"\nmaterial = "GRP"\n'
    'thickness = "{}"\nx_aft = "225 mm"\nz_bottom = "85 mm"\nfile_unit = "{}"\n'
)


def finned(folder: Path, unit: str, drawn: float = 1e-3, thick: str = "1 mm") -> Assessment:
    """Return a hull 600 mm long with a second mesh, a bar 150 mm long drawn in a unit [m]."""
    bar = trimesh.creation.box(np.array([0.15, 0.01, 0.04]) / drawn)
    (folder / "fin.stl").write_bytes(as_file(bar, "stl"))
    return boat(folder, hull(), 'file_unit = "mm"\n' + FIN.format(thick, unit))


def test_a_mesh_a_thousand_times_as_long_as_it_should_be(tmp_path: Path) -> None:
    """150 mm read as inches are 3810 mm, 6.35 times as long as she is; in metres it is refused."""
    with pytest.raises(GeometryError, match=r'150 m long.*"mm" is likely'):
        _ = finned(tmp_path, "m").hull
    her = finned(tmp_path, "in")
    found = one("mesh-large", her)
    assert "fin" in found.subject
    assert mend_of(found) == "Read its file in millimetres."
    after = assert_mended(found, her)
    assert ran("mesh-large", after) == ()
    assert ran("mesh-large", her, 5.35 * (1 + 1e-6)) == ()
    assert len(ran("mesh-large", her, 5.35 * (1 - 1e-6))) == 1


def test_a_mesh_a_thousandth_of_what_it_should_be(tmp_path: Path) -> None:
    her = finned(tmp_path, "mm")
    assert ran("mesh-small", her) == ()
    assert ran("mesh-small", her, 0.25 * (1 - 1e-6)) == ()  # 150 mm of 600
    assert len(ran("mesh-small", her, 0.25 * (1 + 1e-6))) == 1


def test_what_is_drawn_in_metres_and_read_in_centimetres(tmp_path: Path) -> None:
    """0.15 of a unit: 1.5 mm in centimetres, a four-hundredth of her; only in metres it fits."""
    her = finned(tmp_path, "cm", drawn=1.0, thick="0.02 mm")
    found = one("mesh-small", her)
    assert mend_of(found) == "Read its file in metres."
    assert her.first_findings[0].key == "mesh-small"
    assert_mended(found, her)


@pytest.mark.parametrize(
    ("share", "unit", "instead"),
    [(1e-3, "mm", "m"), (1e3, "m", "mm"), (0.0394, "in", None), (5.0, None, None)],
)
def test_the_unit_that_fits(share: float, unit: str | None, instead: str | None) -> None:
    assert unit_instead(share, unit) == instead


def test_a_waterline_at_the_top_of_the_hull() -> None:
    """The crate is 180 mm high: a waterline 1 mm below her deck cuts her, one higher does not."""
    facts = crate()
    n, _ = facts.waterline
    for height, found in ((179.0, 0), (179.01, 1), (1.0, 0), (0.99, 1)):
        off = with_answers(facts, waterline=(n, height / 1000))
        assert len(ran("waterline-place", off)) == found, height


def test_a_height_that_nobody_can_measure() -> None:
    """62 mm entered as 0.062 m in millimetres; nought itself is a place like another."""
    low = part("servo", 'mass = 5; x = 500; z = 0.062; inside = "cylinder"')
    boat = crate(low)
    found = one("figure-least", boat)
    assert what_of(found) == "servo, 0.062 mm above the keel line: 62.0 mm?"
    assert found.weight == "put right"
    assert_mended(found, boat)
    assert ran("figure-least", boat, 0.062e-3) == ()
    assert len(ran("figure-least", boat, 0.062e-3 * (1 + 1e-9))) == 1
    assert ran("figure-least", crate(low.replace("z = 0.062", "z = 0"))) == ()


def test_the_limit_of_a_slip_reads_in_words() -> None:
    limit = limit_of("slip", crate().boat)
    assert limit.value == 25
    assert f"{limit.text}: {limit.note}" == (
        "25 times: A slip is asked about when she is this much likelier without it"
    )


def test_lead_of_a_tenth_of_what_its_shape_weighs(grebe: Assessment) -> None:
    """64 g entered as 6.4: two strips of 154.5 × 4.15 × 4.4 mm hold 64 g at 11.34 g/cm³."""
    assert ran("lead-fill", grebe) == ()
    edit = Edit(action="set", path="lead[7]", fields=(("mass", 0.0064),))
    wrong = grebe.edited((edit,))
    found = one("lead-fill", wrong)
    assert "its shape in lead is 64" in what_of(found)
    share = 0.0064 / (2 * 0.1545 * 0.00415 * 0.0044 * 11340)
    assert ran("lead-fill", wrong, share * (1 - 0.002)) == ()
    assert len(ran("lead-fill", wrong, share * (1 + 0.002))) == 1
