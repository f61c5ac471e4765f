"""3MF files made by hand as the specifications describe them."""

import io
import zipfile

import numpy as np

CORE = "http://schemas.microsoft.com/3dmanufacturing/core/2015/02"
PRODUCTION = "http://schemas.microsoft.com/3dmanufacturing/production/2015/06"
STARTS = "http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"
RELS = "http://schemas.openxmlformats.org/package/2006/relationships"
CUBE = [(x, y, z) for z in (0, 1) for y in (0, 1) for x in (0, 1)]
FACES = [
    (0, 2, 1), (1, 2, 3), (4, 5, 6), (5, 7, 6), (0, 1, 4), (1, 5, 4),
    (2, 6, 3), (3, 6, 7), (0, 4, 2), (2, 4, 6), (1, 3, 5), (3, 7, 5),
]  # fmt: skip


def box(key: str, size: tuple[float, float, float], more: str = "") -> str:
    """Return an object that is a box from the origin."""
    points = "".join(
        f'<vertex x="{x * size[0]}" y="{y * size[1]}" z="{z * size[2]}"/>' for x, y, z in CUBE
    )
    faces = "".join(f'<triangle v1="{a}" v2="{b}" v3="{c}"/>' for a, b, c in FACES)
    mesh = f"<mesh><vertices>{points}</vertices><triangles>{faces}</triangles></mesh>"
    return f'<object id="{key}" {more}>{mesh}</object>'


def at(x: float, y: float, z: float, axes: np.ndarray | None = None) -> str:
    """Return a transform as an attribute: three axes, then the origin."""
    turn = np.eye(3) if axes is None else axes
    return 'transform="' + " ".join(f"{v:g}" for v in [*turn.ravel(), x, y, z]) + '"'


def assembly(key: str, *components: str) -> str:
    """Return an object that is made of others."""
    inner = "".join(f"<component {one}/>" for one in components)
    return f'<object id="{key}"><components>{inner}</components></object>'


def model(objects: str, *items: str, head: str = "", unit: str = "millimeter") -> str:
    """Return a model that builds items."""
    build = "".join(f"<item {one}/>" for one in items)
    return (
        f'<?xml version="1.0" encoding="UTF-8"?><model unit="{unit}" xmlns="{CORE}" '
        f'xmlns:p="{PRODUCTION}" {head}><resources>{objects}</resources>'
        f"<build>{build}</build></model>"
    )


def package(root: str, *, start: str = "3D/3dmodel.model", **others: str) -> bytes:
    """Return an archive of a root model and others, by the names of their parts."""
    held = io.BytesIO()
    with zipfile.ZipFile(held, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr(
            "_rels/.rels",
            f'<Relationships xmlns="{RELS}"><Relationship Type="{STARTS}" '
            f'Target="/{start}" Id="rel0"/></Relationships>',
        )
        for name, text in others.items():
            archive.writestr(f"3D/{name}.model", text)
        archive.writestr(start, root)
    return held.getvalue()
