"""Blocks of what is told: paragraphs, headings, tables; the terminal and the page lay them out."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from trimdive.data import row

Cells = Sequence[str]
Document = dict[str, object]  # what a command tells a program, as JSON


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """A paragraph, or a heading."""

    text: str
    is_heading: bool
    typed: str = ""  # said after it at a terminal only: what is typed there


@dataclass(frozen=True, slots=True, kw_only=True)
class Grid:
    """A table without lines around it."""

    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]  # an empty one makes room
    right: frozenset[int]  # columns whose figures stand to the right
    gap: int  # blanks between columns


@dataclass(frozen=True, slots=True, kw_only=True)
class Labelled:
    """Texts that wrap beside their labels."""

    rows: tuple[tuple[str, str], ...]
    indent: int  # blanks before the labels


Block = Words | Grid | Labelled


def line(text: str = "", typed: str = "") -> Words:
    """Return a paragraph.

    Args:
        text: It.
        typed: What is said after it at a terminal only, such as a command.
    """
    return Words(text=text, is_heading=False, typed=typed)


def heading(text: str) -> Words:
    """Return a heading with an empty line above it."""
    return Words(text=text, is_heading=True)


def table(head: Cells, rows: Iterable[Cells], right: Iterable[int] = (), gap: int = 2) -> Grid:
    """Return a table without lines around it.

    Args:
        head: Heads of the columns.
        rows: Its rows; an empty one makes room.
        right: Columns whose figures stand to the right.
        gap: Blanks between columns.
    """
    return Grid(
        head=tuple(head),
        rows=tuple(tuple(cells) for cells in rows),
        right=frozenset(right),
        gap=gap,
    )


def labelled(rows: Iterable[tuple[str, str]], indent: int = 0) -> Labelled:
    """Return texts that wrap beside their labels."""
    return Labelled(rows=tuple(rows), indent=indent)


def terms(*names: str) -> Labelled:
    """Return what some terms mean, as the glossary has them."""
    return labelled((name, row("glossary", name)["meaning"]) for name in names)
