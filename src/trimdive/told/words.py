"""Figures in the builder's words and in the units of the boat file."""

from math import floor, log10
from typing import TYPE_CHECKING

from trimdive.units import number_in, unit_named, write

if TYPE_CHECKING:
    from trimdive.assess import Assessment
    from trimdive.boatfile import Boat
    from trimdive.lines.mesh import Floats
    from trimdive.rest import State
    from trimdive.water import Water

FIGURES = 3  # that a moment is told to
ROUNDING = 1e-8  # moments below this are rounding [kg m]
INCHES = ("in", "ft", "yd")
TURNED = 3.1  # a heel beyond this is told as upside down alone [rad]
SMALL = 3.0  # fewer grams than this are told with a decimal


def tips(boat: "Boat", angle: float) -> str:
    """Return a trim angle in words.

    Args:
        boat: For its units.
        angle: Bow down [rad].
    """
    return _turned(boat, angle, "level", ("by the bow", "by the stern"))


def leans(boat: "Boat", angle: float) -> str:
    """Return a heel in words.

    Args:
        boat: For its units.
        angle: To starboard [rad].
    """
    return _turned(boat, angle, "upright", ("to starboard", "to port"))


def leans_at(her: "Assessment", state: "State") -> str:
    """Return the heel of a state in words; "to either side" where chance decides on the side.

    Args:
        her: The boat.
        state: How she lies.
    """
    from trimdive.rest import either_side

    text = leans(her.boat, state.heel)
    if text != "upright" and either_side(her.floater, state.rest):
        return f"{her.boat.units.write(abs(state.heel), 'angle')} to either side"
    return text


def no_draughts(state: "State") -> str:
    """Return how she lies where draughts at marks say nothing: on end, on her side, ..."""
    return "under" if state.rest.under else state.posture


def instead_of_draughts(her: "Assessment", state: "State") -> str:
    """Return, for a boat that floats too steeply for draughts, where the water is; else ""."""
    how = no_draughts(state)
    if state.rest.under or state.has_draughts:
        return ""
    if how != "on end":
        return f"She floats {how}: draughts at marks say nothing."
    low, high = ends(her)
    end, at = ("bow" if state.rest.n[0] < 0 else "stern"), state.water_at
    where = f"the water crosses her keel line {place(her.boat, at)} from the {her.boat.told_from}"
    if not low < at < high:
        is_over = at <= low if end == "bow" else at >= high
        where = f"all of her keel line is {'under' if is_over else 'out of the'} water"
    return f"She floats on end, {end} down: {where}."


def _turned(boat: "Boat", angle: float, none: str, ways: tuple[str, str]) -> str:
    text = boat.units.write(abs(angle), "angle")
    if not any(figure in text for figure in "123456789"):
        return none
    return f"{text} {ways[0] if angle > 0 else ways[1]}"


def weight(boat: "Boat", excess: float) -> str:
    """Return an excess as so much heavy, or so much light.

    Args:
        boat: For its units.
        excess: Weight less buoyancy [kg].
    """
    return f"{boat.units.write(abs(excess), 'mass')} {'heavy' if excess > 0 else 'light'}"


def place(boat: "Boat", x: float) -> str:
    """Return a place along the boat as the builder measures it, without the end.

    Args:
        boat: For its units and the end it is measured from.
        x: Forward of the stern [m].
    """
    return boat.units.write(boat.along(x), "length")


def way(offset: float) -> tuple[str, str]:
    """Return which way something lies off, and the way back.

    Args:
        offset: Forward [m].
    """
    return ("forward", "aft") if offset > 0 else ("aft", "forward")


def moment(boat: "Boat", value: float) -> str:
    """Return a moment in the boat's units of mass and length.

    Args:
        boat: For its units.
        value: Moment [kg m].
    """
    mass, length = boat.units.shown("mass"), boat.units.shown("length")
    figure = number_in(number_in(value, "mass", mass), "length", length)
    figure = 0.0 if abs(value) < ROUNDING else figure
    digits = max(0, FIGURES - 1 - floor(log10(abs(figure)))) if figure else 0
    return f"{float(f'{figure:.{FIGURES}g}'):.{digits}f} {mass} {length}"


