"""Readings of one kind at one place are one reading, averaged; their scatter is kept."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt

from trimdive.boatfile.tub import SPREAD_KINDS, Reading
from trimdive.uncertainty import WIDE, reading_half
from trimdive.units import read

AVERAGED = {  # the figures of each kind that are averaged
    "draught": ("draught",),
    "freeboard": ("freeboard",),
    "pull": ("pull_aft", "pull_fore"),
    "laid": ("laid_aft", "laid_fore"),
    "shift": ("angle",),
    "mass": ("mass",),
    "litres": ("litres",),
    "tips": ("tips",),
    "leans": ("leans",),
}
USUAL = {  # row of the table by which each kind may be off
    "draught": "draught",
    "freeboard": "draught",
    "pull": "pull",
    "laid": "laid",
    "shift": "angle",
    "mass": "mass",
    "litres": "litres",
    "tips": "angle",
    "leans": "angle",
}
OF_ITSELF = ("mass", "litres")  # kinds whose usual ± is a share of what was read


@dataclass(frozen=True, slots=True, kw_only=True)
class Averaged:
    """One reading, or several of one kind as one."""

    one: Reading  # with the means of what was read
    count: int  # how often it was read
    scatter: float  # standard deviation between them, the largest; 0 for one [m, kg, rad, m³]
    half: float  # how far the mean may be off, 95 % [m, kg, rad or m³]


def averaged(readings: Sequence[Reading]) -> tuple[Averaged, ...]:
    """Return readings with those of one kind averaged, in the order of the file."""
    groups: dict[object, list[Reading]] = {}
    for one in readings:
        groups.setdefault(_alike(one), []).append(_both_ways(one))
    return tuple(_mean(group) for group in groups.values())


def _both_ways(one: Reading) -> Reading:
    """Return a shift test that was read both ways with the mean of its angles."""
    if one.angle is None or one.angle_back is None:
        return one
    mean = (abs(one.angle) + abs(one.angle_back)) / 2
    return one.model_copy(update={"angle": mean, "angle_back": None})


def _alike(one: Reading) -> object:
    """Return what readings of one kind have in common: all but what was read, and when."""
    left = {"date": None, "note": None, "angle_back": None}
    left |= dict.fromkeys(AVERAGED[one.kind])
    fields = one.model_copy(update=left).model_dump()
    return (one.kind, *fields.items())


def _mean(group: Sequence[Reading]) -> Averaged:
    """Return several readings as one."""
    kind, count = group[0].kind, len(group)
    means: dict[str, float] = {}
    scatter = 0.0
    for field in AVERAGED[kind]:
        values = [float(getattr(one, field)) for one in group]
        means[field] = sum(values) / count
        if count > 1:
            squares = sum((value - means[field]) ** 2 for value in values)
            scatter = max(scatter, sqrt(squares / (count - 1)))
    one = group[-1].model_copy(update=means)
    half = max(half_of(one), WIDE * scatter) / sqrt(count)
    return Averaged(one=one, count=count, scatter=scatter, half=half)


def half_of(one: Reading) -> float:
    """Return how far a reading may be off: its own ±, else the table's [m, kg, rad or m³]."""
    if one.spread:
        return read(one.spread.lstrip("± "), SPREAD_KINDS[one.kind], None)
    usual = reading_half(USUAL[one.kind])
    return usual * float(getattr(one, one.kind)) if one.kind in OF_ITSELF else usual
