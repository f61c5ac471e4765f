"""Figures of a linkage: what each is called, how it is written, and why it is so."""

from collections.abc import Iterator
from math import cos, degrees, inf
from typing import TYPE_CHECKING, NamedTuple

from trimdive.units import write

if TYPE_CHECKING:
    from trimdive.plant.linkages import Link


class LinkFigure(NamedTuple):
    """One figure in words."""

    label: str
    text: str
    why: str


def figures_of(one: "Link") -> Iterator[LinkFigure]:
    """Yield every figure of a linkage in words."""
    yield LinkFigure(
        "turns to either side",
        f"{_degrees(one.one_way)} and {_degrees(one.other_way)}",
        f"an arm of {_mm(one.arm)} on a horn of {_mm(one.horn)}, the servo turned "
        f"{_degrees(one.travel)}; wanted {_degrees(one.wanted)}",
    )
    yield LinkFigure("pull in the rod", f"{one.rod_force:.1f} N", _loaded(one))
    yield LinkFigure(
        "servo holds",
        f"{one.spare:.1f} times the load",
        f"{_torque(one.holds)} against {_torque(one.torque)}",
    )
    off = one.arm * (1 - cos(one.servo))
    yield LinkFigure(
        "side pull at the gland",
        f"{one.side_pull:.2f} N",
        f"the arm's hole goes {_mm(off)} out of line",
    )
    if one.clear < inf:
        yield LinkFigure(
            "rod clear of the shaft",
            _mm(one.clear),
            "at the closest, less both thicknesses and the swing",
        )


def _loaded(one: "Link") -> str:
    """Return what loads its rod."""
    if not one.load:
        return "nothing but its seal loads it"
    return (
        f"{one.load:.1f} N on the {one.moves} turn its stock with {one.moment:.3f} N m; the seal "
        f"rubs with {one.rubs:.1f} N"
    )


def _mm(value: float) -> str:
    return write(value, "length", "mm")


def _degrees(angle: float) -> str:
    return f"{degrees(angle):.0f}°"


def _torque(value: float) -> str:
    return write(value, "torque", "N cm")
