"""Boats by chance that are in order: as ``new`` guesses them, weighed, jittered, put right again.

Seeds are fixed, and what puts them right are the mends that the findings offer: the same boats
each time. Every fourth counts in inches and ounces.
"""

from collections.abc import Iterator
from random import Random

from trimdive.assessment import Assessment
from trimdive.boatfile import parse, set_value
from trimdive.edits.writing import rewritten
from trimdive.errors import TrimdiveError
from trimdive.estimates.starter import Wish, starter
from trimdive.text.first_boat import first_boat
from trimdive.units import number_in

METRIC = {"length": "mm", "mass": "g", "volume": "cm3"}
INCHES = {"length": "in", "mass": "oz", "volume": "in3"}
MATERIALS = ("GRP", "PETG", "ABS")
SHIFT = 0.01  # of her length, by which things inside are jittered [-]
HEAVIER = 0.15  # share by which their masses are [-]
MENDS = 6  # that may be needed to put her right again [-]


def by_chance(count: int) -> Iterator[tuple[str, str]]:
    """Yield names and texts of so many boats that are in order."""
    seed = 0
    while count:
        text = in_order(seed)
        if text:
            count -= 1
            yield f"seed {seed}", text
        seed += 1


def in_order(seed: int) -> str | None:
    """Return the text of a boat by chance; None where she does not come into order."""
    chance = Random(seed)
    made = starter(
        Wish(
            name=f"Dunlin {seed}",
            length=round(chance.uniform(0.6, 2.4), 2),
            kind=chance.choice(("wet", "wet", "dry")),
            material=chance.choice(MATERIALS),
            scale=chance.choice((None, 24.0, 36.0, 48.0)),
            units=INCHES if seed % 4 == 3 else METRIC,
        )
    )  # fmt: skip
    text = jittered(first_boat(made).replace('known = "guess"', 'known = "weighed"'), chance)
    for _ in range(MENDS):
        try:
            her = Assessment(boat=parse(text), files={})
            if not [one for one in her.findings if one.weight == "put right"]:
                return text
            edits = next((one.edits for one in her.findings if one.edits), ())
            if not edits:
                return None
            text = rewritten(text, edits, {})
        except TrimdiveError:
            return None
    return None


def jittered(text: str, chance: Random) -> str:
    """Return the text of a boat with what lies inside her jittered: masses and places."""
    boat = parse(text)
    length = boat.length or 1.0
    for k, part in enumerate(boat.parts, 1):
        if not part.inside or part.mass is None:
            continue
        mass = part.mass * chance.uniform(1 - HEAVIER, 1 + HEAVIER)
        x = boat.along(part.x + length * chance.uniform(-SHIFT, SHIFT))
        for field, kind, value in (("mass", "mass", mass), ("x", "length", x)):
            unit = boat.units.shown(kind)
            text = set_value(
                text, f"part[{k}].{field}", f"{number_in(value, kind, unit):.4g} {unit}"
            )
    return text
