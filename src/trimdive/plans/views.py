"""From curves on the sheet to lines of the model: profile, half-breadth plan and sections.

Each view has a place of its own on the sheet, and may have been drawn with the bow to the right or
to the left. Lines are those of the model: x from her aftermost point, z from the keel line.
"""

from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from trimdive.errors import PlanError
from trimdive.geometry.lines import Floats
from trimdive.records import record

What = Literal["keel", "deck", "half-breadth"]
END = 0.02  # ends of two lines that lie within this share of the length are the same end [-]
BACK = 2.0  # a line may run back by so many pixels, as a shaking hand does [-]
CENTRE = 0.005  # a section that ends within this share of its breadth ends on the centre line [-]
LEAST = 3  # points that a section needs [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """Where a view lies on the sheet."""

    origin: tuple[float, float]  # stern, or centre line of sections, and keel line [m]
    forward: Literal["right", "left"] = "right"  # which way the bow points
    times: float = 1.0  # metres of the model to a metre of the sheet [-]

    def lengthways(self, places: Floats) -> Floats:
        """Return a line along the model, from stern to bow.

        Args:
            places: Its points on the sheet, in their order, shape (n, 2) [m].

        Returns:
            Place along the boat and height, or half-breadth with its sign, shape (n, 2) [m].
        """
        way = np.array([1.0 if self.forward == "right" else -1.0, 1.0])
        own = np.asarray(places, dtype=np.float64).reshape(-1, 2)
        line = (own - self.origin) * way * self.times
        if not len(line):
            return line
        return line if line[0, 0] <= line[-1, 0] else line[::-1]

    def half_breadths(self, places: Floats) -> Floats:
        """Return the line of half-breadths, drawn above or below the centre line.

        Args:
            places: Its points on the sheet, shape (n, 2) [m].

        Returns:
            Place along the boat and half-breadth, shape (n, 2) [m].
        """
        line = self.lengthways(places)
        side = 1.0 if line[:, 1].sum() >= 0.0 else -1.0
        return np.stack([line[:, 0], np.maximum(line[:, 1] * side, 0.0)], axis=1)

    def section(self, places: Floats) -> Floats:
        """Return a section, drawn to the right or to the left of the centre line, keel first.

        Args:
            places: Its points on the sheet, in their order, shape (n, 2) [m].

        Returns:
            Half-breadth and height, from centre line to centre line, shape (m, 2) [m].

        Raises:
            PlanError: Fewer than three points, or no height.
        """
        if len(places) < LEAST:
            what = f"a section has {len(places)} of three points or more"
            raise PlanError(what, "sections", "Trace it from the keel round to the deck.")
        points = (np.asarray(places, dtype=np.float64) - self.origin) * self.times
        if not np.isfinite(points).all():
            raise PlanError("a point of a section is no place", "sections", "Place it again.")
        side = 1.0 if points[:, 0].sum() >= 0.0 else -1.0
        points = np.stack([np.maximum(points[:, 0] * side, 0.0), points[:, 1]], axis=1)
        if points[0, 1] > points[-1, 1]:
            points = points[::-1]
        if points[:, 0].max() <= 0.0 or points[0, 1] == points[-1, 1]:
            what = "a section encloses nothing"
            raise PlanError(what, "sections", "Trace it from the keel round to the deck.")
        points[[0, -1], 0] *= points[[0, -1], 0] > CENTRE * points[:, 0].max()
        top = [] if points[-1, 0] == 0.0 else [(0.0, points[-1, 1])]
        return np.array([*points.tolist(), *top])


@record
class TracedSection:
    """A section at its station."""

    x: float  # station [m]
    points: Floats  # half-breadth and height, keel first, shape (n, 2) [m]
    knuckles: tuple[int, ...] = ()  # which points are sharp edges, counted from one


@record
class Traced:
    """All that was traced of a hull, each line from stern to bow."""

    keel: Floats  # place and height, shape (n, 2) [m]
    deck: Floats  # place and height, shape (n, 2) [m]
    half: Floats  # place and greatest half-breadth; empty where there is no plan, shape (n, 2) [m]
    sections: tuple[TracedSection, ...]  # rising in x
    worth: float  # what a pixel of the picture is worth [m]

    @property
    def ends(self) -> tuple[float, float]:
        """Return stern and bow as the profile has them [m]."""
        return self.keel[0, 0], self.keel[-1, 0]


