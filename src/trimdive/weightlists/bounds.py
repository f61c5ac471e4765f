"""A workbook cut down to what a list can be, before any library makes cells of it.

A sheet may be coloured to its last row, or merged over all of it; read as it is, that would be
millions of cells. Cells that hold nothing are taken out of the file first, and areas merged beyond
what a list has are forgotten; what is left is counted.
"""

import io
import re
import zipfile

from trimdive.errors import ListError
from trimdive.weightlists.sheet import MOST_COLUMNS, MOST_ROWS

SHEETS = "xl/worksheets/"
EMPTY_CELL = re.compile(rb"<(?:x:)?c\b[^<>]*/>|<(?:x:)?c\b[^<>/]*>\s*</(?:x:)?c>")
EMPTY_ROW = re.compile(rb"<(?:x:)?row\b[^<>]*/>|<(?:x:)?row\b[^<>/]*>\s*</(?:x:)?row>")
HIDDEN = re.compile(rb"\bhidden=.(?:1|true)")
HELD = re.compile(rb"<(?:x:)?c\b")
MERGED = re.compile(
    rb"<(?:x:)?mergeCell\b[^<>]*ref=.([A-Z]{1,3})(\d{1,7}):([A-Z]{1,3})(\d{1,7}).[^<>]*/>"
)
MOST_MERGED = 2000  # areas of merged cells, on all sheets [-]
MOST_CELLS = 100_000  # that hold something, on all sheets [-]


def bounded(data: bytes, name: str) -> bytes:
    """Return a workbook without the cells that hold nothing and without endless merged areas.

    Raises:
        ListError: More cells are left than any list has.
    """
    held = merged = 0
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as old, zipfile.ZipFile(out, "w") as new:
        for entry in old.infolist():
            part = old.read(entry)
            if entry.filename.startswith(SHEETS) and entry.filename.endswith(".xml"):
                part = _sheet(part)
                held += len(HELD.findall(part))
                merged += len(MERGED.findall(part))
            new.writestr(entry.filename, part)
    if held > MOST_CELLS:
        what = f"{held:,} cells in it are filled".replace(",", " ")
        raise ListError(what, name, "Save only the sheet with the list, as .csv.")
    if merged > MOST_MERGED:
        what = f"{merged:,} areas in it are merged".replace(",", " ")
        raise ListError(what, name, "Save only the sheet with the list, as .csv.")
    return out.getvalue()


def _sheet(part: bytes) -> bytes:
    """Return the text of a sheet without what holds nothing."""
    part = EMPTY_CELL.sub(b"", part)
    part = EMPTY_ROW.sub(lambda row: row[0] if HIDDEN.search(row[0]) else b"", part)
    return MERGED.sub(lambda area: b"" if _is_endless(area) else area[0], part)


def _is_endless(area: re.Match[bytes]) -> bool:
    """Return whether an area of merged cells is more than a list has."""
    columns = _number(area[3]) - _number(area[1]) + 1
    rows = int(area[4]) - int(area[2]) + 1
    return columns > MOST_COLUMNS or rows > MOST_ROWS


def _number(letters: bytes) -> int:
    """Return the number of a column, from its letters."""
    number = 0
    for sign in letters:
        number = 26 * number + sign - 64
    return number
