"""Wet hands on the page: one question at a time, answered by large buttons, nothing to be typed."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from trimdive.errors import TrimdiveError
from trimdive.estimates.wethands import BY_KEY, DisagreementError, Known, Step, step
from trimdive.page.form import Typed, field_of
from trimdive.page.places.tub_blocks import Piece, for_page, says
from trimdive.text.sentence import beside_field
from trimdive.text.wethands_first import FIRST, begun_with
from trimdive.text.wethands_questions import asking, choices
from trimdive.text.wethands_text import wet_hands_text
from trimdive.text.wethands_typed import reply_of
from trimdive.text.wethands_words import Shown, likely, why
from trimdive.units import write

if TYPE_CHECKING:
    from trimdive.page.desk import Desk

NAME = "wet hands"
FIELD = "wet.text"
DIGITS = ("7", "8", "9", "4", "5", "6", "1", "2", "3", "0", ".")
ENDS = (" from the bow", " from the stern")
PADS: Mapping[str, tuple[str, ...]] = {  # words to be pressed, by what is asked
    "mass": (" kg", " g", " lb", " oz"),
    "tank": (" ml", " L", " in³"),
    "length": (" mm", " m", " in", " ft"),
    "degrees": ("°", " mm", " in"),
    "depth": (" mm", " in"),
    "balance": (" g", " oz", " at ", " mm", " in", *ENDS, "pull "),
    "place": (" mm", " in", *ENDS),
    "spare": (" %", " g heavy", " g light"),
    "shift": (" g, ", " oz, ", " mm, ", " in, ", "°"),
    "room": (" mm", " in", *ENDS),
    "slack": (" mm", " in", " x "),
    "heels": ("°",),
    "rides": (" mm", " in", " low", " high"),
    "breadth": (" mm", " in"),
}
SHOWN = 4  # causes told at each step


@dataclass(frozen=True, slots=True, kw_only=True)
class Talk:
    """What was told so far."""

    first: tuple[tuple[str, str], ...]  # mass, tank and length as typed
    known: Known | None = None  # once all three are there
    shown: Shown | None = None
    is_why: bool = False
    wrong: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Big:
    """One large button with an answer."""

    key: str  # the digit that presses it
    words: str
    act: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Screen:
    """What stands before wet hands."""

    key: str  # of what is asked
    do: str  # what to do, in large words
    ask: str = ""
    bigs: tuple[Big, ...] = ()
    pad: tuple[str, ...] = ()  # words to be put after the digits; none: nothing is to be typed
    hint: str = ""
    text: str = ""  # in the pad
    wrong: str = ""
    why: str = ""
    so_far: tuple[tuple[str, str], ...] = ()  # causes open, each with how likely
    may_go_back: bool = False
    may_pass: bool = False
    mend: tuple[Piece, ...] = ()  # what mends it
    is_end: bool = False


def talk_of(desk: "Desk") -> Talk:
    """Return what was told so far."""
    found = desk.kept.get(NAME)
    return found if isinstance(found, Talk) else Talk(first=())


def _keep(desk: "Desk", talk: Talk) -> None:
    desk.kept[NAME] = talk


def again(desk: "Desk", _: Typed) -> None:
    """Begin anew."""
    desk.kept.pop(NAME, None)


def this_boat(desk: "Desk", _: Typed) -> None:
    """Begin with the boat that is on the page."""
    _begin(desk, tuple(own_figures(desk)))


def own_figures(desk: "Desk") -> list[tuple[str, str]]:
    """Return what the boat on the page weighs, what her tanks take, and how long she is."""
    her = desk.own.her
    is_inches = her.boat.units.shown("length") in ("in", "ft")
    given = {
        "mass": (her.masses.mass, "mass", "lb" if is_inches else "kg", 2),
        "tank": (her.need.fitted, "volume", "in³" if is_inches else "ml", 0),
        "length": (float(her.floater.length), "length", "in" if is_inches else "mm", 0),
    }
    return [(key, write(*one)) for key, one in given.items()]


def tell(desk: "Desk", typed: Typed) -> None:
    """Take what was put together on the pad."""
    talk, text = talk_of(desk), field_of(typed, FIELD)
    missing = next((key for key in FIRST if key not in dict(talk.first)), None)
    if talk.known is None and missing:
        _begin(desk, (*talk.first, (missing, text)))
        return
    _reply(desk, talk, text or "?")


def say(desk: "Desk", typed: Typed) -> None:
    """Take one of the answers that stand there."""
    _reply(desk, talk_of(desk), typed["which"])


def pass_over(desk: "Desk", _: Typed) -> None:
    """Leave a question unanswered."""
    _reply(desk, talk_of(desk), "skip")


def ask_why(desk: "Desk", _: Typed) -> None:
    """Tell why this is asked."""
    talk = talk_of(desk)
    _keep(desk, Talk(first=talk.first, known=talk.known, shown=talk.shown, is_why=not talk.is_why))


def back(desk: "Desk", _: Typed) -> None:
    """Take the last answer back."""
    talk = talk_of(desk)
    if talk.known is not None and talk.known.replies:
        known = talk.known.without(talk.known.replies[-1].key)
        _keep(desk, Talk(first=talk.first, known=known, shown=talk.shown))
    else:
        _keep(desk, Talk(first=talk.first[:-1]))


def _begin(desk: "Desk", first: tuple[tuple[str, str], ...]) -> None:
    """Take the first figures; one that is wrong is asked for again."""
    talk = Talk(first=first)
    replies: dict[str, str | None] = {"bg": None, "water": None, **dict(first)}
    trial = replies | {key: replies.get(key) or one[2] for key, one in FIRST.items()}
    try:
        known, shown = begun_with(trial if len(first) < len(FIRST) else replies)
    except TrimdiveError as error:
        _keep(desk, Talk(first=first[:-1], wrong=says(error)))
        return
    if len(first) == len(FIRST):
        talk = Talk(first=first, known=known, shown=shown)
    _keep(desk, talk)


def _reply(desk: "Desk", talk: Talk, text: str) -> None:
    if talk.known is None:
        return
    question = step(talk.known).next
    if question is None:
        return
    wrong = ""
    try:
        known = talk.known.with_reply(reply_of(question, text, talk.known))
        step(known)
    except DisagreementError as error:
        known = talk.known.without(error.one.key, error.other.key)
        wrong = f"{beside_field(error)} Both are asked for again."
    except TrimdiveError as error:
        known, wrong = talk.known, beside_field(error)
    _keep(desk, Talk(first=talk.first, known=known, shown=talk.shown, wrong=wrong))


def screen(desk: "Desk", typed: Typed) -> Screen:
    """Return what stands before wet hands now."""
    talk = talk_of(desk)
    if talk.known is None or talk.shown is None:
        return _first(desk, talk, typed)
    now = step(talk.known)
    question = now.next
    mend = tuple(for_page(wet_hands_text(now, talk.shown), skip=2)) if now.is_parted else ()
    if question is None:
        return Screen(
            key="end", do="Nothing to put right." if now.in_order else "This puts it right.",
            mend=mend, may_go_back=True, is_end=True,
        )  # fmt: skip
    words = asking(question, talk.known)
    return Screen(
        key=question.key,
        do=words.do,
        ask=words.ask,
        bigs=tuple(
            Big(key=str(k), words=one, act=f"tub say {k}")
            for k, one in enumerate(choices(question), 1)
        ),
        pad=() if question.options else PADS.get(question.key, ()),
        hint="" if question.options else f"such as {words.how}",
        text=field_of(typed, FIELD) if talk.wrong else "",
        wrong=talk.wrong,
        why=why(now).strip() if talk.is_why else "",
        so_far=_so_far(now),
        may_go_back=True,
        may_pass=True,
        mend=mend,
    )


def _so_far(now: Step) -> tuple[tuple[str, str], ...]:
    if not now.known.replies:
        return ()
    shown = [now.open.likeliest] if now.is_parted else now.open.still_open[:SHOWN]
    return likely(shown, now.known)


def _first(desk: "Desk", talk: Talk, typed: Typed) -> Screen:
    key = next(one for one in FIRST if one not in dict(talk.first))
    _, words, example = FIRST[key]
    bigs: tuple[Big, ...] = ()
    if not talk.first and desk.her.boat.tanks:
        own = ", ".join(text for _, text in own_figures(desk))
        bigs = (Big(key="", words=f"It is {desk.her.boat.name}: {own}", act="tub this"),)
    return Screen(
        key=key, do=words, bigs=bigs, pad=PADS[key], hint=f"such as {example}",
        text=field_of(typed, FIELD) if talk.wrong else "", wrong=talk.wrong,
        may_go_back=bool(talk.first),
    )  # fmt: skip


assert set(PADS) <= {*FIRST, *BY_KEY}
