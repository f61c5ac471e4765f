"""Tracing a plan on the page: what things on it are called, what to click, and what came of it."""

from typing import TYPE_CHECKING, NamedTuple

from trimdive.hydrostatics.equilibrium.named import listed
from trimdive.plans.marks import CORNERS, COUNTS, PAIRS, Marks
from trimdive.plans.tracing import TELLS
from trimdive.plans.views import LEAST
from trimdive.text.sentence import capital

if TYPE_CHECKING:
    from collections.abc import Sequence

    from trimdive.boatfile.boat import Units
    from trimdive.plans.agree import Apart
    from trimdive.plans.sheet import Checked
    from trimdive.plans.spread import TracedSpread

MOST = 4  # places told at which views disagree [-]
EXACT = 5e-4  # a check length that is off by less is right [-]


class Thing(NamedTuple):
    """Something that is marked on a plan."""

    name: str
    asks: str  # what to click


THINGS = {
    "level": Thing("Level line", "Click both ends of a line that should be level."),
    "along-1": Thing("Length along", "Click both ends of a length along the boat that you know."),
    "along-2": Thing("Second along", "Click both ends of another known length along the boat."),
    "up-1": Thing("Length up", "Click both ends of a height that you know."),
    "up-2": Thing("Second up", "Click both ends of another known height."),
    "check": Thing("Check length", "Click both ends of one more known length, to check the rest."),
    "profile": Thing(
        "Profile", "Click the hull's stern, then its bow, then any place on the keel line."
    ),
    "plan": Thing("Half-breadth plan", "Click the centre line at the stern, then at the bow."),
    "body": Thing("Sections", "Click where their centre line meets their keel line."),
    "keel": Thing("Keel", "Click along the keel from stern to bow, the stem included."),
    "deck": Thing("Deck", "Click along the deck from stern to bow."),
    "half": Thing("Half-breadth", "Click along the outline of the plan from stern to bow."),
    "waterline": Thing("Waterline", "Click it twice on the profile, far apart."),
}
SECTION = Thing("Section", "Click round it from the keel to the deck.")
CORNER = Thing("Point", "Click a point whose place on the plan you know, such as a frame's corner.")
POINTS = {"profile": ("stern", "bow", "keel line"), "plan": ("stern", "bow")}


def thing(key: str) -> Thing:
    """Return what a thing on a plan is called, and what to click for it.

    >>> thing("keel").name, thing("section-3").name, thing("corner-2").name
    ('Keel', 'Section 3', 'Point 2')
    """
    if key in THINGS:
        return THINGS[key]
    number = key.partition("-")[2]
    kind = CORNER if key in CORNERS else SECTION
    return Thing(f"{kind.name} {number}", kind.asks)


def point_name(key: str, number: int, count: int, *, on_ink: bool) -> str:
    """Return what a point is called, for who does not see it.

    >>> point_name("keel", 2, 9, on_ink=True), point_name("plan", 1, 2, on_ink=False)
    ('Keel, point 2 of 9', 'Half-breadth plan, stern, no ink under it')
    """
    words = POINTS.get(key)
    which = words[number - 1] if words else f"point {number} of {count}"
    return f"{thing(key).name}, {which}{'' if on_ink else ', no ink under it'}"


def counted(marks: Marks, key: str) -> str:
    """Return how many points a thing has, in a few words.

    >>> counted(Marks(), "keel"), counted(Marks(), "level")
    ('not traced', '0 of 2')
    """
    points = marks.of(key)
    bare = sum(not point.on_ink for point in points)
    if key in COUNTS:
        text = "marked" if marks.is_whole(key) else f"{len(points)} of {COUNTS[key]}"
    elif not points:
        text = "not traced"
    else:
        text = f"{len(points)} points"
        least = LEAST if key.startswith("section-") else 2
        text = f"{len(points)} of {least} or more" if len(points) < least else text
    return f"{text}, {bare} without ink" if bare else text


