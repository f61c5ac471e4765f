"""Checks of room: two tanks in one place, things out of their cylinder, lead and foam in it.

What shares room counts twice, so these come before what follows from it.
"""

from collections.abc import Iterator, Sequence

from trimdive.boatfile import Part
from trimdive.bodies.build import numbered
from trimdive.clashes.found import Clash, Sort
from trimdive.clashes.moves import Move, into_bore, least_cut, least_move
from trimdive.clashes.solids import Solid
from trimdive.findings.facts import Facts
from trimdive.findings.finding import Edit, Finding, Limit, check, finding
from trimdive.findings.gate import first_clash
from trimdive.findings.works import elsewhere, has_room, moved_tank, slipped

ROOM_KEYS = ("room-tanks", "room-home", "room-bore", "room-inside", "room-wet", "room-skin")
UNDER = 0.002  # foam stays so far below the waterline [m]
BESIDE = sorted((0.002 * step for step in range(-15, 16)), key=abs)  # of its works [m]
Told = tuple[str, tuple[Edit, ...]]  # a mend in words, and as changes


def _of(facts: Facts, sort: Sort, limit: Limit) -> list[list[Clash]]:
    """Return clashes of a sort, those of one thing together, the largest first."""
    groups: dict[str, list[Clash]] = {}
    for clash in facts.scene.clashes(limit.value):
        if clash.sort == sort:
            groups.setdefault(clash.one.path, []).append(clash)
    return [sorted(some, key=lambda c: -c.volume) for some in groups.values()]


def _where(facts: Facts, clash: Clash) -> str:
    return facts.place(clash.place[0])


def _names(some: Sequence[Clash]) -> str:
    names = [clash.name for clash in some]
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


@check("room-tanks")
def tanks(facts: Facts, limit: Limit) -> Iterator[Finding]:
    """Yield tanks that lie in each other: the water in what they share counts twice."""
    for some in _of(facts, "tanks", limit):
        for clash in some:
            shared = clash.volume
            mend, edits = _tanks_apart(facts, clash)
            yield finding(
                limit=limit, subject=f"{clash.one.name} and {clash.name}", rank=96, beyond=shared,
                what=f"{clash.one.name} and {clash.name} share {facts.volume(shared)} of room "
                f"{_where(facts, clash)}: water in it counts twice",
                mend=mend, edits=edits,
            )  # fmt: skip


def _number(path: str) -> int:
    return int(path.partition("[")[2].removesuffix("]")) - 1


def _tanks_apart(facts: Facts, clash: Clash) -> Told:
    """Return the move that parts two tanks: of the one off its works first, then the least."""
    pair = [_number(clash.one.path), _number(clash.path)]
    for k in pair:
        if home := elsewhere(facts, k):
            return _home(facts, k, *home)
    back = [(k, slipped(facts, k)) for k in pair]
    chosen = next(((k, by) for k, by in back if by and has_room(facts, k, by)), None)
    if chosen is None:
        moves = [(k, _least(facts, f"tank[{k + 1}]", along_only=True)) for k in pair]
        found = [(k, move.shift[0]) for k, move in moves if move]
        found = [(k, by) for k, by in found if has_room(facts, k, by)]
        chosen = min(found, key=lambda one: abs(one[1]), default=None)
    if chosen is None:
        return "Measure both again: neither has room to move beside the other.", ()
    k, by = chosen
    edits, carried = moved_tank(facts, k, by)
    name = facts.boat.tanks[k].name
    with_works = " with its works" if carried else ""
    return f"Move {name} {_along(facts, by)}{with_works}.", tuple(edits)


def _home(facts: Facts, k: int, cylinder: str, x: float) -> Told:
    """Return what puts a tank into the cylinder in which its works lie, where it is clear there."""
    tries = [_at_home(facts, k, cylinder, x + off) for off in BESIDE]
    return next((one for one in tries if first_clash(facts, one[1]) is None), tries[0])


def _at_home(facts: Facts, k: int, cylinder: str, x: float) -> Told:
    tank = facts.boat.tanks[k]
    axes = {vessel.name: (vessel.y, vessel.z) for vessel in facts.boat.cylinders}
    field, value = ("x", x)
    if tank.kind == "piston":
        field, value = "water_end", tank.water_end + x - tank.x
    fields: list[tuple[str, object]] = [("inside", cylinder), (field, value)]
    if (tank.y, tank.z) == axes[tank.inside or ""] != axes[cylinder]:
        fields += zip("yz", axes[cylinder], strict=True)
    mend = (
        f"{tank.name.capitalize()} works lie in {cylinder}: "
        f'enter inside = "{cylinder}" and {facts.place(x)} for {tank.name}.'
    )
    return mend, (Edit(action="set", path=f"tank[{k + 1}]", fields=tuple(fields)),)


