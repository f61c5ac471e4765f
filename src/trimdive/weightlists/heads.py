"""Finds the heads of a list and what each column holds."""

import re
from collections import Counter
from collections.abc import Iterable
from dataclasses import replace

from trimdive.errors import ListError
from trimdive.fact import Fact, fact
from trimdive.weightlists.dates import refuse_dates
from trimdive.weightlists.numbers import Marks, figure
from trimdive.weightlists.pieces import numbered, unit_of_one
from trimdive.weightlists.records import Answers, ColumnRead
from trimdive.weightlists.sheet import Cell, Line, Sheet
from trimdive.weightlists.words import (
    FIGURES,
    MASSES,
    Head,
    folded,
    head_of,
    head_score,
    heads,
    unit_kind,
    unit_name,
    without_unit,
    words,
)

HEAD_ROWS = 30  # rows among which the heads are looked for
ENOUGH = 3  # score of a row that can be the heads: a mass at least
LENGTHS = {"length", "l", "lange", "longueur", "lengte", "lunghezza", "longitud"}
WIDTHS = {"width", "breadth", "w", "b", "breite", "largeur", "breedte", "larghezza", "ancho"}
HEIGHTS = {"height", "h", "hohe", "hauteur", "hoogte", "altezza", "altura"}
BRACKETS = re.compile(r"^[\[(]\s*|\s*[\])]$")
HAS_DIGIT = re.compile(r"\d")


def head_line(sheet: Sheet) -> int:
    """Return the index of the line that holds the heads, or -1 where none does."""
    scores = [_score(line) for line in sheet.lines[:HEAD_ROWS]]
    best = max(scores, default=0)
    return scores.index(best) if best >= ENOUGH else -1


def _score(line: Line) -> int:
    """Return how much a line looks like heads; figures speak against it."""
    texts = [cell.text for cell in line.cells if cell.text and not cell.is_number]
    figures = sum(cell.is_number or cell.text[:1].isdigit() for cell in line.cells)
    return head_score(texts) - 2 * figures


def second_head(line: Line) -> bool:
    """Return whether a line goes on with the heads: units, or words under shared heads."""
    texts = [cell.text for cell in line.cells if cell.text]
    if not texts or any(cell.is_number for cell in line.cells):
        return False
    units = [bool(unit_kind(BRACKETS.sub("", text))[1]) for text in texts]
    if all(units):
        return True
    exact = [
        is_unit or (bool(head_of(text).column) and not HAS_DIGIT.search(text) and len(text) < 20)
        for is_unit, text in zip(units, texts, strict=True)
    ]
    return len(texts) > 1 and all(exact)


def joined_heads(top: Line, below: Line | None, width: int) -> list[tuple[str, Head]]:
    """Return the text and the meaning of each head, of one or two lines."""
    found: list[tuple[str, Head]] = []
    shared = ""
    for k in range(width):
        upper = top.cell(k).text
        lower = below.cell(k).text if below else ""
        shared = upper or shared
        found.append(_joined(upper, shared, lower))
    return found


def _joined(upper: str, shared: str, lower: str) -> tuple[str, Head]:
    """Return one head from its two lines."""
    if not lower:
        return upper, head_of(upper) if upper else Head(column="", unit="", word="")
    unit = unit_kind(BRACKETS.sub("", lower))[1]
    if unit and upper and not (lower in heads() and not head_of(upper).column):
        return f"{upper} [{unit}]", replace(head_of(upper), unit=unit)
    text, found, above = f"{shared} {lower}".strip(), head_of(lower), head_of(shared)
    found = found if found.column else head_of(text)
    return text, replace(found, unit=found.unit or above.unit)


