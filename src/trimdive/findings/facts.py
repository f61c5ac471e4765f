"""All that a check may look at: a boat assessed, frozen."""

from trimdive.boatfile import Boat
from trimdive.bodies.build import Body
from trimdive.bodies.hull import Hull
from trimdive.bodies.surfaces import Files
from trimdive.clashes.scene import Scene
from trimdive.dive import Dive, Moment
from trimdive.fact import Fact, fact
from trimdive.lines.mesh import Floats
from trimdive.litres import Need
from trimdive.records import record
from trimdive.rest import Floater, State
from trimdive.rest.named import Low, how_full, lowest_of
from trimdive.weights import Ledger


@record
class Facts:
    """A boat and what has been worked out of her."""

    boat: Boat
    files: Files
    hull: Hull
    bodies: tuple[Body, ...]
    scene: Scene
    masses: Ledger
    floater: Floater
    waterline: tuple[Floats, float]  # the plane meant: n, and d [m]
    need: Need
    surfaced: State  # tanks blown
    full: State  # tanks full
    dived: State  # wholly under, at the neutral filling or the nearest to it
    neutral: float  # share of the tanks' room at which she is neutral; may lie beyond 0 to 1 [-]
    bg: float  # B above G dived and upright, at the filling of ``dived`` [m]
    dive: tuple[Moment, ...]  # even moments from blown to full
    down: Dive  # the way down, with more moments where much happens
    cleared: "Facts | None"  # of the boat with what hides other faults put right
    clears: tuple[tuple[str, str], ...]  # check and subject of each thing put right in that

    @property
    def goes_under(self) -> bool:
        """Return whether she can be neutral wholly under."""
        return self.full.rest.under

    @property
    def low(self) -> tuple[Low, State]:
        """Return how she lies low, and the name of that state: as it stands first everywhere."""
        return lowest_of(self.boat, self.surfaced, self.full, self.dived)

    @property
    def plain(self) -> "Facts":
        """Return the facts by which to mend what other faults hide."""
        return self.cleared or self

    @property
    def once(self) -> Fact:
        """Return the state that ``plain`` speaks of: what is put right first in it."""
        names = tuple(dict.fromkeys(subject for _, subject in self.clears))
        are_two = any(key == "room-tanks" for key, _ in self.clears)  # one fault of two tanks
        return fact("put-right-first", names=names, are_many=are_two or len(names) > 1)

    @property
    def lift_left(self) -> float:
        """Return the lift left with tanks full; negative when she sinks [kg]."""
        return -self.full.rest.excess

    @property
    def short(self) -> float:
        """Return what she weighs too little for her waterline [kg]; negative: too heavy."""
        below = self.floater.volume - self.need.volume
        blown = self.floater.density * float(self.surfaced.rest.waters.sum())
        return self.floater.density * below - self.floater.mass - blown

    def filled(self, moment: Moment) -> float:
        """Return how full her tanks are at a moment, of their whole room [-]."""
        return how_full(self.floater, moment.state.rest.waters)
