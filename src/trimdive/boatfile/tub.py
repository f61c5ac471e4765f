"""How sure she is, and what was read in the tub."""

from pydantic import Field

from trimdive.boatfile.piece import Piece
from trimdive.boatfile.quantities import Depth, Share


class Spreads(Piece):
    """How far places, volumes and litres may be off, where the table's figures are not yours."""

    along: Depth | None = Field(default=None, description="Places along the boat.")
    across: Depth | None = Field(default=None, description="Places off the middle line.")
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
