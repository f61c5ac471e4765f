"""``kit``: the smallest set of loose pieces for every water and battery; reads, calls and shows."""

from pathlib import Path
from typing import Annotated

import typer

from trimdive.cli.answer import Answer, finish
from trimdive.cli.opening import opened, working

BoatFile = Annotated[Path, typer.Argument(metavar="BOAT", help="Boat file, or its folder.")]
Json = Annotated[bool, typer.Option("--json", help="Print one JSON document, in SI.")]
Waters = Annotated[
    str | None,
    typer.Option(
        "--waters", help='Waters planned: "cold pond, sea"; if left out, those of her brief.'
    ),
]
With = Annotated[
    list[str] | None,
    typer.Option(
        "--with", help='One part instead of another: "battery = 310 g @ 640 mm"; may be repeated.'
    ),
]
Without = Annotated[
    list[str] | None,
    typer.Option("--without", help="A part left at home; may be repeated."),
]
Place = str | None
Fore = Annotated[Place, typer.Option("--fore", help="Position of the fore pocket, as you measure.")]
Middle = Annotated[Place, typer.Option("--amidships", help="Position of the pocket amidships.")]
Aft = Annotated[Place, typer.Option("--aft", help="Position of the after pocket.")]
Seconds = Annotated[float, typer.Option("--seconds", help="Time allowed.", min=1, max=600)]


def kit(
    boat: BoatFile, waters: Waters = None, gear: With = None, without: Without = None,
    fore: Fore = None, amidships: Middle = None, aft: Aft = None,
    seconds: Seconds = 30.0, as_json: Json = False,
) -> None:  # fmt: skip
    """The fewest loose pieces to carry for every water and battery."""
    with working():
        from trimdive.text.kit_asked import made
        from trimdive.text.kit_text import kit_json, kit_text

        her = opened(boat)
        ends = {"fore": fore, "amidships": amidships, "aft": aft}
        found = made(her, waters, gear or (), without or (), ends, seconds)
        answer = kit_json(her, found) if as_json else [*kit_text(her, found)]
    finish(her, answer, boat, care="kit")


def add_to(app: typer.Typer) -> None:
    """Add the command."""
    app.command("kit", cls=Answer)(kit)
