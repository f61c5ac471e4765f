"""No mend that nobody would do: neither a tenth of a gram of lead nor a quarter of her mass.

Levers by hand; what amounts are sensible is common practice, no source.
"""

import pytest
from tests.findings.checks import assert_mended, ran
from tests.rest.crate import crate
from tests.said import mend_of

from trimdive.assessment import Assessment
from trimdive.boatfile import parse
from trimdive.findings import Edit
from trimdive.findings.less_lead import less_lead

COUNTS = 1 - 999.1 / 11340  # what lead counts under fresh water of 15 °C [-]


def heavier(boat: Assessment, kilograms: float, x: float) -> Assessment:
    """Return a boat with so much more inside her first cylinder."""
    fields = (
        ("name", "load"), ("mass", kilograms), ("x", x), ("z", 0.06), ("known", "weighed"),
        ("inside", boat.boat.cylinders[0].name),
    )  # fmt: skip
    return boat.edited((Edit(action="add", path="part", fields=fields),))


def test_lead_is_taken_out_by_the_lever(bittern: Assessment) -> None:
    """Of lead at 780 and 960 mm, about 840: two thirds of the one, one third of the other."""
    found = less_lead(bittern, 0.150, 0.840)
    assert found is not None
    taken = dict(found.taken)
    assert taken["lead 2"] == pytest.approx(0.100 / COUNTS, rel=1e-4)
    assert taken["lead 3"] == pytest.approx(0.050 / COUNTS, rel=1e-4)
    assert found.mass == pytest.approx(0.150 / COUNTS, rel=1e-4)
    after = bittern.edited(found.edits)
    lost = bittern.floater.mass - after.floater.mass
    assert lost == pytest.approx(found.mass, rel=1e-6)
    assert after.boat.lead[1].length == pytest.approx(0.110 * (0.380 - taken["lead 2"]) / 0.380)


def test_what_one_piece_has_not_comes_off_the_next(bittern: Assessment) -> None:
    found = less_lead(bittern, 0.6, 0.700)
    assert found is not None
    assert found.mass == pytest.approx(0.6 / COUNTS, rel=1e-4)
    moment = sum(
        mass * next(one.x for one in bittern.boat.lead if one.name == name)
        for name, mass in found.taken
    )
    assert moment / found.mass == pytest.approx(0.700, abs=1e-4)


def test_there_is_not_enough(bittern: Assessment) -> None:
    assert less_lead(bittern, 5.0, 1.2) is None


def test_a_boat_too_heavy_is_rid_of_lead(bittern: Assessment) -> None:
    boat = heavier(bittern, 0.4, 1.3)
    (found,) = ran("waterline-band", boat)
    assert mend_of(found).startswith("Remove from her lead: ")
    assert "Removing 400 g from her cylinders, 13" in mend_of(found)
    assert_mended(found, boat)


def test_her_weight_is_right_and_no_tenth_of_a_gram_is_offered(bittern: Assessment) -> None:
    """The battery moved: she floats low amidships for her trim alone."""
    edit = Edit(action="set", path="part[1]", fields=(("x", 1.95), ("inside", None)))
    moved = Edit(action="set", path="part[1]", fields=(("x", 1.95),))
    for boat in (bittern.edited((moved,)), bittern.edited((edit,))):
        for found in ran("waterline-band", boat):
            assert "0.1 g" not in mend_of(found)
    (found,) = ran("waterline-band", bittern.edited((moved,)))
    assert mend_of(found).startswith("Her weight is right: bring her level")


def test_a_quarter_of_her_mass_is_no_lead(bittern: Assessment) -> None:
    """She weighs some 25 kg: it is a slipped figure, or something is not entered."""
    heavy = heavier(bittern, 8.0, 1.15)
    (found,) = ran("waterline-band", heavy)
    assert "too much: look for a slipped figure, or what is not entered" in mend_of(found)
    assert found.edits == ()
    much = ("batter", "works", "motors", "device tray")
    empty = [
        Edit(action="set", path=f"part[{k}]", fields=(("mass", 1e-3),))
        for k, one in enumerate(bittern.boat.parts, 1)
        if any(word in one.name for word in much)
    ]
    empty += [Edit(action="set", path=f"cylinder[{k}]", fields=(("mass", 0.4),)) for k in (1, 2)]
    light = bittern.edited(tuple(empty))
    (found,) = ran("waterline-band", light)
    assert "too little: look for a slipped figure, or what is not entered" in mend_of(found)
    assert found.edits == ()


def test_what_leans_her_is_named_with_the_change() -> None:
    boat = crate("""
[[part]]
name = "receiver"
mass = 30
known = "weighed"
x = 500
y = 40
z = 60
inside = "cylinder"
""")
    found = next(one for one in boat.checked if one.key == "heel")
    assert mend_of(found) == "Move receiver 40.0 mm to starboard, to the centreline."
    assert found.edits[0].fields == (("y", 0.0),)


def test_a_place_beyond_an_end_is_told_as_beyond_it(bittern: Assessment) -> None:
    boat = bittern.boat
    assert boat.place(-0.0167) == "16.7 mm aft of the stern"
    assert boat.place(0.0167) == "16.7 mm from the stern"
    assert boat.place(-0.0001) == "0.0 mm from the stern"
    turned = parse('format = 1\nname = "Bow"\nlength = "1 m"\nmeasured_from = "bow"\n')
    assert turned.place(1.05) == f"{turned.units.write(0.05, 'length')} forward of the bow"
