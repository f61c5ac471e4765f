"""Where lead and foam may go, what may slide, and how the builder wants them placed."""

from typing import Literal

from pydantic import Field

from trimdive.boatfile.piece import Measured, Piece
from trimdive.boatfile.pieces import KeepClear
from trimdive.boatfile.quantities import (
    Angle,
    Length,
    Name,
    Share,
    Size,
    Volume,
    Weight,
    Yes,
)

Aim = Literal["mass", "pieces", "foam", "moves"]
AIMS: tuple[Aim, ...] = ("mass", "pieces", "foam", "moves")


class Pocket(KeepClear):
    """A space in which lead or foam may be put."""

    holds: Literal["lead", "foam"] = Field(description="lead or foam.")
    pair: Yes = Field(
        default=False, description="true: there is another like it on the other side."
    )
    inside: Name | None = Field(
        default=None,
        description="Cylinder in which it lies; then what goes in pushes no water aside.",
    )
    most: Weight | None = Field(
        default=None, description="Most that may go in; left out, what fills it."
    )


class Lane(Measured):
    """How far things may slide, together; what is left out they keep."""

    things: tuple[Name, ...] = Field(
        min_length=1, description="What slides: cylinders (with all inside), tanks, parts."
    )
    x_aft: Length | None = Field(default=None, description="No after end lies farther aft.")
    x_fore: Length | None = Field(default=None, description="No fore end lies farther forward.")
    y_starboard: Length | None = Field(default=None, description="No side lies farther out.")
    y_port: Length | None = Field(default=None, description="No side lies farther to port.")
    z_bottom: Length | None = Field(default=None, description="No underside lies lower.")
    z_top: Length | None = Field(default=None, description="No upper side lies higher.")


class Run(Piece):
    """A hose, cable, push-rod or shaft from one thing to another."""

    kind: Literal["hose", "cable", "push-rod", "shaft"] = Field(description="What it is.")
    of: Name = Field(description="Where it begins: a part, tank or cylinder, by its name.")
    to: Name = Field(description="Where it ends: another one.")
    longest: Size = Field(
        description="Longest it may be: so far apart along her, at the most, the two may lie."
    )


class Placing(Piece):
    """How lead and foam are to be placed."""

    lead: Literal["anew", "keep"] = Field(
        default="anew",
        description="anew: every piece may be cut again or removed. keep: only more is added.",
    )
    foam: Literal["anew", "keep"] = Field(default="keep", description="The same for foam.")
    lead_step: Weight = Field(default=0.005, gt=0, description="Lead comes in steps of this.")
    lead_least: Weight = Field(default=0.010, description="No piece of lead is lighter.")
    foam_step: Size = Field(default=0.010, description="Foam is cut to lengths in steps of this.")
    foam_least: Volume = Field(default=5e-6, ge=0, description="No piece of foam is smaller.")
    sheet: Size = Field(default=0.010, description="Thickness of the sheet that foam is cut from.")
    waterline: Length | None = Field(
        default=None, description="How far off her waterline she may float; left out, a third of "
        "the limit."
    )  # fmt: skip
    trim_surfaced: Angle | None = Field(
        default=None, description="Largest trim surfaced; left out, half the limit."
    )
    trim_dived: Angle | None = Field(
        default=None, description="Largest trim dived; left out, half the limit."
    )
    filling_least: Share | None = Field(
        default=None, description="How full her tanks are at the least when she is neutral."
    )
    filling_most: Share | None = Field(
        default=None, description="How full at the most; left out, what the margin leaves."
    )
    above: Yes = Field(default=False, description="true: foam may go above the waterline too.")
    stuck: Yes = Field(
        default=True, description="She stays up with any one tank stuck full, the rest blown."
    )
    aims: tuple[Aim, ...] = Field(
        default=AIMS, description="What counts most, first: mass, pieces, foam, moves."
    )
