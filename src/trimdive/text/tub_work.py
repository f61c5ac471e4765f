"""What ``tub`` writes into the boat file: readings as typed, and the correction of the list."""

import datetime
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from trimdive.boatfile import append, load, parse, previous_of, remove, save
from trimdive.boatfile.loading import toml
from trimdive.errors import BoatFileError
from trimdive.text.tub_text import note_of, row_words
from trimdive.text.tub_typed import reading_of
from trimdive.trials.correction import Story

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.boatfile import Boat

BELOW = 0.05  # a reading may lie so far out of her hull [m]
APART = ("date", "past", "note")  # fields of a reading that are no figures
WILD = 2.0  # a mass so many times what the list has is a slip [-]


def written(file: Path, typed: Sequence[str], her: "Assessment") -> None:
    """Write readings into the boat file, dated today where no date is typed.

    Raises:
        TrimdiveError: A reading is not clear, or the file cannot be written.
    """
    loaded = load(file)
    text = loaded.text
    for one in typed:
        text = with_reading(text, file.name, one, her)
    save(loaded, text)


def withdrawn(file: Path, which: Sequence[str]) -> str:
    """Take readings out of the boat file, and return in a sentence which.

    Args:
        file: The boat file.
        which: Their numbers as they stand in the file, or "last".

    Raises:
        TrimdiveError: There is no such reading, or the file cannot be written.
    """
    loaded = load(file)
    listed = _listed(loaded.text)
    numbers = sorted({_number(one, listed) for one in which})
    text = loaded.text
    for number in reversed(numbers):
        text = remove(text, f"reading[{number}]")
    save(loaded, text)
    what = "; ".join(listed[number - 1] for number in numbers)
    then = ""
    if any(not one.past for one in loaded.boat.from_tub):
        left = len(loaded.boat.readings_now) > len(numbers)
        mend = "correct the list again" if left else "remove it from the file too"
        then = f" The correction in the file, [[from_tub]], was made with it: {mend}."
    return f"Withdrawn: {what}. The previous version is {previous_of(file).name}.{then}"


def _listed(text: str) -> list[str]:
    """Return every reading in a boat file with its number, as typed there."""
    found: list[str] = []
    for number, one in enumerate(toml(text, "boat.toml").get("reading", []), 1):
        shown = ", ".join(
            f"{key.replace('_', ' ')} {value}" for key, value in one.items() if key not in APART
        )
        past = ", past" if one.get("past") else ""
        found.append(f"{number}: {shown} ({one['date']}{past})")
    return found


def _number(typed: str, listed: Sequence[str]) -> int:
    """Return the number of a reading.

    Raises:
        BoatFileError: There is no such reading.
    """
    plain = typed.strip().casefold()
    if plain == "last" and listed:
        return len(listed)
    if plain.isdecimal() and 1 <= int(plain) <= len(listed):
        return int(plain)
    mend = (
        "Name one by its number, or last. " + "; ".join(listed)
        if listed
        else "No reading is recorded."
    )
    raise BoatFileError(f"there is no reading '{typed}'", "--withdraw", mend.rstrip(".") + ".")


def believed(her: "Assessment", boat: "Boat", typed: str) -> None:
    """Refuse a last reading that no such boat can give, before it is written.

    Args:
        her: The boat without it.
        boat: With it, as the file would be.
        typed: As it was typed.

    Raises:
        BoatFileError: It cannot be.
    """
    new = boat.readings[-1]
    low, high = her.hull.envelope.bounds
    mend = "Read it again; check the unit and the decimal point."
    where = f"--read '{typed}'"
    if new.draught is not None and not low[2] - BELOW <= new.draught <= high[2]:
        raise BoatFileError("there is no such height on her", where, mend)
    for place in (new.x, new.x_aft, new.x_fore):
        if place is not None and not low[0] - BELOW <= place <= high[0] + BELOW:
            raise BoatFileError("there is no such place on her", where, mend)
    if new.mass is not None and not 1 / WILD < new.mass / her.masses.mass < WILD:
        listed = boat.units.write(her.masses.mass, "mass")
        raise BoatFileError(f"her list has {listed}: both cannot be right", where, mend)


def corrected(file: Path, her: "Assessment") -> None:
    """Write what was wrong in the list into the boat file, in place of what stood there before.

    Raises:
        TrimdiveError: There are no readings, or the file cannot be written.
    """
    story = sound_story(her)
    loaded = load(file)
    save(loaded, story.written(loaded.text, note_of))


def sound_story(her: "Assessment") -> Story:
    """Return what the readings of a boat tell, where some list explains them all.

    Raises:
        BoatFileError: There are no readings, or no list explains them together.
    """
    if not her.boat.readings_now:
        what = "no readings in the tub yet"
        mend = 'Record readings first, such as "draught bow 97 mm".'
        raise BoatFileError(what, "--apply", mend)
    story = Story(her=her)
    odd = story.fit.odd
    if odd is not None and not story.fit.wider:
        label = next(row_words(her, row) for row in story.fit.rows if row.group == odd)
        what = f"nothing was written: no list explains {label} beside the other readings"
        raise BoatFileError(what, "--apply", "Read it again, or remove it from the file.")
    return story


def with_reading(text: str, name: str, typed: str, her: "Assessment") -> str:
    """Return the text of a boat file with a reading more, dated today where no date is typed.

    Args:
        text: The boat file.
        name: Of the file, for what may be wrong.
        typed: The reading in a builder's words.
        her: The boat without it.

    Raises:
        TrimdiveError: It is not clear, or cannot be.
    """
    today = datetime.datetime.now().astimezone().date()
    text = append(text, "reading", reading_of(typed, her.boat, today))
    believed(her, parse(text, name), typed)
    return text
