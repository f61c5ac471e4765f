"""``pond``: the water of the day and what to change, on the phone and on paper; reads and shows."""

from pathlib import Path
from typing import Annotated

import typer

from trimdive.cli.answer import Answer, finish
from trimdive.cli.opening import opened, working

BoatFile = Annotated[Path, typer.Argument(metavar="BOAT", help="Boat file, or its folder.")]
Today = Annotated[
    str | None,
    typer.Option(
        "--water", help='"sea", "fresh 6 °C", a named water, or "1012 kg/m³" as measured.'
    ),
]
Out = Annotated[
    Path | None, typer.Option("--out", help="Write the card: a new .html for the phone, or .pdf.")
]
Json = Annotated[bool, typer.Option("--json", help="Print one JSON document, in SI.")]


def pond(boat: BoatFile, water: Today = None, out: Out = None, as_json: Json = False) -> None:
    """What to change for the water of the day; a card to take along."""
    with working():
        from trimdive.cli.pond_text import pond_json, pond_text, water_of_day, written
        from trimdive.pond import refused

        her = opened(boat)
        day = None if water is None else water_of_day(water, her)
        file = None if out is None or refused(her) else written(her, day, out)
        answer = pond_json(her, day, file) if as_json else [*pond_text(her, day, file)]
    finish(her, answer, boat, care="pond")


def add_to(app: typer.Typer) -> None:
    """Add the command."""
    app.command("pond", cls=Answer)(pond)
