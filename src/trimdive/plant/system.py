"""One plant ready to be run: its tank, its air, what drives it and what feeds it, all in SI."""

from dataclasses import dataclass, replace
from typing import Literal, NamedTuple

from trimdive.boatfile.plant import Kind
from trimdive.fact import Fact
from trimdive.plant.driving import MotorLine, PumpCurve, Thread
from trimdive.records import record

Unpowered = Literal["shut", "open", "stays"]
OPEN_BELOW: tuple[Kind, ...] = ("gas", "snorkel")  # their tanks stand open to the water


@dataclass(frozen=True, slots=True, kw_only=True)
class Piston:
    """A piston with its screw and motor."""

    motor: MotorLine
    thread: Thread
    area: float  # of the piston [m²]
    seal: float  # how hard it rubs [N]


@dataclass(frozen=True, slots=True, kw_only=True)
class Bottle:
    """A bottle of gas with its jet."""

    gas: str
    mass: float  # of liquefied gas, 0 of a compressed one [kg]
    volume: float  # of a bottle of compressed gas, 0 of a liquefied one [m³]
    pressure: float  # in it, absolute, of a compressed one [Pa]
    jet: float  # bore [m]
    celsius: float  # temperature as the blow begins [°C]
    metal: float  # heat that the bottle itself gives for each degree [J/K]
    left: float  # share of a liquefied gas that stays in it [-]


Drive = PumpCurve | Piston | Bottle


class Others(NamedTuple):
    """Water in other tanks that take room from the same dry space; they fill as this one does."""

    blown: float  # with this one blown [m³]
    full: float  # with this one full [m³]
    closed: float  # when the dry space was closed [m³]


ALONE = Others(blown=0.0, full=0.0, closed=0.0)


@record
class System:
    """A plant that floods and empties a tank, or several at once."""

    name: str
    kind: Kind
    tanks: tuple[str, ...]
    room: float  # that water can take, all of it [m³]
    blown: float  # water that is left when it is blown [m³]
    full: float  # water when it is full: air that will not come out is left [m³]
    neutral: float  # water when she is meant to be neutral dived [m³]
    air: float  # in the dry space with the tank empty [m³]
    closed_with: float  # water in the tank when the dry space was closed [m³]
    others: Others
    low: float  # underside of the tank above the keel line [m]
    high: float  # its top [m]
    waterline: float  # height of the water outside as she floats blown [m]
    is_round: bool  # whether the tank lies as a cylinder
    density: float  # of the water [kg/m³]
    viscosity: float  # of the water [Pa s]
    celsius: float  # temperature of the water [°C]
    volts: float  # that its battery gives [V]
    share: float  # of its own voltage that it gets [-]
    starts: float  # share of its own voltage below which it does not start [-]
    drive: Drive
    stretch: float  # pressure that stretches a full bag [Pa]
    holes: float  # area open below [m²]
    vent: float  # area of the vent [m²]
    unpowered: Unpowered
    leaks: float  # what leaks through it as it stands, for each pascal [m³/s/Pa]
    assumed: tuple[Fact, ...]  # what was taken where nothing was told

    def with_water(self, water: float) -> "System":
        """Return the system closed with this water in its tank.

        Args:
            water: In the tank [m³].
        """
        return replace(self, closed_with=water)
