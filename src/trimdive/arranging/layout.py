"""Where things go along the boat: a mixed-integer linear programme, its best answers in turn.

Unknown are how far each cylinder and each thing in one moves, which of two lies behind the other,
how much lead and foam lies at each place that has room for it, and the water in the tanks. Least is
lead and foam; what a condition misses costs far more, and moving a little.

Source: HiGHS, branch and bound, by ``scipy.optimize.milp``.
"""

from collections.abc import Sequence
from typing import Literal

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, linprog, milp
from scipy.sparse import csr_array

from trimdive.geometry.lines.mesh import Floats
from trimdive.placing.solve.solve import hushed
from trimdive.records import record

MISSED = 10.0  # what missing a condition by its unit costs, as lead [kg]
MOVE = 0.01  # what a metre costs that a thing is moved in its cylinder, as lead [kg/m]
TUBE = 0.1  # the same of a cylinder: shafts and rods end at it [kg/m]
NEAR = 1e-3  # an answer this near its bound is proven [-]
AT_CAP = 1.0  # what a metre costs that a thing lies off the cap where it belongs [kg/m]
ROUNDING = 1e-7  # of a whole number and of a place [-, m]
HEAVY = (
    0.1  # two arrangements differ by the order of things no lighter, of what their tube holds [-]
)


@record
class Tube:
    """A cylinder that things lie in."""

    path: str  # in the boat file
    name: str
    ends: tuple[float, float]  # of its outside, as entered [m]
    room: tuple[float, float]  # between its caps, as entered [m]
    ranges: tuple[tuple[float, float], ...]  # how far it may move, each without a break [m]
    goes: tuple[str, ...]  # paths of what goes with it: trays and other outlines
    each: Floats  # what moving it a metre adds to the conditions, shape (rows,)


@record
class Thing:
    """What lies in a cylinder along its axis."""

    path: str  # in the boat file
    name: str
    along: tuple[tuple[str, float], ...]  # its path and those that go with it; each so far on [m]
    tube: int  # its cylinder, from 0
    ends: tuple[float, float]  # as entered [m]
    mass: float  # of all of it [kg]
    is_guessed: bool  # its length is not told
    is_kept: bool  # it stays where it lies
    each: Floats  # what moving it a metre adds to the conditions, shape (rows,)


@record
class RunEnd:
    """What a hose, cable or rod ends at."""

    on: Literal["thing", "tube", "hull"]  # with which it moves; what lies in the hull stays
    number: int  # of that thing or tube, from 0
    ends: tuple[float, float]  # as entered [m]


@record
class Layout:
    """What is to be arranged; every condition is to be at least at zero."""

    tubes: tuple[Tube, ...]
    things: tuple[Thing, ...]
    behind: tuple[tuple[int, int], ...]  # two things of one tube that cannot lie side by side
    beside: tuple[tuple[int, int], ...]  # two tubes that cannot
    first: tuple[tuple[int, int], ...]  # two things of which the first is to lie aft
    at_caps: tuple[tuple[int, str], ...]  # things that belong at a cap, "aft" or "fore"
    runs: tuple[tuple[RunEnd, RunEnd, float], ...]  # and how far apart, at the most [m]
    gap: float  # between two things, one behind the other [m]
    base: Floats  # the conditions as she is entered, without fill, shape (rows,)


@record
class Fill:
    """Lead, foam and water that may be put in."""

    each: Floats  # what one of each adds to the conditions, shape (rows, n)
    least: Floats  # shape (n,)
    most: Floats  # shape (n,)
    mass: Floats  # of one of each, where it counts, shape (n,) [kg]


@record
class Order:
    """One arrangement."""

    tubes: Floats  # how far each moves, shape (t,) [m]
    things: Floats  # how far each moves, shape (n,) [m]
    sides: tuple[bool, ...]  # of each pair behind each other, whether the first lies aft
    mass: float  # of lead and foam that it needs [kg]
    missed: float  # of the conditions, in their units [-]
    gap: float  # so much less than all it costs might do, as lead [kg]
    proven: bool


