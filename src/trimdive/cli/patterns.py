"""``sheets``: full-size patterns to cut by; reads, calls and writes."""

from pathlib import Path
from typing import Annotated

import typer

from trimdive.cli.answer import Answer, tell
from trimdive.cli.opening import opened, working

BoatFile = Annotated[Path, typer.Argument(metavar="BOAT", help="Boat file, or its folder.")]
Json = Annotated[bool, typer.Option("--json", help="Print one JSON document, in SI.")]
Out = Annotated[Path, typer.Option("--out", help="Folder for the sheets.")]
At = Annotated[str, typer.Option("--at", help='Stations, as you measure: "300 mm, 700 mm".')]
Kind = Annotated[str, typer.Option("--kind", help="shell, frame or both.")]
Gap = Annotated[str, typer.Option("--gap", help="Between shell board and skin: filler, paint.")]
Glue = Annotated[str, typer.Option("--glue", help="Between frame and skin.")]
Thick = Annotated[str, typer.Option("--thick", help="Thickness of a frame.")]
Clear = Annotated[
    str,
    typer.Option("--clear", help="Around a cylinder; left out, as gap-cylinder."),
]
Notch = Annotated[str, typer.Option("--notch", help="Radius of a frame's notches; 0 for none.")]
Paper = Annotated[str, typer.Option("--paper", help="a4, a3 or letter.")]
Printed = Annotated[
    str, typer.Option("--printed", help='What the rulers measure: "99.6 mm, 100.2 mm".')
]


def sheets(
    boat: BoatFile, out: Out = Path("out"), at: At = "", kind: Kind = "both", gap: Gap = "1 mm",
    glue: Glue = "0.3 mm", thick: Thick = "4 mm", clear: Clear = "", notch: Notch = "6 mm",
    paper: Paper = "a4", printed: Printed = "", as_json: Json = False,
) -> None:  # fmt: skip
    """Full-size patterns across her, to print, or to cut by machine."""
    with working():
        from trimdive.cli.patterns_out import patterns_written
        from trimdive.text.pattern_words import sheets_json
        from trimdive.text.patterns_asked import asked

        her = opened(boat)
        typed = {"at": at, "kind": kind, "gap": gap, "glue": glue, "thick": thick, "clear": clear,
                 "notch": notch, "paper": paper, "printed": printed}  # fmt: skip
        files, found = patterns_written(her, asked(her.boat, her.hull, typed), out)
        answer = sheets_json(her, files, found) if as_json else "\n".join(map(str, files))
    tell(answer)


def add_to(app: typer.Typer) -> None:
    """Add the command."""
    app.command("sheets", cls=Answer)(sheets)
