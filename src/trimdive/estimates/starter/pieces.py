"""A boat file in the making: its chapters, pieces and lines, with a fact wherever a person is told.

Nothing here is in words: who writes the file for a person hands in the words for the facts.
"""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

from trimdive.fact import Fact

Words = Callable[[Fact], str]
BESIDE = 34  # letters of a line before what is said beside it


@dataclass(frozen=True, slots=True)
class Line:
    """A line of a boat file."""

    key: str
    value: str  # as TOML writes it
    beside: Fact | None = None  # said behind it


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """A piece of a boat file."""

    head: str  # such as "[[part]]"; "" for what stands before all tables
    lines: tuple[Line, ...]
    above: Fact | None = None  # said over it


@dataclass(frozen=True, slots=True, kw_only=True)
class Chapter:
    """Pieces that belong together."""

    title: Fact | None
    pieces: tuple[Piece, ...]


def quotes(text: str) -> str:
    """Return a plain text as TOML writes it.

    >>> quotes("12 mm")
    '"12 mm"'
    """
    return f'"{text}"'


def lines(**values: str) -> tuple[Line, ...]:
    """Return lines of keys and what TOML writes for each."""
    return tuple(Line(key, value) for key, value in values.items())


def toml_of(chapters: Iterable[Chapter], words: Words | None = None) -> str:
    """Return a boat file.

    Args:
        chapters: Its pieces.
        words: What is said of each fact; where none are given nothing is said.
    """
    rows = (row for chapter in chapters for row in _chapter(chapter, words))
    return "\n".join(rows).rstrip("\n") + "\n"


def _chapter(chapter: Chapter, words: Words | None) -> Iterator[str]:
    if chapter.title and words:
        yield from (f"# ---- {words(chapter.title)}", "")
    for piece in chapter.pieces:
        if piece.above and words:
            yield from (f"# {row}" for row in words(piece.above).splitlines())
        if piece.head:
            yield piece.head
        yield from (_line(one, words) for one in piece.lines)
        yield ""


def _line(line: Line, words: Words | None) -> str:
    plain = f"{line.key} = {line.value}"
    said = words(line.beside) if line.beside and words else ""
    return f"{plain:<{BESIDE - 2}}  # {said}" if said else plain
