"""Room for lead and foam around cylinders as they lie: strips along the keel, boxes at the sides.

Beside a cylinder there is little of it, and all of it counts: strip by strip along the keel, as low
as one lies, and under the waterline the largest box in each part of her length, then the next.
"""

from collections.abc import Iterator
from itertools import pairwise

import numpy as np

from trimdive.assessment import Assessment
from trimdive.boatfile.placing import Pocket
from trimdive.edits.task import lying
from trimdive.geometry.lines.mesh import Floats
from trimdive.placing.solve import room
from trimdive.placing.solve.free import GAP, Flags, Room, largest_box, sections
from trimdive.placing.solve.slots import UNDER, surface_at
from trimdive.placing.solve.sums import Her

PARTS = 18  # of her length, each looked through by itself [-]
STATIONS = 5  # in each at which it is looked through [-]
ENDS = 0.05  # of her length at either end: none lies there [-]
STRIP = 0.006  # breadth of a strip of lead [m]
STRIPS = 5  # side by side from the middle line out, at most [-]
LEAD_HIGH = (0.0015, 0.012)  # of a strip, least and most [m]
LEAD_UP, FOAM_DOWN = 0.45, 0.5  # of the way from keel to waterline: so high lead, so low foam [-]
BOXES = 4  # of foam in each part of her length, at most [-]
FOAM_LEAST = (0.005, 0.008)  # breadth and height of a box of foam [m]
FOAM_SMALL = 2e-6  # no box of foam is smaller [m³]
ACROSS, LEAD_FINE, FOAM_FINE = 0.001, 0.0005, 0.00125  # between points looked at [m]


def pockets(her: Assessment) -> tuple[Pocket, ...]:
    """Return room for lead and foam; of what the builder has pockets for, those alone.

    Args:
        her: The boat, without what is to be laid anew.
    """
    own = her.boat.pockets
    here = lying(her)
    space = room(her.boat, her.hull.envelope, her.bodies, frozenset(), here.moving)
    held = {pocket.holds for pocket in own}
    found = list(own)
    low, high = her.hull.envelope.bounds[:, 0]
    inset = ENDS * (high - low)
    edges = np.linspace(low + inset, high - inset, PARTS + 1).tolist()
    for aft, fore in pairwise(edges):
        if "lead" not in held:
            found += _strips(here, space, aft, fore)
        if "foam" not in held:
            found += _boxes(here, space, aft, fore)
    return tuple(found)


def _level(her: Her, aft: float, fore: float) -> tuple[float, float]:
    """Return the keel and the waterline over a part of her length [m]."""
    keel = float(her.hull.envelope.bounds[0, 2])
    return keel, min(surface_at(her, aft), surface_at(her, fore))


def _free(space: Room, aft: float, fore: float, ys: Floats, zs: Floats) -> Flags:
    stations = np.linspace(aft, fore, STATIONS)
    return np.array(sections(space, stations, ys, zs).all(axis=0))


def _strips(her: Her, space: Room, aft: float, fore: float) -> Iterator[Pocket]:
    """Yield strips of lead side by side, the first on the middle line, others in pairs."""
    keel, level = _level(her, aft, fore)
    ys = np.arange(0.0, (STRIPS + 1) * STRIP, ACROSS)
    zs = np.arange(keel, keel + LEAD_UP * (level - keel), LEAD_FINE)
    if len(zs) < 2:
        return
    free = _free(space, aft, fore, ys, zs)
    for k in range(STRIPS):
        inner, outer = k * STRIP + STRIP / 4 * (k > 0), (k + 1) * STRIP + STRIP / 4
        over = (ys >= inner - ACROSS / 2) & (ys <= outer + ACROSS / 2)
        is_free = np.asarray(free[over].all(axis=0))
        if not is_free.any():
            continue
        first = int(np.argmax(is_free))
        count = int(np.argmin(is_free[first:])) or len(is_free) - first
        bottom = float(zs[first]) + GAP / 2
        top = min(float(zs[first + count - 1]) - GAP / 2, bottom + LEAD_HIGH[1])
        if top - bottom >= LEAD_HIGH[0]:
            sides = (inner + GAP / 2 if k else GAP / 2 - outer, outer - GAP / 2)
            yield _pocket(her, "lead", (aft, fore), sides, (bottom, top), number=k)


def _boxes(her: Her, space: Room, aft: float, fore: float) -> Iterator[Pocket]:
    """Yield boxes for foam, the largest first."""
    keel, level = _level(her, aft, fore)
    ys = np.arange(0.0, float(her.hull.envelope.bounds[1, 1]), FOAM_FINE)
    lowest = keel + FOAM_DOWN * (level - keel)
    zs = np.arange(level - UNDER, lowest, -FOAM_FINE)[::-1]
    if len(zs) < 2:
        return
    free = _free(space, aft, fore, ys, zs)
    for k in range(BOXES):
        i0, i1, j0, j1 = largest_box(free)
        if i1 == i0:
            return
        free[i0 : i1 + 1, j0 : j1 + 1] = False
        outer = float(ys[i1]) - GAP / 2
        inner = float(ys[i0]) + GAP / 2 if i0 else -outer
        bottom, top = float(zs[j0]) + GAP / 2, float(zs[j1]) - GAP / 2
        section = (outer - inner) * (top - bottom)
        is_large = outer - inner >= FOAM_LEAST[0] and top - bottom >= FOAM_LEAST[1]
        if is_large and section * (fore - aft) >= FOAM_SMALL:
            yield _pocket(her, "foam", (aft, fore), (inner, outer), (bottom, top), number=k)


def _pocket(
    her: Her, holds: str, ends: tuple[float, float], sides: tuple[float, float],
    heights: tuple[float, float], *, number: int,
) -> Pocket:  # fmt: skip
    """Return a pocket; what lies in it is called by its place along her."""
    middle = her.boat.units.write(her.boat.along(sum(ends) / 2), "length", 0)
    which = f" ({'abcde'[number - 1]})" if number else ""
    return Pocket(
        name=f"{holds} at {middle}{which}",
        holds="lead" if holds == "lead" else "foam",
        pair=sides[0] > 0,
        x_aft=ends[0] + GAP / 2,
        x_fore=ends[1] - GAP / 2,
        y_starboard=sides[0],
        y_port=sides[1],
        z_bottom=heights[0],
        z_top=heights[1],
    )
