"""The boat as she is today, by her list alone: nothing still to come, nothing from the tub."""

from dataclasses import dataclass

from trimdive.boatfile import Boat
from trimdive.geometry.solids.build import Body, bodies
from trimdive.geometry.solids.hull import hull
from trimdive.geometry.solids.surfaces import Files
from trimdive.hydrostatics.equilibrium import Floater, floater
from trimdive.hydrostatics.weights import Ledger, ledger
from trimdive.uncertainty import Source, Thing, sources, things
from trimdive.water import water

LISTS = ("regions", "coats", "cylinders", "tanks", "parts", "lead", "foam")


@dataclass(frozen=True, slots=True, kw_only=True)
class Listed:
    """A boat as her list has her, with all that may be off of it."""

    boat: Boat
    bodies: tuple[Body, ...]
    masses: Ledger
    floater: Floater
    things: tuple[Thing, ...]
    sources: tuple[Source, ...]


def today(boat: Boat, *, corrected: bool = False) -> Boat:
    """Return the boat without what is still to come and without what the tub says now.

    What it said of the boat before she was changed stands as part of her list.

    Args:
        boat: A resolved boat.
        corrected: Keep what the tub said.
    """
    kept = {name: tuple(piece for piece in getattr(boat, name) if piece.aboard) for name in LISTS}
    stands = tuple(piece for piece in boat.from_tub if corrected or piece.past)
    return boat.model_copy(update={**kept, "from_tub": stands, "readings": boat.readings_now})


def listed(boat: Boat, files: Files, *, corrected: bool = False) -> Listed:
    """Return a boat as her list has her today.

    Args:
        boat: A resolved boat.
        files: What lies beside the boat file.
        corrected: With what the tub said.

    Raises:
        GeometryError: Nothing displaces or nothing weighs.
    """
    now = today(boat, corrected=corrected)
    found = bodies(now, hull(now, files), files)
    masses = ledger(now, found)
    density = water(now.water.kind, now.water.temperature, now.water.salt).density
    ready = floater(now, files, found, masses, density)
    aboard = things(now, files, found, masses)
    return Listed(
        boat=now,
        bodies=found,
        masses=masses,
        floater=ready,
        things=aboard,
        sources=sources(now, masses, aboard, ready.tanks.capacities),
    )
