"""Tells what each row of a list is: a part, a heading, a total, a note, blank, or not clear."""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from trimdive.errors import UnitError
from trimdive.fact import Fact, fact
from trimdive.weightlists.derived import derived, factor_in, is_sum
from trimdive.weightlists.fields import fields_of
from trimdive.weightlists.numbers import Figure, Marks, count, figure
from trimdive.weightlists.pieces import disagreement, makes, pieces_implied
from trimdive.weightlists.records import Answers, ColumnRead, Item, RowRead, Use
from trimdive.weightlists.sheet import Cell, Line, letter
from trimdive.weightlists.words import FIGURES, MASSES, meaning, unit_name

SUM_DOWN = re.compile(r"=\+?(?:SUM|SUBTOTAL|AGGREGATE)\(.*?\$?([A-Z]+)\$?\d+:\$?\1\$?\d+")
NO_LABEL = ("note", "material", "inside")  # a total is not named there
HAS_DIGIT = re.compile(r"\d")
TAIL = re.compile(r"\d[\d.,' ]*\s*[^\W\d]*\.?$")
SENTENCE = 60  # letters; a longer text is no heading
NOTHING = {"", "?", "-", "--", "–", "—", "...", "…", "x", "/"}
ZERO = {"", "0", "0.0", "0.00", "0.000", "0,0", "0,00", "0,000", "-", "–"}
NOTE_SIGNS = ("*", "#", "!", "→", "(")


@dataclass(frozen=True, slots=True, kw_only=True)
class Reader:
    """What is known of a list before its rows are read."""

    columns: tuple[ColumnRead, ...]
    heads: tuple[str, ...]  # as they stand
    how: Marks
    answers: Answers
    mass_of: str  # "each" or "all", where a mass column does not say

    def cells(self, line: Line, *uses: str) -> list[tuple[ColumnRead, Cell]]:
        """Return the cells of a line in columns of some uses."""
        return [(c, line.cell(c.index)) for c in self.columns if c.use in uses]

    def text(self, line: Line, use: str) -> str:
        """Return the text in the column of one use, or nothing."""
        return next((cell.text for _, cell in self.cells(line, use) if cell.text), "")


@dataclass(frozen=True, slots=True, kw_only=True)
class Read:
    """A row, with the part or the stated sum that it holds."""

    row: RowRead
    items: tuple[Item, ...] = ()
    stated: tuple[Figure, ...] = ()
    covers: tuple[int, ...] = ()  # rows of which it is the sum, where that is known
    factor: float = 0.0  # upon all masses, where it is one [-]


def _read(line: Line, use: Use, why: Fact | None, stated: tuple[Figure, ...] = ()) -> Read:
    row = RowRead(number=line.number, use=use, why=why, text=line.text)
    return Read(row=row, stated=stated)


def read_row(reader: Reader, line: Line) -> Read:
    """Return what a row is, and what it holds."""
    if not line.filled:
        return _read(line, "blank", None)
    if all(line.cell(k).text in ZERO for k in line.filled):
        return _read(line, "blank", fact("row-of-zeros"))
    texts = tuple(line.cell(k).text for k in range(len(reader.heads)))
    if any(texts) and texts == reader.heads:
        return _read(line, "heads", fact("row-of-heads"))
    masses = [(c, cell) for c, cell in reader.cells(line, *MASSES) if not cell.is_blank]
    total = _total(reader, line, masses)
    if total:
        return total
    if any(cell.text.startswith("=") for _, cell in masses):
        return _read(line, "not understood", fact("row-of-formula"))
    worked_out = _worked_out(reader, line, masses)
    if worked_out:
        return worked_out
    beyond = [k for k in line.filled if k >= len(reader.heads)]
    if beyond:
        why = fact("row-too-wide", cells=max(beyond) + 1, heads=len(reader.heads))
        return _read(line, "not understood", why)
    if not any(cell.text for _, cell in masses):
        return _without_mass(reader, line, masses)
    if all(cell.text in NOTHING or meaning(cell.text, "none") for _, cell in masses):
        return _read(line, "not understood", fact("row-mass-to-come", typed=masses[0][1].text))
    return _part(reader, line)


