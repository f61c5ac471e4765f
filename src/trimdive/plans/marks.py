"""What was marked on the picture of a plan: points by what they are of, and figures as typed.

They are kept in a file of their own beside the boat file: JSON, places in pixels to the right and
down. A point that found no ink under it is kept as it was clicked, and says so.
"""

import json
import math
import re
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from itertools import pairwise
from typing import Any, cast

from trimdive.errors import PlanError
from trimdive.plans.sheet import Mark

FORMAT = 1
MOST = 500  # points of one line [-]
SECTIONS = 99  # that may be traced [-]
LONGEST = 80  # letters of a figure as typed [-]
FINEST = 2  # decimals of a pixel that are kept
PAIRS = ("level", "along-1", "along-2", "up-1", "up-2", "check")  # two points each
CORNERS = tuple(f"corner-{number}" for number in range(1, 5))  # known points of a photograph
KNOWN = tuple(f"point-{number}" for number in range(1, 13))  # points of the boat herself
COUNTS = {  # how many points belong to it; what is not here takes as many as are clicked
    **dict.fromkeys(PAIRS, 2),
    **dict.fromkeys((*CORNERS, *KNOWN), 1),
    "profile": 3,  # stern, bow, any place on the keel line
    "plan": 2,  # centre line at the stern and at the bow
    "body": 1,  # centre line where it meets the keel line
}
LINES = ("keel", "deck", "half", "waterline")
SECTION = re.compile(r"section-([1-9][0-9]?)")
CHOICES = {
    "lie": ("scan", "photo"), "of": ("model", "ship"), "shows": ("side", "bow", "stern"),
}  # fmt: skip
TYPED = (
    *CHOICES, "scale", "larger", "along-1", "along-2", "up-1", "up-2", "check",
    *(f"{corner}-{axis}" for corner in CORNERS for axis in "xz"),
    "known", "tanks",
    *(f"{point}-{what}" for point in KNOWN for what in ("at", "x", "z", "y")),
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Point:
    """One mark."""

    at: Mark  # where it is in the picture
    on_ink: bool  # whether ink was found under it


Points = tuple[Point, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Marks:
    """Everything that was marked on one picture."""

    points: Mapping[str, Points] = field(default_factory=dict[str, Points])
    typed: Mapping[str, str] = field(default_factory=dict[str, str])

    def of(self, key: str) -> Points:
        """Return the points of one thing, in their order."""
        return self.points.get(key, ())

    def said(self, key: str) -> str:
        """Return a figure as it was typed; a choice that was not made is its first."""
        return self.typed.get(key, CHOICES.get(key, ("",))[0])

    def is_whole(self, key: str) -> bool:
        """Return whether all points of a thing are there that has a number of them."""
        return len(self.of(key)) == COUNTS[key]

    @property
    def sections(self) -> tuple[str, ...]:
        """Return the sections that were begun, in their order."""
        found = {key for key in (*self.points, *self.typed) if SECTION.fullmatch(key)}
        return tuple(sorted(found, key=lambda key: int(key.partition("-")[2])))

    @property
    def next_section(self) -> str:
        """Return what the next section is called."""
        last = int(self.sections[-1].partition("-")[2]) if self.sections else 0
        return f"section-{last + 1}"

    def with_point(self, key: str, point: Point, number: int | None = None) -> "Marks":
        """Return marks with one more point, or with one elsewhere.

        Args:
            key: What it is of.
            point: Where.
            number: Which point, from zero, is moved; None adds one, in its place along a line.

        Raises:
            PlanError: There is no such thing to be marked, or no such point, or too many.
        """
        known(key)
        now = list(self.of(key))
        if number is not None:
            _refuse_no_point(now, number)
            now[number] = point
        elif key in COUNTS and len(now) >= COUNTS[key]:
            now = [point] if COUNTS[key] == 1 else [*now[:-1], point]
        elif len(now) >= MOST:
            what = f"it has {MOST} points, more than any line needs"
            raise PlanError(what, key, "Remove some of them.")
        else:
            now.insert(_place(now, point), point)
        return replace(self, points={**self.points, key: tuple(now)})

    def without_point(self, key: str, number: int) -> "Marks":
        """Return marks without one point.

        Raises:
            PlanError: There is no such point.
        """
        now = list(self.of(known(key)))
        _refuse_no_point(now, number)
        del now[number]
        return replace(self, points={**self.points, key: tuple(now)})

    def without(self, key: str) -> "Marks":
        """Return marks without all points of a thing, and without the figures of a section."""
        points = {name: one for name, one in self.points.items() if name != known(key)}
        typed = {name: one for name, one in self.typed.items() if name != key or key in TYPED}
        return replace(self, points=points, typed=typed)

    def with_typed(self, key: str, text: str) -> "Marks":
        """Return marks with a figure as it was typed.

        Raises:
            PlanError: There is no such figure, or it is too long for one.
        """
        if key not in TYPED:
            known(key)
        if key in CHOICES and text not in CHOICES[key]:
            raise PlanError(f"there is no choice '{text[:LONGEST]}'", key, "Choose again.")
        if len(text) > LONGEST:
            raise PlanError(f"'{text[:20]}…' is too long for a figure", key, "Write it shorter.")
        return replace(self, typed={**self.typed, key: text.strip()})


def known(key: str) -> str:
    """Return the name of a thing that may be marked.

    Raises:
        PlanError: There is none of that name.
    """
    if key in COUNTS or key in LINES or SECTION.fullmatch(key):
        return key
    raise PlanError(f"nothing is called '{key[:LONGEST]}' on a plan", "marks", "Choose again.")


def _refuse_no_point(points: list[Point], number: int) -> None:
    """Refuse a number that no point has.

    Raises:
        PlanError: There is no such point.
    """
    if not 0 <= number < len(points):
        raise PlanError("that point is gone", "marks", "Choose another one.")


def _place(points: list[Point], point: Point) -> int:
    """Return where a point goes in a line: at its end, or between the two that it lies between.

    >>> row = [Point(at=(x, 0.0), on_ink=True) for x in (0.0, 10.0, 20.0)]
    >>> [_place(row, Point(at=(x, 0.5), on_ink=True)) for x in (30.0, 14.0, -9.0)]
    [3, 2, 3]
    """
    for number, (one, other) in enumerate(pairwise(points), 1):
        whole = math.dist(one.at, other.at)
        if math.dist(one.at, point.at) + math.dist(point.at, other.at) < BETWEEN * whole:
            return number
    return len(points)


BETWEEN = 1.02  # a way over a point that is no longer than this leads past it [-]


def marks_of(data: bytes, name: str) -> Marks:
    """Return what a file of marks holds.

    Args:
        data: The file, whole.
        name: What it is called, for the builder.

    Raises:
        PlanError: It is none, or damaged.
    """
    mend = "Put the file back that was saved, or remove it and mark the plan again."
    damaged = PlanError("this is no file of marks on a plan", name, mend)
    try:
        found: object = json.loads(data)
        held = cast("dict[str, Any]", found)
        if held["format"] != FORMAT:
            what = f"its format is {held['format']!r}, and this version reads {FORMAT}"
            raise PlanError(what, name, "Open it with the version that wrote it.")
        points = {
            known(key): tuple(_point(row) for row in row_) for key, row_ in held["points"].items()
        }
        marks = Marks(points=points)
        for key, text in held["typed"].items():
            marks = marks.with_typed(key, str(text))
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError):
        raise damaged from None
    if any(len(one) > MOST for one in points.values()):
        raise damaged
    return marks


def _point(row: Any) -> Point:
    """Return a point as it is kept.

    Raises:
        ValueError: It is none.
        TypeError: Likewise.
    """
    x, y, on_ink = row
    if not (math.isfinite(x) and math.isfinite(y)):
        raise ValueError(row)
    return Point(at=(float(x), float(y)), on_ink=bool(on_ink))


def written(marks: Marks) -> bytes:
    """Return marks as they are kept in a file, one thing a line."""
    points = [
        f"    {json.dumps(key)}: {json.dumps([_row(one) for one in points])}"
        for key, points in marks.points.items()
        if points
    ]
    typed = [
        f"    {json.dumps(key)}: {json.dumps(text, ensure_ascii=False)}"
        for key, text in marks.typed.items()
    ]
    rows = [f'"format": {FORMAT}', _block("points", points), _block("typed", typed)]
    return ("{\n  " + ",\n  ".join(rows) + "\n}\n").encode()


def _block(name: str, rows: list[str]) -> str:
    inner = ",\n".join(rows)
    return f'"{name}": {{\n{inner}\n  }}' if rows else f'"{name}": {{}}'


def _row(point: Point) -> list[float]:
    return [round(point.at[0], FINEST), round(point.at[1], FINEST), int(point.on_ink)]
