"""What cannot be right in a boat that is resolved: ends crossed, tanks that do not fit."""

import math
from collections.abc import Iterator

from trimdive.boatfile.bench_checks import bench_mistakes
from trimdive.boatfile.boat import Boat
from trimdive.boatfile.checks import pieces
from trimdive.boatfile.dry import dry_mistakes
from trimdive.boatfile.messages import Mistake
from trimdive.boatfile.pieces import Cylinder, Tank
from trimdive.boatfile.places import Path
from trimdive.boatfile.plant_checks import plant_mistakes
from trimdive.boatfile.quantities import is_given
from trimdive.boatfile.regions import (
    MyringRegion,
    OutlineRegion,
    PrismRegion,
    Region,
    Series58Region,
    SuboffRegion,
)
from trimdive.boatfile.tub_checks import tub_mistakes

SUBOFF_BREADTH = 1 / 8  # of its length, at the most [-]
BROADEST = 0.5  # of her length: no hull, whatever its form, is as broad or high [-]
BY_FAR = 1.5  # so many times what the hull has is no fit that misses, but a slip [-]
SLACK = 1e-4  # how far a tank may stand out of its cylinder: what a tape can tell [m]

Mistakes = Iterator[Mistake]


def resolved_mistakes(boat: Boat) -> list[Mistake]:
    """Return what is wrong with a boat that is resolved."""
    return [
        *_crossed(boat),
        *_too_large(boat),
        *_drawn_in(boat),
        *_tanks(boat),
        *tub_mistakes(boat),
        *plant_mistakes(boat),
        *bench_mistakes(boat),
        *dry_mistakes(boat),
    ]


def _crossed(boat: Boat) -> Mistakes:
    """Yield pieces whose ends, edges or sides are the wrong way round."""
    order = (
        ("x_aft", "x_fore", "its after end lies forward of its fore end"),
        ("z_bottom", "z_top", "its underside lies above its upper side"),
        ("above", "below", "it begins above where it ends"),
        ("forward_of", "aft_of", "it begins forward of where it ends"),
        ("y_starboard", "y_port", "its starboard side lies to port of its port side"),
    )
    for path, piece in pieces(boat):
        for low, high, what in order:
            less, more = getattr(piece, low, None), getattr(piece, high, None)
            if less is not None and more is not None and less >= more:
                yield Mistake((*path, high), what, f"Measure {low} and {high} again.")


def _too_large(boat: Boat) -> Mistakes:
    """Yield cylinders and free-standing tanks that are larger than the hull by far."""
    across, long = across_of(boat), boat.length or math.inf
    for kind, listed in (("cylinder", boat.cylinders), ("tank", boat.tanks)):
        for number, piece in enumerate(listed):
            if getattr(piece, "inside", None) and kind == "tank":
                continue  # it is held against its cylinder
            fields = ("outside",) if kind == "cylinder" else ("bore", "breadth", "height")
            for field, least, most, way in (
                *((field, across * BY_FAR, across, "across") for field in fields),
                ("length", long * BY_FAR, long, "long"),
            ):
                size = getattr(piece, field)
                if is_given(size) and size > least:
                    says = boat.units.write
                    what = f"the {kind} is {says(size, 'length')} {way}, "
                    what += f"the whole hull at most {says(most, 'length')}"
                    mend = f"See whether {field} and its unit are right, and those of the hull."
                    yield Mistake((kind, number, field), what, mend)


def _drawn_in(boat: Boat) -> Mistakes:
    """Yield regions drawn in by more than half of what the hull is across."""
    across, says = across_of(boat), boat.units.write
    for number, skin in enumerate(boat.regions):
        if 2 * skin.inset > across:
            what = f"it is drawn in by {says(skin.inset, 'length')} on each side, the whole hull "
            what += f"is at most {says(across, 'length')} across"
            mend = "See whether inset and its unit are right, and those of the hull."
            yield Mistake(("region", number, "inset"), what, mend)


