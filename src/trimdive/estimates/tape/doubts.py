"""Readings that contradict each other, and readings that look wrong beside their neighbours."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from trimdive.errors import TapeError
from trimdive.estimates.tape.readings import Girth, Readings, figure
from trimdive.fact import Fact, fact
from trimdive.geometry.lines.batten import by_the_others, shares
from trimdive.geometry.lines.slips import slips
from trimdive.units import number_in, usual_names, write, write_fine

FEWEST = 5  # girths [-]
NO_WALL = "wall"  # where it stands that neither wall nor moulding is given
ALONE = 0.5  # share of a batten's strain that one girth causes, before it is doubted [-]
EXPLAINS = 0.15  # what a slip may leave of the distance, and yet be likely [-]
MANY = 7  # girths from which a batten says enough to doubt one that no slip explains [-]
FAR = 2.0  # times as far off as a slip would have to be, before such a one is doubted [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Doubt:
    """Something about the readings that looks wrong, and may stand."""

    path: str  # which reading, as girth[3]
    what: Fact
    mend: Fact


def shown(readings: Readings, value: float, kind: str = "length") -> str:
    """Return a figure in the builder's unit.

    Args:
        readings: For their units.
        value: The figure [SI].
        kind: What it measures.
    """
    return write(value, kind, readings.units.get(kind) or usual_names(kind)[0])


def impossible(readings: Readings) -> Iterator[TapeError]:
    """Yield what refuses readings that cannot stand together, each with the reading's path."""
    girths = readings.girths
    if len(girths) < FEWEST:
        many = "is 1 girth" if len(girths) == 1 else f"are {len(girths)} girths"
        what = f"there {many}, and {FEWEST} or more are needed"
        yield TapeError(what, "girth", "Lay the tape over the deck at more places.")
    yield from _places(readings)
    for one in girths:
        yield from _girth(readings, one)
    yield from _walls(readings)
    if girths and max(one.girth for one in girths) <= 0:
        yield TapeError("all girths are zero", "girth", "Measure over the deck.")


def _girth(readings: Readings, one: Girth) -> Iterator[TapeError]:
    at = f"girth[{one.number}]"
    if one.breadth is not None and one.girth < one.breadth:
        what = (
            f"over the deck it is {shown(readings, one.girth)}, less than the breadth of "
            f"{shown(readings, one.breadth)} straight across"
        )
        mend = "Measure both again; the tape goes from waterline up over the deck and down."
        yield TapeError(what, f"{at}.girth", mend)
    if readings.kind == "dry" and one.breadth is None:
        what = "a dry hull needs the breadth at the waterline beside each girth"
        yield TapeError(what, at, "Add breadth = …")


def _places(readings: Readings) -> Iterator[TapeError]:
    for one in readings.girths:
        if not -1e-9 <= one.x <= readings.length + 1e-9:
            at, whole = shown(readings, readings.along(one.x)), shown(readings, readings.length)
            what = f"{at} lies outside the hull, which is {whole} long"
            yield TapeError(what, f"girth[{one.number}].x", "See from which end it is measured.")
    for i, thing in enumerate(readings.standing, 1):
        if not -1e-9 <= thing.x <= readings.length + 1e-9:
            what = f"{thing.name} stands outside the hull"
            yield TapeError(what, f"standing[{i}].x", "Measure its middle again.")
    for one, other in pairwise(readings.girths):
        if other.x - one.x < 1e-6:
            what = f"there are two girths at {shown(readings, readings.along(one.x))}"
            later = max(one.number, other.number)
            yield TapeError(what, f"girth[{later}].x", "Keep one, or give their mean.")


def _walls(readings: Readings) -> Iterator[TapeError]:
    if readings.kind == "wet" and not readings.walls and readings.moulding is None:
        what = "neither the wall nor the mass of the upper moulding is given"
        yield TapeError(what, NO_WALL, 'Add wall = ["2.4 mm", …], or [moulding].')
    girths = [one.girth for one in readings.girths if one.girth > 0]
    most = min(figure("wall-most"), figure("wall-share") * max(girths, default=1.0))
    for i, wall in enumerate(readings.walls, 1):
        if wrong := _wrong_wall(readings, wall, most, f"wall[{i}]"):
            yield wrong
    for i, thing in enumerate(readings.standing, 1):
        if thing.wall and thing.girth and thing.wall > figure("wall-share") * thing.girth:
            what = f"the wall of {thing.name}, {shown(readings, thing.wall)}, is too thick for it"
            yield TapeError(what, f"standing[{i}].wall", "Look at the unit.")


def _wrong_wall(readings: Readings, wall: float, most: float, path: str) -> TapeError | None:
    """Return what refuses a wall of the upper moulding that cannot be; None where it can.

    Args:
        readings: With the units in which it is told.
        wall: At one spot [m].
        most: A hull of this girth has at the most [m].
        path: Which reading it is.
    """
    if figure("wall-least") <= wall <= most:
        return None
    what = f"a wall of {shown(readings, wall)} is more than a hull of this girth has"
    if wall <= 0:
        what = "a wall of zero holds no water"
    elif wall < figure("wall-least"):
        unit = readings.units.get("length") or usual_names("length")[0]
        entered, least = (write_fine(one, "length", unit) for one in (wall, figure("wall-least")))
        what = f"a wall of {entered} is thinner than any moulding: {least} at least"
    return TapeError(what, path, "Look at the unit and the point.")


def refuse(readings: Readings) -> None:
    """Refuse readings that cannot stand together.

    Raises:
        TapeError: With the first of them.
    """
    for found in impossible(readings):
        raise found


def odd(readings: Readings) -> Iterator[Doubt]:
    """Yield girths far off a batten through the others, with the likely figure."""
    x = np.array([one.x for one in readings.girths])
    g = np.array([one.girth for one in readings.girths])
    ought, strains = by_the_others(x, g)
    alone = shares(x, g, strains)
    limit = figure("girth-doubt") * float(g.max())
    for k in range(1, len(x) - 1):
        off = float(g[k] - ought[k])
        if abs(off) <= limit or alone[k] < ALONE:
            continue
        likely = _likely(readings, float(g[k]), float(ought[k]))
        if not likely and (len(x) < MANY or abs(off) <= FAR * limit):
            continue  # a full-bodied hull by few girths looks the same
        what = fact(
            "tape-girth-odd",
            at=readings.along(float(x[k])),
            girth=float(g[k]),
            off=off,
            likely=likely,
            ought=float(ought[k]),
        )
        path = f"girth[{readings.girths[k].number}].girth"
        yield Doubt(path=path, what=what, mend=fact("tape-measure-again"))


def _likely(readings: Readings, found: float, ought: float) -> str:
    """Return the slip that explains a figure, or ''."""
    unit = readings.units.get("length") or usual_names("length")[0]
    typed, aim = f"{number_in(found, 'length', unit):g}", number_in(ought, "length", unit)
    off = abs(number_in(found, "length", unit) - aim)
    near = sorted((abs(float(text) - aim), text) for text in slips(typed))
    return f"{near[0][1]} {unit}" if near and near[0][0] < EXPLAINS * off else ""
