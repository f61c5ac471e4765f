"""Which way a column of places runs, by its head: along the boat, across it, or up.

"Arm fore-aft" and "Arm lateral" are two places, not two parts of one; the head also says from which
end a place along is counted, and to which side one across.
"""

from functools import lru_cache

from trimdive.weightlists.words import REMEMBERED, Head, folded, longest, unit_kind, words

NO_PLACE = {
    "moment",
    "moments",
    "momento",
    "momenti",
    "mass",
    "weight",
    "gewicht",
    "masse",
    "poids",
}
NO_KEEL = {  # a height that is told from these, or downwards, is none above the keel line
    *("waterline", "wl", "dwl", "deck", "below", "under", "beneath", "top", "down", "depth"),
    *("wasserlinie", "unter", "unterhalb", "sous", "flottaison", "onder", "waterlijn"),
}
SIDES = words("side")
SHORTEST = 2  # letters; a shorter word for a side counts in cells only
WHOLE_WORDS = 4  # a head of more words than this is no bare name of a direction
WAYS = {"fore", "forward", "aft", "fwd"}  # say which way, not from where


@lru_cache(maxsize=REMEMBERED)
def place_of(text: str, unit: str) -> Head | None:
    """Return what a head means that names a place; None where it names none.

    Args:
        text: The head without its unit.
        unit: That unit; a place has none, or one of length.

    >>> place_of("Arm, lateral", "in").column, place_of("distance from the front", "mm").column
    ('y', 'x_bow')
    """
    plain = folded(text)
    held = set(plain.split())
    is_length = not unit or unit_kind(unit)[0] == "length"
    if not is_length or NO_PLACE & set(_bare(plain).split()):
        return None
    has_noun = bool(longest(plain, words("place")) or longest(plain, words("from")))
    axis = longest(plain, words("axis"))
    found = words("axis")[axis] if axis else ""
    end = _end(plain)
    if end and longest(plain, words("from")) and not (found and found != "along"):
        return Head(column=f"x_{end}", unit=unit, word=plain)
    sides = SIDES.keys() & {word for word in held if len(word) > SHORTEST}
    if not found and sides and (has_noun or len(held) <= SHORTEST):
        found, axis = "across", sorted(sides)[0]
    if not found and has_noun:
        short = [word for word in words("short axis") if f" {word} " in f" {plain} "]
        found = words("short axis")[short[0]] if len(short) == 1 else ""
        axis = short[0] if found else ""
    if not found or not (has_noun or plain == axis or len(held) <= WHOLE_WORDS):
        return None
    if found == "up" and NO_KEEL & held:
        return Head(column="elsewhere", unit=unit, word=axis)
    column = _column(found, end, plain)
    return Head(column="x" if axis == "x" and not end else column, unit=unit, word=axis)


def _bare(plain: str) -> str:
    """Return a head without "moment arm", which is no moment."""
    return plain.replace("moment arm", "arm")


def _column(axis: str, end: str, plain: str) -> str:
    """Return the column of one axis, with the end or the side that the head names."""
    if axis == "along":
        return f"x_{end}" if end else "arm"
    if axis == "up":
        return "z"
    sides = {SIDES[word] for word in plain.split() if len(word) > SHORTEST and word in SIDES}
    return "y_starboard" if sides == {"starboard"} else "y"


def _end(plain: str) -> str:
    """Return the one end that a head names, or nothing; "forward" and "aft" are ways."""
    held = [word for word in plain.split() if word not in WAYS]
    ends = {words("end")[word] for word in held if word in words("end")}
    return ends.pop() if len(ends) == 1 else ""
