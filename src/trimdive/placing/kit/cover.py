"""The fewest loose pieces, and of those the lightest, that cover every combination planned.

For a number of pieces of lead and of foam the unknowns are their sizes, in whole steps, and for
each combination in which pocket each piece lies, if in any. Pull and moment must come within a
band. That is linear once "size where it lies" is an unknown of its own between nought and the
size; HiGHS solves it to proven optimality. Numbers of pieces are tried from none on, so that the
first that can be covered is the least.

Source: mixed-integer linear programming; product of a whole number and a choice, any text on it.
"""

from collections.abc import Iterator
from itertools import product
from math import ceil
from time import monotonic

import numpy as np

from trimdive.geometry.lines.mesh import Floats
from trimdive.placing.kit.search import searched
from trimdive.placing.kit.task import NEAR, Cover, Task, lacking, nearest

MOST = 7  # pieces: more than this is no kit to carry [-]
SLICE = 10.0  # for one number of pieces of each kind at most [s]
LEAST_TIME = 0.2  # with less time left nothing is tried to be proven [s]


def cover(task: Task, seconds: float = 30.0) -> Cover | None:
    """Return the kit with the fewest pieces, and of those the lightest; None where none does.

    Args:
        task: What is to be covered.
        seconds: Time that it may take [s]; where it runs out, what is found is not proven.
    """
    end, proven = monotonic() + seconds, True
    whole, task = task, lacking(task)
    for count in range(MOST + 1):
        best: tuple[float, Floats, Floats] | None = None
        for n_lead in range(count, -1, -1):
            found, is_proven = _lightest(task, n_lead, count - n_lead, end - monotonic())
            proven &= is_proven
            if found is not None:
                mass = float(found[0].sum() + task.foam_mass * found[1].sum())
                best = min(best, (mass, *found), key=lambda one: one[0]) if best else (mass, *found)
        if best:
            lies, _ = nearest(whole, best[1], best[2])
            return Cover(lead=best[1], foam=best[2], lies=lies, proven=proven)
    return None


def _lightest(
    task: Task, n_lead: int, n_foam: int, left: float
) -> tuple[tuple[Floats, Floats] | None, bool]:
    """Return pieces of so many that cover all, the lightest if time allows, and whether proven.

    A quick search comes first: what it finds bounds what is left to prove, and stands where time
    runs out.
    """
    if n_lead + n_foam == 0 or not _can(task, n_lead, n_foam):
        return _least(task, n_lead, n_foam, left)
    hint = searched(task, n_lead, n_foam)
    if left < LEAST_TIME:
        return hint, False
    found, is_proven = _least(task, n_lead, n_foam, min(left, SLICE))
    if found is None or hint is None:
        return found or hint, is_proven
    weights = [float(one[0].sum() + task.foam_mass * one[1].sum()) for one in (found, hint)]
    return (found if weights[0] <= weights[1] else hint), is_proven


def _least(
    task: Task, n_lead: int, n_foam: int, seconds: float
) -> tuple[tuple[Floats, Floats] | None, bool]:
    """Return the lightest pieces of so many that cover all, and whether that is proven.

    None with proven: so many cannot. None without: time ran out.
    """
    if n_lead + n_foam == 0:
        return (None if task.count else (np.zeros(0), np.zeros(0))), True
    if not _can(task, n_lead, n_foam):
        return None, True
    return _Programme(task, n_lead, n_foam).solved(seconds)


def _can(task: Task, n_lead: int, n_foam: int) -> bool:
    """Return whether so many pieces of each kind can pull both ways that are wanted at all."""
    is_heavy = bool((task.pulls > task.pull_band * (1 + NEAR)).any())
    is_light = bool((task.pulls < -task.pull_band * (1 + NEAR)).any())
    return (n_lead > 0 or not is_heavy) and (n_foam > 0 or not is_light)


