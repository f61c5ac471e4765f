"""What the pieces of a boat file have in common: a place, a mass and how it is known."""

from typing import TYPE_CHECKING, Literal

from pydantic import BaseModel, ConfigDict, Field, ValidationError

from trimdive.boatfile.materials import Material
from trimdive.boatfile.quantities import (
    NOT_GIVEN,
    Density,
    Length,
    Mass,
    Name,
    PlusMinus,
    Weight,
    Yes,
)
from trimdive.data import constant
from trimdive.records import repr_of

End = Literal["stern", "bow"]
STERN, BOW = "stern", "bow"
# In this order, since W in a list of them is to come to "weighed" first, from each of the others.
Known = Literal["guess", "catalogue", "weighed", "worked out"]
Pair = Literal["both", "each"]

HUNG_DENSITY = constant("hung-density")  # fresh water in which things are hung [kg/m³]


class _PieceType(type(BaseModel)):
    """Makes pieces; what a model refuses in Python is told by the piece and its field."""

    if TYPE_CHECKING:

        def __hash__(cls) -> int: ...

    else:  # so that the arguments of each model stay known to a checker

        def __call__(cls, *args, **fields):
            """Return a piece.

            Raises:
                BoatError: It cannot be so.
            """
            try:
                return super().__call__(*args, **fields)
            except ValidationError as error:
                from trimdive.boatfile.messages import refusal_made

                raise refusal_made(cls, fields, error) from None


class Piece(BaseModel, metaclass=_PieceType):
    """Anything in a boat file; it refuses fields that it does not know."""

    model_config = ConfigDict(
        frozen=True,
        extra="forbid",
        validate_by_name=True,
        validate_by_alias=True,
        defer_build=True,
    )

    def __repr__(self) -> str:
        """Return it with what differs from what is usual, as far as that is short; no note."""
        usual = {name: field.default for name, field in type(self).model_fields.items()}
        return repr_of(
            type(self).__name__, ((k, v) for k, v in self if v != usual[k] and k != "note")
        )

    __str__ = __repr__


class Measured(Piece):
    """Anything that has a place along the boat."""

    measured_from: Name | None = Field(
        default=None,
        alias="from",
        description="Where its x are measured from, if not as the boat's: stern, bow or a mark's "
        "name (forward).",
    )


class ByEnds(Measured):
    """A long piece weighed by one end at a time, the other resting."""

    aft: Weight = Field(description="What the scale reads with the after end hung from it.")
    x_aft: Length = Field(description="Where it hung, aft.")
    fore: Weight = Field(description="What the scale reads with the fore end hung from it.")
    x_fore: Length = Field(description="Where it hung, forward.")

    @property
    def mass(self) -> float:
        """Return the whole mass: what the two ends carry [kg]."""
        return self.aft + self.fore

    @property
    def x(self) -> float:
        """Return the place of the centre of mass, by the lever [m]."""
        return (self.aft * self.x_aft + self.fore * self.x_fore) / self.mass


class Offcut(Piece):
    """A piece of the laminate, weighed in air and hung under fresh water."""

    air: Weight = Field(description="What it weighs in air.")
    water: Weight = Field(description="What the scale reads with it hung under water.")

    @property
    def density(self) -> float:
        """Return the density of the laminate [kg/m³]."""
        return HUNG_DENSITY * self.air / (self.air - self.water)


class Weighed(Piece):
    """Anything that has a mass."""

    by_ends: ByEnds | None = Field(
        default=None, description="Mass and place from two readings, hung by each end in turn."
    )
    soaked: Weight | None = Field(
        default=None, description="Mass after a day under water, surface dry; she floats with it."
    )
    offcut: Offcut | None = Field(
        default=None, description="An offcut in air and in water: the density, as measured."
    )
    aboard: Yes = Field(
        default=True, description="false: still to come; it counts when she is finished."
    )
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
    material: Material | None = Field(
        default=None, description="Material, by its name in the table."
    )
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
