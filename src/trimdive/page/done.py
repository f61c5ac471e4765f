"""What was done to her by typing into one field, in a few words, for "Done" and "Undo"."""

import re

from trimdive.page.typed_fields import contents

PIECE = re.compile(r"([a-z_]+)\[([0-9]+)\]\.(.+)")


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
    if found := PIECE.fullmatch(field):
        kind, number, key = found.groups()
        listed = contents(text).get(kind)
        piece = listed[int(number) - 1] if isinstance(listed, list) else {}
        name = f"{piece.get('name') or f'{kind} {number}'}"
    else:
        name, _, key = field.rpartition(".")
    said = f"{key.replace('_', ' ')} {typed or 'left out'}"
    return f"{name.replace('_', ' ')}: {said}" if name else said
