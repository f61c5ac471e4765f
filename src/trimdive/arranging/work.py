"""The whole of arranging: what is laid anew goes, things are put in order, lead and foam follow.

The best orders by the programme are each carried out: lead and foam are placed by the full solver,
she floats and dives, and large things are taken out of her. The best three are handed back.
"""

from collections.abc import Callable, Collection, Mapping, Sequence
from time import process_time

import numpy as np

from trimdive.arranging.layout import Fill, Layout, Order, best, needed, too_long
from trimdive.arranging.pockets import pockets
from trimdive.arranging.reach import lifted
from trimdive.arranging.things import Conditions, her_conditions, layout_of, stays
from trimdive.assessment import Assessment
from trimdive.boatfile import Tank
from trimdive.boatfile.placing import Aim, Placing, Pocket
from trimdive.boatfile.ref import ref
from trimdive.edits.carried import piece_at
from trimdive.edits.placing import Hindered, Placement, place
from trimdive.edits.task import task
from trimdive.errors import AskError
from trimdive.findings import ROOM_KEYS, Edit, Finding
from trimdive.fit.out import Out, outs
from trimdive.geometry.lines.mesh import Floats
from trimdive.geometry.solids.build import numbered
from trimdive.placing.solve import Shortfall, Slot
from trimdive.records import record

TOLD = 3  # arrangements that are handed back, at most [-]
TRIED = 5  # that are carried out, at most [-]
ROUNDS = 3  # times that room for lead and foam is looked for around cylinders as they lie then [-]
STILL = 0.005  # cylinders that move less than this leave the room as it is [m]
SPARE = (0.0, 0.25, 0.5)  # that conditions are kept with, in their units [-]
MUCH = 0.05  # more laid than might do: by this share it is told [-]
LITTLE = 1e-3  # less of a step of lead or foam is none [-]
FINE = 5e-5  # a shorter way is none [m]
AIMS: tuple[Aim, ...] = ("mass",)  # of placing: pieces can be counted afterwards
LEAST = 5.0  # that one placing may take [s]
SHARE = 0.2  # of the time that is left that one placing may take [-]


@record
class Arrangement:
    """One arrangement, carried out."""

    order: Order
    steps: tuple[tuple[Edit, ...], ...]  # one after another: removed, moved, laid
    her: Assessment  # with all of it done
    shortfalls: tuple[Shortfall, ...]  # by which lead and foam cannot put her right
    is_placed: bool  # lead and foam put her right
    laid: float  # lead and foam that were laid [kg]
    might: float  # with less than this it cannot be placed so [kg]
    outs: tuple[Out, ...]  # of each large thing, whether it comes out

    @property
    def wrong(self) -> tuple[Finding, ...]:
        """Return what is still to be put right of how she floats and dives."""
        return tuple(one for one in self.her.first_findings if one.weight == "put right")

    @property
    def shares_room(self) -> tuple[Finding, ...]:
        """Return what shares room in her."""
        return tuple(one for one in self.her.first_findings if one.key in ROOM_KEYS)

    @property
    def is_right(self) -> bool:
        """Return whether lead and foam put her right with nothing in another's room."""
        return self.is_placed and not self.shares_room

    @property
    def is_hurried(self) -> bool:
        """Return whether time ran out before it was clear that much less would not do."""
        return self.laid > (1.0 + MUCH) * self.might

    @property
    def stuck(self) -> tuple[str, ...]:
        """Return what does not come out, by name."""
        return tuple(one.name for one in self.outs if one.way is None)


@record
class Arranged:
    """What came of arranging a boat."""

    before: Assessment
    layout: Layout
    found: tuple[Arrangement, ...]  # the best first


@record
class Stage:
    """How far arranging is."""

    carried: int  # orders that were carried out; 0: the best order is found [-]
    lead: float  # lead and foam: of the order by the sums, then as laid [kg]
    is_right: bool  # lead and foam put her right, and nothing shares room
    gap: float  # so much less another order might need, by the sums [kg]
    proven: bool  # by the sums none needs less


