"""What a plant does for a boat: figures with their reasons, fills, blows, and the way home."""

from trimdive.boatfile.plant import Kind
from trimdive.errors import BoatError
from trimdive.fact import Fact, fact
from trimdive.plant.blows import Blow, blows
from trimdive.plant.figures import Figure, Run, figures
from trimdive.plant.fill import Fill, fill
from trimdive.plant.home import Home, Lift, home
from trimdive.plant.system import Bottle, System
from trimdive.records import record
from trimdive.vessels.dryspace import Inside

DEPTHS = (0.0, 1.0, 3.0)  # at which every plant is looked at, with the depth she is for [m]


@record
class Trouble:
    """Something that a plant cannot do."""

    where: str  # the plant, by its name, or what of it
    what: Fact
    mend: Fact
    is_snorkel_under: bool  # a snorkel under water, as every one of them is when she dives


@record
class PlantAnswer:
    """What a plant, or one of its kind for each of her tanks, does for a boat."""

    name: str
    kind: Kind
    plants: int  # of that kind, each with tanks of its own
    fitted: bool  # whether she has it
    tanks: tuple[str, ...]
    depth: float  # that she is for [m]
    figures: tuple[Figure, ...]
    downs: tuple[Fill, ...]  # filled at the surface and at that depth, of the slowest
    ups: tuple[Fill, ...]  # emptied at several depths, of the slowest
    blows: tuple[Blow, ...]  # by temperature, of gas alone
    home: Home
    assumed: tuple[Fact, ...]  # what was taken where nothing was told
    troubles: tuple[Trouble, ...]  # what it cannot do, and the nearest that works

    def figure(self, key: str) -> Figure | None:
        """Return one of its figures."""
        return next((one for one in self.figures if one.key == key), None)


def _tried(
    systems: tuple[System, ...], depth: float, *, up: bool, troubles: list[Trouble]
) -> Fill | None:
    """Return the slowest fill of some plants, and note what one of them cannot do.

    Args:
        systems: The plants.
        depth: Of their tanks [m].
        up: Whether they empty.
        troubles: To which what cannot be done is added.
    """
    found: list[Fill] = []
    for one in systems:
        try:
            found.append(fill(one, depth, up=up))
        except BoatError as error:
            is_under = up and one.kind == "snorkel" and depth > 0
            _note(troubles, _refused(error, is_under=is_under))
            return None
    worst = max(found, key=lambda each: (not each.done, each.time))
    if up and not worst.done:
        _note(troubles, _stays_in(systems[0].name, worst))
    return worst


def _note(troubles: list[Trouble], trouble: Trouble) -> None:
    """Note something that cannot be done, unless it is known already."""
    if trouble not in troubles:
        troubles.append(trouble)


def _refused(error: BoatError, *, is_under: bool) -> Trouble:
    """Return what a plant refuses to do."""
    what, mend = fact("plant-refuses", what=error.what), fact("plant-wants", mend=error.mend)
    return Trouble(where=error.where, what=what, mend=mend, is_snorkel_under=is_under)


def _stays_in(name: str, run: Fill) -> Trouble:
    """Return that water stays in the tanks of a plant."""
    is_empty = run.ended == "bottle empty"
    what = fact("water-stays-in", depth=run.depth, left=run.reached, is_empty=is_empty)
    mend = fact("come-up-under-power")
    return Trouble(where=name, what=what, mend=mend, is_snorkel_under=False)


def answer(
    systems: tuple[System, ...],
    lift: Lift,
    depth: float,
    *,
    name: str,
    fitted: bool,
    charge: float,
    others: tuple[System, ...] = (),
    dry: tuple[Inside, ...] = (),
) -> PlantAnswer:
    """Return what a plant, or several of one kind, do for a boat.

    Args:
        systems: The plants, of one kind.
        lift: What she lifts.
        depth: That she is for [m].
        name: What to call it.
        fitted: Whether she has it.
        charge: Energy that her battery gives [J].
        others: Her other plants, whose power goes with theirs.
        dry: Pressures in the dry spaces that they work in.
    """
    troubles: list[Trouble] = []
    deep = sorted({*DEPTHS, depth})
    downs = [_tried(systems, d, up=False, troubles=troubles) for d in sorted({0.0, depth})]
    ups = [_tried(systems, d, up=True, troubles=troubles) for d in deep]
    comes = home((*systems, *others), lift, depth)
    kept_downs = tuple(one for one in downs if one)
    kept_ups = tuple(one for one in ups if one)
    first = systems[0]
    gases = blows(first, depth) if isinstance(first.drive, Bottle) else ()
    run = Run(
        systems=systems, downs=kept_downs, ups=kept_ups, depth=depth, charge=charge, comes=comes,
        dry=dry,
    )  # fmt: skip
    return PlantAnswer(
        name=name,
        kind=first.kind,
        plants=len(systems),
        fitted=fitted,
        tanks=tuple(tank for one in systems for tank in one.tanks),
        depth=depth,
        figures=tuple(figures(run)),
        downs=kept_downs,
        ups=kept_ups,
        blows=gases,
        home=comes,
        assumed=tuple(dict.fromkeys(note for one in systems for note in one.assumed)),
        troubles=tuple(troubles),
    )
