"""The programme of arranging against exhaustive search, permutations and the law of the lever.

Source: exhaustive search by numpy on a grid; every permutation by a linear programme of its own
(scipy.optimize.linprog); the lever in closed form.
"""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise, permutations, product

import numpy as np
import pytest
from scipy.optimize import linprog

from trimdive.arranging.layout import (
    MOVE,
    Fill,
    Layout,
    Order,
    RunEnd,
    Thing,
    Tube,
    best,
    too_long,
)
from trimdive.geometry.lines.mesh import Floats

ROOM = (0.0, 0.4)
ARMS = (-0.5, 0.9)  # where lead may lie [m]
GAP = 0.002
LENGTHS, MASSES = (0.1, 0.05, 0.08), (0.6, 0.2, 0.35)
MIDDLES = (0.1, 0.15, 0.35)  # as entered [m]


def tube(ranges: tuple[tuple[float, float], ...] = ((0.0, 0.0),), mass: float = 0.0) -> Tube:
    return Tube(
        path="cylinder[1]", name="tube", ends=(ROOM[0] - 0.01, ROOM[1] + 0.01), room=ROOM,
        ranges=ranges, goes=(), each=np.array([mass, -mass]),
    )  # fmt: skip


def thing(k: int, middle: float, length: float, mass: float, *, is_kept: bool = False) -> Thing:
    return Thing(
        path=f"part[{k + 1}]", name=f"thing {k}", along=((f"part[{k + 1}]", 0.0),), tube=0,
        ends=(middle - length / 2, middle + length / 2), mass=mass, is_guessed=False,
        is_kept=is_kept, each=np.array([mass, -mass]),
    )  # fmt: skip


def lever(
    things: Sequence[Thing], moment: float, tubes: Sequence[Tube] | None = None
) -> tuple[Layout, Fill]:
    """Return things on a lever about 0, with a moment on it [kg m], and lead at two places.

    The moment of all of it is to be zero: at least, and at most.
    """
    own = sum(t.mass * sum(t.ends) / 2 for t in things)
    base = np.array([own + moment, -own - moment])
    pairs = tuple((i, j) for i in range(len(things)) for j in range(i + 1, len(things)))
    layout = Layout(
        tubes=tuple(tubes or [tube()]), things=tuple(things), behind=pairs, beside=(), first=(),
        at_caps=(), runs=(), gap=GAP, base=base,
    )  # fmt: skip
    arms = np.array(ARMS)
    fill = Fill(
        each=np.stack([arms, -arms]), least=np.zeros(2), most=np.full(2, 50.0), mass=np.ones(2)
    )
    return layout, fill


def three() -> list[Thing]:
    return [thing(k, *one) for k, one in enumerate(zip(MIDDLES, LENGTHS, MASSES, strict=True))]


def lead_for(moment: Floats) -> Floats:
    """Return the lead that makes up for a moment [kg]: at the one place or the other."""
    return np.maximum(-moment / ARMS[1], moment / -ARMS[0])


def cost(found: Order) -> float:
    return found.mass + MOVE * float(np.abs(found.things).sum())


@pytest.mark.parametrize("moment", [-0.9, -0.35, -0.2, -0.1, 0.3])
def test_three_things_lie_as_exhaustive_search_has_them(moment: float) -> None:
    """On a grid of 4 mm: no grid place is better, and the best is within what a step is worth."""
    step = 0.004
    layout, fill = lever(three(), moment)
    found = best(layout, fill, 20.0)
    assert found is not None
    assert found.proven
    x = np.stack(np.meshgrid(*[np.arange(0.0, 0.4 + step / 2, step)] * 3, indexing="ij"), -1)
    half = np.array(LENGTHS) / 2
    ok = ((x >= half - 1e-12) & (x <= 0.4 - half + 1e-12)).all(axis=-1)
    for i, j in layout.behind:
        ok &= np.abs(x[..., i] - x[..., j]) >= half[i] + half[j] + GAP - 1e-12
    places = x[ok]
    lead = lead_for(places @ np.array(MASSES) + moment)
    total = lead + MOVE * np.abs(places - np.array(MIDDLES)).sum(axis=1)
    worth = step * (sum(MASSES) / -ARMS[0] + 3 * MOVE)
    assert cost(found) <= float(total.min()) * (1 + 1e-3) + 1e-9
    assert cost(found) >= float(total.min()) - worth


