"""Every linkage of a boat: throw, force, what the servo must hold, side pull, and the shaft."""

from math import cos, inf, radians, sin, tan

import numpy as np

from trimdive.boatfile import Boat
from trimdive.boatfile.plant import Linkage
from trimdive.data import row
from trimdive.errors import BoatError, LinkageError
from trimdive.fact import Fact, fact
from trimdive.plant.linkages.geometry import (
    clearance,
    horn_angle,
    leverage,
    rod_angle,
    servo_angle,
)
from trimdive.plant.linkages.planes import plane_force, stock_moment
from trimdive.records import record
from trimdive.units import read

RODS = 20.0  # arms: the length of a rod that nobody tells [-]
THROW = radians(25.0)  # wanted where nobody tells: common practice, no source [rad]


@record
class Link:
    """What a linkage does."""

    name: str
    moves: str  # what it turns: a plane, a rudder, a valve
    arm: float  # of the servo, from its shaft to the rod [m]
    horn: float  # of what it turns, from its stock to the rod [m]
    travel: float  # that the servo turns to either side at most [rad]
    wanted: float  # angle wanted to either side [rad]
    one_way: float  # reached as the servo pulls [rad]
    other_way: float  # reached as it pushes [rad]
    servo: float  # how far the servo turns for the angle wanted, or its most [rad]
    load: float  # on the plane or rudder, at that angle and speed [N]
    moment: float  # about its stock [N m]
    rubs: float  # its seal, on the rod [N]
    rod_force: float  # in the rod, that counted [N]
    side_pull: float  # on the gland [N]
    holds: float  # torque that the servo holds [N m]
    torque: float  # that it must hold [N m]
    spare: float  # times that torque that it holds [-]
    clear: float  # between the rod as it moves and the shaft, endless where none is told [m]
    assumed: tuple[Fact, ...]  # what was taken where nothing was told

    @property
    def reaches(self) -> bool:
        """Return whether it turns as far as wanted both ways."""
        return min(self.one_way, self.other_way) >= self.wanted - 1e-9


def links(boat: Boat, density: float) -> tuple[Link, ...]:
    """Return what every linkage of a boat does.

    Args:
        boat: Her boat file.
        density: Of the water [kg/m³].

    Raises:
        LinkageError: One of them locks.
    """
    return tuple(link(one, density) for one in boat.linkages)


def _usual(key: str, kind: str) -> float:
    entry = row("plant_usual", key)
    return read(f"{entry['value']} {entry['unit']}", kind)


def link(one: Linkage, density: float) -> Link:
    """Return what a linkage does.

    Args:
        one: As the boat file has it.
        density: Of the water [kg/m³].

    Raises:
        LinkageError: It locks before the servo has turned.
    """
    assumed: list[Fact] = []
    rod = _length(one)
    try:
        ways = [abs(horn_angle(one.arm, one.horn, rod, way * one.travel)) for way in (1, -1)]
    except BoatError as error:
        raise LinkageError(error.what, one.name, error.mend) from None
    wanted = THROW if one.throw is None else one.throw
    found = servo_angle(one.arm, one.horn, rod, wanted, one.travel)
    servo = one.travel if found is None else found
    load, moment = _load(one, density, min(wanted, min(ways)), assumed)
    rubs = _given_or_usual(one.rubs, "rod-rubs", "force", assumed)
    horn = horn_angle(one.arm, one.horn, rod, servo)
    pull = moment / (one.horn * cos(horn)) + rubs
    torque = moment * leverage(one.arm, one.horn, rod, servo) + rubs * one.arm * cos(servo)
    side = pull * tan(rod_angle(one.arm, one.gland or rod, servo))
    clear = _clear(one, servo, horn, assumed)
    return Link(
        name=one.name, moves=one.moves, arm=one.arm, horn=one.horn, travel=one.travel,
        wanted=wanted, one_way=ways[0], other_way=ways[1], servo=servo, load=load, moment=moment,
        rubs=rubs, rod_force=pull, side_pull=side, holds=one.torque, torque=torque,
        spare=one.torque / torque if torque > 0 else inf, clear=clear, assumed=tuple(assumed),
    )  # fmt: skip


def _given_or_usual(given: float | None, key: str, kind: str, assumed: list[Fact]) -> float:
    if given is not None:
        return given
    assumed.append(fact("usual-taken", key=key))
    return _usual(key, kind)


def _length(one: Linkage) -> float:
    """Return the length of a rod [m]."""
    if one.x_aft is None or one.x_fore is None:
        return RODS * max(one.arm, one.horn)
    ends = _ends(one)
    return float(np.linalg.norm(ends[1] - ends[0]))


def _ends(one: Linkage) -> np.ndarray:
    """Return the ends of a rod, aft and fore, shape (2, 3) [m]."""
    return np.array(
        [
            [one.x_aft or 0.0, one.y_aft, one.z_aft or 0.0],
            [one.x_fore or 0.0, one.y_fore, one.z_fore or 0.0],
        ]
    )


def _load(
    one: Linkage, density: float, angle: float, assumed: list[Fact]
) -> tuple[float, float]:  # fmt: skip
    """Return the load on a plane or rudder [N] and its moment about the stock [N m]."""
    if one.area is None:
        return 0.0, 0.0
    span = one.span or float(np.sqrt(2 * one.area))
    speed = _given_or_usual(one.speed, "plane-speed", "speed", assumed)
    stock = _given_or_usual(one.stock, "plane-stock", "percent", assumed)
    force = plane_force(density, speed, one.area, span, angle)
    return force, stock_moment(force, one.area / span, stock)


def _clear(one: Linkage, servo: float, horn: float, assumed: list[Fact]) -> float:
    """Return what is free between the rod, as it moves, and the shaft [m]."""
    if one.shaft is None or one.shaft_z is None or one.x_aft is None or one.x_fore is None:
        return inf
    rod = _given_or_usual(one.rod, "rod-bore", "length", assumed)
    point = np.array([one.x_aft, one.shaft_y, one.shaft_z])
    way = np.array([cos(one.shaft_slope), 0.0, sin(one.shaft_slope)])
    sweep = max(one.arm * (1 - cos(servo)), one.horn * (1 - cos(horn)))
    return clearance(_ends(one), point, way) - (rod + one.shaft) / 2 - sweep
