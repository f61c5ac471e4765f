"""``marks``: what is marked and cut on the skin; reads, calls and shows."""

from pathlib import Path
from typing import Annotated

import typer

from trimdive.cli.answer import Answer, finish
from trimdive.cli.opening import opened, working

BoatFile = Annotated[Path, typer.Argument(metavar="BOAT", help="Boat file, or its folder.")]
Json = Annotated[bool, typer.Option("--json", help="Print one JSON document, in SI.")]
All = Annotated[bool, typer.Option("--all", help="Tell every hole and figure of each row.")]


def marks(boat: BoatFile, every: All = False, as_json: Json = False) -> None:
    """Holes, plate lines and draught marks: where they lie on the skin, how long, how large."""
    with working():
        from trimdive.text.skin_marks import marks_json, marks_text

        her = opened(boat)
        answer = marks_json(her) if as_json else [*marks_text(her, every=every)]
    finish(her, answer, boat, care="marks")


def add_to(app: typer.Typer) -> None:
    """Add the command."""
    app.command("marks", cls=Answer)(marks)
