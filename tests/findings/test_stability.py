"""BG dived and GM at every filling, on the crate with her works raised."""

from math import degrees, sqrt

import pytest
from tests.findings.checks import assert_mended, one, ran
from tests.rest.crate import crate
from tests.said import mend_of, what_of

from trimdive.assessment import Assessment

FORE, AFT = "x = 620\nz = 40", "x = 380\nz = 40"


def raised(z: float) -> Assessment:
    """Return the crate with both her works at this height [mm]."""
    return crate(fore=f"{FORE} -> x = 620\nz = {z}", aft=f"{AFT} -> x = 380\nz = {z}")


def test_bg_sinks_by_what_is_raised() -> None:
    """2934.7 g raised 15 mm take 44.0 kg mm off M BG: 5.2 mm on 8.49 kg."""
    loss = 2.9347 * 0.015 / raised(55).dived.displacement_mass
    assert crate().bg - raised(55).bg == pytest.approx(loss, abs=1e-6)


def test_bg_too_small_and_mended() -> None:
    boat = raised(55)
    found = one("bg-least", boat)
    assert f"BG {boat.bg * 1e3:.1f} mm;" in what_of(found)
    assert "4 mm wanted" in what_of(found).replace("4.0", "4")
    assert "works" in mend_of(found)
    assert_mended(found, boat)


def test_parts_are_lowered_onto_the_cylinder_and_no_lower() -> None:
    """Works 60 broad, 40 high in a bore of 114: middle at 60 - √(57² - 30²) + 20 = 31.5 mm."""
    heights = [dict(edit.fields)["z"] for edit in one("bg-least", raised(55)).edits]
    lowest = 0.060 - sqrt(0.057**2 - 0.030**2) + 0.020
    assert heights == [pytest.approx(lowest, abs=1e-9)]


def test_bg_at_the_limit() -> None:
    boat = raised(55)
    share = boat.bg / boat.floater.length
    assert ran("bg-least", boat, share * (1 - 1e-9)) == ()
    assert len(ran("bg-least", boat, share * (1 + 1e-9))) == 1
    assert ran("bg-least", crate()) == ()


def test_pairs_that_would_do_the_same_are_told_with_their_masses() -> None:
    """M gain = F (h - added (BG + gain)), F the pull of each: solved here by hand for the lead."""
    boat = raised(55)
    gain = 0.004 - boat.bg
    rho, lead, foam = boat.floater.density, 11340.0, 33.0  # foam of the table of materials
    added = 1 / (1 - rho / lead) + foam / (rho - foam)
    high, low = 0.110, 0.008
    pull = boat.dived.displacement_mass * gain / (high - low - added * 0.004)
    grams = pull / (1 - rho / lead) * 1e3
    assert f"{grams:.0f} g of lead" in mend_of(one("bg-least", boat))


def test_least_gm_is_told_with_its_filling() -> None:
    boat = raised(47)
    found = one("gm-least", boat)
    least = boat.down.least_gm
    assert least.state.gm_t < 0.003
    assert f"at {least.filling * 100:.0f} % full" in what_of(found)
    assert_mended(found, boat)


def test_gm_at_the_limit() -> None:
    boat = raised(47)
    least = min(m.state.gm_t for m in boat.dive)
    assert ran("gm-least", boat, least) == ()
    assert len(ran("gm-least", boat, least * (1 + 1e-9))) == 1
    assert ran("gm-least", crate()) == ()


def test_she_will_not_stand_upright() -> None:
    """Works 30 mm up take 11 mm off a GM of 5: she lolls, and lowered she stands."""
    boat = raised(60)
    found = one("gm-least", boat)
    lean = max(abs(degrees(m.state.heel)) for m in boat.down.moments)
    assert "will not stand upright" in what_of(found)
    assert lean == pytest.approx(180, abs=0.1)  # free to turn, so top-heavy a crate goes over
    assert what_of(found).endswith("she turns over")
    assert found.rank > one("gm-least", raised(47)).rank
    assert_mended(found, boat)


def test_a_lean_by_weight_is_no_loll() -> None:
    boat = crate(works=f"{FORE} -> x = 620\ny = 4\nz = 40")
    assert abs(degrees(boat.surfaced.heel)) > 3
    assert all("upright" not in what_of(each) for each in ran("gm-least", boat))
