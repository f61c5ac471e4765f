"""What field is meant by a key that is not known: words of the trade first, then the spelling.

"weight" is nearer to "height" by its letters, and means "mass"; so the table of near words is asked
before the letters are compared. A unit behind a key, as in mass_g, is no part of the word.
"""

import difflib
import re
from collections.abc import Sequence
from dataclasses import dataclass

from trimdive.data import Row, table
from trimdive.errors import BoatFileError
from trimdive.units.table import candidates, kinds

ANY = "any"  # in the table: every piece that has the field
TOP = "boat"  # in the table: the top of the file
SPELLING = 0.6  # likeness of letters from which a key counts as misspelt [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Meant:
    """What is meant by a key that is not known."""

    field: str = ""  # "" where no one field is
    unit: str = ""  # that stands behind the key, as in mass_g
    mend: str = ""  # what the table of near words says beside
    is_it: bool = False  # the key is that field, but for capitals and dashes


def no_field(key: str, piece: str, fields: Sequence[str], value: object = None) -> BoatFileError:
    """Return the error, without its place, for a key that is not known: which field is meant.

    Args:
        key: As typed.
        piece: The last name of the table in which it stands; "boat" at the top of the file.
        fields: Those that are known there.
        value: What was typed behind it.

    >>> no_field("weight", "part", ("mass", "height")).mend
    "Did you mean 'mass'?"
    >>> no_field("mass_g", "part", ("mass", "height"), 190).mend.split("? ")[1]
    'Write the unit with the figure: mass = "190 g".'
    """
    found = meant(key, piece, fields)
    asked = f"Did you mean '{found.field}'?" if found.field else ""
    mend = " ".join(filter(None, [asked, found.mend])) or f"Known here: {', '.join(fields)}."
    if found.is_it:
        mend = f"Write it as '{found.field}'."
    elif found.unit:
        figure = f"{value} {found.unit}" if _is_number(value) else f"… {found.unit}"
        mend = f'{asked} Write the unit with the figure: {found.field} = "{figure}".'
    return BoatFileError(f"there is no field '{key}' here", "", mend)


def meant(key: str, piece: str, fields: Sequence[str]) -> Meant:
    """Return what is meant by a key: a word of the trade, else without its unit, else by letters.

    Args:
        key: As typed.
        piece: The last name of the table in which it stands; "boat" at the top of the file.
        fields: Those that are known there.
    """
    word = folded(key)
    if word in fields:
        return Meant(field=word, is_it=True)
    if entry := row_for(word, piece, fields):
        return Meant(field=entry["field"], mend=entry["mend"])
    stem, unit = _without_unit(word)
    if unit and (field := _field(stem, piece, fields)):
        return Meant(field=field, unit=unit)
    near = difflib.get_close_matches(word, fields, n=1, cutoff=SPELLING)
    return Meant(field=near[0]) if near else Meant()


def folded(key: str) -> str:
    """Return a key in small letters, with _ for blanks and dashes.

    >>> folded("X-Aft "), folded("Outside dia.")
    ('x_aft', 'outside_dia')
    """
    return re.sub(r"[\s\-_.]+", "_", key.casefold()).strip("_")


def row_for(word: str, piece: str, fields: Sequence[str]) -> Row | None:
    """Return the row of the table for a word in a table of the boat file, or None.

    Args:
        word: As folded.
        piece: The last name of the table in which it stands.
        fields: Those that are known there.
    """
    found = [entry for entry in table("near_words") if word in entry["words"].split(";")]
    found = [entry for entry in found if not entry["field"] or entry["field"] in fields]
    own = [entry for entry in found if piece in entry["pieces"].split()]
    return next(iter([*own, *(entry for entry in found if entry["pieces"] == ANY)]), None)


def _field(word: str, piece: str, fields: Sequence[str]) -> str:
    """Return the field that a word means, itself or by the table, or ''."""
    if word in fields:
        return word
    entry = row_for(word, piece, fields)
    return entry["field"] if entry else ""


def _without_unit(word: str) -> tuple[str, str]:
    """Return a word without the unit behind it, and that unit; '' where none is.

    >>> _without_unit("length_mm"), _without_unit("mass(g)"), _without_unit("x_aft")
    (('length', 'mm'), ('mass', 'g'), ('x_aft', ''))
    """
    found = re.fullmatch(r"(\w+?)_?(?:\((\w+)\)|\[(\w+)\]|_([^\W_]+))", word)
    if not found:
        return word, ""
    unit = found[2] or found[3] or found[4]
    is_unit = any(candidates(unit, kind) for kind in kinds())
    return (found[1], unit) if is_unit else (word, "")


def _is_number(value: object) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool)
