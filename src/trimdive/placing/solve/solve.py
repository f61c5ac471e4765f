"""Solves a placing by HiGHS: one aim after another, each to proven optimality, or what hinders it.

HiGHS is a general solver of linear programmes with whole numbers by branch and bound.
"""

import os
from collections.abc import Callable, Generator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, replace
from time import monotonic

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, OptimizeResult, milp
from scipy.sparse import csr_array

from trimdive.geometry.lines.mesh import Floats
from trimdive.placing.solve.programme import PRICES, Programme

NEAR = 1e-4  # an aim this near its bound is proven: less than can be weighed or measured [-]
LITTLE = 1e-6  # of a shortfall, in its own price, that is none [-]
WORTH = 1e-3  # of her mass that is given away for fewer pieces, and so on [-]
SLICES = (1.0, 4.0, 1e9)  # times for which an aim is tried before it is told how far it is [s]
INFEASIBLE, UNTIL_TIME = 2, 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Reached:
    """How far an aim was brought."""

    aim: str
    value: float  # [kg, -, m³ or m]
    bound: float  # none can do with less [as the value]
    proven: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """An answer to a placing."""

    x: Floats  # shape (n,) [-, m or m³]
    aims: tuple[Reached, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Shortfall:
    """By how much a condition cannot be kept."""

    key: str
    value: float  # [SI, of the kind]
    kind: str  # length, angle or volume


@contextmanager
def hushed() -> Generator[None]:
    """Keep off standard output what the solver's library prints there past Python."""
    try:
        kept = os.dup(1)
    except OSError:  # there is none
        yield
        return
    try:
        with open(os.devnull, "w") as nothing:  # noqa: PTH123 - a file handle is needed
            os.dup2(nothing.fileno(), 1)
            yield
    finally:
        os.dup2(kept, 1)
        os.close(kept)


Progress = Callable[[Reached], None]


def costs(it: Programme, aim: str) -> Floats:
    """Return what each unknown adds to an aim, shape (n,)."""
    found = np.zeros(len(it.least))
    slots, ways = it.task.slots, it.task.ways
    for k, slot in enumerate(slots):
        steps, cut = it.where[f"steps {k}"], it.where[f"cut {k}"]
        stays = it.where.get(f"stays {k}")
        if aim == "mass":
            found[steps] = slot.step
            if stays is not None:
                found[stays] = slot.present
        elif aim == "pieces":
            # Cutting one anew costs a piece, and so does taking out one that is there.
            found[cut] = 0.0 if slot.path else 1.0
            if stays is not None:
                found[stays] = -1.0
        elif aim == "foam" and slot.kind == "foam":
            found[steps] = slot.step / slot.density
            if stays is not None:
                found[stays] = slot.present / slot.density
    if aim == "moves":
        for k in range(len(ways)):
            found[it.where[f"up {k}"]] = found[it.where[f"down {k}"]] = 1.0
    return found


def offset(it: Programme, aim: str) -> float:
    """Return what an aim comes to before any unknown counts."""
    return float(sum(bool(slot.path) for slot in it.task.slots)) if aim == "pieces" else 0.0


def _run(it: Programme, c: Floats, seconds: float, *, whole: bool = True) -> OptimizeResult:
    with hushed():
        return milp(
            c,
            integrality=it.whole if whole else np.zeros(len(c)),
            bounds=Bounds(it.least, it.most),  # pyright: ignore[reportArgumentType] - arrays do
            constraints=LinearConstraint(csr_array(it.matrix), it.low, it.high),  # pyright: ignore[reportArgumentType]
            options={"time_limit": max(seconds, 0.05), "mip_rel_gap": NEAR},
        )


def allowed(it: Programme, aim: str) -> float:
    """Return how much of an aim is given away for the next."""
    if aim == "mass":
        steps = [slot.step for slot in it.task.slots if slot.kind == "lead"]
        return max(WORTH * float(it.task.her.total[0]), 2 * max(steps, default=0.0))
    return {"pieces": 0.0, "foam": 1e-6, "moves": 1e-3}[aim] + 1e-9


def _held(it: Programme, c: Floats, most: float) -> Programme:
    """Return the programme with an aim held to what was reached."""
    scale = max(float(np.abs(c).max()), 1e-12)
    return replace(
        it,
        matrix=np.vstack([it.matrix, c / scale]),
        low=np.append(it.low, -np.inf),
        high=np.append(it.high, most / scale),
    )


def answer(
    it: Programme, aims: Sequence[str], seconds: float, progress: Progress | None = None
) -> Answer | None:
    """Return the best answer in the order of the aims; None where there is none.

    Args:
        it: The programme.
        aims: What counts most, first.
        seconds: Time for all of it [s].
        progress: Called with every improvement.
    """
    end = monotonic() + seconds
    reached: list[Reached] = []
    best: Floats | None = None
    for aim in aims:
        c = costs(it, aim)
        if not np.any(c):
            continue
        found, bound, proven = _aimed(it, c, end, aim, progress, best)
        if found is None:
            if best is None:
                return None
            break
        best = found
        value = float(c @ best) + offset(it, aim)
        reached.append(Reached(aim=aim, value=value, bound=bound, proven=proven))
        it = _held(it, c, float(c @ best) + allowed(it, aim))
    if best is None:  # nothing to aim at: anything that keeps the conditions
        found = _run(it, np.zeros(len(it.least)), seconds).x
        return None if found is None else Answer(x=found, aims=())
    final = [replace(r, value=float(costs(it, r.aim) @ best) + offset(it, r.aim)) for r in reached]
    return Answer(x=best, aims=tuple(final))


def _aimed(
    it: Programme, c: Floats, end: float, aim: str, progress: Progress | None, start: Floats | None
) -> tuple[Floats | None, float, bool]:
    """Return an answer with the least of one aim, what none can go below, and whether proven."""
    found, bound, proven = start, -np.inf, False
    for slice_ in SLICES:
        left = end - monotonic()
        if left <= 0:
            break
        result = _run(it, c, min(slice_, left))
        if result.x is not None:
            found = np.where(it.whole > 0, np.round(result.x), result.x)
        if result.get("mip_dual_bound") is not None:
            bound = max(bound, float(result.mip_dual_bound) + offset(it, aim))
        proven = result.status == 0
        if found is not None and progress is not None:
            value = float(c @ found) + offset(it, aim)
            progress(Reached(aim=aim, value=value, bound=min(bound, value), proven=proven))
        if proven or result.status == INFEASIBLE:
            break
    if found is not None:
        bound = min(bound, float(c @ found) + offset(it, aim))
    return found, bound, proven


def _slack(it: Programme, keys: Sequence[str]) -> Programme:
    """Return the programme with conditions that may fall short, each by an unknown at the end."""
    extra = np.zeros((len(it.matrix), len(keys)))
    for i, row in enumerate(it.rows):
        if row.key in keys:
            extra[i, keys.index(row.key)] = 1.0
    return replace(
        it,
        matrix=np.hstack([it.matrix, extra]),
        least=np.append(it.least, np.zeros(len(keys))),
        most=np.append(it.most, np.full(len(keys), np.inf)),
        whole=np.append(it.whole, np.zeros(len(keys))),
    )


def _lacking(it: Programme, keys: Sequence[str], seconds: float, *, whole: bool) -> Floats | None:
    """Return the least by which these conditions fall short together, shape (keys,); or None."""
    c = np.append(np.zeros(len(it.least)), np.ones(len(keys)))
    found = _run(_slack(it, keys), c, seconds, whole=whole).x
    return None if found is None else found[len(it.least) :]


def is_solvable(it: Programme, seconds: float) -> bool:
    """Return whether she could be placed if pieces came in any size (quickly told)."""
    return _run(it, np.zeros(len(it.least)), seconds, whole=False).x is not None


def shortfalls(it: Programme, seconds: float) -> tuple[Shortfall, ...]:
    """Return which conditions cannot be kept, and by how much.

    One that alone is in the way is told alone; else all that fall short at the least price, where
    shortfalls that weigh alike cost alike. With pieces of any size first: what even those cannot
    keep is no matter of steps.
    """
    keys = sorted({row.key for row in it.rows})
    kinds = {row.key: row.kind for row in it.rows}
    whole = is_solvable(it, seconds)
    end = monotonic() + seconds
    alone: list[Shortfall] = []
    for key in keys:
        found = _lacking(it, [key], max(end - monotonic(), 0.1), whole=whole)
        if found is not None and found[0] > LITTLE:
            value = float(found[0]) * PRICES[kinds[key]]
            alone.append(Shortfall(key=key, value=value, kind=kinds[key]))
    if alone:
        return (min(alone, key=lambda one: one.value / PRICES[one.kind]),)
    lacking = _lacking(it, keys, max(end - monotonic(), 1.0), whole=whole)
    return tuple(
        Shortfall(key=key, value=float(lack) * PRICES[kinds[key]], kind=kinds[key])
        for key, lack in zip(keys, lacking if lacking is not None else (), strict=False)
        if lack > LITTLE
    )