def columns_of(
    sheet: Sheet, titles: list[tuple[str, Head]], body: tuple[Line, ...]
) -> list[ColumnRead]:
    """Return what each column holds, before its unit is asked for."""
    found: list[ColumnRead] = []
    for k, (text, head) in enumerate(titles):
        cells = [line.cell(k) for line in body if not line.cell(k).is_blank]
        found.append(_column(k, text, head, cells, found))
    found = _with_units(found, body)
    found = _with_totals(found, body)
    found = numbered(found, body)
    found = _with_groups(found, body)
    found = _without_sizes(found)
    if not any(column.use == "name" for column in found):
        found = _with_name(found, body)
    if not any(column.use == "name" for column in found):
        refuse_dates(sheet.name, found, body)
        what = "no column holds the names of the parts"
        raise ListError(what, sheet.name, "Write 'name' upon the column that does.")
    return found


def _column(
    k: int, text: str, head: Head, cells: list[Cell], before: list[ColumnRead]
) -> ColumnRead:
    """Return what one column holds."""
    first, _, second = head.column.partition("/")
    is_figures = bool(cells) and all(_is_figure(cell) for cell in cells)
    use = second if second and is_figures else first
    why = _left_aside(use, text, cells, is_figures=is_figures)
    same = None if why else _same_before(use, before)
    if why:
        use = ""
    elif same and use == "name":
        use, why = "note", fact("column-beside-name", first=same.index)
    elif same:
        use, why = "", fact("column-again", first=same.index, use=use)
    like = head.word if head.is_near else ""
    kind = FIGURES.get(use, "")
    unit = unit_name(head.unit, kind) if kind and head.unit else ""
    why = why or fact("column-holds", use=use, like=like)
    return ColumnRead(index=k, head=text, use=use, unit=unit, why=why)


def _left_aside(use: str, text: str, cells: list[Cell], *, is_figures: bool) -> Fact | None:
    """Return why a column is left aside by its own head and cells, or None."""
    if use == "name" and is_figures:
        return fact("column-of-figures")
    if use == "elsewhere":
        return fact("column-not-from-keel")
    if use in ("aside", "moment"):
        return fact("column-not-needed")
    if use:
        return None
    if not cells:
        return fact("column-empty")
    return fact("column-not-understood") if text else fact("column-without-head")


def _same_before(use: str, before: list[ColumnRead]) -> ColumnRead | None:
    """Return the column before that holds the same already, where only one may."""
    if use in (*MASSES, "unit", "number"):
        return None
    return next((column for column in before if column.use == use), None)


def _as(column: ColumnRead, use: str) -> ColumnRead:
    """Return a column as one of another use."""
    return replace(column, use=use, why=fact("column-holds", use=use))


def _is_figure(cell: Cell) -> bool:
    """Return whether a cell holds a bare number."""
    return cell.is_number or bool(re.fullmatch(r"[-+]?[\d.,\s]+", cell.text))


def _with_name(found: list[ColumnRead], body: tuple[Line, ...]) -> list[ColumnRead]:
    """Return the columns with the first one of texts taken for the names."""
    for k, column in enumerate(found):
        cells = [line.cell(k) for line in body if line.cell(k).text]
        texts = [cell for cell in cells if not _is_figure(cell)]
        is_free = column.use in ("", "group") and column.why.kind != "column-not-needed"
        if is_free and len(texts) > len(cells) / 2:
            why = fact("column-first-words")
            return [replace(c, use="name", why=why) if c is column else c for c in found]
    return found


def _with_totals(found: list[ColumnRead], body: tuple[Line, ...]) -> list[ColumnRead]:
    """Return the columns with one that is headed "Total" taken for the mass of all pieces."""
    masses = [c for c in found if c.use in MASSES]
    if not masses or any(c.use == "mass_all" for c in masses):
        return found
    for column in found:
        cells = [line.cell(column.index) for line in body if line.cell(column.index).text]
        is_total = not column.use and folded(without_unit(column.head)[0]) in words("total")
        if is_total and cells and all(cell.is_number or cell.text[:1].isdigit() for cell in cells):
            unit = unit_name(without_unit(column.head)[1], "mass") or masses[0].unit
            whole = _as(replace(column, unit=unit), "mass_all")
            others = [_as(c, "mass_each") if c.use == "mass" else c for c in found]
            return [whole if c.index == column.index else c for c in others]
    return found


