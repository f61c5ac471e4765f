"""What stands on the bench and has not been entered, so that nobody calls it in order.

``not_entered`` is the only place that knows. Whoever says "in order" of a boat asks it first:

- ``her.not_entered`` (of an ``Assessment``) is what is left of it once findings have complained of
  their own part, so that nothing is counted twice;
- ``her.bench_in_order`` holds only where nothing on the bench must be put right and that is empty;
- ``told.words.not_entered(her)`` counts it in words: "3 things not entered", "" where there is
  none;
- of each, ``one.what`` is the line to show, ``one.leaves`` what is therefore not known, and
  ``one.enter`` what to write into the boat file.

Listed are things without which an answer is missing or hangs on a guess: rings, caps, what holds
them, plant, battery, failsafe. Small figures of which a usual one is taken are not: they are named
beside the answer.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from trimdive.boatfile import Boat, Cylinder
from trimdive.boatfile.bench import CapFitted
from trimdive.boatfile.dry import PRESSES, homes
from trimdive.boatfile.plant import Battery, Failsafe, Linkage, Plant

ENDS = ("after cap", "fore cap")
ACTIONS = {
    "signal_lost": "signal lost",
    "battery_low": "battery low",
    "leak": "leak",
    "too_deep": "too deep",
}
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
    what: str  # in words: "after cylinder, both caps: rings not entered"
    leaves: str  # what is therefore not known: "whether it stays dry"
    enter: str  # what to write where, as a sentence

    @property
    def short(self) -> str:
        """Return what is not entered and what is therefore not known, in sentences."""
        return f"{self.what[:1].upper()}{self.what[1:]}. Not known: {self.leaves}."

    @property
    def line(self) -> str:
        """Return the same, and what to write into the boat file."""
        return f"{self.short} {self.enter}"


def not_entered(boat: Boat, complained: Iterable[str] = ()) -> tuple[NotEntered, ...]:
    """Return what stands on the bench of a boat and has not been entered.

    Args:
        boat: Her boat file.
        complained: Keys of findings that tell of their part already.
    """
    told = set(complained)
    return tuple(one for one in _all(boat) if one.key not in told)


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
        yield NotEntered(
            key="cylinder", path="cylinder", what="no cylinder entered",
            leaves="what keeps the water out", enter="Enter each under [[cylinder]].",
        )  # fmt: skip
    for number, vessel in enumerate(boat.cylinders, 1):
        yield from _cylinder(vessel, f"cylinder[{number}]")
        if _has_unknown_air(boat, vessel):
            yield NotEntered(
                key="air", path=f"cylinder[{number}]", what=f"{vessel.name}: free air not entered",
                leaves="pressure inside with its tanks full (a share of its room taken)",
                enter='Enter air = "2.4 L", or list what stands in it.',
            )  # fmt: skip


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
    if vessel.material is None:
        yield NotEntered(
            key="tube", path=path, what=f"{vessel.name}: material of its tube not entered",
            leaves="how deep it may go (acrylic taken)", enter='Enter material = "…".',
        )  # fmt: skip
    if vessel.ends == "round":
        yield NotEntered(
            key="ends", path=path, what=f"{vessel.name}: how its round ends are made not entered",
            leaves="how deep they may go (flat caps taken)",
            enter="Ask who made them; test it empty, under water, before anything goes in.",
        )  # fmt: skip
    yield from _caps(vessel, path)
    if vessel.closing is None:
        yield NotEntered(
            key="closing", path=path, what=f"{vessel.name}: what holds its caps not entered",
            leaves="whether pressure inside pushes them off",
            enter='Enter closing = { by = "rods", count = 3, diameter = "3.3 mm" }, or by = '
            '"nothing".',
        )  # fmt: skip


def _caps(vessel: Cylinder, path: str) -> Iterator[NotEntered]:
    """Yield what is not entered of the caps of a cylinder, both together where they are alike."""
    told = (vessel.aft_cap or vessel.caps, vessel.fore_cap or vessel.caps)
    glued = vessel.closing is not None and vessel.closing.by == "glue"
    lacks: dict[str, list[str]] = {}
    for end, cap in zip(ENDS, told, strict=True):
        for key in _cap_lacks(cap, glued):
            lacks.setdefault(key, []).append(end)
    for key, ends in lacks.items():
        where = "both caps" if len(ends) == len(ENDS) else ends[0]
        what, leaves, enter = CAP_WORDS[key]
        yield NotEntered(
            key=key, path=path, what=f"{vessel.name}, {where}: {what} not entered", leaves=leaves,
            enter=enter,
        )  # fmt: skip


CAP_WORDS = {
    "caps": (
        "thickness and material",
        "how deep it may go with them (usual ones taken)",
        'Enter thickness = "12 mm", material = "…" in caps, aft_cap or fore_cap.',
    ),
    "thickness": (
        "thickness",
        "how deep it may go with them (a usual one taken)",
        'Enter thickness = "12 mm" in caps, aft_cap or fore_cap.',
    ),
    "stuff": (
        "material",
        "how deep it may go with them (that of the tube taken)",
        'Enter material = "…" in caps, aft_cap or fore_cap.',
    ),
    "rings": (
        "rings",
        "whether it stays dry",
        'Enter rings = [{ number = "342", depth = "4.2 mm", width = "7.1 mm" }] in caps, aft_cap '
        "or fore_cap.",
    ),
    "groove": (
        "groove of the ring",
        "whether the ring is pressed enough (groove of the table taken)",
        'Enter depth = "4.2 mm", width = "7.1 mm" beside the ring, as cut.',
    ),
    "hole": (
        "what seals its holes",
        "whether water comes in there",
        'Enter seal = "lip", "ring", "bellows", "gland" or "cemented" in holes.',
    ),
}


def _cap_lacks(cap: CapFitted | None, glued: bool) -> Iterator[str]:
    """Yield keys of what is not entered of one cap."""
    lacks = [cap is None or getattr(cap, field) is None for field in ("thickness", "material")]
    if any(lacks):
        yield "caps" if all(lacks) else "thickness" if lacks[0] else "stuff"
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
    alone = [tank.name for tank in boat.tanks if tank.name not in served]
    if alone:
        yield NotEntered(
            key="plant", path="plant", what=f"plant of {_listed(alone)} not entered",
            leaves="how fast it fills and empties, and what comes up without power",
            enter="Enter it under [[plant]].",
        )  # fmt: skip
    for number, plant in enumerate(boat.plants, 1):
        if lacks := _plant_lacks(plant):
            yield NotEntered(
                key="plant", path=f"plant[{number}]",
                what=f"{plant.name}: {_listed(lacks)} not entered",
                leaves="whether it does what she needs (usual figures taken)",
                enter="Measure them, or read them from its sheet.",
            )  # fmt: skip


def _plant_lacks(plant: Plant) -> list[str]:
    """Return what is not entered of a plant, in words."""
    found: list[str] = []
    for table, fields in NEEDS[plant.kind]:
        part = getattr(plant, table)
        if part is None:
            found.append(f"its {table}")
            continue
        pressed = table == "store" and part.volume is not None
        lacks = [f for f in fields if getattr(part, f) is None and not (pressed and f == "mass")]
        found += [f"{field} of its {table}" for field in lacks]
    if plant.kind in OPEN_BELOW:
        found += [name for name in ("vent", "openings") if getattr(plant, name) is None]
    return found


def _batteries(boat: Boat) -> Iterator[NotEntered]:
    """Yield a boat whose plant draws from no battery, and what is not entered of each."""
    draws = [plant.name for plant in boat.plants if plant.kind != "gas"]
    if draws and not boat.batteries:
        yield NotEntered(
            key="battery", path="battery", what="battery not entered",
            leaves=f"whether it feeds {_listed(draws)}, fuse and wire",
            enter="Enter it under [[battery]].",
        )  # fmt: skip
    for number, one in enumerate(boat.batteries, 1):
        if lacks := _battery_lacks(one):
            yield NotEntered(
                key="battery", path=f"battery[{number}]",
                what=f"{one.name}: {_listed(lacks)} not entered",
                leaves="whether the wire burns before the fuse blows",
                enter='Enter fuse = "10 A", wire = "1.5 mm2", wire_length = "350 mm".',
            )  # fmt: skip


def _battery_lacks(one: Battery) -> list[str]:
    names = {"fuse": "fuse", "wire": "wire", "wire_length": "length of its wire"}
    return [name for field, name in names.items() if getattr(one, field) is None]


def _failsafe(boat: Boat) -> Iterator[NotEntered]:
    """Yield failures for which no action is set, and a depth that nobody has entered."""
    if not boat.tanks:
        return
    told = boat.failsafe
    if lacks := unset(told):
        fields = ", ".join(f'{field} = "come up"' for field in ACTIONS if ACTIONS[field] in lacks)
        yield NotEntered(
            key="failsafe-told", path="failsafe",
            what=f"no failsafe action set for {_listed(lacks)}", leaves="where she ends then",
            enter=f"Set it on her failsafe and test it, transmitter off; enter {fields}.",
        )  # fmt: skip
    pond = boat.brief.pond_depth if boat.brief else None
    if pond is None and (told is None or told.too_deep_at is None):
        yield NotEntered(
            key="depth", path="brief", what="depth that she is for not entered",
            leaves="whether all of her bears it (a usual one taken)",
            enter='Enter pond_depth = "3 m" under [brief].',
        )  # fmt: skip


def unset(told: Failsafe | None) -> list[str]:
    """Return the failures for which no action is set, in words."""
    return [words for field, words in ACTIONS.items() if getattr(told, field, None) is None]


def _linkage(one: Linkage, number: int) -> Iterator[NotEntered]:
    """Yield what is not entered of a linkage."""
    lacks = [] if one.throw is not None else ["angle wanted"]
    if one.area is None and one.moves != "valve":
        lacks.append(f"area of the {one.moves}")
    if one.gland is None:
        lacks.append("place of its gland")
    if any(getattr(one, field) is None for field in ROD):
        lacks.append("rod and shaft beside it")
    if lacks:
        yield NotEntered(
            key="linkage", path=f"linkage[{number}]",
            what=f"linkage of the {one.name}: {_listed(lacks)} not entered",
            leaves="whether the servo holds it and the rod runs clear",
            enter="Enter throw, area, gland, the rod's ends and the shaft under [[linkage]].",
        )  # fmt: skip


def _listed(names: Iterable[str]) -> str:
    """Return names as a sentence lists them.

    >>> _listed(["signal lost", "leak", "too deep"])
    'signal lost, leak and too deep'
    """
    *most, last = names
    return f"{', '.join(most)} and {last}" if most else last
