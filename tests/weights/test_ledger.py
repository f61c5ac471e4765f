"""The ledger of the crate, added up by hand."""

from math import pi, sqrt

import pytest
from tests.findings.checks import part
from tests.rest.crate import crate

from trimdive.hydrostatics.weights import Entry

SKIN = (0.036 - 0.996 * 0.196 * 0.176) * 1600  # 2 mm of glass-fibre at 1.6 [kg]


def entry(boat, name: str) -> Entry:
    return next(each for each in boat.masses.entries if each.name == name)


def test_sum_and_centre() -> None:
    masses = crate().masses
    pieces = [(SKIN, 0.090), (1.5, 0.060), (1.46735, 0.040), (1.46735, 0.040), (0.7998, 0.008)]
    total = sum(mass for mass, _ in pieces)
    assert masses.mass == pytest.approx(total, rel=1e-9)
    z = sum(mass * z for mass, z in pieces) / total
    assert masses.gravity == pytest.approx([0.5, 0.0, z], abs=1e-9)
    assert masses.moment == pytest.approx([0.5 * total, 0.0, z * total], abs=1e-9)


def test_kinds_and_what_is_known() -> None:
    masses = crate().masses
    assert masses.of_kind("region") == pytest.approx(SKIN, rel=1e-9)
    assert masses.of_kind("lead") == pytest.approx(0.7998)
    assert masses.of_kind("part") == pytest.approx(2 * 1.46735)
    assert masses.known_as("worked out") == pytest.approx(SKIN, rel=1e-9)
    assert masses.known_as("guess") == 0


def test_spreads_add_in_quadrature() -> None:
    """10 % of the skin as worked out, 0.5 % of each weighed piece."""
    parts = [0.10 * SKIN, *(0.005 * mass for mass in (1.5, 1.46735, 1.46735, 0.7998))]
    assert crate().masses.spread == pytest.approx(sqrt(sum(one**2 for one in parts)), rel=1e-9)


def test_a_spread_of_ones_own() -> None:
    thing = part("thing", 'mass = 400; spread = "± 40 g"; x = 500; z = 60; inside = "cylinder"')
    assert entry(crate(thing), "thing").spread == pytest.approx(0.040)
    assert entry(crate(thing.replace("± 40 g", "± 5 %")), "thing").spread == pytest.approx(0.020)


@pytest.mark.parametrize(("pair", "mass"), [("each", 0.1), ("both", 0.05)])
def test_pairs(pair: str, mass: float) -> None:
    thing = part("planes", f'mass = 50; x = 100; y = 80; z = 60; volume = 20; pair = "{pair}"')
    boat = crate(thing)
    found = entry(boat, "planes")
    assert found.mass == pytest.approx(mass)
    assert found.place == pytest.approx([0.1, 0.0, 0.06])
    body = next(body for body in boat.bodies if body.name == "planes")
    assert body.volume == pytest.approx(40e-6 if pair == "each" else 20e-6)


def test_a_cylinder_is_worked_out_as_a_tube_with_two_discs() -> None:
    """PVC-U at 1.4: 600 mm of 120 × 3 mm and two discs of 114 × 3 mm."""
    boat = crate(cylinder='mass = 1500\nknown = "weighed" -> density = "1.4 g/cm3"')
    tube = pi / 4 * (0.120**2 - 0.114**2) * 0.600
    discs = 2 * pi / 4 * 0.114**2 * 0.003
    assert entry(boat, "cylinder").mass == pytest.approx(1400 * (tube + discs), rel=1e-9)
    assert entry(boat, "cylinder").known == "worked out"


def test_a_skin_as_weighed_at_both_ends() -> None:
    """Its mass and x are those of the scale; its volume is mass over density."""
    weighed = 'density = "1.60 g/cm3"\nmass = 2700\nx = 480\nknown = "weighed"'
    boat = crate(hull=f'thickness = 2\ndensity = "1.60 g/cm3" -> {weighed}')
    found = entry(boat, "hull")
    assert found.mass == 2.7
    assert found.place[0] == 0.480
    assert boat.bodies[0].volume == pytest.approx(2.7 / 1600, rel=1e-9)


def test_foam_weighs_its_volume() -> None:
    foam = '[[foam]]\nname = "block"\nvolume = 100\ndensity = "35 kg/m3"\nx = 500\nz = 110\n'
    assert entry(crate(foam), "block").mass == pytest.approx(0.0035)


def test_paint_lies_where_the_skin_does() -> None:
    coat = '[[coat]]\nname = "paint"\nmass = 150\ndensity = "1.5 g/cm3"\n'
    boat = crate(coat)
    found = entry(boat, "paint")
    assert found.place == pytest.approx([0.5, 0.0, 0.090], abs=1e-9)
    paint = [body for body in boat.bodies if body.kind == "coat"]
    assert sum(body.volume for body in paint) == pytest.approx(100e-6, rel=1e-9)


def test_a_part_inside_displaces_nothing() -> None:
    thing = part("thing", 'mass = 400; x = 500; z = 60; inside = "cylinder"; volume = 300')
    boat = crate(thing)
    assert "thing" not in {body.name for body in boat.bodies}
    assert entry(boat, "thing").inside == "cylinder"


def test_measured_from_the_bow() -> None:
    """Measured from the bow of a boat of 1000 mm: 380 there is 620 here."""
    thing = part("thing", 'from = "bow"; mass = 400; x = 380; z = 60; inside = "cylinder"')
    boat = crate(thing, name='name = "Crate" -> name = "Crate"\nlength = "1000 mm"')
    assert entry(boat, "thing").place[0] == pytest.approx(0.620)


def test_a_sealed_hull_weighs_its_skin() -> None:
    """2 mm of glass-fibre round an air space weigh what they weigh when water stands in it."""
    boat = crate(hull="thickness = 2 -> thickness = 2\nsealed = true")
    assert entry(boat, "hull").mass == pytest.approx(SKIN, rel=1e-6)


def test_a_cylinder_in_a_sealed_hull_pushes_no_more_water_aside() -> None:
    boat = crate(hull='thickness = 2 -> sealed = true\nmass = 2700\nknown = "weighed"')
    lead = 0.22 * 0.04 * 0.0081  # inside too, but given as lying in the wet
    assert boat.floater.volume == pytest.approx(1.0 * 0.2 * 0.18, abs=lead)


def test_a_scale_is_no_finer_than_the_whole_grams_it_reads() -> None:
    """Half of the last figure shown: common practice, no source."""
    own = 'known = "weighed"; x = 500; z = 60; inside = "cylinder"'
    thing, heavy = (part("thing", f"mass = {one}; {own}") for one in (9, 400))
    finer = part("thing", f'mass = 9; spread = "± 0.1 g"; {own}')
    assert entry(crate(thing), "thing").spread == pytest.approx(0.0005)
    assert entry(crate(heavy), "thing").spread == pytest.approx(0.002)
    assert entry(crate(finer), "thing").spread == pytest.approx(0.0001)
