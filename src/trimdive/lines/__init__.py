"""From what a builder has on paper to the closed surface of the hull."""

from trimdive.lines.doubts import Doubt, doubts, mended
from trimdive.lines.forms import Profile, myring, series58, suboff
from trimdive.lines.loft import loft
from trimdive.lines.mesh import Floats, Ints, Mesh, join, volume
from trimdive.lines.round import revolve
from trimdive.lines.station import Line, Station
from trimdive.lines.table import LinesTable, read_table

__all__ = [
    "Doubt",
    "Floats",
    "Ints",
    "Line",
    "LinesTable",
    "Mesh",
    "Profile",
    "Station",
    "doubts",
    "join",
    "loft",
    "mended",
    "myring",
    "read_table",
    "revolve",
    "series58",
    "suboff",
    "volume",
]
