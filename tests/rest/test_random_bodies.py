"""Random bodies, each let go from two ways up: all rest, in balance, and nothing beside is lower.

Force, moments and energy are weighed again by a plain cut with numpy alone (``bodies``). The long
run, whose figures a release tells: ``python -m tests.rest.test_random_bodies 10000``.
"""

import sys
import time
from collections import Counter
from dataclasses import replace

import numpy as np
import pytest
from tests.rest.bodies import KINDS, Body, body, left_over, sinks_lower
from tests.rest.floaters import NO_WATER

from trimdive.errors import BalanceError
from trimdive.hydrostatics.equilibrium import Rest, rest

BODIES = 240
FORCE = 1e-8  # of the weight [-]: ten milligrams on a kilogram
LEVER = 1e-8  # of the size [-]
LOWER = 1e-9  # of weight times size [-]: what two plain cuts differ by


def trials(of: Body) -> list[Rest | None]:
    """Return the rest from each start; None where none was found."""
    found: list[Rest | None] = []
    for start in of.starts:
        try:
            found.append(rest(of.boat, NO_WATER, n=start))
        except BalanceError:
            found.append(None)
    return found


@pytest.mark.parametrize("part", range(len(KINDS)))
def test_every_body_rests_from_every_start(part: int) -> None:
    for seed in range(part, BODIES, len(KINDS)):
        of = body(seed)
        for at in trials(of):
            assert at is not None, seed
            assert at.stable, seed
            if not at.under:
                force, lever = left_over(of, at)
                assert force < FORCE, seed
                assert lever < LEVER, seed


@pytest.mark.parametrize("part", range(len(KINDS)))
def test_nothing_beside_a_rest_is_lower(part: int) -> None:
    for seed in range(part, BODIES // 4, len(KINDS)):
        of = body(seed)
        for at in trials(of):
            assert at is not None, seed
            assert sinks_lower(of, at) < LOWER, seed


def test_the_plain_check_sees_a_rest_that_would_not_hold() -> None:
    """Left on end without escape, a homogeneous spar is a knife's edge: beside it is lower."""
    spar = body(4)
    even = spar.boat._replace(gravity=spar.boat.buoyancy, mass=0.5 * spar.boat.volume * 1000.0)
    of = replace(spar, boat=even)
    up = np.eye(3)[int(np.argmax(spar.meshes[0].bounds[1]))]
    assert sinks_lower(of, rest(even, NO_WATER, n=up, escape=False)) > 100 * LOWER


def test_a_spar_weighted_on_its_axis_and_let_go_lying_stands_up() -> None:
    """All that it displaces lies above G wherever it lies: it stands on its weighted end."""
    stood = 0
    for seed in range(4, BODIES, len(KINDS)):
        of = body(seed)
        lever = of.boat.gravity - of.boat.buoyancy
        if (
            np.count_nonzero(np.abs(lever) > 1e-9) == 1
            and np.abs(lever).max() > 0.1 * of.boat.length
        ):
            at = rest(of.boat, NO_WATER)
            assert at.stable
            stood += 1
    assert stood > 0


def main() -> None:
    """Let go as many bodies as asked for, and print what came of it."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 1000
    came: Counter[str] = Counter()
    worst = {"force": 0.0, "lever": 0.0, "lower": 0.0}
    steps: list[int] = []
    spent = 0.0
    for seed in range(count):
        of = body(seed)
        began = time.perf_counter()
        rests = trials(of)
        spent += time.perf_counter() - began
        for at in rests:
            came[of.kind] += 1
            if at is None or not at.stable:
                came["without rest" if at is None else "not stable"] += 1
                print(f"body {seed}, {of.kind}: {'no rest' if at is None else 'not stable'}")
                continue
            steps.append(at.steps)
            found = dict(zip(worst, (*left_over(of, at), sinks_lower(of, at)), strict=True))
            for name, value in found.items():
                if value > max(worst[name], 1e-9):
                    print(f"body {seed}, {of.kind}: {name} {value:.1e}")
                worst[name] = max(worst[name], value)
    print(dict(came), {name: f"{value:.1e}" for name, value in worst.items()})
    print(f"steps {np.mean(steps):.1f} on average, at most {max(steps)}; {spent:.1f} s in all")


if __name__ == "__main__":
    main()
