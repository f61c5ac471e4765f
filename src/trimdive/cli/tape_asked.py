"""Tape readings asked one by one at the terminal, written down as the file that they would be.

Each entry is looked at as it is typed; ``back`` goes to the question before, and what was entered
there is offered again.
"""

import sys
from collections.abc import Callable, Generator, Mapping
from dataclasses import dataclass
from functools import partial

import typer

from trimdive.errors import BoatError, BoatFileError, TrimdiveError, UnitError
from trimdive.estimates.tape.doubts import NO_WALL
from trimdive.estimates.tape.entered import Entered, look, text_of
from trimdive.text.sentence import capital
from trimdive.text.taped_text import HEAD
from trimdive.units import unit_named

BACK, SHOW, NONE = "back", "list", "none"  # words that are no entries
HOW = (
    "Lengths: enter a unit with each, or plain numbers in the unit you choose now.\n"
    "back returns to the last question; list shows what is entered; none skips a question."
)
GIRTHS = "\nGirths: over the deck from waterline to waterline, five or more along her."
WALLS = "\nWall above the waterline, at several spots; empty when done."
WEIGHED = "\nThe upper moulding on the scale; this or the wall is needed, both are better."
STANDING = "\nOn top of her: tower, houses, foam above the waterline; an empty name ends."
Check = Callable[[str], object]


@dataclass(frozen=True, slots=True)
class Question:
    """One entry to be asked for."""

    key: str  # as in trimdive.estimates.tape.entered
    words: str
    usual: str | None = None  # what Enter alone answers; None: it must be typed
    head: str = ""  # said before it


Flow = Generator[Question, str, None]


class Stopped(Exception):  # noqa: N818 - it is no mistake
    """The builder stopped, or no more answers came; what was entered is kept here."""

    def __init__(self, entered: Entered, cause: BaseException) -> None:
        """Keep what was entered.

        Args:
            entered: By key.
            cause: Why it ended.
        """
        super().__init__()
        self.entered, self.cause = entered, cause


def asked_readings(known: Mapping[str, str] | None = None) -> str:
    """Ask for the readings one by one and return them as the text of a file.

    Args:
        known: Entries to offer again, by key.

    Raises:
        Stopped: Before the last question.
    """
    typer.echo(HOW)
    entered: Entered = {}
    offered = dict(known or {})
    while (question := _next(entered)) is not None:
        try:
            text = _entry(question, entered, offered)
        except (typer.Abort, BoatError) as cause:
            raise Stopped(entered, cause) from cause
        if text is None:  # one question back
            if entered:
                key, before = entered.popitem()
                offered[key] = before
            else:
                typer.echo("  This is the first question.")
            continue
        entered[question.key] = text
        if text:
            offered[question.key] = text
    return text_of(entered, HEAD)


def _next(entered: Entered) -> Question | None:
    """Return the first question that is not answered yet, or None."""
    flow = _flow()
    question = next(flow)
    try:
        while question.key in entered:
            question = flow.send(entered[question.key])
    except StopIteration:
        return None
    return question


def _entry(question: Question, entered: Entered, offered: Mapping[str, str]) -> str | None:
    """Return an entry that may stand; None for the question before."""
    usual = offered.get(question.key) or question.usual
    words = f"{question.head}\n{question.words}" if question.head else question.words
    while True:
        text = _answer(words, usual)
        words = question.words
        if text.casefold() == BACK:
            return None
        if text.casefold() == SHOW:
            typer.echo(text_of(entered, HEAD))
            continue
        if text.casefold() == NONE and question.usual is not None:
            text = question.usual
        try:
            _look(question, entered, text)
        except TrimdiveError as error:
            typer.echo(f"  {_sentence(error)}")
        else:
            return text


