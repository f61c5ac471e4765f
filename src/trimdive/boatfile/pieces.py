"""What is built into the hull: cylinders, tanks, parts, lead and foam."""

import datetime
from math import pi
from typing import ClassVar, Literal

from pydantic import Field

from trimdive.boatfile.bench import CapFitted, Closing
from trimdive.boatfile.materials import Material
from trimdive.boatfile.piece import Measured, Pair, Piece, Placed, Weighed
from trimdive.boatfile.quantities import (
    NOT_GIVEN,
    Angle,
    Areal,
    Celsius,
    Depth,
    Flow,
    Length,
    Name,
    Room,
    Share,
    Size,
    Volume,
    Weight,
    Yes,
    is_given,
)

Cap = Literal["aft", "fore"]


class Cylinder(Placed, Weighed):
    """A watertight cylinder: a tube with its end caps."""

    name: Name = Field(description="What you call it.")
    outside: Size = Field(description="Outside diameter of the tube.")
    wall: Size = Field(description="Wall of the tube.")
    length: Size = Field(description="Length over the caps.")
    slope: Angle = Field(default=0.0, description="Slope of the axis, bow up.")
    inside: Name | None = Field(
        default=None, description="Sealed region in which it lies; then it pushes no water aside."
    )
    ends: Literal["flat", "round"] = Field(
        default="flat",
        description="How the ends are closed: flat caps, or half balls that count in the length.",
    )
    pair: Pair | None = Field(
        default=None,
        description="Two, to port and starboard: the mass is of both together, or of each.",
    )
    caps: CapFitted | None = Field(default=None, description="Its end caps, where both are alike.")
    aft_cap: CapFitted | None = Field(default=None, description="The after cap, where it differs.")
    fore_cap: CapFitted | None = Field(default=None, description="The fore cap, where it differs.")
    closing: Closing | None = Field(
        default=None, description="What holds the caps on against pressure from inside."
    )
    between: Size | None = Field(
        default=None, description="Length between what holds it round; left out, by its caps."
    )
    out_of_round: Depth | None = Field(
        default=None, description="Largest less smallest outside diameter; left out, assumed."
    )
    air: Room | None = Field(
        default=None,
        description="Free air in it, tanks empty, here or as the air in the dry space of a "
        "plant; left out, by what is listed in it.",
    )
    closed: Literal["tanks empty", "tanks full"] | None = Field(
        default=None,
        description="How its tanks are when it is closed; left out, empty, or as its plant says.",
    )
    closing_temperature: Celsius | None = Field(
        default=None,
        description="How warm the air in it is when it is closed; left out, as the water.",
    )
    folding_factor: float | None = Field(
        default=None, ge=1, le=100, description="Own safety factor on folding, and why in note."
    )
    breaking_factor: float | None = Field(
        default=None, ge=1, le=100, description="Own safety factor on the strength of the material."
    )
    factor_note: str = Field(default="", description="Why these factors.")
    hottest: Celsius | None = Field(
        default=None, description="How warm it may get, closed, in the sun or the car."
    )

    @property
    def bore(self) -> float:
        """Return the inside diameter [m]."""
        return self.outside - 2 * self.wall

    @property
    def room(self) -> float:
        """Return the room in its tube over its whole length, caps and contents not counted [m³]."""
        return pi / 4 * self.bore**2 * self.length

    @property
    def wall_volume(self) -> float:
        """Return what its tube and ends are made of, the ends as thick as its wall [m³]."""
        outer, bore = self.outside, self.bore
        if self.ends == "round":
            straight = max(self.length - outer, 0.0)
            return pi / 4 * (outer**2 - bore**2) * straight + pi / 6 * (outer**3 - bore**3)
        return pi / 4 * (outer**2 - bore**2) * self.length + 2 * pi / 4 * bore**2 * self.wall


