"""A steady hand: clicks near the lines of a drawn plan, snapped to their ink, made a hull."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from tests.plans.drawing import Floats, Laid, Map

from trimdive.plans.sheet import Sheet
from trimdive.plans.snap import crossing, snapped
from trimdive.plans.views import Traced, TracedSection, View, traced

SHAKE = 2.0  # how far off a click lies at most, across and down, in pixels


@dataclass(frozen=True)
class Clicked:
    """What came of clicking along every line: places on the sheet, and how far off the line."""

    places: dict[str, Floats]
    off: dict[str, Floats]

    @property
    def rms(self) -> float:
        """Return the root of the mean square of all distances from the true lines [m]."""
        every = np.concatenate(list(self.off.values()))
        return float(np.sqrt((every**2).mean()))


def corners_of(grey: NDArray[np.uint8], plan: Laid, seen: Map) -> list[tuple[float, float]]:
    """Return the corners of the frame as snapped from clicks beside them."""
    rough = seen(plan.corners()) + np.array([(1.3, -1.1), (-1.2, 0.8), (0.4, 1.5), (-0.9, -1.4)])
    found = [crossing(grey, (x, y), 6.0) for x, y in rough.tolist()]
    assert all(one is not None for one in found)
    return [one.at for one in found if one is not None]


def nearest(points: Floats, line: Floats) -> Floats:
    """Return how far points lie from a polyline [m]."""
    start, way = line[:-1], np.diff(line, axis=0)
    out = points[:, None] - start
    square = np.maximum((way**2).sum(-1), 1e-18)
    share = np.clip((out * way).sum(-1) / square, 0, 1)
    return np.linalg.norm(out - share[..., None] * way, axis=-1).min(axis=1)


def clicked(grey: NDArray[np.uint8], plan: Laid, seen: Map, sheet: Sheet) -> Clicked:
    """Return every line clicked along and brought to the sheet."""
    rng = np.random.default_rng(20)
    places, off = {}, {}
    for name, line in plan.curves().items():
        count = 16 if name.startswith("section") else 40
        at = np.linspace(0, len(line) - 1, count).astype(int)
        if name.startswith("section"):
            at = np.concatenate([at[:-1], [len(line) - 2, len(line) - 1]])
        true = seen(line[np.unique(at)])
        shaken = true + rng.uniform(-SHAKE, SHAKE, true.shape)
        shaken[[0, -1]] = true[[0, -1]]
        marks = []
        for x, y in shaken[1:-1].tolist():
            snap = snapped(grey, (x, y), 5.0)
            assert snap is not None
            marks.append(snap.at)
        places[name] = sheet.at(np.array([shaken[0], *marks, shaken[-1]]))
        off[name] = nearest(places[name], line)
    return Clicked(places, off)


def hull_of(plan: Laid, places: dict[str, Floats], worth: float) -> Traced:
    """Return the hull of lines on the sheet."""
    profile, along = View(origin=plan.profile), View(origin=plan.plan)
    body = View(origin=plan.body, times=1 / plan.larger)
    sections = tuple(
        TracedSection(x=x, points=body.section(places[f"section {x}"]))
        for x in plan.hull.sections
        if f"section {x}" in places
    )
    return traced(
        profile.lengthways(places["keel"]),
        profile.lengthways(places["deck"]),
        along.half_breadths(places["half"]),
        sections,
        worth,
    )
