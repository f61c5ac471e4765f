"""The ways in which what shares room may be cleared: moved, cut, entered elsewhere, taken out.

Each is tried for room here; which of them is offered is weighed in ``ways``.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Literal

from trimdive.boatfile import Part
from trimdive.fact import fact
from trimdive.findings.assessed import Assessed
from trimdive.findings.finding import Edit
from trimdive.findings.ways import Scales, Way, far, scales
from trimdive.geometry.clashes.moves import WORSE, Move, clear_moves, into_bore, least_cut
from trimdive.geometry.clashes.scene import placed_at
from trimdive.geometry.clashes.solids import Solid
from trimdive.geometry.solids.build import numbered

UNDER = 0.002  # foam stays so far below the waterline [m]
FINE = 0.001  # steps up and down in which a place is looked for [m]
UP = 0.04  # so far up and down at the most [m]
SHORT = 0.06  # a piece that is clear so near is not cut [m]
NEAR = 0.005  # a place so near to the one that would balance her does [m]
SIDES = {"length": "x", "breadth": "y", "height": "z"}
Why = Literal["", "level", "nearest"]  # a place is chosen: "" where none is named
# How unwelcome a mend is by its kind, as a logarithm [-]: common practice, no source.
BALANCED, INTO, CUT, OUT = 0.1, 0.3, 1.0, 1.5


def piece_of(her: Assessed, path: str) -> Part:
    """Return a part, a piece of lead or of foam."""
    return dict(numbered(her.boat))[path]


def fields_of(piece: Part, move: Move) -> tuple[tuple[str, object], ...]:
    """Return the fields that a move of a piece changes."""
    return tuple(
        (axis, getattr(piece, axis) + by)
        for axis, by in zip("xyz", move.shift, strict=True)
        if abs(by) > 5e-5
    )


def moved(
    her: Assessed, move: Move, *, to: float | None = None, why: Why = "", cost: float = 0.0
) -> Way:
    """Return a move of a part, lead or foam, and its changes.

    Args:
        her: The boat.
        move: How far.
        to: Its place then, where that is to be said [m].
        why: That place.
        cost: What makes it unwelcome besides its length [-].
    """
    piece = piece_of(her, move.path)
    says = fact(
        "move-piece", name=piece.name, shift=move.shift, is_pair=bool(piece.pair), to=to, why=why
    )
    edit = Edit(action="set", path=move.path, fields=fields_of(piece, move))
    return Way(says=says, edits=(edit,), cost=far(move.far) + cost)


def clearing_ways(her: Assessed, path: str, *, is_skin: bool = False) -> Iterator[Way]:
    """Yield what clears a part, lead or foam where it is entered now: moves, a cut, none of it.

    Args:
        her: The boat.
        path: Of the thing.
        is_skin: It only reaches into the skin: it is not far from where it belongs.
    """
    piece, worse = piece_of(her, path), 1.0 if is_skin else WORSE
    length, top = her.floater.length, _top(her, path)
    moves = clear_moves(her.scene, path, length=length, top=top, worse=worse)
    yield from (moved(her, move) for move in moves)
    is_near = any(move.far <= SHORT for move in moves)
    if piece.kind in ("lead", "foam") and not is_near and (cut := least_cut(her.scene, path)):
        yield _cut(her, cut)
    if is_skin:
        return
    yield from _level(her, path, scales(her))
    if piece.kind in ("lead", "foam"):
        says = fact("take-piece-out", name=piece.name)
        yield Way(says=says, edits=(Edit(action="remove", path=path, fields=()),), cost=OUT)


def _top(her: Assessed, path: str) -> float:
    """Return how high a thing may come by a move [m]: foam stays below the waterline."""
    n, d = her.waterline
    solids = her.scene.by_path[path]
    surface = float((d - n[0] * solids[0].shape.place[0]) / n[2])
    here = max(solid.shape.spans[2][1] for solid in solids)
    is_under = solids[0].kind == "foam" and here <= surface
    return max(surface - UNDER, here) if is_under else float("inf")


def _level(her: Assessed, path: str, on: Scales) -> Iterator[Way]:
    """Yield the move along her, and up or down, to where a piece balances her."""
    x = on.level((), path)
    if x is None:
        return
    solids, by = her.scene.by_path[path], x - piece_of(her, path).x
    steps = sorted((FINE * k for k in range(-int(UP / FINE), int(UP / FINE) + 1)), key=abs)
    for up in steps:
        move = Move(path=path, shift=(by, 0.0, up))
        if her.scene.is_clear(placed_at(solids, move.shift)):
            yield moved(her, move, why="level", cost=BALANCED)
            return


def cut_ways(her: Assessed, path: str) -> Iterator[Way]:
    """Yield the least cut that clears lead or foam, where one does."""
    if cut := least_cut(her.scene, path):
        yield _cut(her, cut)


def _cut(her: Assessed, move: Move) -> Way:
    """Return a cut of lead or foam, and its changes, its mass and volume with it."""
    piece, size = piece_of(her, move.path), move.size
    assert size is not None
    share = 1.0
    fields: list[tuple[str, object]] = []
    cuts: list[tuple[str, float, float]] = []
    for k, (field, axis) in enumerate(SIDES.items()):
        was = getattr(piece, field)
        if abs(was - size[k]) > 1e-6:
            share *= size[k] / was
            fields.append((field, size[k]))
            cuts.append((field, size[k], was))
            fields.append((axis, getattr(piece, axis) + move.shift[k]))
    fields += [
        (field, getattr(piece, field) * share)
        for field in ("mass", "volume", "hung")
        if getattr(piece, field) is not None
    ]
    edit = Edit(action="set", path=move.path, fields=(*fields, ("known", "worked out")))
    says = fact("cut-piece", name=piece.name, sides=tuple(cuts))
    return Way(says=says, edits=(edit,), cost=CUT)


def home_ways(her: Assessed, path: str) -> Iterator[Way]:
    """Yield the cylinders into which a part or lead may belong that is not entered in one.

    As it lies, at the nearest place inside, and where it balances her.
    """
    piece, solids = piece_of(her, path), her.scene.by_path[path]
    if piece.kind == "foam":
        return
    on = scales(her)
    for bore in her.scene.aboard.bores:
        if bore.name == piece.inside:
            continue
        inside = (("inside", bore.name),)
        if fits(her, solids, bore.name):
            edit = Edit(action="set", path=path, fields=inside)
            says = fact("lies-inside", name=piece.name, cylinder=bore.name)
            yield Way(says=says, edits=(edit,))
            continue
        yield from _into(her, path, on, bore.name)


def own_ways(her: Assessed, path: str) -> Iterator[Way]:
    """Yield the places within its own cylinder of what is entered as inside it."""
    home = piece_of(her, path).inside
    if home:
        yield from _into(her, path, scales(her), home)


def _into(her: Assessed, path: str, on: Scales, home: str) -> Iterator[Way]:
    """Yield the place in a cylinder where a piece balances her, and the nearest in it."""
    piece = piece_of(her, path)
    is_own = piece.inside == home
    inside = () if is_own else (("inside", home),)
    at = on.level((Edit(action="set", path=path, fields=inside),), path)
    level = into_bore(her.scene, path, home, at) if at is not None else None
    if level and at is not None and abs(piece.x + level.shift[0] - at) <= NEAR:
        yield _placed(her, level, home, "level", BALANCED)
    if nearest := into_bore(her.scene, path, home):
        yield _placed(her, nearest, home, "nearest", INTO)


def _placed(her: Assessed, move: Move, home: str, why: Why, cost: float) -> Way:
    """Return a place in a cylinder, and its changes."""
    piece = piece_of(her, move.path)
    x = piece.x + move.shift[0]
    if piece.inside == home:
        return moved(her, move, to=x, why=why, cost=cost)
    fields = (("inside", home), *fields_of(piece, move))
    says = fact("enter-inside-at", name=piece.name, cylinder=home, x=x, why=why)
    edit = Edit(action="set", path=move.path, fields=fields)
    return Way(says=says, edits=(edit,), cost=far(move.far) + cost)


def fits(her: Assessed, solids: Sequence[Solid], home: str) -> bool:
    """Return whether things lie clear in another cylinder as they are."""
    return her.scene.is_clear([replace(solid, home=home) for solid in solids])
