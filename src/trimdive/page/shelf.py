"""The shelf: a folder of boats, each in a folder of its own; nothing on it is ever overwritten."""

import errno
import json
import os
import re
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path, PurePosixPath

import trimdive
from trimdive.boatfile.loading import boat_in
from trimdive.boatfile.together import finished, held, write, write_folder
from trimdive.errors import BoatFileError

BOAT_FILE = "boat.toml"
USUAL = "trimdive"  # the shelf's folder in the home folder
FIRST = "bittern-as-bought"  # what lies on a new shelf
MEMORY = ".shelf.json"  # what is remembered between two starts
LONGEST = 60  # letters of a folder's name [-]
TAKEN = ("con", "prn", "aux", "nul")  # names that some systems keep for themselves
TRIES = 999  # numbers put behind a name [-]
MEND = "Check that you may write there and that there is room, or name another: trimdive --shelf …"


def demo(name: str = FIRST) -> Path:
    """Return the folder of a demo boat: packed with the program, or in its own sources."""
    packed = Path(trimdive.__file__).parent / "boats"
    return (packed if packed.is_dir() else Path(trimdive.__file__).parents[2] / "boats") / name


def demo_text(name: str = FIRST) -> tuple[str, dict[str, bytes]]:
    """Return the boat file of a demo boat, and what lies beside it, by name."""
    folder = demo(name)
    files = {one.name: one.read_bytes() for one in folder.iterdir() if one.name != BOAT_FILE}
    return (folder / BOAT_FILE).read_text("utf-8"), files


@dataclass(frozen=True, slots=True)
class Shelf:
    """A folder of boats."""

    folder: Path

    def names(self) -> tuple[str, ...]:
        """Return the names of the folders that hold a boat, in the order of the alphabet."""
        try:
            found = [one.name for one in self.folder.iterdir() if self._is_boat(one)]
        except OSError:
            return ()
        return tuple(sorted(found, key=str.casefold))

    def _is_boat(self, folder: Path) -> bool:
        is_own = not folder.name.startswith(".") and not folder.is_symlink()
        return is_own and (folder / BOAT_FILE).is_file()

    def file_of(self, name: str) -> Path:
        """Return the boat file in a folder of the shelf.

        Raises:
            BoatFileError: There is no such boat on the shelf, or she leads out of it.
        """
        if name not in self.names():
            raise BoatFileError("there is no such boat on the shelf", repr(name), "Look again.")
        file = self.folder / name / BOAT_FILE
        keep_inside(file.parent)
        return file

    def name_of(self, file: Path) -> str:
        """Return the name under which a boat file lies on the shelf; "" where it does not."""
        folder = file.resolve().parent
        is_here = folder.parent == self.folder.resolve() and file.name == BOAT_FILE
        return folder.name if is_here else ""

    def put(self, name: str, text: str, files: Mapping[str, bytes]) -> Path:
        """Put a boat into a new folder and return her file; nothing there before is touched.

        Args:
            name: What to call the folder; a number is put behind it where it is taken.
            text: The boat file.
            files: What lies beside it, by name.

        Raises:
            TrimdiveError: The text holds a mistake, or she cannot be written. Nothing is left.
        """
        for beside in files:
            if ".." in PurePosixPath(beside).parts or PurePosixPath(beside).is_absolute():
                raise BoatFileError("it is outside the boat's folder", beside, "Remove it.")
        plain = folder_name(name)
        names = (plain if number == 1 else f"{plain}-{number}" for number in range(1, TRIES))
        boat_in(self.folder / plain / BOAT_FILE, text, files)
        try:
            self.folder.mkdir(parents=True, exist_ok=True, mode=0o700)
            with held(self.folder):
                whole = {**files, BOAT_FILE: text.encode()}
                return write_folder(self.folder, names, whole) / BOAT_FILE
        except OSError as error:
            if error.errno == errno.EEXIST and self.folder.is_dir():
                mend = "Choose another name."
                raise BoatFileError("there are too many of this name", plain, mend) from None
            raise _unwritten(self.folder / plain, error) from None

    def begin(self) -> Path:
        """Return the boat worked on last; on a new shelf a demo boat is put first.

        Raises:
            BoatFileError: It is new and cannot be written.
        """
        last = str(self.memory().get("last", ""))
        if last and (file := self.folder / last).is_file():
            return file
        names = self.names()
        if FIRST in names or (names and last):
            return self.file_of(FIRST if FIRST in names else names[0])
        return self.put_demo()

    def put_demo(self) -> Path:
        """Put the first demo boat on the shelf, and return her file.

        Raises:
            BoatFileError: It cannot be written.
        """
        return self.put(FIRST, *demo_text())

    def memory(self) -> dict[str, object]:
        """Return what is remembered between two starts."""
        try:
            finished(self.folder)
            found = json.loads((self.folder / MEMORY).read_text("utf-8"))
        except (OSError, ValueError):
            return {}
        return found if isinstance(found, dict) else {}

    def remember(self, **entries: object) -> None:
        """Remember something until the next start, where the folder may be written."""
        known = self.memory() | entries
        file = self.folder / MEMORY
        if known == self.memory() or not self.folder.is_dir() or file.is_symlink():
            return
        with suppress(OSError), held(self.folder):
            known = (
                self.memory() | entries
            )  # another program may have remembered something meanwhile
            write(self.folder, {MEMORY: json.dumps(known, ensure_ascii=False).encode()})

    def remember_last(self, file: Path) -> None:
        """Remember which boat was worked on last."""
        name = self.name_of(file)
        self.remember(last=f"{name}/{BOAT_FILE}" if name else str(file.resolve()))


def keep_inside(folder: Path) -> None:
    """Refuse a boat's folder in which a link leads out of it.

    Raises:
        BoatFileError: One does.
    """
    home = folder.resolve()
    inside = os.walk(folder)  # which passes over what another program takes away meanwhile
    for one in (Path(at, name) for at, folders, files in inside for name in (*folders, *files)):
        if one.is_symlink() and not one.resolve().is_relative_to(home):
            what = "it is a link that leads out of the boat's folder"
            raise BoatFileError(what, str(one), "Put the file itself there.")


def folder_name(name: str) -> str:
    """Return a boat's name as the name of a folder that every system takes.

    >>> folder_name("Sea Otter, 2nd try"), folder_name("../../etc"), folder_name("???")
    ('sea-otter-2nd-try', 'etc', 'boat')
    """
    plain = re.sub(r"[^\w]+", "-", name.casefold()).strip("-_")[:LONGEST].strip("-_")
    return f"boat-{plain}" if plain in TAKEN else plain or "boat"


def _unwritten(folder: Path, error: OSError) -> BoatFileError:
    reason = (error.strerror or "it cannot be written").lower()
    return BoatFileError(f"not saved: {reason}", str(folder), MEND)
