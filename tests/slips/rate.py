"""How many slips of one figure are named first: forty on each boat, one at a time.

``python -m tests.slips.rate [boats …]`` prints the rate, and what failed and why. A slip counts
where it changes something a builder could notice, by the rule in ``notices``; which are tried is
drawn by chance with a fixed seed from all figures of all things and all kinds of slips, before
anything is known of what is found.
"""

import sys
import time
from dataclasses import dataclass
from math import degrees
from pathlib import Path

from tests.slips.typed import FIELDS, Slip, drawn

from trimdive.assess import Assessment, read_beside
from trimdive.boatfile import Boat, Loaded, extents, load, parse
from trimdive.bodies.build import numbered
from trimdive.errors import TrimdiveError
from trimdive.slips import explained
from trimdive.units import read

BOATS = Path(__file__).parents[2] / "boats"
COUNT, LEAST, SEED = 40, 36, 12
OUT = 0.005  # out of hull or cylinder by this much is noticed [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """What is said of one slip."""

    slip: Slip
    is_first: bool  # named first, with the figure that would be right
    is_exact: bool  # the figure asked first is the right one
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
    for each metre of her length.
    """
    a, b = right, wrong
    x = right.midships
    pairs = (
        (a.surfaced.draught(x), b.surfaced.draught(x), 3e-3),
        (degrees(a.surfaced.trim_angle), degrees(b.surfaced.trim_angle), 0.5),
        (degrees(a.dived.trim_angle), degrees(b.dived.trim_angle), 2.0),
        (degrees(a.surfaced.heel), degrees(b.surfaced.heel), 1.0),
        (degrees(a.dived.heel), degrees(b.dived.heel), 1.0),
        (a.full.rest.excess, b.full.rest.excess, 5e-3 * a.floater.mass),
        (a.need.volume, b.need.volume, 0.1 * a.need.volume),
        (a.need.fitted, b.need.fitted, 0.1 * a.need.fitted),
    )
    if any(abs(one - other) > band for one, other, band in pairs):
        return True
    if b.bg < 4e-3 * b.floater.length <= a.bg:
        return True
    before, after = outside(right), outside(wrong)
    return any(after[path] > before.get(path, 0.0) + OUT for path in after)


def answer(right: Assessment, loaded: Loaded, slip: Slip) -> Answer | None:
    """Return what is said of a slip; None where nothing could be noticed."""
    start = time.perf_counter()

    def made(boat: Boat) -> Assessment:
        return Assessment(boat=boat, files=right.files)

    try:
        boat = parse(slip.made(loaded.text), loaded.path.name)
        wrong = Assessment(boat=boat, files=right.files)
        found = wrong.first_findings
    except TrimdiveError as error:
        said = str(explained(error, slip.made(loaded.text), "boat.toml", made))
        first = any(f"{slip.path}.{f}" in said.partition("\n")[0] for f, _ in slip.typed)
        is_exact = "As it stands" in said and _asked(said.partition("?")[0], slip, right)
        return Answer(
            slip=slip,
            is_first=first,
            is_exact=is_exact,
            is_silent=False,
            said=f"refused: {said}",
            seconds=time.perf_counter() - start,
        )
    seconds = time.perf_counter() - start
    if not notices(right, wrong):
        return None
    first = found[0] if found else None
    is_first = is_exact = False
    if first and first.key == "slip" and first.subject.startswith(f"{slip.path}."):
        is_exact = _as_it_was(wrong.edited(first.edits), right, slip.path)
        is_first = is_exact or _asked(first.what, slip, right)
    urgent = [one for one in found if one.weight == "put right"]
    return Answer(
        slip=slip,
        is_first=is_first,
        is_exact=is_exact,
        is_silent=not urgent,
        said=first.what if first else "nothing",
        seconds=seconds,
    )


def _asked(said: str, slip: Slip, right: Assessment) -> bool:
    """Return whether the figure that would be right is the second of two that are asked."""
    kind = FIELDS[slip.field]
    told = said.rpartition(": ")[2].rstrip("?").split(", or ")
    if right.boat.told_from == "bow" or len(slip.typed) > 1:
        return False
    return any(abs(read(one, kind, None) - slip.was) <= 0.03 * abs(slip.was) for one in told)


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


def tried(boat: Path, count: int, seed: int = SEED) -> list[Answer]:
    """Return the answers to so many slips of a boat."""
    loaded = load(boat)
    right = Assessment(boat=loaded.boat, files=read_beside(loaded))
    found: list[Answer] = []
    for slip in drawn(loaded.text, seed):
        if len(found) == count:
            break
        if one := answer(right, loaded, slip):
            found.append(one)
    return found


def main(names: list[str], count: int = COUNT) -> int:
    """Print the rates of boats; return 1 where one is too low."""
    is_low = False
    for name in names or sorted(path.name for path in BOATS.iterdir()):
        found = tried(BOATS / name / "boat.toml", count)
        first = sum(one.is_first for one in found)
        silent = sum(one.is_silent for one in found)
        slowest = max(one.seconds for one in found)
        refused = sum(one.said.startswith("refused") for one in found)
        exact = sum(one.is_exact for one in found)
        print(
            f"{name}: {first} of {len(found)} named first ({refused} refused at once, {exact} by "
            f"the right figure alone), {silent} silent, slowest {slowest:.1f} s",
            flush=True,
        )
        for one in found:
            if not one.is_first:
                silence = "SILENT " if one.is_silent else ""
                print(f"   {silence}{one.slip}, right {one.slip.was:.4g}: {one.said[:150]}")
        is_low |= first < LEAST * len(found) / COUNT or silent > 0
    return int(is_low)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
