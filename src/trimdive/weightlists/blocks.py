"""What of a sheet is the list: tables beside it, and lists with other heads below it."""

from collections.abc import Sequence
from dataclasses import replace

from trimdive.fact import fact
from trimdive.weightlists.sheet import BLANK, Line, Sheet
from trimdive.weightlists.words import MASSES, head_of, head_score

ENOUGH = 3  # score of a row that can be heads: a mass, and one more
TEXTS = 2  # cells that heads have at least


def without_side_tables(sheet: Sheet, top: int) -> Sheet:
    """Return the sheet without tables that stand beside the list, parted from it by a blank column.

    Args:
        sheet: All of it.
        top: Index of the line with the heads; -1 where none does.
    """
    if top < 0:
        return sheet
    lines = sheet.lines[top:]
    spans = _spans(lines, sheet.width)
    if len(spans) < 2:
        return sheet
    best = max(spans, key=lambda span: head_score(_texts(lines[0], span)))
    uses = _uses(lines[0], best)
    beside = [span for span in spans if span != best and _is_beside(lines[0], span, uses)]
    if not beside:
        return sheet
    gone = {k for low, high in beside for k in range(low, high)}
    note = fact("side-table", spans=tuple((low, high - 1) for low, high in beside))
    kept = tuple(_without(line, gone) for line in lines)
    return replace(sheet, lines=(*sheet.lines[:top], *kept), how=(*sheet.how, note))


def _spans(lines: Sequence[Line], width: int) -> list[tuple[int, int]]:
    """Return the runs of columns between those that are blank from the heads down."""
    filled = {k for line in lines for k in line.filled}
    found: list[tuple[int, int]] = []
    for k in sorted(k for k in filled if k < width):
        if found and found[-1][1] == k:
            found[-1] = found[-1][0], k + 1
        else:
            found.append((k, k + 1))
    return found


def _texts(line: Line, span: tuple[int, int]) -> list[str]:
    """Return the texts of a line in some columns."""
    return [cell.text for k in range(*span) if (cell := line.cell(k)).text and not cell.is_number]


def _uses(line: Line, span: tuple[int, int]) -> set[str]:
    """Return what the heads in some columns mean."""
    return {head_of(text).column.partition("/")[0] for text in _texts(line, span)} - {""}


def _is_beside(heads: Line, span: tuple[int, int], uses: set[str]) -> bool:
    """Return whether columns are a table of their own: they head nothing new, or a mass again."""
    own = _uses(heads, span)
    has_mass = bool(own & set(MASSES)) and bool(uses & set(MASSES))
    return not own - {"aside", "moment", "note"} or has_mass or (own & uses == own)


def _without(line: Line, gone: set[int]) -> Line:
    """Return a line without some of its columns."""
    cells = [BLANK if k in gone else cell for k, cell in enumerate(line.cells)]
    while cells and cells[-1].is_blank and not cells[-1].merged_with:
        cells.pop()
    return replace(line, cells=tuple(cells))


def other_heads(lines: Sequence[Line], heads: Sequence[str]) -> int:
    """Return the index of the first line that heads another list, or -1.

    Args:
        lines: Those below the heads.
        heads: As they stand.
    """
    for k, line in enumerate(lines):
        texts = [cell.text for cell in line.cells if cell.text]
        is_words = not any(cell.is_number or cell.text[:1].isdigit() for cell in line.cells)
        again = tuple(line.cell(i).text for i in range(len(heads))) == tuple(heads)
        if again or not is_words or len(texts) < TEXTS or head_score(texts) < ENOUGH + 1:
            continue
        columns = {head_of(text).column for text in texts}
        if "name" in columns and columns & set(MASSES):
            return k
    return -1
