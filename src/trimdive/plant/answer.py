"""What a plant does for a boat: figures with their reasons, fills, blows, and the way home."""

from trimdive.boatfile.plant import Kind
from trimdive.data import row
from trimdive.dryspace import Inside
from trimdive.errors import BoatError
from trimdive.plant.blows import Blow, blows
from trimdive.plant.figures import Figure, Run, figures
from trimdive.plant.fill import Fill, fill
from trimdive.plant.home import Home, Lift, home
from trimdive.plant.system import TITLES, Bottle, System
from trimdive.records import record

DEPTHS = (0.0, 1.0, 3.0)  # at which every plant is looked at, with the depth she is for [m]


@record
class PlantAnswer:
    """What a plant, or one of its kind for each of her tanks, does for a boat."""

    name: str
    kind: Kind
    title: str  # its kind in words
    fitted: bool  # whether she has it
    tanks: tuple[str, ...]
    depth: float  # that she is for [m]
    figures: tuple[Figure, ...]
    downs: tuple[Fill, ...]  # filled at the surface and at that depth, of the slowest
    ups: tuple[Fill, ...]  # emptied at several depths, of the slowest
    blows: tuple[Blow, ...]  # by temperature, of gas alone
    home: Home
    good: str  # what builders say for it
    bad: str  # and against it
    fails: str  # and how it fails
    assumed: tuple[str, ...]  # what was taken where nothing was told
    troubles: tuple[str, ...]  # what it cannot do, and the nearest that works

    def figure(self, key: str) -> Figure | None:
        """Return one of its figures."""
        return next((one for one in self.figures if one.key == key), None)


def _tried(
    systems: tuple[System, ...], depth: float, *, up: bool, troubles: list[str]
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
            sentence = str(error)
            if sentence not in troubles:
                troubles.append(sentence)
            return None
    worst = max(found, key=lambda each: (not each.done, each.time))
    if up and not worst.done:
        at = "at the surface" if depth <= 0 else f"at {depth:g} m"
        why = "the bottle is empty" if worst.ended == "bottle empty" else "it stalls"
        troubles.append(
            f"{systems[0].name}: {at} {worst.reached * 1e3:.2f} L stay in the tank, then {why}. "
            "Come up under power first, or take a stronger one."
        )
    return worst


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
    troubles: list[str] = []
    deep = sorted({*DEPTHS, depth})
    downs = [_tried(systems, d, up=False, troubles=troubles) for d in sorted({0.0, depth})]
    ups = [_tried(systems, d, up=True, troubles=troubles) for d in deep]
    comes = home((*systems, *others), lift, depth)
    kept_downs = tuple(one for one in downs if one)
    kept_ups = tuple(one for one in ups if one)
    first = systems[0]
    said = row("plant_kinds", first.kind)
    gases = blows(first, depth) if isinstance(first.drive, Bottle) else ()
    run = Run(
        systems=systems, downs=kept_downs, ups=kept_ups, depth=depth, charge=charge, comes=comes,
        dry=dry,
    )  # fmt: skip
    return PlantAnswer(
        name=name,
        kind=first.kind,
        title=TITLES[first.kind],
        fitted=fitted,
        tanks=tuple(tank for one in systems for tank in one.tanks),
        depth=depth,
        figures=tuple(figures(run)),
        downs=kept_downs,
        ups=kept_ups,
        blows=gases,
        home=comes,
        good=said["good"],
        bad=said["bad"],
        fails=said["fails"],
        assumed=tuple(dict.fromkeys(note for one in systems for note in one.assumed)),
        troubles=tuple(troubles),
    )