Progress = Callable[[Stage], None]


@record
class Ready:
    """A boat ready to be arranged."""

    her: Assessment  # as she is
    first: tuple[tuple[Edit, ...], ...]  # what is laid anew removed, then cylinders raised
    bare: Assessment  # with that done
    given: Conditions  # that she must keep
    layout: Layout


def ready(
    her: Assessment, keep: Collection[str] = (), ends: Mapping[str, str] | None = None
) -> Ready:
    """Return a boat ready to be arranged.

    Args:
        her: The boat.
        keep: Paths of cylinders, tanks, parts, lead and foam that stay.
        ends: Paths of things that belong at a cap of their cylinder, each "aft", "fore" or, for
            nowhere, ""; over what the boat file says of it (``at_cap``).

    Raises:
        AskError: There is nothing to arrange, or it does not go in.
    """
    gone = _laid_anew(her, keep)
    empty = _without_lanes(her.edited(gone) if gone else her)
    stay = frozenset(_now(gone, path) for path in keep)
    up = tuple(
        edit
        for k, vessel in enumerate(her.boat.cylinders)
        if f"cylinder[{k + 1}]" not in stay and not stays(vessel)
        for edit in lifted(empty, k)
    )
    bare = empty.edited(up) if up else empty
    given = her_conditions(bare)
    own = {path: part.at_cap for path, part in numbered(her.boat) if part.at_cap}
    at_ends = {_now(gone, path): end for path, end in {**own, **(ends or {})}.items()}
    layout = layout_of(bare, stay, at_ends, given)
    _refuse(bare, layout)
    return Ready(her=her, first=(gone, up), bare=bare, given=given, layout=layout)


def arrange(
    her: Assessment,
    keep: Collection[str] = (),
    ends: Mapping[str, str] | None = None,
    seconds: float = 30.0,
    most: int = TOLD,
    progress: Progress | None = None,
) -> Arranged:
    """Return the best arrangements of a boat.

    Args:
        her: The boat.
        keep: Paths of cylinders, tanks, parts, lead and foam that stay.
        ends: Paths of things that belong at a cap of their cylinder, each "aft", "fore" or, for
            nowhere, ""; over what the boat file says of it (``at_cap``).
        seconds: Time of the processor that it may take [s].
        most: Arrangements that are handed back, at most [-].
        progress: Called with how far it is.

    Raises:
        AskError: There is nothing to arrange, or it does not go in.
    """
    it = ready(her, keep, ends)
    end = process_time() + seconds
    order, fill = first(it, SHARE * seconds)
    orders, tried = [order], list[Arrangement]()
    _tell(progress, tried, order)
    while True:
        left = SHARE * max(end - process_time(), 1.0)
        tried.append(_done(it, orders[-1], left))
        _tell(progress, tried, orders[-1])
        fine = [one for one in tried if one.is_right]
        if len(fine) >= most or len(tried) >= TRIED or process_time() > end:
            break
        other = best(it.layout, fill, left, orders)
        if other is None:
            break
        orders.append(other)
    return Arranged(before=her, layout=it.layout, found=tuple(sorted(tried, key=_rank)[:most]))


def _tell(progress: Progress | None, tried: Sequence[Arrangement], order: Order) -> None:
    if progress is not None:
        last = tried[-1] if tried else None
        progress(
            Stage(
                carried=len(tried),
                lead=last.laid if last else order.mass,
                is_right=last is not None and last.is_right,
                gap=order.gap,
                proven=order.proven,
            )
        )


def _rank(one: Arrangement) -> tuple[bool, int, int, float, float]:
    lead = sum(one.her.masses.of_kind(kind) for kind in ("lead", "foam"))
    return not one.is_placed, len(one.wrong), len(one.stuck), one.order.missed, lead


