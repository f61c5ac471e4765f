"""The commands for a boat that is not yet in a file: each reads, calls and shows."""

from pathlib import Path
from typing import Annotated

import typer

from trimdive.cli.answer import Answer, tell
from trimdive.cli.opening import working

building = typer.Typer(add_completion=False, rich_markup_mode=None)

TapeFile = Annotated[
    Path | None,
    typer.Argument(metavar="[FILE]", help="Tape readings; left out, they are asked for."),
]
Json = Annotated[bool, typer.Option("--json", help="Print one JSON document, in SI.")]
Keep = Annotated[
    Path | None, typer.Option("--save", help="Keep the readings asked for in this file.")
]

More = Annotated[bool, typer.Option("--more", help="Ask for what FILE does not have yet.")]

Text = str | None


Folder = Annotated[Path, typer.Argument(metavar="FOLDER", help="Folder for the new boat file.")]
Name = Annotated[Text, typer.Option("--name", help="Her name.")]
Length = Annotated[Text, typer.Option("--length", help='Length over all, as "1.4 m" or "55 in".')]
HullKind = Annotated[Text, typer.Option("--kind", help="wet (with cylinders) or dry.")]
Made = Annotated[Text, typer.Option("--material", help="Material of the hull, as GRP or PETG.")]
Scale = Annotated[Text, typer.Option("--scale", help="Scale, as 1:50.")]
Breadth = Annotated[Text, typer.Option("--breadth", help="Greatest breadth.")]
Height = Annotated[Text, typer.Option("--height", help="Keel to deck amidships.")]
Line = Annotated[Text, typer.Option("--waterline", help="Waterline above the keel.")]
Wall = Annotated[Text, typer.Option("--wall", help="Wall of the hull.")]
Taped = Annotated[Path | None, typer.Option("--tape", help="Tape readings: see trimdive tape.")]
InUnits = Annotated[Text, typer.Option("--units", help="Units: metric or inches.")]

Drawn = Annotated[Path | None, typer.Option("--mesh", help="Hull as a mesh: STL, OBJ, 3MF …")]
MeshUnit = Annotated[str, typer.Option("--mesh-unit", help="Unit of length in the mesh.")]
DrawnAt = Annotated[
    str, typer.Option("--drawn-at", help="Scale, if drawn larger than the model: 1:48.")
]
Forward = Annotated[str, typer.Option("--forward", help="Axis to the bow: x, -x, y …")]
Up = Annotated[str, typer.Option("--up", help="Axis of the mesh that points up.")]
Repairs = Annotated[list[str] | None, typer.Option("--repair", help="Repair of the mesh, as weld.")]

Pdf = Annotated[Path, typer.Argument(metavar="OUT.pdf", help="The PDF to write.")]
OnPaper = Annotated[str, typer.Option("--paper", help="a4 or letter.")]


@building.command(cls=Answer)
def sheet(out: Pdf, paper: OnPaper = "a4", units: InUnits = None) -> None:
    """Write a measuring sheet to print and fill in."""
    from trimdive.cli.paper import printed

    with working():
        file = printed(out, paper, units or "")
    typer.echo(file)


@building.command(cls=Answer)
def tape(
    file: TapeFile = None, save: Keep = None, more: More = False, as_json: Json = False
) -> None:
    """Litres of ballast water from ten tape measurements."""
    from trimdive.cli.tape import read_file, show
    from trimdive.estimates.tape import tape_litres

    if file is not None and not more:
        show(tape_litres(read_file(file)), as_json)
    from trimdive.cli.tape_work import asked_for, kept_or_made

    text, readings = asked_for(file, save)
    result = tape_litres(readings)
    kept_or_made(text, save, readings, is_quiet=as_json)
    show(result, as_json)


@building.command(cls=Answer)
def new(
    folder: Folder,
    name: Name = None,
    length: Length = None,
    kind: HullKind = None,
    material: Made = None,
    scale: Scale = None,
    breadth: Breadth = None,
    height: Height = None,
    waterline: Line = None,
    wall: Wall = None,
    tape_file: Taped = None,
    mesh: Drawn = None,
    mesh_unit: MeshUnit = "",
    drawn_at: DrawnAt = "",
    forward: Forward = "",
    up: Up = "",
    repair: Repairs = None,
    units: InUnits = None,
    as_json: Json = False,
) -> None:
    """Write a first boat file, guessed from a few figures, that floats."""
    said = {
        **{"name": name, "length": length, "kind": kind, "material": material, "scale": scale},
        **{"breadth": breadth, "height": height, "waterline": waterline, "wall": wall},
        "units": units,
    }
    from trimdive.cli import new as work
    from trimdive.estimates.starter import starter

    work.refuse_a_boat(folder)
    tape_text = work.tape_text(tape_file)
    if mesh is None:
        wish = work.wish_of(said, tape_text)
    else:
        from trimdive.cli.new_mesh import MeshSaid, wish_of_mesh

        how = MeshSaid(
            unit=mesh_unit, scale=drawn_at, length=length or "", model="", forward=forward, up=up,
            repairs=tuple(repair or ()),
        )  # fmt: skip
        work.refuse_both(tape_file, mesh)
        wish = wish_of_mesh(said, mesh, how)
    with working():
        made = starter(wish)
    file = work.written(folder, made, tape_text[0])
    tell(work.new_json(file, made) if as_json else work.new_text(file, made))
