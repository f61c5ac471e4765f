"""What a form of the page held."""

from collections.abc import Mapping

Typed = Mapping[str, str]  # what was typed, by the names of its fields


def field_of(typed: Typed, name: str) -> str:
    """Return what was typed into a field; "" where it is not there.

    >>> field_of({"depth": " 2 m "}, "depth"), field_of({}, "depth")
    ('2 m', '')
    """
    return typed.get(name, "").strip()


def number_in(text: str) -> int:
    """Return the number that a button or a choice sends; 0 where it is none.

    >>> number_in("12"), number_in("-1"), number_in("12345678")
    (12, 0, 0)
    """
    return int(text) if text.isdecimal() and len(text) < 7 else 0
