"""Loose weight to keep, what to weigh next and what to read first: against doing it."""

from functools import cache
from pathlib import Path

import numpy as np
import pytest

from trimdive.assessment import Assessment, assess
from trimdive.fact import fact
from trimdive.findings.bands import bands
from trimdive.uncertainty import WIDE, Trial, order, spare, steps, trials
from trimdive.uncertainty.worth import doubts
from trimdive.units import Spread

ROOT = Path(__file__).parents[2]


@cache
def bittern() -> Assessment:
    return assess(ROOT / "boats" / "bittern" / "boat.toml")


def bands_of(her: Assessment) -> dict[str, float]:
    return bands(her.boat, her.masses.mass, her.need.volume, her.floater.length)


def test_two_independent_weights_take_the_root_of_the_chance_each() -> None:
    """Both within their bands in 95 of 100: each in sqrt(0.95), 2.2365 standard deviations.

    Source: tables of the normal distribution (two-sided 97.47 %), from memory 2.236.
    """
    pull = np.array([1.0, 1.0])  # one source at each place, by itself
    moment = np.array([0.0, 1.0])
    kept = spare(pull, moment, 0.0, 1.0)
    assert (kept.aft, kept.fore) == pytest.approx((2.2365, 2.2365), abs=5e-4)


def test_loose_weight_does_in_95_boats_of_100() -> None:
    """20 000 boats with everything off at random: both weights do in 95 % of them."""
    her, chance = bittern(), np.random.default_rng(3)
    kept = spare(her.uncertainty.pull, her.uncertainty.moment, 0.2, 2.1)
    off = chance.standard_normal((20000, len(her.uncertainty.sources)))
    heavy, bow = off @ her.uncertainty.pull, off @ her.uncertainty.moment
    # by levers about either place
    fore = -(bow - 0.2 * heavy) / 1.9
    aft = -(2.1 * heavy - bow) / 1.9
    does = (np.abs(fore) <= kept.fore) & (np.abs(aft) <= kept.aft)
    assert float(does.mean()) == pytest.approx(0.95, abs=3 * (0.95 * 0.05 / 20000) ** 0.5)


def test_weighing_does_what_was_foretold() -> None:
    """The first thing to weigh is weighed: the file then gives the ± that was told beforehand."""
    her = bittern()
    one = next(s for s in steps(her.uncertainty, bands_of(her), 20) if s.act == "weigh")
    name, number = one.path.removesuffix("]").split("[")
    listed = list(getattr(her.boat, f"{name}s"))
    k = int(number) - 1
    listed[k] = listed[k].model_copy(
        update={"known": "weighed", "spread": Spread(0.005, is_share=True)}
    )
    weighed = Assessment(
        boat=her.boat.model_copy(update={f"{name}s": tuple(listed)}), files=her.files
    )
    assert weighed.uncertainty.figure(one.most.key, one.most.place).half == pytest.approx(
        one.after, rel=1e-3
    )
    assert one.after < one.most.half


def test_the_first_to_do_tells_most() -> None:
    """Of all single things to do none takes off more than the first: by doing each by itself."""
    her = bittern()
    found = steps(her.uncertainty, bands_of(her), 50)
    rows = doubts(her.uncertainty, bands_of(her))
    whole = float((rows**2).sum())
    for k, thing in enumerate(her.uncertainty.things):
        for whats in (("mass",), ("volume",), ("along", "across", "height"), ("litres",)):
            kept = sum(
                float((rows[:, i] ** 2).sum()) * (1 - (s.better / s.half) ** 2)
                for i, s in enumerate(her.uncertainty.sources)
                if s.thing == k and s.what in whats
            )
            assert kept / whole <= found[0].gain + 1e-12, thing.name


def test_a_reading_tells_as_one_more_measurement_of_one_figure_does() -> None:
    """Of one figure with ± a, a reading of it with ± b leaves ab/sqrt(a² + b²).

    Source: the weighted mean of two measurements, any text on errors.
    """
    rows = np.array([[3.0, 4.0]])
    trial = Trial(what=fact("read-mass"), rows=rows, halves=np.array([2.0 * WIDE]))
    answer = order(rows, [trial], 3)
    assert answer[0].left == pytest.approx(2.0**2 / (5.0**2 + 2.0**2))


def test_readings_are_named_once_and_leave_less_and_less() -> None:
    her = bittern()
    answer = order(doubts(her.uncertainty, bands_of(her)), trials(her.uncertainty, (0.1, 2.2)), 9)
    left = [one.left for one in answer]
    assert left == sorted(left, reverse=True)
    assert len({one.what for one in answer}) == len(answer) > 2
