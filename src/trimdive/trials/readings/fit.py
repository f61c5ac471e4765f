"""From readings to the boat that they are of: weighted least squares with the list as a prior.

All that may be off in the list is unknown at once; the readings are few, so that what is not told
by them stays as the list has it, and as unsure.

Source: Gauss and Newton's method with a prior, in the space of the readings; any text on inverse
problems. How well readings agree: the chi-square test.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from scipy.special import gammaincc

from trimdive.geometry.lines.mesh import Floats
from trimdive.trials.readings.predicted import Off, Row, predicted, rows_of, slopes
from trimdive.trials.readings.repeats import Averaged, averaged
from trimdive.trials.readings.today import Listed
from trimdive.uncertainty import WIDE

ROUNDS = 12  # of Gauss and Newton at the most
CLOSE = 1e-4  # of a standard deviation: a step shorter than this ends it [-]
SHORTEST = 1 / 16  # of a step [-]
WIDER = (1.0, 2.0, 3.0, 4.0, 6.0, 8.0)  # times that the list's ± is tried wider [-]
GOOD, POOR = 0.05, 0.01  # chances below which readings agree poorly, and not at all [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """The boat that readings are of, and how sure that is."""

    her: Listed
    groups: tuple[Averaged, ...]
    rows: tuple[Row, ...]
    off: Floats  # how far each source is off most likely, in standard deviations, shape (s,) [-]
    spread: Floats  # covariance of that, shape (s, s) [-]
    by_list: Floats  # what each row should read by the list, shape (r,) [as read]
    by_tub: Floats  # and by the boat that was found, shape (r,) [as read]
    chi: float  # squared misfit of readings and list, in standard deviations [-]
    chance: float  # that it is as large or larger if all is as told [-]
    apart: Floats  # chance of each reading, given all others, shape (groups,) [-]
    wider: float  # the list's ± that much wider agrees with the readings; 0: none tried does [-]

    @property
    def odd(self) -> int | None:
        """Return the reading that disagrees with the others, by its number; None: none does."""
        k = int(np.argmin(self.apart))
        return k if self.apart[k] < POOR else None

    @property
    def agreement(self) -> str:
        """Return how well the readings agree with each other and the list: a word."""
        if self.chance >= GOOD and self.odd is None:
            return "well"
        return "poorly" if self.chance >= POOR else "not"


def update(slope: Floats, noise: Floats, gap: Floats) -> tuple[Floats, Floats]:
    """Return the most likely sources, and how far gaps should scatter.

    Args:
        slope: What each source does to each row, shape (r, s) [as read].
        noise: Variance of each row, shape (r,) [as read, squared].
        gap: What each row reads more than it should by the list, shape (r,) [as read].

    Returns:
        Sources, in standard deviations, shape (s,) [-]; covariance of the gaps, shape (r, r).
    """
    scatter = slope @ slope.T + np.diag(noise)
    return slope.T @ np.linalg.solve(scatter, gap), scatter


def fit(her: Listed) -> Fit:
    """Return the boat that her readings are of.

    Args:
        her: The boat as her list has her today, with readings.

    Raises:
        BalanceError: By her list she sinks where she was read afloat.
    """
    groups = averaged(her.boat.readings)
    start = Off(her=her, off=np.zeros(len(her.sources)))
    rows = rows_of(start, groups)
    by_list = _foretold(start, groups)
    read = np.array([one.read for one in rows])
    noise = (np.array([one.half for one in rows]) / WIDE) ** 2
    at, readings = start, by_list
    for _ in range(ROUNDS):
        slope = _slopes(at, groups)
        target, _ = update(slope, noise, read - readings + slope @ at.off)
        step = target - at.off
        if np.abs(step).max(initial=0.0) < CLOSE:
            break
        at, readings = _stepped(at, step, groups, (read, noise))
    slope = _slopes(at, groups)
    gap = read - readings + slope @ at.off
    off, scatter = update(slope, noise, gap)
    inverse: Floats = np.asarray(np.linalg.inv(scatter), dtype=np.float64)
    chi = float(gap @ inverse @ gap)
    return Fit(
        her=her,
        groups=groups,
        rows=tuple(rows),
        off=off,
        spread=np.eye(len(off)) - slope.T @ inverse @ slope,
        by_list=by_list,
        by_tub=readings,
        chi=chi,
        chance=chance_of(chi, len(rows)),
        apart=_apart(inverse, gap, rows, len(groups)),
        wider=_wider(slope, noise, gap),
    )


def _wider(slope: Floats, noise: Floats, gap: Floats) -> float:
    """Return how much wider the list's ± must be for it to agree with the readings [-].

    What no wider list explains is a reading that does not fit the others. Chi-square alone cannot
    tell a misread figure from a list that is farther off than it says; this tells how far.

    Args:
        slope: What each source does to each row, shape (r, s) [as read].
        noise: Variance of each row, shape (r,) [as read, squared].
        gap: What each row reads more than it should by the list, shape (r,) [as read].
    """
    for times in WIDER:
        _, scatter = update(times * slope, noise, gap)
        if chance_of(float(gap @ np.linalg.solve(scatter, gap)), len(gap)) >= GOOD:
            return times
    return 0.0


def _stepped(
    at: Off, step: Floats, groups: Sequence[Averaged], given: tuple[Floats, Floats]
) -> tuple[Off, Floats]:
    """Return her after a step, shortened until she fits better, and what she should read then.

    Args:
        at: Where the step begins.
        step: In standard deviations, shape (s,) [-].
        groups: Her readings.
        given: What was read, and its variance, shape (r,) each [as read].
    """
    before = _misfit(at.off, _foretold(at, groups), given)
    share = 1.0
    while True:
        trial = Off(her=at.her, off=at.off + share * step)
        readings = _foretold(trial, groups)
        if share <= SHORTEST or _misfit(trial.off, readings, given) <= before:
            return trial, readings
        share /= 2


def _misfit(off: Floats, predicted_as: Floats, given: tuple[Floats, Floats]) -> float:
    """Return how far list and readings together are from a boat, squared [-].

    Args:
        off: How far each source is off, in standard deviations, shape (s,) [-].
        predicted_as: What she should read, shape (r,) [as read].
        given: What was read, and its variance, shape (r,) each [as read].
    """
    return float(off @ off + ((given[0] - predicted_as) ** 2 / given[1]).sum())


def _foretold(her: Off, groups: Sequence[Averaged]) -> Floats:
    return np.array([value for group in groups for value in predicted(her, group.one)])


def _slopes(her: Off, groups: Sequence[Averaged]) -> Floats:
    return np.array([row for group in groups for row in slopes(her, group.one)])


def chance_of(chi: float, count: int) -> float:
    """Return the chance that chi-square of so many figures is as large as this or larger [-].

    Args:
        chi: Chi-square [-].
        count: How many figures.

    >>> round(chance_of(3.841, 1), 3), round(chance_of(11.345, 3), 3)
    (0.05, 0.01)
    """
    return float(gammaincc(count / 2, chi / 2))


def _apart(inverse: Floats, gap: Floats, rows: Sequence[Row], count: int) -> Floats:
    """Return the chance of each reading, given all others and the list, shape (count,) [-].

    Args:
        inverse: Of the covariance of the gaps, shape (r, r) [as read, to the power of -2].
        gap: What each row reads too much, shape (r,) [as read].
        rows: What was read.
        count: How many readings.
    """
    weighed = inverse @ gap
    found = np.empty(count)
    for k in range(count):
        chosen = [i for i, one in enumerate(rows) if one.group == k]
        part = weighed[chosen]
        chi = float(part @ np.linalg.solve(inverse[np.ix_(chosen, chosen)], part))
        found[k] = chance_of(chi, len(chosen))
    return found
