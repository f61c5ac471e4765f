"""Writes what is on the page into the boat's files: all of them or none, earlier ones kept."""

from contextlib import suppress
from datetime import datetime
from pathlib import Path

from trimdive.boatfile import Boat, Loaded, save
from trimdive.boatfile.loading import contents_of, stamp_of
from trimdive.boatfile.saving import unwritten
from trimdive.boatfile.together import finished, held, write
from trimdive.errors import BoatFileError
from trimdive.geometry.meshes import contents_of as mesh_contents
from trimdive.geometry.solids.surfaces import files_of

Files = dict[str, bytes]  # contents of files beside a boat file, by name

EARLIER = "earlier"  # folder beside the boat file
COPIES = 99  # names tried for a copy beside the file [-]
MOST = 20  # earlier files kept


def contents_beside(path: Path, name: str) -> bytes:
    """Return the contents of a file that a boat file names.

    Raises:
        BoatFileError: It is not there, cannot be read, or is too large.
        GeometryError: The same of a mesh.
    """
    file = path.parent / name
    return contents_of(file) if file.suffix.lower() == ".csv" else mesh_contents(file)


def files_of_hers(path: Path, boat: Boat, files: Files, on_disk: Files) -> Files:
    """Return the files that a boat names: those given, else as they lie on disk.

    Args:
        path: Her boat file.
        boat: The boat.
        files: Contents by name, as far as they are known.
        on_disk: What lies there; it is told what was read.

    Raises:
        TrimdiveError: One is not there, or cannot be read.
    """
    found: Files = {}
    for name in files_of(boat):
        if name not in files:
            on_disk[name] = contents_beside(path, name)
        found[name] = files[name] if name in files else on_disk[name]
    return found


def plans_beside(path: Path, boat: Boat) -> Files:
    """Return pictures of plans and of her afloat, with marks, as far as they lie beside her file.

    They are no part of what is calculated: she is whole without them.

    Args:
        path: Her boat file.
        boat: The boat.
    """
    found: Files = {}
    for name in (name for one in (*boat.plans, *boat.photos) for name in (one.file, one.marks)):
        with suppress(OSError):
            found[name] = (path.parent / name).read_bytes()
    return found


def lies_on_disk(path: Path, content: str, files: Files) -> bool:
    """Return whether a boat file and files beside it lie on disk, once what is ready is in place.

    Args:
        path: The boat file.
        content: What it holds, or the stamp of that.
        files: What lies beside it, by name.
    """
    try:
        finished(path.parent)
        data = contents_of(path)
        if data != content.encode() and stamp_of(data) != content:
            return False
        return all((path.parent / name).read_bytes() == one for name, one in files.items())
    except (BoatFileError, OSError):
        return False


def keep_earlier(path: Path) -> None:
    """Keep a file as it is now in a folder beside the boat file, the latest ones of those.

    An older one makes room only when the new one is whole on the disk.

    Raises:
        BoatFileError: It cannot be kept there.
    """
    folder = path.parent / EARLIER
    at = datetime.now().astimezone().strftime("%Y-%m-%d %H.%M.%S")
    try:
        folder.mkdir(exist_ok=True, mode=0o700)
        with held(folder):
            data = path.read_bytes()
            write(folder, {_free(folder, f"{path.stem} {at}", path.suffix): data})
            kept = sorted(folder.glob(f"{path.stem} *{path.suffix}"), key=lambda one: one.stem)
            for old in kept[:-MOST]:
                old.unlink(missing_ok=True)
    except OSError as error:
        raise unwritten(folder, error) from None


def _free(folder: Path, stem: str, suffix: str) -> str:
    """Return a name that none in a folder has; within one second they are counted."""
    numbers = ("", *(f"-{number}" for number in range(2, MOST + 1)))
    return next(
        (name for one in numbers if not (folder / (name := f"{stem}{one}{suffix}")).exists()),
        f"{stem}{suffix}",
    )


def free_copy(path: Path) -> Path:
    """Return a name that none has yet for a copy of a boat file beside it.

    Raises:
        BoatFileError: There are too many.
    """
    for number in range(1, COPIES + 1):
        copy = path.with_name(f"{path.stem}.mine-{number}{path.suffix}")
        if not copy.exists():
            return copy
    raise BoatFileError("there are too many copies", str(path), "Take some away.")


def write_all(path: Path, stamp: str, text: str, files: Files, was: Files) -> str:
    """Write a boat file and the files beside it that changed; return what tells its new state.

    A file of that name that the boat did not name before goes among the earlier ones.

    Args:
        path: The boat file.
        stamp: What tells its state on disk.
        text: What to write into it.
        files: What is to lie beside it, by name.
        was: What lies beside it now, as far as it was read.

    Raises:
        BoatFileError: One cannot be written, or was changed since; all are then as they were.
    """
    changed = {name: data for name, data in files.items() if was.get(name) != data}
    for name in changed:
        if name not in was and (path.parent / name).is_file():
            keep_earlier(path.parent / name)
    loaded = Loaded(boat=Boat(name=path.stem), path=path, text="", stamp=stamp)
    return save(loaded, text, changed, {name: was[name] for name in changed if name in was}).stamp
