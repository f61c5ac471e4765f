"""What was promised, and the whole boat on the scale: a crate of 7862 g, 1000 × 180 mm."""

import pytest
from tests.findings.checks import one, ran
from tests.rest.crate import crate
from tests.said import what_of

from trimdive.assessment import Assessment

RHO = 999.1026


def promised(fields: str) -> Assessment:
    return crate(f"\n[brief]\n{fields}\n")


def weighed(grams: float) -> Assessment:
    return crate(f"\n[[weigh_in]]\ndate = 2024-05-01\nmass = {grams}\n")


@pytest.mark.parametrize(
    ("key", "good", "bad", "over"),
    [
        ("brief-lift", 'lift_limit = "8 kg"', 'lift_limit = "7.5 kg"', 0.3617),
        ("brief-length", "car_length = 1000", "car_length = 900", 0.1),
        ("brief-depth", "pond_depth = 300", "pond_depth = 250", None),
    ],
)
def test_promises(key: str, good: str, bad: str, over: float | None) -> None:
    assert ran(key, promised(good)) == ()
    assert ran(key, crate()) == ()  # nothing was promised
    boat = promised(bad)
    one(key, boat)
    if over is not None:
        assert ran(key, boat, over * 1.001) == ()
        assert len(ran(key, boat, over * 0.999)) == 1
    else:  # she is 180 mm high: 250 mm of water leave 70
        assert ran(key, boat, 0.070 * (1 - 1e-9)) == ()
        assert len(ran(key, boat, 0.070 * (1 + 1e-6))) == 1


def test_tanks_for_another_water() -> None:
    """Sea water asks for 26.9 g more on each of 8.5 L: 228 g; 735 cm³ less 630 leave 125 g."""
    boat = promised('waters = ["sea"]')
    found = one("brief-waters", boat)
    more = (boat.in_water("sea", 15, 35.16504).water.density - RHO) * boat.floater.volume
    assert f"{more * 1e3:.0f} g more to go under" in what_of(found)
    assert ran("brief-waters", boat, 0.2) == ()
    assert ran("brief-waters", promised('waters = ["cold tap"]')) != ()


def test_on_the_scale() -> None:
    """Spreads in quadrature: the ledger's and half a per cent of the scale's reading."""
    boat = weighed(9000)
    assert "more than the weight list" in what_of(one("weigh-in", boat))
    assert "less than the weight list" in what_of(one("weigh-in", weighed(7000)))
    assert ran("weigh-in", weighed(boat.floater.mass * 1e3 + 10)) == ()
    band = (boat.masses.spread**2 + (0.005 * 8.2) ** 2) ** 0.5
    for share, count in ((0.97, 0), (1.03, 1)):
        grams = (boat.floater.mass + band * share) * 1e3
        assert len(ran("weigh-in", weighed(grams))) == count
