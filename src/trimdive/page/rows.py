"""What is not in order as the page shows it: causes, each with what goes with it when mended."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from trimdive.findings.order import cause_of, labels
from trimdive.page.entries.mending import MendDoor, door_of
from trimdive.page.shown import name_of
from trimdive.text.found import limit_text, mends
from trimdive.text.remaining import remaining_words
from trimdive.text.said import said
from trimdive.text.say import Say
from trimdive.text.sentence import sentence

if TYPE_CHECKING:
    from trimdive.boatfile import Boat
    from trimdive.findings import Finding

PENDING = "Its fix is being calculated."  # none is offered before


@dataclass(frozen=True, slots=True, kw_only=True)
class Other:
    """Another way to mend something, or what else is to be known of it."""

    text: str
    name: str  # of its own button; "" where the program cannot do it


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One finding as the page shows it."""

    label: str  # "2", or "2a" for what goes with it
    name: str
    what: str
    mend: str  # the first way
    others: tuple[Other, ...]  # other ways, and what else is to be known of it
    is_doable: bool
    is_urgent: bool  # must be put right; else only looked at
    rest: str  # what it also fixes and what remains, as a sentence; "" where that is not known
    shows: tuple[str, ...]  # what shows only then
    limit: str
    source: str  # of the limit; "" where it is common practice
    along: "tuple[Row, ...]"  # what goes with it when it is mended
    door: MendDoor | None = None  # where it is put right, if the program has no change for it


def causes(boat: "Boat", found: Sequence["Finding"], *, is_tried: bool = True) -> list[Row]:
    """Return findings as the page shows them, in their order, what follows under what it follows.

    One that must be put right stands under the first cause that takes it along, so that one fault
    is told once however many figures it spoils; one to look at stands under none that must be.

    Args:
        boat: For the units in which it is told.
        found: What is not in order, worst first.
        is_tried: Each mend is calculated; else none is shown yet, and no button for it.
    """
    over = [cause_of(k, found) for k in range(len(found))]
    heads = [k for k, cause in enumerate(over) if cause is None]
    called = dict(enumerate(labels(found)))
    say = Say(boat)
    rows = [_row(say, k, found, called) for k in range(len(found))]
    if not is_tried:
        rows = [
            replace(r, mend=PENDING, others=(), is_doable=False) if r.is_doable else r for r in rows
        ]
    return [
        replace(
            rows[k],
            along=tuple(rows[i] for i, cause in enumerate(over) if cause == k),
            door=door_of(boat, found[k]),
        )
        for k in heads
    ]


def _row(say: Say, k: int, found: Sequence["Finding"], called: dict[int, str]) -> Row:
    one = found[k]
    is_own = one.limit.is_practice
    first, *rest = mends(say.boat, one)
    # Of the facts told of a mend the ways of its own come first after the first.
    others = tuple(
        Other(text=text, name=name_of(one, way) if way <= len(one.ways) else "")
        for way, text in enumerate(rest, 1)
    )
    return Row(
        label=called[k],
        name=name_of(one),
        what=sentence(said(say, one.what)),
        mend=first,
        others=others,
        is_doable=bool(one.edits),
        is_urgent=one.weight == "put right",
        rest=remaining_words(say.boat, k, found, [called[i] for i in range(len(found))]),
        shows=tuple(f"{said(say, other)}." for other in one.hidden),
        limit=f"{limit_text(say.boat, one.limit)}: {one.limit.note}",
        source="" if is_own else one.limit.source,
        along=(),
    )
