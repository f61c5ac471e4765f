"""What is told of a boat in blocks, made fit for the page."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from trimdive.text.layout import Grid, Words
from trimdive.text.sentence import beside_field

if TYPE_CHECKING:
    from trimdive.errors import TrimdiveError
    from trimdive.text.layout import Block


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """A block for the template."""

    kind: Literal["line", "heading", "table", "labelled"]
    text: str = ""
    head: tuple[str, ...] = ()
    rows: tuple[tuple[str, ...], ...] = ()
    right: frozenset[int] = frozenset()


def for_page(blocks: "Iterable[Block]", *, skip: int = 1) -> list[Piece]:
    """Return blocks for the page, without the first ones, which tell her name, and without gaps.

    Args:
        blocks: As the terminal has them.
        skip: How many stand first that the page tells elsewhere.
    """
    found = [piece for block in list(blocks)[skip:] for piece in _piece(block)]
    return [
        one
        for one, after in zip(found, [*found, None][1:], strict=True)
        if one.kind != "heading" or (after is not None and after.kind != "heading")
    ]


def _piece(block: "Block") -> Iterator[Piece]:
    if isinstance(block, Words):
        if block.text:
            yield Piece(kind="heading" if block.is_heading else "line", text=block.text)
    elif isinstance(block, Grid):
        rows = tuple(row for row in block.rows if row)
        yield Piece(kind="table", head=block.head, rows=rows, right=block.right)
    else:
        yield Piece(kind="labelled", rows=block.rows)


def says(error: "TrimdiveError") -> str:
    """Return in a sentence what is wrong with what was typed, without an option's name."""
    if not error.where.startswith("--"):
        return str(error)
    return beside_field(error)


def parted(found: Iterable[Piece]) -> list[tuple[str, list[Piece]]]:
    """Return pieces in parts, each with its heading; "" where none stands over it.

    >>> parted([Piece(kind="line", text="a"), Piece(kind="heading", text="B")])
    [('', [Piece(kind='line', text='a', head=(), rows=(), right=frozenset())]), ('B', [])]
    """
    parts: list[tuple[str, list[Piece]]] = [("", [])]
    for one in found:
        if one.kind == "heading":
            parts.append((one.text, []))
        else:
            parts[-1][1].append(one)
    return [part for part in parts if part != ("", [])]
