"""How text stands on the terminal: at most 80 columns, readable without colour."""

from typing import Any

from rich.console import Console
from rich.table import Table
from rich.text import Text

from trimdive.text.layout import (
    Block,
    Cells,
    Grid,
    Labelled,
    Words,
    heading,
    labelled,
    line,
    table,
    terms,
)

__all__ = ["Block", "Cells", "console", "heading", "labelled", "line", "table", "terms"]

WIDEST = 80  # columns
NAMES = 14  # columns for names at the least, however narrow the terminal


class Terminal(Console):
    """A terminal that lays out blocks of what is told."""

    def print(self, *objects: Any, **how: Any) -> None:
        """Print blocks, and whatever else there is."""
        super().print(*(_laid_out(one) for one in objects), **how)


def console() -> Console:
    """Return the terminal, no wider than is good to read."""
    terminal = Terminal(highlight=False, markup=False, emoji=False)
    terminal.width = min(WIDEST, terminal.width)
    return terminal


def _laid_out(block: object) -> object:
    """Return a block as the terminal has it; anything else as it is."""
    if isinstance(block, Words):
        said = " ".join(one for one in (block.text, block.typed) if one)
        return Text(f"\n{said}", style="bold") if block.is_heading else Text(said)
    if isinstance(block, Grid):
        return _table(block)
    return _beside(block) if isinstance(block, Labelled) else block


def _table(block: Grid) -> Table:
    made = Table(box=None, padding=(0, block.gap, 0, 0), pad_edge=False, header_style="bold")
    for k, title in enumerate(block.head):
        side = "right" if k in block.right else "left"
        made.add_column(title, justify=side, overflow="fold", min_width=0 if k else NAMES)
    for cells in block.rows:
        made.add_row(*(Text(cell) for cell in cells))
    return made


def _beside(block: Labelled) -> Table:
    made = Table.grid(padding=(0, 1, 0, 0))
    made.add_column(no_wrap=True)
    made.add_column(overflow="fold")
    for label, text in block.rows:
        made.add_row(Text(" " * block.indent + label), Text(text))
    return made
