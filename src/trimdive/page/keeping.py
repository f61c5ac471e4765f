"""Writes what is on the page into the boat's files: all of them or none, earlier ones kept."""

import shutil
from datetime import datetime
from pathlib import Path

from trimdive.boatfile import Boat, Loaded, save, save_beside
from trimdive.boatfile.loading import contents_of
from trimdive.boatfile.saving import save_new_beside
from trimdive.errors import BoatFileError
from trimdive.meshes import contents_of as mesh_contents

Files = dict[str, bytes]  # contents of files beside a boat file, by name

EARLIER = "earlier"  # folder beside the boat file
MOST = 20  # earlier files kept


def contents_beside(path: Path, name: str) -> bytes:
    """Return the contents of a file that a boat file names.

    Raises:
        BoatFileError: It is not there, cannot be read, or is too large.
        GeometryError: The same of a mesh.
    """
    file = path.parent / name
    return contents_of(file) if file.suffix.lower() == ".csv" else mesh_contents(file)


def keep_earlier(path: Path) -> None:
    """Keep a boat file as it is now in a folder beside it, the latest ones of those.

    Raises:
        BoatFileError: It cannot be kept there.
    """
    folder = path.parent / EARLIER
    at = datetime.now().astimezone().strftime("%Y-%m-%d %H.%M.%S")
    try:
        folder.mkdir(exist_ok=True)
        shutil.copyfile(path, folder / f"{path.stem} {at}{path.suffix}")
        for old in sorted(folder.glob(f"{path.stem} *{path.suffix}"))[:-MOST]:
            old.unlink()
    except OSError as error:
        reason = (error.strerror or "it cannot be written").lower()
        mend = "See that you may write there and that there is room, or save a copy elsewhere."
        raise BoatFileError(f"not saved: {reason}", str(folder), mend) from None


def write_all(path: Path, stamp: str, text: str, files: Files, was: Files) -> str:
    """Write a boat file and the files beside it that changed; return what tells its new state.

    Args:
        path: The boat file.
        stamp: What tells its state on disk.
        text: What to write into it.
        files: What is to lie beside it, by name.
        was: What lies beside it now.

    Raises:
        BoatFileError: One cannot be written; all are then as they were.
    """
    loaded = Loaded(boat=Boat(name=path.stem), path=path, text="", stamp=stamp)
    done: list[str] = []
    try:
        for name, data in files.items():
            if name not in was:
                save_new_beside(path.parent, name, data)
            elif was[name] != data:
                save_beside(loaded, name, data)
            else:
                continue
            done.append(name)
        return save(loaded, text).stamp
    except BoatFileError:
        for name in done:
            if name in was:
                save_beside(loaded, name, was[name])
            else:
                (path.parent / name).unlink(missing_ok=True)
        raise
