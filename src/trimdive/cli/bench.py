"""``bench`` and ``tube``: what is inside cylinders and what moves; reads, calls and shows."""

from pathlib import Path
from typing import Annotated

import typer

from trimdive.cli.answer import Answer, finish, tell
from trimdive.cli.opening import opened, working

BoatFile = Annotated[Path, typer.Argument(metavar="BOAT", help="Boat file, or its folder.")]
Json = Annotated[bool, typer.Option("--json", help="Print one JSON document, in SI.")]
Why = Annotated[bool, typer.Option("--why", help="Show how every figure is calculated.")]
Kinds = Annotated[bool, typer.Option("--kinds", help="Every kind of ballast plant, for this boat.")]
One = Annotated[str, typer.Option("--cylinder", help="One cylinder, part by part.")]
Out = Annotated[Path | None, typer.Option("--out", help="Folder for the drawings, as SVG.")]
Inside = Annotated[str, typer.Argument(metavar="BORE", help='Inside diameter: "118 mm".')]
Deep = Annotated[str, typer.Option("--depth", help="Depth she is built for.")]
MaterialName = Annotated[
    str, typer.Option("--material", help="Material of the tube; any if left out.")
]
Long = Annotated[str, typer.Option("--length", help="Length of the cylinder over its caps.")]


def bench(
    boat: BoatFile, cylinder: One = "", why: Why = False, kinds: Kinds = False, out: Out = None,
    as_json: Json = False,
) -> None:  # fmt: skip
    """Cylinders, seals, plant, failsafe: will she hold and come up?"""
    with working():
        from trimdive.cli.bench_out import drawn
        from trimdive.cli.dive_out import files_written
        from trimdive.text.bench_asked import named
        from trimdive.text.bench_json import bench_json
        from trimdive.text.bench_text import bench_text

        her = opened(boat)
        only = named(her, cylinder)
        text = [*bench_text(her, why=why, kinds=kinds, only=only)]
        answer = bench_json(her, kinds=kinds) if as_json else text
        files = drawn(her, only, out) if out else []
        if isinstance(answer, list):
            answer += files_written(files)
    finish(her, answer, boat, shows="bench")


def tube(
    inside: Inside, depth: Deep = "3 m", material: MaterialName = "", length: Long = "600 mm"
) -> None:
    """Tubes sold with this bore, and how deep they may go."""
    with working():
        from trimdive.text.bench_asked import asked_tube
        from trimdive.text.tube_text import tube_text

        offers, deep, bore = asked_tube(inside, depth, material, length)
    tell([*tube_text(offers, deep, bore)])


def add_to(app: typer.Typer) -> None:
    """Add the commands."""
    app.command("bench", cls=Answer)(bench)
    app.command("tube", cls=Answer)(tube)
