"""Writes the ledger as a list that spreadsheets read, and that reads back with the same masses.

A text that begins with = + - or @ would run as a formula when the list is opened; it is written
behind an apostrophe, which reading takes off again.
"""

import io
import re

from trimdive.boatfile import Units
from trimdive.errors import ListError
from trimdive.hydrostatics.weights import Entry, Ledger
from trimdive.units import number_in
from trimdive.weightlists.numbers import two_ways

RISKY = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")  # noqa: RUF001
PARTED = re.compile(r"([,;\t|][\s\"]*)('*)(?=[=+\-@＝＋－＠])")  # noqa: RUF001
GUARDED = re.compile(r"([,;\t|][\s\"]*)'('*)(?=[=+\-@＝＋－＠])")  # noqa: RUF001
SPECIAL = re.compile(r"[,;\t|\"\r\n]|^\s|\s$")
FINEST = 9  # decimals of a metre or a kilogram; sums leave dust beyond them
FIGURES = 12  # figures of a number
COLUMNS = (  # heads, and kinds of quantity
    ("name", ""),
    ("kind", ""),
    ("mass", "mass"),
    ("±", "mass"),
    ("soaked", "mass"),
    ("aboard", ""),
    ("known", ""),
    ("x from stern", "length"),
    ("y to port", "length"),
    ("z", "length"),
    ("inside", ""),
)

Value = str | float
Table = tuple[tuple[Value, ...], ...]


def guarded(text: str) -> str:
    """Return a text that no spreadsheet takes for a formula, whatever it parts the cells by.

    >>> guarded("=1+1"), guarded("rods"), guarded("rods; =1+1")
    ("'=1+1", 'rods', "rods; '=1+1")
    """
    text = PARTED.sub(r"\1'\2", text)
    return f"'{text}" if text.lstrip("' ").startswith(RISKY) else text


def unguarded(text: str) -> str:
    """Return the text that was guarded.

    >>> unguarded("'=1+1"), unguarded("rods; '=1+1")
    ('=1+1', 'rods; =1+1')
    """
    is_guarded = text.startswith("'") and text.lstrip("' ").startswith(RISKY)
    return GUARDED.sub(r"\1\2", text[1:] if is_guarded else text)


def table_of(masses: Ledger, units: Units) -> Table:
    """Return the ledger as heads, rows and a total, in the boat's own units.

    The mass is as on the scale, dry; what it weighs soaked, and what is still to come, have their
    own columns where there is any of it.
    """
    entries = masses.entries
    left_out = {
        *([] if any(entry.mass != entry.dry for entry in entries) else ["soaked"]),
        *([] if any(not entry.aboard for entry in entries) else ["aboard"]),
    }
    kept = [(head, kind) for head, kind in COLUMNS if head not in left_out]
    heads = tuple(f"{head} [{units.shown(kind)}]" if kind else head for head, kind in kept)
    rows = [_row(entry) for entry in entries]
    x, y, z = (float(c) for c in masses.gravity)
    rows.append({"name": "total", "mass": masses.dry, "±": masses.spread, "soaked": masses.mass})
    rows[-1] |= {"x from stern": x, "y to port": y, "z": z}
    return (heads, *(tuple(_cell(row.get(h, ""), k, units) for h, k in kept) for row in rows))


def _row(entry: Entry) -> dict[str, Value]:
    """Return one row by its heads [SI]."""
    x, y, z = (float(c) for c in entry.place)
    return {
        "name": entry.name,
        "kind": entry.kind,
        "mass": entry.dry,
        "±": entry.spread,
        "soaked": entry.mass,
        "aboard": "yes" if entry.aboard else "no",
        "known": entry.known,
        "x from stern": x,
        "y to port": y,
        "z": z,
        "inside": entry.inside,
    }


def _cell(value: Value, kind: str, units: Units) -> Value:
    """Return a cell: text as it is, a figure in the boat's own unit."""
    return value if isinstance(value, str) else _number(value, kind, units)


def _number(value: float, kind: str, units: Units) -> float:
    """Return a value in the boat's own unit, without what floating point leaves behind."""
    number = number_in(round(value, FINEST), kind, units.shown(kind))
    return float(f"{number:.{FIGURES}g}") + 0.0


def csv_of(table: Table, *, decimal_comma: bool = False) -> bytes:
    """Return a table as CSV in UTF-8: commas and points, or semicolons and decimal commas.

    What holds the sign of either kind stands in quotes, so that it stays one cell in both.
    """
    sign = ";" if decimal_comma else ","
    rows = (
        sign.join(_quoted(_typed(value, decimal_comma=decimal_comma)) for value in row)
        for row in table
    )
    text = "".join(f"{row}\r\n" for row in rows)
    return text.encode("utf-8-sig")  # with the mark by which spreadsheets tell UTF-8


def _quoted(cell: str) -> str:
    """Return a cell as CSV has it.

    >>> _quoted("rods"), _quoted("rods; bars"), _quoted("12,5"), _quoted('2" bar')
    ('rods', '"rods; bars"', '"12,5"', '"2"" bar"')
    """
    return '"' + cell.replace('"', '""') + '"' if SPECIAL.search(cell) else cell


def _typed(value: Value, *, decimal_comma: bool) -> str:
    """Return a cell as text; a number never runs as a formula, nor may it part thousands."""
    if isinstance(value, str):
        return guarded(value)
    text = (
        f"{value:.{FIGURES}g}"
        if abs(value) < 1e-4
        else f"{value:.{FIGURES}f}".rstrip("0").rstrip(".")
    )
    text += "0" if two_ways(text.lstrip("-")) else ""  # 671.875 becomes 671.8750
    return text.replace(".", ",") if decimal_comma else text


def xlsx_of(table: Table, title: str = "weights") -> bytes:
    """Return a table as a workbook; every text is stored as text."""
    from openpyxl import Workbook
    from openpyxl.styles import Font

    book = Workbook()
    sheet = book.worksheets[0]
    sheet.title = title
    for row, values in enumerate(table, 1):
        for column, value in enumerate(values, 1):
            cell = sheet.cell(row, column, guarded(value) if isinstance(value, str) else value)
            if isinstance(value, str):
                cell.data_type = "s"
            if row in (1, len(table)):
                cell.font = Font(bold=True)
    sheet.freeze_panes = "B2"
    widest = [max(len(str(row[k])) for row in table) for k in range(len(table[0]))]
    for k, width in enumerate(widest):
        sheet.column_dimensions[chr(65 + k)].width = min(width + 2, 40)
    data = io.BytesIO()
    book.save(data)
    return data.getvalue()


def written(masses: Ledger, units: Units, suffix: str, *, decimal_comma: bool = False) -> bytes:
    """Return the ledger as the contents of a file.

    Args:
        masses: All masses aboard.
        units: The boat's own units.
        suffix: ".csv" or ".xlsx".
        decimal_comma: Write decimals with a comma, in CSV.

    Raises:
        ListError: The name ends otherwise.
    """
    table = table_of(masses, units)
    if suffix == ".xlsx":
        return xlsx_of(table)
    if suffix == ".csv":
        return csv_of(table, decimal_comma=decimal_comma)
    mend = "Write FILE.csv or FILE.xlsx."
    raise ListError(f"no list is written as '{suffix}'", "file", mend)
