"""``fit``: gaps, whether things come out, and room that is left; reads, calls and shows."""

from pathlib import Path
from typing import Annotated

import typer

from trimdive.cli.answer import Answer, finish
from trimdive.cli.opening import opened, working

BoatFile = Annotated[Path, typer.Argument(metavar="BOAT", help="Boat file, or its folder.")]
Json = Annotated[bool, typer.Option("--json", help="Print one JSON document, in SI.")]
Outside = Annotated[str, typer.Option("--outside", help="A tube: its outside diameter.")]
Long = Annotated[str, typer.Option("--length", help="Length of that tube with its caps on.")]
Charts = Annotated[Path | None, typer.Option("--charts", help="Folder for charts, as SVG.")]
All = Annotated[bool, typer.Option("--all", help="Tell every gap, not only the narrowest.")]


def fit(
    boat: BoatFile, outside: Outside = "", length: Long = "", every: All = False,
    charts: Charts = None, as_json: Json = False,
) -> None:  # fmt: skip
    """Gaps in the hull, what comes out of it, and where a tube goes in."""
    with working():
        from trimdive.cli.dive_out import files_written, fit_charts
        from trimdive.text.fit_asked import asked_tube
        from trimdive.text.fit_text import fit_json, fit_text, tube_in

        her = opened(boat)
        tube = asked_tube(her.boat, outside, length)
        files = fit_charts(her, charts)
        if as_json:
            answer = {**fit_json(her, tube), "files": [*map(str, files)]}
        else:
            answer = [*(tube_in(her, *tube) if tube else fit_text(her, every=every))]
            answer += files_written(files)
        shut = not tube and any(one.weight == "put right" for one in her.fit_findings)
    finish(her, answer, boat, shows="fit", care="board", is_wanting=shut)


def add_to(app: typer.Typer) -> None:
    """Add the command."""
    app.command("fit", cls=Answer)(fit)
