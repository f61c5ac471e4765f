"""How a weight list was understood: its columns, its rows, its sums, and what is still to say."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from trimdive.fact import Fact

Use = Literal[
    "part", "total", "subtotal", "heading", "heads", "note", "blank", "none", "not understood"
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Answers:
    """What the builder says about a list beyond what stands in it; "" is nothing said."""

    sheet: str = ""  # of a workbook
    mass_unit: str = ""  # of bare masses
    length_unit: str = ""  # of bare lengths
    mass_of: str = ""  # "each" or "all", where there are several pieces
    measured_from: str = ""  # "stern", "bow", or where the list's nought lies: "1150 mm"
    x: str = ""  # for parts without a place
    z: str = ""  # for parts without a height
    material: str = ""  # for parts that tell nothing of their volume
    inside: str = ""  # the vessel in which such parts lie
    known: str = ""  # how masses are known that do not say
    same: str = ""  # "yes" where rows that may be a guess aboard are that, "no" where they are not


@dataclass(frozen=True, slots=True, kw_only=True)
class ColumnRead:
    """One column as it was understood."""

    index: int  # counted from nought
    head: str  # as it stands in the list
    use: str  # as in data/list_headers.csv; "" where it is left aside
    unit: str  # of its bare numbers, or ""
    why: Fact  # as what it was taken, or why it is left aside
    has_guessed_unit: bool = False  # nothing tells that unit


@dataclass(frozen=True, slots=True, kw_only=True)
class RowRead:
    """One row as it was understood."""

    number: int  # in the file, counted from one
    use: Use
    why: Fact | None  # None where there is nothing to say
    text: str  # what stands in it


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """A row that is a part."""

    row: int
    name: str
    mass: float  # of all its pieces [kg]
    rounding: float  # what one of the last digit of that mass makes [kg]
    quantity: float  # pieces [-]
    figures: Mapping[str, float]  # x, y, z, volume, ... as the boat file calls them [SI]
    words: Mapping[str, str]  # from, known, spread, material, inside, group, note
    doubts: tuple[Fact, ...]  # what of the row could not be taken over
    fine: float = 0.0  # what one of the last part of that mass makes; 0 where nothing tells [kg]


@dataclass(frozen=True, slots=True, kw_only=True)
class SumRead:
    """A sum that the list states, beside the sum of the rows that it should cover."""

    row: int
    rows: tuple[int, ...]  # the parts that it should cover
    stated: float  # [kg]
    found: float  # sum of those parts [kg]
    rounding: float  # difference that rounding may make [kg]
    beside: float  # what margins add that are no parts [kg]
    margins: tuple[int, ...]  # the rows of those margins
    is_whole: bool  # it should cover every part above it
    hint: Fact | None  # what explains the difference

    @property
    def difference(self) -> float:
        """Return by how much the list states more than its rows and margins make [kg]."""
        return self.stated - self.found - self.beside

    @property
    def agrees(self) -> bool:
        """Return whether it adds up, as far as its digits tell."""
        return abs(self.difference) <= self.rounding


@dataclass(frozen=True, slots=True, kw_only=True)
class Ask:
    """What is missing before the list can become parts of a boat file."""

    field: str  # of Answers
    what: Fact  # what is not told
    mend: Fact  # what to write in the list
    option: Fact | None  # what to type instead, in the terminal


@dataclass(frozen=True, slots=True, kw_only=True)
class ListPreview:
    """A weight list as it was understood, complete: every column, every row, every sum."""

    name: str
    how: tuple[Fact, ...]  # how the file was read
    columns: tuple[ColumnRead, ...]
    rows: tuple[RowRead, ...]
    items: tuple[Item, ...]
    sums: tuple[SumRead, ...]
    asks: tuple[Ask, ...]
    answers: Answers
    mass_unit: str  # in which the list's masses are shown
    length_unit: str

    @property
    def mass(self) -> float:
        """Return the mass of everything that goes in [kg]."""
        return sum(item.mass for item in self.items)

    @property
    def not_understood(self) -> tuple[RowRead, ...]:
        """Return the rows that do not go in though they may be parts."""
        return tuple(row for row in self.rows if row.use == "not understood")
