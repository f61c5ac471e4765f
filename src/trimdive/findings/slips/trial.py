"""What a search for slips works with: a boat, her sums, and what each thing is held against."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import inf

from trimdive.boatfile import Boat
from trimdive.findings.assessed import Assessed
from trimdive.findings.balance import Balance, balance_of
from trimdive.findings.slips.oddities import HEAVY, Around
from trimdive.findings.sums import Height
from trimdive.geometry.lines.mesh import Floats, volume
from trimdive.geometry.solids.build import Body, numbered
from trimdive.geometry.solids.profile import profile

Rooms = Mapping[int, tuple[float, float]]  # of tanks by their number: room [m³] and place [m]
Sums = tuple[Floats, float, Rooms]  # what a thing adds to the sums, how odd it is, and its tanks


@dataclass(frozen=True, slots=True, kw_only=True)
class Trial:
    """What the search works with."""

    assessed: Assessed
    boat: Boat
    balance: Balance
    around: Around
    line: Height
    bodies: dict[str, tuple[Body, ...]]


def trial_of(her: Assessed) -> Trial:
    """Return what a search in a boat works with."""
    boat = her.boat
    found: dict[str, tuple[Body, ...]] = {}
    for body in her.bodies:
        found[body.path] = (*found.get(body.path, ()), body)
    n, d = her.waterline
    drawn = {
        path: found[path][0].volume / found[path][0].share
        for path, part in numbered(boat)
        if part.shape == "mesh" and path in found
    }
    return Trial(
        assessed=her,
        boat=boat,
        balance=balance_of(her),
        around=Around(
            hull=profile(her.hull.envelope) if boat.regions else None,
            vessels={vessel.name: vessel for vessel in boat.cylinders},
            drawn=drawn,
            most=HEAVY * her.floater.density * abs(volume(her.hull.envelope))
            if boat.regions
            else inf,
        ),
        line=lambda x: float((d - n[0] * x) / n[2]),
        bodies=found,
    )
