"""Reads an answer as a builder types it: a number of the list, a word, a sentence with a figure."""

import re
from collections.abc import Callable

from trimdive.errors import UnitError
from trimdive.units import read
from trimdive.wethands.figure import Figure, told
from trimdive.wethands.known import Known, Reply
from trimdive.wethands.questions import Question

SKIP = {"", "skip", "pass", "unknown", "not sure", "don't know", "dont know", "do not know", "-"}
BOW = r"(?:bows?|nose|fore end|front|stem|head)"
STERN = r"(?:stern|tail|aft end|after end|back)"
DOWN = r"(?:down|low|lower|heavy|deep|deeper|sinks?|dips?)"
UP = r"(?:up|high|higher|light|out|rises?)"
QUANTITY = re.compile(
    r"(?:(?<!\S)[-−]\s*)?[\d½¼¾⅓⅔⅛][\d.,/ ½¼¾⅓⅔⅛]*\s*(?:°|\"|'|%|[a-zµ³²]+\b)", re.IGNORECASE
)
SPREAD = re.compile(r"\s*(?:±|\+/-|\+-)\s*")
PLACE = re.compile(rf"(?P<at>.+?)\s*(?:from|off)\s+(?:the\s+)?(?P<end>{BOW}|{STERN})\s*$")
YES = ("yes", "y")
GOOD = ("level", "right", "put right", "all right")  # yes, where it is asked whether she is
STAYS, UNDER_WAY = ("stays", "she stays"), ("only under way",)
NO = ("no", "n", "same", "the same", "not at all", "comes back", "no change", "at rest too")


def figure_of(text: str, kind: str, unit: str | None, where: str, off: float = 0.0) -> Figure:
    """Return a quantity as typed, with a ± where one is typed after it.

    Args:
        text: As "12°" or "12° ± 2°".
        kind: What it must be.
        unit: Of a bare number, if there is a usual one.
        where: What to call the place in an error.
        off: How far it may be off where nothing is typed [SI].

    Raises:
        UnitError: It is no such quantity.
    """
    value, *spread = SPREAD.split(text.strip(), maxsplit=1)
    found = read(value, kind, unit, where)
    if not spread:
        return Figure(found, off)
    if spread[0].strip().endswith("%") and kind != "percent":
        return Figure(found, abs(found) * read(spread[0], "percent", "%", where))
    own = unit or value.strip().lstrip("0123456789.,/ ") or None
    return Figure(found, abs(read(spread[0], kind, own, where)))


def place_of(text: str, known: Known, where: str) -> Figure:
    """Return a place from the stern, typed as "210 mm from the bow" [m].

    Raises:
        UnitError: It is none, names no end, or lies beyond her ends.
    """
    found = PLACE.fullmatch(text.strip().lower())
    if not found:
        what = f"'{text}' does not say from which end"
        raise UnitError(what, where, "Write it as 210 mm from the bow.")
    at = figure_of(found["at"], "length", None, where, told("place-off"))
    if not 0 <= at.value <= known.length.value:
        what = f"'{text}' lies beyond her ends: she is {known.length.value:g} m long"
        raise UnitError(what, where, "Look at the unit, and tell it again.")
    is_bow = re.match(BOW, found["end"])
    return Figure(known.length.value - at.value, at.spread) if is_bow else at


def reply_of(question: Question, text: str, known: Known) -> Reply:
    """Return an answer as typed to a question.

    Raises:
        UnitError: It is no answer to this question.
    """
    plain = " ".join(text.split()).lower().rstrip(".!")
    if plain in SKIP:
        return Reply(key=question.key, option="skip", typed=text)
    if not question.options:
        return FIGURES[question.key](plain, known)
    option, size, kind = _chosen(question, plain, known)
    return Reply(key=question.key, option=option, size=size, kind=kind, typed=text.strip())