class _Programme:
    """The programme for one number of pieces of each kind: unknowns by block, rows collected."""

    def __init__(self, task: Task, n_lead: int, n_foam: int) -> None:
        """Set up sizes, choices and sizes where they lie."""
        self.task = task
        self.kinds = [0] * n_lead + [1] * n_foam
        self.pieces, self.pockets = n_lead + n_foam, len(task.arms)
        steps = (task.lead_step, task.foam_step)
        pull = (float(task.lead.min()) * steps[0], float(task.foam.min()) * steps[1])
        self.most = [ceil(task.largest / pull[kind]) for kind in (0, 1)]  # steps in a piece
        self.step = steps
        each = task.count * self.pieces * self.pockets
        self.size = self.pieces + 2 * each
        self.rows: list[tuple[dict[int, float], float, float]] = []

    def lies(self, c: int, i: int, j: int) -> int:
        """Return the place of the unknown whether piece i lies in pocket j in combination c."""
        return self.pieces + (c * self.pieces + i) * self.pockets + j

    def there(self, c: int, i: int, j: int) -> int:
        """Return the place of the unknown how many steps of piece i lie there."""
        return self.lies(c, i, j) + self.task.count * self.pieces * self.pockets

    def _links(self) -> None:
        """Add that what lies in a pocket is the whole piece or nothing."""
        inf = float("inf")
        for c, i in product(range(self.task.count), range(self.pieces)):
            most = float(self.most[self.kinds[i]])
            pockets = range(self.pockets)
            self.rows.append(({self.lies(c, i, j): 1.0 for j in pockets}, -inf, 1.0))
            for j in pockets:
                here, is_here = self.there(c, i, j), self.lies(c, i, j)
                self.rows.append(({here: 1.0, is_here: -most}, -inf, 0.0))
            total = {self.there(c, i, j): 1.0 for j in pockets}
            self.rows.append(({**total, i: -1.0}, -inf, 0.0))
            used = {self.lies(c, i, j): -most for j in pockets}
            self.rows.append(({**total, i: -1.0, **used}, -most, inf))

    def _bands(self) -> None:
        """Add that pull and moment come within their bands."""
        task = self.task
        for c in range(task.count):
            pull: dict[int, float] = {}
            turn: dict[int, float] = {}
            for i, j in product(range(self.pieces), range(self.pockets)):
                one = float((task.lead[c], -task.foam[c])[self.kinds[i]]) * self.step[self.kinds[i]]
                pull[self.there(c, i, j)] = one
                turn[self.there(c, i, j)] = one * float(task.arms[j])
            for row, wanted, band in (
                (pull, float(task.pulls[c]), task.pull_band),
                (turn, float(task.moments[c]), task.moment_band),
            ):
                self.rows.append(({k: v / band for k, v in row.items()}, wanted / band - 1,
                                  wanted / band + 1))  # fmt: skip

    def _order(self) -> Iterator[tuple[dict[int, float], float, float]]:
        """Yield that pieces of a kind stand largest first: their names mean nothing."""
        for i in range(self.pieces - 1):
            if self.kinds[i] == self.kinds[i + 1]:
                yield {i: 1.0, i + 1: -1.0}, 0.0, float("inf")

    def solved(self, seconds: float) -> tuple[tuple[Floats, Floats] | None, bool]:
        """Return sizes of lead [kg] and foam [m³], or None, and whether that is proven.

        Args:
            seconds: Time that it may take [s].
        """
        from scipy.optimize import Bounds, LinearConstraint, milp
        from scipy.sparse import coo_array

        self._links()
        self._bands()
        self.rows += list(self._order())
        entries = [(r, k, v) for r, (row, _, _) in enumerate(self.rows) for k, v in row.items()]
        r, k, v = (np.array(column) for column in zip(*entries, strict=True))
        shape = (len(self.rows), self.size)
        low, high = np.array([(a, b) for _, a, b in self.rows]).T
        masses = (self.step[0], self.step[1] * self.task.foam_mass)
        aim = np.zeros(self.size)
        aim[: self.pieces] = [masses[kind] / masses[0] for kind in self.kinds]
        each = (self.size - self.pieces) // 2
        most = [float(self.most[kind]) for kind in self.kinds]
        tops = np.concatenate([most, np.ones(each), np.full(each, max(most))])
        floors = np.concatenate([np.ones(self.pieces), np.zeros(2 * each)])
        whole = np.concatenate([np.ones(self.pieces + each), np.zeros(each)])
        found = milp(
            aim,
            constraints=LinearConstraint(coo_array((v, (r, k)), shape=shape).tocsr(), low, high),
            bounds=Bounds(floors, tops),  # pyright: ignore[reportArgumentType] - arrays may stand there
            integrality=whole,
            options={"time_limit": seconds, "mip_rel_gap": 0.0},
        )
        if found.x is None:
            return None, found.status == 2
        steps = np.round(found.x[: self.pieces])
        lead = steps[[kind == 0 for kind in self.kinds]] * self.step[0]
        foam = steps[[kind == 1 for kind in self.kinds]] * self.step[1]
        return (lead, foam), found.status == 0
