"""The placing card as a file."""

from pathlib import Path
from typing import TYPE_CHECKING

from trimdive.errors import BoatFileError

if TYPE_CHECKING:
    from trimdive.edits.work import Work


def card_file(done: "Work", folder: Path | None) -> Path | None:
    """Return the file of the card, written; None where none is asked for or nothing is placed.

    Raises:
        BoatFileError: It cannot be written there.
    """
    from trimdive.cli.sheets import file_name
    from trimdive.pictures.drawings.place_card import card_of

    if folder is None or done.found is None:
        return None
    file = folder / f"{file_name(done.her.boat.name)}-placing.svg"
    text = card_of(done)
    try:
        folder.mkdir(parents=True, exist_ok=True)
        file.write_text(text, encoding="utf-8")
    except OSError as error:
        reason = (error.strerror or "it cannot be written").lower()
        mend = "Name another folder after --card."
        raise BoatFileError(reason, str(error.filename or file), mend) from None
    return file
