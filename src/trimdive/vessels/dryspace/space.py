"""The air in each dry space of a boat: how much, how that is known, and what takes room in it.

A dry space is a cylinder's. How much air is free in it with its tanks empty is as entered, of the
cylinder or of a plant that works in it; else worked out from what is listed in it; else a share of
its room. This is the one record of it: cylinder walls, caps, plants and leak tests all read it.
"""

from collections.abc import Iterator, Sequence
from math import pi
from typing import NamedTuple

from trimdive.boatfile import Boat, Cylinder, Part
from trimdive.boatfile.dry import PRESSES, homes
from trimdive.boatfile.plant import Plant
from trimdive.data import row
from trimdive.fact import Fact, fact
from trimdive.geometry.solids.hull import density_of
from trimdive.hydrostatics.equilibrium import Floater, tank_waters
from trimdive.records import record
from trimdive.units import read

LEAST_AIR = 0.05  # of the room in a cylinder: so much air is in it whatever stands there [-]


class Taker(NamedTuple):
    """A tank whose water takes room from the air of a dry space, or whose bag is filled from it."""

    tank: str
    kind: str  # of its plant; piston where a piston tank has none
    room: float  # [m³]
    closed: float  # water in it when the space was closed [m³]
    blown: float  # water in it blown [m³]
    full: float  # water in it full [m³]
    stretch: float  # pressure that stretches a full bag of air, 0 of others [Pa]

    def size(self, water: float) -> float:
        """Return the size of a bag with this water [m³] in its tank [m³]."""
        return self.room - water

    @property
    def is_bag(self) -> bool:
        """Return whether its air is moved out into a bag, and no water takes the air's room."""
        return self.kind == "air bag"


@record
class DrySpace:
    """The air in one dry space."""

    name: str  # of its cylinder
    path: str  # of its cylinder in the boat file
    air: float  # free in it with its tanks empty [m³]
    is_entered: bool  # as the builder measured it
    known: Fact  # how it is known
    takers: tuple[Taker, ...]
    closed_celsius: float  # temperature when it was closed [°C]
    celsius: float  # of the water [°C]
    hottest: float  # closed, in the sun [°C]
    assumed: tuple[Fact, ...]  # what was not entered

    @property
    def closed_water(self) -> float:
        """Return the water that took room in it when it was closed [m³]."""
        return sum(one.closed for one in self.takers if not one.is_bag)


def dry_spaces(
    boat: Boat, floater: Floater, plants: Sequence[Plant] | None = None
) -> dict[str, DrySpace]:
    """Return the dry space of every cylinder by its name.

    Args:
        boat: The boat.
        floater: For what her tanks hold.
        plants: That she might have instead of hers.
    """
    serving = boat.plants if plants is None else tuple(plants)
    waters = _Waters(
        room=[float(one) for one in floater.tanks.capacities],
        blown=[float(one) for one in tank_waters(boat, floater.tanks, "blown")],
        full=[float(one) for one in tank_waters(boat, floater.tanks, "full")],
    )
    return {
        vessel.name: _space(boat, number, vessel, serving, waters)
        for number, vessel in enumerate(boat.cylinders, 1)
    }


class _Waters(NamedTuple):
    """Room, least and most water of each tank, in the order of the boat file."""

    room: list[float]  # [m³]
    blown: list[float]  # [m³]
    full: list[float]  # [m³]


def _space(
    boat: Boat, number: int, vessel: Cylinder, plants: tuple[Plant, ...], waters: _Waters
) -> DrySpace:
    takers = tuple(_takers(boat, vessel, plants, waters))
    air, is_entered, known = _air(boat, vessel, plants, waters, takers)
    assumed = [] if is_entered else [known]
    hottest = vessel.hottest
    if hottest is None:
        hottest = float(row("safety", "hottest")["value"])
        assumed.append(fact("hottest-closed", celsius=hottest))
    celsius = boat.water.temperature
    closed = celsius if vessel.closing_temperature is None else vessel.closing_temperature
    return DrySpace(
        name=vessel.name, path=f"cylinder[{number}]", air=air, is_entered=is_entered, known=known,
        takers=takers, closed_celsius=closed, celsius=celsius, hottest=max(hottest, closed),
        assumed=tuple(assumed),
    )  # fmt: skip


