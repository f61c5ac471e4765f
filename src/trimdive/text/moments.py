"""The dive as it is shown: curves that hang together, and what happens on the way."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import TYPE_CHECKING

from trimdive.hydrostatics.equilibrium.named import how_full as filling_of
from trimdive.hydrostatics.equilibrium.named import listed

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.ballast.dive import Dive, Event, Happens, Moment
    from trimdive.hydrostatics.equilibrium import State

SAME = 1e-9  # fillings closer than this are one [-]
SAYS: "dict[Happens, tuple[str, str]]" = {  # what one does, and what several do
    "under": ("goes under", "go under"),
    "out": ("breaks the surface", "break the surface"),
    "full": ("full", "full"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Happening:
    """Everything that happens at one filling."""

    filling: float  # share of the water that comes in [-]
    moment: "Moment"
    events: "tuple[Event, ...]"

    @property
    def what(self) -> str:
        """Return all of it in a few words."""
        return event_words(self.events)

    def of_kind(self, kind: "Happens") -> list[str]:
        """Return the names of those of which one thing is true; "" is all of her."""
        return [event.name for event in self.events if event.kind == kind]


def how_full(her: "Assessment", state: "State") -> float:
    """Return how full her tanks are together, of their whole room [-]."""
    return filling_of(her.floater, state.rest.waters)


def outer_marks(her: "Assessment") -> tuple[tuple[str, float], tuple[str, float]]:
    """Return name and place of her aftermost and foremost mark, or of her ends [m]."""
    marks = sorted((mark.x, mark.name) for mark in her.boat.marks)
    if len(marks) > 1:
        return (marks[0][1], marks[0][0]), (marks[-1][1], marks[-1][0])
    bounds = [body.mesh.bounds[:, 0] for body in her.bodies]
    low, high = min(float(low) for low, _ in bounds), max(float(high) for _, high in bounds)
    return ("stern", low), ("bow", high)


def event_words(events: Sequence["Event"]) -> str:
    """Return all that happens at one filling, in a few words."""
    texts: list[str] = []
    for kind, (one, many) in SAYS.items():
        names = [event.name for event in events if event.kind == kind]
        some = [name for name in names if name]
        if some:
            texts.append(f"{listed(some)} {many if len(some) > 1 else one}")
        if len(some) < len(names):
            texts.append(f"{'the whole boat' if kind == 'under' else 'she'} {one}")
    return "; ".join(texts)


def happenings(way: "Dive", *, up: bool = False) -> list[Happening]:
    """Return what happens on the way, in its order; on the way up no tank becomes full."""
    events = [event for event in way.events if not (up and event.kind == "full")]
    ordered = sorted(events, key=lambda event: -event.filling if up else event.filling)
    found: list[Happening] = []
    for filling, several in groupby(ordered, key=lambda event: round(event.filling / SAME) * SAME):
        moment = min(way.moments, key=lambda one: abs(one.filling - filling))
        found.append(Happening(filling=moment.filling, moment=moment, events=tuple(several)))
    return found
