"""What must be mended before lead can help, and what else would make a placing possible."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from trimdive.assessment import Assessment
from trimdive.boatfile.placing import Lane, Placing
from trimdive.boatfile.ref import ref
from trimdive.edits.placing import KEYS, SECONDS, Hindered, Placement, place, wants
from trimdive.edits.task import task
from trimdive.findings import Edit, Finding
from trimdive.findings.works import belongs
from trimdive.placing.solve import is_solvable, programme
from trimdive.placing.solve.solve import Progress

ROUNDS = 4  # what one mend brings to light is mended in the next [-]
# Mends of what placing answers for, by something else than lead and foam.
OTHERWISE = ("tank-offset", "bg-least", "gm-least", "heel")
NO_MEND = ("waterline-band", "trim-surfaced", "trim-dived", "neutral-band", "tank-margin")
GUESSED = "guessed-share-room"  # what is told of guessed lead and foam in something's room
AMPLE = 1.02  # a tank made longer gets so much more than what is lacking [-]
QUICK = 5.0  # that a change is tried for [s]


@dataclass(frozen=True, slots=True, kw_only=True)
class Mend:
    """A change that lead cannot do the work of."""

    finding: Finding
    edits: tuple[Edit, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Mended:
    """A boat with the mends that she needs first, and her placing after them."""

    mends: tuple[Mend, ...]
    edits: tuple[tuple[Edit, ...], ...]  # the mends' changes, one step after another
    her: Assessment  # with the mends made
    found: Placement | Hindered


@dataclass(frozen=True, slots=True, kw_only=True)
class Cure:
    """A change of another kind that would make a placing possible."""

    kind: str  # tank, longer or foam
    tank: str  # its name; "" where none is changed
    edits: tuple[Edit, ...]  # to be made first
    far: float  # how much longer a tank is to be [m]; 0 for any other change
    wish: Placing
    her: Assessment  # with the change allowed
    found: Placement


def mends(her: Assessment) -> tuple[Mend, ...]:
    """Return what is to be mended by something else than lead and foam, worst first.

    Where a mend shifts lead as well, that is left to the placing. Guessed lead and foam that
    share room with something are removed: the placing lays them again around it.
    """
    found: list[Mend] = []
    for one in her.first_findings:
        if one.weight != "put right" or one.key in NO_MEND:
            continue
        if one.what.kind == GUESSED:
            edits = tuple(Edit(action="remove", path=e.path, fields=()) for e in one.edits)
        else:
            edits = tuple(e for e in one.edits if ref(e.path).table != "lead")
        if edits:
            found.append(Mend(finding=one, edits=edits))
    return tuple(found)


def _merged(chosen: Sequence[Mend]) -> tuple[Edit, ...]:
    """Return the changes of several mends; of two for one field the later counts."""
    return tuple(edit for mend in reversed(chosen) for edit in mend.edits)


def _fits(her: Assessment, wish: Placing) -> bool:
    return is_solvable(programme(task(her, wish)), QUICK)


def mended(
    her: Assessment,
    wish: Placing,
    seconds: float = SECONDS,
    progress: Progress | None = None,
    *,
    anew: bool = False,
) -> Mended | None:
    """Return her with the mends that lead cannot do, no more than she needs, and placed then.

    First the mends of figures, and of what is closed that is meant to be open; then those that
    move what lies wrong, until she can be placed. None where there is nothing to mend. Where the
    mends bring her into order no lead is touched.

    Args:
        her: The boat.
        wish: How she is to be placed.
        seconds: Time that each placing may take [s].
        progress: Called with every improvement.
        anew: Place her even where the mends bring her into order.
    """
    made: list[Mend] = []
    steps: list[tuple[Edit, ...]] = []
    now = her
    for _ in range(ROUNDS):
        offered = [
            mend
            for mend in mends(now)
            if mend.finding.key not in KEYS and _is_of_her(mend.finding, her)
        ]
        if not offered:
            break
        made += offered
        steps.append(_merged(offered))
        now = now.edited(steps[-1])
    found: Placement | Hindered | None = None
    for _ in range(ROUNDS):
        offered = [mend for mend in mends(now) if mend.finding.key in OTHERWISE]
        if not offered:
            break
        made += offered
        steps.append(_merged(offered))
        now = now.edited(steps[-1])
        found = _placed(now, wish, seconds, progress, anew=anew)
        if isinstance(found, Placement):
            break
    if not made:
        return None
    found = found or _placed(now, wish, seconds, progress, anew=anew)
    return Mended(mends=_each_once(made), edits=tuple(steps), her=now, found=found)


def _is_of_her(one: Finding, her: Assessment) -> bool:
    """Return whether a finding may be put right: that a figure slipped, only as she is written.

    What her sums say of a figure once other things are changed is no evidence of a slip.
    """
    return one.key != "slip" or any(one.about == own.about for own in her.first_findings)


def _placed(
    her: Assessment, wish: Placing, seconds: float, progress: Progress | None, *, anew: bool
) -> Placement | Hindered:
    """Return her placed; as she is, where nothing is to be placed."""
    if in_order(her) and not anew:
        return Placement(before=her, after=her, things=(), edits=(), aims=(), rounds=0)
    return place(her, wish, seconds, progress)


def _each_once(made: Sequence[Mend]) -> tuple[Mend, ...]:
    """Return the mends without those whose changes are all made by earlier ones."""
    seen: set[tuple[str, str, str]] = set()
    found: list[Mend] = []
    for mend in made:
        changes = {(e.action, e.path, field) for e in mend.edits for field, _ in e.fields}
        changes |= {(e.action, e.path, "") for e in mend.edits if not e.fields}
        if not changes <= seen:
            found.append(mend)
        seen |= changes
    return tuple(found)


def _works(her: Assessment, k: int) -> tuple[str, ...]:
    """Return a tank and the parts that belong to it, by name."""
    tank = her.boat.tanks[k]
    parts = [part.name for part in her.boat.parts if belongs(part, tank)]
    return (tank.name, *parts)


def _moved_tanks(her: Assessment) -> Iterator[tuple[str, Assessment]]:
    """Yield her with each of her tanks, its works with it, free to slide in its cylinder."""
    taken = {name for lane in her.boat.lanes for name in lane.things}
    for k, tank in enumerate(her.boat.tanks):
        home = next((c for c in her.boat.cylinders if c.name == tank.inside), None)
        if home is None or tank.name in taken:
            continue
        things = tuple(name for name in _works(her, k) if name not in taken)
        half = home.length / 2
        lane = Lane(things=things, x_aft=home.x - half, x_fore=home.x + half)
        boat = her.boat.model_copy(update={"lanes": (*her.boat.lanes, lane)})
        yield tank.name, Assessment(boat=boat, files=her.files)


def _longer_tanks(her: Assessment, lacking: float) -> Iterator[tuple[str, Edit, float]]:
    """Yield each tank that, longer by some length, would hold so much more [m³], and that length.

    Its middle stays; it must still fit in its cylinder.
    """
    for k, tank in enumerate(her.boat.tanks, 1):
        long = tank.stroke if tank.kind == "piston" else tank.length
        room = float(her.floater.tanks.capacities[k - 1])
        if tank.shape == "mesh" or not long or room <= 0:
            continue
        more = AMPLE * lacking / room * long
        home = next((c for c in her.boat.cylinders if c.name == tank.inside), None)
        if home and abs(tank.x - home.x) + (long + more) / 2 > home.length / 2 - home.wall:
            continue
        field = "stroke" if tank.kind == "piston" else "length"
        yield tank.name, Edit(action="set", path=f"tank[{k}]", fields=((field, long + more),)), more


def cures(
    her: Assessment, wish: Placing, lacking: float = 0.0, progress: Progress | None = None
) -> tuple[Cure, ...]:
    """Return changes of other kinds that would each make a placing possible, all let go.

    Args:
        her: The boat.
        wish: How she is to be placed.
        lacking: What the tanks hold too little [m³].
        progress: Called with every improvement.
    """
    moves = wish.model_copy(update={"aims": ("pieces", "moves", "mass", "foam")})
    above = wish.model_copy(update={"above": True, "aims": ("pieces", "foam", "mass", "moves")})
    none: tuple[Edit, ...] = ()
    offered: list[tuple[str, str, Assessment, Placing, tuple[Edit, ...], float]]
    offered = [("tank", name, other, moves, none, 0.0) for name, other in _moved_tanks(her)]
    if lacking > 0:
        for name, edit, more in _longer_tanks(her, lacking):
            offered.append(("longer", name, her.edited((edit,)), wish, (edit,), more))
    offered.append(("foam", "", her, above, none, 0.0))
    found: list[Cure] = []
    for kind, tank, other, how, edits, far in offered:
        if not _fits(other, how):
            continue
        end = place(other, how, QUICK, progress)
        if isinstance(end, Placement):
            found.append(
                Cure(kind=kind, tank=tank, edits=edits, far=far, wish=how, her=other, found=end)
            )
    return tuple(found)


def unmoved(found: Placement) -> Placement:
    """Return a placing with the lanes of her file as they were."""
    boat = found.after.boat.model_copy(update={"lanes": found.before.boat.lanes})
    return replace(found, after=Assessment(boat=boat, files=found.after.files))


def in_order(her: Assessment) -> bool:
    """Return whether nothing is to be placed in her."""
    return not wants(her)