def _takers(
    boat: Boat, vessel: Cylinder, plants: tuple[Plant, ...], waters: _Waters
) -> Iterator[Taker]:
    """Yield the tanks whose water takes room in a cylinder's air."""
    serving = {name: plant for plant in plants for name in plant.tanks}
    for k, tank in enumerate(boat.tanks):
        plant = serving.get(tank.name)
        kind = plant.kind if plant else "piston" if tank.kind == "piston" else ""
        home = homes(boat, (tank.name,))
        if kind not in PRESSES or vessel.name not in home:
            continue
        yield Taker(
            tank=tank.name, kind=kind, room=waters.room[k],
            closed=_closed_with(vessel, plant, kind, k, waters),
            blown=waters.blown[k], full=waters.full[k],
            stretch=_stretch(plant) if kind == "air bag" else 0.0,
        )  # fmt: skip


def _stretch(plant: Plant | None) -> float:
    """Return the pressure that stretches a full bag, the usual one where none is entered [Pa]."""
    if plant is not None and plant.stretch is not None:
        return plant.stretch
    usual = row("plant_usual", "stretch")
    return read(f"{usual['value']} {usual['unit']}", "pressure")


def _closed_with(
    vessel: Cylinder, plant: Plant | None, kind: str, k: int, waters: _Waters
) -> float:
    """Return the water in a tank when its dry space was closed [m³]."""
    if plant is not None and plant.closed_at is not None:
        return plant.closed_at * waters.room[k]
    if vessel.closed == "tanks full":
        return waters.full[k]
    if vessel.closed is None and kind == "air bag":
        return waters.room[k]  # the bag flat
    return 0.0 if kind == "air bag" else waters.blown[k]


def _air(
    boat: Boat,
    vessel: Cylinder,
    plants: tuple[Plant, ...],
    waters: _Waters,
    takers: tuple[Taker, ...],
) -> tuple[float, bool, Fact]:
    """Return the free air of a cylinder [m³], whether it was entered, and how it is known."""
    for plant in plants:
        if plant.free_air is not None and homes(boat, plant.tanks) == (vessel.name,):
            return plant.free_air, True, fact("air-entered", of=plant.name)
    apart = {tank.name for tank in boat.tanks if tank.inside != vessel.name}
    beside = sum(one.room for one in takers if one.tank in apart and not one.is_bag)
    if vessel.air is not None:
        return vessel.air + beside, True, fact("air-entered", of=vessel.name)
    room, listed = _room(vessel), [one for one in boat.pieces if one.inside == vessel.name]
    if not listed:
        share = float(row("safety", "free-air")["value"])
        air = share * room + beside
        return air, False, fact("air-by-share", air=air, of=vessel.name, share=share)
    held = sum(_held(one) for one in listed) / (2 if vessel.pair else 1)
    takes = {one.tank for one in takers}
    shut = sum(
        size
        for tank, size in zip(boat.tanks, waters.room, strict=True)
        if tank.inside == vessel.name and tank.name not in takes
    )
    most = sum(one.full for one in takers if not one.is_bag)
    least = max(LEAST_AIR * room, most * (1 + LEAST_AIR))
    air = max(room - held - shut, least) + beside
    return air, False, fact("air-less-listed", air=air, of=vessel.name)


def _room(vessel: Cylinder) -> float:
    """Return the room in a cylinder between its ends [m³]."""
    if vessel.ends == "round":
        straight = max(vessel.length - vessel.outside, 0.0)
        return pi / 4 * vessel.bore**2 * straight + pi / 6 * vessel.bore**3
    usual = float(row("safety", "cap-thickness")["value"]) * vessel.outside
    caps = (vessel.aft_cap or vessel.caps, vessel.fore_cap or vessel.caps)
    thick = sum((cap.thickness if cap else None) or usual for cap in caps)
    long = vessel.length - thick if vessel.between is None else vessel.between
    return pi / 4 * vessel.bore**2 * max(long, vessel.wall)


def _held(piece: Part) -> float:
    """Return the room that something in a cylinder takes [m³]: as measured, or by its mass."""
    if piece.volume is not None:
        return piece.volume * (2 if piece.pair == "each" else 1)
    usual = float(row("plant_usual", "parts-density")["value"])
    mass = (piece.mass or 0.0) * (2 if piece.pair == "each" else 1)
    return mass / (density_of(piece.material, piece.density) or usual)
