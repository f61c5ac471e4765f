"""A table: columns by name, each an array; it shows itself as a table in a notebook."""

from collections.abc import Iterable, Mapping
from html import escape

import numpy as np
from numpy.typing import NDArray

SHOWN = 60  # rows that a notebook shows; of more, the first and the last [-]


class Table(dict[str, NDArray[np.generic]]):
    """Columns by name, each an array of one length.

    It is a plain dict, so that any library of data frames takes it. A key ends with its unit where
    the column has one, as in JSON: ``_m``, ``_kg``, ``_rad``; shares have none.
    """

    @property
    def rows(self) -> int:
        """Return how many rows it has [-]."""
        return len(next(iter(self.values()), ()))

    def __repr__(self) -> str:
        """Return how large it is, and the first of its columns."""
        names = list(self)
        more = f", … {len(names) - 6} more" if len(names) > 6 else ""
        return f"Table({self.rows} rows: {', '.join(names[:6])[:160]}{more})"

    def _repr_html_(self) -> str:
        """Return it as a notebook shows it."""
        rows = list(zip(*self.values(), strict=True))
        half = SHOWN // 2
        gap = [("…",) * len(self)] if len(rows) > SHOWN else []
        shown = [*rows[:half], *gap, *rows[-half:]] if gap else rows
        head = "".join(f"<th>{escape(name)}</th>" for name in self)
        body = "".join(f"<tr>{_cells(row)}</tr>" for row in shown)
        return f"<table><thead><tr>{head}</tr></thead><tbody>{body}</tbody></table>"


def _cells(row: Iterable[object]) -> str:
    """Return one row's cells as HTML."""
    texts = [f"{one:.4g}" if isinstance(one, float) else str(one) for one in row]
    return "".join(f"<td>{escape(text)}</td>" for text in texts)


def table_of(rows: Iterable[Mapping[str, object]], columns: Iterable[str] = ()) -> Table:
    """Return rows as a table; a figure that is None is not a number there.

    Args:
        rows: All with the same keys.
        columns: Those keys, where there may be no rows.
    """
    listed = list(rows)
    names = list(listed[0]) if listed else list(columns)
    return Table({name: _column([row[name] for row in listed]) for name in names})


def _column(values: list[object]) -> NDArray[np.generic]:
    """Return values as an array of texts, truths or numbers."""
    if any(isinstance(one, str) for one in values):
        return np.array(["" if one is None else one for one in values], dtype=str)
    if values and all(isinstance(one, bool) for one in values):
        return np.array(values, dtype=bool)
    return np.array([np.nan if one is None else one for one in values], dtype=float)
