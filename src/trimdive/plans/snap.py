"""Draw a mark to the ink under it: to the middle of a line, its crossing, or the edge of an area.

Only ink that is there counts. Where nothing within reach stands out from the paper, or nothing has
an edge, there is no answer.

1. The nearest ink is looked for: what is at least half as dark as the darkest within reach.
2. How the line runs there is the direction in which shades change least (structure tensor).
3. Across the line, shades are read between the pixels; its middle is the centroid of its ink, from
   paper to paper. Of an area that goes on, the half-dark edge is taken.
4. The mark is drawn square to the line, not along it, until it no longer moves.
5. Where shades change in all directions, lines meet or cross: each is read a little way off, and
   the point nearest to the middles of all of them is taken. Of a spot its middle is: the point to
   which all its edges lie most nearly square.

Source:
    Förstner and Gülch, A fast operator for detection and precise location of distinct points,
    corners and centres of circular features, 1987; from memory. Shares: common practice, no source.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

import numpy as np
from scipy.ndimage import gaussian_filter, map_coordinates, sobel

from trimdive.geometry.lines import Floats
from trimdive.plans.picture import Grey
from trimdive.plans.sheet import Mark

FAINT = 24.0  # shades by which ink is darker than the paper about it, at least [-]
NOISE = 4.0  # and so many times the spread of the paper's own shades [-]
PAPER = 80.0  # of the shades within reach, so many in a hundred are no lighter than paper [-]
SOFT = 0.8  # how far shades are smoothed before their direction is read, in pixels [-]
ABOUT = 2.5  # how far about a mark the direction of a line is read, in pixels [-]
CROSSING = 0.25  # less coherent than this, lines cross [-]
PALE = 0.03  # ink no darker than this share of the line's is left out of its centroid [-]
BESIDE = (-1.5, -0.5, 0.5, 1.5)  # where along a line it is read and the mean taken, in pixels [-]
RING, FURTHER = 7.0, 12.0  # how far off a crossing its lines are read, in pixels [-]
MEET = 0.05  # least of the squared sine between lines that meet, about [-]
STEP = 0.125  # between shades read across a line, in pixels [-]
TURNS = 8  # how often a mark is drawn on at most [-]
AGAIN = 3  # how often the middle of a spot is looked for from the last [-]
STILL = 0.005  # less than this is no move, in pixels [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Snap:
    """Where the ink is."""

    at: Mark
    kind: Literal["line", "edge", "crossing"]
    way: tuple[float, float]  # along the line, of length 1 [-]
    width: float  # of the line, 0 for an edge or a crossing, in pixels [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Window:
    """The ink about a mark."""

    ink: Floats  # darker than paper by so many shades, shape (h, w) [-]
    corner: tuple[int, int]  # which pixel of the picture its first one is, right and down
    dark: float  # the darkest within reach [-]
    rough: float  # spread of the paper's own shades [-]

    def read(self, places: Floats) -> Floats:
        """Return the ink at places in the picture, between the pixels too, shape (n,) [-]."""
        own = (places - self.corner - 0.5)[:, ::-1].T
        return map_coordinates(self.ink, own, order=1, mode="nearest")


def snapped(grey: Grey, mark: Mark, radius: float = 8.0) -> Snap | None:
    """Return where the ink under a mark is, or None where there is none.

    Args:
        grey: Shades of the picture, shape (h, w).
        mark: Where it was marked.
        radius: How far off ink may be, in pixels [-].
    """
    window = _window(grey, mark, radius)
    if window is None:
        return None
    start = _nearest(window, np.array(mark), radius)
    found = _followed(window, np.array(mark), start, radius)
    if found is None or np.hypot(*(np.array(found.at) - mark)) > radius:
        return None
    return found


def crossing(grey: Grey, mark: Mark, radius: float = 12.0) -> Snap | None:
    """Return where lines meet or cross near a mark, as at a frame's corner, or None where none do.

    Args:
        grey: Shades of the picture, shape (h, w).
        mark: Where it was marked.
        radius: How far off they may cross, in pixels [-].
    """
    window = _window(grey, mark, radius)
    if window is None:
        return None
    slopes = _slopes(window)
    about = [gaussian_filter(slopes[a] * slopes[b], ABOUT) for a, b in ((0, 0), (0, 1), (1, 1))]
    half, skew = (about[0] + about[2]) / 2.0, np.hypot((about[0] - about[2]) / 2.0, about[1])
    both = np.where(
        _distance(window.ink, window.corner, np.array(mark)) <= radius, half - skew, 0.0
    )
    down, right = np.unravel_index(int(np.argmax(both)), both.shape)
    if both[down, right] <= CROSSING * half[down, right]:
        return None
    place = np.array([right + window.corner[0] + 0.5, down + window.corner[1] + 0.5])
    found = _crossing(window, slopes, place)
    return found if np.hypot(*(np.array(found.at) - mark)) <= radius else None


def _window(grey: Grey, mark: Mark, radius: float) -> _Window | None:
    """Return the ink about a mark, or None where nothing stands out from the paper."""
    height, width = grey.shape
    x, y = mark
    if not (np.isfinite([x, y]).all() and 0.0 <= x < width and 0.0 <= y < height):
        return None
    reach = int(np.ceil(2.0 * radius + FURTHER))
    left, top = max(int(x) - reach, 0), max(int(y) - reach, 0)
    shades = grey[top : int(y) + reach + 1, left : int(x) + reach + 1].astype(np.float64)
    paper = float(np.percentile(shades, PAPER))
    spread = 1.48 * float(np.median(np.abs(shades[shades >= paper - FAINT] - paper)))
    ink = np.maximum(paper - shades, 0.0)
    near = _distance(ink, (left, top), np.array(mark)) <= radius
    dark = float(gaussian_filter(ink, 0.5)[near].max(initial=0.0))
    if dark < max(FAINT, NOISE * spread):
        return None
    return _Window(ink=ink, corner=(left, top), dark=dark, rough=spread)


def _distance(ink: Floats, corner: tuple[int, int], mark: Floats) -> Floats:
    """Return how far the pixels of a window lie from a mark, shape (h, w) [-]."""
    down, right = np.indices(ink.shape) + 0.5
    return np.hypot(right + corner[0] - mark[0], down + corner[1] - mark[1])


def _nearest(window: _Window, mark: Floats, radius: float) -> Floats:
    """Return the middle of the nearest pixel of ink, shape (2,) [-]."""
    soft = gaussian_filter(window.ink, 0.5)
    far = _distance(window.ink, window.corner, mark)
    far[(soft < 0.5 * window.dark) | (far > radius)] = np.inf
    down, right = np.unravel_index(int(np.argmin(far)), far.shape)
    return np.array([right + window.corner[0] + 0.5, down + window.corner[1] + 0.5])


def _followed(window: _Window, mark: Floats, start: Floats, radius: float) -> Snap | None:
    """Return the ink to which a mark is drawn from the nearest pixel of it."""
    slopes = _slopes(window)
    place, along, width = start, np.zeros(2), 0.0
    for _ in range(TURNS):
        tensor, _ = _tensor(window, slopes, place)
        (low, high), ways = np.linalg.eigh(tensor)
        if high <= 0.0:
            return None
        along, across = ways[:, 0], ways[:, 1]
        if (high - low) / (high + low) < CROSSING:
            return _crossing(window, slopes, place)
        found = _across(window, place, across, radius)
        if found is None:
            return None
        shift, width = found
        moved = place + shift * across
        moved = moved + along * float((mark - moved) @ along)
        still = np.hypot(*(moved - place)) < STILL
        place = moved
        if still:
            break
    kind: Literal["line", "edge"] = "line" if width else "edge"
    at, way = (float(place[0]), float(place[1])), (float(along[0]), float(along[1]))
    return Snap(at=at, kind=kind, way=way, width=width)


def _slopes(window: _Window) -> Floats:
    """Return how the ink grows to the right and down, shape (2, h, w) [-]."""
    soft = gaussian_filter(window.ink, SOFT)
    return np.stack([sobel(soft, axis=1), sobel(soft, axis=0)])


def _tensor(window: _Window, slopes: Floats, place: Floats) -> tuple[Floats, Floats]:
    """Return the structure tensor at a place, shape (2, 2), and its weights, shape (h, w) [-]."""
    far = _distance(window.ink, window.corner, place)
    weights = np.exp(-0.5 * (far / ABOUT) ** 2)
    tensor: Floats = np.einsum("hw,ahw,bhw->ab", weights, slopes, slopes)
    return tensor, weights


def _across(
    window: _Window, place: Floats, across: Floats, radius: float
) -> tuple[float, float] | None:
    """Return how far off the middle of a line lies, and its width: 0 where an area goes on."""
    t = np.arange(-radius, radius + STEP / 2.0, STEP)
    along = np.array([-across[1], across[0]])
    shades = np.mean([window.read(place + t[:, None] * across + s * along) for s in BESIDE], axis=0)
    at = int(np.argmin(np.where(shades >= 0.5 * window.dark, np.abs(t), np.inf)))
    if shades[at] < 0.5 * window.dark:
        return None
    half = 0.5 * _darkest(shades, at)
    light = shades < half
    before, after = np.flatnonzero(light[:at]), at + 1 + np.flatnonzero(light[at + 1 :])
    if len(before) and len(after):
        inner = int(before[-1]) + 1, int(after[0])
        ends = [_half_dark(t, shades, k - 1, half) for k in inner]
        run = _to_paper(shades, inner, max(2.0 * PALE * half, window.rough))
        weight = shades[run]
        return float(t[run] @ weight / weight.sum()), ends[1] - ends[0]
    if len(before):
        return _half_dark(t, shades, int(before[-1]), half), 0.0
    if len(after):
        return _half_dark(t, shades, int(after[0]) - 1, half), 0.0
    return None


def _to_paper(shades: Floats, inner: tuple[int, int], pale: float) -> slice:
    """Return a run that goes on at both ends until it is pale, or grows dark again."""
    low, high = inner
    while low > 0 and pale < shades[low - 1] <= shades[low]:
        low -= 1
    while high < len(shades) and pale < shades[high] <= shades[high - 1]:
        high += 1
    return slice(low, high)


def _darkest(shades: Floats, at: int) -> float:
    """Return the darkest of the ink that hangs together with one place of it [-]."""
    light = shades < 0.5 * shades[at]
    before, after = np.flatnonzero(light[:at]), np.flatnonzero(light[at + 1 :])
    low = int(before[-1]) + 1 if len(before) else 0
    high = at + 1 + int(after[0]) if len(after) else len(shades)
    return float(shades[low:high].max())


def _half_dark(t: Floats, shades: Floats, k: int, half: float) -> float:
    """Return where shades pass the half between one place and the next [-]."""
    rise = shades[k + 1] - shades[k]
    return float(t[k] + (half - shades[k]) / rise * (t[k + 1] - t[k]))


def _crossing(window: _Window, slopes: Floats, place: Floats) -> Snap:
    """Return where the middles of the lines that meet here cross, or the middle of a spot."""
    down, right = np.indices(window.ink.shape) + 0.5
    places = np.stack([right + window.corner[0], down + window.corner[1]])
    middle = place
    for _ in range(AGAIN):
        tensor, weights = _tensor(window, slopes, middle)
        pull = np.einsum("hw,ahw,bhw,bhw->a", weights, slopes, slopes, places)
        middle = np.linalg.solve(tensor, pull)
    normals, pull = np.zeros((2, 2)), np.zeros(2)
    for place, across in _arms(window, middle):
        normals += np.outer(across, across)
        pull += across * float(across @ place)
    least, most = np.linalg.eigvalsh(normals)
    if least > MEET * max(float(most), STILL):
        middle = np.linalg.solve(normals, pull)
    x, y = middle.tolist()
    return Snap(at=(x, y), kind="crossing", way=(1.0, 0.0), width=0.0)


def _arms(window: _Window, middle: Floats) -> Iterator[tuple[Floats, Floats]]:
    """Yield a place on the middle of each line that leaves a crossing, and the way across it."""
    turn = np.arange(0.0, 2.0 * np.pi, 1.0 / (4.0 * RING))
    ways = np.stack([np.cos(turn), np.sin(turn)], axis=1)
    dark = window.read(middle + RING * ways) >= 0.5 * window.dark
    if dark.all() or not dark.any():
        return
    first = int(np.argmin(dark))
    dark, ways = np.roll(dark, -first), np.roll(ways, -first, axis=0)
    arm = np.cumsum(np.diff(dark.astype(np.int64), prepend=0) > 0)
    for number in range(1, int(arm[-1]) + 1):
        way: Floats = ways[dark & (arm == number)].mean(axis=0)
        way /= np.hypot(*way)
        across = np.array([-way[1], way[0]])
        found = [_across(window, middle + far * way, across, RING) for far in (RING, FURTHER)]
        if all(one is not None and one[1] > 0.0 for one in found):
            near, far = (one[0] for one in found if one is not None)
            normal = across - way * (far - near) / (FURTHER - RING)
            yield middle + RING * way + near * across, normal / np.hypot(*normal)
