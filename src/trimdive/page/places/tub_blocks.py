"""What is told of a boat in blocks, made fit for the page: no commands of the terminal in it."""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from trimdive.page.rows import sentence
from trimdive.told.layout import Grid, Words

if TYPE_CHECKING:
    from trimdive.errors import TrimdiveError
    from trimdive.told.layout import Block

SENTENCES = re.compile(r"(?<=[.?])\s+(?=\S)")
BESIDE = re.compile(r"\s*\(trimdive [a-z-]+\)")
OPTION = re.compile(r"\s*\((?:see )?--[a-z]+\)|^--([a-z]+)$")


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
        for one, after in zip(found, [*found[1:], None], strict=True)
        if one.kind != "heading" or (after is not None and after.kind != "heading")
    ]


def _piece(block: "Block") -> Iterator[Piece]:
    if isinstance(block, Words):
        text = plain(block.text)
        if text:
            yield Piece(kind="heading" if block.is_heading else "line", text=text)
    elif isinstance(block, Grid):
        rows = tuple(row for row in block.rows if row)
        head = tuple(OPTION.sub(r"\1", title) for title in block.head)
        yield Piece(kind="table", head=head, rows=rows, right=block.right)
    else:
        yield Piece(kind="labelled", rows=block.rows)


def plain(text: str) -> str:
    """Return a text without its sentences about commands.

    >>> plain("Not corrected yet. trimdive tub BOAT --apply writes it."), plain("May tell (--up).")
    ('Not corrected yet.', 'May tell.')
    """
    kept = [one for one in SENTENCES.split(BESIDE.sub("", text)) if "trimdive " not in one]
    return OPTION.sub("", " ".join(kept)).strip()


def says(error: "TrimdiveError") -> str:
    """Return in a sentence what is wrong with what was typed, without an option's name."""
    if not error.where.startswith("--"):
        return str(error)
    return f"{sentence(error.what)} {plain(error.mend)}"
