"""The boats whose answers are walked: the demo boats, and twenty made and changed by chance.

Seeds are fixed: the same boats each time. Half are as ``new`` writes them, half are changed so
that little of them is in order; every fourth counts in inches and ounces. The largest is too
heavy for one to lift; one has foam rubber in the wet, so that from some depth blown tanks do not
bring her up.
"""

from collections.abc import Iterator
from functools import cache
from random import Random

from tests.cli.boats import NAMES, SMALL, demo

from trimdive.assessment import Assessment
from trimdive.boatfile import Boat, Part, Units, parse
from trimdive.estimates.starter import Wish, starter

COUNT = 20  # boats by chance
INCHES = Units(length="in", mass="oz", volume="in³")
MATERIALS = ("GRP", "PETG", "ABS")
LARGE, SOFT = 4, 6  # seeds of boats that are like no other
LARGEST = 2.6  # [m]


def names() -> tuple[str, ...]:
    """Return the names of all boats that are walked."""
    return (*NAMES, *(f"seed {seed}" for seed in range(COUNT)))


@cache
def boat(name: str) -> Assessment:
    """Return a boat by its name, its findings without what remains when one alone is mended."""
    her = demo(name) if name in NAMES else Assessment(boat=_by_chance(int(name[5:])), files={})
    own = Assessment(boat=her.boat, files=her.files)
    own.__dict__.update(
        {key: her.__dict__[key] for key in ("hull", "bodies") if key in her.__dict__}
    )
    own.__dict__["findings"] = own.first_findings
    return own


def _by_chance(seed: int) -> Boat:
    chance = Random(seed)
    if seed % 2:
        made = parse(SMALL, "boat.toml")
    else:
        made = starter(
            Wish(
                name=f"Dunlin {seed}",
                length=LARGEST if seed == LARGE else round(chance.uniform(0.7, 1.6), 2),
                kind=chance.choice(("wet", "dry")), material=chance.choice(MATERIALS),
                units={"length": "mm", "mass": "g", "volume": "cm3"},
            )
        ).boat  # fmt: skip
    changed = dict(_changes(made, chance)) if seed % 4 else {}
    if seed == SOFT:
        changed["parts"] = (*changed["parts"], _fender(made))
    if seed % 4 == 3:
        changed["units"] = INCHES
    return made.model_copy(update=changed)


def _fender(made: Boat) -> Part:
    """Return foam rubber that weighs what it pushes aside at the surface, low in the wet."""
    wet = next(part for part in made.parts if not part.inside and part.volume)
    return wet.model_copy(
        update={
            "name": "fender", "mass": 1.5, "volume": 1.5e-3, "material": "foam rubber",
            "shape": "point", "through_hull": False, "y": 0.0, "z": 0.03,
        }
    )  # fmt: skip


def _changes(made: Boat, chance: Random) -> Iterator[tuple[str, object]]:
    """Yield fields that are changed: tanks along her, lead heavier or lighter, parts higher."""
    yield (
        "tanks",
        tuple(
            tank.model_copy(update={"x": tank.x + chance.uniform(-0.03, 0.03)})
            if tank.kind == "open"
            else tank
            for tank in made.tanks
        ),
    )
    yield (
        "lead",
        tuple(
            piece.model_copy(
                update={
                    "mass": (piece.mass or 0.0) * chance.uniform(0.8, 1.15),
                    "x": piece.x + chance.uniform(-0.01, 0.01),
                }
            )
            for piece in made.lead
        ),
    )
    yield (
        "parts",
        tuple(
            part.model_copy(update={"z": part.z + chance.uniform(0.0, 0.01)})
            if part.inside
            else part
            for part in made.parts
        ),
    )
