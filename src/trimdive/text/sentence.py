"""Texts as sentences: their capital letter, and their full stop."""

import re

from trimdive.errors import TrimdiveError


def capital(text: str) -> str:
    """Return a text with a capital letter at its head.

    >>> capital("the tanks lack 69 cm³")
    'The tanks lack 69 cm³'
    """
    return f"{text[:1].upper()}{text[1:]}"


def sentence(text: str) -> str:
    """Return a text as a sentence; a file's or a part's own name keeps its letters.

    >>> sentence("she leans"), sentence("lines.csv:9: 59.8?")
    ('She leans.', 'lines.csv:9: 59.8?')
    """
    first = text.split(" ")[0].rstrip(",:;")
    text = capital(text) if first.isalpha() else text
    return text if text.endswith((".", "?", "!")) else f"{text}."


def beside_field(error: TrimdiveError) -> str:
    """Return an error as one sentence, without where it is: it stands beside its field.

    >>> beside_field(TrimdiveError("she is too broad", "breadth", "Look at the unit."))
    'She is too broad. Look at the unit.'
    """
    return f"{sentence(error.what)} {error.mend}"


def several(typed: str) -> list[str]:
    """Return what was typed one after another, with commas or semicolons; 3,5 is one figure.

    >>> several("cold pond, sea"), several("300 mm; 7,5 in, ")
    (['cold pond', 'sea'], ['300 mm', '7,5 in'])
    """
    return [one.strip() for one in re.split(r"[,;](?!\d)", typed) if one.strip()]
