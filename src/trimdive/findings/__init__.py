"""What is not in order, worst first; one function a check, one row of the table a limit.

The modules of checks enter themselves when this package is imported.
"""

from trimdive.findings import (
    afloat,
    astray,
    ballast,
    bench,
    depth,
    dive,
    dry,
    figures,
    fullsize,
    getting_out,
    handling,
    meshes,
    places,
    plant,
    plant_fed,
    promised,
    reach,
    regions,
    room,
    runs,
    shell,
    stability,
    tub,
)
from trimdive.findings.assessed import Assessed
from trimdive.findings.bench import BENCH_CHECKS, Bench, bench_findings, benched, gaps
from trimdive.findings.edits import apply
from trimdive.findings.finding import CHECKS, Edit, Finding, Limit, limit_of
from trimdive.findings.gate import gated, refused
from trimdive.findings.getting_out import FIT_CHECKS, fit_findings
from trimdive.findings.order import IMPOSSIBLE, burden, in_order, with_rest
from trimdive.findings.plant import PLANT_CHECKS, Works, plant_findings, works
from trimdive.findings.room import ROOM_KEYS

__all__ = [
    "BENCH_CHECKS",
    "CHECKS",
    "FIT_CHECKS",
    "IMPOSSIBLE",
    "PLANT_CHECKS",
    "ROOM_KEYS",
    "Assessed",
    "Bench",
    "Edit",
    "Finding",
    "Limit",
    "Works",
    "afloat",
    "apply",
    "astray",
    "ballast",
    "bench",
    "bench_findings",
    "benched",
    "burden",
    "clearing",
    "depth",
    "dive",
    "dry",
    "figures",
    "findings",
    "fit_findings",
    "fullsize",
    "gaps",
    "getting_out",
    "handling",
    "in_order",
    "limit_of",
    "meshes",
    "places",
    "plant",
    "plant_fed",
    "plant_findings",
    "promised",
    "reach",
    "refused",
    "regions",
    "room",
    "runs",
    "shell",
    "stability",
    "tub",
    "with_rest",
    "works",
]


# Faults that hide how others stand.
CLEARING = (
    "mesh-unit", "closed-print", "tower-shut", "void-above", "foam-above", "lines-doubt",
    "full-size", "room-tanks", "room-home",
)  # fmt: skip


def findings(her: Assessed) -> tuple[Finding, ...]:
    """Return everything that is not in order, worst first.

    What remains when one alone is mended is not yet filled in; see ``with_rest``.
    """
    found = [one for key in CHECKS for one in _run(key, her)]
    return in_order(found)


def _run(key: str, her: Assessed) -> tuple[Finding, ...]:
    function, limit = CHECKS[key]
    return tuple(gated(one, her) for one in function(her, limit_of(limit, her.boat)))


def clearing(her: Assessed) -> tuple[Finding, ...]:
    """Return the faults which hide how others stand, and which the program can put right."""
    return tuple(one for key in CLEARING for one in _run(key, her) if one.edits)
