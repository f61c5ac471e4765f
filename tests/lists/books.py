"""Workbooks made for tests, written by openpyxl or as bare XML with stored results."""

import io
import zipfile
from collections.abc import Iterable, Sequence

from openpyxl import Workbook

Value = str | float | int | None

TYPES = (
    '<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">'
    '<Default Extension="rels" '
    'ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
    '<Override PartName="/xl/workbook.xml" ContentType="application/vnd.openxmlformats-'
    'officedocument.spreadsheetml.sheet.main+xml"/><Override PartName="/xl/worksheets/sheet1.xml" '
    'ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/>'
    "</Types>"
)
RELATIONS = (
    '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">'
    '<Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/'
    'relationships/{kind}" Target="{target}"/></Relationships>'
)
MAIN = 'xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"'
BOOK = (
    f"<workbook {MAIN} xmlns:r="
    '"http://schemas.openxmlformats.org/officeDocument/2006/relationships">'
    '<sheets><sheet name="list" sheetId="1" r:id="rId1"/></sheets></workbook>'
)


def book_of(rows: Iterable[Sequence[Value]], *, merged: Sequence[str] = ()) -> bytes:
    """Return a workbook with one sheet."""
    book = Workbook()
    sheet = book.worksheets[0]
    for row in rows:
        sheet.append(list(row))
    for area in merged:
        sheet.merge_cells(area)
    return bytes_of(book)


def bytes_of(book: Workbook) -> bytes:
    data = io.BytesIO()
    book.save(data)
    return data.getvalue()


def stored_book(sheet_rows: str, *, extra: dict[str, bytes] | None = None) -> bytes:
    """Return a workbook whose rows are given as XML, so that formulas have stored results."""
    data = io.BytesIO()
    sheet = f"<worksheet {MAIN}><sheetData>{sheet_rows}</sheetData></worksheet>"
    with zipfile.ZipFile(data, "w", zipfile.ZIP_DEFLATED) as folder:
        folder.writestr("[Content_Types].xml", TYPES)
        folder.writestr(
            "_rels/.rels", RELATIONS.format(kind="officeDocument", target="xl/workbook.xml")
        )
        folder.writestr("xl/workbook.xml", BOOK)
        folder.writestr(
            "xl/_rels/workbook.xml.rels",
            RELATIONS.format(kind="worksheet", target="worksheets/sheet1.xml"),
        )
        folder.writestr("xl/worksheets/sheet1.xml", sheet)
        for name, held in (extra or {}).items():
            folder.writestr(name, held)
    return data.getvalue()


def xml_row(number: int, *cells: str | float | tuple[str, float | None]) -> str:
    """Return a row; a pair is a formula with its stored result."""
    texts: list[str] = []
    for k, cell in enumerate(cells):
        place = f"{chr(65 + k)}{number}"
        if isinstance(cell, tuple):
            result = "" if cell[1] is None else f"<v>{cell[1]}</v>"
            texts.append(f'<c r="{place}"><f>{cell[0]}</f>{result}</c>')
        elif isinstance(cell, str):
            texts.append(f'<c r="{place}" t="inlineStr"><is><t>{cell}</t></is></c>')
        else:
            texts.append(f'<c r="{place}"><v>{cell}</v></c>')
    return f'<row r="{number}">{"".join(texts)}</row>'
