"""The words on full-size patterns: what each is, how it is used, how its print is checked."""

from typing import TYPE_CHECKING

from trimdive.text.say import Say

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from trimdive.assessment import Assessment
    from trimdive.patterns.sections import Pattern
    from trimdive.text.layout import Document

TITLES = {
    "shell below": "shell board, below",
    "shell above": "shell board, above",
    "frame": "frame",
}
USES = {
    "shell below": "Glue it to board, cut, and lay her in it: what touches first is high.",
    "shell above": "Glue it to board, cut, and set it over her: what touches first is high.",
    "frame": "Glue it to board and cut along the line; its after face stands at the station.",
}
MARKS = {"centre line": "centre line", "waterline": "waterline"}
MEASURE = "Measure me: 100 mm both ways. If not, print at 100 %, or enter what you measure."
SHEET = "Sheet {number} of {count}. Lay crosses on crosses: sheets overlap by 10 mm."


def title(say: Say, one: "Pattern") -> str:
    """Return what a pattern is, and where it stands."""
    return f"{say.boat.name}, {TITLES[one.kind]}: {say.place(one.x)}"


def note(say: Say, one: "Pattern") -> str:
    """Return how a pattern is used."""
    clear = f"{say.length(one.gap)} clear of the skin"
    return f"Seen from astern, starboard right; {clear}. {USES[one.kind]}"


def title_of(say: Say) -> str:
    """Return what the sheets are."""
    return f"{say.boat.name}: patterns across her, full size"


def sheets_json(
    her: "Assessment", files: "Sequence[Path]", found: "Sequence[Pattern]"
) -> "Document":
    """Return what ``sheets --json`` tells."""
    return {
        "boat": her.boat.name,
        "files": [str(one) for one in files],
        "patterns": [
            {
                "kind": one.kind,
                "x_m": one.x,
                "gap_m": one.gap,
                "cuts_m": [line.tolist() for line in one.cuts],
            }
            for one in found
        ],
    }
