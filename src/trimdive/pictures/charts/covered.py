"""What water alone covers: mass against moment, with the states that are to be covered."""

from typing import TYPE_CHECKING

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
)
from trimdive.units import number_in

if TYPE_CHECKING:
    from collections.abc import Iterable

    from trimdive.assessment import Assessment
    from trimdive.ballast.reach import Wanted

FEW = ("as she is", "sea")  # states that are named in the chart
WHAT = "the tanks alone"


def reach_chart(her: "Assessment", states: "Iterable[Wanted]") -> Chart:
    """Return the chart of what the tanks cover and what is wanted of them.

    Denser water fills the same room with more; such states stand where that room lies.

    Args:
        her: The boat.
        states: What is wanted.
    """
    units = her.boat.units
    mass, length = units.shown("mass"), units.shown("length")

    def row(kilograms: float, moment: float) -> Row:
        along = number_in(number_in(moment, "mass", mass), "length", length)
        return {"mass": number_in(kilograms, "mass", mass), "moment": along}

    corners = [row(float(m), float(q)) for m, q in her.reach.corners]
    walk = [
        {**one, "what": WHAT, "run": WHAT, "at": k} for k, one in enumerate([*corners, corners[0]])
    ]
    wanted = {one.name: row(one.mass / one.denser, one.moment / one.denser) for one in states}
    every = [*corners, *wanted.values()]
    low, high = span([float(str(one["mass"])) for one in every])
    x = Axis(field="mass", title=f"water in the tanks [{mass}]", low=low, high=high)
    low, high = span([float(str(one["moment"])) for one in every])
    title = f"its moment forward of midships [{mass} {length}]"
    y = Axis(field="moment", title=title, low=low, high=high)
    spots: Chart = {
        "data": {"values": list(wanted.values())},
        "mark": {"type": "point", "shape": "diamond", "size": 60, "color": "currentColor"},
        "encoding": {"x": x.encoding(), "y": y.encoding()},
    }
    layers = [lines(walk, x, y, kinds("what", [WHAT])), spots]
    layers += [label(wanted[name], x, y, name) for name in FEW if name in wanted]
    under = (
        "Neutral and level dived: states inside need no lead moved; those outside do. "
        "Denser water is shown by the room that it takes"
    )
    return framed(
        panel(layers, height=320), f"{her.boat.name}: what ballast water alone covers", under
    )