def in_order(order: Sequence[int], moment: float) -> float:
    """Return the least that an order from aft to fore costs, by a linear programme of its own."""
    n = len(order)
    half = np.array(LENGTHS) / 2
    c = np.concatenate([np.zeros(n), np.full(n, MOVE), np.ones(2)])
    rows, most = [], []
    for a, b in pairwise(order):
        row = np.zeros(2 * n + 2)
        row[a], row[b] = 1.0, -1.0
        rows.append(row)
        most.append(-(half[a] + half[b] + GAP))
    for k, sign in product(range(n), (1.0, -1.0)):
        row = np.zeros(2 * n + 2)
        row[k], row[n + k] = sign, -1.0
        rows.append(row)
        most.append(sign * MIDDLES[k])
    level = np.concatenate([MASSES, np.zeros(n), ARMS])
    bounds = [(h, 0.4 - h) for h in half] + [(0.0, None)] * (n + 2)
    found = linprog(c, np.array(rows), most, level[None], [-moment], bounds)
    assert found.success
    return float(found.fun)


@pytest.mark.parametrize("moment", [-0.9, -0.35, -0.2, 0.3])
def test_orders_come_as_all_permutations_rank_them(moment: float) -> None:
    layout, fill = lever(three(), moment)
    ranked = sorted(in_order(order, moment) for order in permutations(range(3)))
    known: list[Order] = []
    while (found := best(layout, fill, 20.0, known)) is not None:
        known.append(found)
    assert len({one.sides for one in known}) == len(known) == 6
    assert [cost(one) for one in known] == pytest.approx(ranked, rel=2e-3, abs=1e-6)


def test_two_masses_on_a_lever_balance_without_lead() -> None:
    """m1 x1 + m2 x2 + M = 0: with the one kept at x1, the other lies at x2 = -(m1 x1 + M) / m2."""
    one, other = thing(0, 0.05, 0.02, 0.4, is_kept=True), thing(1, 0.3, 0.02, 0.25)
    layout, fill = lever([one, other], -0.07)
    found = best(layout, fill, 20.0)
    assert found is not None
    assert found.mass == pytest.approx(0.0, abs=1e-6)
    assert 0.3 + found.things[1] == pytest.approx((0.07 - 0.4 * 0.05) / 0.25, abs=1e-6)
    assert found.things[0] == 0.0


def test_what_the_lever_lacks_is_made_up_for_by_lead() -> None:
    """At the end of the room the moment still lacks m2 x2 + m1 x1 + M, over the lead's arm."""
    one, other = thing(0, 0.05, 0.02, 0.4, is_kept=True), thing(1, 0.3, 0.02, 0.25)
    layout, fill = lever([one, other], -0.3)
    found = best(layout, fill, 20.0)
    assert found is not None
    assert 0.3 + found.things[1] == pytest.approx(0.39, abs=1e-6)
    lacks = 0.3 - 0.4 * 0.05 - 0.25 * 0.39
    assert found.mass == pytest.approx(lacks / 0.9, rel=1e-6)


def test_a_cylinder_stays_within_its_ranges() -> None:
    """Its own mass is to come 0.09 m forward; what lies between its ranges is not to be had."""
    free = tube(((-0.1, 0.05), (0.1, 0.2)), mass=2.0)
    layout, fill = lever([thing(0, 0.2, 0.1, 0.01)], -0.182, [free])
    found = best(layout, fill, 20.0)
    assert found is not None
    assert found.tubes[0] == pytest.approx(0.1, abs=1e-6)
    assert 0.2 + found.things[0] - 0.05 - found.tubes[0] >= -1e-9


