"""What cannot be right in the ballast plant, the batteries, the failsafe and the linkages."""

from collections.abc import Iterator

from trimdive.boatfile.boat import Boat
from trimdive.boatfile.checks import unknown
from trimdive.boatfile.kinds import PLANT_PARTS
from trimdive.boatfile.messages import Mistake
from trimdive.boatfile.places import Path
from trimdive.boatfile.plant import Linkage, Plant
from trimdive.data import table

Mistakes = Iterator[Mistake]

ACTIONS = ("signal_lost", "battery_low", "leak", "too_deep")
ROD = ("x_aft", "z_aft", "x_fore", "z_fore")


def plant_mistakes(boat: Boat) -> Mistakes:
    """Yield what is wrong with what floods, empties, feeds and moves."""
    served: dict[str, str] = {}
    for number, plant in enumerate(boat.plants):
        path: Path = ("plant", number)
        yield from _tanks(path, plant, boat, served)
        yield from _fittings(path, plant)
        yield from _store(path, plant)
        batteries = [battery.name for battery in boat.batteries]
        if plant.battery is not None and plant.battery not in batteries:
            yield unknown((*path, "battery"), "battery", plant.battery, batteries)
    yield from _failsafe(boat)
    for number, linkage in enumerate(boat.linkages):
        yield from _rod(("linkage", number), linkage)


def _tanks(path: Path, plant: Plant, boat: Boat, served: dict[str, str]) -> Mistakes:
    """Yield tanks that there are not, that two plants serve, or that are of another kind."""
    tanks = {tank.name: tank for tank in boat.tanks}
    for name in plant.tanks:
        where: Path = (*path, "tanks")
        if name not in tanks:
            yield unknown(where, "tank", name, tanks)
            continue
        if name in served:
            what = f"'{served[name]}' serves {name} already"
            yield Mistake(where, what, "Take the tank out of one of them.")
        served[name] = plant.name
        if (plant.kind == "piston") != (tanks[name].kind == "piston"):
            held = "a piston tank" if tanks[name].kind == "piston" else "no piston tank"
            what = f"{name} is {held}, and the plant is of kind {plant.kind}"
            mend = 'Write kind = "piston" in both, or in neither.'
            beside = f"{name} is {held}. Choose the kind that goes with it, or another tank."
            yield Mistake((*path, "kind"), what, mend, beside=beside)


def _fittings(path: Path, plant: Plant) -> Mistakes:
    """Yield parts that a kind of plant does not have."""
    for field, kinds in PLANT_PARTS.items():
        if getattr(plant, field) is not None and plant.kind not in kinds:
            what = f"a plant of kind {plant.kind} has no {field}"
            mend = f"Take it out, or write kind = one of: {', '.join(kinds)}."
            beside = f"A plant of kind {plant.kind} has none. Leave it out."
            yield Mistake((*path, field), what, mend, beside=beside)


def _store(path: Path, plant: Plant) -> Mistakes:
    """Yield a bottle of an unknown gas, or one that is neither liquefied nor compressed."""
    store = plant.store
    if store is None:
        return
    known = [entry["key"] for entry in table("gases")]
    if store.gas is not None and store.gas not in known:
        yield unknown((*path, "store", "gas"), "gas", store.gas, known)
    if store.mass is not None and (store.volume is not None or store.pressure is not None):
        what = "it has both the mass of a liquefied gas and the bottle of a compressed one"
        yield Mistake((*path, "store"), what, "Keep mass, or volume with pressure.")
    if (store.volume is None) != (store.pressure is None):
        what = "a bottle of compressed gas needs both volume and pressure"
        yield Mistake((*path, "store"), what, "Add the other one.")


def _failsafe(boat: Boat) -> Mistakes:
    """Yield a weight to be dropped that there is not."""
    failsafe = boat.failsafe
    if failsafe is None:
        return
    known = [piece.name for piece in boat.pieces if piece.name]
    if failsafe.drops is not None and failsafe.drops not in known:
        yield unknown(("failsafe", "drops"), "part", failsafe.drops, known)
    for field in ACTIONS:
        if getattr(failsafe, field) == "drop weight" and failsafe.drops is None:
            what = "it is to drop a weight that is not named"
            mend = 'Add drops = "…", its name, or write come up.'
            beside = "Choose below what is dropped, or let her come up."
            yield Mistake(("failsafe", field), what, mend, beside=beside)


def _rod(path: Path, linkage: Linkage) -> Mistakes:
    """Yield a rod of which only some of the ends are told."""
    lacks = [field for field in ROD if getattr(linkage, field) is None]
    if lacks and len(lacks) < len(ROD):
        what = f"the rod's ends need {', '.join(lacks)} too"
        mend, beside = "Add them, or leave out all of them.", "The rod's ends need it too, or none."
        yield Mistake(path, what, mend, fields=tuple(lacks), beside=beside)
