"""Figures as they stand in the cells of a list: decimal marks, units, ±, "about"."""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from trimdive.errors import UnitError
from trimdive.fact import Fact, fact
from trimdive.units import read, within
from trimdive.units.typed import ABOUT as INEXACT
from trimdive.units.typed import taken_apart, tidied
from trimdive.weightlists.sheet import Cell
from trimdive.weightlists.words import folded, unit_name, words

TOKEN = re.compile(r"\d[\d.,]*\d|\d")
ABOUT = re.compile(rf"^(?:±|{INEXACT})\s*", re.IGNORECASE)
PLUS_MINUS = re.compile(r"±|\+/-|\+-")
WORD = re.compile(r"[^\W\d_]{2,}\.?")
BY_COMMA = re.compile(r"0,\d+|\d+,\d{1,2}|\d+,\d{4,}|\d{4,},\d+|\d{1,3}(\.\d{3})+,\d+")
BY_POINT = re.compile(r"0\.\d+|\d+\.\d{1,2}|\d+\.\d{4,}|\d{4,}\.\d+|\d{1,3}(,\d{3})+\.\d+")
THOUSANDS = {
    ",": re.compile(r"\d{1,3}(\.\d{3})+(,\d+)?"),
    ".": re.compile(r"\d{1,3}(,\d{3})+(\.\d+)?"),
}
SWISS = re.compile(r"(?<=\d)['’](?=\d{3}(?!\d))")
DOUBTFUL = re.compile(r"([1-9]\d{0,2})([.,])(\d{3})")
FINE = re.compile(r"\d+[.,]\d{3,}")  # figures as fine as those that may part thousands
IN_THOUSANDS = ("g", "mm", "ml", "cm³", "mm³", "kg/m³")  # units with few decimals and large figures


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """A quantity in a cell."""

    value: float  # [SI]
    digit: float  # what one of its last digit makes [SI]
    spread: str  # what stands behind ±, or ""
    is_about: bool  # it says "about"
    fine: float = 0.0  # what one of the last part of it makes, of a fraction too; 0 untold [SI]


