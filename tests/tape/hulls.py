"""Hulls by closed forms, independent of the project's own surfaces: girths, and true skin volume.

Each hull is y(x, u), z(x, u) for u from the waterline over the deck to the waterline. The volume of
a skin of thickness t inside a surface is ∫ (t − H t² + K t³ / 3) dA with mean curvature H and
Gaussian curvature K: Steiner's formula for parallel surfaces, here by finite differences.
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.interpolate import PchipInterpolator

Floats = NDArray[np.float64]
FOOT = 0.3048


@dataclass(frozen=True, slots=True, kw_only=True)
class Hull:
    """Upper part of a hull: half sections from waterline to deck centre."""

    name: str
    length: float
    half: Callable[[float], Floats]  # y, z from the waterline to the deck centre, shape (n, 2)

    def girth(self, x: float) -> float:
        """Return the length over the deck from waterline to waterline."""
        steps = np.diff(self.half(x), axis=0)
        return 2 * float(np.hypot(*steps.T).sum())

    def breadth(self, x: float) -> float:
        """Return the breadth at the waterline."""
        return 2 * float(self.half(x)[0, 0])


def grid(hull: Hull, stations: int) -> Floats:
    x = hull.length / 2 * (1 - np.cos(np.linspace(0, np.pi, stations)))
    return np.stack(
        [np.column_stack([np.full(len(h), at), h]) for at in x for h in [hull.half(at)]]
    )


def skin_volume(hull: Hull, thickness: float, stations: int = 300) -> tuple[float, float]:
    """Return the skin's volume and its centre along the hull."""
    p = grid(hull, stations)
    du, dv = np.gradient(p, axis=0), np.gradient(p, axis=1)
    normal = np.cross(du, dv)
    size = np.linalg.norm(normal, axis=2, keepdims=True)
    unit = np.divide(normal, size, out=np.zeros_like(normal), where=size > 1e-14)
    inside = p - thickness * unit * np.sign(
        (unit * (p - p.mean(axis=(0, 1)))).sum(axis=2, keepdims=True)
    )
    corners = [p[:-1, :-1], p[1:, :-1], p[1:, 1:], p[:-1, 1:]]
    inner = [inside[:-1, :-1], inside[1:, :-1], inside[1:, 1:], inside[:-1, 1:]]
    outer_area = (
        np.linalg.norm(np.cross(corners[2] - corners[0], corners[3] - corners[1]), axis=2) / 2
    )
    inner_area = np.linalg.norm(np.cross(inner[2] - inner[0], inner[3] - inner[1]), axis=2) / 2
    volume = 2 * thickness * (outer_area + np.minimum(inner_area, outer_area)) / 2
    middle = sum(corner[..., 0] for corner in corners) / 4
    return float(volume.sum()), float((volume * middle).sum() / volume.sum())


def suboff(scale: float = 0.35) -> Hull:
    """DTRC/SHD-1298-01, 1989: the bare hull afloat at the height of its axis, x from the stern."""
    radius, r_h, k0, k1 = 5 / 6, 0.1175, 10.0, 44.6244

    def r(x: float) -> float:
        if x < 10 / 3:
            a = 0.3 * x - 1
            inside = 1.126395101 * x * a**4 + 0.442874707 * x**2 * a**3 + 1 - a**4 * (1.2 * x + 1)
            return radius * max(inside, 0.0) ** (1 / 2.1)
        if x <= 10.645833:
            return radius
        if x <= 13.979167:
            q = (13.979167 - x) / (10 / 3)
            powers = [
                r_h**2,
                0.0,
                r_h * k0,
                20 - 20 * r_h**2 - 4 * r_h * k0 - k1 / 3,
                -45 + 45 * r_h**2 + 6 * r_h * k0 + k1,
                36 - 36 * r_h**2 - 4 * r_h * k0 - k1,
                -10 + 10 * r_h**2 + r_h * k0 + k1 / 3,
            ]
            return radius * float(np.sqrt(max(np.polyval(powers[::-1], q), 0.0)))
        return r_h * radius * float(np.sqrt(max(1 - (3.2 * x - 44.733333) ** 2, 0.0)))

    length = 14.291667 * FOOT * scale
    angle = np.linspace(0, np.pi / 2, 60)

    def half(x: float) -> Floats:
        here = r((length - x) / (FOOT * scale)) * FOOT * scale
        return here * np.column_stack([np.cos(angle), np.sin(angle)])

    return Hull(name="SUBOFF", length=length, half=half)


