"""From the boat file to plants that can be run: what is told, and what is usual where nothing is.

Sources: data/plant_usual.csv, row by row.
"""

from collections.abc import Mapping
from math import pi, sqrt
from typing import NamedTuple, Protocol

from trimdive.boatfile import Boat, Tank
from trimdive.boatfile.dry import PRESSES, homes
from trimdive.boatfile.plant import Battery, Hose, Motor, Plant, Pump, Screw, Store, Valve
from trimdive.data import constant
from trimdive.errors import PlantError
from trimdive.fact import fact
from trimdive.hydrostatics.equilibrium import Floater, tank_waters
from trimdive.plant.driving import (
    TRAPEZOID,
    MotorLine,
    PumpCurve,
    Thread,
    motor_line,
    pump_curve,
)
from trimdive.plant.fill import PRESSED
from trimdive.plant.state import NEARLY
from trimdive.plant.system import ALONE, Bottle, Drive, Others, Piston, System, Unpowered
from trimdive.plant.usual import Taking, usual
from trimdive.plant.water import AIR, AIR_VISCOSITY, Way
from trimdive.vessels.dryspace import DrySpace, dry_spaces
from trimdive.water import Water, water

GAS = "R-134a"  # taken where no gas is named
AIR_KINDS = ("snorkel", "air bag")  # whose pump moves air
HOLD = ("hose", "diaphragm")  # pumps that hold as they stand


class Let(Protocol):
    """A boat ready to be let go."""

    @property
    def boat(self) -> Boat:
        """Her boat file."""
        ...

    @property
    def floater(self) -> Floater:
        """The boat ready to be let go."""
        ...


class Room(NamedTuple):
    """The tanks that one plant serves, together."""

    room: float  # [m³]
    blown: float  # [m³]
    full: float  # [m³]
    neutral: float  # [m³]
    low: float  # [m]
    high: float  # [m]
    x: float  # [m]
    bore: float  # of a piston, 0 of others [m]
    is_round: bool


def rooms(her: Let, names: tuple[str, ...]) -> Room:
    """Return the room of some tanks together.

    Args:
        her: The boat.
        names: Of the tanks.
    """
    boat, tanks = her.boat, her.floater.tanks
    full, blown = (tank_waters(boat, tanks, way) for way in ("full", "blown"))
    found = [(k, tank) for k, tank in enumerate(boat.tanks) if tank.name in names]
    sizes = [float(tanks.capacities[k]) for k, _ in found]
    edges = [_edges(tank, size) for (_, tank), size in zip(found, sizes, strict=True)]
    return Room(
        room=sum(sizes),
        blown=sum(float(blown[k]) for k, _ in found),
        full=sum(float(full[k]) for k, _ in found),
        neutral=sum(tank.neutral * size for (_, tank), size in zip(found, sizes, strict=True)),
        low=min(low for low, _ in edges),
        high=max(high for _, high in edges),
        x=found[0][1].x or 0.0,
        bore=_bore(found[0][1], sizes[0]),
        is_round=all(tank.shape == "round" for _, tank in found),
    )


def _edges(tank: Tank, room: float) -> tuple[float, float]:
    """Return underside and top of a tank above the keel line, a cube's where none is told [m]."""
    high = tank.height or tank.bore or room ** (1 / 3)
    return tank.z - high / 2, tank.z + high / 2


def _bore(tank: Tank, room: float) -> float:
    """Return the bore of a tank, or that of a round one as long with as much room [m]."""
    if tank.bore and tank.shape == "round":
        return tank.bore
    return sqrt(4 / pi * room / (tank.length or room ** (1 / 3)))


def way_of(hose: Hose | None, valve: Valve | None, take: Taking, kind: str, w: Water) -> Way:
    """Return the way that water or air takes.

    Args:
        hose: As told.
        valve: As told.
        take: Remembers what was taken for granted.
        kind: Of the plant.
        w: The water.
    """
    is_bag, of_air = kind == "air bag", kind in AIR_KINDS
    fitted, own = hose or Hose(), valve.bore if valve else None
    bore = take(fitted.bore, "hose-bore")
    return Way(
        bore=bore,
        length=take(fitted.length, "hose-length"),
        valve=take(own, "air-valve") if is_bag else own or bore,
        density=AIR if of_air else w.density,
        viscosity=AIR_VISCOSITY if of_air else w.viscosity * w.density,
    )


