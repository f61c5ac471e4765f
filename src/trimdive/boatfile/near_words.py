"""What field is meant by a key that is not known: words of the trade first, then the spelling.

"weight" is nearer to "height" by its letters, and means "mass"; so the table of near words is asked
before the letters are compared. A unit behind a key, as in mass_g, is no part of the word.
"""

import difflib
import re
from collections.abc import Sequence

from trimdive.data import Row, table
from trimdive.units.table import candidates, kinds

ANY = "any"  # in the table: every piece that has the field
TOP = "boat"  # in the table: the top of the file
SPELLING = 0.6  # likeness of letters from which a key counts as misspelt [-]


def meant(key: str, piece: str, fields: Sequence[str], value: object = None) -> str:
    """Return in a sentence or two which field is meant by a key that is not known.

    Args:
        key: As typed.
        piece: The last name of the table in which it stands; "boat" at the top of the file.
        fields: Those that are known there.
        value: What was typed behind it.

    >>> meant("weight", "part", ("mass", "height"))
    "Did you mean 'mass'?"
    >>> meant("mass_g", "part", ("mass", "height"), 190).split("? ")[1]
    'Write the unit with the figure: mass = "190 g".'
    """
    word = folded(key)
    if said := _by_word(word, piece, fields):
        return said
    stem, unit = _without_unit(word)
    if unit and (field := _field(stem, piece, fields)):
        figure = f"{value} {unit}" if _is_number(value) else f"… {unit}"
        return f"Did you mean '{field}'? Write the unit with the figure: {field} = \"{figure}\"."
    near = difflib.get_close_matches(word, fields, n=1, cutoff=SPELLING)
    return f"Did you mean '{near[0]}'?" if near else f"Known here: {', '.join(fields)}."


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


def _by_word(word: str, piece: str, fields: Sequence[str]) -> str:
    """Return what the table of near words says, or ''."""
    if word in fields:
        return f"Write it as '{word}'."
    entry = row_for(word, piece, fields)
    if entry is None:
        return ""
    asked = f"Did you mean '{entry['field']}'?" if entry["field"] else ""
    return " ".join(filter(None, [asked, entry["mend"]]))


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
