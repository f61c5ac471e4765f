"""The boat file: TOML text with units in, frozen models with SI numbers out, and edits back."""

from trimdive.boatfile.boat import FORMAT, Boat, FullSize, Units, WaterOf
from trimdive.boatfile.edits import append, remove, set_value, text_of
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
    OutlineRegion,
    PrismRegion,
    Region,
    RoundRegion,
    Series58Region,
    Skin,
    SuboffRegion,
)
from trimdive.boatfile.resolve import extents, followed, loosened, resolved
from trimdive.boatfile.saving import previous_of, save, save_new

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
    "OutlineRegion",
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
    "append",
    "checked",
    "extents",
    "followed",
    "load",
    "loosened",
    "parse",
    "previous_of",
    "remove",
    "resolved",
    "save",
    "save_new",
    "set_value",
    "text_of",
]
