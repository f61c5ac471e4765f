"""Reads a list kept in a workbook (XLSX): values as last worked out, formulas, merged cells.

A workbook is a packed folder of XML. Before it is opened its true size is read from the folder's
own table, and entities are refused, so that a small file cannot fill the memory.
"""

import datetime
import io
import re
import warnings
import zipfile
from collections.abc import Iterator
from typing import TYPE_CHECKING

from trimdive.errors import ListError
from trimdive.fact import Fact, fact
from trimdive.weightlists.bounds import bounded
from trimdive.weightlists.export import unguarded
from trimdive.weightlists.sheet import (
    LARGEST,
    MOST_COLUMNS,
    MOST_ROWS,
    Cell,
    Line,
    Sheet,
    plain,
)
from trimdive.weightlists.words import head_score, unit_kind

if TYPE_CHECKING:
    from openpyxl.workbook import Workbook
    from openpyxl.worksheet.worksheet import Worksheet

PACKED = b"PK\x03\x04"
MOST_FILES = 2000  # in a workbook
FORBIDDEN = (b"<!DOCTYPE", b"<!ENTITY")
HEAD_ROWS = 30  # rows among which the heads are looked for
ESCAPED = re.compile(r"_x([0-9A-Fa-f]{4})_")  # a sign by its number, as workbooks keep some
SHOWN = re.compile(r'"([^"]+)"|\\?\s?(?:\\(\S))')


def sheet_of_workbook(data: bytes, name: str, wanted: str = "") -> Sheet:
    """Return the rows of one sheet: the one wanted, or the one that looks like a weight list.

    Raises:
        ListError: It is no workbook, is too large when unpacked, or has no such sheet.
    """
    _safe(data, name)
    data = bounded(data, name)
    values, formulas = _book(data, name, results=True), _book(data, name, results=False)
    titles = [sheet.title for sheet in values.worksheets]
    if wanted and wanted not in titles:
        what = f"there is no sheet '{wanted}'"
        raise ListError(what, name, f"Name one of: {', '.join(titles)}.")
    title = wanted or max(titles, key=lambda one: _score(values[one]))
    lines = tuple(_lines(values[title], formulas[title]))
    if not any(line.filled for line in lines):
        raise ListError(f"the sheet '{title}' is empty", name, "Name the sheet with the list.")
    how = [fact("sheet-read", sheet=title)]
    others = [one for one in titles if one != title]
    if others:
        how.append(fact("sheets-not-read", sheets=tuple(others)))
    how += _beyond(values[title])
    how += _hidden(values[title], len(lines))
    return Sheet(name=name, lines=lines, how=tuple(how))


def _safe(data: bytes, name: str) -> None:
    """Refuse what would not unpack, or would unpack to more than a list can be.

    Raises:
        ListError: It is so.
    """
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as folder:
            entries = folder.infolist()
            size = sum(entry.file_size for entry in entries)
            if size > LARGEST or len(entries) > MOST_FILES:
                what = f"unpacked it would be {size / 2**20:.0f} MB in {len(entries)} files"
                raise ListError(what, name, "Save only the sheet with the list, as .csv.")
            names = {entry.filename for entry in entries}
            if "xl/workbook.xml" not in names:
                kind = "a workbook of another kind" if "mimetype" in names else "no workbook"
                raise ListError(f"it is {kind}", name, "Save the list as .xlsx or .csv.")
            for entry in entries:
                plain = folder.read(entry).replace(b"\0", b"")
                if entry.filename.endswith((".xml", ".rels")) and any(
                    sign in plain for sign in FORBIDDEN
                ):
                    what = f"'{entry.filename}' in it holds entities, which no spreadsheet writes"
                    raise _damaged(what, name)
    except (zipfile.BadZipFile, OSError, RuntimeError, NotImplementedError, EOFError, ValueError):
        raise _damaged("the workbook is damaged or locked", name) from None
    except zipfile.zlib.error:  # type: ignore[attr-defined]
        raise _damaged("the workbook is damaged", name) from None


def _damaged(what: str, name: str) -> ListError:
    """Return the error for a workbook that the spreadsheet may save whole."""
    return ListError(what, name, "Save it again from the spreadsheet as .xlsx or .csv.")


def _book(data: bytes, name: str, *, results: bool) -> "Workbook":
    """Return the workbook, with results or with formulas.

    Raises:
        ListError: It cannot be read.
    """
    from openpyxl import load_workbook

    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # what a spreadsheet keeps beside its cells
            book = load_workbook(io.BytesIO(data), data_only=results, keep_links=False)
    except Exception:  # a damaged workbook fails in too many ways to name
        raise _damaged("the workbook is damaged", name) from None
    if not book.worksheets:
        raise _damaged("the workbook has no sheet of cells", name)
    return book