def _laid_anew(her: Assessment, keep: Collection[str]) -> tuple[Edit, ...]:
    """Return the removal of lead and foam in the hull, which is laid anew.

    Where her file says of either kind that it is kept, all of that stays.
    """
    homes = {vessel.name for vessel in her.boat.cylinders}
    named = {name for lane in her.boat.lanes for name in lane.things}
    wish = her.boat.placing
    laid = [
        kind
        for kind, how in (("lead", wish.lead), ("foam", wish.foam))
        if how == "anew" or kind not in wish.model_fields_set
    ]
    return tuple(
        Edit(action="remove", path=path, fields=())
        for path, piece in numbered(her.boat)
        if ref(path).table in laid
        and path not in keep
        and piece.inside not in homes
        and piece.name not in named
        and piece.aboard
        and (piece.mass or 0.0) >= 0
    )


def _now(gone: Sequence[Edit], path: str) -> str:
    """Return the path of what stays with other pieces removed."""
    at = ref(path)
    lost = [ref(edit.path) for edit in gone]
    before = sum(one.table == at.table and one.order < at.order for one in lost)
    return f"{at.table}[{at.number - before}]"


def _without_lanes(her: Assessment) -> Assessment:
    """Return her with nothing that slides by itself: this moves what moves."""
    boat = her.boat.model_copy(update={"lanes": ()}) if her.boat.lanes else her.boat
    return Assessment(boat=boat, files=her.files)


def _refuse(her: Assessment, layout: Layout) -> None:
    """Refuse what cannot be arranged.

    Raises:
        AskError: There are no things in cylinders, or they do not go in.
    """
    if not layout.things:
        what = "nothing lies in a cylinder"
        raise AskError(what, "part", 'Write inside = "..." for each part that goes into one.')
    for k, tube in enumerate(layout.tubes):
        if not tube.ranges:
            what = f"'{tube.name}' goes into the hull nowhere on the middle line"
            mend = "Shorten it, take a smaller tube, or keep it where it is."
            raise AskError(what, tube.path, mend)
        over = too_long(layout, k)
        if over > FINE:
            far = her.boat.units.write(over, "length")
            what = f"what lies in '{tube.name}' is {far} longer, end to end, than its room"
            raise AskError(what, tube.path, "Take a longer tube, or take something out of it.")


def first(it: Ready, seconds: float) -> tuple[Order, Fill]:
    """Return the best order, with the room for lead and foam around it.

    Raises:
        AskError: No order goes in.
    """
    lay = tuple(_nearest(tube.ranges) for tube in it.layout.tubes)
    for number in range(1, ROUNDS + 1):
        there = _shifted(it.bare, it.layout, lay)
        _, fill = _fill(there, it.given, pockets(there))
        found = best(it.layout, fill, seconds)
        if found is None:
            what = "no order was found in which everything goes in"
            raise AskError(
                what,
                "arrange",
                "Keep less where it is, allow more time, or longer hoses and cables.",
            )
        far = max((abs(a - b) for a, b in zip(found.tubes, lay, strict=True)), default=0.0)
        if far <= STILL or number == ROUNDS:
            return found, fill
        lay = tuple(found.tubes.tolist())
    raise AssertionError


def _nearest(ranges: Sequence[tuple[float, float]]) -> float:
    """Return the least move that leads into one of some ranges [m]."""
    return min((min(max(0.0, low), high) for low, high in ranges), key=abs)


def _shifted(bare: Assessment, layout: Layout, far: Sequence[float]) -> Assessment:
    """Return her with each cylinder, and all in it, moved so far [m]."""
    tubes = np.array(far)
    things = np.array([far[thing.tube] for thing in layout.things])
    return bare.edited(_moves(bare, layout, tubes, things))


def _placed(her: Assessment, room: Sequence[Pocket], seconds: float) -> Placement | Hindered:
    """Return her with lead and foam placed in some pockets."""
    return place(_with_pockets(her, room), _wish(her), max(seconds, LEAST))


def _with_pockets(her: Assessment, room: Sequence[Pocket]) -> Assessment:
    boat = her.boat.model_copy(update={"pockets": tuple(room)})
    return Assessment(boat=boat, files=her.files)


