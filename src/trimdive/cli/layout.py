"""How text stands on the terminal: at most 80 columns, readable without colour."""

import re
from collections.abc import Iterator
from typing import Any

from rich.console import Console, ConsoleOptions
from rich.measure import Measurement
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
COLUMNS = 6  # of a table whose names keep that breadth, at most [-]
JOINED = "\ue000"  # stands between a figure and its unit while lines are broken
UNITS = (
    "%|°|°C|°F|g|kg|mg|oz|lb|mm|cm|m|in|ft|mm²|cm²|m²|in²|cm³|m³|in³|ml|L|kg/m³|g mm|g/cm³|m/s|"
    "N|N m|bar|V|A|Ah|W|Wh|s|min|h"
)
FIGURE = re.compile(rf"(?<=[\d–]) (?=(?:{UNITS})(?![\w°³²/]))")  # the blank before a unit


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


class Whole:
    """A text that is broken into lines, but never between a figure and its unit."""

    def __init__(self, text: str, style: str = "") -> None:
        """Keep each figure and its unit together."""
        self.text = Text(FIGURE.sub(JOINED, text), style=style)

    def __rich_console__(self, console: Console, options: ConsoleOptions) -> Iterator[Text]:
        """Yield its lines."""
        lines = self.text.wrap(
            console, options.max_width, justify=options.justify,
            overflow=options.overflow or "fold", no_wrap=options.no_wrap,
        )  # fmt: skip
        for one in lines:
            one.plain = one.plain.replace(JOINED, " ")
            yield one

    def __rich_measure__(self, console: Console, options: ConsoleOptions) -> Measurement:
        """Return how narrow and how wide it may be."""
        return self.text.__rich_measure__(console, options)


def _laid_out(block: object) -> object:
    """Return a block as the terminal has it; anything else as it is."""
    if isinstance(block, Words):
        said = " ".join(one for one in (block.text, block.typed) if one)
        return Whole(f"\n{said}", "bold") if block.is_heading else Whole(said)
    if isinstance(block, Grid):
        return _table(block)
    return _beside(block) if isinstance(block, Labelled) else block


def _table(block: Grid) -> Table:
    made = Table(box=None, padding=(0, block.gap, 0, 0), pad_edge=False, header_style="bold")
    least = NAMES if len(block.head) <= COLUMNS else 0  # more than fits is cut off, not wrapped
    for k, title in enumerate(block.head):
        side = "right" if k in block.right else "left"
        made.add_column(title, justify=side, overflow="fold", min_width=0 if k else least)
    for cells in block.rows:
        made.add_row(*(Whole(cell) for cell in cells))
    return made


def _beside(block: Labelled) -> Table:
    made = Table.grid(padding=(0, 1, 0, 0))
    made.add_column(no_wrap=True)
    made.add_column(overflow="fold")
    for label, text in block.rows:
        made.add_row(Whole(" " * block.indent + label), Whole(text))
    return made
