"""Regions of the hull: hull, casing, tower or house, each a surface with a skin.

Sources: forms of revolution as in their papers: Myring 1976; the polynomial bodies of Series 58;
the DARPA SUBOFF hull.
"""

from typing import Annotated, Literal

from pydantic import Field

from trimdive.boatfile.outline import Outlined
from trimdive.boatfile.piece import Measured, Weighed
from trimdive.boatfile.quantities import (
    Angle,
    Depth,
    Length,
    Name,
    Scale,
    Share,
    Size,
    Yes,
)

Axis = Literal["x", "-x", "y", "-y", "z", "-z"]
Repair = Literal["weld", "drop", "flip", "cap", "union", "fit"]


class WallSpot(Measured):
    """The wall at one spot."""

    x: Length = Field(description="Place along the boat.")
    at: Literal["keel", "side", "deck"] | None = Field(
        default=None,
        description="Where round the girth; left out, as z says, else all round there.",
    )
    z: Length | None = Field(
        default=None, description="Height of the spot above the keel line, instead of at."
    )
    thickness: Size = Field(description="Wall there, by calipers or magnet gauge.")
    note: str = Field(default="", description="Anything you want to remember.")


class BoardSpot(Measured):
    """The edges of a shell above a flat board, keel up or keel down."""

    x: Length = Field(description="Place along the boat.")
    port: Length = Field(description="Height of the port edge above the board.")
    starboard: Length = Field(description="Height of the starboard edge above the board.")


class HalfSpot(Measured):
    """Half-breadths of a shell at one place, from a line stretched along the middle."""

    x: Length = Field(description="Place along the boat.")
    port: Depth = Field(description="Half-breadth to port.")
    starboard: Depth = Field(description="Half-breadth to starboard.")


class Skin(Measured, Weighed):
    """What every region has, whatever its surface."""

    name: Name = Field(description="What you call it.")
    thickness: Size | None = Field(
        default=None, description="Thickness of the skin; left out, fitted to mass and density."
    )
    inset: Depth = Field(
        default=0.0,
        description="How far inside the outer surface this skin begins, as for a joint lip.",
    )
    x: Length | None = Field(
        default=None, description="Its centre of mass along the boat, as weighed at both ends."
    )
    walls: tuple[WallSpot, ...] = Field(
        default=(),
        description="Wall at spots: two or more stand instead of thickness, one where there is "
        "none.",
    )
    board: tuple[BoardSpot, ...] = Field(
        default=(), description="Edge of the shell above a flat board: bend and twist."
    )
    halves: tuple[HalfSpot, ...] = Field(
        default=(), description="Half-breadths measured on both sides: port against starboard."
    )
    sealed: Yes = Field(default=False, description="true: no water gets in. It is a vessel.")
    open_below: Yes = Field(default=False, description="true: it has no bottom.")
    open_above: Yes = Field(default=False, description="true: it has no top.")
    above: Length | None = Field(
        default=None, description="Only what lies above this height belongs to the region."
    )
    below: Length | None = Field(
        default=None, description="Only what lies below this height belongs to the region."
    )
    forward_of: Length | None = Field(
        default=None, description="Only what lies forward of this x belongs to the region."
    )
    aft_of: Length | None = Field(
        default=None, description="Only what lies aft of this x belongs to the region."
    )

    @property
    def spots(self) -> tuple[WallSpot, ...]:
        """Return the spots between which its wall varies; none where it is even."""
        return self.walls if len(self.walls) > 1 else ()


class LinesRegion(Skin):
    """A hull lofted from a table of offsets or section figures."""

    surface: Literal["lines"] = Field(description="A table of lines.")
    file: Name = Field(description="The CSV table, beside the boat file.")


class OutlineRegion(Skin, Outlined):
    """A hull from a few figures taken with tape, calipers and square."""

    surface: Literal["outline"] = Field(description="Keel, deck, breadths and characters.")
    like: Name | None = Field(
        default=None, description="Another region with the same outline, given there."
    )


class Round(Skin):
    """What the round bodies have in common."""

    z: Length = Field(description="Height of the axis above the keel line.")
    y: Length = Field(default=0.0, description="Place of the axis, to port.")


class RoundRegion(Round):
    """A round body by a table of radii."""

    surface: Literal["round"] = Field(description="A table of radii.")
    file: Name = Field(description="The CSV table, beside the boat file.")


