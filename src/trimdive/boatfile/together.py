"""Writes several files of one folder together: all of them or none, whatever happens meanwhile.

The new contents are first written whole into a hidden folder, which then takes its final name in
one step. From that step on they count: whoever comes next, after a power cut too, puts into place
what is not in place yet. Before it, nothing was changed. One writer at a time holds the folder.
"""

import errno
import json
import os
import shutil
import tempfile
import time
from collections.abc import Generator, Iterable, Mapping
from contextlib import contextmanager, suppress
from pathlib import Path, PurePosixPath, PureWindowsPath
from typing import cast

PART = ".saving-"  # begins the name of a folder that is still being written
READY = ".saved"  # a folder whose files only have to be put into place
NAMES = "names.json"  # in it: the name of each file, by its number
LOCK = ".lock"  # held by whoever writes, where a folder itself cannot be
PATIENCE = 20.0  # how long another writer is waited for [s]
PAUSE = 0.005  # between two looks at the lock [s]
PRIVATE = 0o600  # rights of a file that was not there before

try:
    import fcntl
except ImportError:  # Windows
    fcntl = None


@contextmanager
def held(folder: Path) -> Generator[None]:
    """Hold a folder against every other writer; what one of them left half done is done first.

    Raises:
        OSError: It cannot be written, or another program holds it too long.
    """
    on_windows = fcntl is None
    file, how = (folder / LOCK, os.O_RDWR | os.O_CREAT) if on_windows else (folder, os.O_RDONLY)
    handle = os.open(file, how, PRIVATE)
    try:
        _take(handle)
        _finish(folder)
        yield
    finally:
        os.close(handle)  # which gives it free


def finished(folder: Path) -> None:
    """Put into place what a writer that was stopped has left ready.

    Raises:
        OSError: It is there and cannot be put into place.
    """
    if (folder / READY).is_dir():
        with held(folder):
            pass


def write(folder: Path, files: Mapping[str, bytes]) -> None:
    """Write files into a folder that is held: all, or none.

    Args:
        folder: Where; whoever calls holds it.
        files: Contents by name.

    Raises:
        OSError: They cannot be written; all are then as they were.
    """
    part = Path(tempfile.mkdtemp(dir=folder, prefix=PART))
    try:
        names = dict(enumerate(files))
        for number, name in names.items():
            _written(part / str(number), files[name], like=folder / name)
        _written(part / NAMES, json.dumps(names).encode())
        _synced(part)
        part.rename(folder / READY)
    except BaseException:
        shutil.rmtree(part, ignore_errors=True)
        raise
    _synced(folder)
    _place(folder)


def write_folder(parent: Path, names: Iterable[str], files: Mapping[str, bytes]) -> Path:
    """Write a new folder with files in it, whole or not at all, and return it.

    Args:
        parent: Where it is to lie; whoever calls holds it.
        names: What to call it; the first that is free is taken.
        files: Contents by name, some in folders of their own.

    Raises:
        OSError: It cannot be written, or no name is free. Nothing is left then.
    """
    part = Path(tempfile.mkdtemp(dir=parent, prefix=PART))
    try:
        for name, data in files.items():
            (part / name).parent.mkdir(parents=True, exist_ok=True)
            _written(part / name, data)
        for folder in {(part / name).parent for name in files} | {part}:
            _synced(folder)
        for name in names:
            if not os.path.lexists(parent / name):
                part.rename(parent / name)
                _synced(parent)
                return parent / name
    except BaseException:
        shutil.rmtree(part, ignore_errors=True)
        raise
    shutil.rmtree(part, ignore_errors=True)
    raise OSError(errno.EEXIST, "there are too many of this name")


def _finish(folder: Path) -> None:
    """Put into place what is ready, and clear away what never was."""
    if (folder / READY).is_dir():
        _place(folder)
    for left in folder.glob(f"{PART}*"):
        shutil.rmtree(left, ignore_errors=True)


