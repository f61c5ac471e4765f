"""The works of a tank: what goes where it goes, where they show it belongs, moves of both."""

from collections.abc import Sequence

import numpy as np

from trimdive.boatfile import Part, Tank
from trimdive.findings.assessed import Assessed
from trimdive.findings.finding import Edit, limit_of
from trimdive.geometry.clashes.scene import placed_at
from trimdive.geometry.clashes.solids import Solid
from trimdive.geometry.solids.build import numbered
from trimdive.hydrostatics.equilibrium.solve import levels_at
from trimdive.hydrostatics.equilibrium.tankwater import tank_water

UP = np.array([0.0, 0.0, 1.0])
WORKS = 0.02  # parts this far beyond a tank's ends still lie at it [m]
OFF = 0.03  # a tank so far from its works has slipped [m]
BACK = 0.012  # one so far from them, and nearer after a move, is moved without them [m]


def belongs(part: Part, tank: Tank) -> bool:
    """Return whether a part is of the works of a tank, and lies at it in its cylinder."""
    half = (tank.length or 0.0) / 2 + WORKS
    is_home = part.inside == tank.inside is not None
    return part.works_of == tank.name and is_home and abs(part.x - tank.x) <= half


def works_of(her: Assessed, k: int) -> tuple[Part, ...]:
    """Return the works of a tank, from 0, wherever they lie."""
    name = her.boat.tanks[k].name
    return tuple(part for _, part in numbered(her.boat) if part.works_of == name)


def _middle(works: Sequence[Part]) -> float | None:
    """Return the middle of what works weigh along her [m]; None where they weigh nothing."""
    mass = sum(part.mass or 0.0 for part in works)
    return sum((part.mass or 0.0) * part.x for part in works) / mass if mass > 0 else None


def works_at(her: Assessed, k: int) -> float | None:
    """Return where along her the works of a tank lie, in the mean [m]; None where it has none."""
    return _middle(works_of(her, k))


def slipped(her: Assessed, k: int, least: float = OFF) -> float:
    """Return how far forward of a tank its works in the same cylinder lie [m]; 0 where beside it.

    They say where the tank is meant to be.

    Args:
        her: The boat.
        k: The tank, from 0.
        least: Nearer than this they lie beside it [m].
    """
    tank = her.boat.tanks[k]
    here = [one for one in works_of(her, k) if tank.inside and one.inside == tank.inside]
    middle = _middle(here)
    off = 0.0 if middle is None else middle - tank.x
    return off if abs(off) > least else 0.0


def goes_back(her: Assessed, k: int, shift: float) -> bool:
    """Return whether a tank, moved so far forward [m], comes back to the works it slipped off."""
    off = slipped(her, k, BACK)
    return abs(off - shift) < abs(off)


def to_level(her: Assessed, k: int) -> float:
    """Return how far forward a tank lets her hang level dived at neutral [m].

    Level on her waterline that is where the water comes under what stands above it; lying a little
    off it, as far as may be, her tank water makes up for that.
    """
    need = her.need
    n, _ = her.waterline
    most = limit_of("trim-surfaced", her.boat).value
    is_level = not her.surfaced.rest.under and abs(her.surfaced.trim_angle + n[0]) <= most
    if is_level and her.goes_under:
        waters = her.dived.rest.waters
        return -_dived_offset(her) * float(waters.sum()) / max(float(waters[k]), 1e-12)
    return -need.offset * float(need.takes.sum()) / max(float(need.takes[k]), 1e-12)


def _dived_offset(her: Assessed) -> float:
    """Return how far forward the tank water lies of where she hangs level dived [m].

    As full as the tanks are dived at neutral: the water of a piston grows from one end.
    """
    boat, waters = her.floater, her.dived.rest.waters
    water = tank_water(boat, waters, UP, levels_at(boat, waters, UP))
    if water.volume <= 0:
        return her.need.offset
    lift = boat.density * boat.volume * float(boat.buoyancy[0] + boat.tree.centre[0])
    wanted = (lift - float(her.masses.moment[0])) / (boat.density * water.volume)
    return float(water.moment[0]) / water.volume - wanted


def elsewhere(her: Assessed, k: int) -> tuple[str, float] | None:
    """Return the cylinder in which the works of a tank lie, and where in it [m].

    None where they lie in the tank's own cylinder, or in several.
    """
    tank, works = her.boat.tanks[k], works_of(her, k)
    homes = {part.inside for part in works if part.inside}
    middle = _middle(works)
    if len(homes) != 1 or tank.inside in homes or tank.inside is None or middle is None:
        return None
    (home,) = homes
    return home, middle


def moved_tank(
    her: Assessed, k: int, shift: float, *, is_alone: bool = False
) -> tuple[list[Edit], float]:
    """Return the changes that move a tank with the works beside it, and their moment [kg m].

    A tank that goes back to its works, off which it slipped, leaves them where they are.

    Args:
        her: The boat.
        k: The tank, from 0.
        shift: How far forward [m].
        is_alone: Its works stay where they are, wherever it goes.
    """
    tank = her.boat.tanks[k]
    field, value = ("water_end", tank.water_end) if tank.kind == "piston" else ("x", tank.x)
    edits = [Edit(action="set", path=f"tank[{k + 1}]", fields=((field, value + shift),))]
    carried = 0.0
    is_alone = is_alone or goes_back(her, k, shift)
    for path, part in numbered(her.boat):
        if belongs(part, tank) and not is_alone:
            edits.append(Edit(action="set", path=path, fields=(("x", part.x + shift),)))
            carried += (part.mass or 0.0) * shift
    return edits, carried


def has_room(her: Assessed, k: int, shift: float, *, is_alone: bool = False) -> bool:
    """Return whether a tank and its works, moved so far forward [m], lie clear in its cylinder."""
    edits, _ = moved_tank(her, k, shift, is_alone=is_alone)
    return her.scene.is_clear(shifted(her, [edit.path for edit in edits], shift))


def shifted(her: Assessed, paths: Sequence[str], shift: float) -> list[Solid]:
    """Return the solids of these paths so far forward [m]."""
    return [
        solid
        for path in paths
        for solid in placed_at(her.scene.by_path.get(path, ()), (shift, 0.0, 0.0))
    ]