def _chosen(question: Question, text: str, known: Known) -> tuple[str, Figure | None, str]:
    """Return the option that a text means, and the figure told with it.

    Raises:
        UnitError: It means none.
    """
    keys = [one.key for one in question.options]
    number = re.fullmatch(r"(\d+)(?:[ ,:;.)]+(.+))?", text)
    is_numbered = bool(number and 1 <= int(number[1]) <= len(keys))
    if number and is_numbered and not _is_unit(number[2]):
        option, rest = keys[int(number[1]) - 1], number[2] or ""
    else:
        option, rest = READERS.get(question.key, _yes_or_no)(text), text
    if option not in keys:
        choices = "; ".join(f"{k} {one.label}" for k, one in enumerate(question.options, 1))
        raise UnitError(
            f"'{text[:40]}' is no answer to it", question.key, f"Type one of: {choices}."
        )
    size, kind = _size(question.key, rest, known)
    if question.key == "filling" and size:
        option = _filled(option, size, kind, known)
    return option, size, kind


def _is_unit(text: str | None) -> bool:
    """Return whether a number is followed by its unit, so that it is a figure and no choice."""
    return bool(text and re.match(r"(?:°|%|mm|cm|in\b|deg|g\b|kg|oz)", text))


def _size(key: str, text: str, known: Known) -> tuple[Figure | None, str]:
    """Return the figure in a text and its kind; None where there is none."""
    found = QUANTITY.search(text)
    if not found or key not in ("angle", "surfaced", "filling", "ride", "list", "heel"):
        return None, ""
    words = text[found.start() :]
    spread = re.search(r"(?:±|\+/-|\+-)\s*\d[\d.,]*\s*(?:°|%|[a-z]+)?", words)
    typed = found[0] + (spread[0] if spread else "")
    if key in ("filling", "spare"):
        return _fill_size(typed, key)
    if key in ("ride",):
        return figure_of(typed, "length", "mm", key, told("ends-off") / 2), "length"
    if key == "surfaced":
        return figure_of(typed, "length", "mm", key, told("ends-off")), "length"
    return _tilt(typed, known, key), "angle"


def _tilt(typed: str, known: Known, key: str) -> Figure:
    """Return an angle typed as such, or as how much lower one end is [rad].

    Raises:
        UnitError: It is neither, or she would stand on end.
    """
    from math import asin, cos, pi

    try:
        angle = figure_of(typed, "angle", "°", key, told("angle-off"))
    except UnitError:
        lower = figure_of(typed, "length", None, key, told("ends-off"))
        if lower.value >= known.length.value:
            what = f"'{typed.strip()}' is more than her length"
            raise UnitError(what, key, "Look at the unit, and tell it again.") from None
        turned = asin(lower.value / known.length.value)
        return Figure(turned, lower.spread / known.length.value / cos(turned))
    if not 0 <= angle.value < pi / 2:
        raise UnitError(f"'{typed.strip()}' is no such angle", key, "Write one from 0 to 90°.")
    return angle


def _fill_size(typed: str, key: str) -> tuple[Figure, str]:
    """Return how full a tank is, or the mass by which she is off with it full.

    Raises:
        UnitError: It is neither, or a tank cannot be so full.
    """
    if "%" in typed or "per" in typed:
        found = figure_of(typed, "percent", "%", key, 0.01)
        if not 0 < found.value <= 1:
            what = f"a tank cannot be {typed.strip()} full"
            raise UnitError(what, key, "Write a share from 0 to 100 %.")
        return found, "percent"
    return figure_of(typed, "mass", None, key, told("small-weights-off")), "mass"


def _end(text: str) -> str:
    """Return the end that a text says is low, or ""."""
    for end, other, name in ((BOW, STERN, "bow"), (STERN, BOW, "stern")):
        ways = (
            rf"\b{end}\b[^,;]*?\b{DOWN}\b",
            rf"\b{DOWN}\b (?:by|at) the {end}\b",
            rf"\bby the {end}\b",
            rf"\b{DOWN} {end}\b",
            rf"\b{other}\b[^,;]*?\b{UP}\b",
        )
        if any(re.search(way, text) for way in ways):
            return name
    return ""


def _hangs(text: str) -> str:
    for end, name in ((BOW, "bow"), (STERN, "stern")):
        if re.search(rf"\b{end}\b[^,;]*\bon (?:the )?(?:bottom|ground|floor)", text):
            return f"{name} bottom"
    return _lies(text)


