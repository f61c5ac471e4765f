"""The shipped tables: one loader, one place for each fact."""

import csv
from functools import cache
from importlib.resources import files

from trimdive.errors import DataError

Row = dict[str, str]


@cache
def table(name: str) -> tuple[Row, ...]:
    """Return the rows of ``data/<name>.csv``; lines that begin with # are comments.

    Raises:
        DataError: There is no such table.
    """
    source = files(__name__).joinpath(f"{name}.csv")
    if not source.is_file():
        raise DataError(f"there is no table '{name}'", "data", "Use a name from the data folder.")
    lines = (line for line in source.read_text("utf-8").splitlines() if line and line[0] != "#")
    return tuple(csv.DictReader(lines))


@cache
def constant(key: str) -> float:
    """Return a constant of ``constants.csv`` in SI.

    Raises:
        DataError: There is no such constant.
    """
    return float(row("constants", key)["value"])


def row(name: str, key: str) -> Row:
    """Return the row of ``data/<name>.csv`` whose first column reads ``key``.

    Raises:
        DataError: The table has no such row.
    """
    rows = table(name)
    first = next(iter(rows[0]))
    for entry in rows:
        if entry[first] == key:
            return entry
    known = ", ".join(entry[first] for entry in rows)
    raise DataError(f"no row '{key}'", f"{name}.csv", f"Known: {known}.")
