"""Righting lever against heel, and stiffness against draught."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np

from trimdive.ballast.dive.held import LARGE_HEEL
from trimdive.ballast.dive.upright import runs, stands_upright
from trimdive.errors import BalanceError
from trimdive.pictures.charts.frame import (
    Axis,
    Chart,
    Row,
    framed,
    kinds,
    label,
    lines,
    panel,
    span,
    upright_rules,
)
from trimdive.text.moments import how_full, outer_marks
from trimdive.units import number_in

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.ballast.dive import Dive
    from trimdive.hydrostatics.equilibrium import State
    from trimdive.hydrostatics.equilibrium.heeled import GzCurve

FARTHEST = 60  # heel to which levers are shown [°]
HEELS = np.radians(np.arange(0.0, FARTHEST + 1, 2.0))
LEAST = 10  # angles; she is leaned less and less far until so many are left [-]


def levers(her: "Assessment", state: "State") -> "GzCurve | None":
    """Return her righting levers as far over as she finds trim and draught, to 60° at most."""
    heels = HEELS
    while len(heels) >= LEAST:
        try:
            return her.gz(state, heels)
        except BalanceError:
            heels = heels[: len(heels) * 3 // 4]
    return None


def lever_states(her: "Assessment", down: "Dive") -> list[tuple[str, "State"]]:
    """Return the states whose levers are worth seeing, each with its name."""
    found = [("surfaced", her.surfaced)]
    if her.boat.tanks:
        least, lean = down.least_gm.state, down.largest_heel.state
        found.append((f"least GM, {100 * how_full(her, least):.0f} % full", least))
        if not stands_upright(her.floater, lean):
            found.append((f"largest heel, {100 * how_full(her, lean):.0f} % full", lean))
    return [*found, ("dived", her.dived)]


def gz_chart(her: "Assessment", states: Sequence[tuple[str, "State"]]) -> Chart:
    """Return the chart of righting lever against heel, for states by name."""
    unit = her.boat.units.shown("length")
    rows: list[Row] = []
    names = [name for name, _ in states]
    for name, state in states:
        curve = levers(her, state)
        if curve is None:
            continue
        found: list[Row] = [
            {
                "heel": float(np.degrees(heel)),
                "gz": number_in(float(gz), "length", unit),
                "state": name,
                "run": name,
                "at": k,
            }
            for k, (heel, gz) in enumerate(zip(curve.heel, curve.gz, strict=True))
        ]
        rows += found
    x = Axis(field="heel", title="heel to starboard [°]", low=0.0, high=float(FARTHEST))
    low, high = span([float(str(row["gz"])) for row in rows])
    y = Axis(field="gz", title=f"righting lever, GZ [{unit}]", low=low, high=high)
    zero: Chart = {
        "data": {"values": [{"gz": 0.0}]},
        "mark": {"type": "rule", "color": "currentColor", "strokeWidth": 1},
        "encoding": {"y": y.encoding()},
    }
    body = panel([zero, lines(rows, x, y, kinds("state", names))], height=320)
    under = "Trim and draught are free; above 0 she comes back, below 0 she capsizes"
    return framed(body, f"{her.boat.name}: heeled over by hand", under)


def _rows(her: "Assessment", down: "Dive", at: float) -> list[Row]:
    """Return GM and BG against the draught at a place [m], while some of her is out."""
    unit = her.boat.units.shown("length")
    rows: list[Row] = []
    for k, piece in enumerate(runs(her.floater, down)):
        for i, moment in enumerate(piece.moments):
            state = moment.state
            if state.rest.under or not piece.upright:
                continue
            draught = number_in(state.draught(at), "length", unit)
            for name, value in (("GM", state.gm_t), ("BG", state.bg)):
                shown = number_in(value, "length", unit)
                rows.append(
                    {"draught": draught, "value": shown, "what": name, "run": f"{name}{k}", "at": i}
                )
    return rows


def _held_rows(her: "Assessment", at: float) -> list[Row]:
    """Return GM against the draught at a place [m] with each tower still full of water."""
    unit = her.boat.units.shown("length")
    return [
        {
            "draught": number_in(moment.state.draught(at), "length", unit),
            "value": number_in(moment.state.gm_t, "length", unit),
            "what": f"GM, {name} full",
            "run": f"held {name}",
            "at": k,
        }
        for name, way in her.held.items()
        for k, moment in enumerate(way)
        if not moment.state.rest.under and abs(moment.state.heel) < LARGE_HEEL
    ]


def gm_chart(her: "Assessment", down: "Dive") -> Chart:
    """Return the chart of stiffness against draught amidships, on the way down."""
    unit = her.boat.units.shown("length")
    (_, aft), (_, fore) = outer_marks(her)
    middle = (aft + fore) / 2
    rows = _rows(her, down, middle) + _held_rows(her, middle)
    ends = span([float(str(row["draught"])) for row in rows], zero=False)
    title = f"draught amidships [{unit}]"
    x = Axis(field="draught", title=title, low=ends[0], high=ends[1])
    low, high = span([float(str(row["value"])) for row in rows])
    y = Axis(field="value", title=f"height [{unit}]", low=low, high=high)
    names = ("GM", "BG", *(f"GM, {name} full" for name in her.held))
    layers = [lines(rows, x, y, kinds("what", names))]
    stiff = [row for row in rows if row["what"] == names[0]]
    if stiff:
        worst = min(stiff, key=lambda row: float(str(row["value"])))
        text = f"least GM: {float(str(worst['value'])):.1f} {unit}"
        layers.append(label(worst, x, y, text, rise=13))
    line = her.boat.waterline
    if line is not None:
        meant: Row = {"draught": number_in(line.height_at(middle), "length", unit)}
        layers += [upright_rules([meant], x), _named(meant, x, y, "waterline meant")]
    under = "On the way down; GM is above BG by what the waterplane adds, less slack tanks"
    return framed(panel(layers, height=320), f"{her.boat.name}: GM and BG against draught", under)


def _named(row: Row, x: Axis, y: Axis, text: str) -> Chart:
    """Return the name of a line that stands upright, at its top."""
    top = {"datum": y.top, "type": "quantitative", "scale": y.scale}
    words = {"type": "text", "text": text, "align": "left", "dx": 4, "dy": 9}
    return {
        "data": {"values": [row]},
        "mark": {**words, "color": "currentColor"},
        "encoding": {"x": x.encoding(), "y": top},
    }
