"""``check``: what must be put right, worst first, as text."""

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from trimdive.cli import words
from trimdive.cli.layout import Block, heading, labelled, line

if TYPE_CHECKING:
    from trimdive.assess import Assessment
    from trimdive.findings import Finding


def check_text(her: "Assessment") -> Iterator[Block]:
    """Yield what ``check`` prints."""
    found = her.findings
    count = words.to_put_right(her)
    yield line(words.title(her))
    if not count:
        yield line(f"In order. {_sentence(words.large_figures(her))}")
    else:
        yield line(_sentence(words.large_figures(her)))
    for k, one in enumerate(found):
        if k == 0 or found[k - 1].weight != one.weight:
            yield heading("To put right" if one.weight == "put right" else "To look at")
        yield labelled([(f"{k + 1}.", _sentence(one.what))])
        yield labelled(_about(one, k, found), indent=3)
    if count:
        yield line()
        yield line(f"{words.things(count)}.")


def _sentence(text: str) -> str:
    return f"{text[:1].upper()}{text[1:].rstrip('.')}."


def _about(one: "Finding", k: int, found: Sequence["Finding"]) -> Iterator[tuple[str, str]]:
    """Yield the limit, what mends it, and what is left when it alone is mended."""
    source = one.limit.source
    yield "limit", f"{one.limit.text} ({source[:1].lower()}{source[1:]})"
    yield "mend", one.mend
    if not one.edits:
        return
    goes = [i + 1 for i, other in enumerate(found) if i != k and one.subject in other.follows]
    stays = [i + 1 for i in range(len(found)) if i != k and i + 1 not in goes]
    if goes:
        yield "then", f"{_numbers(goes)} {'goes' if len(goes) == 1 else 'go'} with it"
    if stays:
        yield "left", _numbers(stays)
    for text in one.hidden:
        yield "shows", f"only then: {text}"


def _numbers(numbers: Sequence[int]) -> str:
    """Return numbers in a sentence.

    >>> _numbers([2, 4, 5])
    '2, 4 and 5'
    """
    texts = [str(number) for number in numbers]
    return " and ".join([", ".join(texts[:-1]), texts[-1]] if len(texts) > 1 else texts)
