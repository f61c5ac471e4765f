"""Drawings of the boat as SVG: functions from a finished assessment to text."""

from trimdive.pictures.drawings.section import section_drawing
from trimdive.pictures.drawings.sheet import boat_drawing

__all__ = ["boat_drawing", "section_drawing"]