def _lies(text: str) -> str:
    if re.search(r"\b(?:level|even|flat|horizontal)\b", text):
        return "level"
    return _end(text)


def _rides(text: str) -> str:
    for word, option in (("low", "low"), ("deep", "low"), ("high", "high")):
        if re.search(rf"\b{word}", text):
            return option
    return "right" if re.search(r"\b(?:right|yes|at|on|ok|good)\b", text) else ""


def _leans(text: str) -> str:
    for words, option in (
        (r"upright|no|none|straight", "upright"),
        (r"port|left", "port"),
        (r"starboard|right", "starboard"),
    ):
        if re.search(rf"\b(?:{words})\b", text):
            return option
    return ""


def _fills(text: str) -> str:
    """Return how full the tank is at neutral, from words or from a figure."""
    if re.search(r"\b(?:never|stays up|will not|won't|light)\b", text):
        return "never"
    if re.search(r"\d\s*(?:%|per ?cent)", text):
        return "nearly"  # the figure decides
    if re.search(r"\b(?:early|much less|half|little)\b", text):
        return "early"
    if re.search(r"\b(?:not quite|nearly|almost|heavy|sinks)\b", text):
        return "nearly"
    return "quite" if re.search(r"\b(?:quite|full|brim)\b", text) else ""


def _filled(option: str, size: Figure, kind: str, known: Known) -> str:
    """Return how full the tank is at neutral, from a share or from what she is heavy when full."""
    if kind == "mass":
        share = size.value / (known.water * known.tank.value)
        full = 1 + share if option == "never" else 1 - share
    else:
        full = size.value
    steps = ((0.78, "early"), (0.965, "nearly"), (1.003, "quite"))
    return next((name for edge, name in steps if full < edge), "never")


def _yes_or_no(text: str) -> str:
    if text in NO or re.match(r"(?:no|not)\b", text):
        return "no"
    return "yes" if text in YES or re.match(r"yes\b", text) else ""


def _mended(text: str) -> str:
    if re.search(r"\b(?:better|a little|partly|some)\b", text):
        return "better"
    return "yes" if text in GOOD else _yes_or_no(text)


def _stays(text: str) -> str:
    return "yes" if text in STAYS else _yes_or_no(text)


def _under_way(text: str) -> str:
    return "yes" if text in UNDER_WAY else _yes_or_no(text)


READERS: dict[str, Callable[[str], str]] = {
    "angle": _hangs,
    "surfaced": _lies,
    "filling": _fills,
    "ride": _rides,
    "list": _leans,
    "heel": _leans,
    "rock": _mended,
    "full": _mended,
    "over": _stays,
    "way": _under_way,
}


def _degrees(text: str, known: Known) -> Reply:
    tilt = _tilt(text, known, "degrees")
    return Reply(key="degrees", option="", size=tilt, kind="angle", typed=text)


def _heels(text: str, known: Known) -> Reply:
    angle = _tilt(text, known, "heels")
    return Reply(key="heels", option="", size=angle, kind="angle", typed=text)


def _depth(text: str, known: Known) -> Reply:
    depth = figure_of(text, "length", "mm", "depth", told("place-off"))
    if depth.value <= 0:
        raise UnitError(f"'{text}' is no depth", "depth", "Write it as 600 mm.")
    return Reply(key="depth", option="", size=depth, kind="length", typed=text)


def _balance(text: str, known: Known) -> Reply:
    """Read "120 g at 150 mm from the stern", or "pull 90 g at 100 mm from the bow".

    Raises:
        UnitError: It is neither.
    """
    mend = "Write it as 120 g at 150 mm from the stern."
    is_pull = bool(re.search(r"\b(?:pull|scale|lift|hook)\w*\b", text))
    plain = re.sub(r"\b(?:pulls?|scale|spring|lifts?|hook\w*|reads?|with|a|of)\b", " ", text)
    weight, _, place = plain.strip().partition(" at ")
    if not place:
        raise UnitError(f"'{text}' does not say where", "balance", mend)
    share = told("small-weights-share")
    found = figure_of(weight, "mass", "g", "balance")
    if found.value <= 0:
        raise UnitError(f"'{text}' is no weight", "balance", mend)
    if not found.spread:
        off = max(told("small-weights-off"), share * found.value)
        found = Figure(found.value, off)
    return Reply(
        key="balance", option="pull" if is_pull else "laid", size=found, kind="mass",
        place=place_of(place, known, "balance"), typed=text,
    )  # fmt: skip


