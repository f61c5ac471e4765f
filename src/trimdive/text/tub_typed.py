"""Reads what is typed after ``tub --read``: one reading in a builder's words."""

import datetime
import difflib
import re
from typing import TYPE_CHECKING

from trimdive.errors import AskError
from trimdive.units import read
from trimdive.units.typed import tidied

if TYPE_CHECKING:
    from trimdive.boatfile import Boat

Fields = dict[str, str | float | int | bool | list[str]]
PLAIN = r"(?:(?:\d+\s+)?\d+\s?/\s?\d+|\d+(?:[.,]\d+)?)"  # 4.9, 4 15/16 or 15/16
NUMBER = rf"[-+−]?{PLAIN}"
QUANTITY = rf"{NUMBER}\s*(?:°|%|[^\W\d_]+[²³\d]?)?(?:\s+{PLAIN}\s*(?:oz|in)\b)?"
FEET = re.compile(rf"(\d)\s*'\s*({PLAIN})\s*\"")  # 3' 2 1/4"
INCHES = re.compile(r"(\d)\s*\"")
JOINED = re.compile(r"(\d)-(\d+\s?/\s?\d)")  # 4-15/16
WHERE = "--read"
NO_TANK = "She has no tank; leave it out."
EXAMPLES = (
    "draught bow 97 mm",
    "freeboard stern 32 mm edge 130 mm",
    "scales 35 g at 100 mm, 42 g at 1200 mm",
    "laid 12 g at 100 mm, 20 g at 1200 mm",
    "shift 100 g by 60 mm across 3.1° back 2.9°",
    "mass 5.61 kg",
    "tank gave 512 ml",
    "trim 0.5° by the bow",
    "heels 1° to port",
)
KINDS = {  # the words that begin a reading, by its kind
    "draught": ("draught", "draft"),
    "freeboard": ("freeboard",),
    "scales": ("scales", "scale"),
    "laid": ("laid",),
    "shift": ("shift", "moved"),
    "mass": ("mass", "weighs"),
    "gave": ("gave", "tank"),
    "tips": ("tips", "tip", "trims", "trim", "down"),
    "leans": ("leans", "lean", "lists", "list", "heels", "heel"),
}
ENDS = {  # what builders call the marks nearest the ends and the middle
    "bow": ("bow", "fore", "forward", "front", "nose"),
    "stern": ("stern", "aft", "after", "back", "tail"),
    "middle": ("middle", "midships", "amidships", "half way"),
}


def reading_of(text: str, boat: "Boat", date: datetime.date) -> Fields:
    """Return the fields of a reading that was typed in words.

    Args:
        text: What was typed, such as "draught bow 97 mm".
        boat: For her marks and tanks.
        date: Of the reading, where none is typed.

    Raises:
        AskError: It is not clear what was read.
    """
    rest, more = _options(spelt(text), date)
    kind = _kind(rest)
    if kind != "gave":  # there a word of it may belong to the name of a tank
        names = KINDS[kind]
        rest = " ".join(word for word in rest.split() if word.casefold().strip(",:") not in names)
    readers = {
        "draught": _draught, "freeboard": _freeboard, "scales": _scales, "laid": _laid,
        "shift": _shift, "mass": _mass, "gave": _gave, "tips": _tips, "leans": _heels,
    }  # fmt: skip
    fields = readers[kind](rest, boat)
    return {"date": more.pop("date"), **fields, **more}


def spelt(text: str) -> str:
    """Return what was typed with inch and foot marks spelt out; a note stays as it is.

    >>> spelt('draught bow 4-15/16"'), spelt("draught at 3' 2½” 97 mm")
    ('draught bow 4 15/16 in', 'draught at 3 ft 2 1/2 in 97 mm')
    """
    found = re.search(r"\bnote:?\s", text, re.IGNORECASE)
    end = found.start() if found else len(text)
    plain = JOINED.sub(r"\1 \2", tidied(text[:end]))
    plain = INCHES.sub(r"\1 in", FEET.sub(r"\1 ft \2 in", plain))
    return " ".join(f"{plain} {text[end:]}".split())


