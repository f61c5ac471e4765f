"""``reach``: what water alone covers, other waters and depth; reads, calls and shows."""

from pathlib import Path
from typing import Annotated

import typer

from trimdive.cli.answer import Answer, finish
from trimdive.cli.opening import opened, working
from trimdive.cli.whatif import AtX, AtZ, Instead, Mass, Volume, Without

BoatFile = Annotated[Path, typer.Argument(metavar="BOAT", help="Boat file, or its folder.")]
Json = Annotated[bool, typer.Option("--json", help="Print one JSON document, in SI.")]
InWater = Annotated[
    str | None,
    typer.Option("--water", help='"sea", "fresh 6 °C", "pool 28 °C 3 g/kg" or a named water.'),
]
Charts = Annotated[Path | None, typer.Option("--charts", help="Folder for a chart, as SVG.")]


def reach(
    boat: BoatFile, water: InWater = None, without: Without = None, instead: Instead = None,
    mass: Mass = None, volume: Volume = None, x: AtX = None, z: AtZ = None,
    charts: Charts = None, as_json: Json = False,
) -> None:  # fmt: skip
    """What ballast water alone can put right; other waters; depth."""
    with working():
        from trimdive.cli.dive_out import files_written, reach_charts
        from trimdive.text.reach_text import reach_json, reach_text
        from trimdive.text.whatif_asked import Other, wanted

        her = opened(boat, water)
        other = Other(name=instead, mass=mass, volume=volume, x=x, z=z)
        states = wanted(her, without or (), other)
        files = reach_charts(her, states, charts)
        text = [*reach_text(her, states), *files_written(files)]
        answer = reach_json(her, states) if as_json else text
    finish(her, answer, boat, {"--water": water}, care="reach")


def add_to(app: typer.Typer) -> None:
    """Add the command."""
    app.command("reach", cls=Answer)(reach)
