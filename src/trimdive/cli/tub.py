"""``tub``: how sure she is, and what readings in the tub say; reads, calls and shows."""

from pathlib import Path
from typing import Annotated

import typer

from trimdive.cli.answer import Answer, finish
from trimdive.cli.opening import opened, working

BoatFile = Annotated[Path, typer.Argument(metavar="BOAT", help="Boat file, or its folder.")]
Json = Annotated[bool, typer.Option("--json", help="Print one JSON document, in SI.")]


def tub(boat: BoatFile, as_json: Json = False) -> None:
    """How sure each figure is, what to weigh next, and what to read in the tub."""
    with working():
        from trimdive.cli.tub_sure import sure_json, sure_text

        her = opened(boat)
        answer = sure_json(her) if as_json else [*sure_text(her)]
    finish(her, answer, boat)


def add_to(app: typer.Typer) -> None:
    """Add the command."""
    app.command("tub", cls=Answer)(tub)