def traced(
    keel: Floats,
    deck: Floats,
    half: Floats | None,
    sections: tuple[TracedSection, ...],
    worth: float,
) -> Traced:
    """Return what was traced, looked through, its lines all from end to end.

    Args:
        keel: Place and height, from stern to bow, shape (n, 2) [m].
        deck: Likewise, shape (n, 2) [m].
        half: Place and greatest half-breadth likewise, or None where no plan was traced [m].
        sections: In any order.
        worth: What a pixel is worth [m].

    Raises:
        PlanError: A line that runs back, lines that cross or end apart, a section outside.
    """
    low, high = _one_way(keel, "keel", worth, -1.0), _one_way(deck, "deck", worth, 1.0)
    ends = min(low[0, 0], high[0, 0]), max(low[-1, 0], high[-1, 0])
    low, high = _to_ends(low, ends, "keel"), _to_ends(high, ends, "deck")
    _refuse_crossed(low, high, worth)
    _refuse_stations(sections, ends, worth)
    ordered = tuple(
        replace(one, x=min(max(one.x, ends[0]), ends[1]))
        for one in sorted(sections, key=lambda one: one.x)
    )
    for end in (0, -1):
        if high[end, 1] - low[end, 1] < worth:  # they meet in a point, but for a shaking hand
            low[end, 1] = high[end, 1] = (low[end, 1] + high[end, 1]) / 2.0
    plan = np.zeros((0, 2)) if half is None else _one_way(half, "half-breadth", worth, 1.0)
    plan = np.maximum(plan, (-np.inf, 0.0))
    for end in (0, -1) if len(plan) else ():
        beyond = (ends[end] - plan[end, 0]) * (1.0 if end == 0 else -1.0)
        if beyond > END * (ends[1] - ends[0]):
            what = f"the plan reaches {1e3 * beyond:.1f} mm beyond the profile"
            raise PlanError(what, "half-breadth", "Look whether both have one scale and one stern.")
    return Traced(keel=low, deck=high, half=plan, sections=ordered, worth=worth)


def _one_way(line: Floats, what: What, worth: float, outward: float) -> Floats:
    """Return a line whose places rise; of points at one place the outermost.

    Raises:
        PlanError: It has fewer than two points, or runs back.
    """
    if len(line) < 2:
        mend = "Trace it from end to end of the hull."
        raise PlanError(f"the line has {len(line)} of two points or more", what, mend)
    if not np.isfinite(line).all():
        raise PlanError("a point of the line is no place", what, "Place it again.")
    back = np.maximum.accumulate(line[:, 0]) - line[:, 0]
    if back.max() > BACK * worth:
        x = line[int(np.argmax(back)), 0]
        mend = "Trace it one way, from the stern to the bow, each place once."
        raise PlanError(f"the line runs back at {1e3 * x:.1f} mm from the stern", what, mend)
    ordered = line[np.argsort(line[:, 0], kind="stable")]
    kept: list[tuple[float, float]] = []
    for x, v in ordered.tolist():
        if kept and x - kept[-1][0] < 0.5 * worth:
            kept[-1] = (kept[-1][0], outward * max(outward * v, outward * kept[-1][1]))
        else:
            kept.append((x, v))
    if len(kept) < 2:
        raise PlanError("the line has no length", what, "Trace it from end to end of the hull.")
    return np.array(kept)


def _to_ends(line: Floats, ends: tuple[float, float], what: What) -> Floats:
    """Return a line of the profile that goes on to both ends of the hull.

    Raises:
        PlanError: It ends too far from them.
    """
    reached = line.copy()
    for end, word in ((0, "stern"), (-1, "bow")):
        short = abs(float(ends[end] - line[end, 0]))
        if short > END * (ends[1] - ends[0]):
            what_ = f"the line ends {1e3 * short:.1f} mm short of the {word}"
            raise PlanError(what_, what, "Keel and deck must both reach it: trace the stem too.")
        reached[end, 0] = ends[end]
    return reached


def _refuse_crossed(keel: Floats, deck: Floats, worth: float) -> None:
    """Refuse a keel above the deck.

    Raises:
        PlanError: They cross, or meet before the ends.
    """
    x = np.unique(np.concatenate([keel[:, 0], deck[:, 0]]))
    high = np.interp(x, *deck.T) - np.interp(x, *keel.T)
    wrong = (high <= 0.0) & (x > x[0] + worth) & (x < x[-1] - worth) | (high < -worth)
    if wrong.any():
        where = f"keel and deck cross at {1e3 * x[int(np.argmax(wrong))]:.1f} mm from the stern"
        raise PlanError(where, "profile", "Look whether one stands in the other's place.")


def _refuse_stations(
    sections: tuple[TracedSection, ...], ends: tuple[float, float], worth: float
) -> None:
    """Refuse sections that are none, outside the profile, or twice at one station.

    Raises:
        PlanError: They are.
    """
    if not sections:
        mend = "Trace one, and say at which station it stands."
        raise PlanError("no section is traced", "sections", mend)
    last = -np.inf
    for section in sorted(sections, key=lambda one: one.x):
        x = f"{1e3 * section.x:.1f} mm"
        if not ends[0] - worth <= section.x <= ends[1] + worth:
            mend = f"Stations lie from {1e3 * ends[0]:.1f} to {1e3 * ends[1]:.1f} mm."
            raise PlanError(f"the section at {x} lies outside the profile", "sections", mend)
        if section.x - last <= worth:
            raise PlanError(f"two sections stand at {x}", "sections", "Keep one of them.")
        last = section.x
