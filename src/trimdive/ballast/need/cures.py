"""What can be done where the tank water does not lie under the volume above the waterline."""

from dataclasses import dataclass

import numpy as np

from trimdive.ballast.need.need import Need
from trimdive.geometry.lines.mesh import Floats
from trimdive.hydrostatics.equilibrium.problem import Floater

REACH = 0.8  # how far out towards bow or stern foam is placed, of the way to the end [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Foam:
    """Foam above the waterline that brings the centre over the tank water; it costs litres."""

    volume: float  # [m³]
    x: float  # its middle [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Pairing:
    """Lead low and foam high, below the waterline: stiffer, waterline and trim as before."""

    lead: float  # [kg]
    foam: float  # [m³]
    gain: float  # in BG [m]


def foam_instead(what: Need, ends: tuple[float, float]) -> Foam | None:
    """Return the foam above the waterline that would level her dived; None where level already.

    With it the centre of all that lies above the waterline comes over the tank water; so much
    more water must then be taken in.

    Args:
        what: The need.
        ends: Places of stern and bow [m].
    """
    if what.volume <= 0 or abs(what.offset) < 1e-6 or not what.fitted:
        return None
    tank = float(what.water_place[0])
    end = ends[1] if what.offset > 0 else ends[0]
    x = tank + REACH * (end - tank)
    return Foam(volume=what.volume * what.offset / (x - tank), x=x)


def split(boat: Floater, what: Need) -> tuple[float, float] | None:
    """Return the two fillings at which two tanks take the need with its centre right.

    None where there are not two tanks, or where it would need one beyond empty or full.
    """
    if len(what.takes) != 2 or boat.tanks.pistons.any():
        return None
    x = boat.tanks.centroids[:, 0] + boat.tree.centre[0]
    if abs(x[1] - x[0]) < 1e-6:
        return None
    fore = what.volume * (what.place[0] - x[0]) / (x[1] - x[0])
    fillings = np.array([what.volume - fore, fore]) / boat.tanks.capacities
    if fillings.min() < 0 or fillings.max() > 1:
        return None
    return float(fillings[0]), float(fillings[1])


def ranges(boat: Floater, what: Need, most: Floats) -> tuple[tuple[float, float], ...] | None:
    """Return how full each tank may be when together they take the need with its centre right.

    Two tanks have one way, three or more a range each; None where there is no way at all, or
    where a piston's water moves as it fills.

    Args:
        boat: The boat.
        what: The need.
        most: How full each tank can get, shape (t,) [-].
    """
    count = len(what.takes)
    if count < 2 or boat.tanks.pistons.any():
        return None
    from scipy.optimize import linprog  # slow to import, and only asked for here

    capacities = boat.tanks.capacities
    x = boat.tanks.centroids[:, 0] + boat.tree.centre[0]
    balance = np.stack([capacities, capacities * x])
    wanted = np.array([what.volume, what.volume * what.place[0]])
    found: list[tuple[float, float]] = []
    for k in range(count):
        ends: list[float] = []
        for sign in (1.0, -1.0):
            aim = np.zeros(count)
            aim[k] = sign
            bounds = [(0.0, float(full)) for full in most]
            result = linprog(aim, A_eq=balance, b_eq=wanted, bounds=bounds)
            if not result.success:
                return None
            ends.append(float(result.x[k]))
        found.append((ends[0], ends[1]))
    return tuple(found)


def pair_for_bg(
    gain: float,
    afloat: tuple[float, float],
    arms: tuple[float, float],
    densities: tuple[float, float, float],
) -> Pairing:
    """Return the lead low and foam high that raise BG by ``gain`` and leave all else alone.

    Lead sinks by m (1 - rho / rho_lead), foam lifts by v (rho - rho_foam); equal, they leave weight
    and buoyancy in balance. They add that force times the height between them to M BG, and
    their own mass to M.

    Args:
        gain: In BG [m].
        afloat: Displacement dived [kg], and BG before [m].
        arms: Heights of the lead and of the foam above the keel line [m].
        densities: Of water, lead and foam [kg/m³].
    """
    water, lead, foam = densities
    mass, bg = afloat
    added = 1 / (1 - water / lead) + foam / (water - foam)  # mass added for each kg of pull
    force = mass * gain / (arms[1] - arms[0] - added * (bg + gain))
    return Pairing(lead=force / (1 - water / lead), foam=force / (water - foam), gain=gain)