def across_of(boat: Boat) -> float:
    """Return the larger of the hull's breadth and height [m], or the most that they can be.

    A hull whose lines stand in another file has at most a share of her length; where no length is
    told either, nothing is known.
    """
    sizes = [_across(skin) for skin in boat.regions]
    if sizes and None not in sizes:
        return max(size for size in sizes if size is not None)
    return BROADEST * boat.length if boat.length is not None else math.inf


def _across(skin: Region) -> float | None:
    """Return the larger of a region's breadth and height [m], as far as the boat file says."""
    match skin:
        case MyringRegion() | Series58Region():
            return skin.diameter
        case SuboffRegion():
            return SUBOFF_BREADTH * skin.length
        case PrismRegion():
            return max(skin.breadth, skin.z_top - skin.z_bottom)
        case OutlineRegion() if is_given(skin.breadth) and is_given(skin.height):
            return max(skin.breadth, skin.height)
        case _:
            return None


def _tanks(boat: Boat) -> Mistakes:
    """Yield tanks that do not fit into their cylinders, or hold no water."""
    cylinders = {cylinder.name: cylinder for cylinder in boat.cylinders}
    for number, tank in enumerate(boat.tanks):
        path: Path = ("tank", number)
        room = capacity(tank)
        if room is not None and tank.dead_water + tank.dead_air >= room * (1 - tank.lost):
            what = "dead water and dead air leave no room in it"
            yield Mistake((*path, "dead_water"), what, "Measure them again.")
        elif room is not None and _most(tank, room) <= (tank.blown or 0.0):
            what = "blown it is as full as its dead air lets it get"
            yield Mistake((*path, "blown"), what, "Write less, or measure dead_air again.")
        if tank.inside and tank.shape != "mesh":
            yield from _in_cylinder(boat, path, tank, cylinders[tank.inside])


def _most(tank: Tank, room: float) -> float:
    """Return how full a tank with this room [m³] can get: its dead air stays in [-]."""
    return 1 - tank.dead_air / (room * (1 - tank.lost))


def capacity(tank: Tank) -> float | None:
    """Return the whole room in a round or box tank [m³], or None for a mesh."""
    if tank.shape == "round":
        return math.pi / 4 * tank.bore**2 * tank.length
    return tank.breadth * tank.height * tank.length if tank.shape == "box" else None


def _in_cylinder(boat: Boat, path: Path, tank: Tank, home: Cylinder) -> Mistakes:
    """Yield what of a tank does not fit into its cylinder."""
    says = boat.units.write
    long = "stroke" if tank.kind == "piston" else "length"
    place = "water_end" if tank.kind == "piston" else "x"
    along = home.length * math.cos(home.slope)
    over = abs(tank.x - home.x) + tank.length / 2 - along / 2
    if tank.length > home.length + SLACK:
        what = (
            f"the tank is {says(tank.length, 'length')} long, its cylinder "
            f"'{home.name}' {says(home.length, 'length')} over the caps"
        )
        yield Mistake((*path, long), what, "Make it shorter, or measure both again.")
    elif over > SLACK:
        end = "fore" if tank.x > home.x else "after"
        what = (
            f"the tank stands {says(over, 'length')} out of the {end} end of its cylinder "
            f"'{home.name}', which lies from x {says(home.x - along / 2, 'length')} "
            f"to {says(home.x + along / 2, 'length')}"
        )
        yield Mistake((*path, place), what, "Move it, or name the cylinder in which it lies.")
    across = tank.bore if tank.shape == "round" else math.hypot(tank.breadth, tank.height)
    if across > home.bore + SLACK:
        what = (
            f"the tank is {says(across, 'length')} across, the bore of its cylinder "
            f"'{home.name}' is {says(home.bore, 'length')}"
        )
        field = "bore" if tank.shape == "round" else "breadth"
        yield Mistake((*path, field), what, "Measure both again.")
