"""Checks of places: what stands out of the hull, and what reaches into a space kept clear."""

from collections.abc import Iterator
from functools import partial

import numpy as np

from trimdive.fact import fact, together
from trimdive.findings.assessed import Assessed
from trimdive.findings.finding import Edit, Finding, Limit, Remedy, check, finding
from trimdive.geometry.clashes.scene import placed_at
from trimdive.geometry.lines.kept import with_mesh
from trimdive.geometry.lines.mesh import Floats, Mesh
from trimdive.geometry.solids.build import Body, numbered
from trimdive.geometry.solids.inside import depth_outside, is_inside

MUST_BE_INSIDE = ("cylinder", "lead", "foam", "tank")


def _points(her: Assessed) -> frozenset[str]:
    """Return the paths of what is told as a bare point."""
    return frozenset(path for path, piece in numbered(her.boat) if piece.shape == "point")


def _pieces(her: Assessed) -> Iterator[Body]:
    """Yield the bodies that belong inside the hull: those that begin there and do not pass out."""
    through = {f"part[{i}]" for i, part in enumerate(her.boat.parts, 1) if part.through_hull}
    points = _points(her)
    for body in her.bodies:
        if body.kind in ("region", "coat", "tub") or body.path in through:
            continue
        middle = body.pieces[0].bounds.mean(axis=0)
        within = bool(is_inside(her.hull.envelope, middle[None, :])[0])
        if body.path in points and within:
            continue  # of a bare point only the middle is known
        if body.kind in MUST_BE_INSIDE or within:
            yield body


@check("hull-least")
def no_hull(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield a boat without a hull: nothing can be told of how she will really float."""
    walls = sum(body.volume for body in her.bodies if body.kind == "region")
    if walls > limit.value:
        return
    yield finding(
        limit=limit,
        subject="boat",
        rank=90,
        stands=walls,
        what=fact("no-hull"),
        mend=fact("describe-hull"),
        form="region",
    )


@check("outside-slack")
def outside(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield what stands out of the hull though it belongs inside."""
    if not her.boat.regions:
        return
    points = _points(her)
    for body in _pieces(her):
        far, at = standing_out(body.mesh, her.hull.envelope)
        if far <= limit.value:
            continue
        yield finding(
            limit=limit,
            subject=body.name,
            rank=15,
            beyond=far,
            stands=far,
            what=fact("out-of-hull", name=body.name, far=far, x=at[0], z=at[2]),
            mend=together(
                fact("measure-it-inside", is_point=body.path in points),
                fact("enter-through-hull") if body.kind == "part" else None,
            ),
            form=f"{body.path}.through_hull" if body.kind == "part" else body.path,
        )


@with_mesh(2)
def standing_out(mesh: Mesh, envelope: Mesh) -> tuple[float, tuple[float, float, float]]:
    """Return how far the corners of a body stand out of the hull at most [m], and where."""
    out = mesh.vertices[~is_inside(envelope, mesh.vertices)]
    if not len(out):
        return 0.0, (0.0, 0.0, 0.0)
    far = depth_outside(envelope, out)
    x, y, z = out[int(far.argmax())]
    return float(far.max()), (float(x), float(y), float(z))


def _overlap(bounds: Floats, low: Floats, high: Floats) -> float:
    """Return how deep a box reaches into another [m]; negative where they are apart."""
    return float(np.minimum(bounds[1] - low, high - bounds[0]).min())


@check("clear-slack")
def clear(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield what reaches into a space that is to be kept clear."""
    through = {f"part[{i}]" for i, part in enumerate(her.boat.parts, 1) if part.through_hull}
    for space in her.boat.keep_clear:
        low = np.array([space.x_aft, space.y_starboard, space.z_bottom])
        high = np.array([space.x_fore, space.y_port, space.z_top])
        for body in her.bodies:
            if body.kind in ("region", "coat", "tub") or body.path in through or body.share < 0.5:
                continue
            deep = max(_overlap(piece.bounds, low, high) for piece in body.pieces)
            if deep <= limit.value + 1e-6:
                continue
            yield finding(
                subject=body.name,
                rank=14,
                beyond=deep,
                stands=deep,
                what=fact("into-kept-clear", name=body.name, deep=deep, space=space.name),
                limit=limit,
                mend=partial(_out_of, her, body, (low, high)),
            )


def _out_of(her: Assessed, body: Body, space: tuple[Floats, Floats]) -> Remedy:
    """Return the least move that takes a thing out of a space, where it lies clear in the hull.

    Args:
        her: The boat.
        body: The thing.
        space: Its lowest and its highest corner [m].
    """
    low, high = space
    piece = dict(numbered(her.boat)).get(body.path)
    solids = her.scene.by_path.get(body.path)
    if piece is not None and solids:
        bounds = np.array([one.bounds for one in body.pieces])
        moves: list[tuple[float, int]] = []
        for axis in (0, 2) if piece.pair else (0, 1, 2):
            moves.append((float(high[axis] - bounds[:, 0, axis].min()), axis))
            moves.append((float(low[axis] - bounds[:, 1, axis].max()), axis))
        for by, axis in sorted(moves, key=lambda move: abs(move[0])):
            shift = (by if axis == 0 else 0.0, by if axis == 1 else 0.0, by if axis == 2 else 0.0)
            is_within = is_inside(her.hull.envelope, body.mesh.vertices + shift).all()
            if not is_within or not her.scene.is_clear(placed_at(solids, shift)):
                continue
            fields = (("xyz"[axis], getattr(piece, "xyz"[axis]) + by),)
            says = fact("move-out-of", name=body.name, axis="xyz"[axis], by=by)
            return says, (Edit(action="set", path=body.path, fields=fields),)
    return fact("no-place-beside"), ()
