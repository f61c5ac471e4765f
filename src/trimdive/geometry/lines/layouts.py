"""From the figures of a table to sections, one function for each layout."""

import math

import numpy as np

from trimdive.geometry.lines.mesh import Floats
from trimdive.geometry.lines.station import SAME_PLACE, Station, station

Pin = tuple[float, float, str, bool]  # half-breadth [m], height [m], line through it, knuckle
Head = tuple[str, float]  # word of a column, and its height if it is one of offsets [m]

PINS = 24  # in each of the two arcs of a section that is given by figures [-]


def sections(
    layout: str,
    heads: list[Head],
    figures: Floats,
    cells: tuple[tuple[str, ...], ...],
    rows: tuple[int, ...],
) -> tuple[Station, ...]:
    """Return the sections of a table, in the order of its rows.

    Args:
        layout: Which of the four layouts.
        heads: The columns.
        figures: The cells in SI, shape (rows, columns) [m].
        cells: The cells as typed.
        rows: The line of the file that each row stands on.
    """
    if layout == "points":
        return _from_points(heads, figures, cells, rows)
    words = [word for word, _ in heads]
    pins = {"offsets": _from_offsets, "figures": _from_figures, "radii": _from_radii}[layout]
    lowest = figures[:, words.index("radius")].max() if layout == "radii" else 0.0
    stations: list[Station] = []
    for values, row_cells, row in zip(figures, cells, rows, strict=True):
        named = dict(zip(words, values.tolist(), strict=True)) | {"": lowest}
        run = pins(heads, named, dict(zip(words, row_cells, strict=False)))
        stations.append(station(named["x"], run, row))
    return tuple(stations)


def _from_points(
    heads: list[Head], figures: Floats, cells: tuple[tuple[str, ...], ...], rows: tuple[int, ...]
) -> tuple[Station, ...]:
    """Return a section for each run of rows with the same x."""
    words = [word for word, _ in heads]
    x, y, z = (figures[:, words.index(word)] for word in "xyz")
    mark = words.index("knuckle") if "knuckle" in words else len(words)
    moves = np.concatenate([[True], np.abs(np.diff(x)) > SAME_PLACE])
    starts = [int(i) for i in np.flatnonzero(moves)]
    stations: list[Station] = []
    for start, stop in zip(starts, [*starts[1:], len(x)], strict=True):
        names = [(cells[i] + ("",) * len(words))[mark : mark + 1] for i in range(start, stop)]
        pins = [
            (float(y[i]), float(z[i]), *_knuckle(name, i - start))
            for i, name in zip(range(start, stop), names, strict=True)
        ]
        stations.append(station(float(x[start]), _with_flats(pins), rows[start]))
    return tuple(stations)


def _with_flats(pins: list[Pin]) -> list[Pin]:
    """Return the pins with the edge of a level deck, and of a flat keel, made a knuckle."""
    pins = [*pins]
    for centre, edge, name in ((-1, -2, "deck edge"), (0, 1, "keel edge")):
        y, z, named, _ = pins[edge] if len(pins) > 2 else (0.0, 0.0, "", False)
        if not named and y > SAME_PLACE and pins[centre][0] <= SAME_PLACE and z == pins[centre][1]:
            pins[edge] = (y, z, name, True)
    return pins


def _knuckle(name: tuple[str, ...], at: int) -> tuple[str, bool]:
    """Return the name of the knuckle at a point; a plain mark is named by its place."""
    text = name[0].lower() if name else ""
    if text in {"x", "yes", "1", "*"}:
        text = f"knuckle {at}"
    return ("", False) if text in {"", "no", "0"} else (text, True)


def _from_offsets(heads: list[Head], figures: dict[str, float], words: dict[str, str]) -> list[Pin]:
    """Return the pins of a section given by half-breadths at heights."""
    sharp = words.get("knuckles", "").lower().split()
    keel, has_keel = figures["keel"], "keel" in sharp
    pins: list[Pin] = [(0.0, keel, "keel" if has_keel else "", has_keel)]
    if figures.get("keel half", 0.0) > 0.0:
        pins.append((figures["keel half"], keel, "keel edge", True))
    for word, height in sorted(heads, key=lambda head: head[1]):
        if not (math.isnan(height) or math.isnan(figures[word])):
            name = f"knuckle {word}" if word in sharp else ""
            pins.append((figures[word], height, name, bool(name)))
    if "deck" in figures:
        pins.append((figures.get("deck half", 0.0), figures["deck"], "deck edge", True))
        pins.append((0.0, figures["deck"], "", False))
    return pins


def _from_figures(heads: list[Head], figures: dict[str, float], words: dict[str, str]) -> list[Pin]:
    """Return the pins of a section of two arcs and a flat deck.

    Below the greatest breadth (y/b)^p + ((zm − z)/(zm − zk))^p = 1; above it a quarter of an
    ellipse from the greatest breadth to the edge of the deck.
    """
    power = figures.get("power", 2.0)
    angle = np.linspace(0.0, np.pi / 2.0, PINS)
    keel, widest, deck = figures["keel"], figures["widest"], figures["deck"]
    half, edge = figures["half breadth"], figures["deck half"]
    low_y = half * np.sin(angle) ** (2.0 / power)
    low_z = widest - (widest - keel) * np.cos(angle) ** (2.0 / power)
    low_z[-1] = widest
    top_y = edge + (half - edge) * np.cos(angle[1:])
    top_z = widest + (deck - widest) * np.sin(angle[1:])
    top_y[-1] = edge
    pins: list[Pin] = [(float(y), float(z), "", False) for y, z in zip(low_y, low_z, strict=True)]
    pins[-1] = (half, widest, "widest", False)
    pins += [(float(y), float(z), "", False) for y, z in zip(top_y, top_z, strict=True)]
    pins[-1] = (edge, deck, "deck edge", True)
    return [*pins, (0.0, deck, "", False)]


def _from_radii(heads: list[Head], figures: dict[str, float], words: dict[str, str]) -> list[Pin]:
    """Return the pins of a circle; without an axis column its hull stands on the keel line."""
    radius, axis = figures["radius"], figures.get("axis", figures[""])
    angle = np.linspace(0.0, np.pi, 2 * PINS)
    y, z = radius * np.sin(angle), axis - radius * np.cos(angle)
    y[-1] = 0.0
    return [(float(a), float(b), "", False) for a, b in zip(y, z, strict=True)]
