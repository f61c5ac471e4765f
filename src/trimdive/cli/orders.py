"""``check``: what must be put right, worst first, as text."""

import shlex
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from trimdive.assessment.marks import marks
from trimdive.cli.layout import Block, heading, labelled, line
from trimdive.findings.order import labels
from trimdive.text import words
from trimdive.text.found import in_file, limit_text, listed_in_words, mends, what
from trimdive.text.held import WAY_UP, way_up
from trimdive.text.marks import mark_words
from trimdive.text.remaining import remaining_words
from trimdive.text.sentence import capital, sentence

if TYPE_CHECKING:
    from trimdive.assessment import Assessment

UNDER = 3  # columns by which what goes with a cause stands under it
# What placing mends; it is told where to ask for it.
PLACED = ("waterline-band", "trim-surfaced", "trim-dived", "neutral-band", "tank-offset")
PRACTICE = (
    "Limits without a source beside them are common practice; set your own under [limits] in the "
    "boat file."
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
    yield line()
    yield labelled((f"{one.where}:", mark_words(one)) for one in marks(her))
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
    afloat = mark_words(marks(her)[0]).replace("in order", "in order afloat")
    return f"{afloat}. {capital(figures)}"


def _about(her: "Assessment", k: int, called: Sequence[str]) -> Iterator[tuple[str, str]]:
    """Yield the limit, what fixes it, and what is left when it alone is fixed."""
    found = her.findings
    one = found[k]
    limit = one.limit
    if not any(other.limit.key == limit.key for other in found[:k]):
        own = "" if limit.is_practice else f" ({limit.source})"
        yield "limit", f"{limit_text(her.boat, limit)}{own}: {_lower(limit.note)}"
    first, *others = mends(her.boat, one)
    yield "fix", first
    for text in others:
        yield "more", text
    if one.form and not one.edits:
        yield "enter", in_file(one.form)
    if rest := remaining_words(her.boat, k, found, called):
        yield "rest", rest
    for text in listed_in_words(her.boat, one.hidden) if one.edits else ():
        yield "then", sentence(text)


def _lower(text: str) -> str:
    """Return a text as part of a sentence, unless it begins with an abbreviation."""
    return text[:1].lower() + text[1:] if text[1:2].islower() or text[1:2] == " " else text
