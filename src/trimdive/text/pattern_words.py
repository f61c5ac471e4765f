"""The words on full-size patterns: what each is, how it is used, how its print is checked."""

from typing import TYPE_CHECKING

from trimdive.text.say import Say

if TYPE_CHECKING:
    from trimdive.patterns.sections import Pattern

TITLES = {"shell below": "shell board, below", "shell above": "shell board, above", "frame": "frame"}
USES = {
    "shell below": "Glue it to board, cut along the line, and lay her in it: what touches first is high.",
    "shell above": "Glue it to board, cut along the line, and set it over her: what touches first is high.",
    "frame": "Glue it to board and cut along the line; its after face stands at the station.",
}
MARKS = {"centre line": "centre line", "waterline": "waterline", "station": "station"}
MEASURE = "Measure me: 100 mm both ways. If not, print at 100 %, or enter what you measure."
SHEET = (
    "Sheet {number} of {count}. Lay the crosses of neighbouring sheets on one another, 10 mm overlap."
)


def title(say: Say, one: "Pattern") -> str:
    """Return what a pattern is, and where it stands."""
    return f"{say.boat.name}, {TITLES[one.kind]}: {say.place(one.x)}"


def note(say: Say, one: "Pattern") -> str:
    """Return how a pattern is used."""
    return f"Seen from astern, starboard right; {say.length(one.gap)} clear of the skin. {USES[one.kind]}"
