"""Checks of the hull against the boat she is a model of: tables read in another unit, or halved."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from trimdive.boatfile import LinesRegion, RoundRegion
from trimdive.fact import fact
from trimdive.findings.assessed import Assessed
from trimdive.findings.finding import Edit, Finding, Limit, check, finding
from trimdive.geometry.lines.table import LinesTable, number, separator
from trimdive.geometry.solids.surfaces import table_of, text_of
from trimdive.units import read

HALF_WORDS = ("half breadth", "keel half", "deck half", "y", "radius")  # columns of half-breadths
UNITS = ("mm", "cm", "in", "ft", "m")
NEAR = 0.08  # so near to a plain factor a slip is told, as a share [-]
RANK = 112  # above a boat that sinks: she may sink for this [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """One size of the hull, as drawn and as the full-size boat's by the scale."""

    word: str  # "length" or "breadth"
    drawn: float  # [m]
    full: float  # of the full-size boat over the scale [m]

    @property
    def share(self) -> float:
        """Return how many times the size meant is drawn [-]."""
        return self.drawn / self.full


def sizes(her: Assessed) -> tuple[Size, ...]:
    """Return the sizes of the hull that the full-size boat tells."""
    boat = her.boat
    if boat.full_size is None or not boat.scale or not boat.regions:
        return ()
    drawn = np.ptp(her.hull.envelope.bounds, axis=0)
    given = (("length", boat.full_size.length, 0), ("breadth", boat.full_size.breadth, 1))
    return tuple(
        Size(word=word, drawn=float(drawn[k]), full=full / boat.scale)
        for word, full, k in given
        if full
    )


@check("full-size")
def against_full_size(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield a hull that is not of the size of the full-size boat by the scale."""
    off = [one for one in sizes(her) if abs(math.log(one.share)) > math.log1p(limit.value)]
    if not off:
        return
    table = _table(her)
    found = None
    if table is not None:
        found = _halves(limit, table, off) or _unit(her, limit, table)
    yield found or _plain(limit, off)


def _table(her: Assessed) -> LinesTable | None:
    """Return the table of lines of the hull, where one table is all that it is drawn by."""
    names = {one.file for one in her.boat.regions if isinstance(one, LinesRegion | RoundRegion)}
    if len(names) != 1:
        return None
    name = names.pop()
    return table_of(text_of(her.files, name), name)


def _is_near(share: float, times: float) -> bool:
    return abs(math.log(share / times)) <= math.log1p(NEAR)


def _off(found: Sequence[Size]) -> float:
    """Return by what share the size that is farthest off is too large or too small [-]."""
    return max(max(one.share, 1 / one.share) for one in found) - 1


def _halves(limit: Limit, table: LinesTable, off: Sequence[Size]) -> Finding | None:
    """Return the finding of breadths that were entered as half-breadths, or the reverse."""
    if [one.word for one in off] != ["breadth"]:
        return None
    (broad,) = off
    if _is_near(broad.share, 2.0):
        times = 0.5
    elif _is_near(broad.share, 0.5):
        times = 2.0
    else:
        return None
    text, is_twice = scaled(table, times), times < 1
    return finding(
        limit=limit,
        subject=f"{table.name}: breadth",
        rank=RANK,
        beyond=abs(math.log(broad.share)),
        stands=_off(off),
        what=fact(
            "half-breadths-wrong",
            table=table.name,
            drawn=broad.drawn,
            full=broad.full,
            is_twice=is_twice,
        ),
        mend=fact("scale-half-breadths", table=table.name, is_twice=is_twice),
        edits=(Edit(action="file", path=table.name, fields=(("text", text),)),),
    )


def _unit(her: Assessed, limit: Limit, table: LinesTable) -> Finding | None:
    """Return the finding of a table of which all lengths are read in another unit."""
    found = sizes(her)
    now = read(f"1 {table.unit}", "length", None)
    for unit in UNITS:
        times = now / read(f"1 {unit}", "length", None)
        if unit == table.unit or not all(_is_near(one.share, times) for one in found):
            continue
        text = renamed(table, unit)
        edit = Edit(action="file", path=table.name, fields=(("text", text),))
        return finding(
            limit=limit,
            subject=f"{table.name}: unit",
            rank=RANK,
            beyond=abs(math.log(times)),
            stands=_off(found),
            what=fact(
                "table-in-unit",
                table=table.name,
                unit=table.unit,
                instead=unit,
                sizes=_figures(found),
            ),
            mend=fact("write-unit-in-head", table=table.name, unit=table.unit, instead=unit),
            edits=(edit,),
        )
    return None


def _figures(found: Sequence[Size]) -> tuple[tuple[str, float, float], ...]:
    """Return of each size what it is, how it is drawn and what the full-size boat tells [m]."""
    return tuple((one.word, one.drawn, one.full) for one in found)


def _plain(limit: Limit, off: Sequence[Size]) -> Finding:
    """Return the finding of a hull that is of another size, by no plain slip."""
    return finding(
        limit=limit,
        subject="hull: size",
        rank=11,
        weight="look at",
        beyond=max(abs(math.log(one.share)) for one in off),
        stands=_off(off),
        what=fact("hull-off-scale", sizes=_figures(off)),
        mend=fact("look-at-scale"),
        form="full_size",
    )


def scaled(table: LinesTable, times: float) -> str:
    """Return the text of a table with all its half-breadths so many times as large."""
    halves = {
        k
        for k, one in enumerate(table.columns)
        if one.word in HALF_WORDS or not math.isnan(one.height)
    }

    def written(cell: str) -> str:
        value = number(cell)
        return cell if value is None else f"{value * times:.6g}"

    mark = separator(table.text)
    lines = table.text.splitlines()
    for line in table.rows:
        cells = lines[line - 1].split(mark)
        for k in halves & set(range(len(cells))):
            cells[k] = written(cells[k].strip())  # an empty cell stays empty
        lines[line - 1] = mark.join(cells)
    return "\n".join([*lines, ""])


def renamed(table: LinesTable, unit: str) -> str:
    """Return the text of a table with another unit in its head."""
    mark = separator(table.text)
    lines = table.text.splitlines()
    heads = lines[table.head - 1].split(mark)
    heads = [_head(cell, table.unit, unit) for cell in heads]
    lines[table.head - 1] = mark.join(heads)
    return "\n".join([*lines, ""])


def _head(cell: str, old: str, new: str) -> str:
    """Return the head of a column with another unit.

    >>> _head("x mm", "mm", "cm"), _head("y [mm]", "mm", "cm"), _head("keel", "mm", "cm")
    ('x cm', 'y [cm]', 'keel')
    """
    word, gap, last = cell.rstrip().rpartition(" ")
    return f"{word}{gap}{last.replace(old, new)}" if gap and last.strip("[]()") == old else cell
