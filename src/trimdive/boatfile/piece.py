"""What the pieces of a boat file have in common: a place, a mass and how it is known."""

from typing import Literal

from pydantic import BaseModel, ConfigDict, Field

from trimdive.boatfile.quantities import (
    NOT_GIVEN,
    Density,
    Length,
    Mass,
    Name,
    PlusMinus,
    Weight,
)

End = Literal["stern", "bow"]
Known = Literal["guess", "worked out", "catalogue", "weighed"]
Pair = Literal["both", "each"]


class Piece(BaseModel):
    """Anything in a boat file; it refuses fields that it does not know."""

    model_config = ConfigDict(
        frozen=True, extra="forbid", validate_by_name=True, validate_by_alias=True
    )


class Measured(Piece):
    """Anything that has a place along the boat."""

    measured_from: End | None = Field(
        default=None,
        alias="from",
        description="End from which this piece's x are measured, where it differs from the boat's.",
    )


class Weighed(Piece):
    """Anything that has a mass."""

    mass: Weight | None = Field(
        default=None, description="Mass; left out, it is worked out from volume and density."
    )
    known: Known = Field(
        default=NOT_GIVEN,
        description="How the mass is known. Left out: a guess, or worked out where no mass stands.",
    )
    spread: PlusMinus = Field(
        default=NOT_GIVEN,
        description="How far the mass may be off: ± 40 g or ± 5 %; left out, by how it is known.",
    )
    material: Name | None = Field(default=None, description="Material, by its name in the table.")
    density: Density | None = Field(
        default=None, description="Density, where it is known better than the table's."
    )
    hung: Mass | None = Field(
        default=None,
        description="Scale reading with it hung under fresh water; negative where it pulls up.",
    )


class Placed(Measured):
    """Anything with a middle; it may be measured to either of its ends."""

    x: Length = Field(
        default=NOT_GIVEN,
        description="Place of its middle along the boat; this or one of its ends is needed.",
    )
    x_aft: Length | None = Field(default=None, description="Place of its after end, instead of x.")
    x_fore: Length | None = Field(default=None, description="Place of its fore end, instead of x.")
    y: Length = Field(default=NOT_GIVEN, description="Place of its middle, to port; left out 0.")
    z: Length = Field(default=NOT_GIVEN, description="Height of its middle above the keel line.")
