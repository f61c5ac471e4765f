"""A plan on the Drawing board: its picture, its marks, and what was done to them since.

Marks are no part of the boat until their lines are taken: they have a file and an Undo of their
own, and each is on disk as soon as it is made.
"""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from trimdive.errors import PlanError
from trimdive.page.marking import Held, Marking, marking_of, opened_of
from trimdive.plans.marks import CORNERS, COUNTS, LINES, PAIRS, Point, known
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


@dataclass(slots=True)
class Table(Marking):
    """One plan that is worked on."""

    found: "tuple[object, Tracing] | None" = None  # what the marks come to, and of what that is

    def tracing(self, boat: "Boat") -> Tracing:
        """Return what the marks come to."""
        state = (self.marks, boat.scale, boat.units.length)
        if self.found is None or self.found[0] != state:
            self.found = state, tracing_of(self.marks, self.tiles.size, *state[1:])
        return self.found[1]

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

    def chosen(self, key: str) -> str:
        """Return what is marked where a thing was chosen."""
        return self.marks.next_section if key == "section" else known(key)

    def typed(self, key: str) -> None:
        """Go on after a figure was typed."""
        if key == "lie":
            self.active = self.next_of(LINES[0])
        elif key.startswith(self.active) or (key, self.active) == ("larger", "body"):
            self.follow()

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


def table_of(desk: "Desk", plan: "Plan") -> Table:
    """Return a plan ready to be worked on; kept while it is the one that is open.

    Args:
        desk: The boat; whoever calls holds its lock.
        plan: The picture and the file of its marks, beside her file.

    Raises:
        TrimdiveError: One of them is gone, or is none.
    """
    return marking_of(desk, plan, KEPT, Table, _table)


def _table(held: Held) -> Table:
    tiles = Tiles(grey=held.shades.grey)
    made = Table(held.picture, held.kept, tiles, held.marks, held.stamp)
    made.active = made.next_of("keel")
    return made


def open_plan(desk: "Desk") -> tuple[int, "Plan"] | None:
    """Return the plan that is open on the board, with its number from one; None where none is."""
    return opened_of(desk, OPEN, desk.own.her.boat.plans)


def asked_plan(desk: "Desk") -> Table:
    """Return the plan that is open.

    Raises:
        TrimdiveError: None is, or it cannot be read.
    """
    found = open_plan(desk)
    if found is None:
        raise PlanError("no plan is open", "Drawing board", "Open it there again.")
    return table_of(desk, found[1])
