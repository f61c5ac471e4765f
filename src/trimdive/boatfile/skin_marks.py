"""What is marked and cut on the skin: holes, plate lines, figures of the draught.

Most of it was measured on the full-size boat: every length may be typed so, "1.2 m full size".
"""

from typing import Literal

from pydantic import Field

from trimdive.boatfile.piece import Measured
from trimdive.boatfile.quantities import NOT_GIVEN, Depth, Length, Name, Size

Side = Literal["both", "port", "starboard"]
End = Literal["stem", "stern"]


class OnSkin(Measured):
    """Anything on the skin: its height, its girth from the keel, or its place on deck."""

    name: Name = Field(description="What you call it.")
    z: Length | None = Field(default=None, description="Its height above the keel line.")
    girth: Depth | None = Field(
        default=None,
        description="Girth: from the keel round to it along the skin, instead of its height.",
    )
    off_middle: Depth | None = Field(
        default=None,
        description="On deck: how far off the middle line it lies, instead of a height.",
    )
    on: Name | None = Field(
        default=None, description="Region on which it lies; left out, the outside of them all."
    )
    side: Side = Field(default="both", description="Side: left out, alike on both.")


class Hole(OnSkin):
    """A hole in the skin, or a row of them: flood and limber holes, slots, vents, drains."""

    kind: Literal["flood hole", "limber hole", "slot", "vent", "drain"] = Field(
        default="flood hole", description="What it is for."
    )
    x: Length = Field(description="Place of its middle; of a row, of its aftermost hole.")
    shape: Literal["round", "slot", "rectangle"] = Field(
        default="round", description="Its shape; a slot has round ends."
    )
    diameter: Size = Field(default=NOT_GIVEN, description="Diameter: of a round one.")
    length: Size = Field(default=NOT_GIVEN, description="Length: along the boat.")
    height: Size = Field(default=NOT_GIVEN, description="Height of the hole: up the skin.")
    count: int = Field(default=1, ge=1, le=500, description="How many: in the row, on each side.")
    pitch: Size | None = Field(
        default=None, description="Pitch: middle to middle along the boat, as in a side view."
    )

    @property
    def sizes(self) -> tuple[float, float]:
        """Return length along the boat and height up the skin [m]."""
        if self.shape == "round":
            return self.diameter, self.diameter
        return self.length, self.height


class PlateLine(OnSkin):
    """A line on the skin: waterline, boot top, weld, row of rivets, edge of a plate."""

    kind: Literal["waterline", "boot top", "weld", "rivets", "plate edge"] = Field(
        default="plate edge", description="What it is."
    )
    x: Length | None = Field(
        default=None,
        description="Round her at: where it runs round the hull; left out, it runs along her.",
    )
    x_aft: Length | None = Field(
        default=None, description="After end: where it runs along; left out, the hull's."
    )
    x_fore: Length | None = Field(
        default=None, description="Fore end: where it runs along; left out, the hull's."
    )
    z_top: Length | None = Field(
        default=None, description="Top: where it ends that runs round; left out, at the top of her."
    )
    band: Size | None = Field(
        default=None, description="Band: how much higher the upper edge of a boot top lies."
    )
    pitch: Size | None = Field(
        default=None, description="Pitch: of rivets, middle to middle along the skin."
    )


class DraughtMark(Measured):
    """Figures of the draught at stem or stern, or elsewhere on the side."""

    name: Name = Field(description="What you call them.")
    at: End | None = Field(
        default=None,
        description="Stem or stern: they follow its rake; left out, where they stand along her.",
    )
    x: Length | None = Field(default=None, description="Place along the boat, instead of at.")
    set_back: Depth = Field(
        default=0.0,
        description="Set back: how far from the stem or stern they stand, along the boat.",
    )
    z: Length = Field(description="Height above the keel line of the foot of the lowest figure.")
    step: Size = Field(description="Step: from figure to figure, upright.")
    count: int = Field(
        default=1, ge=1, le=200, description="How many: figures one above the other."
    )
    height: Size | None = Field(default=None, description="Figure height: of each figure.")
    side: Side = Field(default="both", description="Side: left out, on both.")
