"""Where the views of one sheet disagree, and the lines between them that are taken.

At each station a section has a breadth that the half-breadth plan has too, and a keel and a deck
that the profile has. What they differ by is measured; half way between them is taken, and between
stations as much of it as lies between.
"""

from dataclasses import dataclass

import numpy as np

from trimdive.geometry.lines import Floats
from trimdive.geometry.lines.outline import Finish, through
from trimdive.plans.views import END, Traced, TracedSection, What


@dataclass(frozen=True, slots=True, kw_only=True)
class Apart:
    """One figure that two views have."""

    what: What
    x: float  # station [m]
    lengthways: float  # as profile or half-breadth plan have it [m]
    across: float  # as the section has it [m]

    @property
    def off(self) -> float:
        """Return by how much the section has more [m]."""
        return self.across - self.lengthways


def on_line(line: Floats, x: Floats) -> Floats:
    """Return a traced line at some places, fair between its points.

    Args:
        line: Place and figure, rising, shape (n, 2) [m].
        x: Places, shape (m,) [m].

    Returns:
        Shape (m,) [m].
    """
    finish: Finish = "not entered"
    return through(tuple(map(tuple, line.tolist())), x, finish, finish)


def to_ends_of_profile(hull: Traced) -> Floats:
    """Return the half-breadths with their ends drawn to those of the profile, shape (n, 2) [m].

    An end that lies further in is left: there the plan was not traced to the end.
    """
    plan = hull.half.copy()
    if not len(plan):
        return plan
    low, high = hull.ends
    reach = END * (high - low)
    own = plan[0, 0], plan[-1, 0]
    wanted = [b if abs(a - b) <= reach else a for a, b in zip(own, (low, high), strict=True)]
    plan[:, 0] = np.interp(plan[:, 0], own, wanted)
    return plan


def ends_apart(hull: Traced) -> float:
    """Return by how much the plan's ends and the profile's differ, both added up [m]."""
    if not len(hull.half):
        return 0.0
    low, high = hull.ends
    off = abs(hull.half[0, 0] - low), abs(hull.half[-1, 0] - high)
    return float(sum(one for one in off if one <= END * (high - low)))


def apart(hull: Traced) -> tuple[Apart, ...]:
    """Return every figure that two views have, station after station.

    Args:
        hull: What was traced.
    """
    plan = to_ends_of_profile(hull)
    found: list[Apart] = []
    for section in hull.sections:
        at = np.array([section.x])
        z = section.points[:, 1]
        pairs: list[tuple[What, Floats, float]] = [
            ("keel", hull.keel, float(z[0])),
            ("deck", hull.deck, float(z[-1])),
        ]
        if len(plan) and plan[0, 0] <= section.x <= plan[-1, 0]:
            pairs.append(("half-breadth", plan, float(section.points[:, 0].max())))
        for what, line, own in pairs:
            other = float(on_line(line, at)[0])
            found.append(Apart(what=what, x=section.x, lengthways=other, across=own))
    return tuple(found)


def hats(x: Floats, stations: Floats, ends: tuple[float, float]) -> Floats:
    """Return how much of what is so at each station is so at some places.

    Args:
        x: Places, shape (n,) [m].
        stations: Rising, shape (k,) [m].
        ends: Stern and bow, where nothing of it is left [m].

    Returns:
        One row a station, 1 at it and 0 at its neighbours, shape (k, n) [-].
    """
    knots = np.concatenate([[ends[0] - 1e-9], stations, [ends[1] + 1e-9]])
    return np.array([np.interp(x, knots, row) for row in np.eye(len(knots))[1:-1]])


def between(hull: Traced) -> tuple[Traced, tuple[Apart, ...]]:
    """Return the hull half way between its views, and what they differed by.

    Args:
        hull: What was traced.
    """
    found = apart(hull)
    lines: dict[What, Floats] = {"keel": hull.keel, "deck": hull.deck}
    if len(hull.half):
        lines["half-breadth"] = to_ends_of_profile(hull)
    moved: dict[What, Floats] = {}
    for what, line in lines.items():
        own = [one for one in found if one.what == what]
        stations = np.array([one.x for one in own])
        shift = np.array([one.off / 2.0 for one in own]) @ hats(line[:, 0], stations, hull.ends)
        least = 0.0 if what == "half-breadth" else -np.inf
        moved[what] = np.stack([line[:, 0], np.maximum(line[:, 1] + shift, least)], axis=1)
    if "half-breadth" not in moved:
        moved["half-breadth"] = hull.half
    sections = tuple(_fitted(section, found) for section in hull.sections)
    taken = Traced(
        keel=moved["keel"],
        deck=moved["deck"],
        half=moved["half-breadth"],
        sections=sections,
        worth=hull.worth,
    )
    return taken, found


def _fitted(section: TracedSection, found: tuple[Apart, ...]) -> TracedSection:
    """Return a section stretched to the keel, the deck and the breadth that are taken there."""
    own = {one.what: one for one in found if one.x == section.x}
    y, z = section.points.T
    keel, deck = (own[what].across - own[what].off / 2.0 for what in ("keel", "deck"))
    height = keel + (z - z[0]) / (z[-1] - z[0]) * (deck - keel)
    broad = own.get("half-breadth")
    share = 1.0 if broad is None else (broad.across - broad.off / 2.0) / broad.across
    points = np.stack([y * share, height], axis=1)
    return TracedSection(x=section.x, points=points, knuckles=section.knuckles)
