"""What is said of the file of a weight list, and of its columns."""

from trimdive.fact import Fact
from trimdive.text.list_words import rows_named
from trimdive.text.said import said, says
from trimdive.text.say import Say
from trimdive.weightlists.sheet import letter

COLUMNS = {  # what a column holds, by its use
    "name": "name", "mass": "mass", "mass_each": "mass of one piece", "mass_all": "mass of all",
    "quantity": "number of pieces", "unit": "unit of the mass", "x": "place along the boat",
    "x_bow": "place, from the bow", "x_stern": "place, from the stern", "arm": "lever arm",
    "x_aft": "place of the after end", "x_fore": "place of the fore end",
    "y": "place to port", "y_starboard": "place to starboard", "z": "height",
    "z_bottom": "height of the underside", "z_top": "height of the upper side",
    "group": "group", "known": "how the mass is known", "spread": "± of the mass",
    "material": "material", "density": "density", "volume": "volume",
    "hung": "weight hung in water", "soaked": "mass soaked",
    "aboard": "whether it is aboard", "inside": "cylinder it is in",
    "from": "end measured from", "note": "note",
    "unit_length": "unit of the places", "number": "number",
}  # fmt: skip
SEPARATORS = {";": "semicolons", "\t": "tabs", "|": "upright strokes", ",": "commas"}
MARKS = {",": "comma", ".": "point"}
SETTLED = {"sum": "as the list's own total shows", "boat": "as the boat file has it"}
UNIT_BY = {  # what tells the unit of bare numbers
    "answer": "as you say",
    "pieces": "as mass times pieces gives the total",
    "above": "as stated above the headings",
    "others": "as in the other columns",
    "guess": "a guess, not stated",
}


# Of the file.


@says("text-read")
def _text_read(say: Say, letters: str, separator: str, by_first_line: bool) -> str:
    text = ", as its first line says" if by_first_line else ""
    parted = SEPARATORS.get(separator, repr(separator))
    return f"text in {letters}, cells parted by {parted}{text}"


@says("sheet-read")
def _sheet_read(say: Say, sheet: str) -> str:
    return f"workbook, sheet '{sheet}'"


@says("sheets-not-read")
def _sheets_not_read(say: Say, sheets: tuple[str, ...]) -> str:
    return f"not read: {'sheet' if len(sheets) == 1 else 'sheets'} {', '.join(sheets)}"


@says("rows-not-read")
def _rows_not_read(say: Say, first: int, last: int) -> str:
    return f"not read: rows {first} to {last}"


@says("columns-not-read")
def _columns_not_read(say: Say, first: int, last: int) -> str:
    return f"not read: columns {first} to {last}"


@says("rows-hidden")
def _rows_hidden(say: Say, rows: tuple[int, ...]) -> str:
    return f"hidden there, and read all the same: {rows_named(rows)}"


@says("columns-hidden")
def _columns_hidden(say: Say, columns: tuple[int, ...]) -> str:
    texts = ", ".join(letter(k) for k in columns[:8]) + (", …" if len(columns) > 8 else "")
    word = "column" if len(columns) == 1 else "columns"
    return f"hidden there, and read all the same: {word} {texts}"


@says("side-table")
def _side_table(say: Say, spans: tuple[tuple[int, int], ...]) -> str:
    names = [
        letter(low) if high == low else f"{letter(low)} to {letter(high)}" for low, high in spans
    ]
    is_one = len(spans) == 1 and spans[0][0] == spans[0][1]
    word = "column" if is_one else "columns"
    return f"a table beside the list is not read: {word} {', '.join(names)}"


@says("decimals-shown")
def _decimals_shown(say: Say, decimal: str, example: str) -> str:
    return f"decimals with a {MARKS[decimal]}, as in '{example}'"


@says("figure-settled")
def _figure_settled(say: Say, figure: str, value: str, by: str) -> str:
    return f"'{figure}' is {value}, {SETTLED[by]}"


# Of a column.


@says("column-holds")
def _column_holds(say: Say, use: str, like: str = "") -> str:
    return f"{COLUMNS[use]} (read as '{like}')" if like else COLUMNS[use]


@says("column-of-unit")
def _column_of_unit(say: Say, column: Fact, unit: str, by: str) -> str:
    return f"{said(say, column)}; {unit}: {UNIT_BY[by]}"


@says("column-counted")
def _column_counted(say: Say, column: Fact, each: bool) -> str:
    return (
        f"{said(say, column)}, of {'one piece' if each else 'all pieces'}, as the list's sum shows"
    )


@says("column-empty")
def _column_empty(say: Say) -> str:
    return "empty"


@says("column-of-figures")
def _column_of_figures(say: Say) -> str:
    return "ignored: figures, no names"


@says("column-not-from-keel")
def _column_not_from_keel(say: Say) -> str:
    return "ignored: not a height above the keel line"


@says("column-not-needed")
def _column_not_needed(say: Say) -> str:
    return "ignored: not needed"


@says("column-not-understood")
def _column_not_understood(say: Say) -> str:
    return "ignored: its heading is not understood"


@says("column-without-head")
def _column_without_head(say: Say) -> str:
    return "ignored: it has no heading"


@says("column-again")
def _column_again(say: Say, first: int, use: str) -> str:
    return f"ignored: column {letter(first)} is the {COLUMNS[use]} already"


@says("column-beside-name")
def _column_beside_name(say: Say, first: int) -> str:
    return f"note: the name stands in {letter(first)}"


@says("column-first-words")
def _column_first_words(say: Say) -> str:
    return "name: the first column of words"


@says("column-without-units")
def _column_without_units(say: Say) -> str:
    return "ignored: it holds no units of mass"


@says("column-of-sizes")
def _column_of_sizes(say: Say) -> str:
    return "ignored: a size, beside length and width"


@says("column-numbers-rows")
def _column_numbers_rows(say: Say) -> str:
    return "ignored: it numbers the rows"


@says("column-runs-on")
def _column_runs_on(say: Say) -> str:
    return "ignored: a total that runs on"
