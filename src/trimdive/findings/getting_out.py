"""Checks of how she fits: what does not come out of her, and gaps that are too narrow.

They stand apart from the checks of the boat in the water, for taking everything out of her takes
seconds: they are made when that has been asked for.
"""

from collections.abc import Callable, Iterator

from trimdive.boatfile import Boat
from trimdive.fact import Fact, fact
from trimdive.findings.finding import Edit, Finding, Limit, entering, finding, limit_of
from trimdive.fit.fitted import Fit
from trimdive.fit.gaps import MOVING
from trimdive.fit.out import EDGES, Out

FitCheck = Callable[[Fit, Limit], Iterator[Finding]]
FIT_CHECKS: dict[str, FitCheck] = {}
fit_check = entering(FIT_CHECKS)


def fit_findings(boat: Boat, found: Fit) -> tuple[Finding, ...]:
    """Return what is not in order with how a boat's things fit and come out, worst first.

    Args:
        boat: The boat.
        found: How things fit.

    Raises:
        BoatError: A limit of the boat file is none.
    """
    every = [one for key, run in FIT_CHECKS.items() for one in run(found, limit_of(key, boat))]
    return tuple(sorted(every, key=lambda one: (one.weight != "put right", -one.rank)))


@fit_check("way-out")
def comes_out(found: Fit, limit: Limit) -> Iterator[Finding]:
    """Yield each large thing that does not come out, and what would free it."""
    for one in found.outs:
        if one.way is not None:
            continue
        yield finding(
            limit=limit, subject=one.path, rank=78, stands=1.0, what=stays(one), mend=frees(one),
            edits=longer(one), form=one.cut.path if one.cut else "",
            weight="put right" if one.is_sure else "look at",
        )  # fmt: skip


def stays(one: Out) -> Fact:
    """Return that a thing does not come out, and why.

    Args:
        one: The thing; there is no way out for it.
    """
    if one.in_way:
        return fact("in-its-way-out", name=one.name, spaces=one.in_way)
    if one.cut is not None and (one.cut.needs is not None or one.is_sure):
        return fact("opening-short", name=one.name, hatch=one.cut.name, opens=one.cut.opens)
    if not one.is_sure:
        return fact("no-way-found", name=one.name)
    return fact("stays-in", name=one.name)


def frees(one: Out) -> Fact:
    """Return what would free a thing that does not come out.

    Args:
        one: The thing; there is no way out for it.
    """
    if one.in_way:
        return fact("free-its-way", spaces=one.in_way)
    if one.cut is None or one.cut.needs is None:
        return fact("not-by-length")
    aft, fore = one.cut.edges
    return fact(
        "cut-longer", hatch=one.cut.name, aft=aft, fore=fore, needs=one.cut.needs,
        spaces=one.cut.beside, first=one.first, over=one.cut.over,
    )  # fmt: skip


def longer(one: Out) -> tuple[Edit, ...]:
    """Return the change of its hatch with which a thing comes out, where that alone frees it.

    Args:
        one: The thing; there is no way out for it.
    """
    cut = one.cut
    if one.in_way or cut is None or cut.beside:
        return ()
    moved = zip(EDGES, cut.edges, strict=True)
    fields = tuple((key, at) for key, at in moved if at is not None)
    return (Edit(action="set", path=cut.path, fields=fields),) if fields else ()


@fit_check("gap-cylinder")
def clear_of_skin(found: Fit, limit: Limit) -> Iterator[Finding]:
    """Yield cylinders that lie nearer to the skin than they should."""
    for one in found.gaps:
        if one.kind == "cylinder" and one.to == "skin" and one.width < limit.value:
            yield finding(
                limit=limit, subject=one.path, rank=12, beyond="by limit", stands=one.width,
                what=fact("near-skin", name=one.name, skin=one.other, width=one.width,
                          x=one.place[0]),
                mend=fact("make-room", name=one.name, least=limit.value), weight="look at",
            )  # fmt: skip


@fit_check("gap-moving")
def clear_on_its_way(found: Fit, limit: Limit) -> Iterator[Finding]:
    """Yield moving parts that come too near to something on their way."""
    for one in found.gaps:
        if one.kind == MOVING and one.width < limit.value:
            yield finding(
                limit=limit, subject=one.path, rank=14, beyond="by limit", stands=one.width,
                what=fact("near-on-its-way", name=one.name, other=one.other, width=one.width,
                          x=one.place[0]),
                mend=fact("clear-its-way", name=one.name, others=(one.other,)), weight="look at",
                form=f"{one.path}.moving",
            )  # fmt: skip
