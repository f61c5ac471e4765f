"""Write the meshes of *Plover*, an invented harbour boat of three printed sections and a fin.

Every piece is closed, with the outer and the inner face of its wall, in millimetres. The as-bought
copies have the stern in inches, the bow inside out, and a fin that is printed shut and reaches
into the hull.
"""

from itertools import pairwise
from pathlib import Path

import numpy as np
from numpy.typing import NDArray
from scipy.interpolate import PchipInterpolator

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Piece = tuple[Floats, Ints]

RADII = """
0 2.8, 20 9.5, 45 17.0, 80 26.1, 120 34.2, 170 41.3, 230 45.5, 300 46, 500 46,
580 45.8, 630 42.4, 665 36.6, 690 29.2, 705 21.9, 714 14.6, 720 1.5
"""
AXIS, WALL, FIN_WALL = 46.0, 2.4, 1.6  # height of the axis, and walls [mm]
JOINTS = (215.0, 545.0)  # where the sections meet [mm]
FIN = (395.0, 505.0, 22.0, 152.0)  # after and fore end, breadth, top [mm]
ROUND, FIN_ROUND = 48, 48  # points round a section and round the fin [-]
STEP = 10.0  # distance of rings [mm]
ONE = np.dtype([("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("colour", "<u2")])


def profile() -> tuple[Floats, Floats]:
    """Return x and radius of the outside, close together [mm]."""
    rows = np.array([row.split() for row in RADII.replace("\n", " ").split(",")], dtype=float)
    return rows[:, 0], rows[:, 1]


def rings() -> Floats:
    """Return the places of rings: those of the table, the joints, and others between [mm]."""
    x, _ = profile()
    marks = np.unique([*x, *JOINTS])
    parts = [
        np.linspace(a, b, max(2, int(np.ceil((b - a) / STEP)) + 1))[:-1] for a, b in pairwise(marks)
    ]
    return np.append(np.concatenate(parts), marks[-1])


def inner(x: Floats) -> Floats:
    """Return the radius of the inner face, the wall inside the outer one; below 0 where solid."""
    table_x, table_r = profile()
    fine = np.unique(np.concatenate([np.linspace(table_x[0], table_x[-1], 4001), table_x]))
    curve = PchipInterpolator(table_x, table_r)
    r, slope = curve(fine), curve.derivative()(fine)
    long = np.hypot(1.0, slope)
    moved = np.maximum.accumulate(fine + WALL * slope / long)
    keep = np.append(True, np.diff(moved) > 1e-9)
    return np.interp(x, moved[keep], (r - WALL / long)[keep], left=-1.0, right=-1.0)


def circle(count: int) -> Floats:
    """Return a polygon with the area of the unit circle, shape (count, 2)."""
    angle = 2 * np.pi * np.arange(count) / count
    grown = np.sqrt(2 * np.pi / (count * np.sin(2 * np.pi / count)))
    return grown * np.column_stack([np.cos(angle), np.sin(angle)])


def tube(loops: list[Floats]) -> Piece:
    """Return the surface through loops of points, one after another and back to the first."""
    count, n = len(loops), len(loops[0])
    ids = np.arange(count * n).reshape(count, n)
    a, b = ids, np.roll(ids, -1, axis=0)
    c, d = np.roll(b, -1, axis=1), np.roll(a, -1, axis=1)
    faces = np.concatenate([np.stack([a, b, c], -1), np.stack([a, c, d], -1)])
    return np.concatenate(loops), faces.reshape(-1, 3)


def section(start: float, stop: float) -> Piece:
    """Return one section of the hull, from one place to another [mm]."""
    x = rings()
    x = x[(x >= start) & (x <= stop)]
    table_x, table_r = profile()
    outer = PchipInterpolator(table_x, table_r)(x)
    within = inner(x)
    kept = within > 0.5
    round_ = circle(ROUND)
    loops = [_loop(at, r, round_) for at, r in zip(x, outer, strict=True)]
    back = [_loop(at, r, round_) for at, r in zip(x[kept], within[kept], strict=True)][::-1]
    if stop >= table_x[-1]:  # the bow is solid from here on
        loops.append(_loop(table_x[-1], 0.0, round_))
        back.insert(0, _loop(float(x[kept][-1]), 0.0, round_))
    if start <= table_x[0]:
        loops.insert(0, _loop(table_x[0], 0.0, round_))
        back.append(_loop(float(x[kept][0]), 0.0, round_))
    points, faces = tube(loops + back)
    closes = (start <= table_x[0]) or (stop >= table_x[-1])
    return without_seam(points, faces, len(loops), len(back)) if closes else (points, faces)


def _loop(x: float, radius: float, round_: Floats) -> Floats:
    points = np.column_stack([np.full(len(round_), x), radius * round_])
    return points + np.array([0.0, 0.0, AXIS])


def without_seam(points: Floats, faces: Ints, outer: int, back: int) -> Piece:
    """Return a cup: what joins the tips of both its faces along the axis is taken out."""
    rows = faces.reshape(2, outer + back, -1, 3)
    on_axis = np.ptp(points.reshape(outer + back, ROUND, 3), axis=1).max(axis=1) == 0
    is_seam = on_axis & np.roll(on_axis, -1)
    return points, rows[:, ~is_seam].reshape(-1, 3)


def oval(grown: float) -> Floats:
    """Return the outline of the fin, larger by so much on every side [mm], shape (n, 2)."""
    aft, fore, broad, _ = FIN
    half = np.array([(fore - aft) / 2 + grown, broad / 2 + grown])
    return circle(FIN_ROUND) * half + np.array([(aft + fore) / 2, 0.0])


def hull_top(outline: Floats) -> Floats:
    """Return how high the outside of the hull is below points of an outline [mm]."""
    table_x, table_r = profile()
    radius = PchipInterpolator(table_x, table_r)(outline[:, 0])
    return AXIS + np.sqrt(np.maximum(radius**2 - outline[:, 1] ** 2, 0.0))


def fin(is_shut: bool) -> Piece:
    """Return the fin: open below and fitted to the hull, or shut and reaching into it."""
    top = FIN[3]
    out, room = oval(0.0), oval(-FIN_WALL)
    if is_shut:
        low = np.full(FIN_ROUND, hull_top(out).min() - 3.0)
        walls = [
            _at(out, low, 0.0),
            _at(out, low),
            _at(out, low * 0 + top),
            _at(out, low * 0 + top, 0),
        ]
        cavity = [low + FIN_WALL, low * 0 + top - FIN_WALL]
        inside = [
            _at(room, cavity[0], 0),
            _at(room, cavity[0]),
            _at(room, cavity[1]),
            _at(room, cavity[1], 0),
        ]
        return joined(capped(walls), turned(capped(inside)))
    high = np.full(FIN_ROUND, top)
    loops = [_at(out, high, 0.0), _at(out, high), _at(out, hull_top(out))]
    loops += [
        _at(room, hull_top(room)),
        _at(room, high - FIN_WALL),
        _at(room, high - FIN_WALL, 0.0),
    ]
    return turned(capped(loops))


def _at(outline: Floats, z: Floats, share: float = 1.0) -> Floats:
    """Return an outline at these heights, drawn in to its middle by a share."""
    middle = np.array([(FIN[0] + FIN[1]) / 2, 0.0])
    return np.column_stack([middle + share * (outline - middle), z])


def capped(loops: list[Floats]) -> Piece:
    """Return the surface through loops, of which the first and the last are points."""
    points, faces = tube(loops)
    rows = faces.reshape(2, len(loops), -1, 3)
    return points, rows[:, :-1].reshape(-1, 3)


def turned(piece: Piece) -> Piece:
    """Return a piece inside out."""
    return piece[0], piece[1][:, ::-1]


def joined(one: Piece, other: Piece) -> Piece:
    """Return two pieces as one."""
    return np.concatenate([one[0], other[0]]), np.concatenate([one[1], other[1] + len(one[0])])


def rightly(piece: Piece) -> Piece:
    """Return a piece that encloses a positive volume."""
    return piece if volume(piece) > 0 else turned(piece)


def volume(piece: Piece) -> float:
    """Return the volume that a piece encloses [mm³]."""
    a, b, c = np.moveaxis(piece[0][piece[1]], 1, 0)
    return float(np.einsum("ij,ij->", a, np.cross(b, c)) / 6)


def stl(piece: Piece) -> bytes:
    """Return a piece as a binary STL, without the triangles that a tip draws in to nothing."""
    corners = piece[0][piece[1]].astype(np.float32)
    a, b, c = np.moveaxis(corners, 1, 0)
    real = (a != b).any(1) & (b != c).any(1) & (c != a).any(1)
    rows = np.zeros(int(real.sum()), ONE)
    rows["corners"] = corners[real]
    head = f"Written by tools/{Path(__file__).name}".encode().ljust(80)
    return head + np.uint32(len(rows)).tobytes() + rows.tobytes()


def pieces() -> dict[str, Piece]:
    """Return the four pieces as they should be."""
    ends = (0.0, *JOINTS, 720.0)
    names = ("stern", "middle", "bow")
    hull = {name: rightly(section(*ends[k : k + 2])) for k, name in enumerate(names)}
    return {**hull, "fin": rightly(fin(is_shut=False))}


def as_bought() -> dict[str, Piece]:
    """Return the four pieces as they were bought."""
    good = pieces()
    points, faces = good["stern"]
    return {
        "stern": (points / 25.4, faces),
        "middle": good["middle"],
        "bow": turned(good["bow"]),
        "fin": rightly(fin(is_shut=True)),
    }


def main() -> None:
    """Write the meshes of the boat and of its as-bought copy."""
    for boat, made in (("plover", pieces()), ("plover-as-bought", as_bought())):
        folder = Path(__file__).parents[1] / "boats" / boat
        folder.mkdir(parents=True, exist_ok=True)
        for name, piece in made.items():
            (folder / f"{name}.stl").write_bytes(stl(piece))


if __name__ == "__main__":
    main()
