"""What may move along her: cylinders, and what lies in each along its axis.

A tank takes its works with it; a tray or any other outline goes with its cylinder. What has no
size is taken to be as long as its mass of water would be in the bore. A cylinder that slopes, lies
off the middle line, in a pair or in a sealed region stays.
"""

from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from dataclasses import replace
from math import pi

import numpy as np

from trimdive.arranging.layout import Layout, RunEnd, Thing, Tube
from trimdive.arranging.reach import ways_of
from trimdive.assessment import Assessment
from trimdive.boatfile import Cylinder, Part
from trimdive.boatfile.ref import ref
from trimdive.edits.task import lying, wishes
from trimdive.findings import limit_of
from trimdive.findings.runs import span_of
from trimdive.findings.works import belongs
from trimdive.geometry.clashes.solids import Solid
from trimdive.geometry.lines.mesh import Floats
from trimdive.geometry.solids.build import numbered, paths_by_name
from trimdive.hydrostatics.equilibrium.solve import levels_at
from trimdive.hydrostatics.equilibrium.tankwater import tank_water
from trimdive.placing.solve import conditions, sums
from trimdive.placing.solve.programme import GRAM, PRICES
from trimdive.placing.solve.rows import neutral
from trimdive.placing.solve.sums import (
    ABOVE,
    BLOWN,
    DIVED,
    MASS,
    SIZE,
    UP,
    VOLUME,
    Her,
    Sums,
    body_sums,
    waters_at,
)
from trimdive.records import record

LOOSE = 1000.0  # density by which what has no size fills the bore [kg/m³]
ROUNDING = 1e-6  # sums of places are no nearer than this [m]
X = 1  # where the moment along her stands in each four


@record
class Conditions:
    """What she must keep, as rows over her sums, each at least zero; neutral both ways."""

    a: Floats  # shape (rows, 20) [of their prices]
    constant: Floats  # shape (rows,) [of their prices]
    sums: Sums  # of the boat as entered, at the water that she needs


def her_conditions(her: Assessment) -> Conditions:
    """Return what a boat must keep.

    Args:
        her: The boat without what is to be laid anew.
    """
    here = lying(her)
    seen = _at_need(here, sums(here))
    rows = conditions(seen, wishes(her, her.boat.placing))
    level = neutral(seen)
    a = [row.a / (row.unit * PRICES[row.kind]) for row in rows]
    constant = [row.constant / (row.unit * PRICES[row.kind]) for row in rows]
    a += [level.a / GRAM, -level.a / GRAM]
    constant += [level.constant / GRAM, -level.constant / GRAM]
    return Conditions(a=np.stack(a), constant=np.array(constant), sums=seen)


def _at_need(her: Her, seen: Sums) -> Sums:
    """Return the sums with the water in the tanks that she needs to dive from her waterline."""
    low, high = float(her.way(0.0).sum()), float(her.way(1.0).sum())
    water = min(max(low + float(seen.total[ABOVE][0]), low), high)
    found = tank_water(her.floater, waters := waters_at(her.way, water), UP,
                       levels_at(her.floater, waters, UP))  # fmt: skip
    total = seen.total.copy()
    total[DIVED] = np.concatenate([[found.volume], found.moment])
    return replace(seen, total=total, water=water)


def moved(her: Her, water: float, paths: Collection[str]) -> Floats:
    """Return what moving things a metre forward adds to her sums, shape (20,).

    Args:
        her: The boat.
        water: In her tanks dived [m³].
        paths: Of the things, in the boat file.
    """
    n, d = her.waterline
    each = np.zeros(SIZE)
    each[MASS][X] = sum(entry.mass for entry in her.masses.entries if entry.path in paths)
    for body in her.bodies:
        if body.path in paths:
            row = body_sums(body, n, d)
            each[VOLUME][X] += row[VOLUME][0]
            each[ABOVE][X] += row[ABOVE][0]
    low, dived = her.way(0.0), waters_at(her.way, water)
    for k in range(len(her.boat.tanks)):
        if f"tank[{k + 1}]" in paths:
            each[BLOWN][X] += low[k]
            each[DIVED][X] += dived[k]
    return each


