"""Litres, where they lie, and what should not stand above the waterline, on the crate."""

import re
from math import atan, degrees, pi

import pytest
from tests.findings.checks import about, assert_mended, one, part, ran, with_answers
from tests.rest.crate import crate
from tests.said import mend_of, what_of

from trimdive.assessment import Assessment
from trimdive.boatfile import parse
from trimdive.errors import BoatError
from trimdive.findings import Edit
from trimdive.findings.works import to_level
from trimdive.text.say import Say

RHO = 999.1026
TANK = "length = 72\nx = 500"
HOUSE = 'x = 500; z = 220; shape = "box"; length = 60; breadth = 60; height = 60'
BLOCK = '[[foam]]\nname = "block"\nvolume = 25\ndensity = "35 kg/m3"\nx = {x}\nz = {z}\n'


def test_room_with_too_little_margin() -> None:
    """66 mm of 114 mm bore hold 673.7 cm³; 629.6 cm³ needed leave 7.0 %, 8 % wanted."""
    boat = crate(tank="length = 72 -> length = 66")
    room = pi / 4 * 0.114**2 * 0.066
    assert boat.need.margin == pytest.approx(room / 629.632e-6 - 1, rel=1e-6)
    found = one("tank-margin", boat)
    assert "674 cm³" in what_of(found, Say(boat.boat))
    assert "630 cm³" in what_of(found, Say(boat.boat))
    more = 629.632 * 1.08 - room * 1e6
    said = re.search(r"Find ([0-9.]+) cm³ more room", mend_of(found, Say(boat.boat)))
    assert said
    assert float(said[1]) == pytest.approx(more, abs=0.5)  # told in whole cm³
    assert "hull" in mend_of(found)


def test_room_at_the_limit() -> None:
    boat = crate()
    assert ran("tank-margin", boat, boat.need.margin) == ()
    assert len(ran("tank-margin", boat, boat.need.margin + 1e-9)) == 1
    assert ran("tank-margin", boat) == ()


def test_far_more_room_than_she_needs() -> None:
    """72 mm of tank hold 10 % more than 629.6 ml; 110 mm hold 68 % more."""
    boat = crate(tank="length = 72 -> length = 110")
    margin = boat.need.fitted / boat.need.volume - 1
    found = one("tank-most", boat)
    assert f"{margin * 100:.0f} % more" in what_of(found)
    assert f"{boat.need.volume / boat.need.fitted * 100:.0f} %" in mend_of(found)
    assert found.weight == "look at"
    assert ran("tank-most", boat, margin * (1 + 1e-9)) == ()
    assert len(ran("tank-most", boat, margin * (1 - 1e-9))) == 1
    assert ran("tank-most", crate()) == ()


def test_a_tank_off_is_left_alone_where_she_lies_level_in_both_states() -> None:
    """What lies off the middle is then made up for by something else."""
    boat = crate(tank=f"{TANK} -> length = 72\nx = 520")
    assert len(ran("tank-offset", boat)) == 1
    level = with_answers(boat, dived=crate().dived)
    assert ran("tank-offset", level) == ()


def test_no_tank_at_all() -> None:
    text = '[[tank]]\nname = "tank"\ninside = "cylinder"\nlength = 72\nx = 500\n'
    boat = crate(tank=f"{text} -> ")
    found = one("tank-margin", boat)
    assert "no tank" in what_of(found)
    assert "630 cm³" in what_of(found, Say(boat.boat))
    assert "500 mm" in mend_of(found)
    assert all(each.key != "tank-offset" for each in boat.first_findings)


