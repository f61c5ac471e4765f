"""Refuses what is a record of weights by dates, such as one person's, and no list of parts."""

import re
from collections.abc import Sequence

from trimdive.errors import ListError
from trimdive.weightlists.records import ColumnRead
from trimdive.weightlists.sheet import Line

DATE = re.compile(
    r"(?:date )?(?:\d{4}[-./]\d{1,2}[-./]\d{1,2}(?:[T ].*)?|\d{1,2}[-./]\d{1,2}[-./]\d{2,4}"
    r"|\d{1,2}[. -]+[^\W\d]{3,9}\.?,?[ -]*(?:\d{2}|\d{4})?|[^\W\d]{3,9}\.? \d{1,2},? \d{4})"
)
MOST = 0.7  # of the filled cells are dates: a column of dates [-]
ROWS = 2  # that a record has at least


def refuse_dates(name: str, columns: Sequence[ColumnRead], body: Sequence[Line]) -> None:
    """Refuse a list whose rows are told apart by dates alone.

    Args:
        name: Of the file.
        columns: As understood; none of them need hold names.
        body: The rows below the heads.

    Raises:
        ListError: It is such a record.
    """
    dates = [
        k for k in range(max((len(line.cells) for line in body), default=0)) if _dates(k, body)
    ]
    named = [c.index for c in columns if c.use == "name" and c.index not in dates]
    if not dates or any(_differ(k, body) for k in named):
        return
    what = "its rows are weights by dates, not the parts of a boat"
    raise ListError(what, name, "Name a list with a part and its mass on each row.")


def _dates(k: int, body: Sequence[Line]) -> bool:
    """Return whether a column holds dates, most of them different."""
    texts = [text for line in body if (text := line.cell(k).text)]
    found = [text for text in texts if DATE.fullmatch(text)]
    return len(set(found)) >= ROWS and len(found) > MOST * len(texts)


def _differ(k: int, body: Sequence[Line]) -> bool:
    """Return whether a column holds different names."""
    return len({text.casefold() for line in body if (text := line.cell(k).text)}) > 1
