"""Reads a list kept as text: which letters, which sign between the cells, which quotes."""

import csv
import io
from collections import Counter
from typing import TYPE_CHECKING

from trimdive.errors import ListError
from trimdive.fact import fact
from trimdive.weightlists.export import unguarded
from trimdive.weightlists.sheet import MOST_COLUMNS, MOST_ROWS, Cell, Line, Sheet, plain
from trimdive.weightlists.words import head_score

if TYPE_CHECKING:
    from _csv import Reader as CsvReader

SEPARATORS = (";", "\t", "|", ",")
SAMPLE = 60  # lines by which the separator is told
LONGEST = 2000  # letters in a cell; more is a quote that was never closed
BOMS = {
    b"\xff\xfe\x00\x00": "utf-32",
    b"\x00\x00\xfe\xff": "utf-32",
    b"\xef\xbb\xbf": "utf-8-sig",
    b"\xff\xfe": "utf-16",
    b"\xfe\xff": "utf-16",
}


def sheet_of_text(data: bytes, name: str) -> Sheet:
    """Return the rows in a text.

    Raises:
        ListError: It is no text, holds nothing or too much, or a quote stays open.
    """
    text, letters = decoded(data, name)
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    if not text.strip():
        raise ListError("it is empty", name, "Save the list again.")
    separator, skipped = _separator(text)
    lines = _lines(text, separator, name, skipped)
    if len(lines) > MOST_ROWS:
        what = f"it has more than {MOST_ROWS} rows"
        raise ListError(what, name, "Save only the weight list, without the rest of the workbook.")
    how = fact("text-read", letters=letters, separator=separator, by_first_line=bool(skipped))
    return Sheet(name=name, lines=lines, how=(how,), separator=separator)


def decoded(data: bytes, name: str) -> tuple[str, str]:
    """Return the text of a file, and the name of its letters.

    Raises:
        ListError: It is no text.
    """
    of_another_kind = _binary(data, name)
    if of_another_kind:
        raise of_another_kind
    coding = next((coding for bom, coding in BOMS.items() if data.startswith(bom)), "")
    coding = coding or _wide(data) or "utf-8"
    try:
        text = data.decode(coding)
    except UnicodeDecodeError:
        if coding != "utf-8":
            what = "it ends in the middle of a letter"
            raise ListError(what, name, "Save the list again, as UTF-8.") from None
        coding, text = _western(data)
    if "\0" in text:
        raise _not_text("it is no text", name)
    shown = {"utf-8-sig": "UTF-8", "cp1252": "Windows Latin-1", "latin-1": "Latin-1"}
    return text, shown.get(coding, coding.upper().removesuffix("-LE").removesuffix("-BE"))


def _binary(data: bytes, name: str) -> ListError | None:
    """Return the error for a file that by its first bytes is no text, or None."""
    kinds = {
        b"%PDF": "a PDF",
        b"\x89PNG": "a picture",
        b"\xff\xd8\xff": "a picture",
        b"GIF8": "a picture",
        b"\xd0\xcf\x11\xe0": "a workbook of the old kind",
        b"{\\rtf": "a letter",
        b"\x1f\x8b": "packed",
    }
    found = next((kind for start, kind in kinds.items() if data.startswith(start)), "")
    return _not_text(f"it is {found}, not a list", name) if found else None


def _not_text(what: str, name: str) -> ListError:
    """Return the error for what a spreadsheet can save as a list."""
    return ListError(what, name, "Save it from the spreadsheet as .csv or .xlsx.")


def _wide(data: bytes) -> str:
    """Return the name of two-byte letters without a mark at their start, or nothing."""
    sample = data[:400]
    if len(data) % 2 or len(sample) < 4:
        return ""
    half = len(sample) // 2
    if sample[1::2].count(0) > 0.7 * half and sample[::2].count(0) == 0:
        return "utf-16-le"
    if sample[::2].count(0) > 0.7 * half and sample[1::2].count(0) == 0:
        return "utf-16-be"
    return ""


def _western(data: bytes) -> tuple[str, str]:
    """Return text in one-byte letters of western Europe."""
    try:
        return "cp1252", data.decode("cp1252")
    except UnicodeDecodeError:
        return "latin-1", data.decode("latin-1")


def _separator(text: str) -> tuple[str, int]:
    """Return the sign between cells, and how many first lines do nothing but tell it."""
    first, _, _ = text.partition("\n")
    if first.strip().strip('"').lower().startswith("sep=") and len(first.strip().strip('"')) == 5:
        return first.strip().strip('"')[4], 1
    if first.strip("\n").lower().startswith("sep=\t"):
        return "\t", 1
    sample = "\n".join(text.split("\n")[:SAMPLE])
    return max(SEPARATORS, key=lambda sign: _fit(sample, sign)), 0


def _fit(sample: str, separator: str) -> tuple[int, float]:
    """Return how well a sign parts the lines: words of heads understood, then like rows."""
    try:
        rows = [row for row in _reader(sample, separator) if any(cell.strip() for cell in row)]
    except csv.Error:
        return 0, 0.0
    heads = max((head_score(row) for row in rows), default=0)
    widths = Counter(len(row) for row in rows if len(row) > 1)
    return heads, max((count for count in widths.values()), default=0) / max(len(rows), 1)


def _reader(text: str, separator: str) -> "CsvReader":
    """Return a reader of the rows in a text."""
    return csv.reader(io.StringIO(text, newline=""), delimiter=separator, skipinitialspace=True)


def _lines(text: str, separator: str, name: str, skipped: int) -> tuple[Line, ...]:
    """Return the rows, numbered by the line on which each begins.

    Raises:
        ListError: A quote stays open, or a row is too wide.
    """
    reader = _reader(text, separator)
    found: list[Line] = []
    before = 0
    try:
        for row in reader:
            number, before = before + 1, reader.line_num
            if number <= skipped:
                continue
            if any(len(cell) > LONGEST for cell in row):
                what = f"a cell has more than {LONGEST} letters; a quote was opened and not closed?"
                raise ListError(what, f"{name}:{number}", "Close the quote, or take it out.")
            if len(row) > MOST_COLUMNS:
                what = f"the row has {len(row)} cells"
                raise ListError(what, f"{name}:{number}", f"Keep it to {MOST_COLUMNS}.")
            cells = tuple(Cell(text=unguarded(plain(cell))) for cell in row)
            found.append(Line(number=number, cells=cells))
            if len(found) > MOST_ROWS:
                break
    except csv.Error:
        what = "a cell is too long; a quote was opened and not closed?"
        raise ListError(what, f"{name}:{before + 1}", "Close the quote, or take it out.") from None
    return tuple(found)
