"""What is not in order, worst first; one function a check, one row of the table a limit.

The modules of checks enter themselves when this package is imported.
"""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from trimdive.findings import (
    afloat,
    ballast,
    bench,
    depth,
    dive,
    figures,
    handling,
    meshes,
    places,
    plant,
    plant_fed,
    promised,
    reach,
    shell,
    stability,
    tub,
)
from trimdive.findings.bench import BENCH_CHECKS, Bench, bench_findings, benched, gaps
from trimdive.findings.edits import apply
from trimdive.findings.facts import Facts
from trimdive.findings.finding import CHECKS, Edit, Finding, Limit, limit_of
from trimdive.findings.plant import PLANT_CHECKS, Works, plant_findings, works

__all__ = [
    "BENCH_CHECKS",
    "CHECKS",
    "PLANT_CHECKS",
    "Bench",
    "Edit",
    "Facts",
    "Finding",
    "Limit",
    "Works",
    "afloat",
    "apply",
    "ballast",
    "bench",
    "bench_findings",
    "benched",
    "clearing",
    "depth",
    "dive",
    "figures",
    "findings",
    "gaps",
    "handling",
    "limit_of",
    "meshes",
    "places",
    "plant",
    "plant_fed",
    "plant_findings",
    "promised",
    "reach",
    "shell",
    "stability",
    "tub",
    "with_rest",
    "works",
]


# Faults that hide how others stand.
CLEARING = ("mesh-unit", "closed-print", "void-above", "foam-above", "lines-doubt")


def findings(facts: Facts) -> tuple[Finding, ...]:
    """Return everything that is not in order, worst first.

    What remains when one alone is mended is not yet filled in; see ``with_rest``.
    """
    found = [one for key in CHECKS for one in _run(key, facts)]
    return tuple(sorted(found, key=lambda one: -one.rank))


def _run(key: str, facts: Facts) -> tuple[Finding, ...]:
    function, limit = CHECKS[key]
    return tuple(function(facts, limit_of(limit, facts.boat)))


def clearing(facts: Facts) -> tuple[Edit, ...]:
    """Return the changes that put right the faults which hide how others stand."""
    return tuple(edit for key in CLEARING for one in _run(key, facts) for edit in one.edits)


def with_rest(
    found: tuple[Finding, ...], after: Mapping[Finding, tuple[Finding, ...]]
) -> tuple[Finding, ...]:
    """Return the findings with what remains when each alone is mended, and what each follows.

    What takes others with it comes before them, however small it looks by itself.

    Args:
        found: All findings.
        after: For each that the program can mend, the findings when it alone is.
    """
    here = {one.about for one in found}
    still = {one: {other.about for other in left} for one, left in after.items()}
    told = [
        replace(
            one,
            left=tuple(other.what for other in after.get(one, ())),
            hidden=tuple(o.what for o in after.get(one, ()) if o.about not in here),
            follows=tuple(
                cause.about
                for cause, others in still.items()
                if cause is not one and one.about not in others
            ),
        )
        for one in found
    ]
    return tuple(sorted(told, key=lambda one: _urgency(one, told), reverse=True))


def _urgency(one: Finding, found: Sequence[Finding]) -> tuple[float, int, float]:
    """Return by what findings are ordered: the worst that goes with it, how many do, itself."""
    takes = [other.rank for other in found if one.about in other.follows and other is not one]
    return max([*takes, one.rank]), len(takes), one.rank
