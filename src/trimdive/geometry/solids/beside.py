"""What stands in the files beside a boat file: tables of lines, and meshes."""

from pathlib import Path

from trimdive.boatfile import Boat, Loaded
from trimdive.boatfile.loading import contents_of as text_contents
from trimdive.errors import BoatFileError
from trimdive.geometry.meshes import contents_of as mesh_contents
from trimdive.geometry.solids.surfaces import Files, files_of


def read_beside(loaded: Loaded) -> dict[str, bytes]:
    """Return the contents of all files that a boat file names, by name.

    Raises:
        BoatFileError: A table cannot be read, or is too large for one.
        GeometryError: A mesh cannot be read, or is too large.
    """
    return _read({name: loaded.beside(name) for name in files_of(loaded.boat)})


def found_beside(boat: Boat, beside: Files | Path | str | None) -> dict[str, bytes]:
    """Return the contents of all files that a boat made in Python names, by name.

    Args:
        boat: The boat.
        beside: The folder in which they lie, or their bytes by name; None: there are none.

    Raises:
        BoatFileError: One is not there, or a table cannot be read.
        GeometryError: A mesh cannot be read.
    """
    names = files_of(boat)
    if isinstance(beside, Path | str):
        missing = [name for name in names if not (Path(beside) / name).is_file()]
    else:
        missing = [name for name in names if name not in (beside or {})]
    if missing:
        mend = "Name its folder, or give its bytes: assess(boat, beside=…)."
        raise BoatFileError(f"there is no file '{missing[0]}' beside her", boat.name, mend)
    if isinstance(beside, Path | str):
        return _read({name: Path(beside) / name for name in names})
    return {name: (beside or {})[name] for name in names}


def _read(files: dict[str, Path]) -> dict[str, bytes]:
    readers = {".csv": text_contents}
    return {name: readers.get(f.suffix.lower(), mesh_contents)(f) for name, f in files.items()}
