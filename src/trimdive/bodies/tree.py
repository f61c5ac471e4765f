"""Orders the triangles of bodies into a tree, so that a plane need look only at those it crosses.

Each node carries a bounding box and the sums that count its triangles at once when all lie
below: for a triangle abc, with w = a·(b×c)/6, A = (b-a)×(c-a)/2 and s = a+b+c, the sums of
w, A, w s and A⊗s. Triangles are halved again and again at the median of their longest axis;
nodes stand level by level, the two halves of a node side by side.
"""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from trimdive.bodies.kernel import kernel
from trimdive.errors import GeometryError
from trimdive.lines.mesh import Floats, Ints, Mesh

Singles = NDArray[np.float32]
Links = NDArray[np.int32]

LEAF_SIZE = 8  # most triangles in a leaf [-]; measured, 4 to 8 are alike
CHILD, LEAF = 6, 7  # columns of a node's links
COUNT_BASE = 16  # a leaf's first triangle and its count share a number to this base


class Tree(NamedTuple):
    """Closed bodies ready to be cut; all coordinates are measured from ``centre``."""

    centre: Floats  # shape (3,) [m]
    triangles: Floats  # corners in tree order, then the body's weight, shape (m, 10) [m, -]
    nodes: Singles  # box: centre and half extents, a hair too large; two links, shape (k, 8) [m]
    links: Links  # the same memory read as whole numbers, shape (k, 8) [-]
    sums: Floats  # w, A, w s, A⊗s, already weighted, shape (k, 16) [m³, m², m⁴, m³]
    roots: Links  # nodes at which a walk begins, shape (bodies,) [-]


@kernel
def _halve(order: Ints, middles: Floats, start: int, stop: int, axis: int) -> int:
    """Partition ``order[start:stop]`` about its median along ``axis``; return the middle."""
    middle = (start + stop) // 2
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
    return middle


@kernel
def _longest_axis(order: Ints, middles: Floats, start: int, stop: int) -> int:
    """Return the axis along which the middles of these triangles spread most."""
    best, axis = -1.0, 0
    for k in range(3):
        low = high = middles[order[start], k]
        for i in range(start, stop):
            value = middles[order[i], k]
            low, high = min(low, value), max(high, value)
        if high - low > best:
            best, axis = high - low, k
    return axis


@kernel
def _plant(order: Ints, middles: Floats, leaf_size: int) -> Ints:
    """Sort ``order`` in place; return each node's first child (0: leaf), start and stop."""
    nodes = np.zeros((2 * len(order) + 1, 3), np.int64)
    nodes[0, 2] = len(order)
    node, count = 0, 1
    while node < count:
        start, stop = nodes[node, 1], nodes[node, 2]
        if stop - start > leaf_size:
            axis = _longest_axis(order, middles, start, stop)
            middle = _halve(order, middles, start, stop, axis)
            nodes[node, 0] = count
            nodes[count, 1], nodes[count, 2] = start, middle
            nodes[count + 1, 1], nodes[count + 1, 2] = middle, stop
            count += 2
        node += 1
    return nodes[:count].copy()


@kernel
def _sum_leaf(triangles: Floats, start: int, stop: int, box: Floats, sums: Floats) -> None:
    """Write the box (low, high) and the sums of one leaf."""
    box[:3], box[3:] = np.inf, -np.inf
    for i in range(start, stop):
        t = triangles[i]
        for corner in range(0, 9, 3):
            for k in range(3):
                box[k] = min(box[k], t[corner + k])
                box[3 + k] = max(box[3 + k], t[corner + k])
        a, b, c = t[0:3], t[3:6], t[6:9]
        w = 0.0
        area = np.empty(3)
        for k in range(3):
            m, n = (k + 1) % 3, (k + 2) % 3
            w += a[k] * (b[m] * c[n] - b[n] * c[m]) / 6.0
            area[k] = 0.5 * ((b[m] - a[m]) * (c[n] - a[n]) - (b[n] - a[n]) * (c[m] - a[m]))
        sums[0] += w
        for k in range(3):
            s = a[k] + b[k] + c[k]
            sums[1 + k] += area[k]
            sums[4 + k] += w * s
            for m in range(3):
                sums[7 + 3 * m + k] += area[m] * s


