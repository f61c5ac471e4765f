"""What is wrong with lanes, pockets and runs: they name nothing aboard, or let nothing slide."""

from collections.abc import Iterator

from trimdive.boatfile.boat import Boat
from trimdive.boatfile.checks import unknown
from trimdive.boatfile.messages import Mistake

LANE_ENDS = (("x_aft", "x_fore"), ("y_starboard", "y_port"), ("z_bottom", "z_top"))


def lane_mistakes(boat: Boat) -> Iterator[Mistake]:
    """Yield lanes and pockets that name nothing aboard, and lanes that let nothing slide."""
    cylinders = [cylinder.name for cylinder in boat.cylinders]
    for number, pocket in enumerate(boat.pockets):
        if pocket.inside and pocket.inside not in cylinders:
            yield unknown(("pocket", number, "inside"), "cylinder", pocket.inside, cylinders)
    yield from _runs(boat)
    names = _names(boat)
    taken: dict[str, int] = {}
    for number, lane in enumerate(boat.lanes):
        for name in lane.things:
            if name not in names:
                yield unknown(("lane", number, "things"), "part", name, names)
            elif name in taken:
                what = f"'{name}' slides in lane[{taken[name] + 1}] already"
                mend, beside = "Name it in one of them.", f"{name} slides in another lane already."
                yield Mistake(("lane", number, "things"), what, mend, beside=beside)
            taken.setdefault(name, number)
        ends = (getattr(lane, field) for pair in LANE_ENDS for field in pair)
        if all(end is None for end in ends):
            what = "it lets nothing slide"
            mend = "Add x_aft and x_fore, or other limits."
            beside = "Enter how far aft and forward they may lie, or another limit."
            yield Mistake(("lane", number), what, mend, fields=("x_aft",), beside=beside)


def _names(boat: Boat) -> list[str]:
    """Return the names of what lanes and runs may name."""
    names = [*(c.name for c in boat.cylinders), *(t.name for t in boat.tanks)]
    return [*names, *(piece.name for piece in boat.pieces if piece.name)]


def _runs(boat: Boat) -> Iterator[Mistake]:
    """Yield hoses, cables and rods that end at nothing aboard, or where they begin."""
    names = _names(boat)
    for number, run in enumerate(boat.runs):
        for field, name in (("of", run.of), ("to", run.to)):
            if name not in names:
                yield unknown(("run", number, field), "part", name, names)
        if run.of == run.to:
            what, beside = "it ends where it begins", "Choose another thing."
            yield Mistake(("run", number, "to"), what, "Name two things.", beside=beside)
