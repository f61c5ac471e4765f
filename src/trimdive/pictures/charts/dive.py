"""Trim, heel, stiffness, draughts and volume still out of the water against how full she is."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import isfinite, nan
from typing import TYPE_CHECKING

from trimdive.ballast.dive.upright import Run, lolls, runs
from trimdive.hydrostatics.equilibrium.named import trim as trim_words
from trimdive.pictures.charts.frame import (
    INK,
    LETTER,
    RUST,
    WIDTH,
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
from trimdive.text.moments import happenings, how_full, outer_marks
from trimdive.units import number_in

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.ballast.dive import Dive, Moment
    from trimdive.hydrostatics.equilibrium import State

WAYS = ("down", "up")
TENS = tuple(range(0, 101, 10))
LANE = 19  # height of a line of labels [px]
HEELS = 0.009  # leaning less than this all the way needs no panel [rad]
LITTLE = 0.02  # angles are shown on a scale of this at least [rad]
Figure = Callable[["State"], float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """What all panels of one boat share."""

    her: "Assessment"
    ways: tuple["Dive", "Dive"]  # down and up
    pieces: tuple[tuple[Run, ...], tuple[Run, ...]]  # of each way

    @property
    def unit(self) -> Callable[[str], str]:
        """Return the boat's unit of a kind of quantity."""
        return self.her.boat.units.shown

    def figure(self, value: float, kind: str) -> float:
        """Return an SI value in the boat's unit."""
        return number_in(value, kind, self.unit(kind))

    def x(self, *, shown: bool = False) -> Axis:
        """Return the axis along: how full."""
        return Axis(
            field="full", title="how full [%]", low=0.0, high=100.0, shown=shown, steps=TENS
        )

    def rows(self, figure: Figure, *, leaning: bool = False, afloat: bool = False) -> list[Row]:
        """Return the rows of both ways.

        Args:
            figure: What is shown of a state.
            leaning: Also where she will not stand upright.
            afloat: Only while some of her is out of the water.
        """
        return [
            {
                "full": 100 * how_full(self.her, moment.state),
                "value": figure(moment.state),
                "way": way,
                "run": f"{way} {k}",
                "at": i,
            }
            for way, pieces in zip(WAYS, self.pieces, strict=True)
            for k, piece in enumerate(pieces)
            if leaning or piece.upright
            for i, moment in enumerate(piece.moments)
            if not (afloat and moment.state.rest.under)
        ]


def _marks(sheet: Sheet) -> list[Row]:
    """Return what happens on the way down and where she jumps, with places of its labels."""
    down, up = sheet.ways
    found = [(100 * how_full(sheet.her, h.moment.state), h.what) for h in happenings(down)]
    for way, name in ((down, "down"), (up, "up")):
        for jump in way.jumps:
            turn = sheet.her.boat.units.write(jump.angle, "angle")
            found.append((100 * how_full(sheet.her, jump.before), f"flops {turn} going {name}"))
    lanes: list[float] = []
    rows: list[Row] = []
    for full, what in sorted(found):
        at, size = full / 100 * WIDTH, LETTER * len(what) + 14
        left = at > WIDTH / 2
        start, end = (at - size, at) if left else (at, at + size)
        lane = next((k for k, taken in enumerate(lanes) if taken <= start), len(lanes))
        lanes[lane : lane + 1] = [end]
        rows.append({"full": full, "what": what, "lane": lane, "left": left})
    return rows


