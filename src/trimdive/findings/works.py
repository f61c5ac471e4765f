"""The works of a tank: what goes where it goes, where they show it belongs, moves of both."""

from collections.abc import Sequence

from trimdive.boatfile import Part, Tank
from trimdive.bodies.build import numbered
from trimdive.clashes.scene import placed_at
from trimdive.clashes.solids import Solid
from trimdive.findings.facts import Facts
from trimdive.findings.finding import Edit, limit_of

WORKS = 0.02  # parts this far beyond a tank's ends still lie at it [m]
OFF = 0.03  # a tank so far from its works has slipped [m]
BACK = 0.012  # one so far from them, and nearer after a move, is moved without them [m]


def belongs(part: Part, tank: Tank) -> bool:
    """Return whether a part is of the works of a tank, and lies at it in its cylinder."""
    half = (tank.length or 0.0) / 2 + WORKS
    is_home = part.inside == tank.inside is not None
    return part.works_of == tank.name and is_home and abs(part.x - tank.x) <= half


def works_of(facts: Facts, k: int) -> tuple[Part, ...]:
    """Return the works of a tank, from 0, wherever they lie."""
    name = facts.boat.tanks[k].name
    return tuple(part for _, part in numbered(facts.boat) if part.works_of == name)


def _middle(works: Sequence[Part]) -> float | None:
    """Return the middle of what works weigh along her [m]; None where they weigh nothing."""
    mass = sum(part.mass or 0.0 for part in works)
    return sum((part.mass or 0.0) * part.x for part in works) / mass if mass > 0 else None


def works_at(facts: Facts, k: int) -> float | None:
    """Return where along her the works of a tank lie, in the mean [m]; None where it has none."""
    return _middle(works_of(facts, k))


def slipped(facts: Facts, k: int, least: float = OFF) -> float:
    """Return how far forward of a tank its works in the same cylinder lie [m]; 0 where beside it.

    They say where the tank is meant to be.

    Args:
        facts: The boat.
        k: The tank, from 0.
        least: Nearer than this they lie beside it [m].
    """
    tank = facts.boat.tanks[k]
    here = [one for one in works_of(facts, k) if tank.inside and one.inside == tank.inside]
    middle = _middle(here)
    off = 0.0 if middle is None else middle - tank.x
    return off if abs(off) > least else 0.0


def goes_back(facts: Facts, k: int, shift: float) -> bool:
    """Return whether a tank, moved so far forward [m], comes back to the works it slipped off."""
    off = slipped(facts, k, BACK)
    return abs(off - shift) < abs(off)


def to_level(facts: Facts, k: int) -> float:
    """Return how far forward a tank lets her hang level dived at neutral [m].

    Level on her waterline that is where the water comes under what stands above it; lying a little
    off it, as far as may be, her tank water makes up for that.
    """
    need, whole = facts.need, float(facts.need.takes.sum())
    n, _ = facts.waterline
    most = limit_of("trim-surfaced", facts.boat).value
    is_level = not facts.surfaced.rest.under and abs(facts.surfaced.trim_angle + n[0]) <= most
    off = _dived_offset(facts) if is_level else need.offset
    return -off * whole / max(float(need.takes[k]), 1e-12)


def _dived_offset(facts: Facts) -> float:
    """Return how far forward the tank water lies of where she hangs level dived [m]."""
    boat, need = facts.floater, facts.need
    water = boat.density * boat.volume - boat.mass
    if water <= 0:
        return need.offset
    lift = boat.density * boat.volume * float(boat.buoyancy[0] + boat.tree.centre[0])
    wanted = (lift - float(facts.masses.moment[0])) / water
    return float(need.place[0]) + need.offset - wanted


def elsewhere(facts: Facts, k: int) -> tuple[str, float] | None:
    """Return the cylinder in which the works of a tank lie, and where in it [m].

    None where they lie in the tank's own cylinder, or in several.
    """
    tank, works = facts.boat.tanks[k], works_of(facts, k)
    homes = {part.inside for part in works if part.inside}
    middle = _middle(works)
    if len(homes) != 1 or tank.inside in homes or tank.inside is None or middle is None:
        return None
    (home,) = homes
    return home, middle


def moved_tank(
    facts: Facts, k: int, shift: float, *, is_alone: bool = False
) -> tuple[list[Edit], float]:
    """Return the changes that move a tank with the works beside it, and their moment [kg m].

    A tank that goes back to its works, off which it slipped, leaves them where they are.

    Args:
        facts: The boat.
        k: The tank, from 0.
        shift: How far forward [m].
        is_alone: Its works stay where they are, wherever it goes.
    """
    tank = facts.boat.tanks[k]
    field, value = ("water_end", tank.water_end) if tank.kind == "piston" else ("x", tank.x)
    edits = [Edit(action="set", path=f"tank[{k + 1}]", fields=((field, value + shift),))]
    carried = 0.0
    is_alone = is_alone or goes_back(facts, k, shift)
    for path, part in numbered(facts.boat):
        if belongs(part, tank) and not is_alone:
            edits.append(Edit(action="set", path=path, fields=(("x", part.x + shift),)))
            carried += (part.mass or 0.0) * shift
    return edits, carried


def has_room(facts: Facts, k: int, shift: float, *, is_alone: bool = False) -> bool:
    """Return whether a tank and its works, moved so far forward [m], lie clear in its cylinder."""
    edits, _ = moved_tank(facts, k, shift, is_alone=is_alone)
    return facts.scene.is_clear(shifted(facts, [edit.path for edit in edits], shift))


def shifted(facts: Facts, paths: Sequence[str], shift: float) -> list[Solid]:
    """Return the solids of these paths so far forward [m]."""
    return [
        solid
        for path in paths
        for solid in placed_at(facts.scene.by_path.get(path, ()), (shift, 0.0, 0.0))
    ]
