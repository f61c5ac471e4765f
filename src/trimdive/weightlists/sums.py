"""The sums that a list states, each beside the sum of its own rows, and what explains a difference.

Rounding: a figure written to its last digit d is off by a uniform share of d, with a deviation of
d/√12; of n of them 95 in 100 sums lie within 2 √n d/√12. The stated sum itself is off by d/2.
"""

from collections.abc import Sequence
from math import sqrt

from trimdive.fact import Fact, fact
from trimdive.weightlists.numbers import Figure
from trimdive.weightlists.records import Item, SumRead
from trimdive.weightlists.rows import Read

FLOAT = 1e-9  # what floating point leaves behind, as a share of the sum [-]


def stated_sums(reads: Sequence[Read]) -> tuple[SumRead, ...]:
    """Return every sum that the list states, with the rows that it should cover."""
    last = max((k for k, read in enumerate(reads) if _is_total(read)), default=-1)
    items: list[Item] = []
    starts = [0]  # where, among the parts, a run of rows begins
    found: list[SumRead] = []
    by_row = {item.row: item for read in reads for item in read.items}
    for k, read in enumerate(reads):
        items += read.items
        if _is_total(read):
            is_whole = read.row.use == "total" and k == last
            others = [other for other in reads[:k] if not _is_total(other)]
            if read.covers:
                rows = [by_row[row] for row in read.covers if row in by_row]
                is_all = len(rows) == len(by_row)
                found.append(_compared(read, rows, others, is_whole=is_all))
            else:
                found.append(_sum(read, items, starts, others, is_whole))
        if read.row.use in ("heading", "total", "subtotal") and starts[-1] != len(items):
            starts.append(len(items))
    return tuple(found)


def _is_total(read: Read) -> bool:
    """Return whether a row states a sum."""
    return bool(read.stated) and read.row.use in ("total", "subtotal")


def _sum(
    read: Read, items: list[Item], starts: list[int], others: list[Read], is_whole: bool
) -> SumRead:
    """Return one stated sum, beside the rows that it covers."""
    usable = [start for start in starts if start < len(items)] or [0]
    first = 0 if is_whole else usable[-1]
    stated = read.stated[0]
    order = [first, *(start for start in [0, *reversed(usable)] if start != first)]
    start = next((s for s in order if matches(stated, items[s:])), None)
    if start is None:
        start = next((s for s in order if _beside(stated, items[s:], others)), first)
    return _compared(read, items[start:], others, is_whole=start == 0)


def _compared(
    read: Read, rows: Sequence[Item], others: Sequence[Read], *, is_whole: bool
) -> SumRead:
    """Return a stated sum beside the rows that it covers."""
    stated = read.stated[0]
    left = [other.row.number for other in others if other.row.use == "not understood"]
    if rows and not is_whole:
        left = [number for number in left if number >= rows[0].row - 1]
    found = sum(item.mass for item in rows)
    # What lacks a row is no rounding: beyond the sum's own last digit it does not agree.
    rounding = rounding_of(stated, () if left else rows)
    beside, margins = 0.0, ()
    if not matches(stated, rows):
        beside, margins = _beside(stated, rows, others) or (0.0, ())
    difference = stated.value - found - beside
    agrees = abs(difference) <= rounding
    return SumRead(
        row=read.row.number,
        rows=tuple(item.row for item in rows),
        stated=stated.value,
        found=found,
        rounding=rounding,
        beside=beside,
        margins=margins,
        is_whole=is_whole,
        hint=None if agrees else _hint(difference, rounding, rows, others) or _lacking(left),
    )


def _beside(
    stated: Figure, rows: Sequence[Item], others: Sequence[Read]
) -> tuple[float, tuple[int, ...]] | None:
    """Return what margins add to some rows so that they make a stated sum [kg], and which do."""
    found = sum(item.mass for item in rows)
    factors = [one for one in others if one.factor]
    amounts = [one for one in others if one.row.use == "none" and one.stated and not one.factor]
    tried = [*([one] for one in factors), *([one] for one in amounts), amounts]
    for some in tried:
        added = sum(one.stated[0].value if one.stated else found * (one.factor - 1) for one in some)
        if rows and some and abs(stated.value - found - added) <= rounding_of(stated, rows):
            return added, tuple(one.row.number for one in some)
    return None


def rounding_of(stated: Figure, rows: Sequence[Item]) -> float:
    """Return the difference [kg] that rounding may make between a stated sum and its rows."""
    digit = max((item.rounding for item in rows), default=0.0)
    float_noise = FLOAT * (abs(stated.value) + sum(item.mass for item in rows))
    return stated.digit / 2 + 2 * sqrt(len(rows) / 12) * digit + float_noise


def matches(stated: Figure, rows: Sequence[Item]) -> bool:
    """Return whether some rows make a stated sum."""
    difference = stated.value - sum(item.mass for item in rows)
    return bool(rows) and abs(difference) <= rounding_of(stated, rows)


def _lacking(left: Sequence[int]) -> Fact | None:
    """Return that rows do not go in, or nothing."""
    return fact("sum-lacks-rows", rows=tuple(left)) if left else None


def _hint(
    difference: float, rounding: float, rows: Sequence[Item], others: Sequence[Read]
) -> Fact | None:
    """Return what explains a difference [kg], or nothing."""
    near = rounding + FLOAT
    for other in (one for one in others if one.stated):
        if abs(other.stated[0].value - difference) <= near:
            return fact("sum-has-row", row=other.row.number)
    for item in rows:
        if abs(item.mass - abs(difference)) <= near and item.mass > near:
            if difference > 0:
                return fact("sum-counts-twice", row=item.row, name=item.name)
            return fact("sum-leaves-out", row=item.row, name=item.name)
        one = item.mass / item.quantity
        rest = item.mass - one
        if item.quantity > 1 and abs(rest + difference) <= near:
            return fact("sum-counts-one-piece", row=item.row, name=item.name)
        if item.quantity > 1 and abs(one - abs(difference)) <= near:
            return fact("sum-off-one-piece", row=item.row, name=item.name)
    return None
