"""How she floats, whether she goes under: a passing, a failing and an at-the-limit crate."""

from math import degrees

import pytest
from tests.findings.checks import about, assert_mended, one, part, ran
from tests.rest.crate import crate
from tests.said import mend_of, what_of

from trimdive.assessment import Assessment
from trimdive.findings import Edit

RHO, LEAD = 999.1026, 11340.0
WORKS = 'mass = 1467.35\nknown = "weighed"\nx = 620'


def test_the_crate_is_in_order() -> None:
    assert crate().first_findings == ()
    assert crate().in_order


def test_floats_high_by_what_is_missing() -> None:
    """20 g net short at x 500: 20 g over 4.78 g a millimetre, and 20 / (1 - ρ / ρ_lead) of lead.

    The waterplane is the edge of the skin: 1000 × 200 less 996 × 196 mm, 4784 mm².
    """
    missing = 0.020 / (1 - RHO / LEAD)
    boat = crate(lead=f"mass = 799.8 -> mass = {799.8 - missing * 1e3:.6f}")
    found = one("waterline-band", boat)
    high = 0.020 / RHO / 4784e-6
    assert 0.130 - boat.surfaced.draught(0.5) == pytest.approx(high, abs=2e-5)
    assert "4.2 mm high amidships" in what_of(found)
    fields = dict(found.edits[0].fields)
    assert fields["mass"] == pytest.approx(missing, rel=2e-3)
    assert fields["x"] == pytest.approx(0.5, abs=1e-3)
    after = assert_mended(found, boat)
    assert after.surfaced.draught(0.5) == pytest.approx(0.130, abs=1e-4)


def test_lead_is_put_where_it_also_levels_her() -> None:
    """What is missing is 100 g net at x 600: the sum of moments says so, and she is level after."""
    boat = crate(
        works=f'{WORKS} -> mass = 1367.35\nknown = "weighed"\nx = '
        f"{(1467.35 * 620 - 100 * 600) / 1367.35:.6f}"
    )
    found = one("waterline-band", boat)
    assert dict(found.edits[0].fields)["x"] == pytest.approx(0.6, abs=1e-4)
    after = assert_mended(found, boat)
    assert degrees(after.surfaced.trim_angle) == pytest.approx(0.0, abs=0.01)


def test_lead_for_a_sloping_waterline() -> None:
    """6 mm deeper aft than forward: the lead brings her to that slope, not to level."""
    line = "[waterline]\naft = { x = 0, height = 133 }\nfore = { x = 1000, height = 127 }"
    boat = crate(line=f"[waterline]\nheight = 130 -> {line}", lead="mass = 799.8 -> mass = 600")
    found = one("waterline-band", boat)
    after = assert_mended(found, boat)
    assert after.surfaced.draught(0.0) == pytest.approx(0.133, abs=2e-4)
    assert after.surfaced.draught(1.0) == pytest.approx(0.127, abs=2e-4)


def test_floats_low_by_what_is_too_much() -> None:
    boat = crate(part("load", 'mass = 60; x = 500; z = 40; inside = "cylinder"'))
    found = one("waterline-band", boat)
    assert "low amidships" in what_of(found)
    assert "60 g" in mend_of(found)
    assert_mended(found, boat)


def test_what_is_too_much_is_taken_where_it_is_too_much() -> None:
    """60 g too many at x 400, in the dry: 60 g out of there, or 60 / (1 - ρ / ρ_lead) of lead."""
    boat = crate(part("load", 'mass = 60; x = 400; z = 40; inside = "cylinder"'))
    found = one("waterline-band", boat)
    assert "Remove 60 g from her cylinders" in mend_of(found)
    assert f"{60 / (1 - RHO / LEAD):.0f} g of her lead" in mend_of(found)
    assert "400 mm from the stern" in mend_of(found)