def _with_units(found: list[ColumnRead], body: tuple[Line, ...]) -> list[ColumnRead]:
    """Return the columns with those of units by what stands in them: of masses, or of lengths."""
    if not any(column.use == "unit" for column in found):
        return found
    kinds: dict[int, Counter[str]] = {
        column.index: Counter(
            unit_kind(text)[0] for line in body if (text := line.cell(column.index).text)
        )
        for column in found
        if column.use in ("unit", "unit_length")
    }
    masses = [k for k, counted in kinds.items() if counted["mass"]]
    best = max(masses, key=lambda k: kinds[k]["mass"], default=-1)
    return [_unit_column(column, kinds.get(column.index), best) for column in found]


def _unit_column(column: ColumnRead, held: Counter[str] | None, of_mass: int) -> ColumnRead:
    """Return one column, by the kinds of units that it holds if it holds any."""
    if held is None or column.index == of_mass:
        return column
    if held["length"]:
        return _as(column, "unit_length")
    return replace(column, use="", why=fact("column-without-units"))


def _without_sizes(found: list[ColumnRead]) -> list[ColumnRead]:
    """Return the columns with a bare height left aside where it stands beside length and width."""
    heads_said = {folded(without_unit(column.head)[0]) for column in found}
    if not (heads_said & LENGTHS and heads_said & WIDTHS):
        return found
    why = fact("column-of-sizes")
    return [
        replace(c, use="", why=why)
        if c.use == "z" and folded(without_unit(c.head)[0]) in HEIGHTS
        else c
        for c in found
    ]


def _with_groups(found: list[ColumnRead], body: tuple[Line, ...]) -> list[ColumnRead]:
    """Return the columns with the fuller of two columns of names as the name, the other as group.

    "System | Component" are two heads of names; the first stands on the first row of its parts.
    """
    names = [c for c in found if c.use == "name"]
    notes = [c for c in found if c.use == "note" and c.why.kind == "column-beside-name"]
    if not names or not notes or any(c.use == "group" for c in found):
        return found
    filled = {
        c.index: sum(bool(line.cell(c.index).text) for line in body) for c in (names[0], notes[0])
    }
    both = any(line.cell(names[0].index).text and line.cell(notes[0].index).text for line in body)
    if not both or filled[notes[0].index] <= filled[names[0].index]:
        return found
    uses = {names[0].index: "group", notes[0].index: "name"}
    return [_as(c, uses[c.index]) if c.index in uses else c for c in found]


def bare_heads(sheet: Sheet) -> list[tuple[str, Head]]:
    """Return heads for a list without any, where its cells say which column is the mass.

    Raises:
        ListError: They do not.
    """
    found: list[tuple[str, Head]] = []
    for k in range(sheet.width):
        cells = [line.cell(k) for line in sheet.lines if line.cell(k).text]
        masses = [cell for cell in cells if _tells_mass(cell)]
        is_mass = len(masses) > len(cells) / 2
        found.append(("", Head(column="mass" if is_mass else "", unit="", word="")))
    if sum(head.column == "mass" for _, head in found) != 1:
        what = "no row names its columns, or none of them is a mass"
        mend = "Write heads upon the columns, such as: name, mass [g], x [mm], z [mm]."
        raise ListError(what, sheet.name, mend)
    return found


def _tells_mass(cell: Cell) -> bool:
    """Return whether a cell holds a mass with its unit."""
    word = re.sub(r"^[\d.,\s]+", "", cell.text)
    is_entered = bool(cell.unit) or word != cell.text
    return is_entered and bool(unit_name(cell.unit or word, "mass"))


