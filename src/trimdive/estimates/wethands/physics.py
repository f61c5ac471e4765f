"""The few laws by which a boat in no file is judged: litres, stiffness, moments.

Dived, nothing but her mass and BG keeps her level: tan(angle) = moment / (mass · BG), lengthways
and across alike. Water that may run in a tank takes rho · i / mass off BG. Foam above the
waterline lifts dived only, so that it takes as much more water to go under.

Sources: statics of a hanging body; the free surface of a box [practice].
"""

from math import asin

from trimdive.data import row
from trimdive.estimates.wethands.figure import Figure, arc, tangent


def density_of(material: str) -> float:
    """Return the density of a material of the table [kg/m³]."""
    return float(row("materials", material)["density"])


def hung_angle(moment: Figure, mass: Figure, bg: Figure) -> Figure:
    """Return the angle at which she hangs dived [rad].

    Args:
        moment: That turns her [kg m].
        mass: Of boat and tank water [kg].
        bg: B over G [m].

    Source:
        tan(angle) = moment / (mass · BG).
    """
    return arc(moment.over(mass.by(bg)))


def moment_at(angle: Figure, mass: Figure, bg: Figure) -> Figure:
    """Return the moment that makes her hang at an angle [kg m].

    Args:
        angle: At which she hangs dived [rad].
        mass: Of boat and tank water [kg].
        bg: B over G [m].
    """
    return mass.by(bg).by(tangent(angle))


def bg_by_shift(weight: Figure, way: Figure, angle: Figure, mass: Figure) -> Figure:
    """Return BG from a weight moved along or across her and the angle that this makes [m].

    Args:
        weight: As it pulls under water [kg].
        way: How far it was moved [m].
        angle: By how much the angle changed, begun near level [rad].
        mass: Of boat and tank water [kg].

    Source:
        The inclining test.
    """
    return weight.by(way).over(mass.by(tangent(angle)))


def pull_of_lead(mass: Figure, water: float) -> Figure:
    """Return what lead pulls under water [kg].

    Args:
        mass: Of the lead [kg].
        water: Density of the water [kg/m³].
    """
    return mass.times(1 - water / density_of("lead"))


def foam_lift(water: float) -> float:
    """Return what foam lifts, for its volume [kg/m³].

    Args:
        water: Density of the water [kg/m³].
    """
    return water - density_of("XPS foam")


def foam_for(moment: Figure, arm: Figure, water: float) -> Figure:
    """Return the foam above the waterline that takes a moment up when dived [m³].

    The tank takes as much more water as it lifts, so that the arm is that from tank to foam.

    Args:
        moment: That turns her dived [kg m].
        arm: From the middle of the tank water to the foam [m].
        water: Density of the water [kg/m³].
    """
    return moment.over(arm).times(1 / foam_lift(water))


def taken_by(foam: Figure, water: float) -> Figure:
    """Return the tank room that foam above the waterline takes [m³].

    Args:
        foam: Its volume [m³].
        water: Density of the water [kg/m³].
    """
    return foam.times(foam_lift(water) / water)


def tank_shift(moment: Figure, taken: Figure, water: float) -> Figure:
    """Return how far the tank must move to take a moment up when dived [m].

    Args:
        moment: That turns her dived [kg m].
        taken: Water that the tank takes to make her neutral [m³].
        water: Density of the water [kg/m³].
    """
    return moment.over(taken.times(water))


def slack_loss(length: Figure, breadth: Figure, mass: Figure, water: float) -> Figure:
    """Return what the slack water of one box tank takes off BG lengthways [m].

    Args:
        length: Of the water surface [m].
        breadth: Of the water surface [m].
        mass: Of boat and tank water [kg].
        water: Density of the water [kg/m³].

    Source:
        i = b l³ / 12.
    """
    cube = Figure(length.value**3, 3 * length.value**2 * length.spread)
    return breadth.by(cube).times(water / 12).over(mass)


def bays_for(loss: float, bg: float, share: float) -> int:
    """Return into how many closed bays a tank is parted for slack water to take little of BG.

    Args:
        loss: What it takes undivided [m].
        bg: B over G [m].
        share: Of BG that it may take [-].

    Source:
        n equal bays take 1/n² of what one does.

    >>> bays_for(0.035, 0.015, 0.25)
    4
    """
    count = 1
    while loss / count**2 > share * bg:
        count += 1
    return count


def least_angle(depth: float, length: float) -> float:
    """Return the least angle at which one end is on the bottom with the other out [rad].

    Let go in deeper water she would hang at more: the bottom holds one end up, and the other has
    lost the lift of what stands out.

    Args:
        depth: Of the water [m].
        length: Over all [m].
    """
    return asin(min(depth / length, 1.0))
