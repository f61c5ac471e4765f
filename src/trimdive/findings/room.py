"""Checks of room: two tanks in one place, things out of their cylinder, lead and foam in it.

What shares room counts twice, so these come before what follows from it.
"""

from collections.abc import Iterator, Sequence
from functools import partial

from trimdive.boatfile.ref import ref
from trimdive.fact import Fact, fact
from trimdive.findings.assessed import Assessed
from trimdive.findings.finding import Finding, Limit, Mend, Remedy, check, finding
from trimdive.findings.room_guessed import MANY, around, guessed
from trimdive.findings.room_ways import clearing_ways, home_ways, own_ways
from trimdive.findings.tank_ways import tank_ways
from trimdive.findings.ways import Way, best, scales
from trimdive.geometry.clashes.found import SLACK, Clash, Sort, depth_in_skin

ROOM_KEYS = (
    "room-tanks",
    "room-home",
    "room-bore",
    "room-inside",
    "room-wet",
    "room-skin",
    "room-moving",
)
TOO_SMALL = 5e-8  # less room shared with a skin is within how a skin is made [m³]


def _of(her: Assessed, sort: Sort, limit: Limit) -> list[list[Clash]]:
    """Return clashes of a sort, those of one thing together, the largest first."""
    groups: dict[str, list[Clash]] = {}
    for clash in her.scene.clashes(limit.value):
        if clash.sort == sort:
            groups.setdefault(clash.one.path, []).append(clash)
    return [sorted(some, key=lambda c: -c.volume) for some in groups.values()]


def _deepest(some: Sequence[Clash]) -> float:
    """Return how far things reach into each other at the most [m]."""
    return max(clash.reach for clash in some)


def _deepest_in_skin(her: Assessed, some: Sequence[Clash], slack: float) -> float:
    """Return how far a thing reaches into skins at the most [m]; it may within a slack [m]."""
    skins = {path: mesh for _, path, mesh in her.scene.skins}
    return max(depth_in_skin(clash.one.shape, skins[clash.path], slack) for clash in some)


def _names(some: Sequence[Clash]) -> tuple[str, ...]:
    return tuple(clash.name for clash in some)


