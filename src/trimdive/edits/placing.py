"""Places lead and foam, lets the boat go, and places again until the full solver agrees."""

from dataclasses import dataclass, replace
from time import monotonic

import numpy as np

from trimdive.assessment import Assessment
from trimdive.boatfile.placing import Placing
from trimdive.edits.pieces import Placed, placed
from trimdive.edits.task import lying, task
from trimdive.findings import ROOM_KEYS, Edit, Finding, limit_of, refused
from trimdive.placing.solve import (
    Answer,
    Programme,
    Reached,
    Shortfall,
    Task,
    answer,
    is_solvable,
    programme,
    shortfalls,
    sums,
)
from trimdive.placing.solve.solve import Progress

ROUNDS = 6  # most placings before it is given up [-]
BEYOND = 1e-5  # so much more stiffness is asked for than fell short: no more can be measured [m]
NARROWER = 0.7  # bands shrink by this where what is placed still falls short [-]
SECONDS = 20.0  # that a placing may take, as long as nothing else is said [s]
# What placing answers for; anything else is mended by other means.
KEYS = frozenset(
    {
        "waterline-band", "trim-surfaced", "heel", "neutral-band", "tank-margin", "tank-offset",
        "trim-dived", "bg-least", "gm-least",
    }
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Placement:
    """An answer that was let go: what to do, and how she lies then."""

    before: Assessment
    after: Assessment
    things: tuple[Placed, ...]
    edits: tuple[Edit, ...]
    aims: tuple[Reached, ...]
    rounds: int

    @property
    def left(self) -> tuple[Finding, ...]:
        """Return what must still be put right afterwards."""
        return tuple(f for f in self.after.first_findings if f.weight == "put right")


@dataclass(frozen=True, slots=True, kw_only=True)
class Roomed:
    """How much more lead and foam finds room, beyond what lies there, and what may be removed."""

    lead: float  # [kg]
    pull: float  # that it weighs under water [kg]
    foam: float  # [m³]
    lift: float  # that it lifts under water [kg]
    out: float  # lead that may be removed weighs so much under water [kg]


@dataclass(frozen=True, slots=True, kw_only=True)
class Hindered:
    """Why she cannot be placed."""

    before: Assessment
    shortfalls: tuple[Shortfall, ...]  # empty: nothing falls short by the sums
    left: tuple[Finding, ...]  # what the full solver still found
    room: Roomed  # for more lead and foam


def roomed(work: Task, density: float) -> Roomed:
    """Return how much more lead and foam finds room.

    Args:
        work: What is to be placed.
        density: Of the water [kg/m³].
    """
    more = {"lead": [0.0, 0.0], "foam": [0.0, 0.0]}
    out = 0.0
    for slot in work.slots:
        if slot.kind == "lead":
            out += slot.present * (1.0 if slot.home else 1.0 - density / slot.density)
        mass = max(slot.most * slot.step - slot.present, 0.0)
        volume = mass / slot.density
        pull = mass if slot.home else mass - density * volume
        some = more["foam" if slot.kind == "foam" else "lead"]
        some[0] += volume if slot.kind == "foam" else mass
        some[1] += abs(pull)
    (lead, pull), (foam, lift) = more["lead"], more["foam"]
    return Roomed(lead=lead, pull=pull, foam=foam, lift=lift, out=out)


def wants(her: Assessment) -> tuple[Finding, ...]:
    """Return what is not in order of all that placing answers for."""
    return tuple(f for f in her.first_findings if f.key in KEYS and f.weight == "put right")


def place(
    her: Assessment,
    wish: Placing | None = None,
    seconds: float = SECONDS,
    progress: Progress | None = None,
) -> Placement | Hindered:
    """Return where lead, foam and what may slide go, verified by letting her go.

    Args:
        her: The boat.
        wish: How she is to be placed; left out, as her file says.
        seconds: Time that it may take [s].
        progress: Called with every improvement of an aim.
    """
    wish = wish or her.boat.placing
    end = monotonic() + seconds
    work = task(her, wish)
    room = roomed(work, her.floater.density)
    left: tuple[Finding, ...] = ()
    for number in range(1, ROUNDS + 1):
        it = programme(work)
        found = None
        if is_solvable(it, max(end - monotonic(), 1.0)):
            found = answer(it, wish.aims, max(end - monotonic(), 1.0), progress)
        if found is None:
            lacking = shortfalls(it, max(end - monotonic(), 2.0)) if number == 1 else ()
            return Hindered(before=her, shortfalls=lacking, left=left, room=room)
        things, edits = placed(her, it, found.x)
        after = her.edited(edits) if edits else her
        left = wants(after)
        if refused(her.boat, her.scene, after.scene):
            laid = tuple(one for one in after.first_findings if one.key in ROOM_KEYS)
            return Hindered(before=her, shortfalls=(), left=(*left, *laid), room=room)
        if not left:
            return Placement(
                before=her,
                after=after,
                things=tuple(things),
                edits=edits,
                aims=found.aims,
                rounds=number,
            )
        work = _again(work, it, found, after, number)
    return Hindered(before=her, shortfalls=(), left=left, room=room)


def _again(work: Task, it: Programme, found: Answer, after: Assessment, number: int) -> Task:
    """Return the task with what letting her go has shown put into it."""
    seen = sums(lying(after))
    adds = it.adds.copy()
    adds[:, it.where["water"]] = 0.0  # the water is counted anew, as she now wants it
    kept = sum((slot.kept for slot in work.slots if slot.path), np.zeros(len(seen.total)))
    total = seen.total - adds @ found.x + kept
    asked = work.wishes
    short = limit_of("gm-least", after.boat).value - min(m.state.gm_t for m in after.dive)
    if short > 0:
        asked = replace(asked, gm=asked.gm + short + BEYOND, bg=asked.bg + short + BEYOND)
    if number > 1:
        asked = replace(
            asked,
            waterline=asked.waterline * NARROWER,
            trim_surfaced=asked.trim_surfaced * NARROWER,
            trim_dived=asked.trim_dived * NARROWER,
            heel=asked.heel * NARROWER,
        )
    return replace(work, her=replace(seen, total=total), wishes=asked)
