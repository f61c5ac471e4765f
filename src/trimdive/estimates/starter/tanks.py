"""Tanks of the room needed with their middle where it must be, and the plant that works them.

Source: common practice, no source.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil, pi

from trimdive.boatfile.plant import Kind
from trimdive.errors import StarterError
from trimdive.estimates.starter.figures import number
from trimdive.estimates.starter.names import ROOM, TANKS
from trimdive.estimates.starter.pieces import Line, Piece, lines, quotes
from trimdive.estimates.starter.room import dry_tank_side
from trimdive.estimates.starter.things import middles, vessels
from trimdive.estimates.starter.wish import Plan
from trimdive.fact import fact

LOST = 0.04  # of a tank's room, to fittings [-]
NEUTRAL = 0.90  # filling at which she is meant to be neutral [-]
CAP_ROOM = 0.022  # of the length: from a tank to the end of its cylinder [-]
SLACK = 0.095  # of the length: a longer slack tank makes her see-saw, so it is parted [-]
MOST = 0.7  # of a cylinder's length that its tanks may take [-]
TANK_WALLS = 0.03  # mass of a dry hull's tanks, of her outfit [-]
USUAL: Kind = "pump vented"  # the plant of a first boat for which nobody names one
PLANTS: dict[Kind, str] = {  # that a first boat may have, and what each is called in her file
    "pump vented": "pump",
    "pump closed": "pump",
    "piston": "piston",
    "pump bag": "pump",
    "gas": "blowing gear",
    "snorkel": "air pump",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Tank:
    """A tank for ballast water."""

    x: float  # its middle [m]
    length: float  # [m]
    neutral: float  # how full it is when she is neutral [-]
    runs: str  # which way a piston runs in it as it fills


def no_tanks(made: Plan) -> tuple[Tank, ...]:
    """Return stand-ins, so that a draft can be read before the need is known."""
    return tuple(Tank(x=x, length=0.02, neutral=NEUTRAL, runs="aft") for x in middles(made))


def tanks_for(made: Plan, litres: float, x: float) -> tuple[Tank, ...]:
    """Return tanks of the room wanted, else of the room needed, with their middle where it must be.

    Args:
        made: Her proportions.
        litres: Ballast water that she needs [m³].
        x: Where its middle must lie [m].

    Raises:
        StarterError: They do not fit.
    """
    count, room = len(middles(made)), _section(made) * (1 - LOST)
    held = made.wish.held or litres / NEUTRAL
    neutral = min(litres / held, 1.0)
    long = held / room / count
    if long > MOST * made.span:
        if made.wish.held:
            most = MOST * made.span * room * count
            wanted, there = (number(one, "volume", made.wish.units) for one in (held, most))
            what = f"tanks for {wanted} do not fit into her"
            raise StarterError(what, "the tanks", f"There is room for about {there}.")
        needed = number(litres, "volume", made.wish.units)
        what = f"a tank for {needed} would take most of the cylinder"
        raise StarterError(what, "the starter", "Give a thinner wall or a lower hull.")
    if count == 1 and made.wish.plant == "piston":  # its water is on one side of the piston
        at = x - (1 - neutral) * long / 2
        return (Tank(x=at, length=long, neutral=neutral, runs="aft"),)
    if count == 1:
        parts = ceil(long / (SLACK * made.wish.length))
        each = long / parts
        places = (x + (k - (parts - 1) / 2) * each for k in range(parts))
        return tuple(Tank(x=at, length=each, neutral=neutral, runs="aft") for at in places)
    ends = (
        middles(made)[0] + made.span / 2 - long / 2 - CAP_ROOM * made.wish.length,
        middles(made)[1] - made.span / 2 + long / 2 + CAP_ROOM * made.wish.length,
    )
    apart = max(x - ends[0], ends[1] - x)
    return tuple(
        Tank(x=x + sign * apart, length=long, neutral=neutral, runs=runs)
        for sign, runs in ((-1, "aft"), (1, "forward"))
    )


def _section(made: Plan) -> float:
    """Return the section of the room of a tank [m²]."""
    if made.wish.kind == "wet":
        return pi / 4 * made.bore**2
    side = dry_tank_side(made)
    return pi / 4 * side**2 if made.wish.plant == "piston" else side**2


def tank_names(tanks: tuple[Tank, ...]) -> tuple[str, ...]:
    """Return the names of the tanks, from aft."""
    if len(tanks) == 1:
        return TANKS[:1]
    if len(tanks) == 2:
        return TANKS[1:]
    return tuple(f"tank {k}, from aft" for k in range(1, len(tanks) + 1))


def tank_pieces(plan: Plan, tanks: tuple[Tank, ...]) -> Iterator[Piece]:
    """Yield the tanks in the cylinders of a wet hull."""
    homes = vessels(plan) * (1 if plan.cylinders == len(tanks) else len(tanks))
    for name, home, tank in zip(tank_names(tanks), homes, tanks, strict=True):
        at = (*lines(name=quotes(name), inside=quotes(home)), *_along(plan, tank))
        yield Piece(head="[[tank]]", lines=(*at, *_filled(tank)))


def dry_tank_pieces(plan: Plan, tanks: tuple[Tank, ...]) -> Iterator[Piece]:
    """Yield the room of the tanks in a dry hull, and the tanks in it."""
    side, first, last = dry_tank_side(plan), tanks[0], tanks[-1]
    room = lines(
        name=quotes(ROOM),
        x_aft=_length(plan, first.x - first.length / 2),
        x_fore=_length(plan, last.x + last.length / 2),
        breadth=_length(plan, side),
        z_bottom=_length(plan, plan.axis - side / 2),
        z_top=_length(plan, plan.axis + side / 2),
    )
    yield Piece(head="[[opening]]", lines=room)
    is_round = plan.wish.plant == "piston"
    across = (
        lines(bore=_length(plan, side))
        if is_round
        else lines(breadth=_length(plan, side), height=_length(plan, side))
    )
    mass = quotes(number(TANK_WALLS * plan.outfit / len(tanks), "mass", plan.wish.units))
    for name, tank in zip(tank_names(tanks), tanks, strict=True):
        made = (
            *lines(name=quotes(name), **({} if is_round else {"shape": quotes("box")})),
            *_along(plan, tank),
            *lines(z=_length(plan, plan.axis)),
            *across,
            *lines(mass=mass, known=quotes("guess")),
        )
        yield Piece(head="[[tank]]", lines=(*made, *_filled(tank)))


def plant_pieces(plan: Plan, tanks: tuple[Tank, ...]) -> Iterator[Piece]:
    """Yield the plant of each cylinder; none where nothing was said of it."""
    kind = plan.wish.plant
    if kind is None:
        return
    names, count = tank_names(tanks), max(plan.cylinders, 1)
    said = fact("plant-guessed") if plan.wish.is_plant_guessed else None
    for k in range(count):
        served = names if count == 1 else names[k : k + 1]
        end = ("after ", "forward ")[k] if count == 2 else ""
        yield Piece(
            head="[[plant]]",
            lines=(
                *lines(name=quotes(f"{end}{PLANTS[kind]}")),
                Line("kind", quotes(kind), said),
                *lines(tanks=f"[{', '.join(quotes(one) for one in served)}]"),
            ),
        )


def _along(plan: Plan, tank: Tank) -> tuple[Line, ...]:
    """Return the lines that tell where a tank lies along the boat, and how long it is."""
    if plan.wish.plant != "piston":
        return lines(x=_length(plan, tank.x), length=_length(plan, tank.length))
    end = tank.x + tank.length / 2 * (1 if tank.runs == "aft" else -1)
    return lines(
        kind=quotes("piston"),
        water_end=_length(plan, end),
        stroke=_length(plan, tank.length),
        runs=quotes(tank.runs),
    )


def _filled(tank: Tank) -> tuple[Line, ...]:
    """Return the lines that tell what of a tank is filled."""
    neutral = quotes(f"{round(tank.neutral * 100, 1):g} %")
    return lines(lost=quotes(f"{LOST * 100:g} %"), neutral=neutral)


def _length(plan: Plan, value: float) -> str:
    return quotes(number(value, "length", plan.wish.units))
