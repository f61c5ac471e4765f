"""A photograph of the boat afloat on the page: what to click, what is told, what would help."""

from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from trimdive.hydrostatics.equilibrium.named import heel, listed
from trimdive.plans.marks import Marks
from trimdive.text import words
from trimdive.trials.photographs.marked import is_told, points_of
from trimdive.uncertainty import reading_half

if TYPE_CHECKING:
    from trimdive.boatfile import Boat
    from trimdive.trials.photographs import Further, Lies, Sighted

PLACES = {  # places of her that a point may be at
    "top": "highest place",
    "foremost": "foremost point",
    "aftmost": "aftmost point",
}
FURTHER = {
    "top": "her highest place",
    "foremost": "her foremost point",
    "aftmost": "her aftmost point",
    "side": "a place on her side amidships, as near the deck as you can measure",
}
ENOUGH = 8  # clicks along the waterline that say well how she lies [-]


class Row(NamedTuple):
    """A figure by the photographs."""

    name: str
    value: str
    half: str


def thing_name(key: str) -> str:
    """Return what is marked.

    >>> thing_name("waterline"), thing_name("point-2")
    ('Waterline', 'Point 2')
    """
    return "Waterline" if key == "waterline" else f"Point {key.rpartition('-')[2]}"


def point_name(key: str, number: int, count: int) -> str:
    """Return what a click is called, for who does not see it.

    >>> point_name("waterline", 2, 9), point_name("point-1", 1, 1)
    ('Waterline, click 2 of 9', 'Point 1')
    """
    return f"Waterline, click {number} of {count}" if key == "waterline" else thing_name(key)


def next_click(marks: Marks, key: str) -> str:
    """Return what to click, or to enter, next, in a sentence."""
    if key == "waterline":
        done = len(marks.of(key))
        if done < 2:
            return "Click along it where the water meets the hull, from end to end."
        if done < ENOUGH:
            return f"Click on: {ENOUGH} or more say how well they fit."
        return "Drag a click to move it, or record what it comes to."
    if not marks.is_whole(key):
        return "Click a place on her that you can measure: a mark, the stem head, the tower top."
    if not is_told(marks, key):
        return "Enter where it is: along her, and up from the keel line."
    return "Marked. Drag it to move it."


def counted(marks: Marks, key: str) -> str:
    """Return how much of a thing is marked, in a few words."""
    if key != "waterline":
        return "marked" if marks.is_whole(key) else "not clicked"
    done = len(marks.of(key))
    return f"{done} click{'' if done == 1 else 's'}" if done else "not clicked"


def still_missing(marks: Marks) -> str:
    """Return what is still to be done, in a sentence; "" for nothing."""
    count = len(points_of(marks))
    lacks = ("two points whose places you know", "one more point whose place you know")
    missing = [
        *([] if count > 1 else [lacks[count]]),
        *([] if len(marks.of("waterline")) > 1 else ["the waterline"]),
    ]
    return f"Still to be marked: {listed(missing)}." if missing else ""


def rows(boat: "Boat", lies: "Lies") -> tuple[Row, ...]:
    """Return draughts at her marks, trim and heel, each with its ±."""
    found: list[Row] = []
    side = "" if lies.tells_heel else f", {_side(lies)}"
    places = [(f"{one.name}{side}", one.x) for one in boat.marks]
    for name, x in places or [(f"amidships{side}", lies.middle)]:
        height, half = lies.draught(x)
        found.append(Row(name, *(boat.units.write(one, "length", 1) for one in (height, half))))
    angle, half = lies.trim
    found.append(Row("trim", words.trim(boat, angle), _degrees(half)))
    if lies.tells_heel:
        angle, half = lies.heel
        found.append(Row("heel", heel(boat, angle), _degrees(half)))
    return tuple(found)


def _side(lies: "Lies") -> str:
    """Return the side on which draughts are told."""
    return "port" if lies.surest[1] > 0.0 else "starboard"


def _degrees(half: float) -> str:
    return f"{np.rad2deg(half):.{1 if half > np.deg2rad(1.0) else 2}f}°"


def fit_words(boat: "Boat", found: "Sighted") -> str:
    """Return how well the clicks fit level water seen by a camera, in a sentence."""
    sight = found.sight
    off = boat.units.write(found.rms * found.worth, "length", 2)
    text = f"The clicks lie {found.rms:.1f} pixels off the water as found, {off} at her"
    seen = f"the camera stood {max(np.rad2deg(found.above), 0.0):.0f}° above the water"
    if sight.agrees:
        return f"{text}: they fit; {seen}."
    what = f"point {found.amiss + 1} lies {sight.amiss[found.amiss]:.1f} times its ± off"
    return f"{text}: they do not fit, and every ± is made larger. Look again; {what}; {seen}."


def further_words(boat: "Boat", further: "Sequence[Further]") -> str:
    """Return which further points would make the draught surer, in a sentence; "" for none."""
    if not further:
        return ""
    best = further[0]
    halves = (float(np.hypot(one, reading_half("creep"))) for one in (best.was, best.half))
    was, then = (boat.units.write(one, "length", 1) for one in halves)
    more = f", or {FURTHER[further[1].what]}" if len(further) > 1 else ""
    return (
        f"Mark {FURTHER[best.what]} too{more}: the draught amidships is then sure to "
        f"± {then} instead of ± {was}."
    )


def heel_words(boat: "Boat", lies: "Lies") -> str:
    """Return why no heel is written; "" where it is."""
    if lies.tells_heel:
        return ""
    out = boat.units.write(abs(lies.surest[1]), "length")
    return (
        f"No heel by these pictures: take one from ahead or astern too. The draughts are those "
        f"{out} out to {_side(lies)}, where a heel does them no harm."
    )


def together_words(boat: "Boat", lies: "Lies", names: "Sequence[str]", others: int) -> str:
    """Return how pictures of one state go together, in a sentence; "" for one picture.

    Args:
        boat: For her units.
        lies: How she lies by them.
        names: What they are called.
        others: How many more there are that are not marked yet.
    """
    more = f" {others} more not marked yet." if others else ""
    if len(names) < 2:
        return more.strip()
    text = f"By {listed(list(names))} together, each by its ±."
    if not lies.agree:
        worst = int(np.argmax(np.abs(lies.apart)))
        far = boat.units.write(abs(float(lies.apart[worst])), "length", 1)
        text = (
            f"{listed(list(names))} disagree by more than their ±; {names[worst]} lies {far} off "
            "the others amidships. Every ± is made larger; look at its marks, and whether she lay "
            "the same."
        )
    return text + more
