"""How far a boat's sums are from balance, as one number: the less, the likelier are her figures.

Every rest from balance is told in bands: what a boat in order keeps within. The number is the
logarithm of how much likelier she would be without it, for errors of which few are large and
many small (Student's distribution with one degree of freedom), so that it counts more to bring one
sum quite home than to bring two half-way.
"""

from dataclasses import dataclass
from math import log, log1p

import numpy as np

from trimdive.findings.assessed import Assessed
from trimdive.findings.finding import limit_of
from trimdive.findings.sums import ABOVE, AX, MASS, MX, MY, MZ, VOLUME, VX, VY, VZ
from trimdive.geometry.lines.mesh import Floats

MASS_BAND = 0.001  # of her mass: a third of what 3 mm of waterline weigh [-]
LENGTH_BAND = 0.0005  # of mass times length: a third of what half a degree of trim takes [-]
SIDE_BAND = 3e-5  # of her mass, to the side: a third of what half a degree of heel takes [m]
ROOM_BAND = 0.1  # logarithm of tank room over what is needed [-]
ROOM_SPARE = 1.12  # usual room over what is needed [-]
OFFSET_BAND = 0.001  # of her length: how far tank water lies off in a boat well made [-]
MUCH = 6.0  # times the BG wanted; more is odd [-]


def surprise(off: float) -> float:
    """Return the logarithm of how unlikely a rest is, told in bands [-].

    >>> surprise(0.0), round(surprise(10.0), 2)
    (0.0, 2.31)
    """
    return 0.5 * log1p(off * off)


@dataclass(frozen=True, slots=True, kw_only=True)
class Balance:
    """A boat's sums, and by what they are judged."""

    sums: Floats  # of all aboard, shape (COUNT,) [kg, kg m, m³, m⁴]
    rooms: tuple[tuple[float, float], ...]  # of each tank: room [m³], and place of its water [m]
    density: float  # of the water [kg/m³]
    length: float  # of the hull [m]
    middle: float  # of the hull [m]
    blown: tuple[float, float]  # water left in blown tanks: mass [kg] and moment [kg m]
    least_bg: float  # [m]

    def misfit(self, sums: Floats, rooms: tuple[tuple[float, float], ...]) -> float:
        """Return how far sums are from balance [-].

        Args:
            sums: Of all aboard, shape (COUNT,) [kg, kg m, m³, m⁴].
            rooms: Of each tank: room [m³], and place of its water [m].
        """
        rho = self.density
        mass = max(min(float(self.sums[MASS]), rho * float(self.sums[VOLUME])), 1e-9)
        light = float(sums[MASS]) + self.blown[0] - rho * float(sums[VOLUME] - sums[ABOVE])
        moment = float(sums[MX]) + self.blown[1] - rho * float(sums[VX] - sums[AX])
        moment -= self.middle * light
        side = float(sums[MY]) - rho * float(sums[VY])
        total = surprise(light / (MASS_BAND * mass))
        total += surprise(moment / (LENGTH_BAND * mass * self.length))
        total += surprise(side / (SIDE_BAND * mass))
        return total + self._tanks(sums, rooms) + self._upright(sums, rooms)

    def _tanks(self, sums: Floats, rooms: tuple[tuple[float, float], ...]) -> float:
        above = float(sums[ABOVE])
        room = sum(one for one, _ in rooms)
        if not rooms or above <= 0 or room <= 0:
            return surprise(10.0) if rooms else 0.0
        place = sum(one * x for one, x in rooms) / room
        off = place - float(sums[AX]) / above
        spare = log(room / (ROOM_SPARE * above)) / ROOM_BAND
        return surprise(spare) + surprise(off / (OFFSET_BAND * self.length))

    def _upright(self, sums: Floats, rooms: tuple[tuple[float, float], ...]) -> float:
        mass, volume = float(sums[MASS]), float(sums[VOLUME])
        if mass <= 0 or volume <= 0:
            return surprise(10.0)
        bg = float(sums[VZ]) / volume - float(sums[MZ]) / mass
        if bg < self.least_bg:
            return surprise((self.least_bg - bg) / (0.3 * self.least_bg))
        return surprise(max(log(bg / (MUCH * self.least_bg)), 0.0) / 0.3)


def balance_of(her: Assessed) -> Balance:
    """Return the sums of a boat as the full solver has them."""
    boat, need = her.floater, her.need
    centre = boat.tree.centre
    mass, moment = her.masses.mass, her.masses.moment
    lift = boat.volume * (boat.buoyancy + centre)
    sums = [mass, *moment, boat.volume, *lift, need.volume, need.volume * float(need.place[0])]
    low, high = her.hull.envelope.bounds[:, 0]
    if not her.boat.regions:
        low, high = 0.0, boat.length
    blown = her.surfaced.rest.waters
    places = [water_place(her, k) for k in range(len(blown))]
    return Balance(
        sums=np.array(sums, float),
        rooms=tuple((float(c) - float(b), x) for c, b, x in _rooms(her, places)),
        density=boat.density,
        length=float(high - low),
        middle=float(low + high) / 2,
        blown=(
            boat.density * float(blown.sum()),
            boat.density * sum(float(w) * x for w, x in zip(blown, places, strict=True)),
        ),
        least_bg=limit_of("bg-least", her.boat).value * boat.length,
    )


def water_place(her: Assessed, k: int) -> float:
    """Return about where the water in a tank lies when she is neutral [m]."""
    tank, boat = her.boat.tanks[k], her.floater
    if tank.kind == "piston":
        way = 1.0 if tank.runs == "forward" else -1.0
        return (tank.water_end or 0.0) + way * tank.neutral * (tank.stroke or 0.0) / 2
    return float(boat.tanks.centroids[k, 0] + boat.tree.centre[0])


def _rooms(her: Assessed, places: list[float]) -> list[tuple[float, float, float]]:
    full, blown = her.full.rest.waters, her.surfaced.rest.waters
    return [(float(f), float(b), x) for f, b, x in zip(full, blown, places, strict=True)]
