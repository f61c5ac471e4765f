"""What is usual aboard, as pieces of a boat file: guessed masses, places and outlines."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import hypot, log, pi

import numpy as np

from trimdive.data import Row, row, table
from trimdive.estimates.starter.figures import number
from trimdive.estimates.starter.names import CYLINDERS, HULL
from trimdive.estimates.starter.pieces import Line, Piece, lines, quotes
from trimdive.estimates.starter.shape import deck_at, lines_of
from trimdive.estimates.starter.wish import MIDDLES, Plan, is_measured, within
from trimdive.fact import Fact, fact

CAP = 0.16  # thickness of an end cap over the diameter, with rings and rods [-]
PACKS = (7.4, 9.6, 12.0, 24.0)  # batteries that are sold [V]
SHARES = tuple(1.0 - k / 20 for k in range(17))  # of its usual size, tried in turn [-]
PACK = 150.0  # energy of a lithium battery over its mass, small packs with leads [Wh/kg]
MOTOR = 0.008  # mass of a small motor with its gear over what it takes in use [kg/W]
LIGHT = 0.3  # of an outline: less volume than this is an open shell [-]
Tanks = tuple[tuple[str, float], ...]  # name and middle of each, from aft [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Power:
    """Motor and battery by the table of sizes."""

    power: float  # in use [W]
    volts: float  # [V]
    charge: float  # [Ah]


def power_of(plan: Plan) -> Power:
    """Return what usually drives a boat of her length."""
    length, size = plan.wish.length, plan.size
    volts = within(size.volts.usual, length, "volts")
    return Power(
        power=within(size.power.usual, length, "power"),
        volts=min(PACKS, key=lambda pack: abs(log(pack / volts))),
        charge=within(size.charge.usual, length, "charge"),
    )


def tube_material(plan: Plan) -> str:
    """Return what a cylinder of her size is usually made of."""
    return "PVC-U" if plan.outside > 0.1 else "acrylic"


def cylinder_mass(plan: Plan) -> float:
    """Return the mass of one tube with its caps, rings and rods [kg]."""
    density = float(row("materials", tube_material(plan))["density"])
    tube = pi * (plan.outside - plan.bore_wall) * plan.bore_wall * plan.span
    return density * (tube + 2 * pi / 4 * plan.outside**2 * CAP * plan.outside)


def vessels(plan: Plan) -> tuple[str, ...]:
    """Return the names of what keeps water out, from aft."""
    if plan.wish.kind == "dry":
        return (HULL,)
    return CYLINDERS[:1] if plan.cylinders == 1 else CYLINDERS[1:]


def middles(plan: Plan) -> tuple[float, ...]:
    """Return the middles of the cylinders, from aft; of the dry room in a dry hull [m]."""
    length = plan.wish.length
    return tuple(share * length for share in MIDDLES[max(plan.cylinders, 1)])


def things(plan: Plan, home: tuple[str, ...], tanks: Tanks) -> Iterator[Piece]:
    """Yield every part that is usual in some homes.

    Args:
        plan: Her proportions.
        home: Which rows of the table: after, fore and each; wet; or above.
        tanks: Name of each tank and its middle, from aft [m].
    """
    for entry in table("starter"):
        has_none = is_measured(plan) or plan.wish.drawn is not None
        if entry["home"] not in home or (has_none and _is_above(entry)):
            continue
        if entry["home"] in ("wet", "flooded", "above"):
            yield _outside(plan, entry)
        else:
            yield from _inside(plan, entry, tanks)


def _is_above(entry: Row) -> bool:
    """Return whether a thing in the wet lies above the waterline, such as the lip of a joint."""
    return entry["home"] in ("wet", "flooded") and float(entry["z"]) > 1.0


def _inside(plan: Plan, entry: Row, tanks: Tanks) -> Iterator[Piece]:
    names, places = vessels(plan), middles(plan)
    chosen = {"after": [0], "fore": [len(names) - 1], "each": [*range(len(names))]}
    which = chosen[entry["home"]]
    share = float(entry["x_two" if len(names) == 2 else "x"])
    for k in which:
        served = tanks if len(names) == 1 else tanks[k : k + 1]
        is_works = entry["name"] == "tank works"
        at_tank = sum(x for _, x in served) / len(served)
        x = at_tank if is_works else places[k] + (share - 0.5) * plan.span
        if len(names) == 2 and k == 1 and entry["name"] == "battery":
            x = places[k] + 0.5 * (1 - share) * plan.span
        z = plan.axis + (float(entry["z"]) - 0.5) * plan.bore
        end = ("after ", "forward ")[k] if len(which) == 2 else ""
        mass = max(float(entry["share"]) * plan.outfit, least_mass(plan, entry["name"]))
        mass /= len(which)
        works = lines(works_of=quotes(served[0][0])) if is_works and len(served) == 1 else ()
        has_cap = entry["cap"] and plan.wish.kind != "dry"
        cap = lines(at_cap=quotes(entry["cap"])) if has_cap else ()
        home = (*lines(inside=quotes(names[k])), *works, *cap)
        named = Line("name", quotes(f"{end}{entry['name']}"), _about(plan, entry))
        yield Piece(
            head="[[part]]",
            lines=(named, *home, *_mass(plan, mass), *_guessed(plan, x, z)),
        )


def least_mass(plan: Plan, name: str) -> float:
    """Return what something aboard weighs at the least for what it is said to be able to do [kg].

    A slim boat needs the same power and charge as a stout one of her length, and what holds them.

    Args:
        plan: Her proportions.
        name: Of the row of the table.

    Source:
        Common practice, no source.
    """
    usual = power_of(plan)
    if name == "battery":
        return usual.volts * usual.charge / PACK
    return MOTOR * usual.power if name.startswith("motor") else 0.0


def _mass(plan: Plan, mass: float) -> tuple[Line, ...]:
    return lines(mass=quotes(number(mass, "mass", plan.wish.units)))


def _guessed(plan: Plan, x: float, z: float) -> tuple[Line, ...]:
    """Return the lines of a guessed mass and its place [m]."""
    at = (quotes(number(one, "length", plan.wish.units)) for one in (x, z))
    return lines(known=quotes("guess"), **dict(zip("xz", at, strict=True)))


def _outside(plan: Plan, entry: Row) -> Piece:
    mass = float(entry["share"]) * plan.outfit
    volume = mass / float(entry["density"])
    sizes = [
        float(entry[key]) * whole
        for key, whole in (
            ("length", plan.wish.length),
            ("breadth", plan.breadth),
            ("height", plan.waterline),
        )
    ]
    z = float(entry["z"]) * plan.waterline
    if entry["home"] == "above":
        z = _above(plan, entry, sizes[2])
    made = (
        Line("name", quotes(entry["name"]), fact("usual-part", name=entry["name"])),
        *_mass(plan, mass),
        *lines(volume=quotes(number(volume, "volume", plan.wish.units))),
        *_guessed(plan, float(entry["x"]) * plan.wish.length, z),
    )
    if all(sizes):
        x = float(entry["x"])
        is_inner = plan.wish.drawn and entry["open"] == "yes" and z < plan.waterline
        share = _inside_share(plan, x, z, sizes) if is_inner else 1.0
        sizes = [share * size for size in sizes]
        box = sizes[0] * sizes[1] * sizes[2]
        made += lines(
            shape=quotes("box"),
            **{
                key: quotes(number(size, "length", plan.wish.units))
                for key, size in zip(("length", "breadth", "height"), sizes, strict=True)
            },
        )
        is_open = volume < LIGHT * box or entry["open"] == "yes"
        made += lines(open="true") if is_open else ()
    through = lines(through_hull="true") if entry["through"] == "yes" else ()
    return Piece(head="[[part]]", lines=(*made, *through))


def _inside_share(plan: Plan, x: float, z: float, sizes: list[float]) -> float:
    """Return how much of its usual size a box has inside a hull that was drawn [-].

    Args:
        plan: Her proportions.
        x: Of its middle, share of the length [-].
        z: Of its middle [m].
        sizes: Length, breadth and height as usual [m].
    """
    return next(
        (share for share in SHARES if _out(plan, x, z, [share * one for one in sizes]) < 1.0),
        SHARES[-1],
    )


def _out(plan: Plan, x: float, z: float, sizes: list[float]) -> float:
    """Return how far the corners of a box lie out along a section, 1 at the skin [-].

    The hull's sections are taken as ovals through keel, greatest breadth and the middle.

    Args:
        plan: Her proportions.
        x: Of its middle, share of the length [-].
        z: Of its middle [m].
        sizes: Length, breadth and height [m].
    """
    profile, across = lines_of(plan)
    places, keels, _ = zip(*profile, strict=True)
    spots, breadths, widest, _ = zip(*across, strict=True)
    long, broad, high = (size / 2 for size in sizes)
    found: list[float] = []
    for at in (x - long / plan.wish.length, x + long / plan.wish.length):
        keel = plan.waterline * float(np.interp(at, places, keels))
        middle = plan.waterline * float(np.interp(at, spots, widest))
        half = plan.breadth / 2 * float(np.interp(at, spots, breadths)) - plan.wall
        up = max(abs(z - high - middle), abs(z + high - middle))
        found.append(hypot(broad / max(half, 1e-9), up / max(middle - keel - plan.wall, 1e-9)))
    return max(found)


def _above(plan: Plan, entry: Row, height: float) -> float:
    """Return the height of a thing on deck or tower, so that it stands on it [m]."""
    z = float(entry["z"]) * plan.waterline
    if z > 1.9 * plan.waterline:
        return z
    return deck_at(plan, float(entry["x"]) * plan.wish.length) + height / 2


def _about(plan: Plan, entry: Row) -> Fact:
    """Return what is said beside a part: what is usual for her length, where the table has it."""
    found = power_of(plan)
    if entry["name"] == "battery":
        each = found.charge / max(plan.cylinders, 1)
        return fact("usual-battery", volts=found.volts, charge=each)
    if entry["name"].startswith("motor"):
        return fact("usual-motor", power=found.power)
    return fact("usual-part", name=entry["name"])
