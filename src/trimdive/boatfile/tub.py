"""How sure she is, and what was read in the tub."""

import datetime
from typing import Literal

from pydantic import Field

from trimdive.boatfile.piece import Measured, Piece
from trimdive.boatfile.quantities import (
    Angle,
    Celsius,
    Depth,
    Length,
    Mass,
    Name,
    Room,
    Salt,
    Share,
    Size,
    Volume,
    Weight,
    Yes,
)


class Spreads(Piece):
    """How far places, volumes and litres may be off, where the table's figures are not yours."""

    along: Depth | None = Field(default=None, description="Places along the boat.")
    across: Depth | None = Field(default=None, description="Distances from the centreline.")
    height: Depth | None = Field(default=None, description="Heights above the keel line.")
    told: Share | None = Field(default=None, description="Volumes written down as such.")
    hung: Share | None = Field(default=None, description="Volumes from hanging under water.")
    density: Share | None = Field(
        default=None, description="Volumes from a mass and a density of your own."
    )
    shape: Share | None = Field(default=None, description="Volumes from outside measures.")
    skin: Share | None = Field(default=None, description="Skins' volumes from their thickness.")
    cylinder: Share | None = Field(default=None, description="Watertight cylinders' volumes.")
    tank: Share | None = Field(default=None, description="What tanks take by their measures.")


class Reading(Measured):
    """Something read in the tub, of the boat as she is that day; one kind a table."""

    date: datetime.date = Field(description="When.")
    note: str = Field(default="", description="Anything you want to remember.")
    spread: str = Field(
        default="", description="How far it may be off, as 2 mm or 5 g; left out, by its kind."
    )
    at: Name | None = Field(default=None, description="Mark at which it was read.")
    x: Length | None = Field(default=None, description="Or the place along the boat.")
    side: Literal["port", "starboard"] | None = Field(
        default=None, description="Side on which it was read; left out, the mean of both."
    )
    y: Depth | None = Field(
        default=None, description="How far that side is from the centreline; with side only."
    )
    draught: Length | None = Field(
        default=None, description="Height of the water above the keel line."
    )
    freeboard: Length | None = Field(
        default=None, description="How far the deck edge stands out of the water."
    )
    edge: Length | None = Field(
        default=None, description="Height of that deck edge above the keel line."
    )
    pull_aft: Mass | None = Field(
        default=None, description="Dived, held level by two scales: what the after one reads."
    )
    pull_fore: Mass | None = Field(default=None, description="What the fore one reads.")
    laid_aft: Weight | None = Field(
        default=None, description="Weight laid on deck aft until she just hangs level, dived."
    )
    laid_fore: Weight | None = Field(default=None, description="Weight laid forward for the same.")
    x_aft: Length | None = Field(default=None, description="Where the after one holds or lies.")
    x_fore: Length | None = Field(default=None, description="Where the fore one holds or lies.")
    of: Name = Field(default="lead", description="Material of weights laid on deck or moved.")
    moved: Weight | None = Field(
        default=None, description="Shift test: weight that is aboard already and is moved."
    )
    by: Size | None = Field(default=None, description="How far it is moved.")
    way: Literal["across", "along"] = Field(default="across", description="Which way.")
    angle: Angle | None = Field(default=None, description="How far she turns for it.")
    angle_back: Angle | None = Field(
        default=None, description="How far she turns when it is moved the other way instead."
    )
    wet: bool | None = Field(
        default=None,
        description="Whether the weight lies in the water; left out, true dived, else false.",
    )
    mass: Weight | None = Field(
        default=None, description="The whole boat on a scale, drained, tanks blown."
    )
    litres: Room | None = Field(
        default=None, description="What came out of a tank from full to blown."
    )
    tank: Name | None = Field(default=None, description="Which tank.")
    tips: Angle | None = Field(default=None, description="How she tips, by the bow; else negative.")
    leans: Angle | None = Field(default=None, description="Heel to starboard; to port negative.")
    dived: bool | None = Field(
        default=None, description="Whether she was under; left out, by the kind of reading."
    )
    tanks: str = Field(
        default="", description="blown, full or a share as 60 %; left out, blown, and full dived."
    )
    water: Literal["fresh", "sea", "pool"] | None = Field(
        default=None, description="Kind of water; left out, the boat's."
    )
    temperature: Celsius | None = Field(default=None, description="Its temperature.")
    salt: Salt | None = Field(default=None, description="Salt in it.")
    photos: tuple[Name, ...] = Field(
        default=(), description="Photographs that it follows from; read again, it makes way."
    )
    past: Yes = Field(
        default=False,
        description="true: of the boat before she was changed; it is kept and counts no more.",
    )

    @property
    def kinds(self) -> tuple[str, ...]:
        """Return the kinds of reading whose figure stands there."""
        return tuple(kind for kind, field in FIGURE.items() if getattr(self, field) is not None)

    @property
    def kind(self) -> str:
        """Return the kind of reading: a key of ``FIGURE``."""
        return self.kinds[0]

    @property
    def is_dived(self) -> bool:
        """Return whether she was under."""
        return self.kind in ("pull", "laid") if self.dived is None else self.dived

    @property
    def filled(self) -> str:
        """Return how full her tanks were, as text."""
        return self.tanks or ("full" if self.is_dived else "blown")


class FromTub(Measured):
    """What the readings say was wrong: mass and volume that the list lacks, or has too much."""

    mass: Mass = Field(default=0.0, description="Mass that the list lacks; negative: too much.")
    volume: Volume = Field(
        default=0.0, description="Volume that pushes water aside and is not in the list."
    )
    tank: Name | None = Field(default=None, description="Tank whose room is not as listed.")
    room: Volume = Field(default=0.0, description="Water that it takes more; negative: less.")
    x: Length = Field(description="Place along the boat.")
    y: Length = Field(default=0.0, description="Place to port.")
    z: Length = Field(description="Height above the keel line.")
    date: datetime.date = Field(description="Of the last reading that it follows from.")
    readings: int = Field(default=0, ge=0, description="How many readings it follows from.")
    past: Yes = Field(
        default=False,
        description="true: they are past; it stands, and new readings come upon it.",
    )
    note: str = Field(default="", description="Anything you want to remember.")


FIGURE = {  # the figure of each kind of reading
    "draught": "draught",
    "freeboard": "freeboard",
    "pull": "pull_aft",
    "laid": "laid_aft",
    "shift": "moved",
    "mass": "mass",
    "litres": "litres",
    "tips": "tips",
    "leans": "leans",
}
SPREAD_KINDS = {  # in which quantity its spread is told
    "draught": "length",
    "freeboard": "length",
    "pull": "mass",
    "laid": "mass",
    "shift": "angle",
    "mass": "mass",
    "litres": "volume",
    "tips": "angle",
    "leans": "angle",
}
NEEDED = {  # what must stand beside it
    "freeboard": ("edge",),
    "pull": ("pull_fore", "x_aft", "x_fore"),
    "laid": ("laid_fore", "x_aft", "x_fore"),
    "shift": ("by", "angle"),
    "litres": ("tank",),
}
