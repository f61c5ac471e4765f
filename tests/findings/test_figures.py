"""Figures that cannot be, or that are only guessed: passing, failing and at the limit."""

import pytest
from tests.findings.checks import one, part, ran
from tests.rest.crate import crate
from tests.said import what_of

from trimdive.assessment import Assessment
from trimdive.findings import Edit
from trimdive.text.say import Say

HULL = 'thickness = 2\ndensity = "1.60 g/cm3"'
IN_THE_WET = 'x = 120; z = 60; shape = "box"; length = 100; breadth = 100; height = 10'


def test_a_heavy_guess() -> None:
    """200 g of 8061.7 g are 2.5 %: said. 100 g are not; nor 200 g that were weighed."""
    fields = 'x = 500; z = 60; inside = "cylinder"'
    boat = crate(part("wiring", f"mass = 200; {fields}"))
    found = one("guess-share", boat)
    assert "wiring, 200 g ± 50 g" in what_of(found)  # a guess is taken as ± 25 %
    assert ran("guess-share", crate(part("wiring", f"mass = 100; {fields}"))) == ()
    weighed = part("wiring", f'mass = 200; known = "weighed"; {fields}')
    assert ran("guess-share", crate(weighed)) == ()


def test_several_guesses_are_one_finding_heaviest_first() -> None:
    fields = 'x = 500; z = 60; inside = "cylinder"'
    boat = crate(part("wiring", f"mass = 200; {fields}") + part("pump", f"mass = 300; {fields}"))
    found = one("guess-share", boat)
    assert what_of(found).startswith("2 heavy masses are guesses: pump, 300 g")
    assert "wiring, 200 g" in what_of(found)


def test_guess_at_the_limit() -> None:
    boat = crate(part("wiring", 'mass = 200; x = 500; z = 60; inside = "cylinder"'))
    share = 0.200 / boat.floater.mass
    assert ran("guess-share", boat, share * (1 + 1e-9)) == ()
    assert len(ran("guess-share", boat, share * (1 - 1e-9))) == 1


@pytest.mark.parametrize(
    ("grams", "key"), [(0.4, "density-least"), (2300, "density-most"), (100, None), (2, None)]
)
def test_densities_that_cannot_be(grams: float, key: str | None) -> None:
    """In 100 cm³: 4 kg/m³ is lighter than foam, 23 000 heavier than osmium, 20 and 1000 are not."""
    boat = crate(part("thing", f'mass = {grams}; known = "weighed"; {IN_THE_WET}'))
    for each in ("density-least", "density-most"):
        assert len(ran(each, boat)) == (each == key)
    if key:
        assert "thing" in what_of(one(key, boat))


@pytest.mark.parametrize(
    ("key", "grams", "more"), [("density-least", 0.4, 1), ("density-most", 2300, -1)]
)
def test_densities_at_the_limit(key: str, grams: float, more: int) -> None:
    boat = crate(part("thing", f'mass = {grams}; known = "weighed"; {IN_THE_WET}'))
    density = grams / 1e3 / 100e-6
    assert ran(key, boat, density * (1 - more * 1e-6)) == ()
    assert len(ran(key, boat, density * (1 + more * 1e-6))) == 1


def test_more_volume_than_the_shape_holds() -> None:
    """120 g at 1 g/cm³ in a box of 100 cm³: 1.2 times what it holds, 1.1 is let pass."""
    thing = part("thing", f'mass = 120; density = "1 g/cm3"; known = "weighed"; {IN_THE_WET}')
    boat = crate(thing)
    found = one("volume-mismatch", boat)
    assert "120 cm³" in what_of(found, Say(boat.boat))
    assert "100 cm³" in what_of(found, Say(boat.boat))
    assert ran("volume-mismatch", boat, 0.2 * (1 + 1e-6)) == ()
    assert len(ran("volume-mismatch", boat, 0.2 * (1 - 1e-6))) == 1
    for fits in ("mass = 109", "mass = 60"):
        assert ran("volume-mismatch", crate(thing.replace("mass = 120", fits))) == ()


def test_a_skin_that_is_thicker_by_its_mass_than_as_measured() -> None:
    """3500 g at 1.6 g/cm³ are 2187.5 cm³; 2 mm would be 1642 cm³: a third more."""
    weighed = f'{HULL}\nmass = {{}}\nknown = "weighed"'
    boat = crate(hull=f"{HULL} -> {weighed.format(3500)}")
    found = one("skin-mismatch", boat)
    assert boat.hull.skins[0].volume == pytest.approx(3.5 / 1600, rel=1e-9)
    thick = boat.hull.skins[0].thickness
    volume = 0.036 - (1 - 2 * thick) * (0.2 - 2 * thick) * (0.18 - 2 * thick)
    assert volume == pytest.approx(3.5 / 1600, rel=2e-3)
    assert "2 mm thick" in what_of(found).replace("2.0 mm", "2 mm")
    off = thick / 0.002 - 1
    assert ran("skin-mismatch", boat, off * (1 + 1e-9)) == ()
    assert len(ran("skin-mismatch", boat, off * (1 - 1e-9))) == 1
    agrees = crate(hull=f"{HULL} -> {weighed.format(2700)}")
    assert ran("skin-mismatch", agrees) == ()


def test_what_no_matter_is_as_heavy_as_comes_first(grebe: Assessment) -> None:
    """A stone typed for a pound: no button of any other finding is pressed before it is mended."""
    k, part = next((k, one) for k, one in enumerate(grebe.boat.parts) if one.volume)
    heavy = (Edit(action="set", path=f"part[{k + 1}]", fields=(("mass", 6.35),)),)
    found = grebe.edited(heavy).findings
    assert found[0].key in ("density-most", "slip"), [one.key for one in found]
    assert found[0].subject in (part.name, f"part[{k + 1}]") or part.name in str(found[0].what)
