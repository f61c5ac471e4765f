"""The ways in which a tank that lies in another thing may be cleared: to its works, along, out."""

from collections.abc import Iterator

from trimdive.fact import fact
from trimdive.findings.assessed import Assessed
from trimdive.findings.finding import Edit, limit_of
from trimdive.findings.gate import first_clash
from trimdive.findings.room_ways import OUT
from trimdive.findings.ways import Way, far
from trimdive.findings.works import (
    elsewhere,
    goes_back,
    has_room,
    moved_tank,
    slipped,
    to_level,
    works_at,
)
from trimdive.geometry.clashes.moves import clear_moves
from trimdive.geometry.solids.build import numbered

BESIDE = sorted((0.002 * step for step in range(-15, 16)), key=abs)  # of its works [m]
LEAST = 1e-4  # a move shorter than this is none [m]
WITH_WORKS, OWNED = 0.3, 3.0  # how unwelcome: works go along; a tank is taken out that has some
TURNED = 2.0  # how unwelcome: two tanks lie the other way round than their works [-]


def tank_ways(her: Assessed, k: int) -> Iterator[Way]:
    """Yield what clears a tank: its works' place, moves, and none of it.

    Args:
        her: The boat.
        k: The tank, from 0.
    """
    if home := elsewhere(her, k):
        yield _home(her, k, *home)
    moves = [slipped(her, k), _level(her, k)]
    moves += [
        move.shift[0]
        for move in clear_moves(
            her.scene, f"tank[{k + 1}]",
            length=her.floater.length, top=float("inf"), along_only=True,
        )
    ]  # fmt: skip
    for by in moves:
        if abs(by) > LEAST:
            yield from _moved(her, k, by)
    if out := without(her, k):
        yield out


def _moved(her: Assessed, k: int, by: float) -> Iterator[Way]:
    """Yield a tank moved so far forward [m]: alone, and with its works.

    Where only its own figure slipped, her balance tells that the works lie right.
    """
    name, cost = her.boat.tanks[k].name, far(by) + _out_of_order(her, k, by)
    edits, carried = moved_tank(her, k, by)
    if has_room(her, k, by, is_alone=True):
        alone, _ = moved_tank(her, k, by, is_alone=True)
        says = fact("move-tank", name=name, by=by, is_back=goes_back(her, k, by))
        yield Way(says=says, edits=tuple(alone), cost=cost)
    if carried and has_room(her, k, by):
        says = fact("move-tank-and-works", name=name, by=by)
        yield Way(says=says, edits=tuple(edits), cost=cost + WITH_WORKS)


def _out_of_order(her: Assessed, k: int, by: float) -> float:
    """Return how unwelcome it is that two tanks, one moved, lie the other way round than works."""
    tanks, here = her.boat.tanks, her.boat.tanks[k].x + by
    places = [works_at(her, i) for i, _ in enumerate(tanks)]
    own = places[k]
    others = ((at, one.x) for i, (at, one) in enumerate(zip(places, tanks, strict=True)) if i != k)
    if own is None:
        return 0.0
    is_turned = any(at is not None and (here - x) * (own - at) < 0 for at, x in others)
    return TURNED if is_turned else 0.0


def _level(her: Assessed, k: int) -> float:
    """Return how far forward a tank brings its water under what is above the waterline [m]."""
    tanks, plain = her.boat.tanks, her.plain
    if len(plain.boat.tanks) != len(tanks) or plain.need.fitted <= 0:
        return 0.0
    return plain.boat.tanks[k].x + to_level(plain, k) - tanks[k].x


def without(her: Assessed, k: int) -> Way | None:
    """Return that a tank is taken out, where the others hold enough and nothing serves it."""
    tank, rooms = her.boat.tanks[k], her.full.rest.waters - her.surfaced.rest.waters
    others = float(rooms.sum() - rooms[k])
    least = limit_of("tank-margin", her.boat).value
    is_served = any(tank.name in plant.tanks for plant in her.boat.plants)
    if is_served or others < (1 + least) * her.need.volume:
        return None
    says = fact("take-tank-out", name=tank.name)
    edits = [Edit(action="remove", path=f"tank[{k + 1}]", fields=())]
    freed = (("works_of", None),)
    edits += [
        Edit(action="set", path=path, fields=freed)
        for path, part in numbered(her.boat)
        if part.works_of == tank.name
    ]
    return Way(says=says, edits=tuple(edits), cost=OUT + (OWNED if len(edits) > 1 else 0.0))


def _home(her: Assessed, k: int, cylinder: str, x: float) -> Way:
    """Return what puts a tank into the cylinder in which its works lie, where it is clear there.

    At them, and there where she hangs level, if that is so near.
    """
    level = her.boat.tanks[k].x + _level(her, k)
    near = [level] if abs(level - x) <= BESIDE[-1] + LEAST else []
    tries = [_at_home(her, k, cylinder, at) for at in (*near, *(x + off for off in BESIDE))]
    return next((one for one in tries if first_clash(her, one.edits) is None), tries[0])


def _at_home(her: Assessed, k: int, cylinder: str, x: float) -> Way:
    tank = her.boat.tanks[k]
    axes = {vessel.name: (vessel.y, vessel.z) for vessel in her.boat.cylinders}
    field, value = ("x", x)
    if tank.kind == "piston":
        field, value = "water_end", tank.water_end + x - tank.x
    fields: list[tuple[str, object]] = [("inside", cylinder), (field, value)]
    if (tank.y, tank.z) == axes[tank.inside or ""] != axes[cylinder]:
        fields += zip("yz", axes[cylinder], strict=True)
    says = fact("enter-at-works", name=tank.name, cylinder=cylinder, x=x)
    return Way(says=says, edits=(Edit(action="set", path=f"tank[{k + 1}]", fields=tuple(fields)),))
