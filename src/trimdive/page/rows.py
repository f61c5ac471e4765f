"""What is not in order as the page shows it: causes, each with what goes with it when mended."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from trimdive.findings.order import LETTERS, cause_of, labels
from trimdive.hydrostatics.equilibrium.named import listed
from trimdive.page.shown import name_of
from trimdive.text.found import limit_text
from trimdive.text.said import said
from trimdive.text.say import Say
from trimdive.text.sentence import sentence

if TYPE_CHECKING:
    from trimdive.boatfile import Boat
    from trimdive.findings import Finding

PENDING = "Its fix is being calculated."  # none is offered before


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One finding as the page shows it."""

    label: str  # "2", or "2a" for what goes with it
    name: str
    what: str
    mend: str
    is_doable: bool
    is_urgent: bool  # must be put right; else only looked at
    takes: str  # labels of those that go with it
    stays: str  # labels of causes that stay
    shows: tuple[str, ...]  # what shows only then
    limit: str
    source: str  # of the limit; "" where it is common practice
    along: "tuple[Row, ...]"  # what goes with it when it is mended


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
        rows = [replace(r, mend=PENDING, is_doable=False) if r.is_doable else r for r in rows]
    return [
        replace(rows[k], along=tuple(rows[i] for i, cause in enumerate(over) if cause == k))
        for k in heads
    ]


def _row(say: Say, k: int, found: Sequence["Finding"], called: dict[int, str]) -> Row:
    one = found[k]
    takes = [i for i, other in enumerate(found) if i != k and one.about in other.follows]
    stays = [i for i in range(len(found)) if i != k and i not in takes and called[i].isdigit()]
    own = called[k].rstrip(LETTERS)
    is_own = one.limit.is_practice
    return Row(
        label=called[k],
        name=name_of(one),
        what=sentence(said(say, one.what)),
        mend=said(say, one.mend),
        is_doable=bool(one.edits),
        is_urgent=one.weight == "put right",
        takes=listed([called[i] for i in takes]),
        stays=numbers([int(called[i]) for i in stays if called[i] != own or called[k] == own]),
        shows=tuple(sentence(said(say, other)) for other in one.hidden),
        limit=f"{limit_text(say.boat, one.limit)}: {one.limit.note}",
        source="" if is_own else one.limit.source,
        along=(),
    )


def numbers(found: Sequence[int]) -> str:
    """Return numbers in a sentence, neighbours drawn together.

    >>> numbers([2]), numbers([2, 3]), numbers([2, 4, 5, 6, 9])
    ('2', '2 and 3', '2, 4 to 6 and 9')
    """
    spans: list[list[int]] = []
    for one in found:
        if spans and spans[-1][1] == one - 1:
            spans[-1][1] = one
        else:
            spans.append([one, one])
    texts = [
        text
        for low, high in spans
        for text in ([f"{low} to {high}"] if high > low + 1 else map(str, sorted({low, high})))
    ]
    return listed(texts)
