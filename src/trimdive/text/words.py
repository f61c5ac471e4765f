"""Figures in the builder's words and in the units of the boat file."""

from math import floor, log10
from typing import TYPE_CHECKING

from trimdive.hydrostatics.equilibrium import named
from trimdive.hydrostatics.equilibrium.named import bg as bg
from trimdive.hydrostatics.equilibrium.named import heel as heel
from trimdive.hydrostatics.equilibrium.named import is_zero as is_zero
from trimdive.hydrostatics.equilibrium.named import lifted as lifted
from trimdive.hydrostatics.equilibrium.named import mass as mass
from trimdive.hydrostatics.equilibrium.named import share as share
from trimdive.hydrostatics.equilibrium.named import trim as trim
from trimdive.hydrostatics.equilibrium.named import volume as volume
from trimdive.hydrostatics.equilibrium.named import weight as weight
from trimdive.text.say import way as way
from trimdive.units import number_in, write

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.boatfile import Boat
    from trimdive.geometry.lines.mesh import Floats
    from trimdive.hydrostatics.equilibrium import State
    from trimdive.water import Water

FIGURES = 3  # that a moment is told to
ROUNDING = 1e-8  # moments below this are rounding [kg m]
INCHES = ("in", "ft", "yd")
TURNED = 3.1  # a heel beyond this is told as upside down alone [rad]


def heel_at(her: "Assessment", state: "State") -> str:
    """Return the heel of a state in words; "to either side" where chance decides on the side."""
    return named.heel_at(her.boat, her.floater, state)


def lies(her: "Assessment", state: "State") -> str:
    """Return how she lies: "trim 12.4° bow down", "level, heel 3.0° to port", or "level"."""
    return named.lies(her.boat, her.floater, state)


def no_draughts(state: "State") -> str:
    """Return how she lies where draughts at marks mean nothing: on end, on her side, ..."""
    return "under" if state.rest.under else state.posture


def instead_of_draughts(her: "Assessment", state: "State") -> str:
    """Return, for a boat that floats too steeply for draughts, where the water is; else ""."""
    how = no_draughts(state)
    if state.rest.under or state.has_draughts:
        return ""
    if how != "on end":
        return f"She floats {how}: draughts at marks mean nothing."
    low, high = ends(her)
    end, at = ("bow" if state.rest.n[0] < 0 else "stern"), state.water_at
    where = (
        f"the water crosses her keel line {place(her.boat, at)} from the {her.boat.entered_from}"
    )
    if not low < at < high:
        is_over = at <= low if end == "bow" else at >= high
        where = f"her whole keel line is {'under' if is_over else 'out of the'} water"
    return f"She floats on end, {end} down: {where}."


def place(boat: "Boat", x: float) -> str:
    """Return a place along the boat as the builder measures it, without the end.

    Args:
        boat: For its units and the end it is measured from.
        x: Forward of the stern [m].
    """
    return boat.units.write(boat.along(x), "length")


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


def gained(boat: "Boat", change: float) -> str:
    """Return how much more or less she weighs than last time [kg]."""
    if change == 0:
        return "the same as last time"
    return f"{mass(boat, abs(change))} {'more' if change > 0 else 'less'} than last time"


def how_full(her: "Assessment", waters: "Floats") -> float:
    """Return how full her tanks are together, of their whole room [-].

    Args:
        her: The boat.
        waters: In each tank, shape (t,) [m³].
    """
    return named.how_full(her.floater, waters)


def filling(her: "Assessment", state: "State") -> str:
    """Return how full her tanks are together, in per cent of their whole room."""
    return filling_words(her, state.rest.waters)


def filling_words(her: "Assessment", waters: "Floats") -> str:
    """Return how full her tanks are together, in per cent of their whole room.

    Args:
        her: The boat.
        waters: In each tank, shape (t,) [m³].
    """
    return share(how_full(her, waters))


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


def lowest_words(her: "Assessment") -> str:
    """Return the name of the state in which she lies low, as a sentence begins with it."""
    full = filling(her, her.lowest)
    return {
        "dived at neutral": f"dived at neutral, tanks {full} full",
        "tanks full": "with tanks full",
        "sunk": "with tanks blown",
        "afloat": "on the surface",
    }[her.lowest_name]


def headline(her: "Assessment") -> str:
    """Return the figures that matter most, with the state that they belong to."""
    boat, low = her.boat, her.lowest
    figures = f"{lies(her, low)}, {bg(boat, low.bg)}"
    if her.lowest_name == "afloat":
        gm = boat.units.write(low.gm_t, "length")
        return f"{lowest_words(her)}: {lies(her, low)}, GM {gm}; {_held_under(her)}"
    heavy = weight(boat, her.full.rest.excess)
    if her.lowest_name == "tanks full":
        return f"{lowest_words(her)}: {heavy}, she will not dive; {figures}"
    if her.lowest_name == "sunk":
        return f"{lowest_words(her)}: {weight(boat, low.rest.excess)}, she sinks; {figures}"
    return f"{lowest_words(her)}: {figures}; {heavy} with tanks full"


def neutral_words(her: "Assessment") -> str:
    """Return how she stands against neutral, in one sentence."""
    boat = her.boat
    if her.surfaced.rest.under:
        return f"She sinks: {weight(boat, her.surfaced.rest.excess)} with tanks blown."
    if not boat.tanks:
        return "She has no tank to dive with."
    left = f"{weight(boat, her.full.rest.excess)} with tanks full"
    if her.lowest_name == "tanks full":
        return f"She will not dive: {left}."
    return f"Neutral dived with tanks {share(her.neutral)} full; {left}."


def _held_under(her: "Assessment") -> str:
    return f"held under: {lies(her, her.dived)}, {bg(her.boat, her.dived.bg)}"


def ends(her: "Assessment") -> tuple[float, float]:
    """Return the places of stern and bow; of all that displaces where there is no hull [m]."""
    if her.boat.regions:
        low, high = her.hull.envelope.bounds[:, 0]
        return float(low), float(high)
    bounds = [body.mesh.bounds[:, 0] for body in her.bodies]
    return min(float(low) for low, _ in bounds), max(float(high) for _, high in bounds)


def rest_words(her: "Assessment", state: "State") -> str:
    """Return how she lies at a rest, in words."""
    boat, how = her.boat, state.posture
    how = "more or less upright" if how == "upright" else how
    across = abs(state.heel)
    if how == "upside down" and across > TURNED:
        return f"{how}: {trim(boat, state.trim_angle)}"
    return f"{how}: {trim(boat, state.trim_angle)}, {heel_at(her, state)}"


def things(count: int) -> str:
    """Return so many things to put right, in words."""
    return f"{count} {'thing' if count == 1 else 'things'} to put right"


def not_entered(her: "Assessment") -> str:
    """Return how many things on her bench are not entered, in words; "" where none is."""
    count = len(her.not_entered)
    return f"{count} {'thing' if count == 1 else 'things'} not entered" if count else ""
