"""Room along her: areas inside the skin, taken up and left, and the largest tube by its height."""

from typing import TYPE_CHECKING

import numpy as np

from trimdive.findings import limit_of
from trimdive.fit.inside import by_height
from trimdive.pictures.charts.frame import (
    HUES,
    Axis,
    Chart,
    Row,
    framed,
    kinds,
    lines,
    panel,
    span,
)
from trimdive.text.fit_text import heights_up
from trimdive.units import number_in

if TYPE_CHECKING:
    from collections.abc import Sequence

    from trimdive.assessment import Assessment
    from trimdive.fit.fitted import Fit
    from trimdive.geometry.lines.mesh import Floats

FINE = 160  # places along her at which a tube is drawn [-]
COARSER = {"mm": "cm"}  # in which areas are told where lengths are in another unit
HEIGHT = 240  # of a panel [px]


def room_charts(her: "Assessment", found: "Fit") -> "dict[str, Chart]":
    """Return the charts of the room in her by their names.

    Args:
        her: The boat.
        found: How things fit into her.
    """
    tubes = tube_chart(her, found)
    return {"areas": area_chart(her, found), **({"tubes": tubes} if tubes else {})}


def area_chart(her: "Assessment", found: "Fit") -> Chart:
    """Return the chart of the areas of sections along her."""
    cuts, unit = found.sections, her.boat.units.shown("length")
    unit = COARSER.get(unit, unit)
    names = ("inside the skin", "left over", "taken up")
    curves = zip(names, (cuts.inside, cuts.free, cuts.taken), strict=True)
    areas = {name: area / number_of(unit) ** 2 for name, area in curves}
    rows = [one for name, area in areas.items() for one in _rows(her, cuts.x, area, name)]
    high = span([float(area.max()) for area in areas.values()])[1]
    y = Axis(field="value", title=f"area [{unit}²]", low=0.0, high=high)
    drawn = panel([lines(rows, _along(her, found), y, kinds("what", names))], height=HEIGHT)
    under = "Areas of sections across her; what is left over is free for parts, lead and foam"
    return framed(drawn, f"{her.boat.name}: room along her", under)


def tube_chart(her: "Assessment", found: "Fit") -> Chart | None:
    """Return the chart of the largest tube along her at some heights; None where none goes in."""
    units = her.boat.units
    unit, gap = units.shown("length"), limit_of("gap-cylinder", her.boat).value
    heights = _some(heights_up(found, gap), found, gap)
    if not len(heights):
        return None
    low, high = found.room.x[[0, -1]].tolist()
    x = np.linspace(low, high, FINE)
    across = by_height(found.room, gap, x, heights).T / number_of(unit)
    names = [f"axis {units.write(one, 'length')} up" for one in heights.tolist()]
    each = zip(names, across, strict=True)
    rows = [one for name, line in each for one in _rows(her, x, line, name)]
    top = span([float(across.max())])[1]
    y = Axis(field="value", title=f"outside diameter [{unit}]", low=0.0, high=top)
    drawn = panel([lines(rows, _along(her, found), y, kinds("what", names))], height=HEIGHT)
    under = f"On the middle line of the empty hull, {units.write(gap, 'length')} clear all round; "
    under += "a long tube has the least over its length"
    return framed(drawn, f"{her.boat.name}: largest tube along her", under)


def number_of(unit: str) -> float:
    """Return how long a unit of length is [m]."""
    return 1.0 / number_in(1.0, "length", unit)


def _along(her: "Assessment", found: "Fit") -> Axis:
    """Return the side along her, as the builder measures it; the bow stands to the right."""
    unit = her.boat.units.shown("length")
    ends = [
        number_in(her.boat.along(float(x)), "length", unit) for x in found.room.x[[0, -1]].tolist()
    ]
    title = f"from the {her.boat.entered_from} [{unit}]"
    return Axis(field="x", title=title, low=min(ends), high=max(ends), is_down=ends[0] > ends[1])


def _rows(her: "Assessment", x: "Floats", values: "Floats", name: str) -> list[Row]:
    unit = her.boat.units.shown("length")
    places = [number_in(her.boat.along(at), "length", unit) for at in x.tolist()]
    return [
        {"x": place, "value": value, "what": name, "run": name, "at": k}
        for k, (place, value) in enumerate(zip(places, values.tolist(), strict=True))
    ]


def _some(heights: "Floats", found: "Fit", gap: float) -> "Floats":
    """Return a few of the heights: those at which the largest tubes go in, lowest first."""
    if not len(heights):
        return heights
    widest = by_height(found.room, gap, found.room.x, heights).max(axis=0)
    best: Sequence[int] = np.argsort(-widest, kind="stable")[: len(HUES)].tolist()
    return heights[sorted(best)]
