"""Placing as a mixed-integer linear programme.

Unknown are how many steps of lead or foam lie in each slot, which of today's pieces stay as they
are, how far things slide, and the water in the tanks at which she is neutral dived.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from trimdive.geometry.lines.mesh import Floats
from trimdive.placing.solve.lanes import Pass, Slide
from trimdive.placing.solve.rows import Row, Wishes, conditions, neutral
from trimdive.placing.solve.sides import Moves, side_rows, sides
from trimdive.placing.solve.slots import Slot
from trimdive.placing.solve.sums import Sums

GRAM = 1e-3  # unit in which neutrality is held [kg]
PRICES = {"length": 1e-3, "angle": 0.005, "volume": 1e-5}  # shortfalls that weigh alike [SI]


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """What is to be placed, and within which bounds."""

    her: Sums
    wishes: Wishes
    slots: tuple[Slot, ...]
    ways: tuple[Slide, ...]
    apart: tuple[Pass, ...]  # what must not pass through each other
    walls: tuple[tuple[int, int, float, float], ...]  # lane, axis and range [m] inside a cylinder
    room: float  # whole room of the tanks, of which filling is told [m³]


@dataclass(frozen=True, slots=True, kw_only=True)
class Programme:
    """What every answer must keep: low <= A x <= high, least <= x <= most, some x whole."""

    task: Task
    matrix: Floats  # shape (rows, n), the conditions first [of their prices]
    low: Floats  # shape (rows,) [as the matrix]
    high: Floats  # shape (rows,) [as the matrix]
    least: Floats  # of each unknown, shape (n,) [-, m or m³]
    most: Floats  # shape (n,) [-, m or m³]
    whole: Floats  # 1 where an unknown is an integer, shape (n,) [-]
    adds: Floats  # what each unknown adds to the sums, shape (20, n) [kg, kg m, m³, m⁴]
    base: Floats  # sums with none of it, shape (20,) [kg, kg m, m³, m⁴]
    rows: tuple[Row, ...]  # the conditions
    where: dict[str, int]  # place of each unknown by its name

    def sums(self, x: Floats) -> Floats:
        """Return the sums of an answer, shape (20,)."""
        return self.base + self.adds @ x


class _Builder:
    """Collects unknowns and rows."""

    def __init__(self, size: int) -> None:
        self.where: dict[str, int] = {}
        self.bounds: list[tuple[float, float, int]] = []
        self.adds: list[Floats] = []
        self.rows: list[tuple[dict[int, float], float, float]] = []
        self.nothing = np.zeros(size)

    def unknown(
        self, name: str, least: float, most: float, *, whole: bool, adds: Floats | None = None
    ) -> int:
        """Enter an unknown and return its place."""
        place = self.where[name] = len(self.bounds)
        self.bounds.append((least, most, int(whole)))
        self.adds.append(self.nothing if adds is None else adds)
        return place

    def row(self, entries: dict[int, float], low: float, high: float) -> None:
        """Enter a row."""
        self.rows.append((entries, low, high))

    def matrix(self) -> Floats:
        """Return the rows as a matrix."""
        found = np.zeros((len(self.rows), len(self.bounds)))
        for i, (entries, _, _) in enumerate(self.rows):
            for place, value in entries.items():
                found[i, place] = value
        return found


def _pieces(build: _Builder, slots: Sequence[Slot]) -> None:
    """Enter the steps of each slot, whether a piece is cut for it, and whether one stays."""
    for k, slot in enumerate(slots):
        fits = slot.most >= slot.least
        steps = build.unknown(f"steps {k}", 0, slot.most * fits, whole=True, adds=slot.each)
        cut = build.unknown(f"cut {k}", 0, int(fits), whole=True)
        build.row({steps: 1.0, cut: -float(slot.most)}, -np.inf, 0.0)
        build.row({steps: 1.0, cut: -float(slot.least)}, 0.0, np.inf)
        if slot.path:
            stays = build.unknown(f"stays {k}", 0, 1, whole=True, adds=slot.kept)
            build.row({stays: 1.0, cut: 1.0}, -np.inf, 1.0)


def _slides(build: _Builder, task: Task) -> None:
    """Enter how far each thing slides, and what keeps it clear of others."""
    moves: dict[tuple[int, int], list[tuple[int, float]]] = {}
    for k, way in enumerate(task.ways):
        up = build.unknown(f"up {k}", 0.0, max(way.high, 0.0), whole=False, adds=way.each)
        down = build.unknown(f"down {k}", 0.0, max(-way.low, 0.0), whole=False, adds=-way.each)
        moves[way.lane, way.axis] = [(up, 1.0), (down, -1.0)]
        build.row({up: 1.0, down: -1.0}, way.low, way.high)
    for lane, axis, low, high in task.walls:
        if (lane, axis) in moves:
            build.row(dict(moves[lane, axis]), low, high)
    for i, pair in enumerate(task.apart):
        _kept_apart(build, task, i, moves, pair)


def _kept_apart(build: _Builder, task: Task, number: int, moves: Moves, pair: Pass) -> None:
    clear = sides(pair, task.ways)
    if not clear:
        return
    places = [build.unknown(f"side {number} {j}", 0, 1, whole=True) for j in range(len(clear))]
    for entries, low, high in side_rows(clear, pair, moves, places):
        build.row(entries, low, high)


def programme(task: Task) -> Programme:
    """Return the programme of a task."""
    her, wishes = task.her, task.wishes
    build = _Builder(len(her.total))
    low, high = (share * task.room for share in wishes.filling)
    low, high = max(her.least, low) - her.water, min(her.most, high) - her.water
    build.unknown("water", min(low, high), high, whole=False, adds=her.per_water)
    _pieces(build, task.slots)
    _slides(build, task)
    adds = np.stack(build.adds, axis=1)
    base = her.total - sum((s.kept for s in task.slots if s.path), build.nothing)
    rows = tuple(conditions(her, wishes))
    level = neutral(her)
    units = np.array([row.unit * PRICES[row.kind] for row in rows] + [GRAM])
    a = np.stack([*(row.a for row in rows), level.a]) / units[:, None]
    fixed = a @ base + np.array([*(row.constant for row in rows), level.constant]) / units
    most = np.full(len(rows) + 1, np.inf)
    most[-1] = -fixed[-1]
    return Programme(
        task=task,
        matrix=np.vstack([a @ adds, build.matrix()]),
        low=np.concatenate([-fixed, [low for _, low, _ in build.rows]]),
        high=np.concatenate([most, [high for _, _, high in build.rows]]),
        least=np.array([bound[0] for bound in build.bounds], float),
        most=np.array([bound[1] for bound in build.bounds], float),
        whole=np.array([bound[2] for bound in build.bounds], float),
        adds=adds,
        base=base,
        rows=rows,
        where=build.where,
    )
