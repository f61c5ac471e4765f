"""From what was typed for BOAT and --water to an assessment of her."""

import os
import sys
from collections.abc import Generator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from trimdive.errors import BoatFileError

if TYPE_CHECKING:
    from trimdive.assess import Assessment

BOAT_FILE = "boat.toml"
COMPILED = Path(__file__).parents[1] / "rest" / "__pycache__"
AT_WORK = "working it out …"
AT_FIRST = "first start: the sums are being compiled, once; up to a minute …"


def boat_file(given: Path) -> Path:
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


def opened(given: Path, water: str | None = None) -> "Assessment":
    """Return the assessment of a boat, in another water where one is named.

    Raises:
        TrimdiveError: Something in her file, beside it or in the water named must be mended.
    """
    from trimdive.assess import assess
    from trimdive.told.water_asked import water_of

    file = boat_file(given)
    try:
        her = assess(file)
    except OSError as error:
        reason = (error.strerror or "it cannot be read").lower()
        where = str(error.filename or file)
        raise BoatFileError(reason, where, "See that you may read it.") from None
    if water is None:
        return her
    other = water_of(water)
    return her.in_water(other.kind, other.celsius, other.salt)


@contextmanager
def working() -> Generator[None]:
    """Tell a person at a terminal that it is being worked out."""
    if not sys.stderr.isatty():
        yield
        return
    from rich.console import Console

    with Console(stderr=True).status(AT_FIRST if is_first_start() else AT_WORK):
        yield


def is_first_start(folder: Path = COMPILED) -> bool:
    """Return whether the sums must still be compiled: once, and kept beside the code if it may be.

    Args:
        folder: Where what lets her come to rest is kept compiled.
    """
    return os.access(folder.parent, os.W_OK) and next(folder.glob("*.nbi"), None) is None


def keep(text: str, file: Path | None) -> None:
    """Write a text into a new file, if one is named; an old one is never overwritten.

    Raises:
        BoatFileError: It is there already, or cannot be written.
    """
    if file is None:
        return
    try:
        with file.open("x", encoding="utf-8") as stream:
            stream.write(text)
    except FileExistsError:
        raise BoatFileError("there is such a file already", str(file), "Name another.") from None
    except OSError as error:
        reason = (error.strerror or "it cannot be written").lower()
        raise BoatFileError(reason, str(file), "Choose another place.") from None
