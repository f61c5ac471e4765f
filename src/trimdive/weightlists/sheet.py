"""A list as it lies in its file: rows of cells, before anything in it is understood."""

import re
import unicodedata
from dataclasses import dataclass

from trimdive.fact import Fact

LARGEST = 16 * 2**20  # a list that a person keeps, packed or not [bytes]
MOST_ROWS, MOST_COLUMNS = 5000, 100


TERMINAL = re.compile(r"\x1b(?:\[[0-9;?]*[ -/]*[@-~]|\][^\x07\x1b]*(?:\x07|\x1b\\)?|.)?")
UNSEEN = ("Cc", "Cf", "Co", "Cs")  # kinds of signs that show nothing and may move what is shown


def plain(text: str) -> str:
    r"""Return a text on one line without signs that no cell should hold, such as a terminal's.

    >>> plain("a  \x1b[31mred\x1b[0m\nrod")
    'a red rod'
    """
    text = " ".join(TERMINAL.sub("", text).split())
    return "".join(sign for sign in text if unicodedata.category(sign) not in UNSEEN)


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """One cell."""

    text: str = ""
    is_number: bool = False  # stored as a number: its point is a decimal point
    unit: str = ""  # that its number format shows behind the number
    formula: str = ""
    merged_with: int = 0  # row of the cell of which it is the lower part; 0 where it stands alone

    @property
    def is_blank(self) -> bool:
        """Return whether nothing stands in it."""
        return not self.text and not self.formula


BLANK = Cell()


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One row and its number in the file, counted from one."""

    number: int
    cells: tuple[Cell, ...]

    def cell(self, column: int) -> Cell:
        """Return a cell; beyond the end of the row it is blank."""
        return self.cells[column] if column < len(self.cells) else BLANK

    @property
    def filled(self) -> tuple[int, ...]:
        """Return the columns in which something stands."""
        return tuple(k for k, cell in enumerate(self.cells) if not cell.is_blank)

    @property
    def text(self) -> str:
        """Return what stands in it, for a person."""
        return " | ".join(cell.text or cell.formula for cell in self.cells if not cell.is_blank)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """Rows of cells, and how they were read."""

    name: str
    lines: tuple[Line, ...]
    how: tuple[Fact, ...]  # how they were read
    separator: str = ""  # between the cells of a text; "" in a workbook

    @property
    def width(self) -> int:
        """Return the number of columns."""
        return max((len(line.cells) for line in self.lines), default=0)


def letter(column: int) -> str:
    """Return the letters of a column that is counted from nought, as spreadsheets have them.

    >>> letter(0), letter(27)
    ('A', 'AB')
    """
    text, column = "", column + 1
    while column:
        column, rest = divmod(column - 1, 26)
        text = chr(65 + rest) + text
    return text