def _kind(text: str) -> str:
    """Return the kind of reading that the words name."""
    typed = [word.casefold().strip(",:") for word in text.split()]
    for kind, names in KINDS.items():
        if any(name in typed for name in names):
            return kind
    every = [name for names in KINDS.values() for name in names]
    near = [match for word in typed for match in difflib.get_close_matches(word, every, n=1)]
    hint = f"Did you mean '{near[0]}'? " if near else ""
    listed = "; ".join(f'"{example}"' for example in EXAMPLES)
    raise AskError(f"'{text}' is not a reading", WHERE, f"{hint}Write it as {listed}.")


def _options(text: str, date: datetime.date) -> tuple[str, Fields]:
    """Return the text without what may follow every reading, and that."""
    more: Fields = {"date": date.isoformat()}
    taken = (
        ("note", r"\bnote:?\s+(.+)$"),
        ("date", r"\bon (\d{4}-\d{2}-\d{2})\b"),
        ("spread", rf"(?:±|\+-|\+/-)\s*({QUANTITY})"),
        ("tanks", r"\btanks (blown|full|\d+(?:[.,]\d+)?\s*%)"),
        ("temperature", r"\bat (-?\d+(?:[.,]\d+)?\s*°\s*[CF])\b"),
        ("water", r"\bin (fresh|sea|pool)(?: water)?\b"),
        ("of", r"\bof (lead shot|lead|brass|steel|stainless steel)\b"),
        ("y", rf"\b(?<=port |oard )({QUANTITY}) out\b"),
    )
    for field, pattern in taken:
        if found := re.search(pattern, text, re.IGNORECASE):
            more[field] = found[1].strip()
            text = (text[: found.start()] + " " + text[found.end() :]).strip(" ,;")
    _day(str(more["date"]))
    for word, is_dived in (("dived", True), ("surfaced", False)):
        if re.search(rf"\b{word}\b", text, re.IGNORECASE):
            more["dived"] = is_dived
            text = re.sub(rf",?\s*\b{word}\b", " ", text, flags=re.IGNORECASE)
    return " ".join(text.split()).strip(" ,;"), more


def _day(text: str) -> None:
    """Refuse a date that there is not."""
    try:
        datetime.date.fromisoformat(text)
    except ValueError:
        mend = 'Write year, month and day, as "on 2026-05-17".'
        raise AskError(f"there is no date '{text}'", WHERE, mend) from None


def _unclear(text: str, example: int) -> AskError:
    what = f"'{text}' is not clear" if text else "its figure is missing"
    return AskError(what, WHERE, f'Write it as "{EXAMPLES[example]}".')


def _placed(text: str, boat: "Boat", example: int) -> tuple[str, Fields]:
    """Return the text without its mark or place, and its side, and those."""
    fields: Fields = {}
    if found := re.search(r",?\s*\b(port|starboard)\b", text, re.IGNORECASE):
        fields["side"] = found[1].lower()
        text = text[: found.start()] + " " + text[found.end() :]
    names = sorted((mark.name for mark in boat.marks), key=len, reverse=True)
    for word, name in [*((name, name) for name in names), *_called(boat)]:
        if found := re.search(
            rf"(?:\bat )?(?:\bthe )?\b{re.escape(word)}\b(?: mark)?:?", text, re.IGNORECASE
        ):
            fields["at"] = name
            return " ".join((text[: found.start()] + " " + text[found.end() :]).split()), fields
    if found := re.search(rf"\bat ({QUANTITY})", text, re.IGNORECASE):
        fields["x"] = found[1].strip()
        return " ".join((text[: found.start()] + " " + text[found.end() :]).split()), fields
    listed = f"a mark ({', '.join(names)}) or" if names else ""
    mend = f'Name {listed} a place, as "{EXAMPLES[example]}" or "draught 97 mm at 70 mm".'
    raise AskError(f"'{text}' does not say where", WHERE, " ".join(mend.split()))


