"""Check of what must stay dry: batteries in open water."""

from collections.abc import Iterator
from functools import partial

from trimdive.boatfile import Part
from trimdive.fact import fact
from trimdive.findings.assessed import Assessed
from trimdive.findings.finding import Finding, Limit, Remedy, check, finding
from trimdive.findings.room_ways import home_ways
from trimdive.findings.ways import best, scales
from trimdive.geometry.solids.build import numbered

RANK = 97  # above things laid into each other: it can burn [-]


@check("battery-wet")
def wet_batteries(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield batteries for which no cylinder is entered, unless so many are meant to be potted."""
    names = {one.name.casefold() for one in her.boat.batteries}
    wet = [
        (path, part)
        for path, part in numbered(her.boat)
        if part.name.casefold() in names and part.inside is None
    ]
    if len(wet) <= limit.value:
        return
    for path, part in wet:
        yield finding(
            limit=limit,
            subject=path,
            rank=RANK,
            beyond=part.mass or 0.0,
            stands=float(len(wet)),
            what=fact("battery-in-water", name=part.name),
            mend=partial(_inside, her, path, part),
            form=f"{path}.inside" if her.boat.cylinders else "cylinder",
        )


def _inside(her: Assessed, path: str, part: Part) -> Remedy:
    """Return which cylinder it belongs into, and where in it, as far as that can be told."""
    if not her.boat.cylinders:
        return fact("enter-a-cylinder"), ()
    if found := best(scales(her), home_ways(her, path)):
        return found.says, found.edits
    vessel = min(her.boat.cylinders, key=lambda one: abs(one.x - part.x))
    aft, fore = vessel.x - vessel.length / 2, vessel.x + vessel.length / 2
    return fact("enter-inside", cylinder=vessel.name, aft=aft, fore=fore), ()
