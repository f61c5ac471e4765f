"""Which part to weigh or measure next, and what to read in the tub first: what tells most.

What is to be known are several figures of different kinds; each is measured by the band in which it
should lie, and what tells most is what takes most off the sum of their squared spreads.

Source: linear least squares with a prior; the update of a covariance by one more reading.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from trimdive.fact import Fact
from trimdive.geometry.lines.mesh import Floats
from trimdive.records import record
from trimdive.uncertainty.figures import Figure, Uncertainty
from trimdive.uncertainty.things import PLACES, WIDE, What

ANY = 0.4  # rad; an angle that may be off by more than this may be any
WORTH_IT = 0.005  # of all doubt: what takes off less is not worth telling [-]
Act = Literal["weigh", "hang", "place", "fill"]  # weigh, hang in water, see where it lies, or holds
ACTS: tuple[tuple[Act, tuple[What, ...]], ...] = (
    ("weigh", ("mass",)),
    ("hang", ("volume",)),
    ("place", PLACES),
    ("fill", ("litres",)),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """Something to weigh or measure again."""

    name: str
    path: str
    act: Act  # what to do
    half: float  # how far it may be off now, 95 %: the largest [kg, m³ or m]
    kind: str  # of that quantity: mass, volume or length
    gain: float  # share of all doubt that it takes off [-]
    most: Figure  # that it tells most about
    after: float  # how far that figure may be off then, 95 % [as the figure]


@record
class Trial:
    """Something that could be read in the tub."""

    what: Fact
    rows: Floats  # what each source does to it, shape (r, s) [m, kg or rad]
    halves: Floats  # how far each reading may be off, 95 %, shape (r,) [m, kg or rad]


@dataclass(frozen=True, slots=True, kw_only=True)
class Gained:
    """A reading with what it takes off, after all that were read before it."""

    what: Fact
    gain: float  # share of the doubt that was left before it [-]
    left: float  # share of all doubt that is left after it [-]


def doubts(uncertainty: Uncertainty, bands: Mapping[str, float]) -> Floats:
    """Return what each source does to the figures that matter, by their bands, shape (f, s) [-].

    Args:
        uncertainty: How sure she is.
        bands: In which each figure should lie, by its short name [as the figure].
    """
    rows = [one.off / bands[one.key] for one in uncertainty.figures if is_counted(one, bands)]
    return np.array(rows) if rows else np.zeros((0, len(uncertainty.sources)))


def is_counted(one: Figure, bands: Mapping[str, float]) -> bool:
    """Return whether a figure has a band, and is no angle that may be any.

    Args:
        one: The figure.
        bands: By its short name [as the figure].
    """
    return bool(bands.get(one.key)) and not (one.kind == "angle" and one.half > ANY)


def steps(uncertainty: Uncertainty, bands: Mapping[str, float], count: int) -> list[Step]:
    """Return what to weigh or measure next, what tells most first.

    Args:
        uncertainty: How sure she is.
        bands: In which each figure should lie, by its short name [as the figure].
        count: How many at the most.
    """
    rows = doubts(uncertainty, bands)
    whole = float((rows**2).sum())
    if whole <= 0:
        return []
    left = np.array([(source.better / source.half) ** 2 for source in uncertainty.sources])
    found: list[Step] = []
    for k, thing in enumerate(uncertainty.things):
        for act, whats in ACTS:
            chosen = np.array([s.thing == k and s.what in whats for s in uncertainty.sources])
            if not chosen.any():
                continue
            taken = np.where(chosen, 1.0 - left, 0.0)
            gain = float((rows**2 * taken).sum()) / whole
            if gain < WORTH_IT:
                continue
            most = _most(uncertainty.figures, bands, taken)
            after = WIDE * float(np.sqrt((most.off**2 * (1.0 - taken)).sum()))
            worst = int(np.argmax((rows**2 * taken).sum(axis=0)))
            source = uncertainty.sources[worst]
            found.append(
                Step(
                    name=thing.name,
                    path=thing.path,
                    act=act,
                    half=source.half,
                    kind=_kind(source.what),
                    gain=gain,
                    most=most,
                    after=float(np.arctan(after)) if most.kind == "angle" else after,
                )
            )
    return sorted(found, key=lambda step: -step.gain)[:count]


def _kind(what: What) -> str:
    """Return the kind of quantity in which a source is told."""
    return {"mass": "mass", "volume": "volume", "litres": "volume"}.get(what, "length")


def _most(figures: Sequence[Figure], bands: Mapping[str, float], taken: Floats) -> Figure:
    """Return the figure that loses most doubt.

    Args:
        figures: All of them.
        bands: In which each should lie [as the figure].
        taken: Share of each source's variance that goes, shape (s,) [-].
    """
    counted = [one for one in figures if is_counted(one, bands)]
    return max(counted, key=lambda one: float((one.off**2 * taken).sum()) / bands[one.key] ** 2)


def order(rows: Floats, trials: Sequence[Trial], count: int) -> list[Gained]:
    """Return what to read first, second and so on, each with what it takes off.

    Args:
        rows: What each source does to the figures that matter, shape (f, s) [-].
        trials: What could be read.
        count: How many at the most.
    """
    whole = float((rows**2).sum())
    left, ordered = list(trials), list[Gained]()
    spread, before = np.eye(rows.shape[1]), whole
    while left and len(ordered) < count and before > 0:
        after = [_with(spread, one) for one in left]
        doubt = [float(np.einsum("fs,st,ft->", rows, one, rows)) for one in after]
        best = int(np.argmin(doubt))
        if before - doubt[best] < WORTH_IT * whole:
            break
        ordered.append(
            Gained(what=left[best].what, gain=1 - doubt[best] / before, left=doubt[best] / whole)
        )
        spread, before = after[best], doubt[best]
        del left[best]
    return ordered


def _with(spread: Floats, one: Trial) -> Floats:
    """Return the covariance of the sources after one more reading, shape (s, s) [-].

    Args:
        spread: Before it, shape (s, s) [-].
        one: The reading.
    """
    across = spread @ one.rows.T
    noise = np.diag((one.halves / WIDE) ** 2)
    return spread - across @ np.linalg.solve(one.rows @ across + noise, across.T)