def _called(boat: "Boat") -> list[tuple[str, str]]:
    """Return what a builder may call the marks nearest the ends and the middle, with their names.

    Two marks or more are needed to tell an end from another, three for a middle.
    """
    ordered = sorted(boat.marks, key=lambda mark: mark.x)
    if len(ordered) < 2:
        return []
    meant = {"bow": ordered[-1], "stern": ordered[0]}
    if len(ordered) % 2:
        meant["middle"] = ordered[len(ordered) // 2]
    return [(word, mark.name) for end, mark in meant.items() for word in ENDS[end]]


def _one(text: str, example: int) -> str:
    """Return the one quantity that is left of a text."""
    if not re.fullmatch(QUANTITY, text.strip(" ,"), re.IGNORECASE):
        raise _unclear(text, example)
    return text.strip(" ,")


def _draught(text: str, boat: "Boat") -> Fields:
    rest, fields = _placed(text, boat, 0)
    return {**fields, "draught": _one(rest, 0)}


def _freeboard(text: str, boat: "Boat") -> Fields:
    found = re.search(rf"\b(?:edge|deck edge)\s+({QUANTITY})", text, re.IGNORECASE)
    if not found:
        what = "it does not say how high that deck edge is above the keel line"
        raise AskError(what, WHERE, f'Add it, as "{EXAMPLES[1]}".')
    rest, fields = _placed(text[: found.start()] + text[found.end() :], boat, 1)
    return {**fields, "freeboard": _one(rest, 1), "edge": found[1].strip()}


def _two(text: str, boat: "Boat", example: int, kind: str) -> Fields:
    """Return two masses at two places, the after one first."""
    pairs = re.findall(rf"({QUANTITY})\s+at\s+({QUANTITY})", text, re.IGNORECASE)
    left = re.sub(rf"({QUANTITY})\s+at\s+({QUANTITY})|,|;|\band\b", "", text, flags=re.IGNORECASE)
    if len(pairs) != 2 or left.strip():
        raise _unclear(text, example)
    own = boat.units.own.get("length")
    ordered = sorted(pairs, key=lambda pair: boat.along(read(pair[1], "length", own, where=WHERE)))
    (one, x_one), (two, x_two) = ordered
    return {f"{kind}_aft": one, "x_aft": x_one, f"{kind}_fore": two, "x_fore": x_two}


def _scales(text: str, boat: "Boat") -> Fields:
    return _two(text, boat, 2, "pull")


def _laid(text: str, boat: "Boat") -> Fields:
    return _two(text, boat, 3, "laid")


def _shift(text: str, boat: "Boat") -> Fields:
    del boat
    pattern = rf"({QUANTITY})\s+by\s+({QUANTITY})\s+(across|along)\s+({QUANTITY})(?:\s+back\s+({QUANTITY}))?"  # noqa: E501
    found = re.fullmatch(pattern, text.strip(" ,"), re.IGNORECASE)
    if not found:
        raise _unclear(text, 4)
    fields: Fields = {
        "moved": found[1], "by": found[2], "way": found[3].lower(), "angle": found[4]
    }  # fmt: skip
    return fields | ({"angle_back": found[5]} if found[5] else {})


def _mass(text: str, boat: "Boat") -> Fields:
    del boat
    return {"mass": _one(text, 5)}


def _gave(text: str, boat: "Boat") -> Fields:
    names = sorted((tank.name for tank in boat.tanks), key=len, reverse=True)
    found = next((name for name in names if _has(text, name)), names[0] if len(names) == 1 else "")
    if not found:
        mend = f'Name one, as "{names[0]} gave 512 ml": {", ".join(names)}.' if names else NO_TANK
        raise AskError("it does not say which tank", WHERE, mend)
    left = re.sub(rf"\b({re.escape(found)}|tank|gave)\b", " ", text, flags=re.IGNORECASE)
    return {"litres": _one(" ".join(left.split()), 6), "tank": found}


def _has(text: str, name: str) -> bool:
    return bool(re.search(rf"\b{re.escape(name)}\b", text, re.IGNORECASE))


def _tips(text: str, boat: "Boat") -> Fields:
    del boat
    return {"tips": _signed(text, ("bow", "stern"), 7)}


def _heels(text: str, boat: "Boat") -> Fields:
    del boat
    return {"leans": _signed(text, ("starboard", "port"), 8)}


def _signed(text: str, ways: tuple[str, str], example: int) -> str:
    """Return an angle with the sign of its way, whichever of the two comes first."""
    plain = re.sub(r"[,:]", " ", text)
    way = rf"(?P<way>{'|'.join(ways)})"
    angle = rf"(?P<angle>{QUANTITY})"
    for order in (
        rf"{angle}\s+(?:by |to )?(?:the )?{way}",
        rf"(?:by |to )?(?:the )?{way}\s+{angle}",
    ):
        if found := re.fullmatch(order, " ".join(plain.split()), re.IGNORECASE):
            return found["angle"] if found["way"].lower() == ways[0] else f"-{found['angle']}"
    raise _unclear(text, example)
