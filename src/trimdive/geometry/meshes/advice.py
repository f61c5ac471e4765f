"""Which repairs help a mesh: each is tried before it is advised, after those advised before it."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import inf

from trimdive.errors import GeometryError
from trimdive.fact import fact, together
from trimdive.geometry.lines.mesh import Mesh
from trimdive.geometry.meshes.bodies import bodies_of
from trimdive.geometry.meshes.edges import edges_of
from trimdive.geometry.meshes.repairs import mended
from trimdive.geometry.meshes.report import MeshReport, report
from trimdive.geometry.meshes.troubles import Trouble, troubles
from trimdive.geometry.meshes.union import overlap

CANDIDATES = {  # what may help, in the order in which it is tried
    "unwelded": ("weld",),
    "doubled": ("drop", "union"),
    "flat": ("drop",),
    "loose": ("drop",),
    "open": ("weld", "drop", "cap"),
    "turned": ("flip", "drop"),
    "inside-out": ("flip",),
    "overlap": ("union",),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Tried:
    """What came of trying repairs on a mesh, for one trouble."""

    repair: str  # what helps; "" where nothing does
    failed: tuple[str, ...]  # what was tried before it, and does not


def tried(mesh: Mesh, found: MeshReport, name: str) -> dict[str, Tried]:
    """Return what helps each trouble of a mesh, by the trouble's key.

    Args:
        mesh: As it is, after what was asked for.
        found: What stands in it.
        name: What to call it.
    """
    keys = [one.key for one in troubles(found)]
    now = {key: _measure(found, key) for key in keys}
    by: dict[str, str] = {}
    answers: dict[str, Tried] = {}
    taken: list[str] = []
    for key in keys:
        if key in by:
            answers[key] = Tried(repair=by[key], failed=())
            continue
        failed: list[str] = []
        for repair in CANDIDATES.get(key, ()):
            after = _after(mesh, (*taken, repair), name, keys)
            if after is None or after[key] >= now[key] or _is_worse(after, now):
                failed.append(repair)
                continue
            taken.append(repair)
            by |= {other: repair for other in keys if not after[other] and other not in by}
            now = after
            answers[key] = Tried(repair=repair, failed=())
            break
        else:
            answers[key] = Tried(repair="", failed=tuple(failed))
    return answers


def _measure(found: MeshReport, key: str) -> float:
    """Return how bad a trouble is, by its own count."""
    counts = {
        "unwelded": found.near_points,
        "doubled": found.doubled,
        "flat": found.hanging,
        "loose": found.loose,
        "open": found.open_edges,
        "turned": found.turned_edges,
        "inside-out": found.inside_out,
        "overlap": abs(found.overlap) if found.is_overlap_known else inf,
    }
    return float(counts.get(key, 0))


def _after(
    mesh: Mesh, repairs: tuple[str, ...], name: str, keys: Sequence[str]
) -> dict[str, float] | None:
    """Return how bad each trouble is after repairs; None where they cannot be done."""
    try:
        left = mended(mesh, repairs, name).mesh
    except GeometryError:
        return None
    after = report(left, name, is_deep=False)
    measures = {key: _measure(after, key) for key in (*keys, "open", "turned")}
    if "overlap" in keys:
        common = overlap(left, bodies_of(left, edges_of(left)), name) if after.is_closed else None
        measures["overlap"] = inf if common is None else abs(common)
    return measures


def _is_worse(after: dict[str, float], now: dict[str, float]) -> bool:
    """Return whether edges are open or turned that were not."""
    return any(after[key] > now.get(key, 0.0) for key in ("open", "turned"))


def advised(
    found: MeshReport, answers: dict[str, Tried], done: Sequence[str]
) -> tuple[Trouble, ...]:
    """Return the troubles of a mesh, each with a repair that was tried and helps, or a dead end.

    Args:
        found: What stands in the mesh.
        answers: What came of trying.
        done: Repairs that were done on it already.
    """
    return tuple(_advised(one, answers.get(one.key), done) for one in troubles(found))


def _advised(trouble: Trouble, answer: Tried | None, done: Sequence[str]) -> Trouble:
    if answer is None:
        return trouble
    at_origin = fact("mend-where-drawn")
    if answer.repair in done:  # it helps only after the others, and comes before them
        mend = together(fact("repair-done-in-vain", repair=answer.repair), at_origin)
        return replace(trouble, repair="", mend=mend)
    if answer.repair and answer.repair == trouble.repair:
        return trouble
    if answer.repair:
        mend = fact("mend-by-repair", repair=answer.repair)
        return replace(trouble, repair=answer.repair, mend=mend)
    failed = tuple(one for one in answer.failed if one == trouble.repair or one in done)
    if not failed:
        return replace(trouble, repair="", mend=at_origin) if trouble.repair else trouble
    mend = together(fact("repairs-tried-in-vain", repairs=failed), at_origin)
    return replace(trouble, repair="", mend=mend)