@dataclass(frozen=True, slots=True, kw_only=True)
class Marks:
    """How a list writes decimals: with a comma, with a point, or nobody can tell."""

    decimal: str  # ",", "." or ""
    as_in: str  # a cell that shows it
    separator: str  # between the cells of the list
    fine: frozenset[tuple[str, str]] = frozenset()  # kinds and units with three decimals elsewhere
    chosen: Mapping[str, str] = field(default_factory=dict[str, str])  # masses decided otherwise
    refused: Mapping[str, tuple[str, str]] = field(default_factory=dict[str, tuple[str, str]])
    # those in dispute: as the list's sum has them, and as the boat file has them

    @property
    def note(self) -> Fact | None:
        """Return how decimals are written, where a cell shows it."""
        if not self.as_in:
            return None
        return fact("decimals-shown", decimal=self.decimal, example=self.as_in)


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
        UnitError: It is no such quantity, may mean two, or is more than a model boat can have.
    """
    if cell.is_number:
        value = within(read(cell.text, kind, cell.unit or unit or None), kind, cell.text)
        return Figure(
            value=value,
            digit=_digit(cell.text, value),
            spread="",
            is_about=False,
            fine=_fine(cell.text, kind, cell.unit or unit),
        )
    bare = cell.text.strip()
    plain = ABOUT.sub("", bare)
    middle, *behind = PLUS_MINUS.split(plain, maxsplit=1)
    own = _last_unit(middle.strip(), kind) or unit
    text = _spelled(_pointed(middle.strip(), how, kind, own), kind)
    spread = _spelled(_pointed(behind[0].strip(), how, "mass", own), "mass") if behind else ""
    unit = _last_unit(text, kind) or _last_unit(spread, kind) or unit
    value = within(read(text, kind, unit or None), kind, bare)
    if spread and spread[-1].isdigit():
        spread += f" {unit}"
    return Figure(
        value=value,
        digit=_digit(text, value),
        spread=spread,
        is_about=plain != bare,
        fine=_fine(text, kind, unit),
    )


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


def _pointed(text: str, how: Marks, kind: str = "", unit: str = "") -> str:
    """Return a text with its numbers in one manner: point for decimals, thousands together.

    Raises:
        UnitError: One may be read in two ways, and nothing decides.
    """
    text = SWISS.sub("", text)
    return TOKEN.sub(lambda found: _one_way(found[0], how, kind, unit), text)


def _one_way(token: str, how: Marks, kind: str, unit: str) -> str:
    """Return one number with a decimal point and without marks between thousands.

    Raises:
        UnitError: It may be read in two ways, and nothing decides.
    """
    ways = two_ways(token)
    if not ways or not kind:
        return _plain(token, how.decimal) if how.decimal else token
    if kind == "mass" and token in how.chosen:
        return how.chosen[token]
    dispute = how.refused.get(token) if kind == "mass" else None
    decimals, thousands = ways
    is_usual = (kind, unit) in how.fine or unit not in IN_THOUSANDS
    if how.decimal and not dispute:
        if how.decimal not in token:
            return thousands
        if is_usual:
            return decimals
    first, second = (decimals, thousands) if is_usual else (thousands, decimals)
    what = f"'{token}' may be {f'{first} {unit}'.strip()} or {f'{second} {unit}'.strip()}"
    why = f"{first} is likelier" if unit else "nothing in the list tells which"
    if dispute:
        why = f"the list's sum fits {dispute[0]}, the boat file {dispute[1]}"
    mark = "," if how.decimal == "," else "."
    mend = f"Write {first} or {second}.".replace(decimals, decimals.replace(".", mark))
    raise UnitError(f"{what}; {why}", "", mend)


def two_ways(token: str) -> tuple[str, str] | None:
    """Return a number read as decimals and as thousands, where it may be either.

    >>> two_ways("1,240"), two_ways("0,240"), two_ways("1.000")
    (('1.24', '1240'), None, ('1.0', '1000'))
    """
    found = DOUBTFUL.fullmatch(token)
    return (str(float(f"{found[1]}.{found[3]}")), found[1] + found[3]) if found else None


def fine_in(cells: Iterable[tuple[Cell, str, str]], decimal: str) -> frozenset[tuple[str, str]]:
    """Return the kinds and units in which a list writes three decimals or more beyond doubt.

    Args:
        cells: Each with its kind and the unit of its column.
        decimal: Mark between decimals; "" where nobody can tell.
    """
    clear = {",": BY_COMMA, ".": BY_POINT}.get(decimal)
    return frozenset(
        (kind, _last_unit(cell.text, kind) or unit)
        for cell, kind, unit in cells
        if clear and not cell.is_number
        for token in TOKEN.findall(cell.text)
        if FINE.fullmatch(token) and clear.fullmatch(token)
    )


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


def _fine(text: str, kind: str, unit: str) -> float:
    """Return what one of the last part of a figure makes [SI]; nought where it is not plain.

    >>> round(_fine("4 1/2 oz", "mass", "") * 1e3, 4), _fine("0.25", "mass", "kg")
    (14.1748, 0.25)
    """
    try:
        typed = taken_apart(tidied(text))
        last = typed.amounts[-1] if typed else None
        return read(f"1 {last.unit or unit}", kind) / last.number.denominator if last else 0.0
    except (UnitError, ValueError):
        return 0.0


def _digit(text: str, value: float) -> float:
    """Return what one of the last digit of a number makes [SI]; nought where it is not plain."""
    found = re.fullmatch(r"[-+]?\s*(\d+)(?:\.(\d+))?(?:[eE][-+]?\d+)?\s*[^\d]*", text)
    number = float(f"{found[1]}.{found[2] or 0}") if found else 0.0
    if not found or not number:
        return 0.0
    return abs(value) / number * 10.0 ** -len(found[2] or "")
