"""``weights-in`` and ``weights-out``: weight lists from and for spreadsheets."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from trimdive.cli.answer import PUT_RIGHT, Answer, print_json
from trimdive.cli.opening import working

if TYPE_CHECKING:
    from trimdive.cli.lists_work import ListRead

ListFile = Annotated[Path, typer.Argument(metavar="LIST", help="Weight list, .csv or .xlsx.")]
BoatFile = Annotated[Path, typer.Argument(metavar="BOAT", help="Boat file, or its folder.")]
OutFile = Annotated[Path, typer.Argument(metavar="FILE", help="FILE.csv or FILE.xlsx.")]
Json = Annotated[bool, typer.Option("--json", help="Print one JSON document, in SI.")]
Apply = Annotated[bool, typer.Option("--apply", help="Write it into the boat file.")]
Places = Annotated[
    bool,
    typer.Option("--places", help="Take the positions of parts already aboard from the list too."),
]
LeaveOut = Annotated[bool, typer.Option("--leave-out", help="Skip rows that are not understood.")]
Sheet = Annotated[str, typer.Option("--sheet", help="Sheet of the workbook.")]
MassUnit = Annotated[
    str, typer.Option("--mass-unit", help="Unit of masses without one: g, kg, oz, lb.")
]
LengthUnit = Annotated[
    str, typer.Option("--length-unit", help="Unit of lengths without one: mm, in.")
]
MassOf = Annotated[
    str, typer.Option("--mass-of", help="Mass of several pieces is of each, or of all.")
]
From = Annotated[
    str, typer.Option("--from", help='Where x begins: stern, bow or "1150 mm" from the stern.')
]
AtX = Annotated[str, typer.Option("--x", help="Position of parts without one.")]
AtZ = Annotated[str, typer.Option("--z", help="Height of parts without one.")]
Material = Annotated[str, typer.Option("--material", help="Material of parts without one.")]
Inside = Annotated[str, typer.Option("--inside", help="Cylinder of parts without one.")]
Known = Annotated[
    str,
    typer.Option("--known", help="How masses are known: guess, worked out, catalogue or weighed."),
]
Same = Annotated[
    str, typer.Option("--same", help="Row like a guess aboard: yes, it replaces it; no, it is new.")
]
Comma = Annotated[bool, typer.Option("--decimal-comma", help="CSV with 2,5 and semicolons.")]
Replace = Annotated[bool, typer.Option("--replace", help="Overwrite an existing file.")]


def weights_in(
    list_: ListFile, boat: BoatFile, apply: Apply = False, places: Places = False,
    leave_out: LeaveOut = False,
    sheet: Sheet = "", mass_unit: MassUnit = "", length_unit: LengthUnit = "",
    mass_of: MassOf = "", from_: From = "", x: AtX = "", z: AtZ = "", material: Material = "",
    inside: Inside = "", known: Known = "", same: Same = "", as_json: Json = False,
) -> None:  # fmt: skip
    """Read a weight list, and enter it with --apply."""
    from trimdive.cli.lists_work import list_applied, list_read
    from trimdive.weightlists import Answers

    said = Answers(
        sheet=sheet, mass_unit=mass_unit, length_unit=length_unit, mass_of=mass_of,
        measured_from=from_, x=x, z=z, material=material, inside=inside, known=known, same=same,
    )  # fmt: skip
    with working():
        read = list_read(list_, boat, said, with_places=places)
        words = list_applied(read, leave_out=leave_out) if apply else ""
    _show(read, words, as_json=as_json)


def _show(read: "ListRead", words: str, *, as_json: bool) -> None:
    """Print a list as understood, and end: 1 where something of it must be put right."""
    from trimdive.cli.layout import console, line
    from trimdive.cli.lists_text import list_text
    from trimdive.text.list_json import list_json
    from trimdive.text.say import Say

    if as_json:
        say = Say(read.loaded.boat)
        print_json(list_json(say, read.plan, read.placed.moves, applied=bool(words)))
    else:
        terminal = console()
        for block in [*list_text(read, applied=bool(words)), *([line(words)] if words else [])]:
            terminal.print(block)
    raise typer.Exit(0 if read.in_order or words else PUT_RIGHT)


def weights_out(
    boat: BoatFile, file: OutFile, decimal_comma: Comma = False, replace: Replace = False
) -> None:
    """Write her weight list for a spreadsheet."""
    with working():
        from trimdive.cli.lists_work import list_written

        words = list_written(boat, file, decimal_comma=decimal_comma, replace=replace)
    typer.echo(words)


def add_to(app: typer.Typer) -> None:
    """Add both commands to the terminal."""
    app.command("weights-in", cls=Answer)(weights_in)
    app.command("weights-out", cls=Answer)(weights_out)
