"""What a form of the page held."""

from collections.abc import Mapping

Typed = Mapping[str, str]  # what was typed, by the names of its fields


def field_of(typed: Typed, name: str) -> str:
    """Return what was typed into a field; "" where it is not there.

    >>> field_of({"depth": " 2 m "}, "depth"), field_of({}, "depth")
    ('2 m', '')
    """
    return typed.get(name, "").strip()
