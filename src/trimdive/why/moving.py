"""Why another water asks for so much lead, and why she sinks or rises so fast.

Sources: [floating-bodies]; drag of a plate lying flat: [practice].
"""

from math import sqrt
from typing import TYPE_CHECKING

from trimdive.ballast.dive.sinking import FLAT_PLATE
from trimdive.data import constant
from trimdive.errors import BalanceError
from trimdive.fact import Fact, fact
from trimdive.geometry.solids.hull import density_of
from trimdive.why.spread import EXACT
from trimdive.why.why import Why, density_in, figure, put_in, reasoned

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.hydrostatics.equilibrium import State


def lead_for_water(her: "Assessment", name: str) -> Why:
    """Return why another water asks for so much lead."""
    one = next(one for one in her.changes if one.name == name)
    where = fact("from-waters", name=name)
    return _lead(her, f"lead-for-water/{name}", one.water.density, where)


def lead_for_density(her: "Assessment", number: str) -> Why:
    """Return why a water of some density asks for so much lead."""
    return _lead(her, f"lead-for-density/{number}", float(number), fact("from-water-dial"))


def _lead(her: "Assessment", key: str, there: float, origin: Fact) -> Why:
    lead = density_of("lead", None) or 0.0
    here, mass = her.floater.density, her.floater.mass
    values = (
        put_in("m", mass, "mass", means="own-mass", asks="dry-mass"),
        density_in(her),
        put_in("ρ_new", there, "density", means="water-there", origin=origin),
        put_in("ρ_lead", lead, "density", origin=fact("from-materials")),
    )
    wanted = (there / here - 1.0) * mass / (1.0 - there / lead)
    given = max(wanted, -her.masses.of_kind("lead"))
    return reasoned(
        key,
        answer=figure(given, "mass"),
        result=given,
        kind="mass",
        reason=fact("why-lead", is_short=given > wanted),
        values=values,
        uncertainty=EXACT,
    )


def sinks(her: "Assessment", _: "State") -> Why:
    """Return why she sinks so fast with full tanks."""
    return _speed(her, "sinks", full_excess(her))


def full_excess(her: "Assessment") -> float:
    """Return weight less buoyancy, quite full and wholly under [kg]."""
    boat = her.floater
    return boat.mass - boat.density * (boat.volume - float(her.full_water.sum()))


def rises(her: "Assessment", _: "State") -> Why:
    """Return why she comes up so fast with her tanks blown."""
    return _speed(her, "rises", -lift_blown(her))


def lift_blown(her: "Assessment") -> float:
    """Return buoyancy less weight, tanks blown and wholly under [kg]."""
    boat = her.floater
    return boat.density * (boat.volume - float(her.blown_water.sum())) - boat.mass


def _speed(her: "Assessment", key: str, excess: float) -> Why:
    moves = her.heave
    if moves.plan_area <= 0:
        raise BalanceError("she has no breadth", key, "Give the hull a breadth.")
    gravity = fact("from-constants", unit="m/s²")
    values = (
        put_in("m_x", abs(excess), "mass"),
        put_in("g", constant("gravity"), "", origin=gravity),
        density_in(her),
        put_in("C_D", FLAT_PLATE, "", means="plate-drag", origin=fact("from-practice")),
        put_in("A", moves.plan_area, "area", means="plan-area", origin=fact("from-hull")),
    )
    fast = sqrt(
        2 * abs(excess) * constant("gravity") / (moves.density * FLAT_PLATE * moves.plan_area)
    )
    return reasoned(
        key,
        answer=fact("figure", value=fast, kind="speed", digits=2),
        result=fast,
        kind="speed",
        reason=fact("why-heave", is_sinking=excess > 0),
        values=values,
        uncertainty=fact("spread-roughly"),
    )