def _place(text: str, known: Known) -> Reply:
    return Reply(key="place", option="", place=place_of(text, known, "place"), typed=text)


def _room(text: str, known: Known) -> Reply:
    return Reply(key="room", option="", place=place_of(text, known, "room"), typed=text)


def _spare(text: str, known: Known) -> Reply:
    """Read how full the tank is at neutral; it stands for the answer to ``filling``."""
    amount = QUANTITY.search(text)
    size, kind = _fill_size(amount[0] if amount else text, "spare")
    option = _filled(_fills(text), size, kind, known)
    return Reply(key="filling", option=option, size=size, kind=kind, typed=text)


def _several(text: str, count: int, where: str, mend: str) -> list[str]:
    """Return the quantities that a text names, parted by commas, x, or words.

    Raises:
        UnitError: They are not so many.
    """
    parts = [
        part for part in re.split(r"\s*(?:;|,(?!\d)|×|\bx\b|\bmoved\b|\bby\b|:)\s*", text) if part
    ]
    if len(parts) != count:
        raise UnitError(f"'{text}' is not {count} figures", where, mend)
    return parts


def _shift(text: str, known: Known) -> Reply:
    """Read "100 g, 300 mm, 8°".

    Raises:
        UnitError: It is not.
    """
    mend = "Write it as 100 g, 300 mm, 8°."
    weight, way, angle = _several(text, 3, "shift", mend)
    turned = figure_of(angle, "angle", "°", "shift", told("angle-off") / 2)
    moved = figure_of(way, "length", "mm", "shift", told("place-off") / 2)
    laid = figure_of(weight, "mass", "g", "shift")
    if not (0 < turned.value < 1.5 and moved.value > 0 and laid.value > 0):
        raise UnitError(f"'{text}' is no such test", "shift", mend)
    laid = Figure(laid.value, laid.spread or told("mass-off") * laid.value)
    return Reply(
        key="shift", option="", size=laid, kind="mass", way=moved, turned=turned, typed=text
    )


def _slack(text: str, known: Known) -> Reply:
    """Read "400 mm x 90 mm": length and width of the water in the tank.

    Raises:
        UnitError: It is not.
    """
    mend = "Write it as 400 mm x 90 mm."
    long, wide = _several(text, 2, "slack", mend)
    length = figure_of(long, "length", "mm", "slack", told("ends-off"))
    breadth = figure_of(wide, "length", "mm", "slack", told("ends-off"))
    if not (0 < length.value <= known.length.value and 0 < breadth.value <= known.length.value):
        raise UnitError(f"'{text}' does not fit into her", "slack", mend)
    return Reply(key="slack", option="", size=length, kind="length", way=breadth, typed=text)


def _breadth(text: str, known: Known) -> Reply:
    breadth = figure_of(text, "length", "mm", "breadth", told("ends-off"))
    if not 0 < breadth.value <= known.length.value:
        raise UnitError(f"'{text}' is no breadth of hers", "breadth", "Write it as 200 mm.")
    return Reply(key="breadth", option="", size=breadth, kind="length", typed=text)


def _off_line(text: str, known: Known) -> Reply:
    """Read how far she is off her waterline; it stands with the answer to ``ride``."""
    size = figure_of(text, "length", "mm", "rides", told("ends-off") / 2)
    return Reply(key="rides", option="", size=size, kind="length", typed=text)


FIGURES: dict[str, Callable[[str, Known], Reply]] = {
    "degrees": _degrees,
    "heels": _heels,
    "depth": _depth,
    "balance": _balance,
    "place": _place,
    "room": _room,
    "spare": _spare,
    "shift": _shift,
    "slack": _slack,
    "breadth": _breadth,
    "rides": _off_line,
}
