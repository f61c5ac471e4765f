"""Has a sheet set: a template of this folder and the words that stand in it become a tagged PDF."""

import json
import re
import struct
from collections.abc import Mapping
from functools import cache
from importlib.resources import as_file, files
from typing import cast

FONT = "fonts/DejaVuSans.ttf"
SEGMENTS = 12  # kind of a font's table of characters that holds runs of them
INSTEAD = "□"  # of a sign that the font does not have


def compiled(template: str, data: Mapping[str, object], **more: str) -> bytes:
    """Return a sheet as a tagged PDF; signs that its font does not have become small boxes.

    Args:
        template: Name of a file in this folder.
        data: Its words.
        more: Further inputs of the template, such as a drawing as SVG.
    """
    import typst  # slow to load, and only used here

    drawn = {key: printable(text) for key, text in more.items()}
    with as_file(files(__name__.rpartition(".")[0])) as folder:
        return typst.compile(
            str(folder / template),
            root=str(folder),
            font_paths=[str(folder / "fonts")],
            ignore_system_fonts=True,
            sys_inputs={"data": json.dumps(_printed(data)), **drawn},
            pdf_standards=["ua-1"],
        )


def _printed(value: object) -> object:
    """Return words within lists and tables as they can be printed."""
    if isinstance(value, str):
        return printable(value)
    if isinstance(value, Mapping):
        return {key: _printed(one) for key, one in cast("Mapping[str, object]", value).items()}
    if isinstance(value, list | tuple):
        return [_printed(one) for one in cast("list[object]", value)]
    return value


def printable(text: str) -> str:
    """Return a text with a box in place of every sign that cannot be printed.

    >>> printable("Möwe 2"), printable("潜水 boat")
    ('Möwe 2', '□□ boat')
    """
    return _unknown().sub(INSTEAD, text)


@cache
def _unknown() -> re.Pattern[str]:
    """Return what finds the signs that the font does not have."""
    runs = "".join(rf"\U{first:08x}-\U{last:08x}" for first, last in _characters())
    return re.compile(rf"[^\n\t{runs}]")


def _characters() -> list[tuple[int, int]]:
    """Return the runs of characters that the font has, first and last.

    Source:
        ISO/IEC 14496-22, Open Font Format, table ``cmap``, format 12.
    """
    data = files(__name__.rpartition(".")[0]).joinpath(FONT).read_bytes()
    (count,) = struct.unpack_from(">H", data, 4)
    places = {
        data[at : at + 4]: struct.unpack_from(">I", data, at + 8)[0]
        for at in range(12, 12 + 16 * count, 16)
    }
    start = places[b"cmap"]
    (count,) = struct.unpack_from(">H", data, start + 2)
    for number in range(count):
        (offset,) = struct.unpack_from(">I", data, start + 4 + 8 * number + 4)
        at = start + offset
        if struct.unpack_from(">H", data, at)[0] == SEGMENTS:
            (groups,) = struct.unpack_from(">I", data, at + 12)
            found = struct.iter_unpack(">III", data[at + 16 : at + 16 + 12 * groups])
            return [(max(first, 0x20), last) for first, last, _ in found if last >= 0x20]
    raise AssertionError(f"{FONT} has no table of characters of format {SEGMENTS}")
