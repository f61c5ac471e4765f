"""What was done to her by typing into one field, in a few words, for "Done" and "Undo"."""

from collections.abc import Iterator
from typing import cast

from trimdive.boatfile.ref import Ref, ref
from trimdive.page.typed_fields import Contents, contents


def done(text: str, field: str, typed: str, new: str = "") -> str:
    r"""Return what was typed into a field of a piece, by the piece's name.

    >>> done('[[part]]\nname = "battery"', "part[1].mass", "700 g")
    'battery: mass 700 g'
    >>> done('[[part]]\nname = "battery"', "part[1].z_bottom", "")
    'battery: z bottom left out'
    >>> done("", "waterline.height", "84 mm")
    'waterline: height 84 mm'

    Args:
        text: The boat file as it was.
        field: The field, such as "part[1].mass".
        typed: What was typed; "" where it was left out.
        new: The boat file as it is then: what went along with the field is told too.
    """
    at = ref(field)
    name, listed = at.table, contents(text).get(at.table)
    if isinstance(listed, list) and at.number:
        piece = cast("Contents", listed[at.order])
        name = f"{piece.get('name') or f'{at.table} {at.number}'}"
    key = (at.field or at.table).replace("_", " ")
    along = "".join(f", {name} {value}" for name, value in _along(text, new, at))
    said = f"{key} {typed or 'left out'}{along}"
    return f"{name.replace('_', ' ')}: {said}" if at.field else said


def _along(text: str, new: str, at: Ref) -> Iterator[tuple[str, object]]:
    """Yield the other fields of a piece that changed with one of them, as they stand now."""
    if not new:
        return
    was, now = (contents(one).get(at.table) for one in (text, new))
    if not (isinstance(was, list) and isinstance(now, list) and at.number):
        return
    before, after = cast("Contents", was[at.order]), cast("Contents", now[at.order])
    for name, value in after.items():
        if name != at.field and before.get(name) != value:
            yield name.replace("_", " "), value
