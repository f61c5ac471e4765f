"""``page``: the boat in the browser, on this machine only; reads, calls and shows."""

from pathlib import Path
from typing import Annotated

import typer

from trimdive.cli.answer import Answer
from trimdive.cli.opening import boat_file, working

BoatFile = Annotated[Path, typer.Argument(metavar="BOAT", help="Boat file, or its folder.")]
Port = Annotated[int, typer.Option("--port", min=0, max=65535, help="0: any that is free.")]
Browser = Annotated[bool, typer.Option("--browser/--no-browser", help="Open the browser.")]


def page(boat: BoatFile, port: Port = 0, browser: Browser = True) -> None:
    """The boat in the browser, on this machine only."""
    with working():
        from trimdive.page.serving import laid_out, serve

        desk = laid_out(boat_file(boat))
    left = serve(desk, _told, port=port, browser=browser)
    if left:
        typer.echo(f"{left} {'change was' if left == 1 else 'changes were'} not saved.", err=True)


def _told(address: str) -> None:
    typer.echo(f"The page is at {address}\nCtrl-C ends it.")


def add_to(app: typer.Typer) -> None:
    """Add the command."""
    app.command("page", cls=Answer)(page)
