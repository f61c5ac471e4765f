"""Checks of depth and of reach: a crate that is in order, spoilt one way at a time."""

import pytest
from tests.findings.checks import one, ran
from tests.rest.crate import crate
from tests.said import mend_of, what_of

from trimdive.assessment import Assessment

SPONGE = """
[[foam]]
name = "sponge"
material = "foam rubber"
volume = 600
x = 500
z = 120
shape = "box"
length = 200
breadth = 60
height = 50
"""


def test_hard_boats_come_back(bittern: Assessment) -> None:
    assert ran("return-depth", bittern) == ()
    assert ran("return-depth", crate()) == ()


def test_a_sponge_holds_nothing_up_at_depth() -> None:
    """600 cm³, four fifths of them gas, by Boyle: at 10 m, 0.97 bar more, 48 % of that is lost."""
    boat = crate(SPONGE, lead="mass = 799.8 -> mass = 1850")
    rho, air = boat.water.density, 101_325.0
    lift = rho * boat.floater.volume - boat.masses.mass
    lost = 480e-6 * (rho * 9.80665 * 10) / (air + rho * 9.80665 * 10)
    found = ran("return-depth", boat)
    assert (len(found) == 1) == (rho * lost > lift)
    assert len(ran("return-depth", boat, 0.001)) == 0
    deep = one("return-depth", boat)
    assert "sponge" in mend_of(deep)
    assert "even with her tanks blown" in what_of(deep)


def test_the_depth_of_the_brief_goes_before() -> None:
    boat = crate(SPONGE + '\n[brief]\npond_depth = "1 m"\n', lead="mass = 799.8 -> mass = 1850")
    assert ran("return-depth", boat) == ()


def test_weights_that_may_be_off_by_more_than_the_tank_takes() -> None:
    """Nothing was promised: nothing is said. Known to the gram she is within reach; guessed not."""
    assert ran("reach-spread", crate()) == ()
    brief = '\n[brief]\nlift_limit = "9 kg"\n'
    uncertainty = crate(
        brief, hull='density = "1.60 g/cm3" -> density = "1.60 g/cm3"\nspread = "5 g"'
    )
    assert ran("reach-spread", uncertainty) == ()
    boat = crate(brief, hull='density = "1.60 g/cm3" -> density = "1.60 g/cm3"\nspread = "500 g"')
    found = one("reach-spread", boat)
    spread = boat.masses.spread
    capacity = float(boat.full_water.sum()) * boat.water.density
    wants = boat.water.density * boat.floater.volume - boat.masses.mass
    lacks = max(wants + spread - capacity, spread - wants)
    assert lacks > 0.1
    assert f"{lacks * 1e3:.0f} g" in what_of(found)
    assert found.weight == "look at"


@pytest.mark.parametrize("limit", [0.0001, 0.03])
def test_two_tanks_are_looked_at_for_moments_too(bittern: Assessment, limit: float) -> None:
    """The tanks stand 281 mm either side of their middle: 2.7 kg of water move far enough."""
    boat = bittern.boat.model_copy(update={"brief": crate('\n[brief]\nradio = "40"\n').boat.brief})
    promised = Assessment(boat=boat, files=bittern.files)
    assert ran("reach-spread", promised, limit) == ()
