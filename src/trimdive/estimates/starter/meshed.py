"""A hull that was drawn as a mesh, as what a first boat is planned on.

The mesh is put with its after end at 0, its middle on the centre line and its lowest point on the
keel line; keel, deck and breadths are read off its sections. A tower that was drawn with it is no
deck, and none is added.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import cast

import numpy as np

from trimdive.boatfile import MeshRegion, parse
from trimdive.estimates.starter.names import HULL
from trimdive.estimates.starter.pieces import Chapter, Line, Piece, lines, quotes, toml_of
from trimdive.estimates.tape.entered import quoted
from trimdive.geometry.lines.mesh import Floats, Mesh, volume
from trimdive.geometry.meshes import is_printed, report
from trimdive.geometry.solids.meshed import counted_once, meshed
from trimdive.geometry.solids.section import segments

PLACES = (0.004, *(k / 20 for k in range(1, 20)), 0.996)  # sections read off, of the length [-]
TOWER = 1.25  # what stands higher than this times the usual deck is no deck [-]
FORWARD = np.array([1.0, 0.0, 0.0])
Row = tuple[float, float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnHull:
    """A hull as a mesh beside the boat file, with what its sections say."""

    file: str
    data: bytes
    lines: tuple[Line, ...]  # of its region: how the file was drawn
    is_wall: bool  # as printed, with both faces of its walls
    has_tower: bool
    length: float  # [m]
    breadth: float  # greatest, of the hull without a tower [m]
    height: float  # keel line to deck, usual along her [m]
    holds: float  # volume of what the mesh encloses [m³]
    profile: tuple[Row, ...]  # share of the length, keel and deck above the keel line [-, m, m]
    breadths: tuple[Row, ...]  # share of the length, breadth, height of the widest [-, m, m]

    @property
    def files(self) -> Mapping[str, bytes]:
        """Return what lies beside the boat file."""
        return {self.file: self.data}


@dataclass(frozen=True, slots=True, kw_only=True)
class HowDrawn:
    """What a mesh file does not say itself."""

    unit: str  # of length in it
    scale: float = 1.0  # at which it was drawn too large [-]
    forward: str = "x"
    up: str = "z"
    repairs: tuple[str, ...] = ()


def drawn_hull(file: str, data: bytes, how: HowDrawn) -> DrawnHull:
    """Return the hull in a mesh.

    Args:
        file: Its name beside the boat file.
        data: What it holds.
        how: How it was drawn.

    Raises:
        TrimdiveError: It cannot be read, it does not close, or some of it counts twice.
    """
    made = _lines(file, how)
    region = _region(made)
    whole = meshed(region, {file: data})
    counted_once(region, {file: data})
    size = np.ptp(whole.bounds, axis=0)
    rows = _sections(whole, float(size[0]))
    deck = float(np.median(rows[3:-3, 2]))
    is_tower = rows[:, 2] > TOWER * deck
    rows[is_tower, 2] = np.interp(rows[is_tower, 0], rows[~is_tower, 0], rows[~is_tower, 2])
    found = report(whole, file, is_deep=False)
    is_wall = is_printed(found)
    return DrawnHull(
        file=file,
        data=data,
        lines=(*made, *(lines(closed_walls="true") if is_wall else ())),
        is_wall=is_wall,
        has_tower=float(size[2]) > TOWER * deck,
        length=float(size[0]),
        breadth=float(rows[:, 3].max()),
        height=deck,
        holds=volume(whole),
        profile=tuple((x, keel, top) for x, keel, top, _, _ in rows.tolist()),
        breadths=tuple((x, broad, z) for x, _, _, broad, z in rows.tolist()),
    )


def _lines(file: str, how: HowDrawn) -> tuple[Line, ...]:
    """Return the lines of the region that say how the mesh was drawn, and where it goes."""
    scale, zero = quotes(f"1:{how.scale:.6g}"), quotes("0 mm")
    repairs = f"[{', '.join(map(quoted, how.repairs))}]"
    return (
        *lines(surface=quotes("mesh"), file=quoted(file), file_unit=quoted(how.unit)),
        *(lines(file_scale=scale) if abs(how.scale - 1) > 1e-6 else ()),
        *(lines(forward=quotes(how.forward)) if how.forward != "x" else ()),
        *(lines(up=quotes(how.up)) if how.up != "z" else ()),
        *lines(x_aft=zero, y=zero, z_bottom=zero),
        *(lines(repairs=repairs) if how.repairs else ()),
    )


def _region(made: tuple[Line, ...]) -> MeshRegion:
    """Return the region of a mesh by itself, with any skin."""
    head = Piece(head="", lines=lines(format="1", name=quotes(HULL)))
    skin = lines(material=quotes("GRP"), thickness=quotes("1 mm"))
    chapter = Chapter(title=None, pieces=(head, _piece(made, skin)))
    return cast("MeshRegion", parse(toml_of([chapter])).regions[0])


def _piece(made: tuple[Line, ...], skin: tuple[Line, ...]) -> Piece:
    return Piece(head="[[region]]", lines=(*lines(name=quotes(HULL)), *made, *skin))


def _sections(whole: Mesh, length: float) -> Floats:
    """Return share of the length, keel, deck, breadth and height of the widest, shape (n, 5).

    Args:
        whole: The mesh, in its place.
        length: Of it [m].
    """
    rows: list[tuple[float, ...]] = []
    for share in PLACES:
        points = segments(whole.corners, FORWARD, share * length)[:, :, 1:].reshape(-1, 2)
        if not len(points):
            continue
        y, z = np.abs(points[:, 0]), points[:, 1]
        widest = z[y > (1 - 1e-6) * y.max()]
        rows.append((share, z.min(), z.max(), 2 * y.max(), float(widest.mean())))
    first, last = rows[0], rows[-1]
    return np.array([(0.0, *first[1:]), *rows[1:-1], (1.0, *last[1:])])


def region_piece(made: DrawnHull, *, skin: tuple[Line, ...]) -> Piece:
    """Return the hull's region.

    Args:
        made: The hull.
        skin: Lines that say what it is made of.
    """
    return _piece(made.lines, skin)