def stays(vessel: Cylinder) -> bool:
    """Return whether a cylinder stays where it lies, whatever is asked."""
    return bool(vessel.slope or vessel.pair or abs(vessel.y) > 1e-6 or vessel.inside)


def layout_of(
    her: Assessment, keep: Collection[str], ends: Mapping[str, str], given: Conditions
) -> Layout:
    """Return what is to be arranged in a boat.

    Args:
        her: The boat without what is laid anew, her cylinders where they go in.
        keep: Paths of what stays.
        ends: Paths of what is to lie at an end of its cylinder, each "aft" or "fore".
        given: What she must keep.
    """
    here, water = lying(her), given.sums.water

    def each(paths: Collection[str]) -> Floats:
        return given.a @ moved(here, water, frozenset(paths))

    tubes = tuple(_tube(her, k, keep, each) for k in range(len(her.boat.cylinders)))
    things = tuple(
        replace(one, each=each([path for path, _ in one.along]))
        for k in range(len(tubes))
        for one in _things(her, k, keep)
    )
    gap = limit_of("gap-along", her.boat).value
    behind = tuple(
        (i, j)
        for i in range(len(things))
        for j in range(i + 1, len(things))
        if things[i].tube == things[j].tube and not _passes(her, things[i], things[j])
    )
    return Layout(
        tubes=tubes,
        things=things,
        behind=behind,
        beside=tuple(_beside(her, tubes)),
        first=tuple(_first(things, ends)),
        at_caps=tuple((k, cap) for k, one in enumerate(things) if (cap := ends.get(one.path))),
        runs=tuple(_runs(her, tubes, things)),
        gap=gap,
        base=given.a @ given.sums.total + given.constant,
    )


def _tube(
    her: Assessment, k: int, keep: Collection[str], each: Callable[[Collection[str]], Floats]
) -> Tube:
    """Return a cylinder as one that things lie in."""
    vessel, path = her.boat.cylinders[k], f"cylinder[{k + 1}]"
    bore = her.scene.aboard.bores[k].shapes[0]
    half = (her.scene.by_path[path][0].shape.size[0]) / 2
    is_kept = stays(vessel) or path in keep
    outlines = [one.path for one in _inside(her, vessel) if one.is_outline and one.path not in keep]
    return Tube(
        path=path,
        name=vessel.name,
        ends=(vessel.x - half, vessel.x + half),
        room=bore.spans[0],
        ranges=((0.0, 0.0),) if is_kept else ways_of(her, k),
        goes=tuple(outlines),
        each=each([path, *outlines]),
    )


def _inside(her: Assessment, vessel: Cylinder) -> Iterator[Solid]:
    """Yield what lies in a cylinder, one of a pair; nothing that only takes mass out."""
    for solids in her.scene.by_path.values():
        if solids[0].home == vessel.name and solids[0].mass >= 0:
            yield solids[0]


def _things(her: Assessment, k: int, keep: Collection[str]) -> Iterator[Thing]:
    """Yield what lies in one cylinder, a tank with its works."""
    vessel = her.boat.cylinders[k]
    parts = dict(numbered(her.boat))
    works = {path: tank for path, part in parts.items() if (tank := _tank_of(her, vessel, part))}
    for one in _inside(her, vessel):
        if (one.path in works and one.path not in keep) or (
            one.is_outline and one.path not in keep
        ):
            continue
        along = [(one.path, 0.0)]
        aft, fore = one.shape.spans[0]
        is_guessed = one.is_point and one.kind != "tank"
        if is_guessed:
            half = one.mass / (LOOSE * pi / 4 * vessel.bore**2) / 2
            aft, fore = one.shape.place[0] - half, one.shape.place[0] + half
        if one.kind == "tank" and one.path not in keep:
            mine = [path for path, tank in works.items() if tank == one.path and path not in keep]
            goes = [_with_tank(her, one, path, parts[path]) for path in mine]
            along += [(path, shift) for path, shift, _, _ in goes]
            aft = min([aft, *(low for _, _, low, _ in goes)])
            fore = max([fore, *(high for _, _, _, high in goes)])
        yield Thing(
            path=one.path, name=one.name, along=tuple(along), tube=k, ends=(aft, fore),
            mass=sum(max(_mass(her, path), 0.0) for path, _ in along), is_guessed=is_guessed,
            is_kept=one.path in keep, each=np.zeros(0),
        )  # fmt: skip


