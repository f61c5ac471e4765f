"""Keeps sliding things clear of each other and of what stays: on which side each lies is chosen."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from trimdive.placing.solve.lanes import TOUCH, Pass, Slide

Column = tuple[int, float]  # place of an unknown, and how it counts
Moves = Mapping[tuple[int, int], Sequence[Column]]  # by lane and axis
Row = tuple[dict[int, float], float, float]  # entries by place; least and most of their sum


@dataclass(frozen=True, slots=True, kw_only=True)
class Side:
    """One way in which two things lie clear: gap + second's move - first's move >= 0, or turned."""

    axis: int
    sign: int
    gap: float  # as they lie [m]
    worst: float  # the most that moving can close it, negative [m]


def _range(ways: Sequence[Slide], lane: int, axis: int) -> tuple[float, float]:
    for way in ways:
        if way.lane == lane and way.axis == axis:
            return min(way.low, 0.0), max(way.high, 0.0)
    return 0.0, 0.0


def sides(one: Pass, ways: Sequence[Slide]) -> list[Side]:
    """Return the ways in which two things can lie clear; empty where they always do."""
    found: list[Side] = []
    for axis in range(3):
        first, second = (_range(ways, lane, axis) for lane in (one.first, one.second))
        for side, sign in ((0, 1), (1, -1)):
            gap = float(one.gaps[axis, side]) + TOUCH
            moves = [sign * (b - a) for a in first for b in second]
            if gap + min(moves) >= 0:
                return []
            if gap + max(moves) >= 0:
                found.append(Side(axis=axis, sign=sign, gap=gap, worst=min(moves)))
    return found


def side_rows(clear: Sequence[Side], pair: Pass, moves: Moves, places: Sequence[int]) -> list[Row]:
    """Return the rows by which at least one way of lying clear holds.

    Args:
        clear: The ways.
        pair: The two things.
        moves: The unknowns that move each lane.
        places: Of the unknown, 0 or 1, that chooses each way.
    """
    rows: list[Row] = []
    for side, place in zip(clear, places, strict=True):
        entries = {place: side.gap + side.worst}  # given up where this way is not chosen
        for lane, turn in ((pair.second, 1), (pair.first, -1)):
            for column, sign in moves.get((lane, side.axis), ()):
                entries[column] = entries.get(column, 0.0) + side.sign * turn * sign
        rows.append((entries, side.worst, float("inf")))
    rows.append((dict.fromkeys(places, 1.0), 1.0, float("inf")))
    return rows
