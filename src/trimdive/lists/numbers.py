"""Figures as they stand in the cells of a list: decimal marks, units, ±, "about"."""

import re
from collections.abc import Iterable
from dataclasses import dataclass

from trimdive.errors import UnitError
from trimdive.lists.sheet import Cell
from trimdive.lists.words import folded, unit_name, words
from trimdive.units import read

TOKEN = re.compile(r"\d[\d.,]*\d|\d")
ABOUT = re.compile(r"^(?:~|≈|±|ca\.?|approx\.?|about|circa|env\.?|rund|etwa)\s*", re.IGNORECASE)
PLUS_MINUS = re.compile(r"±|\+/-|\+-")
WORD = re.compile(r"[^\W\d_]{2,}\.?")
BY_COMMA = re.compile(r"0,\d+|\d+,\d{1,2}|\d+,\d{4,}|\d{4,},\d+|\d{1,3}(\.\d{3})+,\d+")
BY_POINT = re.compile(r"0\.\d+|\d+\.\d{1,2}|\d+\.\d{4,}|\d{4,}\.\d+|\d{1,3}(,\d{3})+\.\d+")
THOUSANDS = {
    ",": re.compile(r"\d{1,3}(\.\d{3})+(,\d+)?"),
    ".": re.compile(r"\d{1,3}(,\d{3})+(\.\d+)?"),
}
SWISS = re.compile(r"(?<=\d)['’](?=\d{3}(?!\d))")
DOUBTFUL = re.compile(r"[1-9]\d{0,2}\.\d{3}")


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """A quantity in a cell."""

    value: float  # [SI]
    digit: float  # what one of its last digit makes [SI]
    spread: str  # what stands behind ±, or ""
    is_about: bool  # it says "about"


@dataclass(frozen=True, slots=True, kw_only=True)
class Marks:
    """How a list writes decimals: with a comma, with a point, or nobody can tell."""

    decimal: str  # ",", "." or ""
    as_in: str  # a cell that shows it
    separator: str  # between the cells of the list

    @property
    def told(self) -> str:
        """Return how it was understood, for the builder."""
        names = {",": "comma", ".": "point"}
        return f"decimals with a {names[self.decimal]}, as in '{self.as_in}'" if self.as_in else ""


def marks(cells: Iterable[Cell], separator: str) -> Marks:
    """Return how the figures of a list write decimals.

    Args:
        cells: Those of the columns that hold figures.
        separator: Between the cells of the list; it decides where "1,234" stands alone.
    """
    comma = point = ""
    for cell in cells:
        if cell.is_number:
            continue
        for token in TOKEN.findall(cell.text):
            comma = comma or (cell.text if BY_COMMA.fullmatch(token) else "")
            point = point or (cell.text if BY_POINT.fullmatch(token) else "")
    if comma and point:
        return Marks(decimal="", as_in="", separator=separator)
    if comma or point:
        return Marks(decimal="," if comma else ".", as_in=comma or point, separator=separator)
    usual = {";": "", ",": "."}
    return Marks(decimal=usual.get(separator, ""), as_in="", separator=separator)


def figure(cell: Cell, kind: str, unit: str, how: Marks) -> Figure:
    """Return the quantity in a cell.

    Args:
        cell: The cell.
        kind: "mass", "length", ...
        unit: Of a bare number; "" where the list tells none.
        how: How the list writes decimals.

    Raises:
        UnitError: It is no such quantity, or may mean two.
    """
    if cell.is_number:
        value = read(cell.text, kind, cell.unit or unit or None)
        return Figure(value=value, digit=_digit(cell.text, value), spread="", is_about=False)
    bare = cell.text.strip()
    plain = ABOUT.sub("", bare)
    middle, *behind = PLUS_MINUS.split(plain, maxsplit=1)
    text = _spelled(_pointed(middle.strip(), how), kind)
    spread = _spelled(_pointed(behind[0].strip(), how), "mass") if behind else ""
    unit = _last_unit(text, kind) or _last_unit(spread, kind) or unit
    value = read(text, kind, unit or None)
    if spread and spread[-1].isdigit():
        spread += f" {unit}"
    return Figure(value=value, digit=_digit(text, value), spread=spread, is_about=plain != bare)


def count(cell: Cell, how: Marks) -> float:
    """Return the number of pieces in a cell such as "2", "2 x" or "4 Stk"; blank is one.

    Raises:
        UnitError: It is no number.
    """
    if not cell.text:
        return 1.0
    text = cell.text if cell.is_number else _pointed(cell.text, how)
    found = re.fullmatch(r"(?:x\s*)?(\d+(?:\.\d+)?)\s*[^\d]*", text)
    if found:
        return float(found[1])
    if folded(text) in {"pair", "paar", "paire", "paio", "par"}:
        return 2.0
    raise UnitError(f"'{cell.text}' is no number of pieces", "quantity", "Write it as 2.")


def _pointed(text: str, how: Marks) -> str:
    """Return a text with its numbers in one manner: point for decimals, thousands together."""
    text = SWISS.sub("", text)
    if how.decimal:
        return TOKEN.sub(lambda found: _plain(found[0], how.decimal), text)
    if how.separator == ";" and DOUBTFUL.fullmatch(text.split(" ")[0]):
        whole = text.split(" ")[0]
        what = f"'{whole}' may part thousands or decimals"
        mend = f"Write {whole.replace('.', '')} or {whole.replace('.', ',')}0."
        raise UnitError(what, "", mend)
    return text


def _plain(token: str, decimal: str) -> str:
    """Return one number with a decimal point and without marks between thousands."""
    other = "." if decimal == "," else ","
    if THOUSANDS[decimal].fullmatch(token):
        token = token.replace(other, "")
    elif other in token:
        return token
    return token.replace(",", ".")


def _spelled(text: str, kind: str) -> str:
    """Return a text with units of other languages by their signs."""
    if not words("unit").keys() & set(folded(text).split()):
        return text
    return WORD.sub(lambda found: unit_name(found[0], kind) or found[0], text)


def _last_unit(text: str, kind: str) -> str:
    """Return the unit at the end of a text, or nothing."""
    found = re.search(r"[^\d\s.,]+$", text)
    return unit_name(found[0], kind) if found else ""


def _digit(text: str, value: float) -> float:
    """Return what one of the last digit of a number makes [SI]; nought where it is not plain."""
    found = re.fullmatch(r"[-+]?\s*(\d+)(?:\.(\d+))?(?:[eE][-+]?\d+)?\s*[^\d]*", text)
    number = float(f"{found[1]}.{found[2] or 0}") if found else 0.0
    if not found or not number:
        return 0.0
    return abs(value) / number * 10.0 ** -len(found[2] or "")
