"""Volume and centroid of closed meshes, and what of each body lies above a plane."""

from dataclasses import dataclass

import numpy as np

from trimdive.geometry.lines.kept import with_mesh
from trimdive.geometry.lines.mesh import Floats, Mesh
from trimdive.geometry.solids.build import Body
from trimdive.geometry.solids.cut import cut
from trimdive.geometry.solids.tree import planted


@dataclass(frozen=True, slots=True, kw_only=True)
class Above:
    """What of one body lies above a plane."""

    volume: float  # displaced volume above the plane [m³]
    moment: Floats  # its first moment about the origin, shape (3,) [m⁴]
    share: float  # of the body's whole volume [-]


@with_mesh(1)
def centroid(mesh: Mesh) -> Floats:
    """Return the centroid of a closed mesh, shape (3,) [m]."""
    middle = mesh.bounds.mean(axis=0)
    a, b, c = np.moveaxis(mesh.corners - middle, 1, 0)
    w = np.einsum("ij,ij->i", a, np.cross(b, c)) / 6.0
    return np.asarray(middle + (w @ (a + b + c)) / (4.0 * w.sum()))


def above(body: Body, n: Floats, d: float) -> Above:
    """Return what of a body lies above n·r = d."""
    tree = planted(body.mesh, body.share)
    whole = cut(tree, n, float(n @ tree.centre) + 10.0 * (1.0 + float(np.ptp(body.mesh.bounds))))
    below = cut(tree, n, d)
    volume = whole.volume - below.volume
    return Above(
        volume=volume, moment=whole.moment - below.moment, share=volume / max(whole.volume, 1e-15)
    )
