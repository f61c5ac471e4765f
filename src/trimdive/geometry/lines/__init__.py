"""From what a builder has on paper to the closed surface of the hull."""

from trimdive.geometry.lines.doubts import Doubt, doubts, mended
from trimdive.geometry.lines.forms import Profile, myring, series58, suboff
from trimdive.geometry.lines.loft import loft
from trimdive.geometry.lines.mesh import Floats, Ints, Mesh, join, volume
from trimdive.geometry.lines.round import revolve
from trimdive.geometry.lines.station import Line, Station
from trimdive.geometry.lines.table import LinesTable, read_table

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
