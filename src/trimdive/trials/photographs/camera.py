"""A camera as a pinhole with a lens: where a place on the boat is seen in its picture.

The camera stands at a distance from a place on her that it is turned about: at an angle from ahead,
so high above her, rolled; then panned and tilted by a little, since she is seldom in the middle.

Source:
    Hartley and Zisserman, Multiple View Geometry in Computer Vision, 2nd edition, 6.1 (pinhole,
    principal point) and 7.4 (radial distortion, one term); from memory.
"""

from dataclasses import dataclass

import numpy as np

from trimdive.geometry.lines import Floats
from trimdive.plans.sheet import Lens

LENGTHS = 10  # figures of a camera
AROUND, ABOVE, ROLL, PAN, TILT, SIZE, FAR, RIGHT, DOWN, BEND = range(LENGTHS)
# AROUND from ahead to port [rad]; ABOVE [rad]; ROLL [rad]; PAN, TILT [rad]; SIZE log of focal
# length in pixels over distance [1/m]; FAR log of distance [m]; RIGHT, DOWN from the picture's
# middle to where the lens looks, as shares of half its diagonal [-]; BEND of the lens [-].


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """What a camera is turned about, and how large its picture is."""

    about: tuple[float, float, float]  # the place on her [m]
    size: tuple[int, int]  # width and height of the picture in pixels

    @property
    def reach(self) -> float:
        """Return half the diagonal of the picture in pixels [-]."""
        return float(np.hypot(*self.size)) / 2.0

    @property
    def middle(self) -> Floats:
        """Return the middle of the picture in pixels, shape (2,) [-]."""
        return np.array(self.size, dtype=np.float64) / 2.0


def stands(frame: Frame, camera: Floats) -> Floats:
    """Return where a camera stands, shape (3,) [m].

    Args:
        frame: What it is turned about.
        camera: Its figures, shape (10,) [-].
    """
    return np.array(frame.about) + np.exp(camera[FAR]) * _towards(camera)


def _towards(camera: Floats) -> Floats:
    """Return the unit vector from the boat to the camera, shape (3,) [-]."""
    level = np.cos(camera[ABOVE])
    return np.array(
        [level * np.cos(camera[AROUND]), level * np.sin(camera[AROUND]), np.sin(camera[ABOVE])]
    )


def axes(camera: Floats) -> Floats:
    """Return what is to the right, down and ahead in the picture, as rows, shape (3, 3) [-].

    Args:
        camera: Its figures, shape (10,) [-].
    """
    ahead = -_towards(camera)
    right = np.array([ahead[1], -ahead[0], 0.0])
    right /= np.hypot(right[0], right[1])
    down = np.array(
        [-ahead[2] * right[1], ahead[2] * right[0], ahead[0] * right[1] - ahead[1] * right[0]]
    )
    looks = np.stack([right, down, ahead])
    pan, tilt, roll = camera[PAN], camera[TILT], camera[ROLL]
    about_down = np.array(
        [[np.cos(pan), 0.0, np.sin(pan)], [0.0, 1.0, 0.0], [-np.sin(pan), 0.0, np.cos(pan)]]
    )
    about_right = np.array(
        [[1.0, 0.0, 0.0], [0.0, np.cos(tilt), np.sin(tilt)], [0.0, -np.sin(tilt), np.cos(tilt)]]
    )
    about_ahead = np.array(
        [[np.cos(roll), -np.sin(roll), 0.0], [np.sin(roll), np.cos(roll), 0.0], [0.0, 0.0, 1.0]]
    )
    return about_right @ about_down @ about_ahead @ looks


def seen(frame: Frame, camera: Floats, places: Floats) -> Floats:
    """Return where places on her are seen in the picture, in pixels, shape (n, 2) [-].

    Args:
        frame: Its picture.
        camera: Its figures, shape (10,) [-].
        places: Shape (n, 3) [m].
    """
    out = (places - stands(frame, camera)) @ axes(camera).T
    focal = np.exp(camera[SIZE] + camera[FAR])
    looks = frame.middle + frame.reach * camera[[RIGHT, DOWN]]
    flat = looks + focal * out[:, :2] / np.maximum(out[:, 2:], 1e-3)
    lens = Lens(centre=(float(looks[0]), float(looks[1])), reach=frame.reach, bend=camera[BEND])
    return lens.bent(flat)
