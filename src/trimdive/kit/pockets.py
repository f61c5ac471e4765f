"""The three pockets of a kit: fore, amidships, aft; lead low, foam just under the waterline.

Amidships is her centre of gravity along her without tank water, or the nearest free room to it:
there a change of water is made up without tipping her. Fore and aft lie as far out as there is free
room for lead on the keel and foam under the waterline.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product

import numpy as np
from numpy.typing import NDArray

from trimdive.bodies.build import Body
from trimdive.bodies.hull import Hull
from trimdive.bodies.inside import is_inside
from trimdive.errors import GeometryError
from trimdive.lines.mesh import Floats

NAMES = ("fore", "amidships", "aft")
INSET = 0.12  # of her length from either end: farther out none is looked for [-]
LOOK = 0.25  # of her length inwards of that: so far it is looked for [-]
NEARBY = 0.10  # of her length to either side of her centre of gravity: so far amidships goes [-]
STEP = 0.005  # places are told in steps of this [m]
BELOW = 0.005  # foam has its upper side so far under the waterline [m]
OVER_SKIN = 0.004  # lead lies so far over the inside of the skin [m]
LEAD_LONG, LEAD_BREADTH, LEAD_HEIGHT = 0.040, 0.030, 0.010  # of room looked for, for lead [m]
FOAM_SIZE = 0.030  # of the room looked for, for foam, to all sides [m]
LIFT = 0.005  # lead is looked for so much higher, foam so much farther out each time [m]
HIGHEST = 0.35  # of the way from keel to waterline: no lead goes higher [-]
FINE = 0.001  # of heights [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Pocket:
    """A place for loose pieces."""

    name: str
    x: float  # [m]
    lead_z: float  # underside of lead [m]
    foam_z: float  # upper side of foam [m]
    foam_y: float  # foam lies so far off the middle line, halved; 0 in one piece on it [m]
    lead_is_free: bool  # nothing lies there, as far as the boat file tells
    foam_is_free: bool  # the same for foam


@dataclass(frozen=True, slots=True, kw_only=True)
class Space:
    """The inside of the hull, and what lies in it."""

    hull: Hull
    bodies: tuple[Body, ...]
    waterline: tuple[Floats, float]  # the plane meant: n, and d [m]

    def water(self, x: float) -> float:
        """Return the height of the waterline meant over the keel line at a place [m].

        Args:
            x: The place [m].
        """
        n, d = self.waterline
        return float((d - n[0] * x) / n[2])

    def bottoms(self, xs: Floats) -> Floats:
        """Return the height of the inside of the hull on the middle line, shape (n,) [m].

        Not a number where there is none.

        Args:
            xs: The places, shape (n,) [m].
        """
        low, high = self.hull.envelope.bounds[:, 2]
        heights = np.arange(low, high, FINE)
        x, z = np.meshgrid(xs, heights, indexing="ij")
        points = np.stack([x.ravel(), np.zeros(x.size), z.ravel()], axis=1)
        inside = is_inside(self.hull.envelope, points)
        for body in self.bodies:
            if body.path.startswith("region"):
                inside[inside] = ~is_inside(body.mesh, points[inside])
        inside = inside.reshape(x.shape)
        return np.where(inside.any(axis=1), heights[np.argmax(inside, axis=1)], np.nan)

    def are_free(self, middles: Floats, size: Floats) -> NDArray[np.bool_]:
        """Return which boxes lie in the hull and clear of all that displaces, shape (n,).

        Args:
            middles: Of the boxes, shape (n, 3) [m].
            size: Length, breadth and height of each, shape (3,) [m].
        """
        corners = np.array([*product((-0.5, 0.5), repeat=3), (0.0, 0.0, 0.0)])
        points = (middles[:, None, :] + corners * size).reshape(-1, 3)
        free = is_inside(self.hull.envelope, points)
        for body in self.bodies:
            if free.any():
                free[free] = ~is_inside(body.mesh, points[free])
        return np.asarray(free.reshape(-1, len(corners)).all(axis=1))


def pockets_at(space: Space, name: str, xs: Floats) -> Iterator[Pocket]:
    """Yield what a pocket could be, at one place after another.

    Args:
        space: The inside of the hull.
        name: Of the pocket.
        xs: Their middles, shape (n,) [m].
    """
    bottoms = space.bottoms(xs)
    for x, bottom in zip(xs, bottoms, strict=True):
        if space.water(float(x)) - BELOW - FOAM_SIZE > bottom + OVER_SKIN + LEAD_HEIGHT:
            yield _pocket(space, name, float(x), float(bottom))


def _pocket(space: Space, name: str, x: float, bottom: float) -> Pocket:
    """Return the pocket at one place, lead as low and foam as near the middle as is free."""
    water, lowest = space.water(x), bottom + OVER_SKIN
    top = water - BELOW
    zs = np.arange(lowest, lowest + (water - bottom) * HIGHEST, LIFT)
    lead = _columns(x, np.zeros_like(zs), zs + LEAD_HEIGHT / 2)
    lead_free = space.are_free(lead, np.array([LEAD_LONG, LEAD_BREADTH, LEAD_HEIGHT]))
    ys = np.arange(0.0, float(space.hull.envelope.bounds[1, 1]), LIFT)
    size = np.array([FOAM_SIZE, FOAM_SIZE, FOAM_SIZE])
    foam_free = (ys == 0) | (ys > FOAM_SIZE / 2)  # halves do not meet in the middle
    for side in (1.0, -1.0):
        middles = _columns(x, side * ys, np.full_like(ys, top - FOAM_SIZE / 2))
        foam_free[foam_free] = space.are_free(middles[foam_free], size)
    return Pocket(
        name=name, x=x, foam_z=top,
        lead_z=float(zs[int(np.argmax(lead_free))]) if lead_free.any() else lowest,
        foam_y=float(ys[int(np.argmax(foam_free))]) if foam_free.any() else 0.0,
        lead_is_free=bool(lead_free.any()), foam_is_free=bool(foam_free.any()),
    )  # fmt: skip


def _columns(x: float, ys: Floats, zs: Floats) -> Floats:
    return np.stack([np.full_like(ys, x), ys, zs], axis=1)


def pockets(space: Space, gravity: float, told: dict[str, float]) -> tuple[Pocket, ...]:
    """Return fore, amidships and aft.

    Args:
        space: The inside of the hull.
        gravity: Her centre of gravity without tank water, along her [m].
        told: Places that the builder names, by pocket [m].

    Raises:
        GeometryError: There is no room at a place named, or nowhere.
    """
    return tuple(_best(space, name, gravity, told.get(name)) for name in NAMES)


def _best(space: Space, name: str, gravity: float, told: float | None) -> Pocket:
    """Return the first pocket with free room for both, or for lead, or for foam, or with any.

    Raises:
        GeometryError: There is none.
    """
    xs = np.array([told]) if told is not None else np.array(list(_places(space, name, gravity)))
    found: list[Pocket] = []
    for one in pockets_at(space, name, xs):
        if one.lead_is_free and one.foam_is_free:
            return one
        found.append(one)
    if not found:
        mend = f"Name a place {'farther from the end' if told is not None else 'for it'}."
        raise GeometryError("there is no room under the waterline", f"--{name}", mend)
    return max(found, key=lambda one: 2 * one.lead_is_free + one.foam_is_free)


def _places(space: Space, name: str, gravity: float) -> Iterator[float]:
    """Yield the places at which a pocket is looked for, the best first [m]."""
    aft, fore = (float(x) for x in space.hull.envelope.bounds[:, 0])
    length = fore - aft
    if name == "amidships":
        middle = round(gravity / STEP) * STEP
        yield middle
        for off in np.arange(0.01, NEARBY, 0.01) * length:
            yield from (round((middle + side * float(off)) / STEP) * STEP for side in (1, -1))
        return
    for inward in np.arange(INSET, INSET + LOOK, 0.02):
        x = fore - inward * length if name == "fore" else aft + inward * length
        yield round(float(x) / STEP) * STEP