class Tank(Placed, Weighed):
    """A tank for ballast water, in a cylinder or free-standing."""

    name: Name = Field(description="What you call it.")
    inside: Name | None = Field(
        default=None, description="Cylinder in which it lies; left out, it stands free."
    )
    shape: Literal["round", "box", "mesh"] = Field(default="round", description="Its shape.")
    kind: Literal["open", "piston"] = Field(
        default="open", description="open: the water lies level. piston: a piston holds it."
    )
    bore: Size = Field(
        default=NOT_GIVEN, description="Inside diameter; left out, the bore of its cylinder."
    )
    breadth: Size = Field(default=NOT_GIVEN, description="Inside breadth of a box.")
    height: Size = Field(default=NOT_GIVEN, description="Inside height of a box.")
    length: Size = Field(default=NOT_GIVEN, description="Inside length.")
    mesh: Name | None = Field(default=None, description="Mesh (STL) of the room for water.")
    file_unit: Name | None = Field(default=None, description="Unit of length in the mesh file.")
    water_end: Length = Field(
        default=NOT_GIVEN, description="x of the fixed end, where a piston tank's water begins."
    )
    stroke: Size = Field(default=NOT_GIVEN, description="How far the piston runs.")
    runs: Literal["aft", "forward"] = Field(
        default=NOT_GIVEN, description="Which way the piston runs as the tank fills."
    )
    wall: Depth = Field(default=0.0, description="Wall of a free-standing tank.")
    lost: Share = Field(default=0.0, description="Share of the room taken up by fittings.")
    dead_water: Room = Field(default=0.0, description="Water that will not come out.")
    dead_air: Room = Field(default=0.0, description="Air that will not come out.")
    blown: Share | None = Field(
        default=None, description="How full it is when blown; left out, its dead water."
    )
    neutral: Share = Field(
        default=0.9, description="How full it is when she is meant to be neutral dived."
    )
    rate: Flow | None = Field(
        default=None, description="How fast it fills; only the proportion to others counts here."
    )
    order: int = Field(
        default=1, ge=1, le=99, description="Turn in filling; equal numbers fill together."
    )

    @property
    def middle_of_stroke(self) -> float | None:
        """Return the middle of a piston's stroke along the boat [m]; None where it has none."""
        if not (self.kind == "piston" and is_given(self.water_end) and is_given(self.stroke)):
            return None
        return self.water_end + (self.stroke if self.runs == "forward" else -self.stroke) / 2


class Travel(Piece):
    """How a part moves from where it lies: it slides one way, or swings to both sides."""

    slides: Size | None = Field(default=None, description="How far it slides.")
    way: Literal["up", "down", "forward", "aft", "outward", "inward"] = Field(
        default="up", description="Which way it slides; outward from the middle line to its side."
    )
    swings: Angle | None = Field(
        default=None, description="How far it swings to either side, less than half a turn."
    )
    about: Literal["x", "y", "z"] = Field(
        default="z", description="Which way its axis lies: along her, across, or upright."
    )
    ahead: Length = Field(
        default=0.0, description="How far its axis lies forward of its middle; minus: aft."
    )
    above: Length = Field(
        default=0.0, description="How far its axis lies above its middle; minus: below."
    )


class Part(Placed, Weighed):
    """Anything with a mass and a place."""

    kind: ClassVar[str] = "part"

    name: Name = Field(default=NOT_GIVEN, description="What you call it.")
    shape: Literal["point", "box", "cylinder", "tube", "sphere", "mesh"] = Field(
        default="point", description="Its shape."
    )
    length: Size = Field(
        default=NOT_GIVEN, description="Length of a box; length of a cylinder or tube on its axis."
    )
    breadth: Size = Field(default=NOT_GIVEN, description="Breadth of a box.")
    height: Size = Field(default=NOT_GIVEN, description="Height of a box.")
    diameter: Size = Field(default=NOT_GIVEN, description="Outside diameter.")
    wall: Size = Field(default=NOT_GIVEN, description="Wall of a tube.")
    axis: Literal["x", "y", "z"] = Field(
        default="x", description="Which way a cylinder or tube lies."
    )
    mesh: Name | None = Field(default=None, description="Mesh (STL), beside the boat file.")
    file_unit: Name | None = Field(default=None, description="Unit of length in the mesh file.")
    z_bottom: Length | None = Field(default=None, description="Height of its underside, not z.")
    z_top: Length | None = Field(default=None, description="Height of its upper side, not z.")
    volume: Volume | None = Field(
        default=None, ge=0, description="Volume of water it pushes aside, where measured."
    )
    inside: Name | None = Field(
        default=None, description="Vessel in which it lies; then it pushes no water aside."
    )
    works_of: Name | None = Field(
        default=None, description="Tank whose works it is (pump, valves); it goes with that tank."
    )
    at_cap: Cap | None = Field(
        default=None,
        description="Cap of its cylinder at which it belongs: aft, as the drive motor does with "
        "its shaft, or fore.",
    )
    pair: Pair | None = Field(
        default=None,
        description="Two, to port and starboard: the figures are of both together, or of each.",
    )
    through_hull: Yes = Field(default=False, description="true: it passes through the hull.")
    open: Yes = Field(
        default=False, description="true: a shell of that outline, with less volume than it."
    )
    moving: Travel | None = Field(
        default=None, description="How it moves: the space that it sweeps is kept for it."
    )


class Lead(Part):
    """A piece of lead; its name may be left out."""

    kind: ClassVar[str] = "lead"
    material: Material | None = Field(default="lead", description="Left out, lead.")


class Foam(Part):
    """A piece of foam; its name may be left out."""

    kind: ClassVar[str] = "foam"
    material: Material | None = Field(default="XPS foam", description="Left out, XPS foam.")


