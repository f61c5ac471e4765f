"""What stands on the bench and has not been entered, so that nobody calls it in order.

``not_entered`` is the only place that knows. Whoever says "in order" of a boat asks it first:

- ``her.not_entered`` (of an ``Assessment``) is what is left of it once findings have complained of
  their own part, so that nothing is counted twice;
- ``her.bench_in_order`` holds only where nothing on the bench must be put right and that is empty;
- ``told.words.not_entered(her)`` counts it in words: "3 things not entered", "" where there is
  none;
- ``text.gaps`` says of each what it is, what is therefore not known, and what to write into the
  boat file.

Listed are things without which an answer is missing or hangs on a guess: rings, caps, what holds
them, plant, battery, failsafe. Small figures of which a usual one is taken are not: they are named
beside the answer.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from trimdive.boatfile import Boat, Cylinder
from trimdive.boatfile.bench import CapFitted
from trimdive.boatfile.dry import PRESSES, homes
from trimdive.boatfile.plant import Failsafe, Linkage, Plant

ACTIONS = ("signal_lost", "battery_low", "leak", "too_deep")  # of a failsafe
WIRING = ("fuse", "wire", "wire_length")  # of a battery
NEEDS: dict[str, tuple[tuple[str, tuple[str, ...]], ...]] = {  # tables of a plant, their fields
    "piston": (("motor", ("turns", "torque")), ("screw", ("lead",))),
    "pump closed": (("pump", ("flow", "head")),),
    "pump vented": (("pump", ("flow", "head")),),
    "pump bag": (("pump", ("flow", "head")),),
    "gas": (("store", ("gas", "mass")),),
    "snorkel": (("pump", ("flow", "head")),),
    "air bag": (("pump", ("flow", "head")),),
}
OPEN_BELOW = ("gas", "snorkel")
ROD = ("x_aft", "z_aft", "x_fore", "z_fore", "shaft", "shaft_z")


@dataclass(frozen=True, slots=True, kw_only=True)
class NotEntered:
    """Something on the bench that has not been entered, and so was not looked at."""

    key: str  # what it is: "rings", "closing"; that of a check where one complains of it
    path: str  # table of the boat file: "cylinder[1]"
    of: tuple[str, ...]  # the pieces that it is of, by their names; none: of the boat
    lacks: tuple[str, ...]  # fields that are not entered, "motor.turns" of a table within


def not_entered(boat: Boat, complained: Iterable[str] = ()) -> tuple[NotEntered, ...]:
    """Return what stands on the bench of a boat and has not been entered.

    Args:
        boat: Her boat file.
        complained: Keys of findings that tell of their part already.
    """
    listed = set(complained)
    return tuple(one for one in _all(boat) if one.key not in listed)


def _all(boat: Boat) -> tuple[NotEntered, ...]:
    return (
        *_cylinders(boat),
        *_plants(boat),
        *_batteries(boat),
        *_failsafe(boat),
        *(found for k, one in enumerate(boat.linkages, 1) for found in _linkage(one, k)),
    )


def _cylinders(boat: Boat) -> Iterator[NotEntered]:
    if boat.tanks and not boat.cylinders:
        yield NotEntered(key="cylinder", path="cylinder", of=(), lacks=())
    for number, vessel in enumerate(boat.cylinders, 1):
        path = f"cylinder[{number}]"
        yield from _cylinder(vessel, path)
        if _has_unknown_air(boat, vessel):
            yield NotEntered(key="air", path=path, of=(vessel.name,), lacks=())


def _has_unknown_air(boat: Boat, vessel: Cylinder) -> bool:
    """Return whether tanks work in a cylinder's air, of which nothing tells how much there is."""
    known = vessel.air is not None or any(one.inside == vessel.name for one in boat.pieces)
    kinds = {name: plant.kind for plant in boat.plants for name in plant.tanks}
    works = [
        tank.name
        for tank in boat.tanks
        if vessel.name in homes(boat, (tank.name,)) and kinds.get(tank.name, tank.kind) in PRESSES
    ]
    own = (plant for plant in boat.plants if plant.free_air is not None)
    return bool(works) and not known and not any(set(works) & set(one.tanks) for one in own)


def _cylinder(vessel: Cylinder, path: str) -> Iterator[NotEntered]:
    """Yield what is not entered of one cylinder."""
    of = (vessel.name,)
    if vessel.material is None:
        yield NotEntered(key="tube", path=path, of=of, lacks=())
    if vessel.ends == "round":
        yield NotEntered(key="ends", path=path, of=of, lacks=())
    yield from _caps(vessel, path)
    if vessel.closing is None:
        yield NotEntered(key="closing", path=path, of=of, lacks=())