def test_lead_is_not_shifted_out_of_the_hull() -> None:
    """1467 g moved 200 mm are 293 kg mm; her lead, 729 g under water, would go 402 mm.

    It is 220 mm long in the middle of a hull of 1000: it may go 390 mm at the most.
    """
    near = one("trim-surfaced", crate(works="x = 620 -> x = 640"))
    assert "all the lead" in mend_of(near)
    found = one("trim-surfaced", crate(works="x = 620 -> x = 820"))
    assert "all the lead" not in mend_of(found)
    assert "by 250 mm" in mend_of(found)  # a quarter of her length
    assert found.edits == ()


def test_waterline_at_the_limit() -> None:
    boat = crate(lead="mass = 799.8 -> mass = 690.1")
    off = 0.130 - boat.surfaced.draught(0.5)
    assert ran("waterline-band", boat, off * (1 + 1e-9)) == ()
    assert len(ran("waterline-band", boat, off * (1 - 1e-9))) == 1


def test_too_heavy_to_float_at_all() -> None:
    """All of her displaces 8.49 L: 8 561.7 g of dry mass are 71 g too many."""
    boat = crate(part("load", 'mass = 700; x = 500; z = 40; inside = "cylinder"'))
    found = one("waterline-band", boat)
    over = boat.floater.mass - RHO * boat.floater.volume
    assert boat.surfaced.rest.excess == pytest.approx(over, abs=1e-6)
    assert f"{over * 1e3:.0f} g" in what_of(found)
    assert "sinks" in what_of(found)
    assert boat.first_findings[0].about == found.about  # nothing is worse


def test_stays_up_with_her_tank_full() -> None:
    boat = crate(tank="length = 72 -> length = 50")
    found = one("neutral-band", boat)
    light = RHO * (629.632e-6 - boat.need.fitted)
    assert boat.light_by == pytest.approx(light, abs=5e-5)
    assert f"{light * 1e3:.0f} g" in what_of(found)


def test_with_any_lift_at_all_she_stays_up_and_is_not_in_order() -> None:
    """The tank holds π/4 · 114² · 72 = 734.9 cm³ and 629.6 are needed (by hand): 105 g to spare.

    Lighter by 106 g under water she stays up by 1 g: near enough to neutral, and told all the same.
    """
    assert ran("neutral-band", crate(), 0.0) == ()
    spare = -crate().light_by
    net = 1 - RHO / 11340  # of lead's mass that counts under water
    lift = [
        crate(lead=f"mass = 799.8 -> mass = {799.8 - (spare * 1e3 + more) / net}")
        for more in (-1.0, 1.0)
    ]
    assert lift[0].full.rest.under
    found = one("neutral-band", lift[1])
    assert "she will not dive: 1.0 g light" in what_of(found)
    assert "Tanks blown she weighs 106 g too little for her waterline" in mend_of(found)


def test_a_few_grams_short_of_diving_she_is_told_the_lead(grebe: Assessment) -> None:
    """Lead 1 at 155 g in place of 216: 61 g short, within the band of her waterline (by hand)."""
    edit = Edit(action="set", path="lead[1]", fields=(("mass", 0.155),))
    her = grebe.edited((edit,))
    found = one("neutral-band", her)
    assert her.urgent
    assert "Add 61 g of lead" in mend_of(found)
    assert her.edited(found.edits).urgent == 0


def test_down_by_the_bow() -> None:
    """1467.35 g moved 20 mm forward are 29.3 kg mm; shifting all the lead balances most of it."""
    boat = crate(works="x = 620 -> x = 640")
    found = one("trim-surfaced", boat)
    assert boat.surfaced.trim_angle > 0
    assert "bow down" in what_of(found)
    after = assert_mended(found, boat)
    assert abs(degrees(after.surfaced.trim_angle)) < 0.12 * degrees(boat.surfaced.trim_angle)


def test_the_shift_of_lead_levels_her() -> None:
    boat = crate(works="x = 620 -> x = 640")
    after = boat.edited(one("trim-surfaced", boat).edits)
    assert degrees(after.surfaced.trim_angle) == pytest.approx(0.0, abs=0.03)


