"""Why something is found not to be in order: against which limit, and by which figure."""

from typing import TYPE_CHECKING

from trimdive.errors import TrimdiveError
from trimdive.fact import fact
from trimdive.findings.order import labels
from trimdive.why.spread import EXACT
from trimdive.why.why import Value, Why, figure

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.findings import Finding

FIGURES = {  # the figure that a check holds against its limit
    "bg-least": "bg-upright",
    "gm-least": "gm-least",
    "trim-dived": "trim",
    "tank-offset": "tank-water-offset",
    "tank-margin": "litres-needed",
    "tank-most": "litres-needed",
    "neutral-band": "light-or-heavy",
    "waterline-band": "dry-mass",
    "void-above": "volume-above",
    "closed-print": "volume-above",
    "tower-shut": "volume-above",
    "tower-floor": "volume-above",
    "foam-above": "volume-above",
    "lift-one": "dry-mass",
    "lift-two": "dry-mass",
    "brief-lift": "dry-mass",
    "weigh-in": "dry-mass",
    "guess-share": "dry-mass",
}

MEASURED = ("length", "angle", "mass", "volume")  # quantities that her units write


def every_finding(her: "Assessment") -> "tuple[Finding, ...]":
    """Return what is not in order afloat, then on the bench; each in its order."""
    try:
        return (*her.findings, *her.bench_findings)
    except TrimdiveError:  # a cylinder that cannot be as it is told: the bench says so
        return her.findings


def found_names(her: "Assessment") -> tuple[str, ...]:
    """Return what each finding is called: as ``check`` has it, "2a", or "bench 1" on the bench."""
    bench = len(every_finding(her)) - len(her.findings)
    return (*labels(her.findings), *(f"bench {k}" for k in range(1, bench + 1)))


def found_keys(her: "Assessment") -> tuple[str, ...]:
    """Return the keys under which the findings can be asked, in their order."""
    return tuple(f"finding/{name}" for name in found_names(her))


def _called(her: "Assessment", name: str) -> "Finding":
    return every_finding(her)[found_names(her).index(name)]


def figure_behind(her: "Assessment", name: str) -> str:
    """Return the key of the figure that a finding holds against its limit; "" where none is."""
    return FIGURES.get(_called(her, name).key, "")


def of_finding(her: "Assessment", name: str, behind: Why | None) -> Why:
    """Return why something is found.

    Args:
        her: The boat.
        name: What the finding is called.
        behind: The figure that it holds against its limit, where there is one.
    """
    one = _called(her, name)
    return Why(
        key=f"finding/{name}",
        answer=one.what,
        result=one.limit.value,
        kind="",
        reason=fact("why-found", note=one.limit.note, mend=one.mend),
        formula="",
        values=(*_limit(her, one), *(_figure(behind) if behind else _stands(one))),
        heads=(),
        items=(),
        source=one.limit.source,
        uncertainty=EXACT,
    )


def _limit(her: "Assessment", one: "Finding") -> tuple[Value, ...]:
    """Return the limit; nothing where it only says that none may be so."""
    if one.limit.quantity == "count" and not one.limit.value:
        return ()
    return (
        Value(
            symbol="",
            means="limit",
            shown=fact("limit-as-written", limit=one.limit),
            value=one.limit.value,
            kind="",
            origin=fact("from-limits", is_own=one.key in her.boat.limits),
            asks="",
        ),
    )


def _stands(one: "Finding") -> tuple[Value, ...]:
    """Return what is held against the limit, where it is told in one of her units."""
    if one.stands is None or one.limit.quantity not in MEASURED:
        return ()
    return (
        Value(
            symbol="",
            means="as-it-stands",
            shown=figure(one.stands, one.limit.quantity),
            value=one.stands,
            kind=one.limit.quantity,
            origin=fact("from-work"),
            asks="",
        ),
    )


def _figure(behind: Why) -> tuple[Value, ...]:
    """Return the figure behind a check, to be asked in its turn."""
    return (
        Value(
            symbol="",
            means="figure-behind",
            shown=behind.answer,
            value=behind.result,
            kind=behind.kind,
            origin="",
            asks=behind.key,
        ),
    )
