"""What a batten through all the other pins says of one pin.

The strain energy of a thin batten through pins v at places x is vᵀ·K·v (the natural cubic
spline). With one pin left free it settles at v − (K·v)/K on the diagonal, so one product shows
for every pin where the others would have it, and how much of the strain it alone causes.

Source:
    P. J. Green and B. W. Silverman, Nonparametric regression and generalized linear models, 1994,
    from memory.
"""

from functools import lru_cache

import numpy as np

from trimdive.geometry.lines.mesh import Floats

FEWEST = 5  # pins before a batten says anything of one of them [-]
NEAR = 2  # pins on either side that a wrong pin drags with it [-]


def stiffness(x: Floats) -> Floats:
    """Return K of a batten over pins at ``x``.

    Args:
        x: Places, rising, at least three, shape (n,) [m].

    Returns:
        Symmetric matrix, not to be changed, shape (n, n) [m⁻³].

    >>> stiffness(np.array([0.0, 1.0, 2.0]))[0]
    array([ 1.5, -3. ,  1.5])
    """
    return _stiffness(np.ascontiguousarray(x, dtype=np.float64).tobytes())


@lru_cache(maxsize=64)
def _stiffness(places: bytes) -> Floats:
    """Return K, kept for the next battens over the same pins."""
    x = np.frombuffer(places)
    q, n = _bends(x), len(x)
    rows = np.zeros((n - 2, n))
    inner = np.arange(n - 2)
    for side in range(3):
        rows[inner, inner + side] = q[side]
    moments = _moments(x, rows)
    k = np.zeros((n, n))
    for side in range(3):
        k[side : n - 2 + side] += q[side][:, None] * moments
    k.setflags(write=False)
    return k


def _bends(x: Floats) -> Floats:
    """Return the weights of three neighbouring pins in the bend at the middle one, shape (3, m)."""
    h = np.diff(x)
    return np.stack([1.0 / h[:-1], -1.0 / h[:-1] - 1.0 / h[1:], 1.0 / h[1:]])


def _moments(x: Floats, bends: Floats) -> Floats:
    """Return the moments in a batten whose pins bend it so, one column a batten.

    Args:
        x: Places, rising, shape (n,) [m].
        bends: Shape (n - 2, ...) [-].
    """
    from scipy.linalg import solveh_banded

    h = np.diff(x)
    band = np.zeros((2, len(x) - 2))
    band[1] = (h[:-1] + h[1:]) / 3.0
    band[0, 1:] = h[1:-1] / 6.0
    if len(x) == 3:  # one pin between two ends: the solver takes no band of one
        return np.asarray(bends / band[1, 0], dtype=np.float64)
    return np.asarray(solveh_banded(band, bends, check_finite=False), dtype=np.float64)


def by_the_others(x: Floats, v: Floats) -> tuple[Floats, Floats]:
    """Return where the others would have every pin, and the strain that it alone causes.

    Args:
        x: Places, rising, shape (n,) [m].
        v: Pins, shape (n,) [m].

    Returns:
        Where a batten through the others passes, or the pins themselves if there are few,
        shape (n,) [m]; strains, shape (n,) [m⁻¹].
    """
    if len(x) < FEWEST:
        return v.copy(), np.zeros_like(v)
    k = stiffness(x)
    pull = k @ v
    own = np.diag(k)
    return v - pull / own, pull**2 / own


def strain(x: Floats, v: Floats) -> float:
    """Return the strain of a batten through the pins.

    Args:
        x: Places, rising, shape (n,) [m].
        v: Pins, shape (n,) [m].
    """
    if len(x) < 3:
        return 0.0
    bends = (_bends(x) * np.stack([v[:-2], v[1:-1], v[2:]])).sum(axis=0)
    return float(bends @ _moments(x, bends))


def shares(x: Floats, v: Floats, strains: Floats) -> Floats:
    """Return which share of the strain every pin alone causes; nought if one near it causes more.

    Args:
        x: Places, rising, shape (n,) [m].
        v: Pins, shape (n,) [m].
        strains: What each causes alone, shape (n,) [m⁻¹].

    Returns:
        Shares, shape (n,) [-].
    """
    whole = strain(x, v)
    if whole <= 0.0:
        return np.zeros_like(v)
    around = np.pad(strains, NEAR, constant_values=-np.inf)
    near = np.lib.stride_tricks.sliding_window_view(around, 2 * NEAR + 1).max(axis=1)
    return np.where(strains >= near, strains / whole, 0.0)
