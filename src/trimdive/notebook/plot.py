"""Curves out of tables, in the look of the project's own charts."""

from collections.abc import Mapping, Sequence

import numpy as np

from trimdive.errors import AskError
from trimdive.notebook.picture import Picture
from trimdive.pictures.charts.frame import HUES, Axis, Row, framed, kinds, lines, panel, span, svg
from trimdive.tables import Table

HEIGHT = 300  # of the chart [px]


def plot(
    curves: Mapping[str, Table], *, x: str = "share", y: str = "trim_bow_down_rad", title: str = ""
) -> Picture:
    """Return columns of tables against each other, a curve for each table.

    Args:
        curves: At most four tables, by what each is called.
        x: Column that stands along.
        y: Column that stands up; angles [rad] are shown in degrees.
        title: What it shows.

    Raises:
        AskError: A column is not there, there are too many curves or none.
    """
    if not 1 <= len(curves) <= len(HUES):
        raise AskError(f"{len(curves)} curves", "plot", f"Give 1 to {len(HUES)} tables.")
    along = {name: _column(table, x) for name, table in curves.items()}
    up = {name: _column(table, y) for name, table in curves.items()}
    rows: list[Row] = [
        {"x": a, "y": b, "way": name, "run": name, "at": k}
        for name in curves
        for k, (a, b) in enumerate(zip(along[name], up[name], strict=True))
        if np.isfinite(a) and np.isfinite(b)
    ]
    axes = [axis(key, field, rows) for key, field in ((x, "x"), (y, "y"))]
    body = panel([lines(rows, axes[0], axes[1], kinds("way", tuple(curves)))], height=HEIGHT)
    return Picture(
        title=title or y, svg=svg(framed(body, title or _label(y), f"against {_label(x)}"))
    )


def _column(table: Table, key: str) -> Sequence[float]:
    """Return a column as it is shown.

    Raises:
        AskError: It is not there, or holds no figures.
    """
    if key not in table or table[key].dtype.kind not in "fib":
        known = ", ".join(name for name, one in table.items() if one.dtype.kind in "fib")
        raise AskError(f"there is no column of figures '{key}'", "plot", f"Known: {known}.")
    values = np.asarray(table[key], dtype=float)
    return (np.degrees(values) if key.endswith("_rad") else values).tolist()


def _label(key: str) -> str:
    """Return a column's name in words, with its unit.

    >>> _label("trim_bow_down_rad"), _label("bg_m"), _label("share")
    ('trim bow down [°]', 'bg [m]', 'share [-]')
    """
    stem, _, unit = key.rpartition("_")
    shown = {"rad": "°", "m": "m", "m2": "m²", "m3": "m³", "kg": "kg", "m/s": "m/s"}
    if not stem or unit not in shown:
        return f"{key.replace('_', ' ')} [-]"
    return f"{stem.replace('_', ' ')} [{shown[unit]}]"


def axis(key: str, field: str, rows: Sequence[Row]) -> Axis:
    """Return the axis of a column: along as far as it reaches, up with some room.

    >>> one = axis("share", "x", [{"x": 0.0}, {"x": 1.0}])
    >>> one.low, one.high
    (0.0, 1.0)
    """
    values = [float(str(row[field])) for row in rows]
    reaches = field == "x" and bool(values) and min(values) < max(values)
    low, high = (min(values), max(values)) if reaches else span(values, zero=False)
    return Axis(field=field, title=_label(key), low=low, high=high)
