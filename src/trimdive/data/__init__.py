"""The shipped tables: one loader, one place for each fact."""

import csv
from functools import cache
from importlib.resources import files

from trimdive.errors import DataError

Row = dict[str, str]
FROM_MEMORY = "from memory"


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


def standing(entry: Row) -> str:
    """Return what a row is worth: published, common practice, from memory ...

    Its own status where it has one; else from memory where its locator says so; else what the kind
    of its source makes it.

    Raises:
        DataError: Its source is not in the table of sources.
    """
    if entry.get("status"):
        return entry["status"]
    if entry.get("locator", "").endswith(FROM_MEMORY):
        return FROM_MEMORY
    return row("standings", row("sources", entry["source"])["kind"])["standing"]


def cited(key: str) -> str:
    """Return how a source is cited: its title and its edition.

    >>> cited("practice"), cited("machinery-handbook")
    ('Common practice, no source', "Machinery's Handbook, 31st edition")

    Raises:
        DataError: There is no such source.
    """
    entry = row("sources", key)
    return ", ".join(entry[name] for name in ("title", "edition") if entry[name])


def cited_by(entry: Row) -> str:
    """Return how the source of a row is cited, with "from memory" where that is what it is.

    Raises:
        DataError: Its source is not in the table of sources.
    """
    said = cited(entry["source"])
    is_entered = row("sources", entry["source"])["kind"] == "memory"
    return said if is_entered or standing(entry) != FROM_MEMORY else f"{said} ({FROM_MEMORY})"