def _least(facts: Facts, path: str, *, along_only: bool = False) -> Move | None:
    n, d = facts.waterline
    solids = facts.scene.by_path[path]
    surface = float((d - n[0] * solids[0].shape.place[0]) / n[2])
    here = max(solid.shape.spans[2][1] for solid in solids)
    is_under = solids[0].kind == "foam" and here <= surface
    return least_move(
        facts.scene, path, length=facts.floater.length,
        top=max(surface - UNDER, here) if is_under else float("inf"), along_only=along_only,
    )  # fmt: skip


def _along(facts: Facts, by: float) -> str:
    return f"{facts.length(abs(by))} {'forward' if by > 0 else 'aft'}"


def _words(facts: Facts, move: Move, *, pair: bool) -> str:
    """Return a move in words."""
    x, y, z = move.shift
    told = [_along(facts, x)] if abs(x) > 5e-5 else []
    if abs(y) > 5e-5 and pair:
        told.append(f"{facts.length(abs(y))} {'outward' if y > 0 else 'inward'} on each side")
    elif abs(y) > 5e-5:
        told.append(f"{facts.length(abs(y))} to {'port' if y > 0 else 'starboard'}")
    if abs(z) > 5e-5:
        told.append(f"{facts.length(abs(z))} {'up' if z > 0 else 'down'}")
    return " and ".join(told)


def _piece(facts: Facts, path: str) -> Part:
    return dict(numbered(facts.boat))[path]


def _moved(facts: Facts, move: Move) -> Told:
    """Return a move of a part, lead or foam in words and as changes."""
    piece = _piece(facts, move.path)
    fields = tuple(
        (axis, getattr(piece, axis) + by)
        for axis, by in zip("xyz", move.shift, strict=True)
        if abs(by) > 5e-5
    )
    words = _words(facts, move, pair=bool(piece.pair))
    return f"Move {piece.name} {words}.", (Edit(action="set", path=move.path, fields=fields),)


SIDES = {"length": "long", "breadth": "broad", "height": "high"}


def _cut(facts: Facts, move: Move) -> Told:
    """Return a cut of lead or foam in words and as changes, its mass and volume with it."""
    piece, size = _piece(facts, move.path), move.size
    assert size is not None
    share = 1.0
    fields: list[tuple[str, object]] = []
    words = ""
    for k, (field, adjective) in enumerate(SIDES.items()):
        was = getattr(piece, field)
        if abs(was - size[k]) > 1e-6:
            share *= size[k] / was
            fields.append((field, size[k]))
            words = f"{facts.length(size[k])} {adjective} (now {facts.length(was)})"
            axis = "xyz"[k]
            fields.append((axis, getattr(piece, axis) + move.shift[k]))
    fields += [
        (field, getattr(piece, field) * share)
        for field in ("mass", "volume", "hung")
        if getattr(piece, field) is not None
    ]
    edit = Edit(action="set", path=move.path, fields=(*fields, ("known", "worked out")))
    return f"Cut {piece.name} to {words}.", (edit,)


def _apart(facts: Facts, clash: Clash) -> Told:
    """Return what clears the thing that is moved most easily: a move, else a cut."""
    solid = clash.one
    if solid.kind in ("tank", "cylinder"):
        return _apart_large(facts, clash)
    if move := _least(facts, solid.path):
        return _moved(facts, move)
    if solid.kind in ("lead", "foam") and (cut := least_cut(facts.scene, solid.path)):
        return _cut(facts, cut)
    return f"Make {solid.name} smaller, or measure both again.", ()


def _apart_large(facts: Facts, clash: Clash) -> Told:
    if clash.one.kind == "tank":
        k = _number(clash.one.path)
        move = _least(facts, clash.one.path, along_only=True)
        if move and has_room(facts, k, move.shift[0]):
            edits, _ = moved_tank(facts, k, move.shift[0])
            return f"Move {clash.one.name} {_along(facts, move.shift[0])}.", tuple(edits)
    return "Measure both again.", ()


@check("room-home")
def lost(facts: Facts, limit: Limit) -> Iterator[Finding]:
    """Yield what is entered as inside a cylinder and lies outside it."""
    for some in _of(facts, "home", limit):
        clash = some[0]
        mend, edits = _back_home(facts, clash)
        yield finding(
            limit=limit, subject=clash.one.name, rank=94, beyond=clash.reach,
            what=f"{clash.one.name} is entered as inside {clash.name} and lies "
            f"{facts.length(clash.reach)} outside it ({_where(facts, clash)})",
            mend=mend, edits=edits,
        )  # fmt: skip