class Coat(Weighed):
    """Paint and filler, spread over regions."""

    name: Name = Field(description="What you call it.")
    on: tuple[Name, ...] = Field(
        default=(), description="Regions that it covers; left out, all of them."
    )
    per_area: Areal | None = Field(
        default=None, description="Dry mass for each area that it covers, instead of a mass."
    )
    sides: Literal[1, 2] = Field(
        default=1, description="1: outside only. 2: outside and inside of the skin."
    )
    before: Weight | None = Field(
        default=None, description="What it was put on weighed before, instead of a mass."
    )
    after: Weight | None = Field(default=None, description="What that weighed after, dry.")


class Opening(Measured):
    """A hole through the hull, such as a well."""

    name: Name = Field(description="What you call it.")
    x_aft: Length = Field(description="Place of its after edge.")
    x_fore: Length = Field(description="Place of its fore edge.")
    breadth: Size = Field(description="Breadth.")
    y: Length = Field(default=0.0, description="Place of its middle, to port.")
    z_bottom: Length | None = Field(
        default=None, description="Height where it begins; left out, below the keel."
    )
    z_top: Length | None = Field(
        default=None, description="Height where it ends; left out, above the deck."
    )


class Hatch(Measured):
    """What opens so that things come out: a hatch, a deck that lifts, a split of the hull."""

    name: Name = Field(description="What you call it.")
    off: tuple[Name, ...] = Field(
        default=(),
        description="Regions that come off whole; left out, the skin within its edges.",
    )
    way: Literal["up", "forward", "aft"] = Field(
        default="up", description="Which way it comes off, and things come out."
    )
    x_aft: Length | None = Field(
        default=None, description="Place of its after edge; left out, the end of what comes off."
    )
    x_fore: Length | None = Field(
        default=None, description="Place of its fore edge; left out, the end of what comes off."
    )
    breadth: Size | None = Field(default=None, description="Breadth; left out, the whole hull's.")
    y: Length = Field(default=0.0, description="Place of its middle, to port.")
    z_bottom: Length | None = Field(
        default=None,
        description="Height of the cut; left out, where the regions that come off begin.",
    )
    lip: Depth | None = Field(
        default=None, description="How far a lip or frame reaches into it all round."
    )
    after: tuple[Name, ...] = Field(default=(), description="Hatches that must be open before it.")
    tools: Yes = Field(default=False, description="Whether it takes a tool to open it.")


class Plan(Piece):
    """A picture of a plan from which lines of the hull are traced."""

    name: Name = Field(description="What you call it.")
    file: Name = Field(description="The picture, beside the boat file.")
    marks: Name = Field(description="The file beside it that keeps what was marked on it.")


class Photo(Piece):
    """A photograph of her afloat, from which draught, trim and heel are read."""

    name: Name = Field(description="What you call it.")
    file: Name = Field(description="The picture, beside the boat file.")
    marks: Name = Field(description="The file beside it that keeps what was marked on it.")
    date: datetime.date = Field(description="When she lay so.")


class KeepClear(Measured):
    """A space in which nothing may stand."""

    name: Name = Field(description="What you call it.")
    x_aft: Length = Field(description="Place of its after end.")
    x_fore: Length = Field(description="Place of its fore end.")
    breadth: Size | None = Field(default=None, description="Breadth, where it lies in the middle.")
    y_starboard: Length = Field(default=NOT_GIVEN, description="Its starboard side, to port.")
    y_port: Length = Field(default=NOT_GIVEN, description="Its port side, to port.")
    z_bottom: Length = Field(description="Height of its underside.")
    z_top: Length = Field(description="Height of its upper side.")


class Mark(Measured):
    """A place where the draught is read."""

    name: Name = Field(description="What you call it.")
    x: Length = Field(description="Place along the boat.")


class Draught(Measured):
    """The waterline at one place."""

    x: Length = Field(description="Place along the boat.")
    height: Length = Field(description="Height of the water above the keel line there.")


class Waterline(Piece):
    """The waterline at which she is meant to float."""

    height: Length | None = Field(default=None, description="Height above the keel line, if level.")
    aft: Draught | None = Field(default=None, description="Place and height aft, if not level.")
    fore: Draught | None = Field(default=None, description="Place and height forward.")

    @property
    def slope(self) -> float:
        """Return how fast it rises going forward [-]."""
        if self.aft is None or self.fore is None:
            return 0.0
        return (self.fore.height - self.aft.height) / (self.fore.x - self.aft.x)

    def height_at(self, x: float) -> float:
        """Return its height above the keel line [m] at a place along the boat [m]."""
        if self.aft is None or self.fore is None:
            return self.height or 0.0
        return self.aft.height + self.slope * (x - self.aft.x)