def _look(question: Question, entered: Entered, text: str) -> None:
    """Refuse what cannot be entered here.

    Raises:
        TrimdiveError: It cannot.
    """
    if question.key == "unit":
        unit_named(text, "length")
    elif not text and question.usual != "":
        raise BoatFileError("nothing entered", question.key, "Enter it, or back.")
    else:
        look(entered, question.key, text)


def _sentence(error: TrimdiveError) -> str:
    mend = "Enter the mass, or back for the wall." if error.where == NO_WALL else error.mend
    return f"{capital(error.what)}. {mend}"


def _flow() -> Flow:
    """Ask everything in its order; what is sent in is what was answered."""
    yield Question("unit", "Unit of lengths", "mm")
    yield Question("name", "Her name", "Unnamed")
    yield Question("length", "Length over all")
    kind = yield Question("kind", "Wet or dry hull", "wet")
    yield Question("material", "Material of the hull", "GRP")
    yield Question("measured_from", "Positions measured from", "stern")
    yield from _girths(is_dry=kind == "dry")
    number, head = 1, WALLS
    while (yield Question(f"wall.{number}", f"Wall {number}", "", head)):
        number, head = number + 1, ""
    mass = yield Question(
        "moulding.mass", "Mass of the upper moulding, if weighed (empty if not)", "", WEIGHED
    )
    if mass:
        yield Question("moulding.edge", "Its lower edge above the waterline (0 if at it)", "0")
    number, head = 1, STANDING
    while (yield Question(f"standing.{number}.name", "Name", "", head)):
        yield from _standing(f"standing.{number}")
        number, head = number + 1, ""


def _girths(*, is_dry: bool) -> Flow:
    number, head = 1, GIRTHS
    across = "" if is_dry else " (empty if not measured)"
    while (yield Question(f"girth.{number}.x", f"Position of girth {number} (empty when done)", "",
                          head)):  # fmt: skip
        yield Question(f"girth.{number}.girth", "  girth there")
        words = f"  breadth at the waterline{across}"
        yield Question(f"girth.{number}.breadth", words, None if is_dry else "")
        number, head = number + 1, ""


def _standing(key: str) -> Flow:
    yield Question(f"{key}.x", "  its centre along her")
    mass = yield Question(f"{key}.mass", "  its mass (empty to give girth, height and wall)", "")
    if mass:
        hung = yield Question(f"{key}.hung", "  scale reading hung under water (empty if not)", "")
        if not hung:
            yield Question(f"{key}.material", "  its material", "GRP")
        return
    for field, words in (("girth", "round it"), ("height", "its height"), ("wall", "its wall")):
        yield Question(f"{key}.{field}", f"  {words}")


def asked(words: str, check: Check | None = None, usual: str | None = None) -> str:
    """Return an answer that passes the check; asked again until it does.

    Raises:
        BoatFileError: No more answers come.
    """
    while True:
        text = _answer(words, usual)
        if text == usual or check is None:
            return text
        try:
            check(text)
        except TrimdiveError as error:
            typer.echo(f"  {error.what}. {error.mend}")
        else:
            return text


def _answer(words: str, usual: str | None) -> str:
    """Return what is typed.

    Raises:
        BoatFileError: No more answers come, from a file for example.
    """
    try:
        return str(typer.prompt(words, default=usual, show_default=bool(usual))).strip()
    except typer.Abort:
        if sys.stdin.isatty():
            raise
        what, mend = f"no answer to '{words.strip()}'", "Answer, or name a file."
        raise BoatFileError(what, "the questions", mend) from None


def is_material(text: str) -> object:
    """Return the material of a name.

    Raises:
        BoatFileError: There is none.
    """
    from trimdive.estimates.tape.typed import known_material

    return known_material(text, "material")


def one_of(*choices: str) -> Check:
    """Return the check that an answer is one of some words."""
    return partial(_one_of, choices)


def _one_of(choices: tuple[str, ...], text: str) -> None:
    if text not in choices:
        raise UnitError(f"'{text}' is neither", "", f"Write {' or '.join(choices)}.")