def _place(folder: Path) -> None:
    """Move each file that is ready to its place; what has been moved before is left alone."""
    ready = folder / READY
    if ready.is_symlink():  # never made here
        ready.unlink()
        return
    names = ready / NAMES
    if names.is_file():
        for number, name in _named(names).items():
            if (ready / number).is_file():
                _moved(ready / number, _target(folder, name))
        _synced(folder)
        names.unlink()
    shutil.rmtree(ready)


def _named(names: Path) -> dict[str, str]:
    """Return where each file goes that is ready, by its number; nothing where that is not told."""
    try:
        found: object = json.loads(names.read_bytes())
    except (ValueError, RecursionError):
        return {}
    pairs = cast("dict[object, object]", found).items() if isinstance(found, dict) else ()
    return {
        number: name
        for number, name in pairs
        if isinstance(number, str) and isinstance(name, str)
        if number.isdecimal() and _stays(name)
    }


def is_beside(name: str) -> bool:
    """Return whether the name of a file stays in its folder, and may not be one of those used here.

    >>> is_beside("lines.csv"), is_beside("../lines.csv"), is_beside(".saved/0")
    (True, False, False)
    """
    parts = (*PureWindowsPath(name).parts, *PurePosixPath(name).parts)
    return _stays(name) and not any(part.startswith(".") for part in parts)


def _stays(name: str) -> bool:
    """Return whether the name of a file stays in its folder."""
    windows, posix = PureWindowsPath(name), PurePosixPath(name)
    is_rooted = bool(windows.drive or windows.root or posix.root) or "\0" in name
    return not is_rooted and ".." not in windows.parts and ".." not in posix.parts


def leads_out(folder: Path, name: str) -> bool:
    """Return whether a file in a folder is a link, or lies in one, that leads out of the folder."""
    return not (folder / name).resolve().is_relative_to(folder.resolve())


def _target(folder: Path, name: str) -> Path:
    """Return where a file goes: where a link leads, but never out of the folder.

    What is ready may have come with a folder from somebody else.

    Raises:
        OSError: It lies in a folder that leads out.
    """
    if not leads_out(folder, name):
        return (folder / name).resolve()
    if leads_out(folder, str(PurePosixPath(name).parent)):
        raise OSError(errno.ELOOP, "a link leads out of the folder")
    return folder / name  # which takes the place of the link itself


def _moved(part: Path, file: Path) -> None:
    """Move a file to its place in one step, onto another disk too."""
    file.parent.mkdir(parents=True, exist_ok=True)
    try:
        part.replace(file)
    except OSError as error:
        if error.errno != errno.EXDEV:
            raise
        near = file.with_name(f"{PART}{file.name}")
        _written(near, part.read_bytes(), like=file)
        near.replace(file)
        part.unlink()


def _written(file: Path, data: bytes, like: Path | None = None) -> None:
    """Write a new file to the disk itself, with the rights of another where that is there."""
    with os.fdopen(os.open(file, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, PRIVATE), "wb") as stream:
        stream.write(data)
        stream.flush()
        os.fsync(stream.fileno())
    if like is not None:
        with suppress(FileNotFoundError):
            shutil.copymode(like, file)


def _synced(folder: Path) -> None:
    """See that the names in a folder are on the disk, where the system can."""
    if os.name != "posix":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        with suppress(OSError):  # some file systems have no such thing
            os.fsync(handle)
    finally:
        os.close(handle)


def _take(handle: int) -> None:
    """Lock what is open, where the system can.

    Raises:
        OSError: Another program holds it too long.
    """
    until = time.monotonic() + PATIENCE
    while not _is_taken(handle):
        if time.monotonic() > until:
            raise OSError(errno.EBUSY, "another program is writing there")
        time.sleep(PAUSE)


def _is_taken(handle: int) -> bool:
    try:
        if fcntl is not None:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        else:
            import msvcrt

            msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
    except OSError as error:
        return error.errno not in (errno.EWOULDBLOCK, errno.EAGAIN, errno.EACCES, errno.EDEADLK)
    return True