def test_tank_off_the_middle_and_back() -> None:
    """Tank 20 mm forward, and the mend is 20 mm aft."""
    boat = crate(tank=f"{TANK} -> length = 72\nx = 520")
    found = one("tank-offset", boat)
    assert boat.need.offset == pytest.approx(0.020, abs=1e-7)
    assert what_of(found).replace("20.0", "20") == "tank water 20 mm too far forward"
    assert "Move tank 20 mm aft" in mend_of(found).replace("20.0", "20")
    assert dict(found.edits[0].fields)["x"] == pytest.approx(0.500, abs=1e-6)
    after = assert_mended(found, boat)
    assert after.first_findings == ()


def test_tank_aft_of_the_middle() -> None:
    boat = crate(tank=f"{TANK} -> length = 72\nx = 480")
    found = one("tank-offset", boat)
    assert what_of(found).endswith("too far aft")
    assert assert_mended(found, boat).first_findings == ()


def test_a_tank_takes_its_works_with_it_and_lead_balances_them() -> None:
    pump = part(
        "pump",
        'mass = 90; known = "weighed"; x = 515; z = 60; inside = "cylinder"; works_of = "tank"',
    )
    boat = crate(pump, tank=f"{TANK} -> length = 72\nx = 515")
    found = one("tank-offset", boat)
    moved = {edit.path: dict(edit.fields) for edit in found.edits}
    water = 629.632 - 90  # dived she takes so much less than what stands above the waterline [g]
    makes_up = 90 * 15 / water  # for the pump, which tips her a little by the bow as she floats
    assert moved["part[3]"]["x"] == pytest.approx(0.500 - makes_up / 1e3, abs=1e-5)
    assert set(moved) == {"tank[1]", "part[3]", "lead[1]"}
    assert "part[1]" not in moved  # farther off than the tank's own length
    assert_mended(found, boat)


def test_what_balances_the_works_leaves_the_trim_on_the_surface_as_it_was() -> None:
    """300 g of works moved 40 mm aft are 12 kg mm: the lead must balance all of it."""
    pump = part(
        "pump",
        'mass = 300; known = "weighed"; x = 540; z = 60; inside = "cylinder"; works_of = "tank"',
    )
    works = 'mass = 1467.35\nknown = "weighed"\nx = 620'
    less = 'mass = 1167.35\nknown = "weighed"\nx = 640.56'  # her weight and trim stay
    boat = crate(pump, tank=f"{TANK} -> length = 72\nx = 540", works=f"{works} -> {less}")
    assert degrees(boat.surfaced.trim_angle) == pytest.approx(0.0, abs=0.01)
    after = boat.edited(one("tank-offset", boat).edits)
    off = degrees(after.surfaced.trim_angle - boat.surfaced.trim_angle)
    assert off == pytest.approx(0.0, abs=0.02)


def test_piston_is_moved_by_its_water_end() -> None:
    piston = 'kind = "piston"\nwater_end = 560\nstroke = 72\nruns = "aft"'
    boat = crate(tank=f"{TANK} -> {piston}")
    found = one("tank-offset", boat)
    assert found.edits[0].fields[0][0] == "water_end"
    assert_mended(found, boat)


def test_tank_offset_at_the_limit() -> None:
    boat = crate(tank=f"{TANK} -> length = 72\nx = 504")
    tip = atan(
        boat.floater.density
        * boat.need.volume
        * boat.need.offset
        / (boat.dived.displacement_mass * boat.bg)
    )
    assert ran("tank-offset", boat, tip * (1 + 1e-9)) == ()
    assert len(ran("tank-offset", boat, tip * (1 - 1e-9))) == 1
    assert ran("tank-offset", crate()) == ()


def test_hanging_down_dived_though_level_on_top() -> None:
    boat = crate(tank=f"{TANK} -> length = 72\nx = 520")
    found = one("trim-dived", boat)
    trim = f"trim {degrees(boat.dived.trim_angle):.1f}° bow down"
    assert what_of(found) == f"dived at neutral: {trim}, though level on the surface"
    angle = boat.dived.trim_angle
    assert ran("trim-dived", boat, angle) == ()
    assert len(ran("trim-dived", boat, angle * (1 - 1e-9))) == 1
    assert ran("trim-dived", crate()) == ()


