"""Every linkage of a boat: throw, force, what the servo must hold, side pull, and the shaft."""

from dataclasses import dataclass, replace
from math import cos, degrees, inf, radians, sin, tan

import numpy as np

from trimdive.boatfile import Boat
from trimdive.boatfile.plant import Linkage
from trimdive.data import row
from trimdive.errors import BoatError, LinkageError
from trimdive.linkages.geometry import (
    clearance,
    horn_angle,
    leverage,
    rod_angle,
    servo_angle,
)
from trimdive.linkages.planes import plane_force, stock_moment
from trimdive.records import record
from trimdive.units import read, write

RODS = 20.0  # arms: the length of a rod that nobody tells [-]
THROW = radians(25.0)  # wanted where nobody tells: common practice, no source [rad]


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """One figure of a linkage in words."""

    key: str
    label: str
    text: str
    why: str  # one sentence that explains it


@record
class Link:
    """What a linkage does."""

    name: str
    wanted: float  # angle wanted to either side [rad]
    one_way: float  # reached as the servo pulls [rad]
    other_way: float  # reached as it pushes [rad]
    servo: float  # how far the servo turns for the angle wanted, or its most [rad]
    load: float  # on the plane or rudder, at that angle and speed [N]
    moment: float  # about its stock [N m]
    rod_force: float  # in the rod, its seal's rubbing counted [N]
    side_pull: float  # on the gland [N]
    torque: float  # that the servo must hold [N m]
    spare: float  # times that torque that it holds [-]
    clear: float  # between the rod as it moves and the shaft, endless where none is told [m]
    figures: tuple[Said, ...]
    assumed: tuple[str, ...]  # what was taken where nothing was told

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


def _said(key: str) -> str:
    entry = row("plant_usual", key)
    return f"{entry['value']} {entry['unit']} taken: {entry['note']}"


def link(one: Linkage, density: float) -> Link:
    """Return what a linkage does.

    Args:
        one: As the boat file has it.
        density: Of the water [kg/m³].

    Raises:
        LinkageError: It locks before the servo has turned.
    """
    assumed: list[str] = []
    rod = _length(one)
    try:
        ways = [abs(horn_angle(one.arm, one.horn, rod, way * one.travel)) for way in (1, -1)]
    except BoatError as error:
        raise LinkageError(error.what, one.name, error.mend) from None
    wanted = THROW if one.throw is None else one.throw
    found = servo_angle(one.arm, one.horn, rod, wanted, one.travel)
    servo = one.travel if found is None else found
    load, moment = _load(one, density, min(wanted, min(ways)), assumed)
    rubs = _told(one.rubs, "rod-rubs", "force", assumed)
    horn = horn_angle(one.arm, one.horn, rod, servo)
    pull = moment / (one.horn * cos(horn)) + rubs
    torque = moment * leverage(one.arm, one.horn, rod, servo) + rubs * one.arm * cos(servo)
    side = pull * tan(rod_angle(one.arm, one.gland or rod, servo))
    clear = _clear(one, servo, horn, assumed)
    made = Link(
        name=one.name, wanted=wanted, one_way=ways[0], other_way=ways[1], servo=servo,
        load=load, moment=moment, rod_force=pull, side_pull=side, torque=torque,
        spare=one.torque / torque if torque > 0 else inf, clear=clear, figures=(),
        assumed=tuple(assumed),
    )  # fmt: skip
    return _with_words(made, one, rubs)


def _told(told: float | None, key: str, kind: str, assumed: list[str]) -> float:
    if told is not None:
        return told
    assumed.append(_said(key))
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
    one: Linkage, density: float, angle: float, assumed: list[str]
) -> tuple[float, float]:  # fmt: skip
    """Return the load on a plane or rudder [N] and its moment about the stock [N m]."""
    if one.area is None:
        return 0.0, 0.0
    span = one.span or float(np.sqrt(2 * one.area))
    speed = _told(one.speed, "plane-speed", "speed", assumed)
    stock = _told(one.stock, "plane-stock", "percent", assumed)
    force = plane_force(density, speed, one.area, span, angle)
    return force, stock_moment(force, one.area / span, stock)


def _clear(one: Linkage, servo: float, horn: float, assumed: list[str]) -> float:
    """Return what is free between the rod, as it moves, and the shaft [m]."""
    if one.shaft is None or one.shaft_z is None or one.x_aft is None or one.x_fore is None:
        return inf
    rod = _told(one.rod, "rod-bore", "length", assumed)
    point = np.array([one.x_aft, one.shaft_y, one.shaft_z])
    way = np.array([cos(one.shaft_slope), 0.0, sin(one.shaft_slope)])
    sweep = max(one.arm * (1 - cos(servo)), one.horn * (1 - cos(horn)))
    return clearance(_ends(one), point, way) - (rod + one.shaft) / 2 - sweep


def _with_words(made: Link, one: Linkage, rubs: float) -> Link:
    """Return a linkage with its figures in words."""
    force = "nothing but its seal loads it"
    if made.load:
        force = f"{made.load:.1f} N on the {one.moves} turn its stock with {made.moment:.3f} N m; "
        force += f"the seal rubs with {rubs:.1f} N"
    said = [
        Said(
            key="throw", label="turns to either side",
            text=f"{degrees(made.one_way):.0f}° and {degrees(made.other_way):.0f}°",
            why=f"an arm of {_mm(one.arm)} on a horn of {_mm(one.horn)}, the servo turned "
            f"{degrees(one.travel):.0f}°; wanted {degrees(made.wanted):.0f}°",
        ),
        Said(key="rod-force", label="pull in the rod", text=f"{made.rod_force:.1f} N", why=force),
        Said(
            key="torque", label="servo holds",
            text=f"{made.spare:.1f} times what is asked",
            why=f"{write(one.torque, 'torque', 'N cm')} against "
            f"{write(made.torque, 'torque', 'N cm')}",
        ),
        Said(
            key="side-pull", label="side pull at the gland", text=f"{made.side_pull:.2f} N",
            why=f"the arm's hole goes {_mm(one.arm * (1 - cos(made.servo)))} out of line",
        ),
    ]  # fmt: skip
    if made.clear < inf:
        said.append(
            Said(key="shaft", label="rod clear of the shaft", text=_mm(made.clear),
                 why="at the closest, both thicknesses and the swing taken off")
        )  # fmt: skip
    return replace(made, figures=tuple(said))


def _mm(value: float) -> str:
    return write(value, "length", "mm")
