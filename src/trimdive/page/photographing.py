"""Photographs of the boat afloat: the one that is marked, and what those of one state come to."""

from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from trimdive.errors import PlanError, TrimdiveError
from trimdive.page.marking import Held, Marking, held_at, marking_of, opened_of
from trimdive.plans.marks import KNOWN, Marks
from trimdive.plans.tiles import Tiles
from trimdive.text.photo_words import PLACES
from trimdive.trials.photographs import Lies, Sighted, side_of, sighted, together
from trimdive.trials.photographs.marked import is_told, points_of
from trimdive.units import read

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.boatfile import Boat, Photo
    from trimdive.geometry.lines import Floats
    from trimdive.page.desk import Desk
    from trimdive.trials.photographs import Side

KEPT = "photograph that is marked"
OPEN = "photograph that is open"  # its number, from one; 0 where none is
SIGHTS = "photographs as found"  # by picture, what it tells and of what that is
MARK = "mark: "  # begins the choice of a mark of hers


@dataclass(slots=True)
class Shot(Marking):
    """One photograph that is marked."""

    focal: float = 0.0  # focal length in pixels, 0 where the file does not say it [-]
    side: "Side | None" = None  # her hull
    boat: "Boat | None" = None  # as she is in the file

    def typed(self, key: str) -> None:
        """Go on after a figure was typed; a place of hers that was chosen is entered."""
        point, _, what = key.rpartition("-")
        if what == "at" and point in KNOWN:
            self._enter(point, self.marks.said(key))
        if point == self.active or not self.active:
            self.follow()

    def _enter(self, point: str, at: str) -> None:
        """Enter the figures of a place of hers that was chosen."""
        boat, side = self.boat, self.side
        if boat is None or side is None:
            return
        found: dict[str, float] = {}
        named = next((one for one in boat.marks if at == f"{MARK}{one.name}"), None)
        if named is not None:
            found = {"x": boat.along(named.x)}
        elif at == "top":
            found = {"x": boat.along(side.top[0]), "z": side.top[2], "y": 0.0}
        elif at in PLACES:
            end = side.bounds[1 if at == "foremost" else 0, 0]
            found = {"x": boat.along(float(end)), "y": 0.0}
        marks = self.marks
        for axis, value in found.items():
            text = boat.units.write(value, "length", 1) if value else "0"
            text = text.partition(" ")[0] if boat.units.length else text
            marks = marks.with_typed(f"{point}-{axis}", text)
        self.take(marks)

    def follow(self) -> None:
        """Go on to what is to be marked next, where all of a point is there."""
        if self.active in KNOWN and is_told(self.marks, self.active):
            self.active = self.first_missing()

    def first_missing(self) -> str:
        """Return what is to be marked next: two points, then the waterline."""
        told = points_of(self.marks)
        bare = [key for key in KNOWN if key not in told]
        return bare[0] if len(told) < 2 else "waterline"

    def chosen(self, key: str) -> str:
        """Return what is marked where a thing was chosen; "point" is the next one."""
        if key == "point":
            return next((one for one in KNOWN if not self.marks.of(one)), KNOWN[-1])
        return key if key in KNOWN else "waterline"


def open_photo(desk: "Desk") -> "tuple[int, Photo] | None":
    """Return the photograph that is open, with its number from one; None where none is."""
    return opened_of(desk, OPEN, desk.own.her.boat.photos)


def asked_shot(desk: "Desk") -> Shot:
    """Return the photograph that is open.

    Raises:
        TrimdiveError: None is, or it cannot be read.
    """
    found = open_photo(desk)
    if found is None:
        raise PlanError("no photograph is open", "Tub", "Open it there again.")
    return shot_of(desk, found[1])


def shot_of(desk: "Desk", photo: "Photo") -> Shot:
    """Return a photograph ready to be marked.

    Args:
        desk: The boat; whoever calls holds its lock.
        photo: The picture and the file of its marks, beside her file.

    Raises:
        TrimdiveError: One of them is gone, or is none.
    """
    found = marking_of(desk, photo, KEPT, Shot, _shot)
    her = desk.own.her
    found.side, found.boat = side_of(her.hull.envelope), her.boat
    return found