def house(hung: str, more: str = "") -> str:
    return part(
        "house",
        f'mass = 60; known = "weighed"; density = "1.2 g/cm3"; hung = {hung}; {HOUSE}{more}',
    )


def test_a_closed_house_pulls_up() -> None:
    """60 g in air, pulling up 100 g: 160.1 cm³, of which 50 cm³ are printed wall."""
    boat = crate(house("-100"))
    found = one("void-above", boat)
    void = 0.160 / 999.1 - 0.060 / 1200
    assert f"takes {void * 1e6:.0f} cm³ more ballast water" in what_of(found, Say(boat.boat))
    assert "pulls up 100 g" in what_of(found)
    after = assert_mended(found, boat)
    assert after.need.volume == pytest.approx(629.632e-6 + 50e-6, rel=1e-6)


def test_void_at_the_limit() -> None:
    boat = crate(house("-100"))
    void = 0.160 / 999.1 - 0.060 / 1200
    assert ran("void-above", boat, void * (1 + 1e-6)) == ()
    assert len(ran("void-above", boat, void * (1 - 1e-6))) == 1


def test_an_open_house_is_in_order() -> None:
    """Hung it weighs 10 g: 50 cm³, just its wall."""
    assert ran("void-above", crate(house("10"))) == ()


def test_a_void_below_the_waterline_costs_nothing() -> None:
    low = house("-100").replace("z = 220", "z = 40").replace("x = 500", "x = 130")
    assert ran("void-above", crate(low)) == ()


def test_a_pair_of_closed_houses() -> None:
    """Two as above, each 60 g and pulling up 100 g: together they pull up 200 g."""
    boat = crate(house("-100", '; y = 50; pair = "each"'))
    assert "pulls up 200 g" in what_of(one("void-above", boat))


def test_a_pair_opened_displaces_its_walls_alone() -> None:
    boat = crate(house("-100", '; y = 50; pair = "each"'))
    after = boat.edited(one("void-above", boat).edits)
    assert after.need.volume == pytest.approx(629.632e-6 + 100e-6, rel=1e-6)


def test_foam_above_that_worsens_the_trim() -> None:
    """25 cm³ at x 160 draw the middle of 629.6 cm³ aft by 25 × 340 / 654.6 = 13.0 mm."""
    boat = crate(BLOCK.format(x=160, z=160))
    found = one("foam-above", boat)
    assert boat.need.offset == pytest.approx(25 * 0.340 / 654.632, abs=1e-6)
    assert "25 cm³" in what_of(found, Say(boat.boat)).replace("25.0", "25")
    after = assert_mended(found, boat)
    assert after.need.volume == pytest.approx(629.632e-6, rel=1e-9)
    assert [edit.action for edit in found.edits] == ["remove"]


def test_foam_that_helps_is_left_alone() -> None:
    """The tank lies 20 mm forward; foam forward draws the middle after it."""
    boat = crate(BLOCK.format(x=900, z=160), tank=f"{TANK} -> length = 72\nx = 520")
    assert ran("foam-above", boat) == ()


def test_foam_below_is_left_alone() -> None:
    assert ran("foam-above", crate(BLOCK.format(x=160, z=100))) == ()


def test_foam_at_the_limit() -> None:
    boat = crate(BLOCK.format(x=160, z=160))
    assert ran("foam-above", boat, 25e-6 * (1 + 1e-6)) == ()
    assert len(ran("foam-above", boat, 25e-6 * (1 - 1e-6))) == 1


LOG = """\
format = 1
name = "Log"

[units]
length = "mm"
mass = "g"

[waterline]
height = 130

[[cylinder]]
name = "cylinder"
outside = 120
wall = 3
length = 600
x = 500
z = 60
mass = 6700

[[tank]]
name = "tank"
inside = "cylinder"
length = 72
x = 500

[[foam]]
name = "only foam above"
volume = "30 cm3"
x = 400
z = 170
"""


