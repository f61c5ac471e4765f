"""Saves a boat file: whole or not at all, the previous version kept, nobody's changes lost.

The previous version of ``boat.toml`` is kept beside it as ``boat.previous.toml``.
"""

import errno
import os
import shutil
import tempfile
from pathlib import Path

from trimdive.boatfile.loading import Loaded, boat_in, contents_of, stamp_of
from trimdive.errors import BoatFileError

_MEND = {
    errno.ENOSPC: "Free some room on the disk, or save elsewhere.",
    errno.EROFS: "The disk can only be read: save it elsewhere.",
    errno.EACCES: "See that you may write into that folder, or save elsewhere.",
}


def save(loaded: Loaded, text: str) -> Loaded:
    """Write a new text into the file of a loaded boat, and return it as loaded.

    Raises:
        BoatFileError: The text holds a mistake, the file was changed since it was loaded, or it
            cannot be written. The file is then as it was.
        UnitError: A quantity in the text cannot be read.
    """
    boat = boat_in(loaded.path, text)
    file, data = loaded.path.resolve(), text.encode()
    found = contents_of(file)
    if stamp_of(found) != loaded.stamp:
        what = "it was changed on disk since it was read"
        raise BoatFileError(what, str(loaded.path), "Load it again, or save under another name.")
    try:
        _replace(previous_of(file), found, like=file)
        _replace(file, data, like=file)
    except OSError as error:
        raise _unwritten(loaded.path, error) from None
    return Loaded(boat=boat, path=loaded.path, text=text, stamp=stamp_of(data))


def save_new(path: Path | str, text: str) -> Loaded:
    """Write a text into a file that is not there yet, and return it as loaded.

    Raises:
        BoatFileError: The text holds a mistake, or the file is there or cannot be written.
        UnitError: A quantity in the text cannot be read.
    """
    file = Path(path)
    boat, data = boat_in(file, text), text.encode()
    save_new_beside(file.parent, file.name, data)
    return Loaded(boat=boat, path=file, text=text, stamp=stamp_of(data))


def save_new_beside(folder: Path, name: str, data: bytes) -> Path:
    """Write a file that is not there yet into a folder.

    Raises:
        BoatFileError: It is there already, or cannot be written.
    """
    file = folder / name
    try:
        with file.open("xb") as stream:
            stream.write(data)
    except FileExistsError:
        mend = "Choose another name."
        raise BoatFileError("there is such a file already", str(file), mend) from None
    except OSError as error:
        file.unlink(missing_ok=True)
        raise _unwritten(file, error) from None
    return file


def save_beside(loaded: Loaded, name: str, data: bytes) -> Path:
    """Write a file that a boat file names, in one step, and keep its previous version beside it.

    Raises:
        BoatFileError: It cannot be written. It is then as it was.
    """
    file = loaded.beside(name).resolve()
    found = contents_of(file)
    try:
        _replace(previous_of(file), found, like=file)
        _replace(file, data, like=file)
    except OSError as error:
        raise _unwritten(file, error) from None
    return file


def previous_of(file: Path) -> Path:
    """Return where the previous version of a boat file is kept.

    >>> previous_of(Path("boat.toml")).name
    'boat.previous.toml'
    """
    return file.with_name(f"{file.stem}.previous{file.suffix}")


def _replace(file: Path, data: bytes, *, like: Path) -> None:
    """Put bytes into a file in one step, with the rights of another."""
    handle, name = tempfile.mkstemp(dir=file.parent, prefix=f".{file.stem}-", suffix=".part")
    part = Path(name)
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(data)
            stream.flush()
            os.fsync(stream.fileno())
        shutil.copymode(like, part)
        part.replace(file)
    finally:
        part.unlink(missing_ok=True)


def _unwritten(file: Path, error: OSError) -> BoatFileError:
    """Return the error for a file that cannot be written."""
    reason = (error.strerror or "it cannot be written").lower()
    return BoatFileError(
        f"not saved: {reason}", str(file), _MEND.get(error.errno or 0, "Save it elsewhere.")
    )
