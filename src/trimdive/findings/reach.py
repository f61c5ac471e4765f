"""Checks of what water alone can cover."""

from collections.abc import Iterator
from math import atan2, tan

import numpy as np

from trimdive.ballast.reach import Reach, Wanted, apart, reach, wanted
from trimdive.fact import Fact, fact
from trimdive.findings.assessed import Assessed
from trimdive.findings.finding import Finding, Limit, check, finding
from trimdive.geometry.lines.mesh import Floats

FILLINGS = 5  # fillings of each tank from which its reach is drawn [-]


def _curve(her: Assessed, k: int, midships: float) -> Floats:
    """Return mass and moment of one tank's water at some fillings, shape (k, 2) [kg, kg m]."""
    boat, tanks = her.floater, her.floater.tanks
    water = np.linspace(her.surfaced.rest.waters[k], her.full.rest.waters[k], FILLINGS)
    x = np.full(FILLINGS, tanks.centroids[k, 0])
    if tanks.pistons[k]:
        x = tanks.ends[k] + 0.5 * tanks.strokes[k] * water / tanks.capacities[k]
    mass = boat.density * water
    return np.column_stack([mass, mass * (x + boat.tree.centre[0] - midships)])


def _out_of_reach(her: Assessed, state: str, lacks: tuple[float, float]) -> Fact:
    """Return what a state wants of her tanks: mass [kg], else moment [kg m]."""
    mass, moment = lacks
    if abs(mass) > 0:
        return fact("tanks-lack-water", state=state, mass=mass)
    far = her.floater.length / 4
    return fact("tanks-lack-moment", state=state, moment=moment, far=far)


@check("reach-spread")
def spreads(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield a promised boat whose masses may be so far off that her tanks cannot level her dived.

    With one tank only its litres count: where its water lies is not hers to choose.
    """
    if her.boat.brief is None or not her.boat.tanks or not her.goes_under:
        return
    midships = float(her.hull.envelope.bounds[:, 0].mean())
    covered = reach([_curve(her, k, midships) for k in range(len(her.boat.tanks))])
    here, *ends = wanted(her, (), midships)
    band = her.dived.displacement_mass * max(her.bg, 0.0) * tan(limit.value)
    few = len(her.boat.tanks) < 2
    if _lacks(covered, here, band, few) != (0.0, 0.0):
        return  # she is out of reach as she is, and that is said
    out = [(_lacks(covered, one, band, few), one) for one in ends]
    lacks, worst = max(out, key=lambda pair: (abs(pair[0][0]), abs(pair[0][1])))
    if lacks == (0.0, 0.0):
        return
    yield finding(
        limit=limit,
        subject="boat",
        weight="look at",
        rank=6,
        stands=_angle(her, lacks),
        what=_out_of_reach(her, worst.name, lacks),
        mend=fact("weigh-guesses-or-loose-lead"),
    )


def _angle(her: Assessed, lacks: tuple[float, float]) -> float | None:
    """Return the trim that a lack of moment leaves, bow down [rad]; None where water is lacking."""
    mass, moment = lacks
    if mass:
        return None
    return -atan2(moment, her.dived.displacement_mass * max(her.bg, 0.0))


def _lacks(covered: Reach, one: Wanted, band: float, few: bool) -> tuple[float, float]:
    """Return mass [kg] and moment [kg m] that the tanks lack, zero within a band of moments."""
    mass, moment = apart(covered, one)
    return mass if abs(mass) > 5e-4 else 0.0, 0.0 if few or abs(moment) <= band else moment
