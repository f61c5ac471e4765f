"""The fewest pieces: by hand, and against trying every kit there is."""

from itertools import combinations_with_replacement, product

import numpy as np
import pytest

from trimdive.placing.kit import Task, cover, errors, nearest
from trimdive.placing.kit.search import searched


def task(
    pulls: list[float], moments: list[float], *, band: float = 0.0021, arms: tuple[float, ...]
) -> Task:
    """Return a task in which lead of 1 kg pulls 1 kg and foam of 1 L lifts 1 kg."""
    one = np.ones(len(pulls))
    return Task(
        pulls=np.array(pulls), moments=np.array(moments), arms=np.array(arms), lead=one,
        foam=1000 * one, pull_band=band, moment_band=band, lead_step=0.005, foam_step=5e-6,
        foam_mass=33.0,
    )  # fmt: skip


def test_every_weight_from_one_to_seven_takes_three() -> None:
    """The old puzzle: 1, 2 and 4 make every whole number to 7; two weights make but three."""
    units = [0.005 * k for k in range(1, 8)]
    found = cover(task(units, [0.0] * 7, arms=(0.0,)))
    assert found
    assert found.proven
    assert found.foam.size == 0
    assert found.lead * 1e3 == pytest.approx([20, 10, 5])


def test_lead_and_foam_take_one_each_for_both_ways() -> None:
    """100 g to add in one water and 40 g to take out in another: one of each, amidships."""
    found = cover(task([0.0, 0.1, -0.04], [0.0] * 3, arms=(0.5, 0.0, -0.5)))
    assert found
    assert found.proven
    assert (found.lead.tolist(), found.foam.tolist()) == ([0.1], [40e-6])
    assert found.lies.tolist() == [[-1, -1], [1, -1], [-1, 1]]


def test_a_battery_with_a_moment_only() -> None:
    """A moment of 0.05 kg m and no pull: lead at one end, foam at the other, or both moved.

    Lead of 50 g forward of 0.5 m and foam of 50 ml aft of it make 0.025 each.
    """
    found = cover(task([0.0], [0.05], arms=(0.5, 0.0, -0.5)))
    assert found
    assert found.proven
    assert (found.lead.tolist(), found.foam.tolist()) == ([0.05], [50e-6])


def test_nothing_is_needed_within_the_bands() -> None:
    found = cover(task([0.0, 0.002], [0.0, -0.002], arms=(0.5, 0.0, -0.5)))
    assert found
    assert (found.pieces, found.proven) == (0, True)


def tried(one: Task, most: int, pieces: int) -> float | None:
    """Return the mass of the lightest kit of so many pieces, by trying all of them."""
    sizes = [("lead", k) for k in range(1, most + 1)] + [("foam", k) for k in range(1, most + 1)]
    best: float | None = None
    for kit in combinations_with_replacement(sizes, pieces):
        mass = sum(0.005 * k if kind == "lead" else 33.0 * 5e-6 * k for kind, k in kit)
        if (best is None or mass < best - 1e-12) and covers(one, kit):
            best = mass
    return best


def covers(one: Task, kit: tuple[tuple[str, int], ...]) -> bool:
    for pull, moment in zip(one.pulls, one.moments, strict=True):
        for lies in product((None, *one.arms), repeat=len(kit)):
            here = [
                (0.005 * k if kind == "lead" else -0.005 * k, arm)
                for (kind, k), arm in zip(kit, lies, strict=True)
                if arm is not None
            ]
            off = abs(sum(p for p, _ in here) - pull), abs(sum(p * a for p, a in here) - moment)
            if max(off) <= one.pull_band + 1e-9:
                break
        else:
            return False
    return True


@pytest.mark.parametrize("seed", range(12))
def test_against_every_kit_there_is(seed: int) -> None:
    """Random small tasks: no fewer pieces do it, and none so many are lighter."""
    rng = np.random.default_rng(seed)
    count = int(rng.integers(1, 4))
    pulls = (0.005 * rng.integers(-4, 7, count)).tolist()
    moments = (0.005 * rng.integers(-1, 2, count) * 0.5).tolist()
    one = task(pulls, moments, arms=(0.5, 0.0, -0.5))
    found = cover(one)
    assert found
    if found.pieces > 2:  # so many kits that trying all takes too long: only that two do not do
        assert tried(one, 7, 2) is None
        return
    assert found.proven
    for fewer in range(found.pieces):
        assert tried(one, 7, fewer) is None
    mass = float(found.lead.sum() + 33.0 * found.foam.sum())
    best = tried(one, 7, found.pieces)
    assert best is not None
    assert mass == pytest.approx(best, abs=1e-9)


@pytest.mark.parametrize("seed", range(6))
def test_what_is_found_lies_within_the_bands(seed: int) -> None:
    rng = np.random.default_rng(seed)
    one = task(
        (0.2 * rng.normal(size=5)).tolist(), (0.03 * rng.normal(size=5)).tolist(), band=0.02,
        arms=(0.6, 0.05, -0.7),
    )  # fmt: skip
    found = cover(one, seconds=5.0)
    assert found
    off = errors(one, found.lead, found.foam, found.lies)
    assert np.abs(off).max() <= 0.02 + 1e-9
    _, worst = nearest(one, found.lead, found.foam)
    assert worst == pytest.approx(np.abs(off / 0.02).max(axis=1))


def test_the_quick_search_keeps_the_bands_too() -> None:
    one = task([0.1, -0.1, 0.3], [0.0, 0.02, -0.02], band=0.01, arms=(0.5, 0.0, -0.5))
    found = searched(one, 2, 2)
    assert found
    assert nearest(one, *found)[1].max() <= 1 + 1e-9
    assert searched(one, 1, 0) is None


def test_without_time_it_says_that_nothing_is_proven() -> None:
    found = cover(task([0.1, 0.17, -0.04], [0.0] * 3, arms=(0.5, 0.0, -0.5)), seconds=0.0)
    assert found
    assert not found.proven
