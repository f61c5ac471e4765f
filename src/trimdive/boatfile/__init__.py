"""The boat file: TOML text with units in, frozen models with SI numbers out, and edits back."""

from trimdive.boatfile.boat import FORMAT, Boat, FullSize, Units, WaterOf
from trimdive.boatfile.loading import Loaded, checked, load, parse
from trimdive.boatfile.piece import Known, Pair
from trimdive.boatfile.pieces import (
    Coat,
    Cylinder,
    Draught,
    Foam,
    KeepClear,
    Lead,
    Mark,
    Opening,
    Part,
    Tank,
    Waterline,
)
from trimdive.boatfile.regions import (
    LinesRegion,
    MeshRegion,
    MyringRegion,
    PrismRegion,
    Region,
    RoundRegion,
    Series58Region,
    Skin,
    SuboffRegion,
)
from trimdive.boatfile.resolve import extents, resolved

__all__ = [
    "FORMAT",
    "Boat",
    "Coat",
    "Cylinder",
    "Draught",
    "Foam",
    "FullSize",
    "KeepClear",
    "Known",
    "Lead",
    "LinesRegion",
    "Loaded",
    "Mark",
    "MeshRegion",
    "MyringRegion",
    "Opening",
    "Pair",
    "Part",
    "PrismRegion",
    "Region",
    "RoundRegion",
    "Series58Region",
    "Skin",
    "SuboffRegion",
    "Tank",
    "Units",
    "WaterOf",
    "Waterline",
    "checked",
    "extents",
    "load",
    "parse",
    "resolved",
]
