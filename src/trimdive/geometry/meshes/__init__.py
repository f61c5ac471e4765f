"""Meshes as they come: read, looked at, mended only as asked, and put in their places."""

from trimdive.geometry.meshes.advice import Tried, advised, tried
from trimdive.geometry.meshes.bodies import right_way
from trimdive.geometry.meshes.drawn import Drawn
from trimdive.geometry.meshes.guess import (
    Likely,
    is_alike_across,
    is_printed,
    likely_axes,
    likely_unit,
    likely_walls,
    unit_for,
)
from trimdive.geometry.meshes.placing import in_metres, put, turned
from trimdive.geometry.meshes.reading import contents_of, read
from trimdive.geometry.meshes.repairs import REPAIRS, Mended, mended
from trimdive.geometry.meshes.report import MeshReport, report
from trimdive.geometry.meshes.solid import light, span_of
from trimdive.geometry.meshes.stl import binary_stl
from trimdive.geometry.meshes.troubles import Trouble, troubles
from trimdive.geometry.meshes.union import common_volume, overlap, shell, united

__all__ = [
    "REPAIRS",
    "Drawn",
    "Likely",
    "Mended",
    "MeshReport",
    "Tried",
    "Trouble",
    "advised",
    "binary_stl",
    "common_volume",
    "contents_of",
    "in_metres",
    "is_alike_across",
    "is_printed",
    "light",
    "likely_axes",
    "likely_unit",
    "likely_walls",
    "mended",
    "overlap",
    "put",
    "read",
    "report",
    "right_way",
    "shell",
    "span_of",
    "tried",
    "troubles",
    "turned",
    "unit_for",
    "united",
]
