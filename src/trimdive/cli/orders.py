"""``check``: what must be put right, worst first, as text."""

import shlex
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from trimdive.cli.layout import Block, heading, labelled, line
from trimdive.findings.order import labels
from trimdive.hydrostatics.equilibrium.named import listed
from trimdive.text import words
from trimdive.text.found import limit_text, listed_in_words, mend, what
from trimdive.text.held import WAY_UP, way_up
from trimdive.text.sentence import sentence

if TYPE_CHECKING:
    from trimdive.assessment import Assessment

UNDER = 3  # columns by which what goes with a cause stands under it
MANY = 4  # findings that all stay are told one by one only where they are fewer [-]
# What placing mends; it is told where to ask for it.
PLACED = ("waterline-band", "trim-surfaced", "trim-dived", "neutral-band", "tank-offset")
PRACTICE = (
    "Limits without a source beside them are common practice; [limits] in the boat file sets your "
    "own."
)


def check_text(her: "Assessment", given: Path | None = None) -> Iterator[Block]:
    """Yield what ``check`` prints.

    Args:
        her: The boat.
        given: BOAT as typed, to point at what places lead and foam.
    """
    found = her.findings
    count, called = her.urgent, labels(found)
    yield line(words.title(her))
    yield line(sentence(_headline(her)))
    for k, one in enumerate(found):
        if k == 0 or found[k - 1].weight != one.weight:
            yield heading("To put right" if one.weight == "put right" else "To look at")
        under = 0 if called[k].isdigit() else UNDER
        yield labelled([(f"{called[k]}.", sentence(what(her.boat, one)))], indent=under)
        yield labelled(_about(her, k, called), indent=under + 3)
    if texts := way_up(her):
        yield heading(WAY_UP)
        for text in texts:
            yield line(text)
    if any(one.limit.is_practice for one in found):
        yield line()
        yield line(PRACTICE)
    if count:
        yield line()
        yield line(f"{words.things(count)}.")
    if given and any(one.key in PLACED and one.weight == "put right" for one in found):
        yield line(
            "To put both states right at once with lead, foam and other changes: trimdive place "
            f"{shlex.quote(str(given))}"
        )


def _headline(her: "Assessment") -> str:
    """Return the figures that matter most, and whether she is in order."""
    figures = words.headline(her)
    if her.urgent:
        return figures
    order = "in order" if her.wholly_in_order else "nothing to put right in the water"
    return f"{order}{', but watch the way up' if way_up(her) else ''}: {figures}"


def _about(her: "Assessment", k: int, called: Sequence[str]) -> Iterator[tuple[str, str]]:
    """Yield the limit, what fixes it, and what is left when it alone is fixed."""
    found = her.findings
    one = found[k]
    limit = one.limit
    if not any(other.limit.key == limit.key for other in found[:k]):
        own = "" if limit.is_practice else f" ({limit.source})"
        yield "limit", f"{limit_text(her.boat, limit)}{own}: {_lower(limit.note)}"
    yield "fix", mend(her.boat, one)
    if not one.edits:
        return
    goes = [called[i] for i, other in enumerate(found) if i != k and one.about in other.follows]
    stays = [name for i, name in enumerate(called) if i != k and name not in goes]
    if goes:
        yield "also", f"fixes {listed(goes)}"
    if stays:
        many = len(stays) >= MANY
        rest = ("all the rest" if goes else "all the others") if many else listed(stays)
        yield "left", f"{rest} {'remains' if len(stays) == 1 else 'remain'}"
    for text in listed_in_words(her.boat, one.hidden):
        yield "then", f"you will see: {text}"


def _lower(text: str) -> str:
    """Return a text as part of a sentence, unless it begins with an abbreviation."""
    return text[:1].lower() + text[1:] if text[1:2].islower() or text[1:2] == " " else text
