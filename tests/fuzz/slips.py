"""Boat files with one figure slipped, calculated to the end: an answer or a sentence, in time.

``python -m tests.fuzz.slips 1000`` tries as many as it is told to, and prints what came out.
"""

import random
import re
import sys
import warnings
from functools import partial

from tests.cli.boats import SMALL
from tests.fuzz.readers import FIGURES, ROOT, Figures, printed, tried

from trimdive.assessment import Assessment
from trimdive.boatfile import parse
from trimdive.page.plan import plan_picture
from trimdive.page.shown import Shown
from trimdive.pictures.drawings import boat_drawing

FACTORS = (0.0, -1.0, 1e-3, 0.01, 0.1, 1 / 25.4, 0.5, 2.0, 10.0, 25.4, 100.0, 1e3, 1e6, 1e9, 1e15)
QUANTITY = re.compile(r'"(-?\d+(?:\.\d+)?)( ?[^"\d]*)"')
NAMES = ("grebe", "plover")


def boats() -> list[tuple[str, dict[str, bytes]]]:
    """Return texts of boat files with what lies beside them; small ones more often."""
    found: list[tuple[str, dict[str, bytes]]] = [(SMALL, {})] * 8
    for name in NAMES:
        folder = ROOT / "boats" / name
        beside = {one.name: one.read_bytes() for one in folder.iterdir() if one.is_file()}
        found.append((beside.pop("boat.toml").decode(), beside))
    return found


def slipped(text: str, chance: random.Random) -> str:
    """Return a boat file with one quantity that is another."""
    one = chance.choice([*QUANTITY.finditer(text)])
    if chance.random() < 0.8:
        value = f"{float(one[1]) * chance.choice(FACTORS):.12g}"
    else:
        value = chance.choice(FIGURES)
    return f'{text[: one.start()]}"{value}{one[2]}"{text[one.end() :]}'


def calculated(text: str, beside: dict[str, bytes]) -> None:
    """Calculate a boat to the end: what the page shows, what is found, what mends it, drawings."""
    boat = parse(text)
    her = Assessment(boat=boat, files=beside)
    Shown(her=her).at_once()
    assert her.findings is not None
    assert her.bench_findings is not None
    boat_drawing(her, her.lowest)
    plan_picture(her)


def run(count: int, seed: int, longest: float = 60.0) -> Figures:
    """Calculate so many slipped boats, for no longer than allowed each [s]."""
    chance, found, known = random.Random(seed), Figures(), boats()
    for _ in range(count):
        text, beside = chance.choice(known)
        new = slipped(text, chance)
        changed = next(
            (a for a, b in zip(new.split("\n"), text.split("\n"), strict=False) if a != b), ""
        )
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            tried(found, "slip", partial(calculated, new, beside), changed.encode(), longest)
    return found


def main() -> int:
    """Run as a script: how many, and which seed."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 1000
    seed = int(sys.argv[2]) if len(sys.argv) > 2 else 1
    return printed(run(count, seed), seed)


if __name__ == "__main__":
    raise SystemExit(main())