def test_what_is_to_lie_at_an_end_lies_there() -> None:
    layout, fill = lever(three(), -0.2)
    for k, others in ((0, (1, 2)), (2, (0, 1))):
        first = tuple((k, other) for other in others)
        asked = replace(layout, first=first)
        found = best(asked, fill, 20.0)
        assert found is not None
        middles = np.array(MIDDLES) + found.things
        assert int(middles.argmin()) == k


def test_how_much_too_long_is_the_sum_of_lengths_and_gaps() -> None:
    layout, _ = lever(three(), 0.0)
    assert too_long(layout, 0) == pytest.approx(sum(LENGTHS) + 2 * GAP - 0.4)
    side_by_side = replace(layout, behind=((0, 1), (0, 2)))
    assert too_long(side_by_side, 0) == pytest.approx(LENGTHS[0] + LENGTHS[2] + GAP - 0.4)


def test_what_does_not_go_in_has_no_order() -> None:
    layout, fill = lever([thing(k, 0.2, 0.21, 0.1) for k in range(2)], 0.0)
    assert best(layout, fill, 20.0) is None


def test_what_belongs_at_a_cap_lies_at_it() -> None:
    """The motor, light, goes to its cap though the lever would rather have it elsewhere."""
    things = [thing(0, 0.2, 0.04, 0.1), *three()[1:]]
    layout, fill = lever(things, -0.05)
    asked = replace(layout, first=((0, 1), (0, 2)), at_caps=((0, "aft"),))
    found = best(asked, fill, 20.0)
    assert found is not None
    assert things[0].ends[0] + found.things[0] == pytest.approx(ROOM[0], abs=1e-6)
    other = best(replace(layout, at_caps=((0, "fore"),)), fill, 20.0)
    assert other is not None
    assert things[0].ends[1] + other.things[0] == pytest.approx(ROOM[1], abs=1e-6)


@pytest.mark.parametrize("longest", [0.004, 0.06, 0.5])
def test_a_hose_keeps_what_it_joins_together(longest: float) -> None:
    """Two masses on a lever: as far apart as balance asks, and no farther than the hose is long.

    The one stays with its fore end at 0.06 m; the other, 20 mm long, would balance at x2 by
    m1 x1 + m2 x2 + M = 0 as above. Its after end lies no farther than the hose reaches.
    """
    one, other = thing(0, 0.05, 0.02, 0.4, is_kept=True), thing(1, 0.3, 0.02, 0.25)
    layout, fill = lever([one, other], -0.07)
    ends = [RunEnd(on="thing", number=k, ends=it.ends) for k, it in enumerate((one, other))]
    balanced = (0.07 - 0.4 * 0.05) / 0.25
    for run in ((ends[0], ends[1], longest), (ends[1], ends[0], longest)):
        found = best(replace(layout, runs=(run,)), fill, 20.0)
        assert found is not None
        place = 0.3 + found.things[1]
        assert place == pytest.approx(min(balanced, 0.06 + longest + 0.01), abs=1e-6)
    # the fixed end may lie in the hull
    fixed = RunEnd(on="hull", number=0, ends=(0.05, 0.06))
    found = best(replace(layout, runs=((fixed, ends[1], 0.06),)), fill, 20.0)
    assert found is not None
    assert 0.3 + found.things[1] == pytest.approx(0.13, abs=1e-6)


def test_a_hose_that_cannot_reach_leaves_no_order() -> None:
    layout, fill = lever([thing(0, 0.2, 0.02, 0.1)], 0.0)
    far = RunEnd(on="hull", number=0, ends=(2.0, 2.1))
    mine = RunEnd(on="thing", number=0, ends=(0.19, 0.21))
    assert best(replace(layout, runs=((mine, far, 0.5),)), fill, 20.0) is None
