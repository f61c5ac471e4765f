"""From the questions of ``tape`` to a file of readings, and to a first boat."""

import sys
from pathlib import Path
from typing import TYPE_CHECKING

import typer

from trimdive.cli.opening import BOAT_FILE, keep, working
from trimdive.cli.tape import text_in
from trimdive.cli.tape_asked import Stopped, asked, asked_readings
from trimdive.errors import BoatFileError, TrimdiveError

if TYPE_CHECKING:
    from trimdive.estimates.tape import Readings

THERE = "Name another."
TO_FILE = "\nKeep the readings in a file, such as tape.toml (empty if not)"
TO_BOAT = "Make a first boat from them, in its own folder (empty if not)"


def asked_for(file: Path | None, save: Path | None) -> tuple[str, "Readings"]:
    """Return readings as asked for at the terminal: the text of their file, and what it says.

    Args:
        file: Readings to offer again, complete or not.
        save: The file in which they will be kept; what is entered is kept there too where the
            questions end before the last.

    Raises:
        TrimdiveError: The file is there already, or no more answers come.
    """
    from trimdive.estimates.tape import parse
    from trimdive.estimates.tape.entered import entered_of

    refuse_a_file(save)
    known = entered_of(*text_in(file)) if file else None
    try:
        text = asked_readings(known)
    except Stopped as stopped:
        _kept_so_far(stopped, save)
        raise stopped.cause from None
    readings = parse(text, save.name if save else "the answers")
    keep(text, save)
    return text, readings


def _kept_so_far(stopped: Stopped, save: Path | None) -> None:
    """Keep what was entered before the questions ended, or show it."""
    from trimdive.estimates.tape.entered import text_of
    from trimdive.text.taped_text import STOPPED

    if "length" not in stopped.entered:
        return
    text = text_of(stopped.entered, STOPPED)
    if save is None:
        typer.echo("\nNot complete. What you entered, to be kept as a file:\n", err=True)
        typer.echo(text, err=True)
        return
    keep(text, save)
    typer.echo(f"\nNot complete; kept in {save}. Go on with: trimdive tape {save} --more", err=True)


def kept_or_made(text: str, save: Path | None, readings: "Readings", *, is_quiet: bool) -> None:
    """Offer a person at a terminal to keep the readings, and to make a first boat of them."""
    if is_quiet or not sys.stdin.isatty():
        return
    try:
        if save is None and (named := asked(TO_FILE, _is_new_file, "")):
            keep(text, Path(named))
        if folder := asked(TO_BOAT, _is_new_folder, ""):
            _made(Path(folder), text, readings)
    except TrimdiveError as error:
        typer.echo(f"  {error}", err=True)
    typer.echo("")


def _made(folder: Path, text: str, readings: "Readings") -> None:
    """Make a first boat of readings."""
    from trimdive.cli import new
    from trimdive.cli.layout import console
    from trimdive.estimates.starter import starter, wish_by_tape

    with working():
        made = starter(wish_by_tape(readings))
    file = new.written(folder, made, text)
    terminal = console()
    for block in new.new_text(file, made):
        terminal.print(block)


def _is_new_file(text: str) -> None:
    refuse_a_file(Path(text))


def _is_new_folder(text: str) -> None:
    if (Path(text) / BOAT_FILE).exists():
        raise BoatFileError("there is a boat in this folder already", text, "Name another folder")


def refuse_a_file(file: Path | None) -> None:
    """Refuse a file that is there already, before anything is asked.

    Raises:
        BoatFileError: It is.
    """
    if file is not None and file.exists():
        raise BoatFileError("there is such a file already", str(file), THERE)
