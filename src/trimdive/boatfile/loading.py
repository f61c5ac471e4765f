"""Loads a boat file: bytes, text, TOML, models, places, each with its own plain refusals."""

import hashlib
import pickle
import re
import tomllib
from collections.abc import Collection
from contextlib import suppress
from functools import lru_cache
from pathlib import Path as File

from pydantic import ValidationError

from trimdive.boatfile.boat import Boat, Units
from trimdive.boatfile.checks import pieces, typed_mistakes
from trimdive.boatfile.fits import resolved_mistakes
from trimdive.boatfile.lane_checks import lane_mistakes
from trimdive.boatfile.messages import Mistake, refusal, refusal_of, refused
from trimdive.boatfile.no_toml import other_file, slip
from trimdive.boatfile.pieces import Photo, Plan
from trimdive.boatfile.places import line_of, path_of
from trimdive.boatfile.quantities import UNBOUNDED
from trimdive.boatfile.resolve import resolved
from trimdive.boatfile.sign_checks import sign_mistakes
from trimdive.boatfile.together import finished
from trimdive.boatfile.typed import figures_in
from trimdive.boatfile.upgrade import Contents, format_mistakes, upgraded
from trimdive.errors import BoatFileError, fence
from trimdive.records import record

BOAT_FILE = "boat.toml"  # as it is called in a boat's folder
LARGEST = 16 * 2**20  # a boat file is text that a person wrote [bytes]
AT_LINE = re.compile(r" \(at line (\d+), column (\d+)\)| \(at end of document\)")
DEEP_KEY = re.compile(r"""(?<![\w"'-])(?:[\w"'-]++[ \t]*+\.[ \t]*+){40}""")  # no boat has one
KEPT = 2**18  # letters of a text of which it is kept what it holds [-]
UTF16 = (b"\xff\xfe", b"\xfe\xff")
BOM = b"\xef\xbb\xbf"


class _DeepError(Exception):
    """A key goes deeper than any that a boat has."""

    def __init__(self, at: int) -> None:
        """Keep where it begins in the text."""
        super().__init__(at)
        self.at = at


@record
class Loaded:
    """A boat with the file that it came from."""

    boat: Boat  # resolved: from the stern, to the middle
    path: File
    text: str
    stamp: str  # SHA-256 of the bytes in the file

    def beside(self, name: str) -> File:
        """Return a file that the boat file names."""
        return self.path.parent / name

    def line(self, place: str) -> int | None:
        """Return the line of a field such as "tank[2].bore", or of its table."""
        return line_of(self.text, path_of(place))


def boat_file(given: File) -> File:
    """Return the boat file: as named, or the one in the folder that was named.

    Raises:
        BoatFileError: The folder holds none.
    """
    if not given.is_dir():
        return given
    file = given / BOAT_FILE
    if file.is_file():
        return file
    others = sorted(entry.name for entry in given.glob("*.toml"))[:5]
    mend = f"Name one: {', '.join(others)}." if others else "Name a boat file, or its folder."
    raise BoatFileError(f"there is no {BOAT_FILE} in this folder", str(given), mend)


def load(path: File | str) -> Loaded:
    """Return the boat in a boat file, with the file that she came from.

    Args:
        path: The boat file, or the folder in which it lies as ``boat.toml``.

    Raises:
        BoatFileError: It cannot be read, or something in it must be mended.
        UnitError: A quantity in it cannot be read.
    """
    file = boat_file(File(path))
    try:
        with suppress(ValueError):  # a name that no file can have, told below
            finished(file.resolve().parent)
    except OSError as error:
        what = "files that were being saved cannot be put into place: "
        what += (error.strerror or "they cannot be written").lower()
        mend = "Check that you may write there and that there is room."
        raise BoatFileError(what, str(file.parent), mend) from None
    data = contents_of(file)
    text = _text(data, file.name)
    return Loaded(boat=boat_in(file, text), path=file, text=text, stamp=stamp_of(data))


