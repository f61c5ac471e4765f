"""``place``: where lead, foam and what may slide go; reads, calls and shows."""

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from trimdive.cli.answer import Answer, finish
from trimdive.cli.opening import boat_file, opened

if TYPE_CHECKING:
    from trimdive.placing.solve import Reached
    from trimdive.placing.solve.solve import Progress

BoatFile = Annotated[Path, typer.Argument(metavar="BOAT", help="Boat file, or its folder.")]
Json = Annotated[bool, typer.Option("--json", help="Print one JSON document, in SI.")]
Apply = Annotated[
    bool, typer.Option("--apply", help="Write it into the boat file; the previous version is kept.")
]
Mend = Annotated[
    bool,
    typer.Option("--mend", help="With --apply: also make the changes that lead cannot replace."),
]
Take = Annotated[int | None, typer.Option("--take", help="Number of the change to apply.")]
Aims = Annotated[
    str | None,
    typer.Option("--aims", help='What matters most, first: "mass, pieces, foam, moves".'),
]
Keep = Annotated[
    str | None,
    typer.Option(
        "--keep", help='"lead", "foam" or both: pieces that stay as they are; or "nothing".'
    ),
]
Above = Annotated[
    bool,
    typer.Option("--above", help="Foam may go above the waterline too; it costs ballast water."),
]
Anew = Annotated[bool, typer.Option("--anew", help="Place again even if she is in order.")]
Card = Annotated[Path | None, typer.Option("--card", help="Folder for the placing card, as SVG.")]
Seconds = Annotated[float, typer.Option("--seconds", help="Time allowed.", min=1, max=600)]


def place(
    boat: BoatFile, aims: Aims = None, keep: Keep = None, above: Above = False,
    anew: Anew = False, take: Take = None, mend: Mend = False, apply: Apply = False,
    card: Card = None, seconds: Seconds = 20.0, as_json: Json = False,
) -> None:  # fmt: skip
    """Where lead, foam and sliding parts go to put her right."""
    from trimdive.boatfile import load
    from trimdive.cli.place_card import card_file
    from trimdive.cli.place_json import place_json
    from trimdive.edits.work import work
    from trimdive.text.place_asked import saved_with, taken, wish_of
    from trimdive.text.place_text import place_text

    loaded = load(boat_file(boat))
    her = opened(boat)
    wish = wish_of(her.boat.placing, aims, keep, above=above)
    done = taken(work(her, wish, seconds, anew=anew, progress=_progress_line()), take)
    drawn = card_file(done, card)
    saved = saved_with(loaded, done, mend=mend) if apply else None
    answer = place_json(done, saved, drawn) if as_json else [*place_text(done, boat, saved, drawn)]
    finish(saved or her, answer, boat, care="place")


def _progress(now: "Reached") -> None:
    """Tell a person at a terminal how far it is."""
    from trimdive.text.place_text import reached_words

    typer.echo(reached_words(now), err=True)


def _progress_line() -> "Progress | None":
    """Return what tells how far it is; None where nobody looks on."""
    return _progress if sys.stderr.isatty() else None


def add_to(app: typer.Typer) -> None:
    """Add the command."""
    app.command("place", cls=Answer)(place)
