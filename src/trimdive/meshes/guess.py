"""Likely answers where a mesh file does not say: its unit, which way it lies, and what it is."""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from trimdive.lines.mesh import Floats, Mesh
from trimdive.meshes.edges import areas
from trimdive.meshes.report import MeshReport

UNITS = {"mm": 1e-3, "cm": 1e-2, "in": 0.0254, "m": 1.0, "ft": 0.3048}
USUAL = {"mm": (15.0, 4000.0), "in": (4.0, 15.0), "m": (0.3, 4.0)}  # numbers of a model's length
NEAR = 0.15  # how far a length may be off the one wanted [-]
THIN = 0.2  # a mesh whose mean wall is less than this share of its least extent is a wall [-]
ALIKE = 0.02  # a lopsidedness below this is none [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Likely:
    """A likely answer."""

    answer: str
    why: str
    is_sure: bool  # whether nothing else would do


def likely_unit(numbers: Floats, wanted: float | None = None) -> Likely:
    """Return the unit in which a mesh was likely drawn.

    Args:
        numbers: Its length, breadth and height in its own numbers, shape (3,) [-].
        wanted: How long it should be, where that is known [m].
    """
    longest = float(np.max(numbers))
    if wanted:
        off = {unit: abs(np.log(longest * size / wanted)) for unit, size in UNITS.items()}
        best = min(off, key=lambda unit: off[unit])
        is_sure = bool(off[best] < np.log(1 + NEAR))
        told = f"{longest:.4g} {best} is {longest * UNITS[best]:.4g} m; {wanted:.4g} m is wanted"
        return Likely(answer=best, why=told, is_sure=is_sure)
    for unit, (least, most) in USUAL.items():
        if least <= longest <= most:
            told = f"{longest:.4g} {unit} long would be a usual model"
            return Likely(answer=unit, why=told, is_sure=unit == "mm" and longest > 50)
    unit = "mm" if longest > 1 else "m"
    return Likely(answer=unit, why=f"it is {longest:.4g} long in its own numbers", is_sure=False)


def unit_for(volume: float, wanted: float, within: float = 0.3) -> str | None:
    """Return the unit in which a mesh would have the volume wanted, or None.

    Args:
        volume: Its volume in its own numbers [-].
        wanted: Volume that it should have [m³].
        within: How far the volume may be off [-].
    """
    if volume <= 0 or wanted <= 0:
        return None
    off = {unit: abs(np.log(volume * size**3 / wanted)) for unit, size in UNITS.items()}
    best = min(off, key=lambda unit: off[unit])
    return best if off[best] < np.log(1 + within) else None


def likely_axes(mesh: Mesh) -> Likely:
    """Return which axes of a mesh likely point forward and up, as "x, z".

    Forward is the longest; port and starboard are alike, so up is that of the other two along
    which it is more lopsided. Whether the bow lies at the greater end nobody can see from it.
    """
    size = np.ptp(mesh.bounds, axis=0)
    forward = int(np.argmax(size))
    others = [axis for axis in range(3) if axis != forward]
    lopsided = _lopsided(mesh)
    up = max(others, key=lambda axis: (lopsided[axis] > ALIKE, lopsided[axis]))
    if max(lopsided[axis] for axis in others) <= ALIKE:
        up = 2 if forward != 2 else 1
    port = next(axis for axis in others if axis != up)
    names = "xyz"
    why = (
        f"{names[forward]} is the longest; along {names[port]} the two sides are "
        f"{'alike' if lopsided[port] <= ALIKE else 'most alike'}"
    )
    is_sure = lopsided[up] > ALIKE >= lopsided[port] and size[forward] > 1.5 * size[others].max()
    return Likely(answer=f"{names[forward]}, {names[up]}", why=why, is_sure=bool(is_sure))


@lru_cache(maxsize=64)
def is_alike_across(mesh: Mesh) -> bool:
    """Return whether both sides of a mesh about the middle of its breadth are alike."""
    return bool(_lopsided(mesh)[1] <= ALIKE)


def _lopsided(mesh: Mesh) -> Floats:
    """Return how unlike the two halves about the middle of the bounds are, by axis, shape (3,)."""
    each = areas(mesh)
    middle, half = mesh.bounds.mean(axis=0), np.maximum(np.ptp(mesh.bounds, axis=0) / 2, 1e-300)
    away = (mesh.corners.mean(axis=1) - middle) / half
    odd = np.stack([each @ away, each @ away**3]) / max(float(each.sum()), 1e-300)
    return np.abs(odd).max(axis=0)


def likely_walls(found: MeshReport) -> Likely:
    """Return whether a mesh is likely the outside only, or a print with both faces of its walls.

    Args:
        found: What stands in it.
    """
    thin = found.wall < THIN * float(found.size.min())
    mean = f"in the mean {found.wall * 1e3:.1f} mm thick"
    if thin and found.is_closed:
        return Likely(
            answer="as printed, with both faces of its walls",
            why=f"it encloses walls {mean}",
            is_sure=bool(found.filled < 0.5 * found.hull_volume),
        )
    why = "it encloses most of the space that it spans" if found.is_closed else "it does not close"
    return Likely(answer="outside only", why=why, is_sure=found.is_closed)