def _pump(given: Pump, kind: str, share: float, way: Way, take: Taking) -> PumpCurve:
    """Return a pump at a share of its own voltage."""
    of_air = kind in AIR_KINDS
    heads = {"snorkel": "air-head", "air bag": "bag-head"}
    return pump_curve(
        flow=take(given.flow, "air-flow" if of_air else "pump-flow"),
        head=take(given.head, heads.get(kind, "pump-head")),
        current=take(given.current, "air-current" if of_air else "pump-current"),
        stalled=take(given.stalled, "air-stalled" if of_air else "pump-stalled"),
        share=share,
        way=way,
        centrifugal=given.sort == "centrifugal",
    )


def _motor(given: Motor, share: float, take: Taking) -> MotorLine:
    """Return a piston's motor at a share of its own voltage."""
    return motor_line(
        turns=take(given.turns, "motor-turns"),
        torque=take(given.torque, "motor-torque"),
        current=take(given.current, "motor-current"),
        stalled=take(given.stalled, "motor-stalled"),
        share=share,
    )


def _thread(given: Screw, take: Taking) -> Thread:
    return Thread(
        lead=take(given.lead, "screw-lead"),
        diameter=take(given.diameter, "screw-diameter"),
        friction=take(given.friction, "screw-friction"),
        collar=given.collar or 0.0,
        flank=TRAPEZOID if given.thread == "trapezoid" else 0.0,
    )


def bottle_of(given: Store, celsius: float, take: Taking) -> Bottle:
    """Return a bottle of gas.

    Args:
        given: As the boat file has it.
        celsius: Temperature of the water [°C].
        take: Remembers what was taken for granted.
    """
    if given.gas is None:
        take.note(fact("gas-taken", gas=GAS))
    pressed = given.volume is not None and given.pressure is not None
    return Bottle(
        gas=given.gas or ("air" if pressed else GAS),
        mass=0.0 if pressed else take(given.mass, "bottle-mass"),
        volume=(given.volume or 0.0) if pressed else 0.0,
        pressure=(given.pressure or 0.0) + constant("atmosphere") if pressed else 0.0,
        jet=take(given.jet, "jet"),
        celsius=celsius if given.temperature is None else given.temperature,
        metal=usual("bottle-metal"),
        left=usual("bottle-left"),
    )


def _unpowered(plant: Plant, drive: Drive) -> Unpowered:
    """Return what the way of the water does when the power goes."""
    if plant.valve is not None:
        return plant.valve.unpowered
    if isinstance(drive, Piston):
        return "shut" if drive.thread.holds else "open"
    if isinstance(drive, Bottle) or plant.kind == "snorkel":
        return "shut"
    if plant.kind == "air bag":
        return "open"
    return "shut" if (plant.pump or Pump()).sort in HOLD else "open"


def battery_of(boat: Boat, plant: Plant) -> Battery | None:
    """Return the battery that feeds a plant, the first where none is named."""
    named = (one for one in boat.batteries if plant.battery in (None, one.name))
    return next(named, None)


def _volts(boat: Boat, plant: Plant, volts: float | None, take: Taking) -> tuple[float, float]:
    """Return what a plant gets, and what its figures are told for [V]."""
    battery = battery_of(boat, plant)
    rated = (plant.motor.voltage if plant.motor else None) or (
        plant.pump.voltage if plant.pump else None
    )
    entered = volts or (battery.voltage if battery else None) or rated
    given = take(entered, "pump-voltage")
    own = (plant.motor or plant.pump or Motor()).voltage or (battery.voltage if battery else given)
    return given, own


def _air(
    boat: Boat, plant: Plant, room: Room, spaces: Mapping[str, DrySpace], take: Taking
) -> tuple[float, float, Others]:
    """Return the free air that a plant works in, and the water in its tanks and in others [m³].

    Raises:
        PlantError: The water leaves no air.
    """
    homes_of = homes(boat, plant.tanks) if plant.kind in PRESSES else ()
    inside = [spaces[name] for name in homes_of]
    if not inside:  # it presses its own air, or none
        closed_with = (plant.closed_at or 0.0) * room.room
        air = room.room
        if plant.kind in PRESSES:  # in no cylinder
            flat = room.room if plant.kind == "air bag" else 0.0
            closed_with = flat if plant.closed_at is None else closed_with
            air = plant.free_air or take(None, "free-air") * room.room
        return _with_air(plant, air, closed_with, ALONE)
    takers = [one for space in inside for one in space.takers]
    own = [one for one in takers if one.tank in plant.tanks]
    others = [one for one in takers if one.tank not in plant.tanks and not one.is_bag]
    for space in inside:
        if not space.is_entered:
            take.note(fact("air-taken", known=space.known))
        if others:
            take.note(fact("others-as-filled", tanks=tuple(one.tank for one in others)))
    return _with_air(
        plant,
        sum(space.air for space in inside),
        sum(one.closed for one in own),
        Others(
            blown=sum(one.blown for one in others),
            full=sum(one.full for one in others),
            closed=sum(one.closed for one in others),
        ),
    )