def test_foam_alone_above_the_waterline() -> None:
    boat = Assessment(boat=parse(LOG), files={})
    assert boat.need.volume == pytest.approx(30e-6, rel=1e-9)
    assert len(ran("foam-above", boat)) == 1


def test_faults_that_hide_another() -> None:
    """A closed house forward hides that the tank lies forward of all the rest: both are named."""
    boat = crate(
        house("-100").replace("x = 500", "x = 700"), tank=f"{TANK} -> length = 84\nx = 540"
    )
    named = about(boat)
    assert ("void-above", "house") in named
    assert ("tank-offset", "") in named
    offset = next(each for each in boat.findings if each.key == "tank-offset")
    opened = boat.edited(one("void-above", boat).edits)
    off = f"{opened.need.offset * 1e3:.1f} mm too far forward"
    now = f"{abs(boat.need.offset) * 1e3:.1f} mm now"
    assert what_of(offset) == f"tank water {off}, once house is put right ({now})"


def test_a_way_off_that_goes_with_the_closed_house() -> None:
    """The closed house alone draws the middle forward: the tank is told to stay."""
    light = house("-148").replace("mass = 60", "mass = 12").replace("x = 500", "x = 700")
    boat = crate(light, tank=f"{TANK} -> length = 84\nx = 500")
    offset = one("tank-offset", boat)
    assert offset.edits == ()
    assert "leave the tanks" in mend_of(offset)
    full = next(each for each in boat.findings if each.key == "tank-offset")
    assert ("void-above", "house") in full.follows


def test_a_waterline_above_all_of_her() -> None:
    """Height 181 mm typed for 131: nothing lies above it, and that must be said, not break off."""
    boat = crate(line="[waterline]\nheight = 130 -> [waterline]\nheight = 181")
    assert boat.need.volume == 0
    assert boat.findings


def test_a_tank_that_is_fuller_blown_than_full() -> None:
    """Half of 735 cm³ stays in when blown; with 400 cm³ of air left when full only 335 fit."""
    with pytest.raises(BoatError, match="as full as its dead air lets it get"):
        crate(tank=f'{TANK} -> {TANK}\nblown = "50 %"\ndead_air = 400')


def test_a_small_shift_of_lead_levels_her_dived() -> None:
    """Works 2.5 mm forward hardly show on the surface; dived, W·BG·tan is the moment to undo."""
    boat = crate(works="x = 620 -> x = 622.5")
    found = one("trim-dived", boat)
    assert "level on the surface" in what_of(found)
    after = assert_mended(found, boat)
    assert abs(degrees(after.dived.trim_angle)) < 0.2


def test_foam_above_the_waterline_is_told_as_a_guide_with_what_lays_it(grebe: Assessment) -> None:
    """Its volume is no change that could be applied: placing finds its position."""
    moved = (("x_aft", 0.500), ("x_fore", 0.652))
    her = grebe.edited((Edit(action="set", path="region[4]", fields=moved),))
    (found,) = ran("tank-offset", her)
    assert " As a guide: " in mend_of(found)
    assert "placing finds its position where foam may go above the waterline" in mend_of(found)


def test_a_piston_tank_is_sent_to_where_she_hangs_level(grebe: Assessment) -> None:
    """Its water grows from one end: as full as it is dived, by the solver of equilibrium."""
    battery = Edit(action="set", path="part[2]", fields=(("mass", 0.5), ("x", 0.83)))
    her = grebe.edited((battery,))
    assert degrees(her.dived.trim_angle) > 2
    end = (her.boat.tanks[0].water_end or 0.0) + to_level(her, 0)
    moved = her.edited((Edit(action="set", path="tank[1]", fields=(("water_end", end),)),))
    assert degrees(moved.dived.trim_angle) == pytest.approx(0.0, abs=0.05)
