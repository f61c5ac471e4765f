"""Check of what must stay dry: batteries in open water."""

from collections.abc import Iterator
from functools import partial

from trimdive.boatfile import Part
from trimdive.bodies.build import numbered
from trimdive.fact import fact
from trimdive.findings.facts import Facts
from trimdive.findings.finding import Finding, Limit, Told, check, finding
from trimdive.findings.room_ways import home_ways
from trimdive.findings.ways import best, scales

RANK = 97  # above things laid into each other: it can burn [-]


@check("battery-wet")
def wet_batteries(facts: Facts, limit: Limit) -> Iterator[Finding]:
    """Yield batteries for which no cylinder is entered, unless so many are meant to be potted."""
    names = {one.name.casefold() for one in facts.boat.batteries}
    wet = [
        (path, part)
        for path, part in numbered(facts.boat)
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
            mend=partial(_inside, facts, path, part),
        )


def _inside(facts: Facts, path: str, part: Part) -> Told:
    """Return which cylinder it belongs into, and where in it, as far as that can be told."""
    if not facts.boat.cylinders:
        return fact("enter-a-cylinder"), ()
    if found := best(scales(facts), home_ways(facts, path)):
        return found.says, found.edits
    vessel = min(facts.boat.cylinders, key=lambda one: abs(one.x - part.x))
    aft, fore = vessel.x - vessel.length / 2, vessel.x + vessel.length / 2
    return fact("enter-inside", cylinder=vessel.name, aft=aft, fore=fore), ()
