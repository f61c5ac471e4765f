"""Why another water asks for so much lead, and why she sinks or rises so fast.

Sources: [floating-bodies]; drag of a plate lying flat: [practice].
"""

from math import sqrt
from typing import TYPE_CHECKING

from trimdive.bodies.hull import density_of
from trimdive.data import constant
from trimdive.dive.sinking import FLAT_PLATE
from trimdive.errors import BalanceError
from trimdive.units import write
from trimdive.why.sureness import EXACT
from trimdive.why.why import Value, Why, density_in, put_in, source_of

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.rest import State


def lead_for_water(her: "Assessment", name: str) -> Why:
    """Return why another water asks for so much lead."""
    one = next(one for one in her.changes if one.name == name)
    where = f"waters table: {name}"
    return _lead(
        her,
        f"lead-for-water/{name}",
        f"Why does {name} ask for so much lead?",
        one.water.density,
        where,
    )


def lead_for_density(her: "Assessment", number: str) -> Why:
    """Return why a water of some density asks for so much lead."""
    question = f"Why does water of {float(number):.1f} kg/m³ ask for so much lead?"
    return _lead(her, f"lead-for-density/{number}", question, float(number), "the water dial")


def _lead(her: "Assessment", key: str, question: str, there: float, origin: str) -> Why:
    lead = density_of("lead", None) or 0.0
    here, mass = her.floater.density, her.floater.mass
    values = (
        put_in(her, "m", mass, "mass", says="her mass, no tank water", asks="dry-mass"),
        density_in(her),
        put_in(her, "ρ_new", there, "density", says="water there", origin=origin),
        put_in(her, "ρ_lead", lead, "density", origin="materials table"),
    )
    wanted = (there / here - 1.0) * mass / (1.0 - there / lead)
    told = max(wanted, -her.masses.of_kind("lead"))
    short = " More must come out than the lead aboard; foam does the rest."
    return Why(
        key=key,
        question=question,
        answer=her.boat.units.write(told, "mass"),
        result=told,
        kind="mass",
        says="Denser water lifts all of her more, in the same proportion. Lead in the wet pushes "
        "water aside as well, so it takes a little more of it. Below nothing it comes out."
        + (short if told > wanted else ""),
        formula="m_lead = ({ρ_new|ρ} − 1) {m|1 − ρ_new / ρ_lead}",
        values=values,
        heads=(),
        items=(),
        source=source_of("floating-bodies"),
        sure=EXACT,
    )


def sinks(her: "Assessment", _: "State") -> Why:
    """Return why she sinks so fast with full tanks."""
    return _speed(
        her,
        "sinks",
        "Why does she sink so fast, or not at all, with full tanks?",
        full_excess(her),
    )


def full_excess(her: "Assessment") -> float:
    """Return weight less buoyancy, quite full and wholly under [kg]."""
    boat = her.floater
    return boat.mass - boat.density * (boat.volume - float(her.full_water.sum()))


def rises(her: "Assessment", _: "State") -> Why:
    """Return why she comes up so fast with her tanks blown."""
    return _speed(her, "rises", "Why does she come up so fast, tanks blown?", -lift_blown(her))


def lift_blown(her: "Assessment") -> float:
    """Return buoyancy less weight, tanks blown and wholly under [kg]."""
    boat = her.floater
    return boat.density * (boat.volume - float(her.blown_water.sum())) - boat.mass


def _speed(her: "Assessment", key: str, question: str, excess: float) -> Why:
    moves = her.heave
    if moves.plan_area <= 0:
        raise BalanceError("she has no breadth", key, "Give the hull a breadth.")
    values: tuple[Value, ...] = (
        put_in(her, "m_x", abs(excess), "mass"),
        put_in(her, "g", constant("gravity"), "", origin="constants table, m/s²"),
        density_in(her),
        put_in(her, "C_D", FLAT_PLATE, "", says="drag of a plate lying flat", origin="practice"),
        Value(
            symbol="A",
            says="her outside seen from above",
            text=write(moves.plan_area, "area", "m²"),
            value=moves.plan_area,
            kind="area",
            origin="the hull's surfaces",
            asks="",
        ),
    )
    fast = sqrt(
        2 * abs(excess) * constant("gravity") / (moves.density * FLAT_PLATE * moves.plan_area)
    )
    way = "sinks" if excess > 0 else "rises"
    return Why(
        key=key,
        question=question,
        answer=her.boat.units.write(fast, "speed", 2),
        result=fast,
        kind="speed",
        says=f"She {way} until the water holds her back as hard as she pulls; level, as a flat "
        "plate of her plan form.",
        formula="v = √{{2 m_x g|ρ C_D A}}",
        values=values,
        heads=(),
        items=(),
        source=source_of("practice"),
        sure="Rough: a flat plate's drag is common practice and was not measured on her.",
    )