def _wanted(her: Assessment, room: Sequence[Pocket]) -> tuple[Pocket, ...]:
    """Return the pockets that are used where pieces may have any size: few, and the best.

    Those at which conditions are kept with some to spare count too; the builder's own always do.
    """
    given = her_conditions(her)
    slots, fill = _fill(her, given, room)
    base = given.a @ given.sums.total + given.constant
    used = {pocket.name for pocket in her.boat.pockets}
    for spare in SPARE:
        margin = np.append(np.full(len(base) - 2, spare), [-1.0, -1.0])  # neutral within a gram
        found = needed(base, fill, margin)
        if found is not None:
            used |= {s.name for s, much in zip(slots, found[1:], strict=True) if much > LITTLE}
    return tuple(pocket for pocket in room if pocket.name in used) or tuple(room)


def _fill(
    her: Assessment, given: Conditions, room: Sequence[Pocket]
) -> tuple[tuple[Slot, ...], Fill]:
    """Return places for lead and foam, and these and the water as what may be put into a boat."""
    work = task(_with_pockets(her, room), _wish(her))
    seen = given.sums
    adds = [seen.per_water, *(slot.each for slot in work.slots)]
    return work.slots, Fill(
        each=given.a @ np.stack(adds, axis=1),
        least=np.array([min(seen.least - seen.water, 0.0), *(0.0 for _ in work.slots)]),
        most=np.array([max(seen.most - seen.water, 0.0), *(float(s.most) for s in work.slots)]),
        mass=np.array([0.0, *(slot.step for slot in work.slots)]),
    )


def _wish(her: Assessment) -> Placing:
    """Return how lead and foam are placed: as her file says, but what stays stays."""
    return her.boat.placing.model_copy(update={"lead": "keep", "foam": "keep", "aims": AIMS})


def _moves(her: Assessment, layout: Layout, tubes: Floats, things: Floats) -> tuple[Edit, ...]:
    """Return the changes that move cylinders and what lies in them."""
    far: dict[str, float] = {}
    for tube, shift in zip(layout.tubes, tubes.tolist(), strict=True):
        far.update((path, float(shift)) for path in (tube.path, *tube.goes))
    for thing, shift in zip(layout.things, things.tolist(), strict=True):
        if not thing.is_kept:
            far.update((path, float(shift) + more) for path, more in thing.along)
    found: list[Edit] = []
    for path, shift in far.items():
        piece = piece_at(her.boat, ref(path))
        is_piston = isinstance(piece, Tank) and piece.kind == "piston"
        field = "water_end" if is_piston else "x"
        value = float(getattr(piece, field))
        if abs(shift) > FINE:
            found.append(Edit(action="set", path=path, fields=((field, value + shift),)))
    return tuple(found)


def _done(it: Ready, order: Order, seconds: float) -> Arrangement:
    """Return an order carried out, lead and foam placed, and large things taken out of her."""
    moves = _moves(it.bare, it.layout, order.tubes, order.things)
    laid = it.bare.edited(moves) if moves else it.bare
    every = pockets(laid)
    few = _wanted(laid, every)
    found = _placed(laid, few, seconds)
    if isinstance(found, Hindered) and len(few) < len(every):
        found = _placed(laid, every, seconds)
    edits = found.edits if isinstance(found, Placement) else ()
    after = laid.edited(edits) if edits else laid
    aims = found.aims if isinstance(found, Placement) else ()
    much, least = (sum(getattr(one, key) for one in aims) for key in ("value", "bound"))
    return Arrangement(
        laid=much,
        might=max(least, 0.0),
        order=order,
        steps=tuple(step for step in (*it.first, moves, edits) if step),
        her=after,
        shortfalls=found.shortfalls if isinstance(found, Hindered) else (),
        is_placed=isinstance(found, Placement),
        outs=outs(after.boat, after.hull, after.scene.aboard),
    )