def _worked_out(
    reader: Reader, line: Line, masses: Sequence[tuple[ColumnRead, Cell]]
) -> Read | None:
    """Return the row as no part, where it is named as a margin, a target or the like."""
    name = reader.text(line, "name") or reader.text(line, "group")
    kind, filled = derived(name), [pair for pair in masses if pair[1].text]
    if not kind or not filled:
        return None
    factor = factor_in(filled[0][1].text) if kind == "factor" or "%" in filled[0][1].text else 0.0
    if factor:
        read = _read(line, "none", fact("row-of-factor"))
        return replace(read, factor=factor)
    try:
        stated = (_stated(reader, line, filled),) if kind == "amount" else ()
    except UnitError:
        stated = ()
    return _read(line, "none", fact("row-worked-out"), stated)


def _total(reader: Reader, line: Line, masses: Sequence[tuple[ColumnRead, Cell]]) -> Read | None:
    """Return the row as a total, where a word or a formula says that it is one."""
    texts = [(c, line.cell(c.index).text) for c in reader.columns if c.use not in NO_LABEL]
    labels = {c.index: meaning(text, "total") for c, text in texts if not HAS_DIGIT.search(text)}
    word = next((label for label in labels.values() if label), "")
    word = word or ("total" if is_sum(reader.text(line, "name")) else "")
    masses = [(c, cell) for c, cell in masses if not labels.get(c.index)]
    formula = next((cell.formula for _, cell in masses if SUM_DOWN.match(cell.formula)), "")
    if not word and not formula:
        return _total_in_words(reader, line, masses)
    use: Use = "subtotal" if word == "subtotal" else "total"
    why = fact("row-named-total") if word else fact("row-sums", formula=formula)
    if not masses:
        return _read(line, "note", fact("row-total-unstated"))
    if not any(cell.text for _, cell in masses):
        return _read(line, use, fact("row-total-without-result", formula=masses[0][1].formula))
    try:
        return _read(line, use, why, (_stated(reader, line, masses),))
    except UnitError as error:
        return _read(line, "not understood", _reason(error))


def _total_in_words(
    reader: Reader, line: Line, masses: Sequence[tuple[ColumnRead, Cell]]
) -> Read | None:
    """Return the row as a total, where one cell holds both word and mass: "Total: 1190 g"."""
    texts = [line.cell(k).text for k in line.filled]
    found = TAIL.search(texts[0])
    word = meaning(texts[0][: found.start()], "total") if found else ""
    if not found or not word or len(texts) > 1 or len(masses) > 1:
        return None
    unit = next((c.unit for c in reader.columns if c.use in MASSES), "")
    try:
        stated = figure(Cell(text=found[0]), "mass", unit, reader.how)
    except UnitError as error:
        return _read(line, "not understood", _reason(error))
    return _read(
        line, "subtotal" if word == "subtotal" else "total", fact("row-named-total"), (stated,)
    )


def _stated(reader: Reader, line: Line, masses: Sequence[tuple[ColumnRead, Cell]]) -> Figure:
    """Return the mass that a total states.

    Raises:
        UnitError: It is no mass.
    """
    uses = [use for use in MASSES if any(c.use == use and cell.text for c, cell in masses)]
    found = [(c, cell) for c, cell in masses if c.use == uses[0] and cell.text]
    whole = _mass(reader, line, found)
    return replace(whole, digit=0.0) if any(cell.formula for _, cell in found) else whole


def _without_mass(reader: Reader, line: Line, masses: Sequence[tuple[ColumnRead, Cell]]) -> Read:
    """Return a row in which no mass stands."""
    if masses:
        why = fact("row-without-result", formula=masses[0][1].formula)
        return _read(line, "not understood", why)
    shared = [c.merged_with for _, c in reader.cells(line, *MASSES) if c.merged_with]
    if shared:
        return _read(line, "not understood", fact("row-mass-shared", row=shared[0]))
    figures = reader.cells(line, "quantity", *FIGURES)
    if any(cell.text for _, cell in figures) or reader.text(line, "material"):
        return _read(line, "not understood", fact("row-mass-missing"))
    texts = [line.cell(k).text for k in line.filled]
    is_note = len(texts[0]) > SENTENCE or texts[0].startswith(NOTE_SIGNS) or texts[0][-1] in ".!?"
    first = texts[0].split(":")[0]
    if is_note or meaning(first, "note") == "note" or not any(t.strip("-=_* ") for t in texts):
        return _read(line, "note", fact("row-of-words"))
    if len(texts) > 1 and reader.text(line, "name"):
        return _read(line, "not understood", fact("row-mass-missing"))
    return _read(line, "heading", fact("row-heading-or-part"))