class _Programme:
    """Columns and rows of the programme."""

    def __init__(self, layout: Layout, fill: Fill) -> None:
        self.layout, self.fill = layout, fill
        self.bounds: list[tuple[float, float, int, float]] = []  # least, most, whole, cost
        self.rows: list[tuple[dict[int, float], float, float]] = []
        far = sum(abs(end) for tube in layout.tubes for one in tube.ranges for end in one)
        span = max((t.ends[1] for t in layout.tubes), default=0.0) - min(
            (t.ends[0] for t in layout.tubes), default=0.0
        )
        self.far = far + span + 1.0  # more than anything moves [m]
        self.fills = [
            self.unknown(float(a), float(b), cost=float(c))
            for a, b, c in zip(fill.least, fill.most, fill.mass, strict=True)
        ]
        self.missed = [self.unknown(0.0, np.inf, cost=MISSED) for _ in layout.base]
        self.tubes = [self._moved(TUBE) for _ in layout.tubes]
        self.things = [self._moved(MOVE, is_kept=thing.is_kept) for thing in layout.things]
        self._conditions()
        self._ranges()
        self.sides = [self._one_behind(*pair) for pair in layout.behind]
        self.tube_sides = [self._tubes_apart(*pair) for pair in layout.beside]
        self._ends()
        self._at_caps()
        self._runs()

    def unknown(self, least: float, most: float, *, whole: bool = False, cost: float = 0.0) -> int:
        """Enter an unknown and return its place."""
        self.bounds.append((least, most, int(whole), cost))
        return len(self.bounds) - 1

    def row(self, entries: dict[int, float], low: float, high: float = np.inf) -> None:
        """Enter a row."""
        self.rows.append((entries, low, high))

    def _moved(self, price: float, *, is_kept: bool = False) -> int:
        """Enter how far something moves, which costs, and return its place."""
        far = 0.0 if is_kept else self.far
        place = self.unknown(-far, far)
        size = self.unknown(0.0, far, cost=price)
        self.row({size: 1.0, place: 1.0}, 0.0)
        self.row({size: 1.0, place: -1.0}, 0.0)
        return place

    def _conditions(self) -> None:
        layout = self.layout
        columns = [*zip(self.fills, self.fill.each.T, strict=True)]
        columns += [(k, tube.each) for k, tube in zip(self.tubes, layout.tubes, strict=True)]
        columns += [(k, thing.each) for k, thing in zip(self.things, layout.things, strict=True)]
        for i, base in enumerate(layout.base):
            entries = {k: float(each[i]) for k, each in columns if each[i]}
            self.row({**entries, self.missed[i]: 1.0}, -float(base))

    def _ranges(self) -> None:
        """Keep tubes within their ranges and things between the caps of their tubes."""
        for place, tube in zip(self.tubes, self.layout.tubes, strict=True):
            chosen = [self.unknown(0, 1, whole=True) for _ in tube.ranges]
            self.row(dict.fromkeys(chosen, 1.0), 1.0, 1.0)
            lows = {k: -low for k, (low, _) in zip(chosen, tube.ranges, strict=True)}
            highs = {k: high for k, (_, high) in zip(chosen, tube.ranges, strict=True)}
            self.row({place: 1.0, **lows}, 0.0)
            self.row({place: -1.0, **highs}, 0.0)
        for place, thing in zip(self.things, self.layout.things, strict=True):
            tube, (aft, fore) = self.tubes[thing.tube], self.layout.tubes[thing.tube].room
            self.row({place: 1.0, tube: -1.0}, aft - thing.ends[0])
            self.row({place: -1.0, tube: 1.0}, thing.ends[1] - fore)

    def _one_behind(self, i: int, j: int) -> int:
        """Keep two things of a tube apart; return the unknown that is 1 where the first is aft."""
        one, other = self.layout.things[i], self.layout.things[j]
        aft, fore = self.layout.tubes[one.tube].room
        slack = fore - aft + self.layout.gap
        return self._apart(
            (self.things[i], one.ends), (self.things[j], other.ends), self.layout.gap, slack
        )

    def _tubes_apart(self, i: int, j: int) -> int:
        one, other = self.layout.tubes[i], self.layout.tubes[j]
        return self._apart(
            (self.tubes[i], one.ends), (self.tubes[j], other.ends), self.layout.gap, self.far
        )

    def _apart(
        self,
        one: tuple[int, tuple[float, float]],
        other: tuple[int, tuple[float, float]],
        gap: float,
        slack: float,
    ) -> int:
        side = self.unknown(0, 1, whole=True)
        (i, first), (j, second) = one, other
        # the first aft: start of the second - end of the first >= gap
        self.row({j: 1.0, i: -1.0, side: -slack}, first[1] - second[0] + gap - slack)
        self.row({i: 1.0, j: -1.0, side: slack}, second[1] - first[0] + gap)
        return side

    def _ends(self) -> None:
        """Let what is to lie at an end lie there."""
        for i, j in self.layout.first:
            if (i, j) in self.layout.behind:
                side, is_aft = self.sides[self.layout.behind.index((i, j))], 1.0
            elif (j, i) in self.layout.behind:
                side, is_aft = self.sides[self.layout.behind.index((j, i))], 0.0
            else:
                continue
            self.row({side: 1.0}, is_aft, is_aft)

    def _at_caps(self) -> None:
        """Draw what belongs at a cap to it: shafts end there."""
        for k, cap in self.layout.at_caps:
            thing = self.layout.things[k]
            aft, fore = self.layout.tubes[thing.tube].room
            off = self.unknown(0.0, np.inf, cost=AT_CAP)
            sign, far = (1.0, thing.ends[0] - aft) if cap == "aft" else (-1.0, fore - thing.ends[1])
            self.row({off: 1.0, self.things[k]: -sign, self.tubes[thing.tube]: sign}, far)

    def _runs(self) -> None:
        """Keep what a hose, cable or rod joins no farther apart than that is long."""
        for one, other, longest in self.layout.runs:
            for behind, ahead in ((one, other), (other, one)):
                entries: dict[int, float] = {}
                for end, sign in ((behind, 1.0), (ahead, -1.0)):
                    place = self._place_of(end)
                    if place is not None:
                        entries[place] = entries.get(place, 0.0) + sign
                self.row(entries, ahead.ends[0] - behind.ends[1] - longest)

    def _place_of(self, end: RunEnd) -> int | None:
        """Return the unknown by which the end of a run moves; None where it stays."""
        places = {"thing": self.things, "tube": self.tubes}
        return places[end.on][end.number] if end.on in places else None

    def without(self, known: Sequence[Order], pairs: Sequence[int]) -> None:
        """Ask for another order than those known, of some pairs."""
        for order in known:
            entries = {self.sides[k]: -1.0 if order.sides[k] else 1.0 for k in pairs}
            self.row(entries, 1.0 - sum(order.sides[k] for k in pairs))

    def solved(self, seconds: float) -> Order | None:
        """Return the best arrangement; None where there is none, or none was found in time."""
        cost = np.array([bound[3] for bound in self.bounds])
        matrix = np.zeros((len(self.rows), len(self.bounds)))
        for i, (entries, _, _) in enumerate(self.rows):
            for place, value in entries.items():
                matrix[i, place] = value
        lows, highs = (np.array([row[k] for row in self.rows]) for k in (1, 2))
        least, most, whole = (np.array([b[k] for b in self.bounds], float) for k in range(3))
        with hushed():
            found = milp(
                cost,
                integrality=whole,
                bounds=Bounds(least, most),  # pyright: ignore[reportArgumentType] - arrays do
                constraints=LinearConstraint(csr_array(matrix), lows, highs),  # pyright: ignore[reportArgumentType]
                options={"time_limit": max(seconds, 0.1), "mip_rel_gap": NEAR},
            )
        if found.x is None:
            return None
        x = found.x
        bound = found.get("mip_dual_bound")
        return Order(
            tubes=x[self.tubes],
            things=x[self.things] if self.things else np.zeros(0),
            sides=tuple(bool(x[k] > 0.5) for k in self.sides),
            mass=float(self.fill.mass @ x[self.fills]) if self.fills else 0.0,
            missed=float(x[self.missed].sum()),
            gap=max(float(found.fun - bound), 0.0) if bound is not None else np.inf,
            proven=found.status == 0,
        )


