"""From what a builder has on paper to the closed surface of the hull."""

from trimdive.lines.loft import loft
from trimdive.lines.mesh import Floats, Ints, Mesh, join, volume
from trimdive.lines.round import revolve
from trimdive.lines.station import Line, Station
from trimdive.lines.table import LinesTable, read_table

__all__ = [
    "Floats",
    "Ints",
    "Line",
    "LinesTable",
    "Mesh",
    "Station",
    "join",
    "loft",
    "read_table",
    "revolve",
    "volume",
]