def _part(reader: Reader, line: Line) -> Read:
    """Return a row that holds a mass."""
    name = reader.text(line, "name")
    try:
        pieces = next((count(cell, reader.how) for _, cell in reader.cells(line, "quantity")), 1.0)
        whole = _whole(reader, line, pieces)
    except UnitError as error:
        return _read(line, "not understood", _reason(error), _total_of(reader, line))
    if not name:
        return _read(line, "not understood", fact("row-nameless"), (whole,))
    if whole.value < 0:
        return _read(line, "not understood", fact("row-mass-below-zero"), (whole,))
    if pieces == 0:
        return _read(line, "none", fact("row-without-pieces"))
    words, figures, doubts = fields_of(reader, line)
    if whole.is_about:
        words.setdefault("known", "guess")
    if whole.spread:
        words["spread"] = f"± {whole.spread}"
    is_exact = any(cell.is_number for _, cell in reader.cells(line, *MASSES))
    item = Item(
        row=line.number, name=name, mass=whole.value, quantity=pieces,
        rounding=0.0 if is_exact else whole.digit, fine=whole.fine,
        figures=figures, words=words, doubts=tuple(doubts),
    )  # fmt: skip
    is_plain = pieces == 1 and not doubts
    why = None if is_plain else fact("row-part", pieces=pieces, doubts=tuple(doubts))
    return replace(_read(line, "part", why), items=(item,))


def _total_of(reader: Reader, line: Line) -> tuple[Figure, ...]:
    """Return the mass of all that a row states though it does not go in; it may explain a sum."""
    found = [pair for pair in reader.cells(line, "mass_all") if pair[1].text]
    try:
        return (_mass(reader, line, found),) if found else ()
    except UnitError:
        return ()


def _whole(reader: Reader, line: Line, pieces: float) -> Figure:
    """Return the mass of all pieces in a row.

    Raises:
        UnitError: It is no mass.
    """
    for use in MASSES:
        found = [pair for pair in reader.cells(line, use) if pair[1].text]
        if not found:
            continue
        one = _mass(reader, line, found)
        if use == "mass_all":
            _see_pieces(reader, line, pieces, (found[0][1], one))
        is_each = use == "mass_each" or (use == "mass" and reader.mass_of == "each")
        times = pieces if is_each else 1.0
        return replace(one, value=one.value * times, digit=one.digit * times, fine=one.fine * times)
    raise AssertionError("a part without a mass")


def _see_pieces(reader: Reader, line: Line, pieces: float, whole: tuple[Cell, Figure]) -> None:
    """Refuse a row whose pieces do not make its total.

    Raises:
        UnitError: They do not, or the mass of one is none.
    """
    ones = [pair for pair in reader.cells(line, "mass_each", "mass") if pair[1].text]
    if not ones:
        return
    one, (cell, total) = _mass(reader, line, ones), whole
    is_counted = any(column.use == "quantity" for column in reader.columns)
    if not is_counted and pieces_implied(one, total):
        return
    is_all = ones[0][0].use == "mass" and makes(one, 1.0, total)
    if not is_all and not makes(one, pieces, total):
        unit = next((c.unit for c in reader.columns if c.use == "mass_all"), "") or "g"
        raise disagreement(one, pieces, total, unit, (ones[0][1], cell))


def _mass(reader: Reader, line: Line, found: Sequence[tuple[ColumnRead, Cell]]) -> Figure:
    """Return the mass in one cell, or in a column of pounds with one of ounces beside it.

    Raises:
        UnitError: It is no mass, or two columns say two masses.
    """
    own = unit_name(reader.text(line, "unit"), "mass") or reader.answers.mass_unit
    read = [
        (column, figure(cell, "mass", column.unit or own, reader.how)) for column, cell in found
    ]
    first = read[0][1]
    if len(read) == 1:
        return first
    if {column.unit for column, _ in read} in ({"lb", "oz"}, {"st", "lb"}):
        digit, fine = (min(getattr(one, of) for _, one in read) for of in ("digit", "fine"))
        return replace(first, value=sum(one.value for _, one in read), digit=digit, fine=fine)
    for column, one in read[1:]:
        if abs(one.value - first.value) > 0.6 * (one.digit + first.digit) + 1e-9:
            what = f"columns {letter(read[0][0].index)} and {letter(column.index)} say two masses"
            raise UnitError(what, "", "Keep one of them.")
    return first


def _reason(error: UnitError) -> Fact:
    """Return why a cell could not be read, with how to mend it."""
    return fact("row-mass-unread", what=error.what, mend=error.mend)