def test_down_by_the_stern_has_the_other_sign() -> None:
    boat = crate(works="x = 620 -> x = 600")
    found = one("trim-surfaced", boat)
    assert "stern down" in what_of(found)
    assert_mended(found, boat)


def test_trim_is_measured_from_the_waterline_meant() -> None:
    """Level on a waterline that is meant to slope 0.7° she is 0.7° off."""
    line = "[waterline]\naft = { x = 0, height = 136 }\nfore = { x = 1000, height = 124 }"
    found = one("trim-surfaced", crate(line=f"[waterline]\nheight = 130 -> {line}"))
    assert "trim 0.7° bow down of her waterline" in what_of(found)


def test_trim_at_the_limit() -> None:
    boat = crate(works="x = 620 -> x = 640")
    angle = boat.surfaced.trim_angle
    assert ran("trim-surfaced", boat, angle * (1 + 1e-9)) == ()
    assert len(ran("trim-surfaced", boat, angle * (1 - 1e-9))) == 1


@pytest.mark.parametrize(
    ("y", "side", "other"), [(4, "port", "starboard"), (-4, "starboard", "port")]
)
def test_leans_to_the_side_of_the_weight(y: int, side: str, other: str) -> None:
    boat = crate(works=f"x = 620\nz = 40 -> x = 620\ny = {y}\nz = 40")
    both = ran("heel", boat)
    assert [found.subject for found in both] == ["on the surface", "dived"]
    for found in both:
        assert f"to {side}" in what_of(found)
        assert f"to {other}" in mend_of(found)
        assert mend_of(found) == f"Move fore works 4.0 mm to {other}, to the centreline."
        assert_mended(found, boat)


def test_heel_at_the_limit() -> None:
    boat = crate(works="x = 620\nz = 40 -> x = 620\ny = 1\nz = 40")
    most = max(abs(boat.surfaced.heel), abs(boat.dived.heel))
    assert ran("heel", boat, most * (1 + 1e-9)) == ()
    assert len(ran("heel", boat, most * (1 - 1e-9))) == 1


FOAM_TO_PORT = """
[[foam]]
name = "block"
volume = 30
density = "35 kg/m3"
x = 500
y = 70
z = 150
"""


def test_foam_to_one_side_leans_her_to_the_other() -> None:
    """30 cm³ of foam above the waterline and to port lift that side dived by 2.1 kg mm."""
    boat = crate(FOAM_TO_PORT)
    assert degrees(boat.dived.heel) > 1  # to starboard
    found = next(each for each in ran("heel", boat) if each.subject == "dived")
    assert what_of(found).startswith("dived at neutral: heel ")
    assert what_of(found).endswith("to starboard")


def test_findings_name_the_boat_once() -> None:
    assert about(crate(tank="length = 72 -> length = 50")) == {
        ("neutral-band", "boat"),
        ("tank-margin", "tanks"),
    }


def test_lead_where_water_stays_in_the_tank() -> None:
    """300 cm³ stay in a piston tank at its fixed end, about x 535: that is where they weigh."""
    tank = 'kind = "piston"\nwater_end = 550\nstroke = 100\nruns = "aft"\ndead_water = 300'
    boat = crate(
        tank=f"length = 72\nx = 500 -> {tank}",
        lead="mass = 799.8 -> mass = 690.1",
        fore=f'{WORKS} -> mass = 1317.35\nknown = "weighed"\nx = 620',
        aft=f'{WORKS.replace("620", "380")} -> mass = 1317.35\nknown = "weighed"\nx = 380',
    )
    after = boat.edited(one("waterline-band", boat).edits)
    assert after.surfaced.draught(0.5) == pytest.approx(0.130, abs=2e-4)
    assert degrees(after.surfaced.trim_angle) == pytest.approx(0.0, abs=0.02)
