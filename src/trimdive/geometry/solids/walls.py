"""The walls of a skin as they are built: where its two faces end in one plane, one rim.

The body of a skin is its outer face and its inner face, each closed for itself; where a hull is cut
both are closed by a lid over the whole section. The lids cancel in every volume, but a lid stops
what should pass, so the walls are the outer solid less the inner one.
"""

import numpy as np

from trimdive.geometry.lines.kept import with_mesh
from trimdive.geometry.lines.mesh import Mesh
from trimdive.geometry.meshes.edges import body_volumes, components, edges_of, part
from trimdive.geometry.meshes.solid import mesh_of, solid_of
from trimdive.geometry.solids.shapes import turned_out


@with_mesh(1)
def walls(body: Mesh) -> Mesh:
    """Return the walls of a skin without the lids that its faces have in common.

    Args:
        body: A skin's body; what has one face is handed back as it is.

    Raises:
        GeometryError: A face does not close.
    """
    count, labels = components(edges_of(body))
    volumes = body_volumes(body, labels, count)
    if not (volumes < 0.0).any():
        return body
    outside = solid_of(part(body, np.isin(labels, np.flatnonzero(volumes > 0.0))), "skin")
    inside = solid_of(
        turned_out(part(body, np.isin(labels, np.flatnonzero(volumes < 0.0)))), "skin"
    )
    return mesh_of(outside - inside)