def next_click(marks: Marks, key: str) -> str:
    """Return what to click, or to enter, next for a thing, in a sentence.

    >>> next_click(Marks(), "profile")
    "Click the hull's stern, then its bow, then any place on the keel line."
    """
    words, done = POINTS.get(key), len(marks.of(key))
    if words and 0 < done < len(words):
        return f"Now click the {words[done]}."
    if key in COUNTS and 0 < done < COUNTS[key]:
        return "Now click its other end."
    if key in COUNTS and marks.is_whole(key):
        return _next_figure(marks, key) or "Marked. Drag a point to move it."
    if key.startswith("section-") and done >= LEAST and not marks.said(key):
        return "Click on to the deck, then enter its station."
    return thing(key).asks


def _next_figure(marks: Marks, key: str) -> str:
    """Return which figure of a thing is to be entered next; "" for none."""
    if key in CORNERS:
        whole = marks.said(f"{key}-x") and marks.said(f"{key}-z")
        return "" if whole else "Enter where it is on the plan: along, and up."
    if key == "body":
        return "" if marks.said("larger") else "Enter how many times larger they are drawn."
    return "Enter its true length." if key in PAIRS[1:] and not marks.said(key) else ""


def checked_words(checked: "Checked", units: "Units") -> str:
    """Return what a check length measures, against what it should be."""
    found, known = (units.write(one, "length", 1) for one in (checked.measured, checked.known))
    share = abs(checked.share)
    if share < EXACT:
        return f"Measures {found}, as it should."
    way = "long" if checked.share > 0 else "short"
    return f"Measures {found}, should be {known}: {100 * share:.1f} % {way}."


def _worst(apart: "Sequence[Apart]") -> "list[Apart]":
    """Return the figures that two views have otherwise, the worst first."""
    return sorted((one for one in apart if abs(one.off) >= TELLS), key=lambda one: -abs(one.off))


def apart_short(apart: "Sequence[Apart]", units: "Units") -> str:
    """Return in a sentence how far views disagree."""
    worst = _worst(apart)
    if not worst:
        return "The views agree within half a millimetre."
    most = units.write(abs(worst[0].off), "length", 1)
    places = "1 place," if len(worst) == 1 else f"{len(worst)} places, up to"
    return f"Views disagree at {places} {most}"


def apart_words(apart: "Sequence[Apart]", units: "Units") -> tuple[str, ...]:
    """Return where views disagree, the worst first."""
    worst = _worst(apart)
    rows = [_apart(one, units) for one in worst[:MOST]]
    if len(worst) > MOST:
        rows.append(f"{len(worst) - MOST} more places differ by less.")
    return tuple(rows)


def _apart(one: "Apart", units: "Units") -> str:
    view = "plan" if one.what == "half-breadth" else "profile"
    along, across = (units.write(value, "length", 1) for value in (one.lengthways, one.across))
    off, at = units.write(abs(one.off), "length", 1), units.write(one.x, "length", 0)
    return (
        f"{capital(one.what)} {at} from the stern: {along} in the {view}, {across} in the section, "
        f"{off} apart."
    )


def volume_words(spread: "TracedSpread", units: "Units", *, has_waterline: bool) -> tuple[str, ...]:
    """Return what the traced hull encloses and displaces, each with how far it may be off."""
    rows = [f"Encloses {_band(spread.envelope.value, spread.envelope.spread, units)}."]
    if has_waterline:
        nabla = _band(spread.nabla.value, spread.nabla.spread, units)
        rows.append(f"Below the waterline {nabla}.")
    return tuple(rows)


def _band(value: float, spread: float, units: "Units") -> str:
    number = units.write(value, "volume").rsplit(" ", 1)[0]
    return f"{number} ± {units.write(spread, 'volume')}"


def still_missing(marks: Marks, *, lies: bool) -> str:
    """Return what is still to be done before there is a hull, in a sentence; "" for nothing."""
    if not lies:
        what = "four points" if marks.said("lie") == "photo" else "a level line and two lengths"
        return f"First say how the plan lies: {what}."
    views = [thing(key).name.lower() for key in ("profile", "body") if not marks.is_whole(key)]
    if views:
        return f"Mark where each view is: {listed(views)}."
    lines = [thing(key).name.lower() for key in ("keel", "deck") if len(marks.of(key)) < 2]
    if not any(len(marks.of(key)) >= LEAST for key in marks.sections):
        lines.append("a section")
    return f"Still to be traced: {listed(lines)}." if lines else ""
