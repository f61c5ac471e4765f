"""What stands in the files beside a boat file: tables of lines, and meshes."""

from trimdive.boatfile import Loaded
from trimdive.boatfile.loading import contents_of as text_contents
from trimdive.bodies.surfaces import files_of
from trimdive.meshes import contents_of as mesh_contents


def read_beside(loaded: Loaded) -> dict[str, bytes]:
    """Return the contents of all files that a boat file names, by name.

    Raises:
        BoatFileError: A table cannot be read, or is too large for one.
        GeometryError: A mesh cannot be read, or is too large.
    """
    files = {name: loaded.beside(name) for name in files_of(loaded.boat)}
    readers = {".csv": text_contents}
    return {name: readers.get(f.suffix.lower(), mesh_contents)(f) for name, f in files.items()}