@kernel
def _gather(triangles: Floats, spans: Ints) -> tuple[Floats, Floats]:
    """Return boxes (low, high) and sums of every node, leaves first."""
    count = len(spans)
    boxes = np.empty((count, 6))
    sums = np.zeros((count, 16))
    for i in range(count - 1, -1, -1):
        left = spans[i, 0]
        if not left:
            _sum_leaf(triangles, spans[i, 1], spans[i, 2], boxes[i], sums[i])
            continue
        for k in range(3):
            boxes[i, k] = min(boxes[left, k], boxes[left + 1, k])
            boxes[i, 3 + k] = max(boxes[left, 3 + k], boxes[left + 1, 3 + k])
        for k in range(16):
            sums[i, k] = sums[left, k] + sums[left + 1, k]
    return boxes, sums


def _nodes(boxes: Floats, spans: Ints) -> Singles:
    """Return the packed nodes: one short row each, so that a visit costs one look at memory.

    The box is kept in single precision, rounded so that nothing sticks out of it. Column
    CHILD holds the first of two children, column LEAF the first triangle times COUNT_BASE plus
    how many there are; each is 0 where it does not apply.
    """
    low, high = boxes[:, :3], boxes[:, 3:]
    centre = (0.5 * (low + high)).astype(np.float32)
    half = np.maximum(high - centre, centre - low).astype(np.float32)
    nodes = np.empty((len(boxes), 8), np.float32)
    nodes[:, :3], nodes[:, 3:6] = centre, np.nextafter(half, np.float32(np.inf))
    links = nodes.view(np.int32)
    child, start, stop = spans.T
    links[:, CHILD] = child
    links[:, LEAF] = np.where(child, 0, start * COUNT_BASE + stop - start)
    return nodes


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
    corners = (mesh.vertices - origin)[mesh.triangles]
    middles = np.ascontiguousarray(corners.sum(axis=1))
    order = np.arange(len(corners))
    spans = _plant(order, middles, LEAF_SIZE)
    triangles = np.full((len(corners), 10), weight)
    triangles[:, :9] = corners.reshape(-1, 9)[order]
    boxes, sums = _gather(triangles, spans)
    return Tree(
        centre=origin,
        triangles=triangles,
        nodes=(nodes := _nodes(boxes, spans)),
        links=nodes.view(np.int32),
        sums=sums * weight,
        roots=np.zeros(1, np.int32),
    )


def forest(trees: list[Tree]) -> Tree:
    """Return several trees as one that is cut in one walk; their centres must agree.

    Raises:
        GeometryError: There is nothing to cut.
    """
    if not trees:
        raise GeometryError("nothing displaces", "boat", "Add a hull region or a cylinder.")
    starts = np.cumsum([0, *(len(tree.nodes) for tree in trees[:-1])])
    firsts = np.cumsum([0, *(len(tree.triangles) for tree in trees[:-1])])
    nodes = np.concatenate([tree.nodes for tree in trees])
    links = nodes.view(np.int32)
    for tree, start, first in zip(trees, starts, firsts, strict=True):
        own = links[start : start + len(tree.nodes)]
        own[own[:, CHILD] > 0, CHILD] += start
        own[own[:, LEAF] > 0, LEAF] += first * COUNT_BASE
    return Tree(
        centre=trees[0].centre,
        triangles=np.concatenate([tree.triangles for tree in trees]),
        nodes=nodes,
        links=links,
        sums=np.concatenate([tree.sums for tree in trees]),
        roots=np.concatenate(
            [tree.roots + np.int32(start) for tree, start in zip(trees, starts, strict=True)]
        ),
    )
