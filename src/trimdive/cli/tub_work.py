"""What ``tub`` writes into the boat file: readings as typed, and the correction of the list."""

import datetime
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from trimdive.boatfile import append, load, save
from trimdive.cli.tub_typed import reading_of
from trimdive.errors import BoatFileError
from trimdive.fromtub import Story

if TYPE_CHECKING:
    from trimdive.assess import Assessment


def written(file: Path, typed: Sequence[str]) -> None:
    """Write readings into the boat file, dated today where no date is typed.

    Raises:
        TrimdiveError: A reading is not clear, or the file cannot be written.
    """
    loaded = load(file)
    text = loaded.text
    for one in typed:
        fields = reading_of(one, loaded.boat, datetime.datetime.now().astimezone().date())
        text = append(text, "reading", fields)
    save(loaded, text)


def corrected(file: Path, her: "Assessment") -> None:
    """Write what was wrong in the list into the boat file, in place of what stood there before.

    Raises:
        TrimdiveError: There are no readings, or the file cannot be written.
    """
    if not her.boat.readings_now:
        what = "nothing was read in the tub yet"
        mend = 'Write readings down first, as --read "draught bow 97 mm".'
        raise BoatFileError(what, "--apply", mend)
    loaded = load(file)
    save(loaded, Story(her=her).written(loaded.text))
