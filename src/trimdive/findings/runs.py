"""Whether hoses, cables and rods reach: how far apart what they join lies along her."""

from collections.abc import Iterator, Mapping, Sequence

from trimdive.fact import fact
from trimdive.findings.assessed import Assessed
from trimdive.findings.finding import Finding, Limit, check, finding
from trimdive.geometry.clashes.solids import Solid
from trimdive.geometry.solids.build import paths_by_name

Span = tuple[float, float]


def span_of(by_path: Mapping[str, Sequence[Solid]], path: str) -> Span:
    """Return where a thing begins and ends along her [m]; of a bare point both are its place."""
    solid = by_path[path][0]
    middle = solid.shape.place[0]
    return (middle, middle) if solid.is_point else solid.shape.spans[0]


def apart(one: Span, other: Span) -> float:
    """Return how far apart along her two things lie, end to end [m]; 0 where they overlap.

    >>> apart((0.0, 1.0), (1.5, 2.0)), apart((1.0, 3.0), (2.5, 4.0))
    (0.5, 0.0)
    """
    return max(other[0] - one[1], one[0] - other[1], 0.0)


@check("run-slack")
def reaching(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield hoses, cables and rods that are too short for where their ends lie."""
    paths = paths_by_name(her.boat)
    for k, run in enumerate(her.boat.runs, 1):
        if run.of not in paths or run.to not in paths:
            continue  # on trial without what it joins
        one, other = (span_of(her.scene.by_path, paths[name]) for name in (run.of, run.to))
        far = apart(one, other)
        if far - run.longest <= limit.value + 1e-6:
            continue
        yield finding(
            limit=limit,
            subject=f"run[{k}]",
            rank=13,
            beyond=far - run.longest,
            stands=far - run.longest,
            what=fact(
                "run-too-short", what=run.kind, of=run.of, to=run.to, far=far, longest=run.longest
            ),
            mend=fact("bring-run-nearer", what=run.kind, by=far - run.longest),
            form=f"run[{k}].longest",
        )