@check("room-tanks")
def tanks(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield tanks that lie in each other: the water in what they share counts twice."""
    for some in _of(her, "tanks", limit):
        for clash in some:
            shared = clash.volume
            yield finding(
                limit=limit, subject=f"{clash.one.name} and {clash.name}", rank=96, beyond=shared,
                stands=clash.reach,
                what=fact("tanks-share-room", names=(clash.one.name, clash.name), shared=shared,
                          x=clash.place[0]),
                mend=partial(_tanks_apart, her, clash),
            )  # fmt: skip


def _tanks_apart(her: Assessed, clash: Clash) -> Remedy:
    """Return what parts two tanks: either of them to its works, along her, or out."""
    on = scales(her)
    pair = [ref(clash.one.path).order, ref(clash.path).order]
    found = best(on, (way for k in pair for way in tank_ways(her, k)))
    return _remedy(found, fact("no-room-beside"))


def _remedy(way: Way | None, instead: Fact) -> Remedy:
    return (way.says, way.edits) if way else (instead, ())


def _goes_along(her: Assessed, some: Sequence[Clash]) -> bool:
    """Return whether none of some clashes is left once what hides other faults is put right."""
    left = {(c.sort, c.one.name, c.name) for c in her.plain.scene.clashes(SLACK)}
    return her.cleared is not None and not any((c.sort, c.one.name, c.name) in left for c in some)


def _apart(her: Assessed, some: Sequence[Clash], *, is_skin: bool = False) -> Remedy:
    """Return what clears the thing that is moved most easily, or the tank that came upon it."""
    if _goes_along(her, some):
        return fact("leave-it"), ()
    solid, on = some[0].one, scales(her)
    tanks = {ref(one.path).order for one in some if ref(one.path).table == "tank"}
    if solid.kind == "tank":
        tanks = {ref(solid.path).order}
    ways = [way for k in sorted(tanks) for way in tank_ways(her, k)]
    if solid.kind in ("part", "lead", "foam"):
        if any(ref(one.path).table == "cylinder" for one in some) and not is_skin:
            ways += home_ways(her, solid.path)
        ways += clearing_ways(her, solid.path, is_skin=is_skin)
    instead = fact("make-smaller", name=solid.name) if ways else fact("measure-both")
    return _remedy(best(on, ways), instead)


@check("room-home")
def lost(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield what is entered as inside a cylinder and lies outside it."""
    for some in _of(her, "home", limit):
        clash = some[0]
        yield finding(
            limit=limit, subject=clash.one.name, rank=94, beyond=clash.reach,
            stands=clash.reach,
            what=fact("outside-its-cylinder", name=clash.one.name, cylinder=clash.name,
                      far=clash.reach, x=clash.place[0]),
            mend=partial(_back_home, her, clash),
        )  # fmt: skip


def _back_home(her: Assessed, clash: Clash) -> Remedy:
    """Return the cylinder in which a thing does lie, else a place in its own."""
    path = clash.one.path
    ways = [*home_ways(her, path), *own_ways(her, path)]
    return _remedy(best(scales(her), ways), fact("no-room-in-cylinder", cylinder=clash.name))


@check("room-bore")
def through(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield what reaches through the wall or a cap of the cylinder in which it lies."""
    for some in _of(her, "bore", limit):
        clash = some[0]
        yield finding(
            limit=limit, subject=clash.one.name, rank=92, beyond=clash.reach,
            stands=clash.reach,
            what=fact("out-of-its-bore", name=clash.one.name, cylinder=clash.name,
                      far=clash.reach, volume=clash.volume, x=clash.place[0]),
            mend=partial(_within, her, clash),
        )  # fmt: skip


def _within(her: Assessed, clash: Clash) -> Remedy:
    """Return what brings into its cylinder what reaches out of it."""
    if clash.one.kind == "tank":
        return _apart(her, [clash])
    ways = [*own_ways(her, clash.one.path), *clearing_ways(her, clash.one.path)]
    return _remedy(best(scales(her), ways), fact("measure-bore"))


@check("room-inside")
def inside(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield two things in a cylinder that cannot both lie where they are entered."""
    for some in _of(her, "inside", limit):
        clash, cure = some[0], Mend(partial(_apart, her, some))
        shared = sum(c.volume for c in some)
        pair = [(clash.one.name,), _names(some)]
        if any(ref(one.path).table == "tank" for one in some) and _moves_tank(cure):
            pair.reverse()  # what is to go is named first
        yield finding(
            limit=limit, subject=clash.one.name, rank=86, beyond=shared,
            stands=_deepest(some),
            what=fact("share-room-inside", pair=tuple(pair), shared=shared,
                      cylinder=clash.one.home, x=clash.place[0]),
            mend=cure,
        )  # fmt: skip


def _moves_tank(cure: Mend) -> bool:
    """Return whether what is moved is a tank."""
    _, edits = cure.remedy
    return bool(edits) and ref(edits[0].path).table == "tank"


@check("room-wet")
def wet(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield what lies in a cylinder, or in another thing, outside all cylinders.

    Lead and foam that are only guessed, and lie in one thing, are one fault with one mend.
    """
    alone: list[list[Clash]] = []
    together: dict[str, list[Clash]] = {}
    for some in _of(her, "wet", limit):
        if len({clash.path for clash in some}) == 1 and guessed(her, some[0].one.path):
            together.setdefault(some[0].path, []).extend(some)
        else:
            alone.append(some)
    for some in together.values():
        if len(pieces := dict.fromkeys(clash.one.path for clash in some)) < MANY:
            alone += [[clash for clash in some if clash.one.path == path] for path in pieces]
        else:
            yield _guessed(her, limit, some)
    yield from _wet(her, limit, alone)


def _guessed(her: Assessed, limit: Limit, some: Sequence[Clash]) -> Finding:
    """Return that guessed lead and foam share room with one thing."""
    shared, clash = sum(c.volume for c in some), max(some, key=lambda c: c.volume)
    names = tuple(dict.fromkeys(c.one.name for c in some))
    return finding(
        limit=limit, subject=clash.name, rank=84, beyond=shared, stands=_deepest(some),
        what=fact("guessed-share-room", names=names, other=clash.name, shared=shared),
        mend=partial(around, her, tuple(dict.fromkeys(c.one.path for c in some)), clash.name),
    )  # fmt: skip


def _wet(her: Assessed, limit: Limit, groups: Sequence[Sequence[Clash]]) -> Iterator[Finding]:
    """Yield what shares room outside all cylinders, thing by thing."""
    for some in groups:
        clash, shared = some[0], sum(c.volume for c in some)
        yield finding(
            limit=limit, subject=clash.one.name, rank=84, beyond=shared,
            stands=_deepest(some),
            what=fact("share-room", name=clash.one.name, others=_names(some), shared=shared,
                      x=clash.place[0]),
            mend=partial(_apart, her, some),
        )  # fmt: skip


@check("room-skin")
def skin(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield what reaches into the skin of the hull from inside."""
    for some in _of(her, "skin", limit):
        shared = sum(clash.volume for clash in some)
        yield finding(
            limit=limit, subject=some[0].one.name, rank=13, beyond=shared, weight="look at",
            stands=_deepest_in_skin(her, some, limit.value),
            what=fact("in-the-skin", name=some[0].one.name, skins=_names(some), shared=shared,
                      x=some[0].place[0]),
            mend=partial(_apart, her, some, is_skin=True),
        )  # fmt: skip


@check("room-moving")
def moving(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield what a moving part meets on its way."""
    for some in _of(her, "moving", limit):
        clash = some[0]
        yield finding(
            limit=limit, subject=clash.one.name, rank=82, beyond=sum(c.volume for c in some),
            stands=_deepest(some),
            what=fact("meets-on-its-way", name=clash.one.name, others=_names(some),
                      shared=sum(c.volume for c in some), x=clash.place[0]),
            mend=fact("clear-its-way", name=clash.one.name, others=_names(some)),
            form=f"{clash.one.path}.moving",
        )  # fmt: skip
