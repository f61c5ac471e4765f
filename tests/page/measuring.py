"""Letters, targets and tables of a page, measured in the browser as they are drawn."""

from dataclasses import dataclass
from pathlib import Path

from playwright.sync_api import Page

MEASURE = Path(__file__).with_name("measuring.js").read_text("utf-8").partition("\n")[2]
# How long anything on the page would move by itself [s].
MOVES = """() => [...document.querySelectorAll("*")].flatMap((one) =>
  ["", "::before", "::after"].map((part) => {
    const style = getComputedStyle(one, part || null);
    const longest = (text) => Math.max(...text.split(",").map(parseFloat));  // computed: in s
    const moved = style.animationName === "none" ? 0 : longest(style.animationDuration);
    return Math.max(longest(style.transitionDuration), moved);
  }))"""


@dataclass(frozen=True, kw_only=True)
class Letters:
    """Letters of one size on a page."""

    size: float  # as drawn [px]
    picture: bool  # whether they are part of a picture, which is as large as its room
    large: bool  # whether they are one of the figures beside the boat
    what: str  # where they stand, and the first of them


@dataclass(frozen=True, kw_only=True)
class Measured:
    """What was found on a page."""

    letters: tuple[Letters, ...]  # each size once for each kind of element
    crowded: tuple[str, ...]  # targets under 24 px with another one too near
    left_aligned: tuple[str, ...]  # cells that hold a figure which is not at their right edge


def measured(page: Page) -> Measured:
    """Return what a page shows now, measured."""
    found = page.evaluate(MEASURE)
    return Measured(
        letters=tuple(Letters(**one) for one in found["letters"]),
        crowded=tuple(found["crowded"]),
        left_aligned=tuple(found["leftAligned"]),
    )