def _caps(vessel: Cylinder, path: str) -> Iterator[NotEntered]:
    """Yield what is not entered of the caps of a cylinder, both together where they are alike."""
    caps = {"aft_cap": vessel.aft_cap or vessel.caps, "fore_cap": vessel.fore_cap or vessel.caps}
    glued = vessel.closing is not None and vessel.closing.by == "glue"
    found: dict[str, list[str]] = {}
    for end, cap in caps.items():
        for key in _cap_lacks(cap, glued):
            found.setdefault(key, []).append(end)
    for key, ends in found.items():
        yield NotEntered(key=key, path=path, of=(vessel.name,), lacks=tuple(ends))


def _cap_lacks(cap: CapFitted | None, glued: bool) -> Iterator[str]:
    """Yield keys of what is not entered of one cap."""
    lacks = [cap is None or getattr(cap, field) is None for field in ("thickness", "material")]
    if any(lacks):
        yield "caps" if all(lacks) else "thickness" if lacks[0] else "material"
    if not glued and (cap is None or not cap.rings):
        yield "rings"
    if cap is None:
        return
    if any(None in (ring.depth, ring.width) for ring in cap.rings):
        yield "groove"
    if any(not hole.seal for hole in cap.holes):
        yield "hole"


def _plants(boat: Boat) -> Iterator[NotEntered]:
    """Yield tanks that no plant serves, and what is not entered of each plant."""
    served = {name for plant in boat.plants for name in plant.tanks}
    alone = tuple(tank.name for tank in boat.tanks if tank.name not in served)
    if alone:
        yield NotEntered(key="plant", path="plant", of=alone, lacks=())
    for number, plant in enumerate(boat.plants, 1):
        if lacks := tuple(_plant_lacks(plant)):
            yield NotEntered(key="plant", path=f"plant[{number}]", of=(plant.name,), lacks=lacks)


def _plant_lacks(plant: Plant) -> Iterator[str]:
    """Yield what is not entered of a plant: tables, and fields of tables."""
    for table, fields in NEEDS[plant.kind]:
        part = getattr(plant, table)
        if part is None:
            yield table
            continue
        pressed = table == "store" and part.volume is not None
        for field in fields:
            if getattr(part, field) is None and not (pressed and field == "mass"):
                yield f"{table}.{field}"
    if plant.kind in OPEN_BELOW:
        yield from (name for name in ("vent", "openings") if getattr(plant, name) is None)


def _batteries(boat: Boat) -> Iterator[NotEntered]:
    """Yield a boat whose plant draws from no battery, and what is not entered of each."""
    draws = tuple(plant.name for plant in boat.plants if plant.kind != "gas")
    if draws and not boat.batteries:
        yield NotEntered(key="battery", path="battery", of=draws, lacks=())
    for number, one in enumerate(boat.batteries, 1):
        if lacks := tuple(name for name in WIRING if getattr(one, name) is None):
            yield NotEntered(key="battery", path=f"battery[{number}]", of=(one.name,), lacks=lacks)


def _failsafe(boat: Boat) -> Iterator[NotEntered]:
    """Yield failures for which no action is set, and a depth that nobody has entered."""
    if not boat.tanks:
        return
    failsafe = boat.failsafe
    if lacks := unset(failsafe):
        yield NotEntered(key="failsafe-told", path="failsafe", of=(), lacks=lacks)
    pond = boat.brief.pond_depth if boat.brief else None
    if pond is None and (failsafe is None or failsafe.too_deep_at is None):
        yield NotEntered(key="depth", path="brief", of=(), lacks=())


def unset(failsafe: Failsafe | None) -> tuple[str, ...]:
    """Return the failures for which no action is set, by their fields."""
    return tuple(field for field in ACTIONS if getattr(failsafe, field, None) is None)


def _linkage(one: Linkage, number: int) -> Iterator[NotEntered]:
    """Yield what is not entered of a linkage."""
    lacks = ["throw"] if one.throw is None else []
    if one.area is None and one.moves != "valve":
        lacks.append(f"{one.moves}.area")
    if one.gland is None:
        lacks.append("gland")
    if any(getattr(one, field) is None for field in ROD):
        lacks.append("rod")
    if lacks:
        yield NotEntered(
            key="linkage", path=f"linkage[{number}]", of=(one.name,), lacks=tuple(lacks)
        )