def _strip(sheet: Sheet, marks: Sequence[Row]) -> Chart:
    """Return the labels of what happens, in as many lines as keep them apart."""
    count = 1 + max((int(str(row["lane"])) for row in marks), default=0)
    up: Chart = {
        "field": "lane",
        "type": "quantitative",
        "axis": None,
        "scale": {"domain": [-0.5, count - 0.5], "nice": False},
    }
    x: Chart = {**sheet.x().encoding(), "axis": None}
    layers: list[Chart] = []
    for left in (False, True):
        words = {
            "type": "text",
            "align": "right" if left else "left",
            "dx": -4 if left else 4,
            "color": INK,
        }
        layers.append(
            {
                "data": {"values": [row for row in marks if row["left"] is left]},
                "mark": words,
                "encoding": {"x": x, "y": up, "text": {"field": "what", "type": "nominal"}},
            }
        )
    stem = {"type": "rule", "color": INK, "strokeWidth": 0.8, "opacity": 0.45, "strokeDash": [2, 3]}
    layers.append(
        {
            "data": {"values": list(marks)},
            "mark": stem,
            "encoding": {"x": x, "y": up, "y2": {"datum": -0.5}},
        }
    )
    layers.append(_legend(x, up))
    return {"width": WIDTH, "height": LANE * count, "layer": layers}


def _legend(x: Chart, y: Chart) -> Chart:
    """Return what draws nothing but tells which curve is which way."""
    rows: list[Row] = [{"full": 0, "lane": -0.5, "way": way} for way in WAYS]
    colours = kinds("way", WAYS)
    return {"data": {"values": rows}, "mark": "line", "encoding": {"x": x, "y": y, **colours}}


def _leaning(sheet: Sheet, x: Axis, y: Axis, *, labelled: bool) -> list[Chart]:
    """Return the bands in which she will not stand upright."""
    pieces = [piece for both in sheet.pieces for piece in both]
    found = lolls(sheet.her.floater, pieces)
    rows: list[Row] = [{"full": 100 * one.first, "to": 100 * one.last} for one in found]
    if not rows:
        return []
    place = {"x": x.encoding(), "x2": {"field": "to"}}
    shade = {"type": "rect", "color": RUST, "opacity": 0.1}
    made: list[Chart] = [{"data": {"values": rows}, "mark": shade, "encoding": place}]
    if labelled:
        words = {
            "type": "text",
            "text": "will not stand upright",
            "align": "left",
            "dx": 4,
            "dy": 9,
            "color": INK,
        }
        top = {"datum": y.top, "type": "quantitative", "scale": y.scale}
        made.append(
            {
                "data": {"values": rows},
                "mark": words,
                "encoding": {"x": x.encoding(), "y": top},
            }
        )
    return made


def _panel(
    sheet: Sheet,
    marks: Sequence[Row],
    title: str,
    rows: Sequence[Row],
    *,
    least: float = 0.0,
    **look: bool,
) -> tuple[Chart, Axis, Axis]:
    """Return a panel of both ways, and its axes; its scale spans so much at the least."""
    x = sheet.x(shown=look.get("last", False))
    low, high = span([float(str(row["value"])) for row in rows], least=least)
    y = Axis(field="value", title=title, low=low, high=high, is_down=look.get("down", False))
    layers = [
        *_leaning(sheet, x, y, labelled=look.get("first", False)),
        upright_rules(marks, x),
        lines(rows, x, y, kinds("way", WAYS, legend=False)),
    ]
    return panel(layers, height=150), x, y


def _worst(made: tuple[Chart, Axis, Axis], row: Row, text: str, *, rise: int = -9) -> Chart:
    """Return a panel with its worst moment named."""
    chart, x, y = made
    layers = chart["layer"]
    assert isinstance(layers, list)
    return {**chart, "layer": [*layers, label(row, x, y, text, rise=rise)]}


def _spot(sheet: Sheet, moment: "Moment", value: float) -> Row:
    return {"full": 100 * how_full(sheet.her, moment.state), "value": value}