def entered_above(lines: Iterable[Line]) -> dict[str, str]:
    """Return the units that notes above the heads tell, as in "all weights in g"."""
    found: dict[str, str] = {}
    for line in lines:
        for word in re.findall(r"\b(?:in|en)\s+([^\s.,;]+)", line.text):
            kind, unit = unit_kind(word)
            if kind in ("mass", "length") and len(word) < 12:
                found.setdefault(kind, unit)
    return found


def with_units(
    columns: list[ColumnRead], body: tuple[Line, ...], above: dict[str, str], answers: Answers,
    how: Marks,
) -> tuple[list[ColumnRead], set[str]]:  # fmt: skip
    """Return the columns with the unit of their bare numbers, and the kinds that are not told.

    A unit that nothing tells is put in as it is likely, so that the rest can be shown; it is asked
    for all the same.
    """
    said = {"mass": answers.mass_unit, "length": answers.length_unit}
    own = {kind: unit_name(text, kind) or text for kind, text in said.items()}
    others = {FIGURES[c.use]: c.unit for c in reversed(columns) if c.use in FIGURES and c.unit}
    ones = _ones(columns, body, how)
    has_lengths = any(column.use == "unit_length" for column in columns)
    has_unit_column = any(column.use == "unit" for column in columns)
    found: list[ColumnRead] = []
    asked: set[str] = set()
    for column in columns:
        kind = FIGURES.get(column.use, "")
        is_in_rows = {"mass": has_unit_column, "length": has_lengths}.get(kind, False)
        if not kind or column.unit or is_in_rows:
            found.append(column)
            continue
        bare = [cell for line in body if _is_bare(cell := line.cell(column.index))]
        unit, by = own.get(kind) or "", "answer"
        if not unit and ones.get(column.index):
            unit, by = ones[column.index], "pieces"
        if not unit and above.get(kind):
            unit, by = above[kind], "above"
        if not unit and others.get(kind) and kind in ("length", "mass"):
            unit, by = others[kind], "others"
        if not unit and bare:
            unit, by = _likely(bare, kind, how), "guess"
            asked.add(kind)
        why = column.why
        if unit and bare:
            why = fact("column-of-unit", column=column.why, unit=unit, by=by)
        found.append(replace(column, unit=unit, why=why, has_guessed_unit=by == "guess"))
    return found, asked


def _ones(columns: list[ColumnRead], body: tuple[Line, ...], how: Marks) -> dict[int, str]:
    """Return the units that masses of one piece must have to make the totals of their rows."""
    whole = next((c for c in columns if c.use == "mass_all" and c.unit), None)
    pieces = next((c for c in columns if c.use == "quantity"), None)
    if whole is None:
        return {}
    bare = [c for c in columns if c.use in ("mass", "mass_each") and not c.unit]
    return {c.index: unit_of_one(c, whole, pieces, body, how) for c in bare}


def _is_bare(cell: Cell) -> bool:
    """Return whether a cell holds a number without a unit."""
    return _is_figure(cell) and not cell.unit


def _likely(cells: list[Cell], kind: str, how: Marks) -> str:
    """Return the unit that bare numbers most likely have."""
    usual = {"mass": ("kg", "g"), "length": ("m", "mm"), "volume": ("L", "cm³")}
    large, little = usual.get(kind, ("g/cm³", "kg/m³"))
    sizes: list[float] = []
    for cell in cells:
        try:
            factor = figure(cell, kind, large, how).value
        except ValueError:
            continue
        sizes.append(abs(factor) * (1000.0 if kind == "volume" else 1.0))
    middle = sorted(sizes)[len(sizes) // 2] if sizes else 0.0
    return little if middle > 5.0 else large


def usual_unit(columns: list[ColumnRead], kind: str, default: str) -> str:
    """Return the unit that most columns of a kind have."""
    units = Counter(c.unit for c in columns if FIGURES.get(c.use) == kind and c.unit)
    return units.most_common(1)[0][0] if units else default
