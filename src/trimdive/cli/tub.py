"""``tub``: how sure she is, and what readings in the tub say; reads, calls and shows."""

from pathlib import Path
from typing import Annotated

import typer

from trimdive.cli.answer import Answer, finish
from trimdive.cli.opening import boat_file, opened, working

BoatFile = Annotated[Path, typer.Argument(metavar="BOAT", help="Boat file, or its folder.")]
Json = Annotated[bool, typer.Option("--json", help="Print one JSON document, in SI.")]
Read = Annotated[
    list[str] | None,
    typer.Option("--read", help='Add a reading to the file, as "draught bow 97 mm".'),
]
Withdraw = Annotated[
    list[str] | None,
    typer.Option("--withdraw", help="Remove a reading: its number in the file, or last."),
]
Apply = Annotated[bool, typer.Option("--apply", help="Correct the weight list in the boat file.")]


def tub(
    boat: BoatFile, read: Read = None, withdraw: Withdraw = None, apply: Apply = False,
    as_json: Json = False,
) -> None:  # fmt: skip
    """How sure each figure is, and what readings in the tub say of her."""
    with working():
        from trimdive.text.tub_text import readings_json, readings_text
        from trimdive.text.tub_uncertainty import uncertainty_json, uncertainty_text
        from trimdive.text.tub_work import corrected, withdrawn, written
        from trimdive.trials.correction import Story

        if withdraw:
            typer.echo(withdrawn(boat_file(boat), withdraw), err=True)
        her = opened(boat)
        if read:
            written(boat_file(boat), read, her)
            her = opened(boat)
        if apply:
            corrected(boat_file(boat), her)
            her = opened(boat)
        if her.boat.readings_now:
            story = Story(her=her)
            answer = readings_json(story) if as_json else [*readings_text(story)]
        else:
            answer = uncertainty_json(her) if as_json else [*uncertainty_text(her)]
    finish(her, answer, boat, care="tub")


def add_to(app: typer.Typer) -> None:
    """Add the command."""
    app.command("tub", cls=Answer)(tub)
