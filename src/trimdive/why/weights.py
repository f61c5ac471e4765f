"""Why she weighs so much, and why G is where it is.

Source: moments of her masses, closed form.
"""

from collections.abc import Callable
from typing import TYPE_CHECKING

from trimdive.why.sureness import EXACT, sureness
from trimdive.why.why import Item, Why, origin_of, shown, source_of

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.rest import State
    from trimdive.weights import Entry

SHOWN = 12  # the heaviest that are told one by one; the rest together


def _items(her: "Assessment", axis: int | None) -> tuple[Item, ...]:
    """Return everything that weighs, heaviest first, with its place along one axis."""
    entries = sorted(her.masses.entries, key=lambda entry: -abs(entry.mass))
    few = SHOWN if len(entries) > SHOWN + 1 else SHOWN + 1
    items = [_item(her, entry, axis) for entry in entries[:few]]
    if rest := entries[few:]:
        mass = sum(entry.mass for entry in rest)
        texts = [shown(her, mass, "mass")]
        if axis is not None:
            middle = sum(entry.mass * float(entry.place[axis]) for entry in rest) / mass
            texts.append(_place(her, middle, axis))
        items.append(Item(name=f"{len(rest)} lighter", texts=tuple(texts), origin=""))
    return tuple(items)


def _item(her: "Assessment", entry: "Entry", axis: int | None) -> Item:
    texts = [shown(her, entry.mass, "mass")]
    if axis is not None:
        texts.append(_place(her, float(entry.place[axis]), axis))
    return Item(name=entry.name, texts=tuple(texts), origin=origin_of(entry))


def _place(her: "Assessment", value: float, axis: int) -> str:
    return shown(her, her.boat.along(value) if axis == 0 else value, "length")


def dry_mass(her: "Assessment", _: "State") -> Why:
    """Return why she weighs so much."""
    return Why(
        key="dry-mass",
        question="Why does she weigh so much?",
        answer=her.boat.units.write(her.masses.mass, "mass"),
        result=sum(entry.mass for entry in her.masses.entries),
        kind="mass",
        says="Everything aboard, no water in her tanks.",
        formula="m = Σ m_i",
        values=(),
        heads=("m_i",),
        items=_items(her, None),
        source=source_of("worked-out"),
        sure=sureness(her, "mass"),
    )


def _of_g(axis: int) -> "Callable[[Assessment, State], Why]":
    """Return what tells why G lies where it does along an axis: 0 along her, 2 up."""
    symbol, key = ("x", "x-of-g") if axis == 0 else ("z", "z-of-g")

    def told(her: "Assessment", _: "State") -> Why:
        return _g(her, axis, symbol, key)

    return told


def _g(her: "Assessment", axis: int, symbol: str, key: str) -> Why:
    entries, at = her.masses.entries, float(her.masses.gravity[axis])
    moment = sum(entry.mass * float(entry.place[axis]) for entry in entries)
    along = axis == 0
    return Why(
        key=key,
        question=f"Why is G {'there along her' if along else 'so high'}?",
        answer=her.boat.place(at) if along else her.boat.units.write(at, "length"),
        result=moment / sum(entry.mass for entry in entries),
        kind="length",
        says="The middle of everything that weighs, tanks empty; "
        + ("along her." if along else "above the keel line."),
        formula=f"{symbol}_G = {{Σ m_i {symbol}_i|Σ m_i}}",
        values=(),
        heads=("m_i", f"{symbol}_i"),
        items=_items(her, axis),
        source=source_of("stability-masters"),
        sure=sureness(her, "middle") if along else EXACT,
    )


x_of_g, z_of_g = _of_g(0), _of_g(2)
