"""Where a table of lines looks wrong, and which figure was likely meant.

A figure is doubted where it stands off from what the other stations say at the same height and
from its neighbours in its own section as well, and where a common slip explains it.

Source: common practice, no source (a loftsman looks along the waterlines and down the sections).
"""

from collections.abc import Iterator
from dataclasses import dataclass

from trimdive.fact import Fact
from trimdive.geometry.lines.columns import column_suspects
from trimdive.geometry.lines.heads import heads_doubt
from trimdive.geometry.lines.order import order_doubt, place_doubt
from trimdive.geometry.lines.suspects import Change, Suspect
from trimdive.geometry.lines.swapped import swapped_points
from trimdive.geometry.lines.table import LinesTable, read_table, separator
from trimdive.geometry.lines.waterlines import waterline_suspects

LONG = 10_000  # cells; tables beyond it are not looked through [-]
MOST = 12  # doubts that are worth reading; more mean another table [-]
AT_ONCE = 12_000  # cells looked through at once; of a long table fewer doubts are told [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Doubt:
    """One figure of a table that looks wrong."""

    where: str  # table and line
    what: Fact  # what is doubted, and what was likely meant
    found: str  # as typed
    likely: str  # what was likely meant; '' where nothing common explains it
    off: float  # how far it stands off [m]
    changes: tuple[Change, ...]  # what mends it; none where it is for the builder to say


def doubts(table: LinesTable) -> tuple[Doubt, ...]:
    """Return the doubts about a table, the worst first; none if it is fair.

    A table longer than anybody measures by hand comes from a program and is taken as it is.

    Args:
        table: Lines as read.
    """
    cells = len(table.rows) * len(table.columns)
    if cells > LONG:
        return ()
    most = min(MOST, max(1, AT_ONCE // cells))
    found: list[Doubt] = []
    seen: set[str] = set()
    while len(found) < most and table.text not in seen and (suspect := _worst(table)):
        seen.add(table.text)
        found.append(_doubt(table, suspect))
        if not suspect.changes:
            break
        table = mended(table, found[-1])
    return tuple(found)


def mended(table: LinesTable, doubt: Doubt) -> LinesTable:
    """Return the table with the likely figure in place of the doubted one.

    Args:
        table: Lines as read.
        doubt: One of ``doubts(table)``.

    Raises:
        BoatFileError: The mended table cannot be read; the doubt was of another table.
    """
    mark = separator(table.text)
    lines = table.text.splitlines()
    for change in doubt.changes:
        cells = lines[change.line - 1].split(mark)
        cells[change.column] = change.likely
        lines[change.line - 1] = mark.join(cells)
    return read_table("\n".join([*lines, ""]), table.name)


def _worst(table: LinesTable) -> Suspect | None:
    """Return the figure that strains the lines most; places first, what has a likely mend next."""
    if misplaced := order_doubt(table) or heads_doubt(table) or place_doubt(table):
        return misplaced
    if swapped := next(_fair_swaps(table), None):
        return swapped
    suspects = [*column_suspects(table), *waterline_suspects(table)]
    return max(suspects, key=lambda one: (bool(one.changes), one.strain), default=None)


def _fair_swaps(table: LinesTable) -> Iterator[Suspect]:
    """Yield points in each other's place that leave nothing to doubt there when exchanged."""
    for swap in swapped_points(table):
        lines = {change.line for change in swap.changes}
        after = mended(table, _doubt(table, swap))
        if not any(
            one.line in lines for one in [*column_suspects(after), *waterline_suspects(after)]
        ):
            yield swap


def _doubt(table: LinesTable, suspect: Suspect) -> Doubt:
    return Doubt(
        where=f"{table.name}:{suspect.line}",
        what=suspect.what,
        found=suspect.found,
        likely=suspect.likely,
        off=abs(suspect.off),
        changes=suspect.changes,
    )
