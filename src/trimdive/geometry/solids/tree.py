"""Orders the triangles of bodies into a tree, so that a plane need look only at those it crosses.

A leaf is a block of LANES triangles, each coordinate of theirs side by side, so that the machine
takes all of them in one step. A node holds the boxes of its FAN children in the same manner.
Beside each child stand the sums that count its triangles at once when all lie below: for a
triangle abc, with w = a·(b×c)/6, A = (b-a)×(c-a)/2 and s = a+b+c, the sums of w, A, w s and A⊗s.
"""

from typing import NamedTuple, TypeVar

import numpy as np
from numpy.typing import NDArray

from trimdive.errors import GeometryError
from trimdive.geometry.lines.kept import handed, with_mesh
from trimdive.geometry.lines.mesh import Floats, Ints, Mesh
from trimdive.geometry.solids.kernel import inner, kernel
from trimdive.geometry.solids.shapes import moved
from trimdive.records import hashed, is_equal, short

Singles = NDArray[np.float32]
Links = NDArray[np.int32]
Number = TypeVar("Number", bound=np.generic)

LANES = 8  # triangles in a leaf [-]; measured, 4 and 8 are alike
LEAF = 10 * LANES  # numbers in a leaf: nine coordinates and the weight of each triangle [-]
FAN = 8  # children of a node [-]
BOX = 6 * FAN  # numbers in a node: centre and half extents of each child's box [-]
SUMS = 16  # numbers that stand for a child of which all lies below [-]
FLAT = 3.0  # boxes are cut as if they were so much taller, which leaves them flat [-]
LINE = 64  # bytes that memory hands out at a time
SLACK = 4e-6  # boxes are so much too large, of the body's reach, to allow for single precision [-]


class Tree(NamedTuple):
    """Closed bodies ready to be cut; all coordinates are measured from ``centre``."""

    centre: Floats  # shape (3,) [m]
    leaves: Floats  # nine coordinates of the corners, then weight, shape (m, LEAF) [m, -]
    nodes: Singles  # boxes: centre and half extents, shape (k, BOX) [m]
    links: Links  # a node's first child; if that is a leaf, its number inverted, shape (k,) [-]
    sums: Floats  # w, A, w s, A⊗s of each child, weighted, shape (k FAN, SUMS) [m³, m², m⁴, m³]
    roots: Links  # nodes at which a walk begins, shape (bodies,) [-]
    boxes: Floats  # of each body: centre and half extents, shape (bodies, 6) [m]

    __repr__ = short
    __eq__ = is_equal
    __hash__ = hashed


def _aligned(shape: tuple[int, ...], kind: type[Number]) -> NDArray[Number]:
    """Return an empty array whose rows begin where memory's lines begin."""
    size = int(np.prod(shape)) * np.dtype(kind).itemsize
    room = np.empty(size + LINE, np.uint8)
    start = -room.ctypes.data % LINE
    return room[start : start + size].view(kind).reshape(shape)


