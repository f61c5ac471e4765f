"""Which dry space a tank's plant works in, and what is entered twice for the same air."""

from collections.abc import Iterator, Sequence

from trimdive.boatfile.boat import Boat
from trimdive.boatfile.messages import Mistake
from trimdive.boatfile.pieces import Cylinder
from trimdive.boatfile.places import Path

PRESSES = ("piston", "pump vented", "pump bag", "air bag")  # kinds that work in a dry space's air


def homes(boat: Boat, names: Sequence[str]) -> tuple[str, ...]:
    """Return the cylinders whose air some tanks work in; that of one that stands free is the first.

    Args:
        boat: The boat.
        names: Of the tanks.
    """
    cylinders = [vessel.name for vessel in boat.cylinders]
    inside = {tank.inside for tank in boat.tanks if tank.name in names}
    return tuple(name for name in cylinders if name in inside) or tuple(cylinders[:1])


def dry_mistakes(boat: Boat) -> Iterator[Mistake]:
    """Yield free air, or how she is closed, that is entered twice for the same dry space."""
    airs = {vessel.name: f"cylinder[{k}].air" for k, vessel in enumerate(boat.cylinders, 1)
            if vessel.air is not None}  # fmt: skip
    closed = {vessel.name: f"cylinder[{k}].closed" for k, vessel in enumerate(boat.cylinders, 1)
              if vessel.closed is not None}  # fmt: skip
    for number, vessel in enumerate(boat.cylinders):
        if vessel.air is not None and vessel.air > vessel.room:
            yield _more(boat, ("cylinder", number, "air"), vessel.air, vessel)
    for number, plant in enumerate(boat.plants):
        path: Path = ("plant", number)
        where = homes(boat, plant.tanks)
        if plant.free_air is not None:
            if len(where) > 1:
                what = f"it works in the air of {' and '.join(where)}, and free_air is of one"
                mend = "Enter air in each [[cylinder]] instead."
                beside = f"It works in {' and '.join(where)}. Enter the free air of each of them."
                yield Mistake((*path, "free_air"), what, mend, beside=beside)
            yield from _twice((*path, "free_air"), where, airs)
            airs |= dict.fromkeys(where, f"plant[{number + 1}].free_air")
        if plant.closed_at is not None:
            yield from _twice((*path, "closed_at"), where, closed)


def _more(boat: Boat, path: Path, air: float, vessel: Cylinder) -> Mistake:
    """Return that a cylinder holds less than its free air [m³]."""
    says = boat.units.write
    what = f"{says(air, 'volume')} of free air are more than {vessel.name} holds, "
    what += says(vessel.room, "volume")
    return Mistake(path, what, "See whether the figure and its unit are right.")


def _twice(path: Path, where: Sequence[str], known: dict[str, str]) -> Iterator[Mistake]:
    """Yield a figure that another field enters already."""
    for name in where:
        if name in known:
            what = "how full the tank was in" if path[-1] == "closed_at" else "the air in"
            what += f" {name} is entered in {known[name]} already"
            mend = f"Keep {known[name]} or {path[-1]}, not both."
            beside = f"It is entered for {name} already. Keep one of the two."
            yield Mistake(path, what, mend, beside=beside)
