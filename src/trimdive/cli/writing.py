"""Files that a command writes: drawings, charts, tables, sheets."""

from pathlib import Path

from trimdive.errors import BoatFileError

FILE, FOLDER = "Choose another file.", "Name another folder after --out."  # what mends it


def written(file: Path, contents: str | bytes, mend: str = FILE) -> Path:
    """Return a file, written.

    Raises:
        BoatFileError: It cannot be written there.
    """
    data = contents if isinstance(contents, bytes) else contents.encode()
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_bytes(data)
    except OSError as error:
        reason = (error.strerror or "it cannot be written").lower()
        raise BoatFileError(reason, str(error.filename or file), mend) from None
    return file
