"""A plan on the Drawing board: its picture, its marks, and what was done to them since.

Marks are no part of the boat until their lines are taken: they have a file and an Undo of their
own, and each is on disk as soon as it is made.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

from trimdive.boatfile.loading import stamp_of
from trimdive.boatfile.saving import unwritten
from trimdive.boatfile.together import held, is_beside, write
from trimdive.errors import PlanError
from trimdive.plans.marks import (
    CORNERS,
    COUNTS,
    LINES,
    PAIRS,
    Marks,
    Point,
    known,
    marks_of,
    written,
)
from trimdive.plans.picture import picture_of
from trimdive.plans.snap import crossing, snapped
from trimdive.plans.tiles import Tiles
from trimdive.plans.tracing import Tracing, tracing_of

if TYPE_CHECKING:
    from trimdive.boatfile import Boat, Plan
    from trimdive.page.desk import Desk

KEPT = "plan on the board"
OPEN = "plan that is open"  # its number, from one; 0 where none is
REACH = (4.0, 30.0)  # how far ink is looked for about a mark, in pixels [-]
ENDS = ("along-1", "along-2", "up-1", "up-2", "check", "body", *CORNERS)  # where lines meet
MOST = 500  # steps that can be undone [-]
LARGEST = 256 * 2**20  # of a picture [bytes]


@dataclass(slots=True)
class Table:
    """One plan that is worked on."""

    picture: Path
    kept: Path  # the file of its marks
    tiles: Tiles
    marks: Marks
    stamp: str  # of the file of marks, as last seen; "" where there is none
    active: str = "level"  # what the next click is of
    past: list[Marks] = field(default_factory=list[Marks])
    future: list[Marks] = field(default_factory=list[Marks])
    found: "tuple[object, Tracing] | None" = None  # what the marks come to, and of what that is

    def tracing(self, boat: "Boat") -> Tracing:
        """Return what the marks come to."""
        state = (self.marks, boat.scale, boat.units.length)
        if self.found is None or self.found[0] != state:
            self.found = state, tracing_of(self.marks, self.tiles.size, *state[1:])
        return self.found[1]

    def take(self, marks: Marks) -> None:
        """Take other marks, and keep them on disk; the ones before can be taken back.

        Raises:
            BoatFileError: They cannot be written; they are then as they were.
        """
        if marks == self.marks:
            return
        past = [*self.past[-MOST:], self.marks]
        self._keep(marks)
        self.past, self.future = past, []

    def undo(self) -> None:
        """Take the last mark back.

        Raises:
            BoatFileError: It cannot be written; it is then as it was.
        """
        self._step(self.past, self.future)

    def redo(self) -> None:
        """Make the mark again that was taken back last.

        Raises:
            BoatFileError: It cannot be written; it is then as it was.
        """
        self._step(self.future, self.past)

    def _step(self, back: "list[Marks]", ahead: "list[Marks]") -> None:
        """Go to the last of some earlier marks, and keep the way there again."""
        if back:
            now = self.marks
            self._keep(back[-1])
            back.pop()
            ahead.append(now)

    def look(self) -> None:
        """Take in what another program wrote into the file of marks meanwhile.

        Raises:
            PlanError: It is no file of marks now.
        """
        data = _read(self.kept)
        if data is None or stamp_of(data) == self.stamp:
            return
        marks = marks_of(data, self.kept.name)
        self.past.append(self.marks)
        self.marks, self.stamp, self.future = marks, stamp_of(data), []

    def _keep(self, marks: Marks) -> None:
        data = written(marks)
        try:
            with held(self.kept.parent):
                write(self.kept.parent, {self.kept.name: data})
        except OSError as error:
            raise unwritten(self.kept, error) from None
        self.marks, self.stamp = marks, stamp_of(data)

    def point(self, key: str, x: float, y: float, reach: float) -> Point:
        """Return a mark drawn to the ink near it; as it was clicked where there is none.

        Args:
            key: What it is of.
            x: Pixels to the right [-].
            y: Pixels down [-].
            reach: How far off ink may be, in pixels; 0 leaves it where it is [-].
        """
        at = self.within(x, y)
        if reach <= 0.0:
            return Point(at=at, on_ink=True)
        far = min(max(reach, REACH[0]), REACH[1])
        ends = crossing(self.tiles.grey, at, far) if key in ENDS else None
        found = ends or snapped(self.tiles.grey, at, far)
        if found is None:
            return Point(at=at, on_ink=False)
        return Point(at=found.at, on_ink=True)

    def within(self, x: float, y: float) -> tuple[float, float]:
        """Return a place drawn into the picture.

        Raises:
            PlanError: It is no place.
        """
        width, height = self.tiles.size
        if not (abs(x) < 1e9 and abs(y) < 1e9):  # which is so of no number at all, too
            raise PlanError("a mark is no place in the picture", "marks", "Place it again.")
        return min(max(x, 0.0), width - 1e-3), min(max(y, 0.0), height - 1e-3)

    def follow(self) -> None:
        """Go on to what is to be marked next, where all of what is active is there."""
        key, marks = self.active, self.marks
        if key not in COUNTS or not marks.is_whole(key):
            return
        if key in PAIRS[1:] and not marks.said(key):
            return  # its length is asked for first
        if key == "body" and not marks.said("larger"):
            return  # and how large they are drawn
        if key in CORNERS and not (marks.said(f"{key}-x") and marks.said(f"{key}-z")):
            return
        self.active = self.next_of(key)

    def next_of(self, key: str) -> str:
        """Return what is to be marked after a thing: the first that is missing."""
        lie = CORNERS if self.marks.said("lie") == "photo" else ("level", "along-1", "up-1")
        views = ("profile", "plan", "body")
        for one in (*lie, *views):
            if not self.marks.is_whole(one):
                return one
        missing = [one for one in LINES[:3] if len(self.marks.of(one)) < 2]
        return missing[0] if missing else key if key in LINES else self.marks.next_section


def _read(file: Path) -> bytes | None:
    """Return what a file holds; None where there is none.

    Raises:
        PlanError: It cannot be read.
    """
    try:
        if file.stat().st_size > LARGEST:
            raise PlanError("it is larger than 256 MB", file.name, "Scan it at fewer dots an inch.")
        return file.read_bytes()
    except FileNotFoundError:
        return None
    except OSError as error:
        reason = (error.strerror or "it cannot be read").lower()
        raise PlanError(reason, file.name, "Check that you may read it.") from None


def table_of(desk: "Desk", plan: "Plan") -> Table:
    """Return a plan ready to be worked on; kept while it is the one that is open.

    Args:
        desk: The boat; whoever calls holds its lock.
        plan: The picture and the file of its marks, beside her file.

    Raises:
        TrimdiveError: One of them is gone, or is none.
    """
    folder = desk.path.parent
    picture, kept = folder / plan.file, folder / plan.marks
    for one in (plan.file, plan.marks):
        if not is_beside(one):
            raise PlanError("it lies outside the boat's folder", one, "Copy it beside the boat.")
    now = desk.kept.get(KEPT)
    if isinstance(now, Table) and (now.picture, now.kept) == (picture, kept):
        now.look()
        return now
    data = _read(picture)
    if data is None:
        mend = "Put it back beside the boat file, or bring the plan again."
        raise PlanError("the picture is not there", plan.file, mend)
    tiles = Tiles(grey=picture_of(data, plan.file).grey)
    marked = _read(kept)
    marks = Marks() if marked is None else marks_of(marked, plan.marks)
    stamp = "" if marked is None else stamp_of(marked)
    made = Table(picture=picture, kept=kept, tiles=tiles, marks=marks, stamp=stamp)
    made.active = made.next_of("keel")
    desk.kept[KEPT] = made
    return made


def done(table: Table, typed: Mapping[str, str]) -> None:
    """Do what the page asks of a plan: one mark, one figure, or what is marked next.

    Raises:
        TrimdiveError: It cannot be done; the marks are then as they were.
    """
    key, marks = typed.get("key", ""), table.marks
    match typed.get("do", ""):
        case "choose":
            table.active = marks.next_section if key == "section" else known(key)
        case "add":
            key = table.active
            point = table.point(key, *_place(typed))
            table.take(marks.with_point(key, point))
            table.follow()
        case "move":
            point = table.point(key, *_place(typed))
            table.take(marks.with_point(key, point, _number(typed)))
            table.active = key
        case "remove":
            table.take(marks.without_point(key, _number(typed)))
            table.active = key
        case "clear":
            table.take(marks.without(key))
        case "type":
            text = typed.get("typed", "").strip() or ("1" if key == "larger" else "")
            table.take(marks.with_typed(key, text))
            if key == "lie":
                table.active = table.next_of(LINES[0])
            elif key.startswith(table.active) or (key, table.active) == ("larger", "body"):
                table.follow()
        case "undo":
            table.undo()
        case "redo":
            table.redo()
        case _:
            raise PlanError("that is nothing to be done on a plan", "plan", "Load the page again.")


def _place(typed: Mapping[str, str]) -> tuple[float, float, float]:
    """Return where a mark is asked for, and how far about it ink is looked for, in pixels [-].

    Raises:
        PlanError: It is no place.
    """
    try:
        x, y, reach = (float(typed.get(name, "0")) for name in ("x", "y", "reach"))
    except ValueError:
        raise PlanError("a mark is no place in the picture", "marks", "Place it again.") from None
    return x, y, reach


def _number(typed: Mapping[str, str]) -> int:
    """Return which point is meant, from zero; −1, which none is, where that is not told."""
    text = typed.get("number", "")
    return int(text) if text.isdecimal() and len(text) < 7 else -1


def open_plan(desk: "Desk") -> tuple[int, "Plan"] | None:
    """Return the plan that is open on the board, with its number from one; None where none is."""
    number = desk.kept.get(OPEN, 0)
    plans = desk.own.her.boat.plans
    if isinstance(number, int) and 0 < number <= len(plans):
        return number, plans[number - 1]
    return None


def asked_plan(desk: "Desk") -> Table:
    """Return the plan that is open.

    Raises:
        TrimdiveError: None is, or it cannot be read.
    """
    found = open_plan(desk)
    if found is None:
        raise PlanError("no plan is open", "Drawing board", "Open it there again.")
    return table_of(desk, found[1])
