"""How text stands on the terminal: at most 80 columns, readable without colour."""

from collections.abc import Iterable, Sequence

from rich.console import Console
from rich.table import Table
from rich.text import Text

from trimdive.data import row

WIDEST = 80  # columns
NAMES = 14  # columns for names at the least, however narrow the terminal

Block = Text | Table
Cells = Sequence[str]


def console() -> Console:
    """Return the terminal, no wider than is good to read."""
    terminal = Console(highlight=False, markup=False, emoji=False)
    terminal.width = min(WIDEST, terminal.width)
    return terminal


def line(text: str = "") -> Text:
    """Return a paragraph."""
    return Text(text)


def heading(text: str) -> Text:
    """Return a heading with an empty line above it."""
    return Text(f"\n{text}", style="bold")


def table(head: Cells, rows: Iterable[Cells], right: Iterable[int] = (), gap: int = 2) -> Table:
    """Return a table without lines around it.

    Args:
        head: Heads of the columns.
        rows: Its rows; an empty one makes room.
        right: Columns whose figures stand to the right.
        gap: Blanks between columns.
    """
    flush = set(right)
    made = Table(box=None, padding=(0, gap, 0, 0), pad_edge=False, header_style="bold")
    for k, title in enumerate(head):
        side = "right" if k in flush else "left"
        made.add_column(title, justify=side, overflow="fold", min_width=0 if k else NAMES)
    for cells in rows:
        made.add_row(*(Text(cell) for cell in cells))
    return made


def labelled(rows: Iterable[tuple[str, str]], indent: int = 0) -> Table:
    """Return texts that wrap beside their labels."""
    made = Table.grid(padding=(0, 1, 0, 0))
    made.add_column(no_wrap=True)
    made.add_column(overflow="fold")
    for label, text in rows:
        made.add_row(Text(" " * indent + label), Text(text))
    return made


def terms(*names: str) -> Table:
    """Return what some terms mean, as the glossary has them."""
    return labelled((name, row("glossary", name)["meaning"]) for name in names)