def boat_in(file: File, text: str, coming: Collection[str] = ()) -> Boat:
    """Return the boat in the text of a file, with everything that it names lying beside it.

    Args:
        file: Where the text lies, or is to lie.
        text: TOML.
        coming: Names of files that are to be written beside it.

    Raises:
        BoatFileError: Something in it must be mended.
        UnitError: A quantity in it cannot be read.
    """
    boat = parse(text, file.name)
    missing = [
        Mistake((*place, field), f"there is no file '{name}' beside the boat file", "Put it there.")
        for place, piece in pieces(boat)
        for field in ("file", "mesh")
        if not isinstance(piece, Plan | Photo)  # without which she is whole
        if (name := getattr(piece, field, None)) and name not in coming
        if not (file.parent / name).is_file()
    ]
    _stop(missing, text, file.name)
    return boat


def parse(text: str, name: str = "boat.toml") -> Boat:
    """Return the resolved boat in the text of a boat file.

    Args:
        text: TOML.
        name: What to call the file in an error.

    Raises:
        BoatFileError: Something in it must be mended.
        UnitError: A quantity in it cannot be read.
    """
    mend = "Check the lines changed last; docs/boat-file.md has every field."
    with fence("this boat file cannot be read", name, mend):
        return _parsed(text, name)


def _parsed(text: str, name: str) -> Boat:
    contents = toml(text, name)
    _stop(format_mistakes(contents), text, name)
    contents = upgraded(contents)
    try:
        own = _own_units(contents)
        boat = Boat.model_validate(contents, context=own, by_alias=True, by_name=False)
    except ValidationError as error:
        raise refusal(refused(error), text, name) from None
    boat._typed = figures_in(contents)  # pyright: ignore[reportPrivateUsage] - set here only
    _stop([*sign_mistakes(boat), *typed_mistakes(boat), *lane_mistakes(boat)], text, name)
    boat = resolved(boat)
    _stop(resolved_mistakes(boat), text, name)
    return boat


def unfenced(text: str, name: str = "boat.toml") -> Boat:
    """Return the boat in a text as it is typed, resolved, whatever cannot be right in it.

    So that what was refused can be looked at for a slipped figure; nothing else may use it.

    Args:
        text: TOML.
        name: What to call the file in an error.

    Raises:
        BoatFileError: It is no boat file.
        UnitError: A quantity in it cannot be read.
    """
    contents = upgraded(toml(text, name))
    try:
        own = _own_units(contents) | {UNBOUNDED: "yes"}
        boat = Boat.model_validate(contents, context=own, by_alias=True, by_name=False)
    except ValidationError as error:
        raise refusal(refused(error), text, name) from None
    boat._typed = figures_in(contents)  # pyright: ignore[reportPrivateUsage] - set here only
    return resolved(boat)


def checked(boat: Boat) -> Boat:
    """Return a boat that was made in Python, resolved.

    Raises:
        BoatError: Something in it must be mended.
    """
    if mistakes := [*sign_mistakes(boat), *typed_mistakes(boat), *lane_mistakes(boat)]:
        raise refusal_of(boat, mistakes)
    boat = resolved(boat)
    if mistakes := resolved_mistakes(boat):
        raise refusal_of(boat, mistakes)
    return boat


def contents_of(file: File) -> bytes:
    """Return the bytes of a boat file, refused by size before they are read.

    Raises:
        BoatFileError: There is no such file, it is none, or it is too large.
    """
    try:
        if file.is_dir():
            mend = f"Name the file in it, such as {file.name}/boat.toml."
            raise BoatFileError("it is a folder", str(file), mend)
        if not file.exists():
            raise _absent(file)
        if not file.is_file():
            raise BoatFileError("it is no file", str(file), "Name a boat file.")
        if file.stat().st_size > LARGEST:
            size = f"it is {file.stat().st_size / 2**20:.0f} MB"
            raise BoatFileError(size, str(file), "Boat files and tables are text of at most 16 MB.")
        with file.open("rb") as stream:
            return stream.read(LARGEST + 1)
    except OSError as error:
        reason = (error.strerror or "it cannot be read").lower()
        raise BoatFileError(reason, str(file), "Check that you may read it.") from None
    except ValueError:  # a name that no file can have
        raise BoatFileError("there is no such file", repr(str(file)), "Name a file.") from None


