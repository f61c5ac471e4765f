"""How many slips of one figure are named first: forty on each boat, one at a time.

``python -m tests.slips.rate [boats …]`` prints the rates of the demo boats and of twenty boats by
chance, boat by boat, with what failed and why, and what is called a slip on each unspoilt. A slip
counts where it changes something a builder could notice, by the rule in ``notices``; which are
tried is drawn by chance with a fixed seed from all figures of all things and all kinds of slips,
before anything is known of what is found. What is looked at is what ``check`` prints.
"""

import sys
import time
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import degrees
from pathlib import Path

from tests.said import what_of
from tests.slips.boats import by_chance
from tests.slips.typed import FIELDS, Slip, drawn

from trimdive.assessment import Assessment, read_beside
from trimdive.boatfile import Boat, extents, load, parse
from trimdive.errors import TrimdiveError
from trimdive.findings.slips import explained
from trimdive.geometry.solids.build import numbered
from trimdive.geometry.solids.surfaces import Files
from trimdive.units import read

BOATS = Path(__file__).parents[2] / "boats"
COUNT, LEAST, SEED = 40, 36, 12
ASKING = ("slip", "figure-least", "lead-fill")  # checks that ask for another figure
RANDOM = 20  # boats by chance
OUT = 0.005  # out of hull or cylinder by this much is noticed [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """What is said of one slip."""

    slip: Slip
    is_first: bool  # named first, and the figure asked first is the right one
    is_asked: bool  # named first, and the right figure is the first or second that is asked
    is_silent: bool
    said: str
    seconds: float


def outside(her: Assessment) -> dict[str, float]:
    """Return how far each thing stands out of the box about the hull, or of its cylinder [m]."""
    found: dict[str, float] = {}
    low, high = her.hull.envelope.bounds
    vessels = {one.name: one for one in her.boat.cylinders}
    for path, part in [
        *numbered(her.boat),
        *((f"tank[{i}]", t) for i, t in enumerate(her.boat.tanks, 1)),
    ]:
        size = [s or 0.0 for s in (extents(part) if path[:4] != "tank" else (part.length, 0, 0))]
        place = (part.x, part.y, part.z)
        if home := vessels.get(part.inside or ""):
            far = [
                abs(part.x - home.x) + size[0] / 2 - home.length / 2,
                abs(part.y - home.y) + size[1] / 2 - home.bore / 2,
                abs(part.z - home.z) + size[2] / 2 - home.bore / 2,
            ]
        else:
            far = [max(low[k] - place[k], place[k] - high[k]) + size[k] / 2 for k in range(3)]
        found[path] = max(*far, 0.0)
    for i, one in enumerate(her.boat.cylinders, 1):
        size = (one.length, one.outside, one.outside)
        place = (one.x, one.y, one.z)
        far = [max(low[k] - place[k], place[k] - high[k]) + size[k] / 2 for k in range(3)]
        found[f"cylinder[{i}]"] = max(*far, 0.0)
    return found


def notices(right: Assessment, wrong: Assessment) -> bool:
    """Return whether a builder could notice a slip: by a band of hers, or by a thing's place.

    The bands: 3 mm of draught amidships, half a degree of trim afloat, 2° of trim or 1° of heel,
    half a per cent of her mass in lift left, a tenth of the litres needed or held, BG below 4 mm
    for each metre of her length. A boat that is farther off already must be thrown off by more
    than that: what shows less than her own faults shows to nobody.
    """
    a, b = right, wrong
    x = right.midships
    n, d = right.waterline
    meant = float((d - n[0] * x) / n[2])
    pairs = (
        (a.surfaced.draught(x), b.surfaced.draught(x), meant, 3e-3),
        (degrees(a.surfaced.trim_angle), degrees(b.surfaced.trim_angle), -degrees(n[0]), 0.5),
        (degrees(a.dived.trim_angle), degrees(b.dived.trim_angle), 0.0, 2.0),
        (degrees(a.surfaced.heel), degrees(b.surfaced.heel), 0.0, 1.0),
        (degrees(a.dived.heel), degrees(b.dived.heel), 0.0, 1.0),
        (a.full.rest.excess, b.full.rest.excess, 0.0, 5e-3 * a.floater.mass),
        (a.need.volume, b.need.volume, a.need.volume, 0.1 * a.need.volume),
        (a.need.fitted, b.need.fitted, a.need.fitted, 0.1 * a.need.fitted),
    )
    if any(abs(one - other) > max(band, abs(one - order)) for one, other, order, band in pairs):
        return True
    if b.bg < 4e-3 * b.floater.length <= a.bg:
        return True
    before, after = outside(right), outside(wrong)
    return any(after[path] > before.get(path, 0.0) + OUT for path in after)


