"""How a watertight cylinder is made and closed, and whether it was tested for leaks."""

import datetime
from typing import Literal

from pydantic import Field

from trimdive.boatfile.materials import Material
from trimdive.boatfile.piece import Piece
from trimdive.boatfile.quantities import (
    Celsius,
    Depth,
    Force,
    Gauge,
    Name,
    Pressure,
    Room,
    Size,
    Time,
)

Sealing = Literal["plug", "sleeve", "face"]
Holding = Literal["nothing", "rods", "screws", "glue"]


class CapHole(Piece):
    """A hole through a cap: for a shaft, a rod, a wire."""

    bore: Size = Field(description="How wide.")
    out: Depth = Field(default=0.0, description="How far its middle is from the cap's middle.")
    seal: Literal["", "ring", "lip", "bellows", "gland", "cemented"] = Field(
        default="", description="What seals it, where something turns or slides in it."
    )
    shaft: Size | None = Field(default=None, description="Diameter of what goes through.")


class RingFitted(Piece):
    """The rubber ring that seals a cap, and the groove as it was cut."""

    sort: Sealing = Field(
        default="plug",
        description="plug: a groove around a plug in the tube. sleeve: inside a cap over the tube. "
        "face: in a face drawn against another.",
    )
    number: Name | None = Field(
        default=None, description="Its number in the table of rings, such as 342."
    )
    inside: Size | None = Field(
        default=None,
        description="Inside diameter of the ring, as measured; instead of its number.",
    )
    section: Size | None = Field(
        default=None, description="Thickness of its rubber; with the inside diameter."
    )
    depth: Size | None = Field(
        default=None, description="Depth of the groove from the cap's own surface; as cut."
    )
    width: Size | None = Field(default=None, description="Width of the groove.")
    gap: Depth | None = Field(
        default=None, description="Gap between plug and bore, or cap and tube, on each side."
    )


class CapFitted(Piece):
    """An end cap, flat and round."""

    thickness: Size | None = Field(
        default=None, description="Its least thickness, under grooves too; left out, assumed."
    )
    material: Material | None = Field(default=None, description="What it is made of.")
    edge: Literal["supported", "clamped"] = Field(
        default="supported",
        description="supported: it lies on a ring or a shoulder. clamped: glued or screwed fast.",
    )
    holes: tuple[CapHole, ...] = Field(default=(), description="Holes through it.")
    rings: tuple[RingFitted, ...] = Field(default=(), description="Rings that seal it.")


class Closing(Piece):
    """What holds the caps on against pressure from inside."""

    by: Holding = Field(default="nothing", description="nothing: only the rings rub.")
    count: int = Field(default=0, ge=0, le=64, description="How many rods, or screws at each cap.")
    diameter: Size | None = Field(
        default=None, description="Diameter of a rod or screw, at the root of its thread."
    )
    overlap: Size | None = Field(default=None, description="How far glue reaches along the tube.")
    holds: Force | None = Field(
        default=None, description="What it holds, where it was tried; it comes first."
    )


class LeakTest(Piece):
    """A cylinder closed and left with pressure or vacuum in it."""

    cylinder: Name = Field(description="Which cylinder.")
    date: datetime.date = Field(description="When.")
    gauge_start: Gauge = Field(
        description="Gauge at the start: above the air; a vacuum below zero."
    )
    gauge_end: Gauge = Field(description="Gauge at the end.")
    celsius_start: Celsius = Field(
        alias="temperature_start", description="Temperature at the start."
    )
    celsius_end: Celsius = Field(alias="temperature_end", description="Temperature at the end.")
    time: Time = Field(description="How long between the two.")
    air: Room | None = Field(
        default=None, description="Free air in it; left out, as the cylinder has it."
    )
    barometer_start: Pressure | None = Field(
        default=None, description="The air's own pressure at the start, where it is known."
    )
    barometer_end: Pressure | None = Field(default=None, description="And at the end.")
    after: str = Field(default="", description="What had been opened before it.")