def _score(sheet: "Worksheet") -> int:
    """Return how much a sheet looks like a weight list."""
    most = min(sheet.max_column, MOST_COLUMNS)
    rows = sheet.iter_rows(max_row=HEAD_ROWS, max_col=most, values_only=True)
    texts = ([value for value in row if isinstance(value, str)] for row in rows)
    return max((head_score(row) for row in texts), default=0)


def _beyond(sheet: "Worksheet") -> Iterator[Fact]:
    """Yield what of the sheet was not read because it lies too far out."""
    if sheet.max_row > MOST_ROWS:
        yield fact("rows-not-read", first=MOST_ROWS + 1, last=sheet.max_row)
    if sheet.max_column > MOST_COLUMNS:
        yield fact("columns-not-read", first=MOST_COLUMNS + 1, last=sheet.max_column)


def _hidden(sheet: "Worksheet", rows: int) -> Iterator[Fact]:
    """Yield which rows and columns are hidden in the spreadsheet; they are read all the same."""
    dimensions = sheet.row_dimensions.items()
    hidden = sorted(k for k, one in dimensions if one.hidden and k <= rows)
    if hidden:
        yield fact("rows-hidden", rows=tuple(hidden))
    columns = [key for key, one in sheet.column_dimensions.items() if one.hidden]
    spans = [
        (sheet.column_dimensions[key].min, sheet.column_dimensions[key].max) for key in columns
    ]
    numbers = sorted(
        {k for low, high in spans for k in range(low or 1, min(high or 0, MOST_COLUMNS) + 1)}
    )
    if numbers:
        yield fact("columns-hidden", columns=tuple(k - 1 for k in numbers))


def _sign(found: re.Match[str]) -> str:
    """Return the sign that a workbook keeps by its number."""
    return chr(int(found[1], 16))


def _lines(values: "Worksheet", formulas: "Worksheet") -> Iterator[Line]:
    """Yield the rows down to the last that holds something."""
    merged = _lower_parts(values)
    rows, columns = _extent(formulas)
    for row in range(1, rows + 1):
        cells = [
            _cell(values, formulas, row, column, merged.get((row, column), 0))
            for column in range(1, columns + 1)
        ]
        while cells and cells[-1].is_blank and not cells[-1].merged_with:
            cells.pop()
        yield Line(number=row, cells=tuple(cells))


def _extent(sheet: "Worksheet") -> tuple[int, int]:
    """Return the last row and the last column, as far as they are read, that hold something."""
    rows = columns = 0
    most_rows, most_columns = min(sheet.max_row, MOST_ROWS), min(sheet.max_column, MOST_COLUMNS)
    cells = sheet.iter_rows(max_row=most_rows, max_col=most_columns, values_only=True)
    for number, row in enumerate(cells, 1):
        if any(value is not None for value in row):
            rows = number
            columns = max(columns, *(k for k, value in enumerate(row, 1) if value is not None))
    return rows, columns


def _lower_parts(sheet: "Worksheet") -> dict[tuple[int, int], int]:
    """Return the lower cells of cells merged downwards, each with the row of the first."""
    found: dict[tuple[int, int], int] = {}
    for area in sheet.merged_cells.ranges:
        if area.max_row > MOST_ROWS:
            continue
        for row in range(area.min_row + 1, area.max_row + 1):
            found[row, area.min_col] = area.min_row
    return found


def _cell(values: "Worksheet", formulas: "Worksheet", row: int, column: int, first: int) -> Cell:
    """Return one cell."""
    value, typed = values.cell(row, column), formulas.cell(row, column).value
    formula = typed if isinstance(typed, str) and typed.startswith("=") else ""
    held: object = value.value
    if formula and values.cell(row, column).data_type == "s" and held == typed:
        formula = ""  # text that only looks like a formula
    if formula and formulas.cell(row, column).data_type != "f":
        formula = ""
    if held is None:
        return Cell(formula=formula, merged_with=first)
    if isinstance(held, bool):
        return Cell(text="yes" if held else "no", formula=formula, merged_with=first)
    if isinstance(held, int | float):
        unit = _shown_unit(str(value.number_format))
        text = f"{held:.15g}"
        return Cell(text=text, is_number=True, unit=unit, formula=formula, merged_with=first)
    if isinstance(held, datetime.datetime | datetime.date | datetime.time):
        return Cell(text=f"date {held:%d %b %Y}", formula=formula, merged_with=first)
    text = unguarded(plain(ESCAPED.sub(_sign, str(held))))
    return Cell(text=text, formula=formula, merged_with=first)


def _shown_unit(number_format: str) -> str:
    """Return the unit that a number format writes behind the number, or nothing.

    >>> _shown_unit('0.0" g"'), _shown_unit("0.00")
    ('g', '')
    """
    shown = "".join(first or second for first, second in SHOWN.findall(number_format.split(";")[0]))
    return unit_kind(shown.strip())[1]
