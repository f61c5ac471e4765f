"""``arrange``: where cylinders and what lies in them go; reads, calls and shows."""

from pathlib import Path
from typing import Annotated

import typer

from trimdive.cli.answer import Answer, finish
from trimdive.cli.opening import boat_file, opened, working

BoatFile = Annotated[Path, typer.Argument(metavar="BOAT", help="Boat file, or its folder.")]
Json = Annotated[bool, typer.Option("--json", help="Print one JSON document, in SI.")]
Keep = Annotated[
    list[str] | None,
    typer.Option("--keep", help="Name of what stays where it lies; once for each."),
]
Aft = Annotated[
    list[str] | None,
    typer.Option("--aft", help="Name of what lies aftmost in its cylinder, as a motor does."),
]
Fore = Annotated[
    list[str] | None, typer.Option("--fore", help="Name of what lies foremost in its cylinder.")
]
Take = Annotated[int, typer.Option("--take", help="Number of the arrangement to apply.")]
Apply = Annotated[
    bool, typer.Option("--apply", help="Write it into the boat file; the previous version is kept.")
]
Seconds = Annotated[
    float, typer.Option("--seconds", help="Processor time allowed.", min=1, max=600)
]


def arrange(
    boat: BoatFile, keep: Keep = None, aft: Aft = None, fore: Fore = None, take: Take = 1,
    apply: Apply = False, seconds: Seconds = 30.0, as_json: Json = False,
) -> None:  # fmt: skip
    """Where cylinders, and all that lies in them, go along her."""
    with working():
        from trimdive.arranging.work import arrange as arranged
        from trimdive.boatfile import load
        from trimdive.text.arrange_asked import at_ends, checked, chosen, kept, saved_with
        from trimdive.text.arrange_text import arrange_json, arrange_text

        loaded, her = load(boat_file(boat)), opened(boat)
        checked(her.boat)
        stays, ends = kept(her.boat, keep or ()), at_ends(her.boat, aft or (), fore or ())
        done = arranged(her, stays, ends, seconds)
        chosen(done, take)
        saved = saved_with(loaded, done, take) if apply else None
        answer = arrange_json(done, saved) if as_json else [*arrange_text(done, boat, saved)]
    finish(saved or her, answer, boat)


def add_to(app: typer.Typer) -> None:
    """Add the command."""
    app.command("arrange", cls=Answer)(arrange)