def answer(right: Assessment, text: str, slip: Slip) -> Answer | None:
    """Return what is said of a slip; None where nothing could be noticed."""
    start = time.process_time()

    def made(boat: Boat) -> Assessment:
        return Assessment(boat=boat, files=right.files)

    spoilt = slip.made(text)
    try:
        wrong = Assessment(boat=parse(spoilt, "boat.toml"), files=right.files)
        found = wrong.first_findings
        if not notices(right, wrong):
            return None
        found = wrong.findings
    except TrimdiveError as error:
        said = str(explained(error, spoilt, "boat.toml", made))
        at_line = said.partition("\n")[0]
        is_named = any(f"{slip.path}.{field}" in at_line for field, _ in slip.typed)
        asks = is_named and "As it stands" in said
        return Answer(
            slip=slip,
            is_first=asks and _asked(said.partition("?")[0].partition(", or ")[0], slip, right),
            is_asked=asks and _asked(said.partition("? As it stands")[0], slip, right),
            is_silent=False,
            said=f"refused: {said}",
            seconds=time.process_time() - start,
        )
    first = found[0] if found else None
    is_first = is_asked = False
    if first and first.key in ASKING and first.subject.partition(".")[0] == slip.path:
        is_first = _as_it_was(wrong.edited(first.edits), right, slip.path)
        is_same = first.subject == f"{slip.path}.{slip.field}"
        is_asked = is_first or (is_same and _asked(what_of(first), slip, right))
    return Answer(
        slip=slip,
        is_first=is_first,
        is_asked=is_asked,
        is_silent=not (wrong.urgent or wrong.urgent_on_bench),
        said=what_of(first) if first else "nothing",
        seconds=time.process_time() - start,
    )


def _asked(said: str, slip: Slip, right: Assessment) -> bool:
    """Return whether the figure that would be right is the second of two that are asked."""
    kind = FIELDS[slip.field]
    shown = said.rpartition(": ")[2].rstrip("?").split(", or ")
    if right.boat.entered_from == "bow" or len(slip.typed) > 1:
        return False
    return any(abs(read(one, kind, None) - slip.was) <= 0.03 * abs(slip.was) for one in shown)


def _as_it_was(mended: Assessment, right: Assessment, path: str) -> bool:
    """Return whether a thing is as it should be, within what is written."""
    a, b = _thing(mended, path), _thing(right, path)
    for field in type(a).model_fields:
        one, other = getattr(a, field), getattr(b, field)
        if isinstance(one, float) and isinstance(other, float) and _differ(one, other):
            return False
    return True


def _differ(one: float, other: float) -> bool:
    return abs(one - other) > 1e-4 + 0.03 * abs(other)


def _thing(her: Assessment, path: str):
    name, _, number = path.partition("[")
    if name == "waterline":
        return her.boat.waterline
    lists = {
        "region": "regions",
        "coat": "coats",
        "cylinder": "cylinders",
        "tank": "tanks",
        "part": "parts",
        "lead": "lead",
        "foam": "foam",
    }
    return getattr(her.boat, lists[name])[int(number[:-1]) - 1]


def tried(text: str, files: Files, count: int, seed: int = SEED) -> list[Answer]:
    """Return the answers to so many slips of a boat.

    Args:
        text: Of her boat file, unspoilt.
        files: Beside it.
        count: Slips that a builder could notice.
        seed: By which they are drawn.
    """
    right = Assessment(boat=parse(text, "boat.toml"), files=files)
    found: list[Answer] = []
    for slip in drawn(text, seed):
        if len(found) == count:
            break
        if one := answer(right, text, slip):
            found.append(one)
    return found


def boats(names: Sequence[str] = (), count: int = RANDOM) -> Iterator[tuple[str, str, Files]]:
    """Yield name, text and files of the demo boats, and of so many by chance.

    Args:
        names: Of demo boats, or seeds such as "seed 3"; none: all.
        count: Boats by chance.
    """
    for name in sorted(path.name for path in BOATS.iterdir()):
        if not names or name in names:
            loaded = load(BOATS / name / "boat.toml")
            yield name, loaded.text, read_beside(loaded)
    for name, text in by_chance(count):
        if not names or name in names:
            yield name, text, {}


def cried(text: str, files: Files) -> int:
    """Return how often a slip is asked of an unspoilt boat."""
    her = Assessment(boat=parse(text, "boat.toml"), files=files)
    return sum(one.key == "slip" for one in her.findings)


def main(names: list[str], count: int = COUNT) -> int:
    """Print the rates of boats; return 1 where one is too low."""
    is_low = False
    for name, text, files in boats(names):
        found, alarms = tried(text, files, count), cried(text, files)
        first, asked = sum(one.is_first for one in found), sum(one.is_asked for one in found)
        silent = sum(one.is_silent for one in found)
        refused = sum(one.said.startswith("refused") for one in found)
        spent = [one.seconds for one in found]
        print(
            f"{name}: of {len(found)} slips {first} named first, {asked} first with the right "
            f"figure the first or second asked ({refused} refused at once), {silent} silent; "
            f"unspoilt {alarms} asked; slowest {max(spent):.1f} s, all {sum(spent):.0f} s",
            flush=True,
        )
        for one in found:
            if not one.is_asked or one.is_silent:
                silence = "SILENT " if one.is_silent else ""
                print(f"   {silence}{one.slip}, right {one.slip.was:.4g}: {one.said[:150]}")
        is_low |= asked < LEAST * len(found) / COUNT or silent > 0 or alarms > 0
    return int(is_low)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
