"""What stands out of the hull, what reaches into a space kept clear, and what must be lifted."""

import pytest
from tests.findings.checks import one, part, ran, with_answers
from tests.rest.crate import crate
from tests.said import mend_of, what_of

from trimdive.assessment import Assessment
from trimdive.findings import Edit

BOARD = 'shape = "box"; length = 100; breadth = 60; height = 20; density = "35 kg/m3"'
CLEAR = """
[[keep_clear]]
name = "well"
x_aft = 850
x_fore = 910
breadth = 80
z_bottom = 0
z_top = 180
"""


def board(z: float, x: float = 500, y: float = 0) -> str:
    """Return a board of foam with its middle here [mm]."""
    return part("board", f"x = {x}; y = {y}; z = {z}; {BOARD}").replace("[[part]]", "[[foam]]")


def test_foam_that_stands_out_of_the_deck() -> None:
    """Its top at 185 mm, the deck at 180: 5 mm out."""
    boat = crate(board(175))
    found = one("outside-slack", boat)
    assert found.subject == "board"
    assert "5" in what_of(found).split(" sticks ")[1].split("mm")[0]
    assert ran("outside-slack", boat, 0.005 * (1 + 1e-6)) == ()
    assert len(ran("outside-slack", boat, 0.005 * (1 - 1e-6))) == 1


@pytest.mark.parametrize(
    ("x", "y", "z", "out"), [(500, 75, 140, 5), (955, 0, 140, 5), (500, 0, 5, 5)]
)
def test_on_every_side(x: float, y: float, z: float, out: float) -> None:
    boat = crate(board(z, x, y))
    assert ran("outside-slack", boat, out * 1e-3 * (1 + 1e-6)) == ()
    assert len(ran("outside-slack", boat, out * 1e-3 * (1 - 1e-6))) == 1


def test_a_bare_point_is_not_blamed_for_the_ball_that_stands_for_it() -> None:
    """A 900 g point of lead 12 mm up would be a ball 27 mm through: its middle lies inside."""
    bare = part("pig", "mass = 900; x = 500; z = 12").replace("[[part]]", "[[lead]]")
    assert ran("outside-slack", crate(bare)) == ()
    out = part("pig", "mass = 900; x = 500; z = -12").replace("[[part]]", "[[lead]]")
    assert "place again" in mend_of(one("outside-slack", crate(out)))


def test_a_boat_without_a_hull() -> None:
    boat = crate()
    bare = with_answers(boat, bodies=tuple(b for b in boat.bodies if b.kind != "region"))
    (found,) = ran("hull-least", bare)
    assert "no hull" in what_of(found)
    walls = sum(body.volume for body in boat.bodies if body.kind == "region")
    assert ran("hull-least", boat) == ()
    assert ran("hull-least", boat, walls * (1 - 1e-9)) == ()
    assert len(ran("hull-least", boat, walls)) == 1


def test_foam_that_lies_within() -> None:
    assert ran("outside-slack", crate(board(150))) == ()


def test_a_part_on_deck_belongs_there() -> None:
    """A part whose middle lies outside is meant to; so is one that passes through."""
    on_deck = part("bollard", f'mass = 10; known = "weighed"; x = 500; z = 195; {BOARD}')
    assert ran("outside-slack", crate(on_deck)) == ()
    through = part("shaft", f"mass = 10; x = 20; z = 60; through_hull = true; {BOARD}")
    assert ran("outside-slack", crate(through)) == ()


def test_a_part_that_reaches_into_the_well() -> None:
    """Board from 762 to 862 along: 12 mm in."""
    boat = crate(CLEAR + board(150, x=812))
    found = one("clear-slack", boat)
    assert "12 mm into well" in what_of(found).replace("12.0", "12")
    assert ran("clear-slack", boat, 0.012) == ()
    assert len(ran("clear-slack", boat, 0.012 - 2e-6)) == 1


def test_what_reaches_into_the_well_is_moved_out_of_it() -> None:
    """12 mm aft, as told: nothing reaches into the well then, and it lies in the hull."""
    boat = crate(CLEAR + board(150, x=812))
    found = one("clear-slack", boat)
    assert mend_of(found).replace("12.0", "12") == "Move board 12 mm aft."
    after = boat.edited(found.edits)
    assert ran("clear-slack", after) == ()
    assert ran("outside-slack", after) == ()


