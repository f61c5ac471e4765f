"""What the plant draws from each battery, and the fuse and the wire for it.

A fuse protects the wire: it stands above what is drawn for long and below what the wire carries.

Sources: Ohm's law; [iec-60028]; data/wires.csv and fuses.csv, from memory: the rule of the place,
the wire's own sheet and whoever is qualified have the last word.
"""

from dataclasses import dataclass
from functools import cache

from trimdive.boatfile import Boat
from trimdive.boatfile.plant import Battery
from trimdive.data import constant, table
from trimdive.errors import PlantError
from trimdive.plant.build import battery_of
from trimdive.plant.usual import usual


@dataclass(frozen=True, slots=True, kw_only=True)
class Wire:
    """A wire that is sold."""

    area: float  # of copper [m²]
    carries: float  # for long, bundled in a warm closed space [A]


@dataclass(frozen=True, slots=True, kw_only=True)
class Electric:
    """What one battery feeds, with the fuse and the wire it has and should have."""

    battery: str
    volts: float  # nominal [V]
    plant: float  # most that the plant draws from it at once [A]
    drive: float  # what else is drawn from it [A]
    stalled: float  # drawn if the plant's motors stall, all at once [A]
    fuse: float  # that it has, 0 where none is told [A]
    fuse_wanted: float  # the next that is sold above what is drawn [A]
    wire: float  # copper that it has, 0 where none is told [m²]
    carries: float  # what that wire carries for long, 0 where none is told [A]
    wire_wanted: float  # the thinnest for that fuse and drop [m²]
    drop: float  # lost in the wire it has, 0 where none is told [V]
    drop_allowed: float  # [V]
    energy: float  # that it gives [J]

    @property
    def draws(self) -> float:
        """Return all that is drawn at once [A]."""
        return self.plant + self.drive


@cache
def wires() -> tuple[Wire, ...]:
    """Return the wires of the table, thinnest first."""
    return tuple(
        Wire(area=float(entry["area"]) * 1e-6, carries=float(entry["current"]))
        for entry in table("wires")
    )


@cache
def fuses() -> tuple[float, ...]:
    """Return the fuses of the table, smallest first [A]."""
    return tuple(float(entry["current"]) for entry in table("fuses"))


def wire_drop(current: float, area: float, length: float) -> float:
    """Return what is lost in a wire and back: 2 rho l I / A [V].

    Args:
        current: In it [A].
        area: Of its copper [m²].
        length: One way [m].

    Raises:
        PlantError: There is no copper in it.

    Source:
        Ohm's law; [iec-60028].

    >>> round(wire_drop(10.0, 1.5e-6, 1.0), 2)
    0.23
    """
    if not area > 0:
        raise PlantError(f"a wire of {area * 1e6:g} mm²", "wire", "Give copper above 0 mm².")
    return 2 * constant("copper-resistivity") * length * current / area


def carries(area: float) -> float:
    """Return what a wire carries for long, by the next thinner of the table [A].

    Args:
        area: Of its copper [m²].
    """
    under = [wire.carries for wire in wires() if wire.area <= area * (1 + 1e-9)]
    return under[-1] if under else 0.0


def fuse_for(current: float) -> float:
    """Return the next fuse that is sold above what is drawn for long [A].

    Args:
        current: Drawn for long [A].

    Raises:
        PlantError: No blade fuse is as large.
    """
    wanted = current * (1 + usual("fuse-spare"))
    found = next((fuse for fuse in fuses() if fuse >= wanted - 1e-9), None)
    if found is None:
        what = f"{current:.0f} A ask for a fuse of {wanted:.0f} A"
        mend = f"The largest of the table is {fuses()[-1]:.0f} A: share it between two batteries."
        raise PlantError(what, "fuse", mend)
    return found


def wire_for(fuse: float, current: float, length: float, volts: float) -> float:
    """Return the thinnest wire that a fuse protects and that loses no more than is usual [m²].

    Args:
        fuse: That protects it [A].
        current: Drawn for long [A].
        length: One way [m].
        volts: Of the battery [V].

    Raises:
        PlantError: No wire of the table is as thick.
    """
    most = usual("wire-drop") * volts
    for wire in wires():
        if wire.carries >= fuse and wire_drop(current, wire.area, length) <= most:
            return wire.area
    what = f"no wire of the table bears {fuse:g} A over {length:g} m"
    mend = f"The thickest is {wires()[-1].area * 1e6:g} mm²: lay two, or shorten it."
    raise PlantError(what, "wire", mend)


def electric(
    boat: Boat, most: dict[str, float], stalled: dict[str, float], length: float = 1.0
) -> tuple[Electric, ...]:
    """Return what each battery feeds.

    Args:
        boat: Her boat file.
        most: Largest current of each plant, by its name [A].
        stalled: Current of each plant with its motor stalled, by its name [A].
        length: Of a wire whose length nobody tells, one way [m].

    Raises:
        PlantError: No fuse or no wire of the tables is large enough.
    """
    return tuple(_one(boat, battery, most, stalled, length) for battery in boat.batteries)


def _one(
    boat: Boat,
    battery: Battery,
    most: dict[str, float],
    stalled: dict[str, float],
    length: float,
) -> Electric:
    fed = [plant.name for plant in boat.plants if battery_of(boat, plant) is battery]
    plant = sum(most.get(name, 0.0) for name in fed)
    draws = plant + battery.drive
    fuse = fuse_for(draws)
    far = battery.wire_length or length
    wanted = wire_for(max(fuse, battery.fuse or 0.0), draws, far, battery.voltage)
    return Electric(
        battery=battery.name,
        volts=battery.voltage,
        plant=plant,
        drive=battery.drive,
        stalled=sum(stalled.get(name, 0.0) for name in fed),
        fuse=battery.fuse or 0.0,
        fuse_wanted=fuse,
        wire=battery.wire or 0.0,
        carries=carries(battery.wire) if battery.wire else 0.0,
        wire_wanted=wanted,
        drop=wire_drop(draws, battery.wire, far) if battery.wire else 0.0,
        drop_allowed=usual("wire-drop") * battery.voltage,
        energy=battery.capacity * battery.voltage,
    )
