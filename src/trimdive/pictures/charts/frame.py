"""The frame that all charts share: lettering, axes, lines, and SVG out of a chart's dictionary.

Ink is ``currentColor`` on a transparent ground, so that one chart serves light, dark and paper;
curves differ by their dashes as well as by their colours.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, floor, log10
from textwrap import wrap
from xml.sax.saxutils import escape

from trimdive.pictures.charts.drawer import DRAWER

Chart = dict[str, object]
Row = dict[str, object]

FACE = "DejaVu Sans, sans-serif"
INK = "currentColor"
BLUE, RUST = "#2f6f8f", "#a1330c"  # the page's own, which puts its dark ones in their place
HUES = (INK, BLUE, RUST, "#5b5852")  # with their dashes; the colour-blind go by these
DASHES: tuple[tuple[float, ...], ...] = ((1, 0), (7, 4), (2, 3), (9, 3, 2, 3))
WIDTH = 660  # of a panel [px]
LETTER = 8.4  # breadth of a letter of the labels, on the safe side [px]
BROAD = int(WIDTH / LETTER)  # letters of a line under the title [-]
ROOM = 0.08  # of a scale, left free above and below the curves [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Axis:
    """What stands along one side of a chart."""

    field: str
    title: str
    low: float  # value at its lower end [of what it shows]
    high: float  # value at its upper end [of what it shows]
    shown: bool = True  # False where a panel below carries figures and title
    steps: tuple[float, ...] = ()  # where figures stand; none: where it suits [same]
    is_down: bool = False  # larger values stand lower

    @property
    def top(self) -> float:
        """Return the value at the upper end [of what it shows]."""
        return self.low if self.is_down else self.high

    @property
    def scale(self) -> Chart:
        """Return the scale, with its ends told."""
        ends: Chart = {"domain": [self.low, self.high], "nice": False, "zero": False}
        return {**ends, "reverse": True} if self.is_down else ends

    def encoding(self) -> Chart:
        """Return how a figure stands along this side."""
        look: Chart = {"title": self.title, "format": "~f", "labels": self.shown}
        if self.steps:
            look["values"] = list(self.steps)
        if not self.shown:
            look["title"] = None
        return {"field": self.field, "type": "quantitative", "scale": self.scale, "axis": look}


def span(values: Sequence[float], *, least: float = 0.0, zero: bool = True) -> tuple[float, float]:
    """Return handy ends of a scale for these values, with some room.

    Args:
        values: What must find place [any unit].
        least: How far apart the ends are at the least [the same unit].
        zero: Whether 0 must find place too.

    >>> span([1.0, 7.9])
    (0.0, 8.6)
    """
    known = [*values, *([0.0] if zero else [])] or [0.0]
    low, high = min(known), max(known)
    run = max(high - low, least, 1e-9, 1e-6 * abs(high))
    grain = 10.0 ** floor(log10(run)) / 5
    below = low - ROOM * run if low < 0 or not zero else low
    above = high + ROOM * run if high > 0 or not zero else high
    above = max(above, low + least, low + grain)
    return floor(below / grain) * grain, ceil(above / grain) * grain


def kinds(field: str, names: Sequence[str], *, legend: bool = True) -> Chart:
    """Return colour and dashes by name, in this order, with or without a legend."""
    look = {"title": None, "orient": "top", "symbolSize": 900, "offset": 6} if legend else None
    order = list(names)
    colours, dashes = list(HUES[: len(order)]), [list(dash) for dash in DASHES[: len(order)]]
    return {
        "color": {
            "field": field,
            "type": "nominal",
            "scale": {"domain": order, "range": colours},
            "legend": look,
        },
        "strokeDash": {
            "field": field,
            "type": "nominal",
            "scale": {"domain": order, "range": dashes},
            "legend": look,
        },
    }


def lines(rows: Sequence[Row], x: Axis, y: Axis, colours: Chart) -> Chart:
    """Return curves through rows; those with another ``run`` do not hang together."""
    return {
        "data": {"values": list(rows)},
        "mark": {"type": "line", "strokeWidth": 2, "strokeJoin": "round"},
        "encoding": {
            "x": x.encoding(),
            "y": y.encoding(),
            "detail": {"field": "run", "type": "nominal"},
            "order": {"field": "at", "type": "quantitative"},
            **colours,
        },
    }


def label(row: Row, x: Axis, y: Axis, text: str, *, rise: int = -9) -> Chart:
    """Return a spot with words beside it, on the side that has room.

    Args:
        row: Holds the fields of both axes.
        x: Axis along.
        y: Axis up.
        text: The words.
        rise: How far under the spot the words stand [px].
    """
    share = (float(str(row[x.field])) - x.low) / (x.high - x.low)
    left = share > 0.5
    place = {"x": x.encoding(), "y": y.encoding()}
    words = {
        "type": "text",
        "text": text,
        "align": "right" if left else "left",
        "dx": -7 if left else 7,
        "dy": rise,
        "color": INK,
        "fontWeight": "bold",
    }
    spot = {"type": "point", "filled": True, "size": 55, "color": INK, "opacity": 1}
    return {
        "data": {"values": [row]},
        "layer": [{"mark": spot, "encoding": place}, {"mark": words, "encoding": place}],
    }


def upright_rules(rows: Sequence[Row], x: Axis) -> Chart:
    """Return fine lines across a panel where something happens."""
    rule = {"type": "rule", "color": INK, "strokeWidth": 0.8, "opacity": 0.45}
    return {
        "data": {"values": list(rows)},
        "mark": {**rule, "strokeDash": [2, 3]},
        "encoding": {"x": x.encoding()},
    }


def panel(layers: Sequence[Chart], *, height: int, title: str | None = None) -> Chart:
    """Return one chart of several layers."""
    made: Chart = {"width": WIDTH, "height": height, "layer": list(layers)}
    if title:
        made["title"] = {"text": title, "anchor": "start", "fontSize": 14}
    return made


def framed(body: Chart, title: str, under: str) -> Chart:
    """Return a whole chart with its title, the line under it, and the look that all share."""
    ink = {"labelColor": INK, "titleColor": INK}
    axis = {"domainColor": INK, "tickColor": INK, "gridColor": INK, "gridOpacity": 0.13}
    return {
        "$schema": "https://vega.github.io/schema/vega-lite/v5.json",
        "description": f"{title}. {under}",
        "title": {
            "text": title,
            "subtitle": wrap(under, BROAD),
            "anchor": "start",
            "color": INK,
            "subtitleColor": INK,
            "fontSize": 16,
            "subtitleFontSize": 14,
            "offset": 12,
        },
        **body,
        "config": {
            "font": FACE,
            "background": "transparent",
            "view": {"stroke": None},
            "axis": {**ink, **axis, "titleFontSize": 14, "labelFontSize": 14, "titlePadding": 8},
            "axisY": {"minExtent": 46},
            "legend": {**ink, "labelFontSize": 14},
            "title": {"color": INK, "font": FACE, "subtitleFont": FACE},
            "text": {"fontSize": 14, "font": FACE},
            "concat": {"spacing": 14},
        },
    }


def svg(chart: Chart) -> str:
    """Return a chart as SVG, with its title and the line under it told to those who hear it.

    Raises:
        GeometryError: It holds what cannot be drawn.
    """
    drawn = DRAWER.drawn(chart)
    said = escape(str(chart.get("description", "chart")))
    return drawn.replace(">", f' role="img"><title>{said}</title>', 1)
