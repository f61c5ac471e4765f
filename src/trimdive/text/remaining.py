"""What a fix also fixes, and what remains then: one sentence for terminal and page."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from trimdive.findings.opposed import opposed
from trimdive.findings.order import LETTERS
from trimdive.hydrostatics.equilibrium.named import listed

if TYPE_CHECKING:
    from trimdive.boatfile import Boat
    from trimdive.findings import Finding


def remaining_words(boat: "Boat", k: int, found: "Sequence[Finding]", called: Sequence[str]) -> str:
    """Return what the k-th finding, fixed alone, fixes too, and what remains then.

    "Also fixes 1a and 1b; 2 and 3 remain."; "" where there is neither, or nothing was tried. What
    is only to be looked at is not counted, as it is not in the count of what is to be put right.
    Where another moves the same pieces the other way it is said what does both.

    Args:
        boat: The boat as she is.
        k: Which finding.
        found: All findings in their order.
        called: What each is called, such as "1a".
    """
    one = found[k]
    if not one.edits:
        return ""
    takes = [i for i, other in enumerate(found) if i != k and one.about in other.follows]
    own = called[k].rstrip(LETTERS)
    stays = [
        int(called[i])
        for i in range(len(found))
        if i != k and i not in takes and called[i].isdigit() and found[i].weight == "put right"
        and (called[i] != own or called[k] == own)
    ]  # fmt: skip
    also = f"also fixes {listed([called[i] for i in takes])}" if takes else ""
    left = f"{numbers(stays)} {'remains' if len(stays) == 1 else 'remain'}" if stays else ""
    text = "; ".join(part for part in (also, left) if part)
    said = f"{text[0].upper()}{text[1:]}." if text else ""
    return " ".join(part for part in (said, _opposed_words(boat, k, found, called)) if part)


def _opposed_words(boat: "Boat", k: int, found: "Sequence[Finding]", called: Sequence[str]) -> str:
    """Return which findings' fixes move the same pieces the other way, and what does both."""
    against = [called[i] for i in opposed(boat, k, found)]
    if not against:
        return ""
    moves = "moves" if len(against) == 1 else "move"
    is_lead = all(edit.path.startswith("lead") for edit in found[k].edits)
    what = "the same lead" if is_lead else "the same pieces"
    return (
        f"{listed(against)} {moves} {what} the other way: do one and look again, or place lead "
        "and foam for all at once."
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