@inner
def _part(order: Ints, middles: Floats, start: int, middle: int, stop: int, axis: int) -> None:
    """Reorder ``order[start:stop]`` along ``axis``, so that none before ``middle`` is beyond it."""
    low, high = start, stop - 1
    while low < high:
        pivot = middles[order[(low + high) // 2], axis]
        i, j = low, high
        while i <= j:
            while middles[order[i], axis] < pivot:
                i += 1
            while middles[order[j], axis] > pivot:
                j -= 1
            if i <= j:
                order[i], order[j] = order[j], order[i]
                i += 1
                j -= 1
        if middle <= j:
            high = j
        elif middle >= i:
            low = i
        else:
            break


@inner
def _longest_axis(order: Ints, middles: Floats, start: int, stop: int) -> int:
    """Return the axis along which the middles of these triangles spread most.

    Heights count FLAT times: water lies level and boats lie in it nearly upright, so that flat
    boxes are crossed by fewer waterlines (a quarter fewer, and 2 % more by planes at random).
    """
    best, axis = -1.0, 0
    for k in range(3):
        low = high = middles[order[start], k]
        for i in range(start, stop):
            value = middles[order[i], k]
            low, high = min(low, value), max(high, value)
        spread = (high - low) * (FLAT if k == 2 else 1.0)
        if spread > best:
            best, axis = spread, k
    return axis


@kernel
def _sort(order: Ints, middles: Floats) -> None:
    """Sort triangles so that any FAN^k leaves from a multiple of FAN^k lie close together.

    Spans are cut in two, at whole children, across the axis along which they are longest.
    """
    spans = np.empty((128, 2), np.int64)
    spans[0, 0], spans[0, 1] = 0, len(order)
    count = 1
    while count:
        count -= 1
        start, stop = spans[count, 0], spans[count, 1]
        if stop - start <= LANES:
            continue
        child = LANES
        while child * FAN < stop - start:
            child *= FAN
        children = (stop - start + child - 1) // child
        middle = start + child * (children // 2)
        _part(order, middles, start, middle, stop, _longest_axis(order, middles, start, stop))
        spans[count, 1] = middle
        spans[count + 1, 0], spans[count + 1, 1] = middle, stop
        count += 2


@kernel
def _sum_leaves(leaves: Floats, boxes: Floats, sums: Floats) -> None:
    """Write the box (low, high) and the sums of each leaf."""
    area = np.empty(3)
    for i in range(len(leaves)):
        boxes[i, :3], boxes[i, 3:] = np.inf, -np.inf
        sums[i] = 0.0
        for lane in range(LANES):
            t = leaves[i, lane::LANES]
            for k in range(9):
                boxes[i, k % 3] = min(boxes[i, k % 3], t[k])
                boxes[i, 3 + k % 3] = max(boxes[i, 3 + k % 3], t[k])
            w = 0.0
            for k in range(3):
                m, n = (k + 1) % 3, (k + 2) % 3
                w += t[9] * t[k] * (t[3 + m] * t[6 + n] - t[3 + n] * t[6 + m]) / 6.0
                across = (t[3 + m] - t[m]) * (t[6 + n] - t[n])
                area[k] = 0.5 * t[9] * (across - (t[3 + n] - t[n]) * (t[6 + m] - t[m]))
            sums[i, 0] += w
            for k in range(3):
                s = t[k] + t[3 + k] + t[6 + k]
                sums[i, 1 + k] += area[k]
                sums[i, 4 + k] += w * s
                for m in range(3):
                    sums[i, 7 + 3 * m + k] += area[m] * s


def _leaves(mesh: Mesh, origin: Floats, weight: float) -> Floats:
    """Return the triangles in tree order, filled up with points that enclose nothing."""
    corners = (mesh.vertices - origin)[mesh.triangles]
    order = np.arange(len(corners))
    _sort(order, np.ascontiguousarray(corners.sum(axis=1)))
    count = -(-len(order) // LANES)
    rows = np.zeros((count * LANES, 10))
    rows[: len(order), :9] = corners.reshape(-1, 9)[order]
    rows[: len(order), 9] = weight
    rows[len(order) :, :9] = np.tile(rows[len(order) - 1, :3], 3)
    leaves = _aligned((count, 10, LANES), np.float64)
    leaves[:] = rows.reshape(count, LANES, 10).transpose(0, 2, 1)
    return leaves.reshape(count, LEAF)


def _filled(rows: Floats, value: Floats) -> Floats:
    """Return ``rows`` in groups of FAN, the last one filled up with ``value``."""
    missing = -len(rows) % FAN
    return np.concatenate([rows, np.tile(value, (missing, 1))]).reshape(-1, FAN, rows.shape[1])


def _levels(boxes: Floats, sums: Floats) -> tuple[list[Floats], list[Floats]]:
    """Return boxes (low, high) and sums of each node's children, level by level, root first."""
    nowhere = np.repeat([np.inf, -np.inf], 3)
    box_levels, sum_levels = [], []
    while not box_levels or len(box_levels[-1]) > 1:
        box_levels.append(children := _filled(boxes, nowhere))
        sum_levels.append(added := _filled(sums, np.zeros(SUMS)))
        boxes = np.hstack([children[:, :, :3].min(axis=1), children[:, :, 3:].max(axis=1)])
        sums = added.sum(axis=1)
    return box_levels[::-1], sum_levels[::-1]


def _nodes(boxes: Floats) -> Singles:
    """Return the boxes in single precision, a hair too large; those of no child are not numbers."""
    low, high = boxes[:, :, :3], boxes[:, :, 3:]
    reach = np.abs(boxes[np.isfinite(boxes)]).max()
    nodes = _aligned((len(boxes), 6, FAN), np.float32)
    with np.errstate(invalid="ignore"):
        centre = (0.5 * (low + high)).astype(np.float32)
        half = np.maximum(high - centre, centre - low) + SLACK * reach
    nodes[:, :3] = centre.transpose(0, 2, 1)
    nodes[:, 3:] = half.transpose(0, 2, 1)
    return nodes.reshape(len(boxes), BOX)


def plant(mesh: Mesh, weight: float = 1.0, centre: Floats | None = None) -> Tree:
    """Return the tree of one closed mesh.

    Args:
        mesh: The body.
        weight: Share of the enclosed space that displaces [-].
        centre: Where the tree's own coordinates begin, shape (3,) [m]; by default its middle.

    Raises:
        GeometryError: The mesh has no triangles.
    """
    if not len(mesh.triangles):
        raise GeometryError("it has no triangles", "mesh", "Give a closed surface.")
    origin = mesh.bounds.mean(axis=0) if centre is None else centre
    leaves = _leaves(mesh, origin, weight)
    leaf_boxes, leaf_sums = np.empty((len(leaves), 6)), np.empty((len(leaves), SUMS))
    _sum_leaves(leaves, leaf_boxes, leaf_sums)
    box_levels, sum_levels = _levels(leaf_boxes, leaf_sums)
    starts = np.cumsum([len(level) for level in box_levels])
    links = [
        start + FAN * np.arange(len(level)) for start, level in zip(starts, box_levels, strict=True)
    ]
    links[-1] = ~(links[-1] - starts[-1])
    boxes = np.concatenate(box_levels)
    sums = _aligned((FAN * len(boxes), SUMS), np.float64)
    np.concatenate([level.reshape(-1, SUMS) for level in sum_levels], out=sums)
    low, high = boxes[0, :, :3].min(axis=0), boxes[0, :, 3:].max(axis=0)
    return Tree(
        centre=origin,
        leaves=leaves,
        nodes=_nodes(boxes),
        links=np.concatenate(links).astype(np.int32),
        sums=sums,
        roots=np.zeros(1, np.int32),
        boxes=0.5 * np.hstack([high + low, high - low])[None],
    )


@with_mesh(6)
def planted(
    mesh: Mesh, weight: float = 1.0, centre: tuple[float, float, float] | None = None
) -> Tree:
    """Return the tree of one closed mesh as ``plant`` does, kept with the mesh.

    Args:
        mesh: The body.
        weight: Share of the enclosed space that displaces [-].
        centre: Where the tree's own coordinates begin [m]; by default its middle.
    """
    return plant(mesh, weight, None if centre is None else np.array(centre))


def carried(mesh: Mesh, shift: Floats) -> Mesh:
    """Return the mesh moved, with its tree, whose triangles lie to each other as before.

    Args:
        mesh: The body.
        shift: How far it is moved, shape (3,) [m].
    """
    there, tree = moved(mesh, *map(float, shift)), planted(mesh, 1.0)
    handed(tree._replace(centre=tree.centre + shift), planted, there, 1.0)
    return there


def shifted(tree: Tree, shift: Floats) -> Tree:
    """Return the tree of bodies that were moved, its coordinates still from where they began.

    A corner's sums grow with the volume that a triangle encloses towards the centre, w + A·d/3.

    Args:
        tree: The bodies as they lay.
        shift: How far they are moved, d, shape (3,) [m].
    """
    leaves, nodes = (_joined([part]) for part in (tree.leaves, tree.nodes))
    leaves.reshape(-1, 10, LANES)[:, :9] += np.tile(shift, 3)[:, None]
    nodes.reshape(-1, 6, FAN)[:, :3] += shift[:, None].astype(np.float32)
    sums = _joined([tree.sums])
    w, area, first = sums[:, 0], sums[:, 1:4], sums[:, 4:7]
    across = sums[:, 7:].reshape(-1, 3, 3)  # A⊗s
    swept = area @ shift / 3
    first += 3 * np.outer(w + swept, shift) + np.einsum("j,ijk->ik", shift, across) / 3
    across += 3 * area[:, :, None] * shift
    w += swept
    boxes = tree.boxes + np.concatenate([shift, np.zeros(3)])
    return tree._replace(leaves=leaves, nodes=nodes, sums=sums, boxes=boxes)


def _joined(parts: list[NDArray[Number]]) -> NDArray[Number]:
    """Return the arrays one after another."""
    rows = sum(len(part) for part in parts)
    whole = _aligned((rows, *parts[0].shape[1:]), parts[0].dtype.type)
    return np.concatenate(parts, out=whole)


def forest(trees: list[Tree]) -> Tree:
    """Return several trees as one that is cut in one walk; their centres must agree.

    Raises:
        GeometryError: There is nothing to cut.
    """
    if not trees:
        raise GeometryError("nothing displaces", "boat", "Add a hull region or a cylinder.")
    starts = np.cumsum([0, *(len(tree.nodes) for tree in trees[:-1])], dtype=np.int32)
    firsts = np.cumsum([0, *(len(tree.leaves) for tree in trees[:-1])], dtype=np.int32)
    links = [
        np.where(tree.links >= 0, tree.links + start, tree.links - first)
        for tree, start, first in zip(trees, starts, firsts, strict=True)
    ]
    return Tree(
        centre=trees[0].centre,
        leaves=_joined([tree.leaves for tree in trees]),
        nodes=_joined([tree.nodes for tree in trees]),
        links=np.concatenate(links),
        sums=_joined([tree.sums for tree in trees]),
        roots=np.concatenate(
            [tree.roots + start for tree, start in zip(trees, starts, strict=True)]
        ),
        boxes=np.concatenate([tree.boxes for tree in trees]),
    )


@kernel
def span(tree: Tree, body: int, n: Floats) -> tuple[float, float]:
    """Return the heights along ``n``, from the tree's centre, between which a body's box lies [m].

    Args:
        tree: The bodies.
        body: Which of them, by its place in ``roots`` [-].
        n: Unit vector, shape (3,) [-].
    """
    box = tree.boxes[body]
    middle = n[0] * box[0] + n[1] * box[1] + n[2] * box[2]
    half = abs(n[0]) * box[3] + abs(n[1]) * box[4] + abs(n[2]) * box[5]
    return middle - half, middle + half


def corners(tree: Tree) -> Floats:
    """Return the corners of all triangles from the tree's centre, shape (m LANES, 3, 3) [m]."""
    blocks = tree.leaves.reshape(-1, 10, LANES)[:, :9].reshape(-1, 3, 3, LANES)
    return np.moveaxis(blocks, 3, 1).reshape(-1, 3, 3)


NOTHING = Tree(  # a tree without a body
    centre=np.zeros(3),
    leaves=np.zeros((1, LEAF)),
    nodes=np.zeros((1, BOX), np.float32),
    links=np.zeros(1, np.int32),
    sums=np.zeros((FAN, SUMS)),
    roots=np.zeros(0, np.int32),
    boxes=np.zeros((0, 6)),
)