def wigley(length: float = 1.2, breadth: float = 0.14, height: float = 0.06) -> Hull:
    """The Wigley form upside down, its parabola now the deck: y = B/2 (1 − ξ²)(1 − ζ²)."""
    zeta = np.linspace(0, 1, 60)

    def half(x: float) -> Floats:
        full = breadth / 2 * max(1 - (2 * x / length - 1) ** 2, 0.0)
        return np.column_stack([full * (1 - zeta**2), height * zeta])

    return Hull(name="Wigley", length=length, half=half)


BITTERN = np.array(
    [  # x, widest at, half-breadth, casing at, casing half [mm]
        [0, 156, 7, 190, 5],
        [115, 146, 34, 192, 20],
        [230, 132, 58, 195, 34],
        [460, 114, 90, 200, 48],
        [690, 106, 105, 203, 57],
        [920, 104, 111, 205, 61],
        [1150, 104, 112, 206, 62],
        [1380, 104, 112, 208, 62],
        [1610, 105, 108, 211, 58],
        [1840, 108, 96, 216, 50],
        [2070, 118, 68, 224, 36],
        [2185, 130, 42, 230, 24],
        [2300, 150, 9, 236, 6],
    ]
)


def bittern(waterline: float = 0.154) -> Hull:
    """The demo boat's upper sections by the formula in her description; a flat casing deck."""
    curves = [PchipInterpolator(BITTERN[:, 0] / 1e3, BITTERN[:, k] / 1e3) for k in range(1, 5)]

    def half(x: float) -> Floats:
        zm, b, zd, bd = (float(curve(min(max(x, 0.0), 2.3))) for curve in curves)
        z = np.linspace(max(waterline, zm), zd, 40)
        y = bd + (b - bd) * np.sqrt(np.maximum(1 - ((z - zm) / (zd - zm)) ** 2, 0.0))
        y = np.concatenate([y, np.linspace(bd, 0, 20)[1:]])
        return np.column_stack([y, np.concatenate([z, np.full(19, zd)])])

    return Hull(name="Bittern", length=2.3, half=half)


GREBE = np.array(
    [  # x, half-breadth at 100, at 115, casing at, casing half [mm]
        [0, 4.3, 4.3, 118, 3],
        [70, 20.8, 17.8, 119, 12],
        [140, 33.7, 28.0, 120, 19],
        [190, 40.6, 33.8, 121, 23],
        [260, 46.1, 38.9, 122, 27],
        [390, 52.8, 45.8, 124, 32],
        [520, 55.4, 48.6, 125, 34],
        [650, 55.6, 49.4, 126, 35],
        [780, 54.9, 49.3, 127, 35],
        [910, 51.7, 47.0, 129, 33],
        [1040, 44.4, 41.8, 137, 29],
        [1170, 29.7, 28.6, 142, 21],
        [1235, 18.0, 17.6, 145, 13],
        [1300, 4.0, 4.0, 148, 3],
    ]
)


def grebe() -> Hull:
    """The demo boat's offsets from 100 mm up, straight between the heights; a flat casing deck."""
    curves = [PchipInterpolator(GREBE[:, 0] / 1e3, GREBE[:, k] / 1e3) for k in range(1, 5)]

    def half(x: float) -> Floats:
        low, high, zd, bd = (float(curve(min(max(x, 0.0), 1.3))) for curve in curves)
        side = np.array([[low, 0.1], [high, 0.115], [bd, zd]])
        at = np.interp(np.linspace(0, 2, 41), [0, 1, 2], [0, 1, 2])
        sides = np.column_stack([np.interp(at, [0, 1, 2], side[:, k]) for k in (0, 1)])
        deck = np.column_stack([np.linspace(bd, 0, 20)[1:], np.full(19, zd)])
        return np.vstack([sides, deck])

    return Hull(name="Grebe", length=1.3, half=half)


HULLS = [suboff(), wigley(), bittern(), grebe()]


def enclosed_volume(hull: Hull, stations: int = 400) -> tuple[float, float]:
    """Return the volume that the hull holds above the waterline, and its centre along the hull."""
    x = np.linspace(0, hull.length, stations)
    halves = [hull.half(at) for at in x]
    areas = np.array(
        [
            -2 * float(np.trapezoid(h[:, 1], h[:, 0]) - h[0, 1] * (h[-1, 0] - h[0, 0]))
            for h in halves
        ]
    )
    volume = float(np.trapezoid(areas, x))
    return volume, float(np.trapezoid(areas * x, x)) / volume
