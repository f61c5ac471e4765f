"""Saves a boat file: whole or not at all, the previous version kept, nobody's changes lost.

The previous version of ``boat.toml`` is kept beside it as ``boat.previous.toml``. A boat file and
the files that it names are written together, so that they are always in step.
"""

import errno
import os
from collections.abc import Mapping
from pathlib import Path

from trimdive.boatfile.loading import Loaded, boat_in, contents_of, stamp_of
from trimdive.boatfile.together import held, leads_out, write
from trimdive.errors import BoatFileError


def save(
    loaded: Loaded,
    text: str,
    files: Mapping[str, bytes] | None = None,
    seen: Mapping[str, bytes] | None = None,
    extra: Mapping[str, bytes] | None = None,
) -> Loaded:
    """Write a new text into the file of a loaded boat, and what lies beside it; return it loaded.

    Of each file that changes the previous version is kept. All are written, or none.

    Args:
        loaded: The boat as it was read.
        text: The new text.
        files: Contents of files beside it that are new or changed, by name.
        seen: Contents of files beside it as they were read; one that is otherwise now is refused.
        extra: Further files to write with them, whatever is there.

    Raises:
        BoatFileError: The text holds a mistake, a file was changed since it was read, or one
            cannot be written. All are then as they were.
        UnitError: A quantity in the text cannot be read.
    """
    beside = dict(files or {})
    boat = boat_in(loaded.path, text, beside)
    file, data = loaded.path.resolve(), text.encode()
    try:
        with held(file.parent):
            found = contents_of(file)
            if stamp_of(found) != loaded.stamp:
                raise _changed(loaded.path, "Load it again, or save under another name.")
            home = loaded.path.parent
            if out := next((one for one in beside if leads_out(home, one)), ""):
                what = "it is a link that leads out of the boat's folder"
                raise BoatFileError(what, str(loaded.beside(out)), "Put the file itself there.")
            now = {name: _there(loaded.beside(name)) for name in {**beside, **(seen or {})}}
            for name, was in (seen or {}).items():
                if now[name] != was:
                    mend = "Load the boat again, or save her under another name."
                    raise _changed(loaded.beside(name), mend)
            news = {name: one for name, one in beside.items() if now[name] != one}
            kept = {
                str(previous_of(Path(name))): was for name in news if (was := now[name]) is not None
            }
            if found != data:
                kept[previous_of(file).name] = found
            write(file.parent, {**kept, **news, **(extra or {}), file.name: data})
    except OSError as error:
        raise unwritten(loaded.path, error) from None
    return Loaded(boat=boat, path=loaded.path, text=text, stamp=stamp_of(data))


def _changed(file: Path, mend: str) -> BoatFileError:
    """Return the error for a file that somebody else wrote meanwhile."""
    return BoatFileError("it was changed on disk since it was read", str(file), mend)


def _there(file: Path) -> bytes | None:
    """Return what a file holds now; None where there is none."""
    return file.read_bytes() if file.is_file() else None


def save_new(path: Path | str, text: str, beside: Mapping[str, bytes] | None = None) -> Loaded:
    """Write a text into a file that is not there yet, and return it as loaded.

    Args:
        path: The boat file.
        text: What to write into it.
        beside: Files that are to lie beside it, none of which is there yet, by name.

    Raises:
        BoatFileError: The text holds a mistake, or a file is there or cannot be written. None is
            written then.
        UnitError: A quantity in the text cannot be read.
    """
    file, data = Path(path), text.encode()
    files = dict(beside or {})
    boat = boat_in(file, text, files)
    try:
        with held(file.parent):
            for one in (*(file.parent / name for name in files), file):
                if os.path.lexists(one):
                    what, mend = "there is such a file already", "Choose another name."
                    raise BoatFileError(what, str(one), mend)
            write(file.parent, {**files, file.name: data})
    except OSError as error:
        raise unwritten(file, error) from None
    return Loaded(boat=boat, path=file, text=text, stamp=stamp_of(data))


def previous_of(file: Path) -> Path:
    """Return where the previous version of a boat file is kept.

    >>> previous_of(Path("boat.toml")).name
    'boat.previous.toml'
    """
    return file.with_name(f"{file.stem}.previous{file.suffix}")


def unwritten(file: Path, error: OSError) -> BoatFileError:
    """Return the error for a file that cannot be written."""
    reason = (error.strerror or "it cannot be written").lower()
    mends = {
        errno.ENOSPC: "Free some room on the disk, or save elsewhere.",
        errno.EDQUOT: "Free some room on the disk, or save elsewhere.",
        errno.EROFS: "The disk can only be read: save it elsewhere.",
        errno.EACCES: "Check that you may write into that folder, or save elsewhere.",
        errno.EPERM: "Check that you may write into that folder, or save elsewhere.",
        errno.EBUSY: "Try again in a moment.",
    }
    mend = mends.get(error.errno or 0, "Save it elsewhere.")
    return BoatFileError(f"not saved: {reason}", str(file), mend)
