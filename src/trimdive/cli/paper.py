"""Writes sheets to print into files that are not there yet."""

from pathlib import Path

from trimdive.errors import BoatFileError


def printed(out: Path, paper: str, units: str) -> Path:
    """Return the measuring sheet's file, written.

    Raises:
        BoatFileError: There is no such paper or choice of units, or the file cannot be written.
    """
    from trimdive.sheets import PAPERS, measuring_sheet

    if paper not in PAPERS:
        raise BoatFileError(
            f"'{paper}' is not a paper size", "--paper", f"Write {' or '.join(PAPERS)}."
        )
    if units not in ("", "metric", "inches"):
        raise BoatFileError(f"'{units}' is no choice", "--units", "Write metric or inches.")
    if out.exists():
        raise BoatFileError("there is such a file already", str(out), "Name another.")
    data = measuring_sheet(paper, units)
    try:
        with out.open("xb") as stream:
            stream.write(data)
    except OSError as error:
        reason = (error.strerror or "it cannot be written").lower()
        raise BoatFileError(reason, str(out), "Choose another file.") from None
    return out
