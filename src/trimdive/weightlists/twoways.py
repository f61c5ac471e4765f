"""Figures such as "1,240" that may part thousands or decimals, and what of the list decides.

What decides: the sums that the list states and what the boat file says the piece weighs now, where
these two do not contradict each other; else how the other figures are written, where that is also
what the unit makes likely (grams have few decimals, kilograms many). Otherwise it is refused.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import product
from math import log

from trimdive.fact import Fact, fact
from trimdive.weightlists.numbers import TOKEN, Marks, two_ways
from trimdive.weightlists.records import Item
from trimdive.weightlists.rows import Read, Reader
from trimdive.weightlists.sheet import Line
from trimdive.weightlists.sums import stated_sums
from trimdive.weightlists.words import MASSES

MOST_READ = 20_000  # rows that are read to try every reading of every figure
NEAR = 5.0  # a mass this many times what the boat file says is not that piece weighed again [-]

Tried = tuple[Mapping[str, str], Sequence[Read]]  # readings, and the rows read by them


@dataclass(frozen=True, slots=True, kw_only=True)
class Settled:
    """What decides on figures that may be read in two ways."""

    how: Marks
    notes: tuple[Fact, ...]  # of each figure that is decided


def settled(
    reader: Reader,
    lines: Sequence[Line],
    read_rows: Callable[[Reader], Sequence[Read]],
    present: Mapping[str, float],
) -> Settled:
    """Return how the masses of a list are written, with those decided that may be read two ways.

    Args:
        reader: What is known of the list.
        lines: Its rows.
        read_rows: Reads them all.
        present: Masses of pieces aboard by name in small letters [kg].
    """
    tokens = _tokens(reader, lines)
    if not tokens:
        return Settled(how=reader.how, notes=())
    tried = _tried(reader, len(lines), tokens, read_rows)
    chosen: dict[str, str] = {}
    refused: dict[str, tuple[str, str]] = {}
    notes: list[Fact] = []
    for token in tokens:
        by_sum, by_boat = _by_sums(token, tried), _by_boat(token, reader, lines, tried, present)
        if by_sum and by_boat and by_sum != by_boat:
            refused[token] = by_sum, by_boat
        elif by_sum or by_boat:
            chosen[token] = value = by_sum or by_boat
            by = "sum" if by_sum else "boat"
            notes.append(fact("figure-settled", figure=token, value=value, by=by))
    return Settled(how=replace(reader.how, chosen=chosen, refused=refused), notes=tuple(notes))


def _tokens(reader: Reader, lines: Sequence[Line]) -> list[str]:
    """Return the figures of masses that may be read in two ways, each once."""
    cells = [cell for line in lines for _, cell in reader.cells(line, *MASSES)]
    cells += [line.cell(line.filled[0]) for line in lines if len(line.filled) == 1]
    texts = [cell.text for cell in cells if not cell.is_number]
    found = [token for text in texts for token in TOKEN.findall(text) if two_ways(token)]
    return list(dict.fromkeys(found))


def _tried(
    reader: Reader, count: int, tokens: list[str], read_rows: Callable[[Reader], Sequence[Read]]
) -> list[Tried]:
    """Return the list read in every way: all decimals first, all thousands last."""
    ways = [two_ways(token) or (token,) for token in tokens]
    if 2 ** len(tokens) * count > MOST_READ:
        choices: Iterable[tuple[str, ...]] = zip(*ways, strict=True)
    else:
        choices = product(*ways)
    found: list[Tried] = []
    for choice in choices:
        chosen = dict(zip(tokens, choice, strict=True))
        how = replace(reader.how, chosen=chosen)
        found.append((chosen, read_rows(replace(reader, how=how))))
    return found


def _by_sums(token: str, tried: Sequence[Tried]) -> str:
    """Return the reading in which most of the list's sums add up, or nothing."""
    right = [sum(one.agrees for one in stated_sums(reads)) for _, reads in tried]
    best = {
        chosen[token]
        for (chosen, _), count in zip(tried, right, strict=True)
        if count == max(right) > 0
    }
    return best.pop() if len(best) == 1 else ""


def _by_boat(
    token: str,
    reader: Reader,
    lines: Sequence[Line],
    tried: Sequence[Tried],
    present: Mapping[str, float],
) -> str:
    """Return the reading that comes near what the boat file says, or nothing."""
    rows = {
        line.number
        for line in lines
        if any(token in TOKEN.findall(cell.text) for _, cell in reader.cells(line, *MASSES))
    }
    votes = {
        chosen[token]
        for chosen, reads in (tried[0], tried[-1])
        for item in (item for read in reads for item in read.items)
        if item.row in rows and _is_near(item, present.get(item.name.casefold(), 0.0))
    }
    return votes.pop() if len(votes) == 1 else ""


def _is_near(item: Item, now: float) -> bool:
    """Return whether a mass may be that of the piece aboard, weighed again."""
    return now > 0.0 and item.mass > 0.0 and abs(log(item.mass / now)) < log(NEAR)
