"""``page``: the boat in the browser, on this machine only; reads, calls and shows."""

from pathlib import Path
from typing import Annotated

import typer
from typer.core import TyperGroup

from trimdive.cli.answer import Answer
from trimdive.cli.opening import boat_file, working

BoatFile = Annotated[
    Path | None,
    typer.Argument(metavar="BOAT", help="Boat file, or its folder; the last one if left out."),
]
OnShelf = Annotated[
    Path | None,
    typer.Option("--shelf", help="Folder of boats; trimdive in your home folder if left out."),
]
Port = Annotated[int, typer.Option("--port", min=0, max=65535, help="0: any free one.")]
Browser = Annotated[bool, typer.Option("--browser/--no-browser", help="Open the browser.")]


def page(
    boat: BoatFile = None, shelf: OnShelf = None, port: Port = 0, browser: Browser = True
) -> None:
    """The boat in the browser, on this machine only. Without BOAT, trimdive alone does the same."""
    with working():
        from trimdive.page.serving import USUAL, serve, workshop_at

        found = workshop_at(shelf or Path.home() / USUAL, boat_file(boat) if boat else None)
    left = serve(found, _show_address, port=port, browser=browser)
    if left:
        typer.echo(f"{left} {'change was' if left == 1 else 'changes were'} not saved.", err=True)


def _show_address(address: str) -> None:
    typer.echo(f"The page is at {address}\nCtrl-C ends it.")


def add_to(app: typer.Typer) -> None:
    """Add the command."""
    app.command("page", cls=Answer)(page)


class Door(TyperGroup):
    """The commands; what is no command but a boat, or nothing at all, opens the page."""

    def parse_args(self, ctx: typer.Context, args: list[str]) -> list[str]:  # pyright: ignore[reportIncompatibleMethodOverride]
        """Return what follows the command's name."""
        is_command = bool(args) and args[0] in self.commands
        return super().parse_args(
            ctx, ["page", *args] if _means_page(args) and not is_command else args
        )


def _means_page(args: list[str]) -> bool:
    """Return whether what was typed begins with a boat or an option of the page, or is nothing.

    >>> _means_page([]), _means_page(["--shelf", "x"]), _means_page(["boats/grebe"])
    (True, True, True)
    >>> _means_page(["--help"]), _means_page(["fly"])
    (False, False)
    """
    if not args:
        return True
    if args[0].startswith("-"):
        return args[0] not in ("--help", "-h", "--version")
    is_path = any(mark in args[0] for mark in ("/", "\\")) or args[0].endswith(".toml")
    return is_path or Path(args[0]).exists()
