"""How far clicks lie from the water's edge on the hull, as the camera sees it."""

import numpy as np
from numpy.typing import NDArray

from trimdive.geometry.lines import Floats
from trimdive.trials.photographs.camera import Frame, seen, stands
from trimdive.trials.photographs.side import Side

NO_LENGTH = 1e-12  # squared, of a piece of the edge that has none, in pixels [-]


def visible(outline: Floats, camera_at: Floats) -> NDArray[np.bool_]:
    """Return which pieces of the water's edge face the camera, shape (n,).

    Args:
        outline: Anticlockwise and closed, shape (n, 3) [m].
        camera_at: Where the camera stands, shape (3,) [m].
    """
    step = np.roll(outline, -1, axis=0) - outline
    to_camera = camera_at - outline - step / 2.0
    return step[:, 1] * to_camera[:, 0] - step[:, 0] * to_camera[:, 1] > 0.0


def nearest_pieces(
    frame: Frame, camera: Floats, outline: Floats, clicks: Floats
) -> NDArray[np.int64]:
    """Return which piece of the water's edge that is seen lies nearest to each click, shape (n,).

    Args:
        frame: The picture.
        camera: Figures of the camera, shape (10,) [-].
        outline: The water's edge, anticlockwise and closed, shape (k, 3) [m].
        clicks: In pixels, shape (n, 2) [-].
    """
    faces = np.flatnonzero(visible(outline, stands(frame, camera)))
    if not len(faces):
        return np.zeros(len(clicks), dtype=np.int64)
    start = seen(frame, camera, outline)
    step = (np.roll(start, -1, axis=0) - start)[faces]
    out = clicks[:, None, :] - start[faces]
    return faces[_apart(out, step)[0].argmin(axis=1)]


def _apart(out: Floats, step: Floats) -> tuple[Floats, Floats]:
    """Return how far points lie from pieces of line, and to which side, shapes (n, k) [-].

    Args:
        out: From the start of each piece to each point, shape (n, k, 2) [-].
        step: From its start to its end, shape (k, 2) or (n, k, 2) [-].
    """
    square = np.maximum((step**2).sum(axis=-1), NO_LENGTH)
    share = np.clip((out * step).sum(axis=-1) / square, 0.0, 1.0)
    off = out - share[..., None] * step
    turn = step[..., 0] * out[..., 1] - step[..., 1] * out[..., 0]
    return np.hypot(off[..., 0], off[..., 1]), turn


def off_edge(
    frame: Frame, camera: Floats, outline: Floats, clicks: Floats, pieces: NDArray[np.int64]
) -> Floats:
    """Return how far clicks lie from pieces of the water's edge, to either side, shape (n,) [-].

    Args:
        frame: The picture.
        camera: Figures of the camera, shape (10,) [-].
        outline: The water's edge, anticlockwise and closed, shape (k, 3) [m].
        clicks: In pixels, shape (n, 2) [-].
        pieces: The piece of the edge that lies nearest to each, shape (n,) [-].
    """
    ends = np.stack([outline[pieces], outline[(pieces + 1) % len(outline)]], axis=1)
    both = seen(frame, camera, ends.reshape(-1, 3)).reshape(-1, 2, 2)
    far, turn = _apart(clicks - both[:, 0], both[:, 1] - both[:, 0])
    return np.copysign(far, turn)


def drawn_edge(frame: Frame, camera: Floats, side: Side, plane: Floats) -> Floats:
    """Return the water's edge that the camera sees, from end to end, in pixels, shape (n, 2) [-].

    Args:
        frame: The picture.
        camera: Figures of the camera, shape (10,) [-].
        side: The hull.
        plane: The water: its height amidships [m], its slopes forward and to port, shape (3,).
    """
    outline = side.outline(plane)
    apart = np.linalg.norm(np.roll(outline, -1, axis=0) - outline, axis=1) > 0.0
    outline = outline[apart]
    if len(outline) < 3:
        return np.zeros((0, 2))
    faces = visible(outline, stands(frame, camera))
    first = int(np.argmax(faces & ~np.roll(faces, 1))) if not faces.all() else 0
    shown = np.roll(faces, -first)
    run = int(np.argmin(shown)) if not shown.all() else len(shown)
    points = np.roll(outline, -first, axis=0)[: run + 1]
    return seen(frame, camera, points)
