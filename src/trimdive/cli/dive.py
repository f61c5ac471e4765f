"""``dive``, ``what-if`` and ``reach``: each reads, calls and shows."""

from pathlib import Path
from typing import Annotated

import typer

from trimdive.cli.answer import Answer, finish
from trimdive.cli.opening import opened, working

BoatFile = Annotated[Path, typer.Argument(metavar="BOAT", help="Boat file, or its folder.")]
Json = Annotated[bool, typer.Option("--json", help="Print one JSON document, in SI.")]
InWater = Annotated[
    str | None,
    typer.Option("--water", help='"sea", "fresh 6 °C", "pool 28 °C 3 g/kg" or a named water.'),
]
Order = Annotated[
    str | None,
    typer.Option("--order", help='Filling order: "together", "NAME first", "NAME ahead by 8 %".'),
]
Fill = Annotated[
    str | None, typer.Option("--fill", help='Filling steps: "NAME = 8 %; NAME = 100 %".')
]
Steps = Annotated[
    int | None, typer.Option("--steps", help="Rows of the table, evenly spaced; 25 if left out.")
]
Up = Annotated[bool, typer.Option("--up", help="Show the moments of the way up.")]
Csv = Annotated[
    Path | None, typer.Option("--csv", help="Write every moment into this file, in SI.")
]
Charts = Annotated[Path | None, typer.Option("--charts", help="Folder for charts, as SVG.")]


def dive(
    boat: BoatFile, water: InWater = None, order: Order = None, fill: Fill = None,
    steps: Steps = None, up: Up = False, csv: Csv = None, charts: Charts = None,
    as_json: Json = False,
) -> None:  # fmt: skip
    """Every moment from surfaced to dived and back."""
    with working():
        from trimdive.cli.dive_json import dive_json
        from trimdive.cli.dive_out import dive_charts, dive_csv, files_written
        from trimdive.text.dive_text import dive_text, dived
        from trimdive.text.dive_typed import as_typed, steps_of

        her = as_typed(opened(boat, water), order, fill)
        one = dived(her, None if steps is None else steps_of(steps))
        files = [*dive_csv(one, csv), *dive_charts(one, charts)]
        answer = (
            dive_json(one, files) if as_json else [*dive_text(one, up=up), *files_written(files)]
        )
    finish(her, answer, boat, {"--water": water, "--order": order, "--fill": fill})


def add_to(app: typer.Typer) -> None:
    """Add the commands."""
    app.command("dive", cls=Answer)(dive)
