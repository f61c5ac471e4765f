"""From the bytes of a file to a weight list understood: nothing in it is dropped unsaid."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from pathlib import Path

from trimdive.errors import ListError, UnitError
from trimdive.fact import fact
from trimdive.units import read
from trimdive.weightlists import heads
from trimdive.weightlists.alike import SAID
from trimdive.weightlists.asks import list_asks, missing
from trimdive.weightlists.blocks import other_heads, without_side_tables
from trimdive.weightlists.dates import refuse_dates
from trimdive.weightlists.fields import material_key
from trimdive.weightlists.numbers import fine_in, marks
from trimdive.weightlists.pieces import without_running
from trimdive.weightlists.records import Answers, ListPreview, RowRead, SumRead
from trimdive.weightlists.rows import Read, Reader, read_row
from trimdive.weightlists.sheet import LARGEST, Line, Sheet
from trimdive.weightlists.subtotals import without_sums
from trimdive.weightlists.sums import stated_sums
from trimdive.weightlists.text import sheet_of_text
from trimdive.weightlists.twoways import settled
from trimdive.weightlists.words import FIGURES, unit_name
from trimdive.weightlists.workbook import PACKED, sheet_of_workbook

KNOWN = ("guess", "worked out", "catalogue", "weighed")
FILL_DOWN = ("group", "material", "known", "inside", "from")
UNSAID = Answers()
NOTHING: Mapping[str, float] = {}


def read_list(
    path: Path, answers: Answers = UNSAID, present: Mapping[str, float] = NOTHING
) -> ListPreview:
    """Return the weight list in a file as it was understood.

    Args:
        path: The file.
        answers: What the builder says beyond what stands in it.
        present: Masses of pieces aboard, by name in small letters [kg].

    Raises:
        ListError: There is no such file, it is too large, or it holds no weight list.
    """
    try:
        if path.is_dir():
            raise ListError("it is a folder", str(path), "Name the list in it.")
        if path.stat().st_size > LARGEST:
            what = f"it is {path.stat().st_size / 2**20:.0f} MB"
            raise ListError(what, str(path), "Save only the weight list, at most 16 MB.")
        data = path.read_bytes()
    except FileNotFoundError:
        raise ListError("there is no such file", str(path), "Check its name and folder.") from None
    except OSError as error:
        reason = (error.strerror or "it cannot be read").lower()
        raise ListError(reason, str(path), "Check that you may read it.") from None
    except ValueError:
        raise ListError("there is no such file", repr(str(path)), "Name a file.") from None
    return understood(data, path.name, answers, present)


def understood(
    data: bytes, name: str, answers: Answers = UNSAID, present: Mapping[str, float] = NOTHING
) -> ListPreview:
    """Return a weight list as it was understood.

    Args:
        data: Contents of the file, CSV or XLSX.
        name: What to call it.
        answers: What the builder says beyond what stands in it.
        present: Masses of pieces aboard, by name in small letters; they decide where a figure
            such as "1,240" may be read in two ways [kg].

    Raises:
        ListError: It holds no weight list, or an answer is none.
    """
    if len(data) > LARGEST:
        what = f"it is {len(data) / 2**20:.0f} MB"
        raise ListError(what, name, "Save only the weight list, at most 16 MB.")
    _see(answers, name)
    sheet = (
        sheet_of_workbook(data, name, answers.sheet)
        if data.startswith(PACKED)
        else sheet_of_text(data, name)
    )
    return _preview(sheet, answers, present)


def _see(answers: Answers, name: str) -> None:
    """Refuse an answer that is none.

    Raises:
        ListError: There is such a one.
    """
    for kind, unit in (("mass", answers.mass_unit), ("length", answers.length_unit)):
        if unit and not unit_name(unit, kind):
            raise ListError(f"'{unit}' is no unit of {kind}", name, "Write g, kg, mm, in, ...")
    if answers.mass_of not in ("", "each", "all"):
        raise ListError(f"'{answers.mass_of}' is no answer", name, "Write each or all.")
    if answers.same not in ("", *SAID):
        raise ListError(f"'{answers.same}' is no answer", name, "Write yes or no.")
    if answers.known and answers.known not in KNOWN:
        what = f"a mass is not known by '{answers.known}'"
        raise ListError(what, name, f"Write one of: {', '.join(KNOWN)}.")
    if answers.material and not material_key(answers.material):
        what = f"there is no material '{answers.material}'"
        raise ListError(what, name, "Write one of the table of materials, such as ABS or brass.")
    lengths = (answers.x, answers.z, answers.measured_from)
    for text in lengths:
        if text and text not in ("bow", "stern"):
            try:
                read(text, "length", answers.length_unit or None)
            except UnitError as error:
                raise ListError(error.what, name, error.mend) from None


def _preview(sheet: Sheet, answers: Answers, present: Mapping[str, float]) -> ListPreview:
    """Return the list on a sheet as it was understood."""
    top = heads.head_line(sheet)
    sheet = without_side_tables(sheet, top)
    first, titles = _titles(sheet, top)
    body = sheet.lines[first:]
    columns = heads.columns_of(sheet, titles, body)
    refuse_dates(sheet.name, columns, body)
    figured = [c.index for c in columns if c.use in (*FIGURES, "quantity")]
    how = marks((line.cell(k) for line in body for k in figured), sheet.separator)
    above = heads.entered_above(sheet.lines[: max(top, 0)])
    columns, unsaid = heads.with_units(columns, body, above, answers, how)
    columns = without_running(columns, body, how)
    texts = tuple(sheet.lines[top].cell(k).text if top >= 0 else "" for k in range(len(titles)))
    figures = [(c, FIGURES[c.use]) for c in columns if c.use in FIGURES]
    cells = [(line.cell(c.index), kind, c.unit) for line in body for c, kind in figures]
    how = replace(how, fine=fine_in(cells, how.decimal))
    reader = Reader(columns=tuple(columns), heads=texts, how=how, answers=answers, mass_of="all")
    lines = _filled_down(reader, body)
    decided = settled(reader, lines, lambda one: _of_pieces(one, lines)[1], present)
    reader, reads, is_doubtful = _of_pieces(replace(reader, how=decided.how), lines)
    items = tuple(item for one in reads for item in one.items)
    asks = [
        *list_asks(columns, unsaid, is_doubtful),
        *missing(items, answers),
    ]
    return ListPreview(
        name=sheet.name,
        how=(*sheet.how, *([how.note] if how.note else []), *decided.notes),
        columns=reader.columns,
        rows=(*_before(sheet.lines[:first], top), *(one.row for one in reads)),
        items=items,
        sums=stated_sums(reads),
        asks=tuple(asks),
        answers=answers,
        mass_unit=heads.usual_unit(columns, "mass", "g"),
        length_unit=heads.usual_unit(columns, "length", "mm"),
    )


def _titles(sheet: Sheet, top: int) -> tuple[int, list[tuple[str, heads.Head]]]:
    """Return the index of the first line below the heads, and the head of each column.

    Raises:
        ListError: There are none, and the cells do not tell.
    """
    if top < 0:
        return 0, heads.bare_heads(sheet)
    below = sheet.lines[top + 1] if len(sheet.lines) > top + 1 else None
    below = below if below is not None and heads.second_head(below) else None
    width = max(len(sheet.lines[top].cells), len(below.cells) if below else 0)
    first = top + 1 + (below is not None)
    return first, heads.joined_heads(sheet.lines[top], below, width)


def _before(lines: Sequence[Line], top: int) -> list[RowRead]:
    """Return the rows down to the heads."""
    found: list[RowRead] = []
    for k, line in enumerate(lines):
        use = "heads" if k >= top else "note" if line.filled else "blank"
        why = fact("row-above-heads") if use == "note" else None
        found.append(RowRead(number=line.number, use=use, why=why, text=line.text))  # type: ignore[arg-type]
    return found


def _filled_down(reader: Reader, body: Sequence[Line]) -> list[Line]:
    """Return the lines with cells merged downwards filled where they hold words.

    A group that stands only on the first of its rows is filled down as well.
    """
    lines = list(body)
    for column in reader.columns:
        if column.use not in FILL_DOWN:
            continue
        above = None
        for k, line in enumerate(lines):
            cell = line.cell(column.index)
            if not cell.is_blank:
                above = cell
            elif above is not None and cell.merged_with:
                cells = list(line.cells)
                cells[column.index] = replace(above, merged_with=cell.merged_with)
                lines[k] = replace(line, cells=tuple(cells))
    return lines


def _of_pieces(reader: Reader, lines: list[Line]) -> tuple[Reader, list[Read], bool]:
    """Return how masses count where there are several pieces, by the list's own sums.

    Returns:
        The reader, the rows as read by it, and whether it remains doubtful.
    """
    masses = {column.use for column in reader.columns}
    said = reader.answers.mass_of
    each, whole = replace(reader, mass_of="each"), replace(reader, mass_of="all")
    if said:
        chosen = each if said == "each" else whole
        return chosen, _read_rows(chosen, lines), False
    by_all = _read_rows(whole, lines)
    has_pieces = any(item.quantity > 1 for one in by_all for item in one.items)
    if "mass" not in masses or "mass_all" in masses or not has_pieces:
        return whole, by_all, False
    by_each = _read_rows(each, lines)
    right_all, right_each = (_agreeing(stated_sums(reads)) for reads in (by_all, by_each))
    if right_each > right_all:
        return _counted(each, each=True), by_each, False
    if right_all > right_each:
        return _counted(whole, each=False), by_all, False
    return whole, by_all, True


def _counted(reader: Reader, *, each: bool) -> Reader:
    """Return the reader whose masses are noted as those of one piece, or of all."""
    columns = tuple(
        replace(c, why=fact("column-counted", column=c.why, each=each)) if c.use == "mass" else c
        for c in reader.columns
    )
    return replace(reader, columns=columns)


def _read_rows(reader: Reader, lines: Sequence[Line]) -> list[Read]:
    """Return every row as it was understood."""
    last = other_heads(lines, reader.heads)
    own = lines if last < 0 else lines[:last]
    reads = without_sums(_grouped([read_row(reader, line) for line in own]))
    return [*reads, *(_below(reader, line, lines[last]) for line in lines[len(own) :])]


def _below(reader: Reader, line: Line, heads_again: Line) -> Read:
    """Return a row below other heads, which are not read as part of this list."""
    read = read_row(reader, line)
    if line.number == heads_again.number or not line.filled:
        use = "heads" if line.filled else "blank"
        return Read(row=replace(read.row, use=use, why=fact("row-of-other-heads")))
    why = fact("row-below-other-heads", heads=heads_again.number)
    return Read(row=replace(read.row, use="not understood", why=why))


def _grouped(reads: Sequence[Read]) -> list[Read]:
    """Return the rows with each part in the group whose heading stands above it."""
    group = ""
    found: list[Read] = []
    for one in reads:
        if one.row.use in ("heading", "total", "subtotal"):
            group = one.row.text if one.row.use == "heading" else ""
        if group and one.items and not one.items[0].words.get("group"):
            item = replace(one.items[0], words={**one.items[0].words, "group": group})
            found.append(replace(one, items=(item,)))
        else:
            found.append(one)
    return found


def _agreeing(sums: Sequence[SumRead]) -> int:
    """Return how many stated sums add up."""
    return sum(one.agrees for one in sums)
