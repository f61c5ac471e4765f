"""What a batten through all the other pins says of one pin.

The strain energy of a thin batten through pins v at places x is vᵀ·K·v (the natural cubic
spline). With one pin left free it settles at v − (K·v)/K on the diagonal, so one product shows
for every pin where the others would have it, and how much of the strain it alone causes.

Source:
    P. J. Green and B. W. Silverman, Nonparametric regression and generalized linear models, 1994,
    from memory.
"""

import numpy as np

from trimdive.lines.mesh import Floats

FEWEST = 5  # pins before a batten says anything of one of them [-]
NEAR = 2  # pins on either side that a wrong pin drags with it [-]


def stiffness(x: Floats) -> Floats:
    """Return K of a batten over pins at ``x``.

    Args:
        x: Places, rising, at least three, shape (n,) [m].

    Returns:
        Symmetric matrix, shape (n, n) [m⁻³].

    >>> stiffness(np.array([0.0, 1.0, 2.0]))[0]
    array([ 1.5, -3. ,  1.5])
    """
    h = np.diff(x)
    n = len(x)
    inner = np.arange(n - 2)
    q = np.zeros((n - 2, n))
    q[inner, inner] = 1.0 / h[:-1]
    q[inner, inner + 1] = -1.0 / h[:-1] - 1.0 / h[1:]
    q[inner, inner + 2] = 1.0 / h[1:]
    r = np.diag((h[:-1] + h[1:]) / 3.0) + np.diag(h[1:-1] / 6.0, 1) + np.diag(h[1:-1] / 6.0, -1)
    return (q.T @ np.linalg.solve(r, q)).astype(np.float64)


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
    return float(v @ stiffness(x) @ v) if len(x) > 2 else 0.0


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
    near = [strains[max(k - NEAR, 0) : k + NEAR + 1].max() for k in range(len(v))]
    return np.where(strains >= np.array(near), strains / whole, 0.0)
