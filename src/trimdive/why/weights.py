"""Why she weighs so much, and why G is where it is.

Source: moments of her masses, closed form.
"""

from collections.abc import Callable
from typing import TYPE_CHECKING

from trimdive.fact import Fact, fact
from trimdive.why.spread import EXACT, spread_of
from trimdive.why.why import Item, Why, figure, origin_of, reasoned, shown, shown_place

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.hydrostatics.equilibrium import State
    from trimdive.hydrostatics.weights import Entry

SHOWN = 12  # the heaviest that are told one by one; the rest together


def _items(her: "Assessment", axis: int | None) -> tuple[Item, ...]:
    """Return everything that weighs, heaviest first, with its place along one axis."""
    entries = sorted(her.masses.entries, key=lambda entry: -abs(entry.mass))
    few = SHOWN if len(entries) > SHOWN + 1 else SHOWN + 1
    items = [_item(entry, axis) for entry in entries[:few]]
    if rest := entries[few:]:
        mass = sum(entry.mass for entry in rest)
        figures = [shown(mass, "mass")]
        if axis is not None:
            middle = sum(entry.mass * float(entry.place[axis]) for entry in rest) / mass
            figures.append(_place(middle, axis))
        name = fact("others-lighter", count=len(rest))
        items.append(Item(name=name, figures=tuple(figures), origin=""))
    return tuple(items)


def _item(entry: "Entry", axis: int | None) -> Item:
    figures = [shown(entry.mass, "mass")]
    if axis is not None:
        figures.append(_place(float(entry.place[axis]), axis))
    return Item(name=entry.name, figures=tuple(figures), origin=origin_of(entry))


def _place(value: float, axis: int) -> Fact:
    return shown_place(value) if axis == 0 else shown(value, "length")


def dry_mass(her: "Assessment", _: "State") -> Why:
    """Return why she weighs so much."""
    return reasoned(
        "dry-mass",
        answer=figure(her.masses.mass, "mass"),
        result=sum(entry.mass for entry in her.masses.entries),
        kind="mass",
        reason=fact("why-dry-mass"),
        heads=("m_i",),
        items=_items(her, None),
        uncertainty=spread_of(her, "mass"),
    )


def _of_g(axis: int) -> "Callable[[Assessment, State], Why]":
    """Return what tells why G lies where it does along an axis: 0 along her, 2 up."""

    def reason(her: "Assessment", _: "State") -> Why:
        return _g(her, axis)

    return reason


def _g(her: "Assessment", axis: int) -> Why:
    entries, at = her.masses.entries, float(her.masses.gravity[axis])
    moment = sum(entry.mass * float(entry.place[axis]) for entry in entries)
    along = axis == 0
    return reasoned(
        "x-of-g" if along else "z-of-g",
        answer=fact("figure-place", x=at) if along else figure(at, "length"),
        result=moment / sum(entry.mass for entry in entries),
        kind="length",
        reason=fact("why-centre-of-gravity", along=along),
        heads=("m_i", "x_i" if along else "z_i"),
        items=_items(her, axis),
        uncertainty=spread_of(her, "middle") if along else EXACT,
    )


x_of_g, z_of_g = _of_g(0), _of_g(2)
