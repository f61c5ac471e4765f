"""The commands for a boat that is not yet in a file: each reads, calls and shows."""

from pathlib import Path
from typing import Annotated

import typer

from trimdive.cli.answer import Answer

building = typer.Typer(add_completion=False, rich_markup_mode=None)

TapeFile = Annotated[
    Path | None,
    typer.Argument(metavar="[FILE]", help="Tape readings; left out, they are asked for."),
]
Json = Annotated[bool, typer.Option("--json", help="Print one JSON document, in SI.")]
Keep = Annotated[
    Path | None, typer.Option("--save", help="Keep the readings asked for in this file.")
]


@building.command(cls=Answer)
def tape(file: TapeFile = None, save: Keep = None, as_json: Json = False) -> None:
    """Litres of ballast water from a tape, before there is any hull."""
    from trimdive.cli.tape import keep, read_file, show
    from trimdive.cli.tape_asked import asked_readings
    from trimdive.tape import parse, tape_litres

    if file is not None:
        readings = read_file(file)
    else:
        text = asked_readings()
        keep(text, save)
        readings = parse(text, save.name if save else "the answers")
    show(tape_litres(readings), as_json)
