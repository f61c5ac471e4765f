"""Water on its way: through hoses, valves, holes and vents.

Sources: Darcy and Weisbach; Hagen and Poiseuille; Colebrook's formula for the friction of pipes.
"""

from dataclasses import dataclass
from math import log10, pi, sqrt

import numpy as np

from trimdive.data import constant
from trimdive.errors import PlantError
from trimdive.geometry.lines.mesh import Floats

ROUGH = 1.5e-6  # of a drawn hose [m]
LAMINAR = 2040.0  # Reynolds number up to which it flows in layers [-]
ENDS = 1.5  # velocity heads lost where it enters and leaves [-]
DISCHARGE = 0.61  # of a sharp edge [-]
AIR = constant("air-density")  # [kg/m³]
AIR_VISCOSITY = constant("air-viscosity")  # [Pa s]
TURNS = 6  # of Colebrook's formula put into itself: it settles to ten digits [-]


def friction(reynolds: float, roughness: float) -> float:
    """Return the friction factor of a round pipe (Darcy's) [-].

    Args:
        reynolds: Reynolds number [-].
        roughness: Over the bore [-].

    Limits:
        Between 2000 and 4000 it may be either, and the larger is given.

    Source:
        Hagen-Poiseuille; Colebrook.

    >>> round(friction(1e5, 1e-4), 6)
    0.018514
    """
    if reynolds <= 0:
        return 0.0
    if reynolds < LAMINAR:
        return 64 / reynolds
    x = -1.8 * log10((roughness / 3.7) ** 1.11 + 6.9 / reynolds)
    for _ in range(TURNS):
        x = -2 * log10(roughness / 3.7 + 2.51 * x / reynolds)
    return 1 / x**2


def hose_loss(
    flow: float, bore: float, length: float, density: float, viscosity: float, heads: float = ENDS
) -> float:
    """Return the pressure lost in a hose and at its ends [Pa].

    Args:
        flow: Through it [m³/s].
        bore: Of the hose [m].
        length: Of the hose [m].
        density: Of what flows [kg/m³].
        viscosity: Of what flows [Pa s].
        heads: Velocity heads lost at its ends [-].

    Source:
        Darcy-Weisbach.
    """
    speed = abs(flow) / (pi / 4 * bore**2)
    head = density * speed**2 / 2
    f = friction(density * speed * bore / viscosity, ROUGH / bore)
    return (f * length / bore + heads) * head


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """The way that water or air takes: a hose, and a valve in it."""

    bore: float  # of the hose [m]
    length: float  # of the hose [m]
    valve: float  # bore of the valve, the hose's where there is none [m]
    density: float  # of what flows [kg/m³]
    viscosity: float  # of what flows [Pa s]

    def __post_init__(self) -> None:
        """Refuse a way through which nothing can flow.

        Raises:
            PlantError: A bore or the length is not above zero.
        """
        if not (self.bore > 0 and self.length > 0 and self.valve > 0):
            what = f"nothing flows through {self.bore * 1e3:g} mm over {self.length * 1e3:g} mm"
            raise PlantError(what, "hose", "Give bore and length above 0.")

    def loss(self, flow: float) -> float:
        """Return the pressure lost [Pa].

        Args:
            flow: Through it [m³/s].
        """
        lost = hose_loss(flow, self.bore, self.length, self.density, self.viscosity)
        if self.valve < self.bore:
            head = self.density * (flow / (pi / 4 * self.valve**2)) ** 2 / 2
            lost += ENDS * head
        return lost

    def losses(self, flows: Floats) -> Floats:
        """Return the pressure lost at several flows, shape (n,) [Pa].

        Args:
            flows: Through it, shape (n,) [m³/s].
        """
        return np.array([self.loss(float(flow)) for flow in flows])


def hole_flow(head: float, holes: float, vent: float, density: float) -> float:
    """Return the water that comes in below while air leaves above [m³/s].

    Args:
        head: Of the water outside over that inside [m].
        holes: Area open below [m²].
        vent: Area of the vent [m²].
        density: Of the water [kg/m³].

    Source:
        Two sharp edges in series, closed form: the head is lost partly in each.
    """
    if head <= 0 or holes <= 0 or vent <= 0:
        return 0.0
    g = constant("gravity")
    below = density / (DISCHARGE * holes) ** 2
    above = AIR / (DISCHARGE * vent) ** 2
    return sqrt(2 * density * g * head / (below + above))


def pressure_at(depth: float, density: float) -> float:
    """Return the absolute pressure at a depth [Pa].

    Args:
        depth: Under the surface [m].
        density: Of the water [kg/m³].
    """
    return constant("atmosphere") + density * constant("gravity") * depth
