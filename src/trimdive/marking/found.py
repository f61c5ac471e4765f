"""What is found of holes, plate lines and figures of the draught on the skin."""

from dataclasses import dataclass

from trimdive.geometry.lines.mesh import Floats
from trimdive.geometry.solids.onskin import Spot, Way, developed
from trimdive.records import record


@dataclass(frozen=True, slots=True, kw_only=True)
class Holes:
    """A hole, or a row of them, on the skin."""

    name: str
    path: str  # in the boat file
    kind: str  # flood hole, limber hole, slot, vent or drain
    shape: str  # round, slot or rectangle
    size: tuple[float, float]  # along the boat, and up the skin [m]
    region: str  # on which they lie
    spots: tuple[Spot, ...]  # their middles, from aft forward, port first
    area: float  # of one [m²]
    length: float  # along the skin from the first to the last, on one side [m]

    @property
    def count(self) -> int:
        """Return how many there are, on both sides together."""
        return len(self.spots)

    @property
    def whole_area(self) -> float:
        """Return the area of all of them, on both sides together [m²]."""
        return self.area * self.count

    @property
    def pitch(self) -> float:
        """Return from middle to middle along the skin, on the mean [m]; 0 of a single one."""
        return self.length / max(len(self.on(self.spots[0].side)) - 1, 1)

    def on(self, side: Way) -> tuple[Spot, ...]:
        """Return those of one side, from aft forward."""
        return tuple(one for one in self.spots if one.side == side)


@record
class Line:
    """One line along or round the skin, on one side."""

    side: Way
    points: Floats  # from aft forward, or from the keel up, shape (n, 3) [m]

    @property
    def length(self) -> float:
        """Return how long it is along the skin [m]."""
        return developed(self.points)


@record
class Lines:
    """A plate line on the skin: one line a side, or the two edges of a band."""

    name: str
    path: str
    kind: str  # waterline, boot top, weld, rivets or plate edge
    way: str  # "along" or "round"
    lines: tuple[Line, ...]  # port first; of a band the lower edges first
    spots: tuple[Spot, ...]  # where it begins and ends, of the first line
    rivets: int  # in one line; 0 where it has none
    girths: tuple[float, float]  # least and most breadth of a band round the skin; 0 of none [m]

    @property
    def length(self) -> float:
        """Return how long it is along the skin, on one side, of a band its lower edge [m]."""
        return self.lines[0].length


@dataclass(frozen=True, slots=True, kw_only=True)
class Figures:
    """Figures of the draught on the skin."""

    name: str
    path: str
    at: str  # "stem", "stern" or "side"
    height: float  # of a figure; 0 where it is not told [m]
    spots: tuple[Spot, ...]  # the foot of each, lowest first, port first


@record
class Marks:
    """All that is marked and cut on the skin of a boat."""

    holes: tuple[Holes, ...]
    lines: tuple[Lines, ...]
    figures: tuple[Figures, ...]

    @property
    def areas(self) -> dict[str, float]:
        """Return the area of all holes on each region [m²]."""
        found: dict[str, float] = {}
        for one in self.holes:
            found[one.region] = found.get(one.region, 0.0) + one.whole_area
        return found
