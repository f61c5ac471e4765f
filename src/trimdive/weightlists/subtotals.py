"""Rows that state the sum of others without saying so: by their group's name, or by their place.

A row named as its group, without a name, or without the place that other rows have is a sum where
its mass is that of the rows above or below it. A row that may be either is not guessed at.
"""

from collections.abc import Sequence
from dataclasses import replace

from trimdive.fact import Fact, fact
from trimdive.weightlists.derived import derived
from trimdive.weightlists.numbers import Figure
from trimdive.weightlists.records import Item
from trimdive.weightlists.rows import Read
from trimdive.weightlists.sums import matches
from trimdive.weightlists.words import folded

FEW = (
    2  # rows that make a sum by chance too seldom to doubt it, where the row itself looks like one
)
MANY = 3  # rows at least whose sum a row by its mass alone may be
PLACED = 0.6  # of the parts have a place: one without it is odd [-]
BREAKS = ("heading", "total", "subtotal")


def without_sums(reads: Sequence[Read]) -> list[Read]:
    """Return the rows with those taken for sums that state the sum of other rows."""
    groups = _groups(reads)
    items = [i for read in reads for i in read.items if i.figures or folded(i.name) not in groups]
    placed = [item for item in items if item.figures]
    is_placed = len(placed) >= PLACED * max(len(items), 1)
    found: list[Read] = []
    above: list[Item] = []
    starts, run, is_below = [0], 0, False
    for k, read in enumerate(reads):
        looks = _looks(read, groups, is_placed=is_placed)
        made = _as_sum(read, looks, above, starts, reads[k + 1 :])
        made = made or _left_over(read, looks, above[run:], reads[k + 1 :], is_below=is_below)
        made = made or _covering(read, above, reads[k + 1 :]) or read
        above += made.items
        if made.row.use in BREAKS:
            starts.append(len(above))
        if made.row.use in (*BREAKS, "blank"):
            run = len(above)
        is_below = is_below or (made.row.use == "total" and bool(above))
        found.append(made)
    return found


def _groups(reads: Sequence[Read]) -> set[str]:
    """Return the names of groups: those of headings, and those in a column of groups."""
    headings = {folded(read.row.text) for read in reads if read.row.use == "heading"}
    groups = {folded(item.words.get("group", "")) for read in reads for item in read.items}
    return (headings | groups) - {""}


def _looks(read: Read, groups: set[str], *, is_placed: bool) -> str:
    """Return what makes a row look like a sum: "nameless", "group", "poor"; or ""."""
    if read.stated and read.row.why and read.row.why.kind == "row-nameless":
        return "nameless"
    if len(read.items) != 1 or read.items[0].figures:
        return ""
    item = read.items[0]
    if folded(item.name) in groups and item.quantity == 1:
        return "group"
    has_more = item.quantity != 1 or item.words.get("material") or item.words.get("known")
    return "poor" if is_placed and not has_more else ""


def _mass(read: Read) -> Figure:
    """Return the mass that a row states."""
    if read.stated:
        return read.stated[0]
    item = read.items[0]
    return Figure(value=item.mass, digit=item.rounding, spread="", is_about=False)


def _as_sum(
    read: Read, looks: str, above: list[Item], starts: list[int], below: Sequence[Read]
) -> Read | None:
    """Return a row as the sum of rows above or below, or None."""
    if not looks:
        return None
    mass, few = _mass(read), FEW if looks == "poor" else 1
    for start in dict.fromkeys([starts[-1], *reversed(starts), 0]):
        if len(above) - start >= few and matches(mass, above[start:]):
            return _sum_of(read, mass, above[start:])
    following = _run(below)
    if looks != "poor" and following and matches(mass, following):
        return _sum_of(read, mass, following)
    return None


def _run(below: Sequence[Read]) -> list[Item]:
    """Return the parts below a row, down to the next that is none; blank rows between count not."""
    found: list[Item] = []
    for read in below:
        if read.row.use in BREAKS or (read.row.use == "not understood" and read.stated):
            break
        found += read.items
    return found


def _sum_of(read: Read, mass: Figure, rows: Sequence[Item]) -> Read:
    """Return a row as the sum of some rows."""
    numbers = tuple(item.row for item in rows)
    why = fact("row-sum-of", rows=numbers, has_name=bool(read.items))
    row = replace(read.row, use="total" if not read.items else "subtotal", why=why)
    return Read(row=row, stated=(mass,), covers=numbers)


def _left_over(
    read: Read, looks: str, run: Sequence[Item], below: Sequence[Read], *, is_below: bool
) -> Read | None:
    """Return a row that may be a sum or no part at all as not understood, or None."""
    if len(read.items) != 1:
        return None
    item, mass = read.items[0], _mass(read)
    kind = derived(item.name, below_total=True) if is_below and not item.figures else ""
    if kind == "unclear":
        return _unclear(read, mass, fact("row-below-total"))
    if kind:
        row = replace(read.row, use="none", why=fact("row-worked-out-below"))
        return Read(row=row, stated=(mass,))
    if item.figures or item.quantity != 1:
        return None
    same = [other for other in run if other.words.get("group") == item.name]
    if looks == "group" and same:
        return _unclear(read, mass, fact("row-named-as-group", rows=_rows(same)))
    is_last = not below or below[0].row.use in ("blank", *BREAKS)
    is_only_mass = not any(other.figures for other in run)
    if is_last and is_only_mass and len(run) >= MANY and matches(mass, run):
        return _unclear(read, mass, fact("row-as-heavy-as", rows=_rows(run)))
    return None


def _rows(items: Sequence[Item]) -> tuple[int, ...]:
    """Return the rows of some parts."""
    return tuple(item.row for item in items)


def _unclear(read: Read, mass: Figure, why: Fact) -> Read:
    """Return a row that does not go in until somebody says what it is."""
    return Read(row=replace(read.row, use="not understood", why=why), stated=(mass,))


def _covering(read: Read, above: Sequence[Item], below: Sequence[Read]) -> Read | None:
    """Return a total that stands above its rows with those rows, or None."""
    if read.row.use not in ("total", "subtotal") or not read.stated or read.covers or above:
        return None
    rows = [item for one in below for item in one.items]
    return replace(read, covers=tuple(item.row for item in rows)) if rows else None