def _mass(her: Assessment, path: str) -> float:
    return sum(entry.mass for entry in her.masses.entries if entry.path == path)


def _tank_of(her: Assessment, vessel: Cylinder, part: Part) -> str:
    """Return the path of the tank that a part goes with, or "".

    Works that have a size go with it only where they lie at it: elsewhere they need room of their
    own.
    """
    for k, tank in enumerate(her.boat.tanks, 1):
        if part.works_of == tank.name and part.inside == tank.inside == vessel.name:
            return f"tank[{k}]" if part.shape == "point" or belongs(part, tank) else ""
    return ""


def _with_tank(
    her: Assessment, tank: Solid, path: str, part: Part
) -> tuple[str, float, float, float]:
    """Return works with how far they move first [m], and their ends then [m].

    Works that lie at their tank lie there as entered; others come to its middle.
    """
    k = int(tank.path.removeprefix("tank[").removesuffix("]")) - 1
    shift = 0.0 if belongs(part, her.boat.tanks[k]) else tank.shape.place[0] - part.x
    aft, fore = her.scene.by_path[path][0].shape.spans[0]
    if part.shape == "point":
        aft = fore = part.x
    return path, shift, aft + shift, fore + shift


def _passes(her: Assessment, one: Thing, other: Thing) -> bool:
    """Return whether two things may lie side by side: both have sizes, and are clear across.

    Lead and foam in a cylinder fill what others leave free: they lie beside what has no size.
    """
    if one.is_guessed or other.is_guessed:
        kinds = {ref(one.path).table, ref(other.path).table}
        return bool(kinds & {"lead", "foam"})
    mine, theirs = (
        [s.shape.spans for p, _ in t.along for s in her.scene.by_path[p] if not s.is_point]
        for t in (one, other)
    )
    return all(_clear(a, b) for a in mine for b in theirs)


def _clear(a: Sequence[tuple[float, float]], b: Sequence[tuple[float, float]]) -> bool:
    return any(a[k][1] <= b[k][0] + ROUNDING or b[k][1] <= a[k][0] + ROUNDING for k in (1, 2))


def _beside(her: Assessment, tubes: Sequence[Tube]) -> Iterator[tuple[int, int]]:
    """Yield every two cylinders that cannot lie side by side."""
    for i, one in enumerate(tubes):
        for j in range(i + 1, len(tubes)):
            if her.boat.cylinders[i].inside or her.boat.cylinders[j].inside:
                continue
            both = [her.scene.by_path[tube.path] for tube in (one, tubes[j])]
            if not all(_clear(a.shape.spans, b.shape.spans) for a in both[0] for b in both[1]):
                yield i, j


def _first(things: Sequence[Thing], ends: Mapping[str, str]) -> Iterator[tuple[int, int]]:
    """Yield every two things of which the first is to lie aft."""
    for i, one in enumerate(things):
        end = ends.get(one.path)
        for j, other in enumerate(things):
            if end and i != j and one.tube == other.tube and ends.get(other.path) != end:
                yield (i, j) if end == "aft" else (j, i)


def _runs(
    her: Assessment, tubes: Sequence[Tube], things: Sequence[Thing]
) -> Iterator[tuple[RunEnd, RunEnd, float]]:
    """Yield what each hose, cable or rod ends at, and how far apart that may lie."""
    found: dict[str, RunEnd] = {}
    for path in her.scene.by_path:
        found[path] = RunEnd(on="hull", number=0, ends=span_of(her.scene.by_path, path))
    for k, tube in enumerate(tubes):
        for path in (tube.path, *tube.goes):
            found[path] = replace(found[path], on="tube", number=k)
    for k, thing in enumerate(things):
        for path, more in thing.along:
            aft, fore = found[path].ends
            found[path] = RunEnd(on="thing", number=k, ends=(aft + more, fore + more))
    paths = paths_by_name(her.boat)
    for run in her.boat.runs:
        if run.of not in paths or run.to not in paths:
            continue  # on trial without what it joins
        yield found[paths[run.of]], found[paths[run.to]], run.longest