def weighty(layout: Layout) -> tuple[int, ...]:
    """Return the pairs of things by the order of which two arrangements count as different.

    Both are no light part of what their cylinder holds, or tanks; where no two are, any pair.
    """
    held = np.zeros(len(layout.tubes))
    for thing in layout.things:
        held[thing.tube] += thing.mass
    heavy = [
        thing.mass >= HEAVY * held[thing.tube] or thing.path.startswith("tank")
        for thing in layout.things
    ]
    found = tuple(k for k, (i, j) in enumerate(layout.behind) if heavy[i] and heavy[j])
    return found or tuple(range(len(layout.behind)))


def best(layout: Layout, fill: Fill, seconds: float, known: Sequence[Order] = ()) -> Order | None:
    """Return the arrangement that needs least lead and foam; None where there is no other.

    Args:
        layout: What is to be arranged.
        fill: Lead, foam and water.
        seconds: Time that it may take [s].
        known: Arrangements that it is to differ from.
    """
    it = _Programme(layout, fill)
    if known:
        pairs = weighty(layout)
        if not pairs:
            return None
        it.without(known, pairs)
    return it.solved(seconds)


def needed(base: Floats, fill: Fill, margin: Floats) -> Floats | None:
    """Return the least lead and foam, in pieces of any size, that keeps the conditions; or None.

    Args:
        base: The conditions without it, shape (rows,) [-].
        fill: What may be put in.
        margin: By how much each is to be kept, shape (rows,) [-].
    """
    bounds = list(zip(fill.least, fill.most, strict=True))
    found = linprog(fill.mass, A_ub=-fill.each, b_ub=base - margin, bounds=bounds)
    return found.x if found.success else None


def too_long(layout: Layout, tube: int) -> float:
    """Return by how much things that lie one behind the other are longer than their cylinder [m].

    Of things that may lie side by side the longest count; below zero: so much room is left.
    """
    pairs = {frozenset(pair) for pair in layout.behind}
    row: list[int] = []
    mine = [k for k, thing in enumerate(layout.things) if thing.tube == tube]
    for k in sorted(mine, key=lambda k: -_long(layout.things[k])):
        if all(frozenset((k, one)) in pairs for one in row):
            row.append(k)
    aft, fore = layout.tubes[tube].room
    long = sum(_long(layout.things[k]) for k in row) + layout.gap * max(len(row) - 1, 0)
    return long - (fore - aft)


def _long(thing: Thing) -> float:
    return thing.ends[1] - thing.ends[0]