def stamp_of(data: bytes) -> str:
    """Return what tells one state of a file from another."""
    return hashlib.sha256(data).hexdigest()


def _absent(file: File) -> BoatFileError:
    """Return the error for a file that is not there, with what lies in its folder."""
    what, folder = "there is no such file", file.parent
    if not folder.is_dir():
        mend = f"There is no folder '{folder}' either; see where you are."
        return BoatFileError(what, str(file), mend)
    found = sorted(entry.name for entry in folder.glob("*.toml"))[:5]
    mend = f"There is {', '.join(found)} in that folder." if found else "Check its name and folder."
    return BoatFileError(what, str(file), mend)


def _text(data: bytes, name: str) -> str:
    """Return the text of a boat file.

    Raises:
        BoatFileError: It is not UTF-8.
    """
    if data.startswith(UTF16):
        raise BoatFileError("it is saved as UTF-16", name, "Save it as UTF-8 in your editor.")
    try:
        return data.removeprefix(BOM).decode("utf-8")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        what = f"byte 0x{data[error.start]:02x} is not UTF-8"
        mend = "Save the file as UTF-8 in your editor."
        raise BoatFileError(what, f"{name}:{line}", mend) from None


def toml(text: str, name: str) -> Contents:
    """Return what a text holds.

    Raises:
        BoatFileError: It is not TOML.
    """
    try:
        return pickle.loads(_pickled(text)) if len(text) < KEPT else _read(text)
    except _DeepError as error:
        line = text.count("\n", 0, error.at) + 1
        raise BoatFileError("this key goes too deep", f"{name}:{line}", "Take it out.") from None
    except RecursionError:
        raise BoatFileError("its brackets go too deep", name, "Take some out.") from None
    except ValueError as error:  # TOMLDecodeError is one; so is a number of too many digits
        place = AT_LINE.search(str(error))
        if other := other_file(text, name):
            raise other from None
        line = int(place[1]) if place and place[1] else text.count("\n") + 1
        typed = [*text.split("\n"), ""][line - 1]
        raise slip(AT_LINE.sub("", str(error)), typed, f"{name}:{line}") from None


@lru_cache(maxsize=8)
def _pickled(text: str) -> bytes:
    """Return what a text holds; it is read once, and whoever asks has it for himself."""
    return pickle.dumps(_read(text))


def _read(text: str) -> Contents:
    """Return what a text holds.

    Raises:
        _DeepError: A key goes too deep.
        ValueError: It is not TOML.
        RecursionError: Its brackets go too deep.
    """
    if found := DEEP_KEY.search(text):
        raise _DeepError(found.start())
    return tomllib.loads(text)


def _own_units(contents: Contents) -> dict[str, str]:
    """Return the units that the file names for bare numbers, and its scales.

    Raises:
        ValidationError: One of them is no unit.
    """
    named = contents.get("units", {})
    if not isinstance(named, dict):
        return {}
    try:
        own = Units.model_validate(named).own
    except ValidationError:
        Boat.model_validate({"name": "units", "units": named})  # for the path of the mistake
        raise
    scales = {"scale": contents.get("scale"), "plan": contents.get("plan_scale")}
    return own | {key: text for key, text in scales.items() if isinstance(text, str)}


def _stop(mistakes: list[Mistake], text: str, name: str) -> None:
    """Raise the mistakes, if there are any."""
    if mistakes:
        raise refusal(mistakes, text, name)
