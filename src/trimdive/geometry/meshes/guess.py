"""Likely answers where a mesh file does not say: its unit, which way it lies, and what it is."""

from dataclasses import dataclass

import numpy as np

from trimdive.fact import Fact, fact
from trimdive.geometry.lines.kept import with_mesh
from trimdive.geometry.lines.mesh import Floats, Mesh
from trimdive.geometry.meshes.edges import areas
from trimdive.geometry.meshes.report import MeshReport
from trimdive.units import factor_of

UNITS = {name: factor_of(name, "length") for name in ("mm", "cm", "in", "ft", "m")}  # [m]
DRAWN_IN = {"mm": 0.8, "in": 0.1, "cm": 0.05, "m": 0.03, "ft": 0.02}  # share of meshes [-]
HULL, PIECE = (0.9, 0.7), (0.1, 1.1)  # usual length [m], and how far its logarithm strays [-]
SLENDER = 3.0  # a mesh this many times as long as broad is likely a hull [-]
HULLS = {True: 0.9, False: 0.3}  # share of hulls among meshes that are slender, or not [-]
CERTAIN, FITS = 0.9, 0.03  # shares of all that is likely, to be sure of a unit, or to name it [-]
NEAR = 0.15  # how far a length may be off the one wanted [-]
THIN = 0.2  # a mesh whose mean wall is less than this share of its least extent is a wall [-]
ALIKE = 0.02  # a lopsidedness below this is none [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Likely:
    """A likely answer."""

    answer: str  # a unit, axes as "x, z", or "printed" and "outside" of walls
    why: Fact
    is_certain: bool  # whether nothing else would do
    is_given: bool = False  # by the builder or the file, not found out here


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
        is_certain = bool(off[best] < np.log(1 + NEAR))
        length = longest * UNITS[best]
        why = fact("as-long-as-wanted", number=longest, unit=best, length=length, wanted=wanted)
        return Likely(answer=best, why=why, is_certain=is_certain)
    shares = _unit_shares(numbers)
    order = sorted(shares, key=lambda unit: -shares[unit])
    best = order[0]
    others = [unit for unit in order[1:] if shares[unit] > FITS]
    why = fact(
        "length-by-unit",
        number=longest,
        length=longest * UNITS[best],
        others=tuple((unit, longest * UNITS[unit]) for unit in others),
    )
    return Likely(answer=best, why=why, is_certain=bool(shares[best] > CERTAIN))


def _unit_shares(numbers: Floats) -> dict[str, float]:
    """Return how likely each unit is, by how long hulls and pieces of models are.

    Source: common practice, no source: most are drawn in mm; hulls are from 0.4 to 2 m long.
    """
    by_size = np.sort(numbers)
    hulls = HULLS[bool(by_size[-1] > SLENDER * by_size[-2])]
    found: dict[str, float] = {}
    for unit, share in DRAWN_IN.items():
        size = max(float(by_size[-1]) * UNITS[unit], 1e-300)
        kinds = ((hulls, *HULL), (1 - hulls, *PIECE))
        found[unit] = share * sum(
            part * np.exp(-0.5 * (np.log(size / usual) / stray) ** 2) / stray
            for part, usual, stray in kinds
        )
    whole = sum(found.values())
    if not whole > 0.0:  # nothing fits
        return {unit: float(unit == "mm") for unit in UNITS}
    return {unit: one / whole for unit, one in found.items()}


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
    names, is_alike = "xyz", bool(lopsided[port] <= ALIKE)
    why = fact("longest-axis", longest=names[forward], port=names[port], is_alike=is_alike)
    is_certain = lopsided[up] > ALIKE >= lopsided[port] and size[forward] > 1.5 * size[others].max()
    return Likely(answer=f"{names[forward]}, {names[up]}", why=why, is_certain=bool(is_certain))


@with_mesh(1)
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


def is_printed(found: MeshReport) -> bool:
    """Return whether a mesh likely has both faces of its walls, as it is printed.

    Args:
        found: What stands in it.
    """
    return found.wall < THIN * float(found.size.min()) and found.is_closed


def likely_walls(found: MeshReport) -> Likely:
    """Return whether a mesh is likely the outside only, or a print with both faces of its walls.

    Args:
        found: What stands in it.
    """
    if is_printed(found):
        is_certain = bool(found.filled < 0.5 * found.hull_volume)
        why = fact("encloses-walls", wall=found.wall)
        return Likely(answer="printed", why=why, is_certain=is_certain)
    why = fact("encloses-most") if found.is_closed else fact("does-not-close")
    return Likely(answer="outside", why=why, is_certain=found.is_closed)
