"""Which of several mends is offered: the one that leaves her sums nearest to balance.

Each way is calculated in closed form before one is chosen, with what hides other faults put right;
the full solver has the last word on the one that is. How welcome a mend is by itself is common
practice, no source.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from math import inf

from trimdive.boatfile import Part, Tank
from trimdive.boatfile.ref import ref
from trimdive.fact import Fact
from trimdive.findings.assessed import Assessed
from trimdive.findings.balance import Balance, balance_of, surprise
from trimdive.findings.finding import Edit
from trimdive.findings.sums import ABOVE, AX, MASS, MX, VOLUME, VX, Height, part_sums
from trimdive.geometry.lines.mesh import Floats
from trimdive.geometry.solids.build import numbered

FAR = 0.05  # a move so far is as unwelcome as a rest of one band is odd [m]
Rooms = tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """One mend that would do."""

    says: Fact  # what to do
    edits: tuple[Edit, ...]  # the same as changes
    cost: float = 0.0  # how unwelcome it is by itself, as a logarithm [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Scales:
    """A boat's sums, on which each way is weighed."""

    assessed: Assessed  # of her as she is written
    balance: Balance  # with what hides other faults put right, but her tanks as written
    drawn: dict[str, float]  # volumes of shapes that are meshes, by path [m³]
    line: Height

    def misfit(self, edits: Sequence[Edit]) -> float:
        """Return how far her sums are from balance with changes made [-]."""
        sums, rooms = self._after(edits)
        return self.balance.misfit(sums, rooms)

    def heavy(self, edits: Sequence[Edit]) -> float:
        """Return by how much she is too heavy for her waterline with changes made [kg]."""
        sums, _ = self._after(edits)
        return self._excess(sums)

    def _excess(self, sums: Floats) -> float:
        b = self.balance
        return float(sums[MASS]) + b.blown[0] - b.density * float(sums[VOLUME] - sums[ABOVE])

    def level(self, edits: Sequence[Edit], path: str) -> float | None:
        """Return the place along her at which a piece would balance her, changes made [m].

        None where it hardly weighs anything under water.
        """
        piece = self._pieces()[path]
        for edit in edits:
            if edit.path == path:
                piece = piece.model_copy(update=dict(edit.fields))
        sums, _ = self._after(edits)
        own, b = part_sums(piece, self.drawn.get(path), self.line), self.balance
        weight = float(own[MASS]) - b.density * float(own[VOLUME] - own[ABOVE])
        if abs(weight) < 1e-3 * float(b.sums[MASS]):
            return None
        excess = self._excess(sums)
        moment = float(sums[MX]) + b.blown[1] - b.density * float(sums[VX] - sums[AX])
        return piece.x - (moment - b.middle * excess) / weight

    def _after(self, edits: Sequence[Edit]) -> tuple[Floats, Rooms]:
        sums, rooms = self.balance.sums.copy(), self.balance.rooms
        pieces = self._pieces()
        now = {one.name: one for _, one in numbered(self.assessed.plain.boat)}
        for edit in edits:
            if edit.path in pieces:
                was = pieces[edit.path]
                if was.name not in now:
                    continue
                sums -= self._sums(edit.path, now[was.name])
                if edit.action == "set":
                    sums += self._sums(edit.path, was.model_copy(update=dict(edit.fields)))
            elif ref(edit.path).table == "tank":
                rooms = self._rooms(rooms, edit)
        return sums, rooms

    def _pieces(self) -> dict[str, Part]:
        return dict(numbered(self.assessed.boat))

    def _sums(self, path: str, piece: Part) -> Floats:
        return part_sums(piece, self.drawn.get(path), self.line)

    def _rooms(self, rooms: Rooms, edit: Edit) -> Rooms:
        k = ref(edit.path).order
        if edit.action == "remove":
            return tuple((0.0, x) if i == k else (room, x) for i, (room, x) in enumerate(rooms))
        now, fields = self.assessed.boat.tanks[k], dict(edit.fields)
        field = "water_end" if now.kind == "piston" else "x"
        by = float(str(fields.get(field, _place(now)))) - _place(now)
        return tuple((room, x + by) if i == k else (room, x) for i, (room, x) in enumerate(rooms))


def _place(tank: Tank) -> float:
    return (tank.water_end or 0.0) if tank.kind == "piston" else tank.x


def scales(her: Assessed) -> Scales:
    """Return what ways of a boat are weighed on."""
    plain = her.plain
    volumes = {body.path: body.volume / body.share for body in her.bodies}
    n, d = plain.waterline
    return Scales(
        assessed=her,
        balance=replace(balance_of(plain), rooms=balance_of(her).rooms),
        drawn={
            path: volumes[path]
            for path, part in numbered(her.boat)
            if part.shape == "mesh" and path in volumes
        },
        line=lambda x: float((d - n[0] * x) / n[2]),
    )


def best(on: Scales, ways: Iterable[Way]) -> Way | None:
    """Return the way after which she lies nearest to balance; of equals the first; None of none."""
    found, least = None, inf
    for way in ways:
        odd = on.misfit(way.edits) + way.cost
        if odd < least - 1e-9:
            found, least = way, odd
    return found


def far(metres: float) -> float:
    """Return how unwelcome it is to move a thing so far [-].

    >>> far(0.0), far(0.1) > far(0.05)
    (0.0, True)
    """
    return surprise(metres / FAR)
