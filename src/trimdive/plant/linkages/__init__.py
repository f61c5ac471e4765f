"""Servos and what they move: throw, force, side pull at the gland, and the shaft beside the rod."""

from trimdive.plant.linkages.geometry import clearance, horn_angle, leverage, rod_angle, servo_angle
from trimdive.plant.linkages.links import Link, link, links
from trimdive.plant.linkages.planes import lift_slope, plane_force, stock_moment

__all__ = [
    "Link",
    "clearance",
    "horn_angle",
    "leverage",
    "lift_slope",
    "link",
    "links",
    "plane_force",
    "rod_angle",
    "servo_angle",
    "stock_moment",
]
