"""The talk at the tub: figures and answers asked for one by one, or read from the command line."""

import difflib
import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

import typer

from trimdive.data.cautions import cautions
from trimdive.errors import BoatError, BoatFileError, TrimdiveError
from trimdive.text.wethands_first import FIRST, begun_with
from trimdive.text.wethands_words import Shown, question_text, so_far, why

if TYPE_CHECKING:
    from trimdive.estimates.wethands import Known, Question, Reply, Step

STOP, BACK, WHY = ("stop", "enough", "quit", "end"), ("back", "undo"), ("why", "?", "help")
HOLDS = ("half as much again", "less than half")


class StoppedError(Exception):
    """No more answers come."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Begin:
    """What was told on the command line."""

    mass: str | None
    tank: str | None
    length: str | None
    bg: str | None
    water: str | None


def scripted(begin: Begin, answers: str) -> "tuple[Step, Shown]":
    """Return where she stands with answers typed at once, as "angle: level; ride: 5 mm low".

    Raises:
        TrimdiveError: A figure is missing, an answer means nothing, or two disagree.
    """
    from trimdive.estimates.wethands import BY_KEY, step
    from trimdive.text.wethands_typed import reply_of

    given = dict(_pairs(answers))
    first = {key: getattr(begin, key) or given.pop(key, None) for key in (*FIRST, "bg", "water")}
    for key in FIRST:
        if not first[key]:
            what, mend = "it is missing", f'Add --{key} "{FIRST[key][2]}".'
            raise BoatFileError(what, f"--{key}", mend)
    known, shown = begun_with(first)
    for key, text in given.items():
        if key not in BY_KEY:
            raise _no_question(key, [*FIRST, "bg", "water", *BY_KEY])
        known = known.with_reply(reply_of(BY_KEY[key], text, known))
    return step(known), shown


def _pairs(answers: str) -> list[tuple[str, str]]:
    """Return keys and texts of answers parted by semicolons.

    Raises:
        BoatFileError: One has no key, or a key is there twice.
    """
    found: list[tuple[str, str]] = []
    for part in filter(None, (part.strip() for part in answers.split(";"))):
        named = re.fullmatch(r"([a-z]+)\s*[:=]\s*(.*)", part, re.IGNORECASE)
        if not named:
            what, mend = f"'{part}' is not a question", 'Write it as "angle: bow down 12°".'
            raise BoatFileError(what, "--answers", mend)
        key = named[1].lower()
        if (before := dict(found).get(key)) is not None:
            what = f"'{key}: {before}' and '{key}: {named[2]}' disagree"
            raise BoatFileError(what, "--answers", "Keep one of them.")
        found.append((key, named[2]))
    return found


def _no_question(key: str, known: list[str]) -> BoatFileError:
    near = difflib.get_close_matches(key, known, n=1)
    mend = f"Did you mean '{near[0]}'?" if near else f"Known: {', '.join(known)}."
    return BoatFileError(f"there is no question '{key}'", "--answers", mend)


def talk(begin: Begin) -> "tuple[Step, Shown]":
    """Ask until nothing more is to be asked, or until no answers come; return where she stands.

    Raises:
        StoppedError: No answer came to the first figures.
        DisagreementError: The same two answers disagree twice.
    """
    from trimdive.estimates.wethands import step

    first = {key: getattr(begin, key) for key in (*FIRST, "bg", "water")}
    typer.echo(f"Take care: {' '.join(one.short for one in cautions('tub'))}\n")
    known, shown = _first_figures(first)
    now = step(known)
    while now.next is not None:
        typer.echo(so_far(now))
        try:
            now = _one(now, now.next)
        except StoppedError:
            break
    return now, shown


def _first_figures(first: dict[str, str | None]) -> "tuple[Known, Shown]":
    """Ask for the first figures that are not told yet.

    Raises:
        BoatFileError: No answer comes.
    """
    from trimdive.text.wethands_quantities import figure_of

    for key, (kind, words, example) in FIRST.items():
        while not first[key]:
            try:
                text = _line(f"{words} (such as {example})")
                figure_of(text, kind, None, key)
            except StoppedError:
                what, mend = f"{words.lower()} is missing", "Mass, tank and length are the least."
                raise BoatFileError(what, key, mend) from None
            except TrimdiveError as error:
                typer.echo(f"  {error.what}. {error.mend}")
            else:
                first[key] = text
    try:
        return begun_with(first)
    except BoatError as error:
        if error.where not in FIRST:
            raise
        typer.echo(f"  {error.what}. {error.mend}")
        return _first_figures({**first, error.where: None})


def _one(now: "Step", question: "Question") -> "Step":
    """Ask one question until it is answered; return where she stands then.

    Raises:
        StoppedError: No answer comes.
        DisagreementError: Two answers disagree though one was asked for again.
    """
    from trimdive.estimates.wethands import DisagreementError, step

    typer.echo(question_text(question, now.known))
    reply = _answered(now, question)
    if reply is None:
        return step(now.known.without(now.known.replies[-1].key)) if now.known.replies else now
    known = now.known.with_reply(reply)
    try:
        return step(known)
    except DisagreementError as error:
        typer.echo(f"\n  {error.what}. {error.mend} Both are asked for again.")
        return step(known.without(error.one.key, error.other.key))


def _answered(now: "Step", question: "Question") -> "Reply | None":
    """Return what is typed as an answer; None where the one before is to be taken back.

    Raises:
        StoppedError: No answer comes.
    """
    from trimdive.text.wethands_typed import reply_of

    while True:
        text = _line("")
        plain = text.strip().lower()
        if plain in STOP:
            raise StoppedError
        if plain in BACK:
            return None
        if plain in WHY:
            typer.echo(why(now))
            continue
        try:
            return reply_of(question, text, now.known)
        except TrimdiveError as error:
            typer.echo(f"  {error.what}. {error.mend}")


def _line(words: str) -> str:
    """Return a line as typed.

    Raises:
        StoppedError: There is none.
    """
    try:
        return str(typer.prompt(words, default="", show_default=False, prompt_suffix=" > "))
    except typer.Abort:
        raise StoppedError from None
