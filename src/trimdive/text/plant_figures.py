"""Figures of a plant as a builder reads them: what each is called, and how it is written."""

from functools import partial
from math import isinf
from typing import TYPE_CHECKING

from trimdive.hydrostatics.equilibrium.named import deep, share
from trimdive.plant.home import DEEPEST
from trimdive.units import write

if TYPE_CHECKING:
    from collections.abc import Callable

    from trimdive.boatfile import Boat
    from trimdive.boatfile.plant import Kind
    from trimdive.plant import Figure, PlantAnswer

MINUTES = 120.0  # from here on times are given in minutes [s]
TITLES: "dict[Kind, str]" = {
    "piston": "piston driven by a screw",
    "pump closed": "pump into a closed tank",
    "pump vented": "pump, the tank vented to the dry space",
    "pump bag": "pump with a bag",
    "gas": "blown by gas from a bottle",
    "snorkel": "blown by an air pump through a snorkel",
    "air bag": "air moved between a bag and the dry space",
}
SHORT: "dict[Kind, str]" = {  # the same, where there is little room
    "piston": "piston on a screw",
    "pump closed": "pump, closed tank",
    "pump vented": "pump, vented to dry space",
    "pump bag": "pump with a bag",
    "gas": "gas bottle",
    "snorkel": "air pump and snorkel",
    "air bag": "air pump, bag outside",
}
LABELS = {  # of figures, by their key; what stands at her depth is said of it
    "fill-time": "to fill at the surface",
    "filling": "as full as it gets",
    "empty-time": "to empty at the surface",
    "empty-deep": "to empty {at}",
    "tank-pressure": "air in the tank",
    "dry-pressure": "pressure in the dry space",
    "dry-vacuum": "vacuum in the dry space",
    "force": "force on the screw",
    "torque": "torque on the screw",
    "current": "peak current{each}",
    "energy": "one dive and up again",
    "cycles": "dives per charge",
    "blow": "gas for a blow {at}",
    "blows": "blows per bottle {at}",
    "home-depth": "without power she comes up from",
    "home-reserve": "without power {at}",
}


def seconds(value: float) -> str:
    """Return a time as a builder reads it.

    Args:
        value: Time [s].
    """
    if isinf(value):
        return "never"
    if value < MINUTES:
        return write(value, "time", "s", 0 if value >= 10 else 1)
    return write(value, "time", "min", 1)


def bars(value: float) -> str:
    """Return a pressure above the air's, or the vacuum below it, as a builder reads it.

    Args:
        value: Pressure [Pa].
    """
    return write(value, "pressure", "bar", 2)


def at_depth(boat: "Boat", depth: float) -> str:
    """Return where something is done.

    Args:
        boat: For its units.
        depth: Under the surface [m].
    """
    return "at the surface" if depth <= 0 else f"at {deep(boat, depth)}"


def grams(value: float) -> str:
    """Return a mass in whole grams [kg]."""
    return write(value, "mass", "g", 0)


def lightness(lift: float) -> str:
    """Return the lift that is left in whole grams [kg]: "12 g light"."""
    return f"{grams(abs(lift))} {'light' if lift > 0 else 'heavy'}"


def label(boat: "Boat", one: "PlantAnswer", figure: "Figure") -> str:
    """Return what a figure of a plant is, plainly."""
    key = "dry-vacuum" if figure.key == "dry-pressure" and figure.value < 0 else figure.key
    each = " each" if one.plants > 1 else ""
    return LABELS[key].format(at=at_depth(boat, one.depth), each=each)


def _emptied(one: "PlantAnswer", figure: "Figure") -> str:
    """Return how long an emptying takes, or that it does not come to its end."""
    depth = 0.0 if figure.key == "empty-time" else one.depth
    is_done = any(run.done for run in one.ups if run.depth == depth)
    return seconds(figure.value) if is_done else "stalls"


def _comes_from(depth: float) -> str:
    if depth >= DEEPEST:
        return f"over {DEEPEST:.0f} m"
    return f"{depth:.1f} m" if depth > 0 else "no depth: she stays down"


WRITTEN: "dict[str, Callable[[float], str]]" = {
    "fill-time": seconds,
    "filling": share,
    "tank-pressure": bars,
    "dry-pressure": bars,
    "force": partial(write, kind="force", unit="N", digits=0),
    "torque": partial(write, kind="torque", unit="N m", digits=2),
    "current": partial(write, kind="current", unit="A", digits=1),
    "energy": partial(write, kind="energy", unit="Wh", digits=2),
    "cycles": "{:.0f}".format,
    "blow": partial(write, kind="mass", unit="g", digits=1),
    "blows": "{:.0f}".format,
    "home-depth": _comes_from,
    "home-reserve": lightness,
}


def shown(one: "PlantAnswer", figure: "Figure") -> str:
    """Return a figure of a plant as a builder reads it."""
    if figure.key in ("empty-time", "empty-deep"):
        return _emptied(one, figure)
    return WRITTEN[figure.key](figure.value)
