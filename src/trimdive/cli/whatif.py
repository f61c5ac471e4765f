"""``what-if``: something fails, is forgotten or is exchanged; reads, calls and shows."""

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
Without = Annotated[
    list[str] | None,
    typer.Option("--without", help="A part left at home; may be repeated."),
]
Instead = Annotated[str | None, typer.Option("--instead", help="A part to replace by another.")]
Mass = Annotated[str | None, typer.Option("--mass", help='Mass of the other part: "310 g".')]
Volume = Annotated[str | None, typer.Option("--volume", help="Its volume, if water reaches it.")]
AtX = Annotated[str | None, typer.Option("--x", help="Its centre along the boat, as you measure.")]
AtZ = Annotated[str | None, typer.Option("--z", help="Height of its centre above the keel line.")]


def what_if(
    boat: BoatFile, water: InWater = None, without: Without = None, instead: Instead = None,
    mass: Mass = None, volume: Volume = None, x: AtX = None, z: AtZ = None, as_json: Json = False,
) -> None:  # fmt: skip
    """What if a tank sticks, something floods or a part stays home?"""
    with working():
        from trimdive.text.whatif_asked import Other, asked
        from trimdive.text.whatif_text import what_if_json, what_if_text

        her = opened(boat, water)
        found = asked(her, without or (), Other(name=instead, mass=mass, volume=volume, x=x, z=z))
        answer = what_if_json(her, found) if as_json else [*what_if_text(her, found)]
    finish(her, answer, boat, {"--water": water})


def add_to(app: typer.Typer) -> None:
    """Add the command."""
    app.command("what-if", cls=Answer)(what_if)
