"""From a boat to what is to be placed in her: wishes by her limits, slots, lanes."""

import numpy as np

from trimdive.assessment import Assessment
from trimdive.boatfile.placing import Placing, Pocket
from trimdive.errors import BoatError
from trimdive.findings import limit_of
from trimdive.geometry.solids.inside import is_inside
from trimdive.placing.solve import (
    Her,
    Slot,
    Task,
    Wishes,
    contained,
    foam_slots,
    keel_slots,
    of_piece,
    of_pocket,
    passes,
    pieces_of,
    room,
    shared,
    slides,
    sums,
)
from trimdive.placing.solve.free import box_points

WATERLINE = 1 / 3  # of the limit: how far off her waterline she is placed to float [-]
ANGLE = 1 / 2  # of the limit: how far off level she is placed to lie [-]


def wishes(her: Assessment, wish: Placing) -> Wishes:
    """Return what a boat must keep: her limits, and narrower bands for what is placed."""

    def most(key: str) -> float:
        return limit_of(key, her.boat).value

    def own_or(own: float | None, usual: float) -> float:
        return usual if own is None else own

    length = her.floater.length
    stuck = most("stuck-tank") if wish.stuck and len(her.boat.tanks) > 1 else None
    return Wishes(
        waterline=own_or(wish.waterline, WATERLINE * most("waterline-band")),
        trim_surfaced=own_or(wish.trim_surfaced, ANGLE * most("trim-surfaced")),
        trim_dived=own_or(wish.trim_dived, ANGLE * most("trim-dived")),
        heel=ANGLE * most("heel"),
        bg=most("bg-least") * length,
        gm=most("gm-least"),
        margin=most("tank-margin"),
        filling=(own_or(wish.filling_least, 0.0), own_or(wish.filling_most, 1.0)),
        stuck=stuck,
    )


def lying(her: Assessment) -> Her:
    """Return what placing looks at of a boat."""
    return Her(
        boat=her.boat,
        hull=her.hull,
        bodies=her.bodies,
        masses=her.masses,
        floater=her.floater,
        waterline=her.waterline,
        way=her.path.at,
        moving=tuple((one.path, space.surface) for one, space in her.scene.aboard.moving),
    )


def slots_of(her: Her, wish: Placing) -> list[Slot]:
    """Return every slot: today's pieces, declared pockets, else those found in the hull."""
    loose = pieces_of(her, wish)
    envelope = her.hull.envelope
    paths = frozenset(path for path, _ in loose)
    bare = room(her.boat, envelope, her.bodies, paths, her.moving)
    found = shared([of_piece(her, wish, bare, path, piece) for path, piece in loose])
    space = room(her.boat, envelope, her.bodies, frozenset(), her.moving)
    for kind in ("lead", "foam"):
        declared = [of_pocket(her, wish, p) for p in _checked(her) if p.holds == kind]
        if declared:
            found += [slot for slot in declared if slot.most >= slot.least]
        elif kind == "lead":
            found += [s for s in keel_slots(her, wish, space) if not _lies_over(s, found)]
        else:
            found += foam_slots(her, wish, space)
            if wish.above:
                found += foam_slots(her, wish, space, over=True)
    return shared(found)


def _checked(her: Her) -> tuple[Pocket, ...]:
    """Return the declared pockets.

    Raises:
        BoatError: One reaches out of the hull.
    """
    for number, pocket in enumerate(her.boat.pockets, 1):
        low = np.array([pocket.x_aft, pocket.y_starboard, pocket.z_bottom])
        high = np.array([pocket.x_fore, pocket.y_port, pocket.z_top])
        corners = box_points(low, high, float(np.ptp([low, high])))
        if not is_inside(her.hull.envelope, corners).all():
            where = f"pocket[{number}] ('{pocket.name}')"
            raise BoatError("it reaches out of the hull", where, "Measure its ends again.")
    return her.boat.pockets


def _lies_over(slot: Slot, loose: list[Slot]) -> bool:
    """Return whether a slot lies over a piece that may be cut or taken out from under it."""
    return any(
        abs(slot.place[k] - other.place[k]) < (mine + theirs) / 2
        for other in loose
        if other.longest
        and abs(slot.place[1] - other.place[1]) < (slot.breadth + other.breadth) / 2
        for k, mine, theirs in ((0, slot.longest, other.longest),)
    )


def task(her: Assessment, wish: Placing) -> Task:
    """Return what is to be placed in a boat."""
    here = lying(her)
    slots = slots_of(here, wish)
    return Task(
        her=sums(here),
        wishes=wishes(her, wish),
        slots=tuple(slots),
        ways=tuple(slides(here)),
        apart=tuple(passes(here)) if her.boat.lanes else (),
        walls=tuple(contained(here)),
        room=float(her.floater.tanks.capacities.sum()),
    )
