"""What was done to her by typing into one field, in a few words, for "Done" and "Undo"."""

from typing import cast

from trimdive.boatfile.ref import ref
from trimdive.page.typed_fields import Contents, contents


def done(text: str, field: str, typed: str) -> str:
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
    """
    at = ref(field)
    name, listed = at.table, contents(text).get(at.table)
    if isinstance(listed, list) and at.number:
        piece = cast("Contents", listed[at.order])
        name = f"{piece.get('name') or f'{at.table} {at.number}'}"
    key = (at.field or at.table).replace("_", " ")
    said = f"{key} {typed or 'left out'}"
    return f"{name.replace('_', ' ')}: {said}" if at.field else said