def _turns(sheet: Sheet, marks: Sequence[Row]) -> list[Chart]:
    """Return the panels of trim, and of heel where she leans."""
    her, down = sheet.her, sheet.ways[0]
    angle, least = sheet.unit("angle"), sheet.figure(LITTLE, "angle")
    trim = sheet.rows(lambda state: sheet.figure(state.trim_angle, "angle"))
    made = _panel(
        sheet, marks, f"trim [{angle}], bow down +", trim, first=True, down=True, least=least
    )
    most = down.largest_trim
    value = sheet.figure(most.state.trim_angle, "angle")
    largest = trim_words(her.boat, most.state.trim_angle)
    text = "level all the way" if largest == "level" else f"largest trim: {largest}"
    panels = [_worst(made, _spot(sheet, most, value), text, rise=12 if value > 0 else -9)]
    lean = down.largest_heel
    if abs(lean.state.heel) > HEELS:
        heel = sheet.rows(lambda state: sheet.figure(state.heel, "angle"), leaning=True)
        made = _panel(sheet, marks, f"heel [{angle}], starboard +", heel, least=least)
        value = sheet.figure(lean.state.heel, "angle")
        text = f"largest heel: {her.boat.units.write(abs(lean.state.heel), 'angle')}"
        panels.append(_worst(made, _spot(sheet, lean, value), text, rise=-9 if value > 0 else 12))
    return panels


def _stiffness(sheet: Sheet, marks: Sequence[Row]) -> Chart:
    length = sheet.unit("length")
    rows = sheet.rows(lambda state: sheet.figure(state.gm_t, "length"))
    made = _panel(sheet, marks, f"GM [{length}]", rows)
    least = sheet.ways[0].least_gm
    text = f"least GM: {sheet.her.boat.units.write(least.state.gm_t, 'length')}"
    spot = _spot(sheet, least, sheet.figure(least.state.gm_t, "length"))
    return _worst(made, spot, text, rise=13)


def _draughts(sheet: Sheet, marks: Sequence[Row]) -> Chart:
    """Return draughts at her outermost marks on the way down."""
    names = {f"draught at {name}": at for name, at in outer_marks(sheet.her)}
    rows: list[Row] = [
        {**row, "way": name, "run": f"{name} {row['run']}"}
        for name, at in names.items()
        for row in sheet.rows(lambda s, at=at: _draught(sheet, s, at), afloat=True)
        if row["way"] == "down" and isfinite(float(str(row["value"])))
    ]
    x = sheet.x()
    ends = span([float(str(row["value"])) for row in rows], zero=False)
    y = Axis(field="value", title=f"draught [{sheet.unit('length')}]", low=ends[0], high=ends[1])
    colours = kinds("way", tuple(names))
    return panel([upright_rules(marks, x), lines(rows, x, y, colours)], height=130)


def _draught(sheet: Sheet, state: "State", at: float) -> float:
    """Return a draught in her unit; not a number where she lies too steeply for it."""
    return sheet.figure(state.draught(at), "length") if state.has_draughts else nan


def dive_sheet(her: "Assessment", down: "Dive", up: "Dive") -> Sheet:
    """Return what all panels share: both ways, broken into curves."""
    pieces = tuple(runs(her.floater, down)), tuple(runs(her.floater, up))
    return Sheet(her=her, ways=(down, up), pieces=pieces)


def dive_chart(her: "Assessment", down: "Dive", up: "Dive") -> Chart:
    """Return the chart of a whole dive, down and up."""
    sheet = dive_sheet(her, down, up)
    marks = _marks(sheet)
    volume = sheet.unit("volume")
    out = sheet.rows(lambda s: sheet.figure(s.reserve, "volume"), leaning=True)
    last, _, _ = _panel(sheet, marks, f"out of the water [{volume}]", out, last=True)
    body: Chart = {
        "vconcat": [
            _strip(sheet, marks),
            *_turns(sheet, marks),
            _stiffness(sheet, marks),
            _draughts(sheet, marks),
            last,
        ],
        "resolve": {"scale": {"color": "independent", "strokeDash": "independent"}},
    }
    water = f"{her.water.kind} water, {her.water.density:.0f} kg/m³"
    return framed(body, f"{her.boat.name}: the dive", f"Settled at every filling; {water}")
