"""``fit``: gaps, whether things come out, and room that is left; reads, calls and shows."""

from pathlib import Path
from typing import Annotated

import typer

from trimdive.cli.answer import Answer, finish
from trimdive.cli.opening import opened, working

BoatFile = Annotated[Path, typer.Argument(metavar="BOAT", help="Boat file, or its folder.")]
Json = Annotated[bool, typer.Option("--json", help="Print one JSON document, in SI.")]
All = Annotated[bool, typer.Option("--all", help="Tell every gap, not only the narrowest.")]


def fit(boat: BoatFile, every: All = False, as_json: Json = False) -> None:
    """Gaps in the hull, what comes out of it, and the largest cylinder."""
    with working():
        from trimdive.text.fit_text import fit_json, fit_text

        her = opened(boat)
        answer = fit_json(her) if as_json else [*fit_text(her, every=every)]
    finish(her, answer, boat, care="board")


def add_to(app: typer.Typer) -> None:
    """Add the command."""
    app.command("fit", cls=Answer)(fit)
