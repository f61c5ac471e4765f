"""``mesh``: what a mesh file holds, what it does not say, what is wrong with it and mends it."""

import sys
from collections.abc import Callable, Generator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from trimdive.cli.answer import IN_ORDER, PUT_RIGHT, Answer, print_json

if TYPE_CHECKING:
    from trimdive.cli.mesh_work import Looked

File = Annotated[Path, typer.Argument(metavar="FILE", help="STL, OBJ, PLY, 3MF, GLB or STEP.")]
Unit = Annotated[str, typer.Option("--unit", help="Unit of length in the file, such as mm.")]
Scale = Annotated[str, typer.Option("--scale", help="Scale, if drawn larger than the model: 1:20.")]
Forward = Annotated[str, typer.Option("--forward", help="Axis that points forward: x, -x, y …")]
Up = Annotated[str, typer.Option("--up", help="Axis that points up.")]
Long = Annotated[str, typer.Option("--length", help='How long it should be: "720 mm".')]
Repairs = Annotated[
    list[str] | None,
    typer.Option("--repair", help="weld, drop, flip, cap or union; may be repeated."),
]
Out = Annotated[Path | None, typer.Option("--out", help="Write the repaired mesh, as STL in mm.")]
Replace = Annotated[bool, typer.Option("--replace", help="Overwrite an existing file.")]
Json = Annotated[bool, typer.Option("--json", help="Print one JSON document, in SI.")]

STEPS = 6  # that are told while it is looked at


def mesh(
    file: File, unit: Unit = "", scale: Scale = "", forward: Forward = "", up: Up = "",
    long: Long = "", repair: Repairs = None, out: Out = None, replace: Replace = False,
    as_json: Json = False,
) -> None:  # fmt: skip
    """Check a mesh file: what is wrong with it, and how to repair it."""
    with steps() as step:
        from trimdive.cli.mesh_work import Asked, looked, written

        asked = Asked(
            unit=unit, scale=scale, forward=forward, up=up, long=long, repairs=tuple(repair or ()),
        )  # fmt: skip
        found = looked(file, asked, step)
        if out is not None:
            written(found, out, replace=replace)
            typer.echo(f"written: {out}", err=True)
    _show(found, as_json=as_json)


def _show(found: "Looked", *, as_json: bool) -> None:
    """Print what was found, and end: 1 where something must be put right."""
    from trimdive.cli.layout import console
    from trimdive.cli.mesh_text import mesh_json, mesh_text

    if as_json:
        print_json(mesh_json(found))
    else:
        terminal = console()
        for block in mesh_text(found):
            terminal.print(block)
    raise typer.Exit(PUT_RIGHT if found.troubles else IN_ORDER)


@contextmanager
def steps() -> Generator[Callable[[str], None]]:
    """Show a person at a terminal how far it is."""
    if not sys.stderr.isatty():
        yield lambda _: None
        return
    from rich.console import Console
    from rich.progress import BarColumn, Progress, TextColumn

    from trimdive.text.meshed_text import STEPS as DOING

    columns = (BarColumn(), TextColumn("{task.description}"))
    with Progress(*columns, console=Console(stderr=True), transient=True) as progress:
        task = progress.add_task("reading", total=STEPS)
        yield lambda step: progress.update(task, advance=1, description=DOING[step])


def add_to(app: typer.Typer) -> None:
    """Enter the command."""
    app.command("mesh", cls=Answer)(mesh)