def _shot(held: Held) -> Shot:
    tiles = Tiles(grey=held.shades.grey)
    made = Shot(held.picture, held.kept, tiles, held.marks, held.stamp, focal=held.shades.focal)
    made.active = made.first_missing()
    return made


class Taken(NamedTuple):
    """A photograph with all that is needed to find how she lies by it."""

    photo: "Photo"
    marks: Marks
    size: tuple[int, int]
    focal: float


class Found(NamedTuple):
    """What the photographs of one state come to."""

    shown: Sighted  # the one that is open
    names: tuple[str, ...]  # of all that count
    lies: Lies
    waiting: int  # of that state, not marked yet


def state_of(marks: Marks) -> str:
    """Return how full her tanks were in a photograph, as a reading has it; "" for blown.

    Raises:
        TrimdiveError: It is neither blown, full nor a share.
    """
    text = marks.said("tanks").strip().lower()
    if text in ("", "blown", "empty"):
        return ""
    if text == "full":
        return text
    share = text if text.endswith("%") else f"{text} %"
    try:
        value = read(share, "percent", None)
    except TrimdiveError:
        value = -1.0
    if not 0.0 <= value <= 1.0:
        what = f"tanks cannot be '{text}'"
        raise PlanError(what, "tanks", "Enter blown, full, or how full, as 60 %.")
    return share


def of_one_state(desk: "Desk", shot: Shot, photo: "Photo") -> tuple[Taken, ...]:
    """Return the photograph that is open first, then the others of the same day and tanks.

    Args:
        desk: The boat; whoever calls holds its lock.
        shot: The photograph that is open.
        photo: The same in the boat file.

    Raises:
        TrimdiveError: It is not said clearly how full her tanks were.
    """
    state = state_of(shot.marks)
    found = [Taken(photo, shot.marks, shot.tiles.size, shot.focal)]
    for one in desk.own.her.boat.photos:
        if one is photo or one.date != photo.date:
            continue
        try:
            held = held_at(desk.path.parent, one)
            if state_of(held.marks) == state:
                size = held.shades.width, held.shades.height
                found.append(Taken(one, held.marks, size, held.shades.focal))
        except TrimdiveError:
            continue  # it says why where it is opened
    return tuple(found)


def found_of(her: "Assessment", kept: dict[str, object], taken: tuple[Taken, ...]) -> Found:
    """Return what the photographs of one state come to; kept by what was marked on each.

    Args:
        her: The boat.
        kept: What places keep between two requests.
        taken: The photographs, the one that is open first.

    Raises:
        TrimdiveError: The one that is open does not say how she lies.
    """
    side = side_of(her.hull.envelope)
    shown = _sighted(her, kept, taken[0], side)
    sights, names = [shown.sight], [taken[0].photo.name]
    for one in taken[1:]:
        try:
            sights.append(_sighted(her, kept, one, side).sight)
            names.append(one.photo.name)
        except TrimdiveError:
            continue  # it is not marked yet
    waiting = len(taken) - len(names)
    return Found(shown, tuple(names), together(sights, side.middle), waiting)


def _sighted(her: "Assessment", kept: dict[str, object], one: Taken, side: "Side") -> Sighted:
    """Return what one photograph tells."""
    key = f"{SIGHTS}: {one.photo.file}"
    of = (one.marks, one.size, id(side), her.boat.units.length, her.boat.entered_from)
    held = kept.get(key)
    if isinstance(held, tuple) and held[0] == of:
        return held[1]
    found = sighted(one.marks, one.size, one.focal, her.boat, side)
    kept[key] = of, found
    return found


def known_line(desk: "Desk", shot: Shot, photo: "Photo") -> "Floats":
    """Return the water's edge as it was found last of these marks, in pixels, shape (n, 2) [-]."""
    held = desk.kept.get(f"{SIGHTS}: {photo.file}")
    if isinstance(held, tuple) and held[0][0] == shot.marks:
        return held[1].sight.drawn
    return np.zeros((0, 2))