def area(boat: "Boat", value: float) -> str:
    """Return an area in the boat's own unit, or in one that goes with its lengths.

    Args:
        boat: For its units.
        value: The area [m²].
    """
    handy = "in²" if boat.units.shown("length") in INCHES else "cm²"
    return write(value, "area", boat.units.own.get("area", handy))


def mass(boat: "Boat", value: float) -> str:
    """Return a mass; a small one with a decimal where the unit has none.

    Args:
        boat: For its units.
        value: The mass [kg].
    """
    unit = unit_named(boat.units.shown("mass"), "mass")
    more = unit.decimals == 0 and 0 < abs(unit.number(value)) < SMALL
    return write(value, "mass", unit.name, 1 if more else None)


def gained(boat: "Boat", change: float) -> str:
    """Return how much more or less she weighs than the time before [kg]."""
    if change == 0:
        return "as the time before"
    return f"{mass(boat, abs(change))} {'more' if change > 0 else 'less'} than the time before"


def share(value: float, digits: int = 0) -> str:
    """Return a share in per cent.

    Args:
        value: The share [-].
        digits: Decimals.
    """
    return f"{value:.{digits}%}".replace("%", " %")


def how_full(her: "Assessment", waters: "Floats") -> float:
    """Return how full her tanks are together, of their whole room [-].

    Args:
        her: The boat.
        waters: In each tank, shape (t,) [m³].
    """
    room = float(her.floater.tanks.capacities.sum())
    return float(waters.sum()) / room if room else 0.0


def water_line(boat: "Boat", water: "Water") -> str:
    """Return a water in words."""
    salt = f", {boat.units.write(water.salt, 'salt')} of salt" if water.salt else ""
    warm = boat.units.write(water.celsius, "temperature")
    return f"{water.kind} water, {warm}{salt} ({water.density:.1f} kg/m³)"


def title(her: "Assessment") -> str:
    """Return her name, scale and water on one line."""
    boat = her.boat
    scale = f" {write(boat.scale, 'ratio', '')}" if boat.scale else ""
    return f"{boat.name}{scale}, {water_line(boat, her.water)}"


def lowest(her: "Assessment") -> "State":
    """Return her dived; or with her tanks full, where she will not go under."""
    return her.lowest


def large_figures(her: "Assessment") -> str:
    """Return the three figures that matter most, in one sentence."""
    boat, shown = her.boat, lowest(her) if her.boat.tanks else her.surfaced
    up = f"stands up by {boat.units.write(her.bg, 'length')} (BG)"
    tip = tips(boat, shown.trim_angle)
    tip = "is level" if tip == "level" else f"tips by {tip}"
    if not boat.tanks:
        return f"on the surface she {tip}, held under she {up}"
    where = "dived" if shown.rest.under else "with tanks full"
    heavy = her.full.rest.excess
    left = f": none, {weight(boat, heavy)}" if heavy > 0 else f" {mass(boat, -heavy)}"
    return f"{where} she {tip}, lift left with tanks full{left}, {up}"


def ends(her: "Assessment") -> tuple[float, float]:
    """Return the places of stern and bow; of all that displaces where there is no hull [m]."""
    if her.boat.regions:
        low, high = her.hull.envelope.bounds[:, 0]
        return float(low), float(high)
    bounds = [body.mesh.bounds[:, 0] for body in her.bodies]
    return min(float(low) for low, _ in bounds), max(float(high) for _, high in bounds)


def rest_words(her: "Assessment", state: "State") -> str:
    """Return how she lies at a rest, in words."""
    boat, lies = her.boat, state.posture
    lies = "more or less upright" if lies == "upright" else lies
    across = abs(state.heel)
    if lies == "upside down" and across > TURNED:
        return f"{lies}: {tips(boat, state.trim_angle)}"
    return f"{lies}: {tips(boat, state.trim_angle)}, {leans_at(her, state)}"


def to_put_right(her: "Assessment") -> int:
    """Return how many things must be put right."""
    return sum(found.weight == "put right" for found in her.first_findings)


def things(count: int) -> str:
    """Return so many things to put right, in words."""
    return f"{count} {'thing' if count == 1 else 'things'} to put right"


def not_entered(her: "Assessment") -> str:
    """Return how many things on her bench are not entered, in words; "" where none is."""
    count = len(her.not_entered)
    return f"{count} {'thing' if count == 1 else 'things'} not entered" if count else ""
