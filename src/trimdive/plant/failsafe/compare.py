"""Her plant, and every other kind that she might have in its place, side by side.

The other kinds have usual parts, one set for each of her tanks, and are told to have; what they
need in weight and length is not placed.
"""

from trimdive.boatfile import Boat
from trimdive.boatfile.dry import PRESSES, homes
from trimdive.boatfile.plant import KINDS, Kind, Plant, Valve
from trimdive.plant import PlantAnswer, System, answer, system, systems
from trimdive.plant.failsafe.lifting import Made, charge, depth_meant, lift
from trimdive.plant.failsafe.pressing import Pressed, pressed
from trimdive.vessels.dryspace import Inside


def answers(her: Made) -> tuple[PlantAnswer, ...]:
    """Return what each of her plants does, in the order of the boat file.

    Args:
        her: The boat.

    Raises:
        PlantError: One of them cannot be run.
    """
    boat = her.boat
    if not boat.plants:
        return ()
    made, lifts, depth = systems(her), lift(her, boat.plants), depth_meant(boat)
    dry = pressed(her, made, depth)
    return tuple(
        answer(
            (one,),
            lifts,
            depth,
            name=plant.name,
            fitted=True,
            charge=charge(boat, (plant,)),
            others=tuple(other for other in made if other is not one),
            dry=_of(dry, boat, one),
        )
        for plant, one in zip(boat.plants, made, strict=True)
    )


def _of(dry: dict[str, Pressed], boat: Boat, *made: System) -> tuple[Inside, ...]:
    """Return the pressures in the dry spaces that some plants work in."""
    tanks = [name for one in made if one.kind in PRESSES for name in one.tanks]
    spaces = homes(boat, tanks) if tanks else ()
    return tuple(state for name in spaces for state in dry[name].states)


def usual_plants(her: Made, kind: Kind) -> tuple[Plant, ...]:
    """Return a plant of a kind with usual parts for each of her tanks.

    Args:
        her: The boat.
        kind: Of the plant.
    """
    by_tank = {name: plant for plant in her.boat.plants for name in plant.tanks}
    needs_valve = kind in ("pump closed", "pump vented", "pump bag")
    return tuple(
        Plant(
            name=f"{kind}: {tank.name}",
            kind=kind,
            tanks=(tank.name,),
            free_air=by_tank[tank.name].free_air if tank.name in by_tank else None,
            valve=Valve() if needs_valve else None,
        )
        for tank in her.boat.tanks
    )


def compare(her: Made) -> tuple[PlantAnswer, ...]:
    """Return her plant as she has it, and every kind with usual parts in its place.

    Args:
        her: The boat; without tanks there is nothing to compare.

    Raises:
        PlantError: Her own plant cannot be run.
    """
    if not her.boat.tanks:
        return ()
    depth = depth_meant(her.boat)
    return (*_as_she_is(her, depth), *(_of_kind(her, kind, depth) for kind in KINDS))


def _as_she_is(her: Made, depth: float) -> tuple[PlantAnswer, ...]:
    """Return her own plants, those of one kind together."""
    boat, made = her.boat, systems(her)
    dry = pressed(her, made, depth)
    kinds = dict.fromkeys(plant.kind for plant in boat.plants)
    return tuple(
        answer(
            tuple(one for one in made if one.kind == kind),
            lift(her, boat.plants),
            depth,
            name="as she is",
            fitted=True,
            charge=charge(boat, tuple(one for one in boat.plants if one.kind == kind)),
            others=tuple(one for one in made if one.kind != kind),
            dry=_of(dry, boat, *(one for one in made if one.kind == kind)),
        )
        for kind in kinds
    )


def _of_kind(her: Made, kind: Kind, depth: float) -> PlantAnswer:
    """Return a kind with usual parts for each of her tanks."""
    plants = usual_plants(her, kind)
    made = tuple(system(her, plant, plants=plants) for plant in plants)
    dry = pressed(her, made, depth, plants)
    return answer(
        made,
        lift(her, plants),
        depth,
        name="with usual parts",
        fitted=False,
        charge=charge(her.boat, plants),
        dry=_of(dry, her.boat, *made),
    )
