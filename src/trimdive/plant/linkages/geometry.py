"""Servo arm, rod and horn as a closed chain: throw, lever, side pull, and what the rod clears.

Seen along the servo's axis: the arm stands square to the rod in the middle, and so does the horn.

Sources: closed forms of plane and solid geometry.
"""

from math import acos, atan2, cos, hypot, sin

import numpy as np

from trimdive.errors import BoatError, LinkageError
from trimdive.geometry.lines.mesh import Floats

STEP = 1e-5  # over which a lever is taken [rad]


def horn_angle(arm: float, horn: float, rod: float, servo: float) -> float:
    """Return how far the horn turns [rad].

    Args:
        arm: Servo arm [m].
        horn: Horn [m].
        rod: Length of the rod [m].
        servo: How far the servo turns [rad].

    Raises:
        LinkageError: The chain locks before it is there.

    Source:
        Two circles that meet, closed form.
    """
    if not (arm > 0 and horn > 0 and rod > 0):
        what = f"an arm of {arm * 1e3:g} mm, a rod of {rod * 1e3:g} mm, a horn of {horn * 1e3:g} mm"
        raise LinkageError(what, "linkage", "Give lengths above 0.")
    across, along = arm * cos(servo) - (arm - horn), arm * sin(servo) - rod
    far = hypot(along, across)
    share = (far**2 + horn**2 - rod**2) / (2 * horn * far)
    if abs(share) > 1:
        what = (
            f"the rod pulls the horn straight before the servo has turned {np.degrees(servo):.0f}°"
        )
        raise LinkageError(what, "linkage", "Take a longer horn or a shorter arm.")
    return atan2(along, across) + acos(share)


def servo_angle(arm: float, horn: float, rod: float, wanted: float, most: float) -> float | None:
    """Return how far the servo turns for an angle of the horn [rad]; None: farther than it can.

    Args:
        arm: Servo arm [m].
        horn: Horn [m].
        rod: Length of the rod [m].
        wanted: Angle of the horn [rad].
        most: That the servo turns [rad].
    """
    low, high = 0.0, most
    if _angle(arm, horn, rod, most) < wanted:
        return None
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (low, middle) if _angle(arm, horn, rod, middle) >= wanted else (middle, high)
    return high


def _angle(arm: float, horn: float, rod: float, servo: float) -> float:
    """Return the same, and a right angle where the chain locks [rad]."""
    try:
        return horn_angle(arm, horn, rod, servo)
    except BoatError:
        return float(np.pi / 2)


def leverage(arm: float, horn: float, rod: float, servo: float) -> float:
    """Return how far the horn turns for each angle of the servo, there [-].

    Args:
        arm: Servo arm [m].
        horn: Horn [m].
        rod: Length of the rod [m].
        servo: Where the servo stands [rad].
    """
    ends = [horn_angle(arm, horn, rod, servo + way * STEP) for way in (-1, 1)]
    return (ends[1] - ends[0]) / (2 * STEP)


def rod_angle(arm: float, gland: float, servo: float) -> float:
    """Return how far the rod leans between the arm and its gland [rad].

    Args:
        arm: Servo arm [m].
        gland: From the middle of the arm's hole to the gland [m].
        servo: Where the servo stands [rad].
    """
    return atan2(arm * (1 - cos(servo)), max(gland - arm * sin(servo), arm / 10))


def clearance(ends: Floats, point: Floats, way: Floats) -> float:
    """Return the shortest way between a rod and the middle line of a shaft [m].

    Args:
        ends: Of the rod, shape (2, 3) [m].
        point: On the shaft's line, shape (3,) [m].
        way: Along the shaft, shape (3,) [-].

    Source:
        Closed form: least distance of a segment and a line.
    """
    along = way / np.linalg.norm(way)
    flat = ends - point
    flat = flat - np.outer(flat @ along, along)  # seen along the shaft it is a point
    a, b = flat
    step = b - a
    length = float(step @ step)
    share = min(max(float(-(a @ step)) / length, 0.0), 1.0) if length > 0 else 0.0
    return float(np.linalg.norm(a + share * step))
