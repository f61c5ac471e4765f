"""The three pockets of a kit: fore, amidships, aft; lead low, foam just under the waterline.

Amidships is her centre of gravity along her without tank water, or the nearest free room to it:
there a change of water is made up without tipping her. Fore and aft lie as far out as there is free
room for lead on the keel and foam under the waterline.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import product

import numpy as np
from numpy.typing import NDArray

from trimdive.boatfile.ref import ref
from trimdive.errors import GeometryError
from trimdive.geometry.clashes.scene import Scene
from trimdive.geometry.clashes.shapes import Shape, Triple
from trimdive.geometry.clashes.solids import Kind, Solid
from trimdive.geometry.lines.mesh import Floats
from trimdive.geometry.solids.build import Body
from trimdive.geometry.solids.hull import Hull
from trimdive.geometry.solids.inside import is_inside

NAMES = ("fore", "amidships", "aft")
INSET = 0.12  # of her length from either end: farther out none is looked for [-]
LOOK = 0.25  # of her length inwards of that: so far it is looked for [-]
NEARBY = 0.10  # of her length to either side of her centre of gravity: so far amidships goes [-]
STEP = 0.005  # places are told in steps of this [m]
BELOW = 0.005  # foam has its upper side so far under the waterline [m]
OVER_SKIN = 0.004  # lead lies so far over the inside of the skin [m]
LEAD_ROOMS = ((0.040, 0.030, 0.010), (0.030, 0.015, 0.006))  # looked for, for lead [m]
FOAM_ROOMS = (0.030, 0.016, 0.010)  # looked for, for foam, to all sides [m]
DEEP = 0.4  # of the way from keel to waterline: no foam has its underside lower [-]
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
    scene: Scene  # everything aboard that takes up room

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
            if ref(body.path).table == "region":
                inside[inside] = ~is_inside(body.mesh, points[inside])
        inside = inside.reshape(x.shape)
        return np.where(inside.any(axis=1), heights[np.argmax(inside, axis=1)], np.nan)

    def first_clear(
        self, kind: Kind, tries: Sequence[Sequence[Triple]], size: Triple
    ) -> int | None:
        """Return the first of some places at which a piece lies in the hull, clear of all aboard.

        Args:
            kind: lead or foam.
            tries: For each place the middle of its box, or of both halves [m].
            size: Length, breadth and height of a box [m].
        """
        likely = self._likely(tries, size)
        for k, middles in enumerate(tries):
            if likely[k] and self.scene.is_clear(
                [loose("piece", kind, at, size) for at in middles]
            ):
                return k
        return None

    def _are_free(self, points: Floats) -> NDArray[np.bool_]:
        """Return which points, shape (n, 3) [m], lie in the hull and out of all that displaces."""
        free = is_inside(self.hull.envelope, points)
        for body in self.bodies:
            low, high = body.mesh.bounds
            near = free & ((points >= low) & (points <= high)).all(axis=1)
            if near.any():
                free[near] = ~is_inside(body.mesh, points[near])
        return free

    def _likely(self, tries: Sequence[Sequence[Triple]], size: Triple) -> list[bool]:
        """Return at which places all corners lie in the hull and out of all that displaces."""
        corners = np.array([*product((-0.5, 0.5), repeat=3)]) * np.array(size)
        middles = np.array([at for some in tries for at in some])
        clear = self._are_free(middles)
        points = (middles[clear][:, None, :] + corners).reshape(-1, 3)
        clear[clear] = self._are_free(points).reshape(-1, len(corners)).all(axis=1)
        ends = np.cumsum([len(some) for some in tries])
        return [
            bool(clear[end - len(some) : end].all()) for some, end in zip(tries, ends, strict=True)
        ]


def loose(name: str, kind: Kind, middle: Triple, size: Triple) -> Solid:
    """Return a loose piece in the wet as what takes up room.

    Args:
        name: Of the piece.
        kind: lead or foam.
        middle: Of its box [m].
        size: Length, breadth and height [m].
    """
    return Solid(
        name=name, path=f"kit {name}", kind=kind, home="",
        shape=Shape(form="box", place=middle, size=size), claims=True, is_point=False,
        is_outline=False, through=False, mass=0.0,
    )  # fmt: skip


def pockets_at(space: Space, name: str, xs: Floats) -> Iterator[Pocket]:
    """Yield what a pocket could be, at one place after another.

    Args:
        space: The inside of the hull.
        name: Of the pocket.
        xs: Their middles, shape (n,) [m].
    """
    bottoms = space.bottoms(xs)
    for x, bottom in zip(xs, bottoms, strict=True):
        least = LEAD_ROOMS[0][2] + FOAM_ROOMS[0]
        if space.water(float(x)) - BELOW > bottom + OVER_SKIN + least:
            yield _pocket(space, name, float(x), float(bottom))


def _pocket(space: Space, name: str, x: float, bottom: float) -> Pocket:
    """Return the pocket at one place, lead as low and foam as near the middle as is free."""
    water, lowest = space.water(x), bottom + OVER_SKIN
    lead = _lead(space, x, lowest, water)
    foam = _foam(space, x, bottom, water)
    top, y = foam or (water - BELOW, 0.0)
    return Pocket(
        name=name,
        x=x,
        lead_z=lowest if lead is None else lead,
        foam_z=top,
        foam_y=y,
        lead_is_free=lead is not None,
        foam_is_free=foam is not None,
    )


def _lead(space: Space, x: float, lowest: float, water: float) -> float | None:
    """Return the lowest height at which lead lies clear [m]; None: at none that is low."""
    zs = [float(z) for z in np.arange(lowest, lowest + (water - lowest) * HIGHEST, LIFT)]
    for size in LEAD_ROOMS:
        found = space.first_clear("lead", [[(x, 0.0, z + size[2] / 2)] for z in zs], size)
        if found is not None:
            return zs[found]
    return None


def _foam(space: Space, x: float, bottom: float, water: float) -> tuple[float, float] | None:
    """Return upper side of foam that lies clear, and how far off the middle, halved [m]."""
    beam = float(space.hull.envelope.bounds[1, 1])
    for side in FOAM_ROOMS:
        ys = [float(y) for y in np.arange(0.0, beam, LIFT) if y == 0 or y > side / 2]
        for top in np.arange(water - BELOW, bottom + side + DEEP * (water - bottom), -2 * LIFT):
            z = float(top) - side / 2  # halves do not meet in the middle
            tries = [[(x, way * y, z) for way in ((1, -1) if y else (1,))] for y in ys]
            found = space.first_clear("foam", tries, (side, side, side))
            if found is not None:
                return float(top), ys[found]
    return None


def pockets(space: Space, gravity: float, named: dict[str, float]) -> tuple[Pocket, ...]:
    """Return fore, amidships and aft.

    Args:
        space: The inside of the hull.
        gravity: Her centre of gravity without tank water, along her [m].
        named: Places that the builder names, by pocket [m].

    Raises:
        GeometryError: There is no room at a place named, or nowhere.
    """
    return tuple(_best(space, name, gravity, named.get(name)) for name in NAMES)


def _best(space: Space, name: str, gravity: float, named: float | None) -> Pocket:
    """Return the first pocket with free room for both, or for lead, or for foam, or with any.

    Raises:
        GeometryError: There is none.
    """
    xs = np.array([named]) if named is not None else np.array(list(_places(space, name, gravity)))
    found: list[Pocket] = []
    for one in pockets_at(space, name, xs):
        if one.lead_is_free and one.foam_is_free:
            return one
        found.append(one)
    if not found:
        mend = f"Name a place {'farther from the end' if named is not None else 'for it'}."
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