def _with_air(
    plant: Plant, air: float, closed_with: float, others: Others
) -> tuple[float, float, Others]:
    """Return what it is given, where the water that she is closed with leaves air.

    Raises:
        PlantError: It does not.
    """
    water = closed_with + others.closed
    if plant.kind in PRESSED and water >= NEARLY * air:
        what = f"closed with {water * 1e3:.2f} L of water, {air * 1e3:.2f} L leave no air"
        raise PlantError(what, plant.name, "Enter a smaller closed_at, or more free air.")
    return air, closed_with, others


def system(
    her: Let, plant: Plant, volts: float | None = None, plants: tuple[Plant, ...] | None = None
) -> System:
    """Return one plant ready to be run.

    Args:
        her: The boat.
        plant: As the boat file has it.
        volts: That it gets; None: its battery's own [V].
        plants: All that she might have instead of hers, this one among them.

    Raises:
        PlantError: It cannot be run.
    """
    boat, take = her.boat, Taking()
    w = water(boat.water.kind, boat.water.temperature, boat.water.salt)
    room = rooms(her, plant.tanks)
    if room.full - room.blown <= 0:
        what = f"{' and '.join(plant.tanks)} take no water"
        raise PlantError(what, plant.name, "Give a tank room: see lost, dead_water and dead_air.")
    given, own = _volts(boat, plant, volts, take)
    share = given / own
    drive = _drive(plant, room, share, w, take)
    air, closed_with, others = _air(boat, plant, room, dry_spaces(boat, her.floater, plants), take)
    starts = plant.pump.starts / own if plant.pump and plant.pump.starts else None
    line = boat.waterline.height_at(room.x) if boat.waterline else room.high
    below = plant.kind in ("gas", "snorkel")
    bag = plant.kind in ("pump bag", "air bag")
    return System(
        name=plant.name, kind=plant.kind, tanks=plant.tanks,
        room=room.room, blown=room.blown, full=room.full, neutral=room.neutral, air=air,
        closed_with=closed_with, others=others,
        low=room.low, high=room.high, waterline=line, is_round=room.is_round,
        density=w.density, viscosity=w.viscosity * w.density, celsius=w.celsius,
        volts=given, share=share,
        starts=usual("pump-starts") if starts is None else starts,
        drive=drive,
        stretch=take(plant.stretch, "stretch") if bag else 0.0,
        holes=take(plant.openings, "openings") if below else 0.0,
        vent=pi / 4 * take(plant.vent, "vent") ** 2 if below else 0.0,
        unpowered=_unpowered(plant, drive), leaks=_leaks(plant, drive),
        assumed=tuple(take.assumed),
    )  # fmt: skip


def _drive(plant: Plant, room: Room, share: float, w: Water, take: Taking) -> Drive:
    """Return what drives a plant."""
    if plant.kind == "piston":
        return Piston(
            motor=_motor(plant.motor or Motor(), share, take),
            thread=_thread(plant.screw or Screw(), take),
            area=pi / 4 * room.bore**2,
            seal=take(plant.seal, "seal"),
        )
    if plant.kind == "gas":
        return bottle_of(plant.store or Store(), w.celsius, take)
    way = way_of(plant.hose, plant.valve, take, plant.kind, w)
    return _pump(plant.pump or Pump(), plant.kind, share, way, take)


def _leaks(plant: Plant, drive: Drive) -> float:
    """Return what leaks through a pump as it stands, for each pascal [m³/s/Pa]."""
    if not isinstance(drive, PumpCurve) or plant.kind in AIR_KINDS:
        return 0.0
    if plant.valve is not None or (plant.pump or Pump()).sort in HOLD:
        return 0.0
    return usual("back-leak") * drive.flow / drive.own_head


def systems(her: Let, volts: float | None = None) -> tuple[System, ...]:
    """Return every plant of a boat, ready to be run.

    Args:
        her: The boat.
        volts: That each gets; None: its battery's own [V].

    Raises:
        PlantError: One of them cannot be run.
    """
    return tuple(system(her, plant, volts) for plant in her.boat.plants)
