"""A picture that is marked on the page: each mark is on disk when it is made, and can be undone.

Marks are no part of the boat until what they come to is taken.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from trimdive.boatfile.loading import stamp_of
from trimdive.boatfile.saving import unwritten
from trimdive.boatfile.together import held, is_beside, write
from trimdive.errors import PlanError
from trimdive.plans.marks import Marks, Point, known, marks_of, written
from trimdive.plans.picture import PlanPicture, picture_of
from trimdive.plans.tiles import Tiles

if TYPE_CHECKING:
    from trimdive.boatfile import Photo, Plan
    from trimdive.page.desk import Desk

MOST = 500  # steps that can be undone [-]
LARGEST = 256 * 2**20  # of a picture [bytes]


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """A picture and its marks, as they lie on disk."""

    picture: Path
    kept: Path  # the file of its marks
    shades: PlanPicture
    marks: Marks
    stamp: str  # of the file of marks; "" where there is none


@dataclass(slots=True)
class Marking:
    """One picture that is marked."""

    picture: Path
    kept: Path  # the file of its marks
    tiles: Tiles
    marks: Marks
    stamp: str  # of the file of marks, as last seen; "" where there is none
    active: str = ""  # what the next click is of
    past: list[Marks] = field(default_factory=list[Marks])
    future: list[Marks] = field(default_factory=list[Marks])

    def follow(self) -> None:
        """Go on to what is to be marked next, where all of what is active is there."""

    def typed(self, key: str) -> None:
        """Go on after a figure was typed."""

    def chosen(self, key: str) -> str:
        """Return what is marked where a thing was chosen."""
        return known(key)

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
        """Return a mark as it was clicked.

        Args:
            key: What it is of.
            x: Pixels to the right [-].
            y: Pixels down [-].
            reach: How far off it may be drawn to what is under it, in pixels [-].
        """
        del key, reach
        return Point(at=self.within(x, y), on_ink=True)

    def within(self, x: float, y: float) -> tuple[float, float]:
        """Return a place drawn into the picture.

        Raises:
            PlanError: It is no place.
        """
        width, height = self.tiles.size
        if not (abs(x) < 1e9 and abs(y) < 1e9):  # which is so of no number at all, too
            raise PlanError("a mark is no place in the picture", "marks", "Place it again.")
        return min(max(x, 0.0), width - 1e-3), min(max(y, 0.0), height - 1e-3)


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


Own = TypeVar("Own", bound=Marking)
Piece = TypeVar("Piece")


def read_again(now: object, folder: Path, piece: "Plan | Photo") -> bool:
    """Return whether a picture is the one that is open; what was written meanwhile is taken in.

    Raises:
        PlanError: It lies elsewhere, or its marks are none now.
    """
    for one in (piece.file, piece.marks):
        if not is_beside(one):
            raise PlanError("it lies outside the boat's folder", one, "Copy it beside the boat.")
    if isinstance(now, Marking) and (now.picture, now.kept) == (
        folder / piece.file,
        folder / piece.marks,
    ):
        now.look()
        return True
    return False


def marking_of(
    desk: "Desk",
    piece: "Plan | Photo",
    key: str,
    kind: type[Own],
    make: "Callable[[Held], Own]",
) -> Own:
    """Return a picture ready to be marked; kept while it is the one that is open.

    Args:
        desk: The boat; whoever calls holds its lock.
        piece: The picture and the file of its marks, beside her file.
        key: By which the one that is open is kept.
        kind: What is made of it.
        make: Makes it of what lies on disk.

    Raises:
        TrimdiveError: One of them is gone, or is none.
    """
    folder, now = desk.path.parent, desk.kept.get(key)
    if read_again(now, folder, piece) and isinstance(now, kind):
        return now
    made = make(held_at(folder, piece))
    desk.kept[key] = made
    return made


def opened_of(desk: "Desk", key: str, pieces: Sequence[Piece]) -> tuple[int, Piece] | None:
    """Return the piece that is open, with its number from one; None where none is.

    Args:
        desk: The boat.
        key: By which its number is kept.
        pieces: Of which it is one.
    """
    number = desk.kept.get(key, 0)
    if isinstance(number, int) and 0 < number <= len(pieces):
        return number, pieces[number - 1]
    return None


def held_at(folder: Path, piece: "Plan | Photo") -> Held:
    """Return a picture beside a boat file, and what was marked on it.

    Raises:
        TrimdiveError: One of them is gone, or is none.
    """
    data = _read(folder / piece.file)
    if data is None:
        mend = "Put it back beside the boat file, or bring it again."
        raise PlanError("the picture is not there", piece.file, mend)
    marked = _read(folder / piece.marks)
    marks = Marks() if marked is None else marks_of(marked, piece.marks)
    return Held(
        picture=folder / piece.file,
        kept=folder / piece.marks,
        shades=picture_of(data, piece.file),
        marks=marks,
        stamp="" if marked is None else stamp_of(marked),
    )


def done(table: Marking, typed: Mapping[str, str]) -> None:
    """Do what the page asks of a plan: one mark, one figure, or what is marked next.

    Raises:
        TrimdiveError: It cannot be done; the marks are then as they were.
    """
    key, marks = typed.get("key", ""), table.marks
    match typed.get("do", ""):
        case "choose":
            table.active = table.chosen(key)
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
            table.typed(key)
        case "undo":
            table.undo()
        case "redo":
            table.redo()
        case _:
            raise PlanError(
                "that is nothing to be done on a picture", "plan", "Load the page again."
            )


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