def _back_home(facts: Facts, clash: Clash) -> Told:
    """Return the cylinder in which a thing does lie, else the nearest place in its own."""
    solids = facts.scene.by_path[clash.one.path]
    for bore in facts.scene.aboard.bores:
        if bore.name != clash.one.home and _fits(facts, solids, bore.name):
            edit = Edit(action="set", path=clash.one.path, fields=(("inside", bore.name),))
            return f"It lies in {bore.name}: enter that as its cylinder.", (edit,)
    move = into_bore(facts.scene, clash.one.path)
    if move is None:
        return f"Measure its place again: {clash.name} has no room for it.", ()
    words, edits = _moved(facts, move)
    at = facts.place(clash.one.shape.place[0] + move.shift[0])
    return f"{words.removesuffix('.')}: {at} it lies inside.", edits


def _fits(facts: Facts, solids: Sequence[Solid], home: str) -> bool:
    """Return whether things lie clear in another cylinder as they are."""
    from dataclasses import replace

    return facts.scene.is_clear([replace(solid, home=home) for solid in solids])


@check("room-bore")
def through(facts: Facts, limit: Limit) -> Iterator[Finding]:
    """Yield what reaches through the wall or a cap of the cylinder in which it lies."""
    for some in _of(facts, "bore", limit):
        clash = some[0]
        yield finding(
            limit=limit, subject=clash.one.name, rank=92, beyond=clash.reach,
            what=f"{clash.one.name} reaches {facts.length(clash.reach)} out of the room inside "
            f"{clash.name} ({facts.volume(clash.volume)} of it, {_where(facts, clash)})",
            mend=(told := _within(facts, clash))[0], edits=told[1],
        )  # fmt: skip


def _within(facts: Facts, clash: Clash) -> Told:
    """Return the nearest place within its cylinder of what reaches out of it."""
    if clash.one.kind == "tank":
        return _apart_large(facts, clash)
    move = _least(facts, clash.one.path) or into_bore(facts.scene, clash.one.path)
    if move is None:
        return "Make it smaller, or measure it and the cylinder's bore and caps again.", ()
    return _moved(facts, move)


@check("room-inside")
def inside(facts: Facts, limit: Limit) -> Iterator[Finding]:
    """Yield two things in a cylinder that cannot both lie where they are entered."""
    for some in _of(facts, "inside", limit):
        clash = some[0]
        mend, edits = _apart(facts, clash)
        yield finding(
            limit=limit, subject=clash.one.name, rank=86, beyond=sum(c.volume for c in some),
            what=f"{clash.one.name} and {_names(some)} share "
            f"{facts.volume(sum(c.volume for c in some))} of room in {clash.one.home} "
            f"({_where(facts, clash)}): one must go elsewhere",
            mend=mend, edits=edits,
        )  # fmt: skip


@check("room-wet")
def wet(facts: Facts, limit: Limit) -> Iterator[Finding]:
    """Yield what lies in a cylinder, or in another thing, outside all cylinders."""
    for some in _of(facts, "wet", limit):
        clash, shared = some[0], sum(c.volume for c in some)
        home = _told_outside(facts, clash)
        mend, edits = home or _apart(facts, clash)
        yield finding(
            limit=limit, subject=clash.one.name, rank=84, beyond=shared,
            what=f"{clash.one.name} and {_names(some)} share {facts.volume(shared)} of room "
            f"{_where(facts, clash)}: it counts twice",
            mend=mend, edits=edits,
        )  # fmt: skip


def _told_outside(facts: Facts, clash: Clash) -> Told | None:
    """Return the cylinder in which a thing wholly lies that is entered as outside all of them."""
    solids = facts.scene.by_path[clash.one.path]
    is_vessel = clash.path.startswith("cylinder")
    if not is_vessel or clash.one.kind == "foam" or not _fits(facts, solids, clash.name):
        return None
    edit = Edit(action="set", path=clash.one.path, fields=(("inside", clash.name),))
    return f'It lies inside {clash.name}: enter inside = "{clash.name}".', (edit,)


@check("room-skin")
def skin(facts: Facts, limit: Limit) -> Iterator[Finding]:
    """Yield what reaches into the skin of the hull from inside."""
    for some in _of(facts, "skin", limit):
        shared = sum(clash.volume for clash in some)
        mend, edits = _apart(facts, some[0])
        yield finding(
            limit=limit, subject=some[0].one.name, rank=13, beyond=shared, weight="look at",
            what=f"{some[0].one.name} reaches into the skin of {_names(some)}: "
            f"{facts.volume(shared)} {_where(facts, some[0])}",
            mend=mend, edits=edits,
        )  # fmt: skip