class MyringRegion(Round):
    """A round body by Myring's formulas: nose, middle and tail."""

    surface: Literal["myring"] = Field(description="Nose, middle and tail by Myring 1976.")
    nose: Size = Field(description="Length of the whole nose, a.")
    middle: Depth = Field(description="Length of the middle of one diameter, b.")
    tail: Size = Field(description="Length of the whole tail, c.")
    diameter: Size = Field(description="Greatest diameter, d.")
    power: float = Field(gt=0, description="How full the nose is, n; 2 is a half ellipse.")
    tail_angle: Angle = Field(description="Half the angle at the tip of the tail.")
    nose_cut: Depth = Field(default=0.0, description="How much of the nose's tip is cut off.")
    tail_cut: Depth = Field(default=0.0, description="How much of the tail's tip is cut off.")
    x_aft: Length | None = Field(
        default=None, description="Place of its after end; left out, the aftermost point, 0."
    )


class Series58Region(Round):
    """A round body by the polynomial of Series 58."""

    surface: Literal["series58"] = Field(description="Polynomial body of Series 58.")
    length: Size = Field(description="Length.")
    diameter: Size = Field(description="Greatest diameter.")
    widest: Share = Field(description="Where it is widest, as a share of the length from the nose.")
    nose_radius: float = Field(gt=0, description="Radius number of the nose, r0 = R0·L/D².")
    tail_radius: float = Field(ge=0, description="Radius number of the tail, r1 = R1·L/D².")
    prismatic: Share = Field(description="Prismatic coefficient, C_P.")
    x_aft: Length | None = Field(
        default=None, description="Place of its after end; left out, the aftermost point, 0."
    )


class SuboffRegion(Round):
    """The DARPA SUBOFF bare hull at any length."""

    surface: Literal["suboff"] = Field(description="The DARPA SUBOFF bare hull.")
    length: Size = Field(description="Length over all.")
    x_aft: Length | None = Field(
        default=None, description="Place of its after end; left out, the aftermost point, 0."
    )


class MeshFile(Measured):
    """A mesh beside the boat file, how it was drawn, and where it goes."""

    file: Name = Field(description="The mesh (STL, OBJ, PLY, 3MF, GLB or STEP).")
    file_unit: Name | None = Field(
        default=None, description="Unit of length in it, such as mm; left out, as the file says."
    )
    file_scale: Scale = Field(
        default=1.0, description="Scale at which it was drawn too large: 1:20 where full size."
    )
    forward: Axis = Field(default="x", description="Axis of the mesh that points forward.")
    up: Axis = Field(default="z", description="Axis of the mesh that points up.")
    x_aft: Length | None = Field(
        default=None, description="Place of its after end; left out, as in the file."
    )
    y: Length | None = Field(
        default=None, description="Place of its middle, to port; left out, as in the file."
    )
    z_bottom: Length | None = Field(
        default=None, description="Height of its lowest point; left out, as in the file."
    )


class MeshRegion(MeshFile, Skin):
    """A surface, or a printed wall with both its faces, from mesh files."""

    surface: Literal["mesh"] = Field(description="A mesh.")
    closed_walls: Yes = Field(
        default=False,
        description="true: the mesh is the wall itself, with its inner and its outer face.",
    )
    repairs: tuple[Repair, ...] = Field(
        default=(), description="What may be repaired in it; nothing else is. See docs/meshes.md."
    )
    pieces: tuple[MeshFile, ...] = Field(
        default=(), alias="piece", description="Further meshes that belong to the region."
    )

    @property
    def files(self) -> tuple[MeshFile, ...]:
        """Return its meshes, the first one first."""
        return (self, *self.pieces)


class PrismRegion(Skin):
    """An upright-sided tower or house."""

    surface: Literal["prism"] = Field(description="Upright sides over an outline.")
    outline: Literal["oval", "box", "round ended"] = Field(description="Outline seen from above.")
    x_aft: Length = Field(description="Place of its after end.")
    x_fore: Length = Field(description="Place of its fore end.")
    breadth: Size = Field(description="Greatest breadth.")
    y: Length = Field(default=0.0, description="Place of its middle, to port.")
    z_bottom: Length = Field(description="Height of its lower edge.")
    z_top: Length = Field(description="Height of its top.")


Region = Annotated[
    LinesRegion
    | OutlineRegion
    | RoundRegion
    | MyringRegion
    | Series58Region
    | SuboffRegion
    | MeshRegion
    | PrismRegion,
    Field(discriminator="surface"),
]
