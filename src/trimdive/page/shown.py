"""A boat with what the page shows of her, each piece made once, when first asked for."""

import json
import re
from collections.abc import Callable, Iterator
from contextlib import suppress
from dataclasses import dataclass, field
from functools import cached_property
from typing import cast
from zlib import crc32

from trimdive.assessment import Assessment
from trimdive.errors import TrimdiveError
from trimdive.fact import Fact
from trimdive.findings import Finding
from trimdive.page.scene import boat_picture, end_picture, marks
from trimdive.page.track import table
from trimdive.pictures.drawings.things import shell, things
from trimdive.pictures.drawings.view import MM
from trimdive.text.held import way_up

WHOLE = re.compile(r"(?<=\d)\.0(?=[,\]}])")  # decimals of a number that is whole
WAY = "+"  # before the number of another way to mend a finding, behind its name
MARKED = 4  # digits of a figure by which a finding is known [-]


@dataclass(frozen=True, kw_only=True)
class Shown:
    """A boat and what the page shows of her."""

    her: Assessment
    own: "Shown | None" = None  # her in her own units, where these are others; pictures are hers
    by_units: "dict[str, Shown]" = field(default_factory=dict["str", "Shown"])

    @cached_property
    def picture(self) -> str:
        """What moves with the boat, as SVG."""
        return self.own.picture if self.own else boat_picture(self.her)

    @cached_property
    def marks(self) -> str:
        """The marks of the key picture, as SVG."""
        return marks(self.her)

    @cached_property
    def end(self) -> str:
        """Her outline from astern, as SVG."""
        return self.own.end if self.own else end_picture(self.her)

    @property
    def reach(self) -> int:
        """Return how far forward she reaches [mm]."""
        return round(MM * float(shell(self.her).bounds[1, 0]))

    @cached_property
    def handles(self) -> tuple[tuple[str, str], ...]:
        """Path and name of everything that can be moved by hand."""
        return tuple((thing.path, thing.name) for thing in things(self.her))

    @cached_property
    def table(self) -> str:
        """The dive, as JSON that may stand in HTML."""
        text = json.dumps(table(self.her), separators=(",", ":"), allow_nan=False)
        text = WHOLE.sub("", text)
        return text.replace("<", "\\u003c").replace(">", "\\u003e").replace("&", "\\u0026")

    def named(self, name: str) -> Finding | None:
        """Return a finding by its name, with its mend as it is offered once that is calculated."""
        found = list(self.her.findings)
        with suppress(TrimdiveError):  # a cylinder that cannot be as it is entered
            found += self.her.bench_findings
        return next((one for one in found if name_of(one) == name), None)

    def ready(self) -> None:
        """Make everything that the page shows.

        Raises:
            TrimdiveError: She cannot be worked out.
        """
        for piece in self.pieces():
            piece()

    def at_once(self) -> None:
        """Make all but a slipped figure, and what remains when each finding alone is mended.

        Raises:
            TrimdiveError: She cannot be worked out.
        """
        for piece in self._first():
            piece()

    def _first(self) -> Iterator[Callable[[], object]]:
        yield lambda: self.her.lowest
        yield lambda: self.her.checked
        yield lambda: self.table
        yield lambda: self.picture
        yield lambda: self.end
        yield lambda: self.marks

    def pieces(self) -> Iterator[Callable[[], object]]:
        """Yield each piece of what the page shows, to be made; what comes at once before the rest.

        The rest is whether a figure slipped, and what remains when each finding alone is mended.
        """
        yield from self._first()
        yield lambda: way_up(self.her)
        yield lambda: self.her.first_findings
        for one in list(self.her.mended.values()):
            yield lambda one=one: one.first_findings
        yield lambda: self.her.findings


def name_of(found: Finding, way: int = 0) -> str:
    """Return what names a finding among those of one boat, or one of the other ways to mend it."""
    other = f"{WAY}{way}" if way else ""
    return f"{found.key}/{found.subject}/{crc32(_mark(found.what).encode()):08x}{other}"


def way_of(name: str) -> tuple[str, int]:
    """Return the name of a finding, and which of its ways is meant; 0 for the first.

    >>> way_of("slip/part[1].x/0123abcd"), way_of("slip/part[1].x/0123abcd+1")
    (('slip/part[1].x/0123abcd', 0), ('slip/part[1].x/0123abcd', 1))
    """
    found, plus, way = name.rpartition(WAY)
    return (found, int(way)) if plus and way.isdecimal() else (name, 0)


def _mark(value: object) -> str:
    """Return what tells one thing that is held from another: figures to few digits."""
    if isinstance(value, Fact):
        return f"{value.kind} {_mark(value.pairs)}"
    if isinstance(value, tuple):
        return " ".join(_mark(one) for one in cast("tuple[object, ...]", value))
    return f"{value:.{MARKED}g}" if isinstance(value, float) else str(value)
