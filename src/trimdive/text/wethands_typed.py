"""Reads an answer as a builder types it: a number of the list, a word, a sentence with a figure."""

import re
from collections.abc import Callable

from trimdive.errors import UnitError
from trimdive.estimates.wethands.figure import Figure, usual_of
from trimdive.estimates.wethands.known import Known, Reply
from trimdive.estimates.wethands.questions import Question
from trimdive.text.wethands_figures import FIGURES
from trimdive.text.wethands_quantities import (
    BOW,
    QUANTITY,
    STERN,
    figure_of,
    fill_size,
    filled,
    fills,
    tilt,
)
from trimdive.text.wethands_questions import choices

SKIP = {"", "skip", "pass", "unknown", "not sure", "don't know", "dont know", "do not know", "-"}
DOWN = r"(?:down|low|lower|heavy|deep|deeper|sinks?|dips?)"
UP = r"(?:up|high|higher|light|out|rises?)"
YES = ("yes", "y")
GOOD = ("level", "right", "put right", "all right")  # yes, where it is asked whether she is
STAYS, UNDER_WAY = ("stays", "she stays"), ("only under way",)
NO = ("no", "n", "same", "the same", "not at all", "comes back", "no change", "at rest too")


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
    keys = question.options
    number = re.fullmatch(r"(\d+)(?:\s*[,:;.)]+\s*(?=\D|\d)|\s+(?=\d)|$)(.+)?", text)
    is_numbered = bool(number and 1 <= int(number[1]) <= len(keys))
    if number and is_numbered and not _is_unit(number[2]):
        option, rest = keys[int(number[1]) - 1], number[2] or ""
    else:
        option, rest = READERS.get(question.key, _yes_or_no)(text), text
    if option not in keys:
        those = "; ".join(f"{k} {one}" for k, one in enumerate(choices(question), 1))
        what, mend = f"'{text[:40]}' is not an answer to it", f"Enter one of: {those}."
        raise UnitError(what, question.key, mend)
    size, kind = _size(question.key, rest, known)
    if question.key == "filling" and size:
        option = filled(option, size, kind, known)
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
        return fill_size(typed, key)
    if key in ("ride",):
        return figure_of(typed, "length", "mm", key, usual_of("ends-off") / 2), "length"
    if key == "surfaced":
        return figure_of(typed, "length", "mm", key, usual_of("ends-off")), "length"
    return tilt(typed, known, key), "angle"


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


def _heels(text: str) -> str:
    for words, option in (
        (r"upright|no|none|straight", "upright"),
        (r"port|left", "port"),
        (r"starboard|right", "starboard"),
    ):
        if re.search(rf"\b(?:{words})\b", text):
            return option
    return ""


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
    "filling": fills,
    "ride": _rides,
    "list": _heels,
    "heel": _heels,
    "rock": _mended,
    "full": _mended,
    "over": _stays,
    "way": _under_way,
}
