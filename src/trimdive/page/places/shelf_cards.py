"""The boats on the shelf as small pictures with their state, and the versions kept of one."""

import re
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from trimdive.assessment import Assessment
from trimdive.assessment.marks import marks
from trimdive.boatfile import load
from trimdive.boatfile.loading import stamp_of
from trimdive.errors import TrimdiveError
from trimdive.geometry.solids.beside import read_beside
from trimdive.page.keeping import EARLIER
from trimdive.page.small import small_picture
from trimdive.page.units import in_choice
from trimdive.text.marks import marks_line

if TYPE_CHECKING:
    from trimdive.page.desk import Desk
    from trimdive.page.shelf import Shelf

KEPT = 64  # pictures kept
_made: dict[str, "Card"] = {}  # by what she is made of


@dataclass(frozen=True, slots=True, kw_only=True)
class Card:
    """A boat on the shelf."""

    folder: str  # her name on the shelf
    name: str
    about: str  # scale and length
    state: str  # the three marks: afloat, bench, pond
    count: int  # of what is to be put right; nought: in order or not known
    picture: str  # SVG; "" where she cannot be drawn
    is_shown: bool  # she is the one on the page
    is_made: bool  # else her picture follows
    is_sound: bool  # she can be opened


def cards(desk: "Desk", shelf: "Shelf") -> list[Card]:
    """Return the boats on the shelf; pictures that are not made yet follow."""
    own = shelf.name_of(desk.path)
    return [
        own_card(desk, own) if name == own else _known(desk, shelf, name) for name in shelf.names()
    ]


def own_card(desk: "Desk", name: str) -> Card:
    """Return the boat on the page as she is shown."""
    text, files = desk.written()
    key = stamp_of(text.encode() + b"".join(files.values()))
    return _kept(f"shown {desk.units} {key}", lambda: _card(name, desk.her, is_shown=True))


def card_of(shelf: "Shelf", name: str, units: str) -> Card:
    """Return a boat on the shelf as she lies there, with her picture.

    Args:
        shelf: Where she lies.
        name: Of her folder.
        units: In which she is shown.

    Raises:
        BoatFileError: There is no such boat.
    """
    file = shelf.file_of(name)
    return _kept(_state(file, units), lambda: _read(file, name, units))


def _state(file: Path, units: str) -> str:
    """Return what tells whether anything in a boat's folder was changed."""
    try:
        found = [
            (one.name, one.stat().st_mtime_ns, one.stat().st_size) for one in file.parent.iterdir()
        ]
    except OSError:
        found = []
    return f"{file} {units} {sorted(found)}"


def _read(file: Path, name: str, units: str) -> Card:
    try:
        loaded = load(file)
        her = in_choice(Assessment(boat=loaded.boat, files=read_beside(loaded)), units)
        return _card(name, her, is_shown=False)
    except TrimdiveError as error:
        return _unmade(name, f"Cannot be opened. {error}", is_made=True, is_sound=False)


def _kept(key: str, make: "Callable[[], Card]") -> Card:
    if key not in _made:
        if len(_made) >= KEPT:
            _made.clear()
        _made[key] = make()
    return _made[key]


def _known(desk: "Desk", shelf: "Shelf", name: str) -> Card:
    """Return a card that is made already, else one whose picture follows."""
    made = _made.get(_state(shelf.file_of(name), desk.units))
    return made or _unmade(name, "", is_made=False, is_sound=True)


def _unmade(name: str, state: str, *, is_made: bool, is_sound: bool) -> Card:
    return Card(
        folder=name, name=name, about="", state=state, count=0, picture="", is_shown=False,
        is_made=is_made, is_sound=is_sound,
    )  # fmt: skip


def _card(folder: str, her: Assessment, *, is_shown: bool) -> Card:
    boat, units = her.boat, her.boat.units
    found = marks(her)
    scale = f"1:{boat.scale:g}, " if boat.scale else ""
    long = units.write(her.floater.length, "length")
    return Card(
        folder=folder,
        name=boat.name,
        about=f"{scale}{long}, {units.write(her.masses.mass, 'mass')}",
        state=marks_line(found).removesuffix("."),
        count=found[-1].urgent,
        picture=small_picture(her, f"{boat.name} from the side"),
        is_shown=is_shown,
        is_made=True,
        is_sound=True,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Version:
    """An earlier state of the boat file."""

    file: str  # its name among the earlier ones
    when: str  # date and time, for reading
    path: Path


def versions(desk: "Desk") -> list[Version]:
    """Return the earlier versions that are kept beside the boat file, latest first."""
    folder = desk.path.parent / EARLIER
    pattern = re.compile(rf"{re.escape(desk.path.stem)} (\d{{4}}-\d\d-\d\d) (\d\d)\.(\d\d)\.\d\d")
    try:
        names = sorted((one.name for one in folder.iterdir() if one.is_file()), reverse=True)
    except OSError:
        return []
    found = [(name, pattern.match(name)) for name in names]
    return [
        Version(file=name, when=f"{at[1]} {at[2]}.{at[3]}", path=folder / name)
        for name, at in found
        if at and not (folder / name).is_symlink()
    ]
