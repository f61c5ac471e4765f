"""How often things laid into each other are found, and how well the volume shared is told.

``python -m tests.clashes.rates`` prints it for the six demo boats and twenty starter boats of
random lengths and materials; the tests run a short form. Each is laid into every boat that has the
things for it; volumes are held against manifold3d booleans of meshes that trimesh makes.
"""

import sys
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path

import numpy as np
from tests.clashes.drawn import drawn

from trimdive.assessment import Assessment, assess
from trimdive.estimates.starter import Wish, starter
from trimdive.findings import Edit
from trimdive.geometry.clashes.found import Clash, Sort

BOATS = Path(__file__).parents[2] / "boats"
MATERIALS = ("GRP", "PETG", "ABS", "printed resin")


@dataclass
class Rate:
    """One kind of fault over all boats."""

    tried: int = 0
    found: int = 0
    missed: list[str] = field(default_factory=list)
    off: float = 0.0  # largest error of a volume told, of the smaller thing's [-]


def demo_boats() -> Iterator[tuple[str, Assessment]]:
    """Yield the six demo boats."""
    for folder in sorted(BOATS.iterdir()):
        yield folder.name, assess(folder / "boat.toml")


def random_boats(count: int, seed: int = 7) -> Iterator[tuple[str, Assessment]]:
    """Yield starter boats of random lengths and materials."""
    draw = np.random.default_rng(seed)
    for number in range(count):
        length, material = float(draw.uniform(0.6, 2.8)), MATERIALS[int(draw.integers(4))]
        made = starter(Wish(name=f"Boat {number}", length=round(length, 2), material=material))
        yield f"{length:.2f} m {material}", Assessment(boat=made.boat, files={})


def _set(path: str, **fields: object) -> tuple[Edit, ...]:
    return (Edit(action="set", path=path, fields=tuple(fields.items())),)


def faults(her: Assessment) -> Iterator[tuple[str, Sort, tuple[str, str], tuple[Edit, ...]]]:
    """Yield what is laid wrong: its kind, how it should be named, the two paths, the changes."""
    boat = her.boat
    homes = {vessel.name: (i, vessel) for i, vessel in enumerate(boat.cylinders, 1)}
    if len(boat.tanks) > 1 and all(tank.kind == "open" for tank in boat.tanks[:2]):
        one, other = boat.tanks[:2]
        by = 0.6 * (one.length or 0.1)
        edits = _set("tank[1]", inside=other.inside, x=other.x + by, y=other.y, z=other.z)
        yield "tanks in each other", "tanks", ("tank[1]", "tank[2]"), edits
    vessel = boat.cylinders[0] if boat.cylinders else None
    if boat.lead and vessel:
        k = next(k for k, piece in enumerate(boat.lead, 1) if not piece.inside)
        high = vessel.z - vessel.outside / 2
        edits = _set(f"lead[{k}]", x=vessel.x, y=0.0, z=high, pair=None)
        yield "lead in a cylinder", "wet", (f"lead[{k}]", "cylinder[1]"), edits
    for k, part in enumerate(boat.parts, 1):
        if "battery" in part.name and part.inside in homes:
            i, home = homes[part.inside]
            edits = _set(f"part[{k}]", x=home.x + 0.75 * home.length)
            yield "battery outside its cylinder", "home", (f"part[{k}]", f"cylinder[{i}]"), edits
            break
    if len(boat.foam) > 2:
        one = boat.foam[1]
        edits = _set("foam[1]", x=one.x + 0.3 * (one.length or 0.1), y=one.y, z=one.z)
        yield "foam in foam", "wet", ("foam[1]", "foam[2]"), edits


def _named(clash: Clash, sort: Sort, pair: tuple[str, str]) -> bool:
    return clash.sort == sort and set(clash.about) == set(pair)


def _by_others(her: Assessment, pair: tuple[str, str]) -> tuple[float, float]:
    """Return what two things share by the other libraries, and the smaller's volume [m³]."""
    ones, others = (her.scene.by_path[path] for path in pair)
    both = sum((drawn(a.shape) ^ drawn(b.shape)).volume() for a in ones for b in others)
    return both, min(ones[0].shape.volume, others[0].shape.volume)


def rates(boats: Sequence[tuple[str, Assessment]]) -> tuple[dict[str, Rate], list[str]]:
    """Return how often each kind of fault is found, and what is named on untouched boats."""
    found: dict[str, Rate] = defaultdict(Rate)
    alarms: list[str] = []
    for name, her in boats:
        if name != "grebe-as-bought":  # a slip dents her hull, and her cylinder stands in the dent
            alarms += [f"{name}: {c.one.name}, {c.name}" for c in her.scene.clashes()]
        for kind, sort, pair, edits in faults(her):
            after, rate = her.edited(edits), found[kind]
            rate.tried += 1
            clash = next((c for c in after.scene.clashes() if _named(c, sort, pair)), None)
            if clash is None:
                rate.missed.append(name)
                continue
            rate.found += 1
            if sort != "home":
                theirs, least = _by_others(after, pair)
                rate.off = max(rate.off, abs(clash.volume - theirs) / least)
    return dict(found), alarms


def main(count: int) -> int:
    """Print the rates over the demo boats and so many random ones."""
    found, alarms = rates([*demo_boats(), *random_boats(count)])
    for kind, rate in found.items():
        missed = f"; missed: {', '.join(rate.missed)}" if rate.missed else ""
        print(f"{kind}: {rate.found} of {rate.tried}; volume off by {rate.off:.2%} at most{missed}")
    print(f"untouched boats: {len(alarms)} false alarms", *alarms, sep="\n  ")
    return 1 if alarms or any(rate.missed for rate in found.values()) else 0


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]) if len(sys.argv) > 1 else 20))
