"""What is laid into something else is found in every boat, and nothing in a boat left alone."""

from itertools import chain

from tests.clashes.rates import demo_boats, random_boats, rates

SHORT = 2  # starter boats in this short form; rates.py prints all [-]


def test_rates() -> None:
    """Volumes against meshes of 256 sides, within 0.2 % of the smaller thing."""
    found, alarms = rates(list(chain(demo_boats(), random_boats(SHORT))))
    assert alarms == []
    assert set(found) == {
        "tanks in each other", "lead in a cylinder", "battery outside its cylinder", "foam in foam",
    }  # fmt: skip
    for kind, rate in found.items():
        assert rate.missed == [], kind
        assert rate.tried >= 3
        assert rate.off < 2e-3, kind