def test_what_fills_the_hull_beside_the_well_is_not_told_to_move() -> None:
    """A board as long as her and as broad as the well has no place out of it: no number is told."""
    long = board(90, x=500).replace("length = 100", "length = 990").replace("20;", "170;")
    found = one("clear-slack", crate(CLEAR + long))
    assert found.edits == ()
    assert "mm" not in mend_of(found)


def test_beside_the_well() -> None:
    assert ran("clear-slack", crate(CLEAR + board(150, x=800))) == ()
    assert ran("clear-slack", crate(CLEAR + board(150, x=600))) == ()


def test_a_pair_on_either_side_of_the_well() -> None:
    """Two boards 30 broad at 75 mm to each side stand 20 mm clear of a well of 80."""
    pair = board(150, x=880, y=75).replace("breadth = 60", 'breadth = 30\npair = "each"')
    assert ran("clear-slack", crate(CLEAR + pair)) == ()


def test_a_pair_outside_on_the_bilges() -> None:
    """Two keels with their middles at 105 mm lie outside a hull of 100, as a single one would."""
    keel = (
        'mass = 20; x = 500; y = 105; z = 20; shape = "box"; length = 300; breadth = 4; height = 8'
    )
    assert ran("outside-slack", crate(part("bilge keel", keel))) == ()
    assert ran("outside-slack", crate(part("bilge keels", keel + '; pair = "each"'))) == ()


def test_two_to_lift_at_the_limit() -> None:
    boat = crate()
    assert ran("lift-two", boat) == ()
    assert ran("lift-two", boat, boat.floater.mass) == ()
    found = ran("lift-two", boat, boat.floater.mass * (1 - 1e-9))
    assert [each.weight for each in found] == ["look at"]


def test_a_tower_that_moved_is_told_and_not_what_stands_on_it(grebe: Assessment) -> None:
    """Grebe's tower 300 mm aft of its place: her masts and fittings stand free above the casing."""
    moved = (("x_aft", 0.400), ("x_fore", 0.552))
    her = grebe.edited((Edit(action="set", path="region[4]", fields=moved),))
    (found,) = ran("place-far", her)
    assert found.subject == "region[4]"
    assert what_of(found).startswith("tower is not under the part on top of it: masts 780 mm")
    assert "400 mm" in mend_of(found)
    assert "552 mm" in mend_of(found)


def test_masts_that_moved_off_a_tower_are_told(grebe: Assessment) -> None:
    """The fittings stand on it still; that it does not reach under the masts is said besides."""
    her = grebe.edited((Edit(action="set", path="part[16]", fields=(("x", 0.300),)),))
    (found,) = ran("place-far", her)
    assert found.subject == "part[16]"
    assert what_of(found).startswith("masts: ")
    assert "or that of tower" in mend_of(found)


def hose(longest: float) -> str:
    """Return a box and a point, and a hose between them: 250 - (100 + 60 / 2) = 120 mm apart."""
    box = part("pump", 'x = 100; z = 60; mass = 50; shape = "box"; length = 60; breadth = 20; '
               "height = 20")  # fmt: skip
    point = part("valve", 'x = 250; z = 60; mass = 10; material = "brass"')
    run = f'[[run]]\nkind = "hose"\nof = "pump"\nto = "valve"\nlongest = "{longest} mm"\n'
    return f"{box}{point}{run}"


def test_a_hose_that_is_too_short() -> None:
    """Told by how much, by hand; as long as they lie apart it reaches."""
    found = one("run-slack", crate(hose(100)))
    assert found.subject == "run[1]"
    assert found.stands == pytest.approx(0.020)
    assert "from pump to valve must span 120" in what_of(found)
    assert "20.0 mm nearer" in mend_of(found)
    assert ran("run-slack", crate(hose(120))) == ()
    assert len(ran("run-slack", crate(hose(119)))) == 1
    assert ran("run-slack", crate(hose(100)), 0.020 * (1 + 1e-6)) == ()
