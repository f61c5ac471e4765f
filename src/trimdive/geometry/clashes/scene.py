"""A boat's solids and skins together: what shares room as she is, and whether it would if moved."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property

import numpy as np

from trimdive.boatfile import Boat
from trimdive.geometry.clashes.found import (
    SLACK,
    Clash,
    Sort,
    clashes,
    edge_points,
    homeless,
    in_cylinders,
    may_meet,
    share_room,
    stands_in_skin,
    touches,
)
from trimdive.geometry.clashes.shapes import Shape, Triple, meets
from trimdive.geometry.clashes.solids import Aboard, Solid, aboard
from trimdive.geometry.lines.mesh import Mesh
from trimdive.geometry.solids.hull import Hull
from trimdive.geometry.solids.inside import is_inside
from trimdive.geometry.solids.surfaces import Files
from trimdive.records import short

ROUNDING = 1e-6  # sums of places are no nearer than this [m]
GROWN = 1e-7  # shared room that grows by less has not grown [m³]


@dataclass(frozen=True, eq=False)
class Scene:
    """Everything aboard that takes up room, and the skins around it."""

    aboard: Aboard
    skins: tuple[tuple[str, str, Mesh], ...]  # name, path, body
    envelope: Mesh  # outside shape of the hull
    kept: dict[float, tuple[Clash, ...]] = field(default_factory=dict)  # clashes by slack [m]

    __repr__ = short

    def clashes(self, slack: float = SLACK) -> tuple[Clash, ...]:
        """Return everything that shares room, looked for once."""
        if slack not in self.kept:
            self.kept[slack] = clashes(self.aboard, self.skins, slack)
        return self.kept[slack]

    @cached_property
    def by_path(self) -> dict[str, tuple[Solid, ...]]:
        """Return the solids of each piece of the boat file, both of a pair."""
        found: dict[str, tuple[Solid, ...]] = {}
        for solid in self.aboard.solids:
            found[solid.path] = (*found.get(solid.path, ()), solid)
        return found

    def is_clear(self, moved: Sequence[Solid], besides: frozenset[str] = frozenset()) -> bool:
        """Return whether things would share no room there, or lie out of their cylinder.

        Args:
            moved: Things in the places to look at, both of a pair.
            besides: Paths of what counts as not there, besides the things themselves.
        """
        gone = besides | {solid.path for solid in moved}
        others = [solid for solid in self.aboard.solids if solid.path not in gone]
        others += moved
        if next(in_cylinders(moved, others, 0.0), None):
            return False
        for solid in moved:
            bore = self.aboard.bore_of(solid.home) if solid.home else None
            if bore and homeless(solid, bore, ROUNDING):
                return False
            for other in others:
                if other is solid or not meets(solid.shape, other.shape):
                    continue
                if share_room(solid, other) and not touches(solid.shape, other.shape, 0.0):
                    return False
            if self._in_a_way(solid, gone):
                return False
        return all(self._in_hull(solid) for solid in moved)

    def _in_a_way(self, solid: Solid, gone: frozenset[str] | set[str]) -> bool:
        """Return whether a thing lies in the space that another sweeps as it moves."""
        return any(
            one.path not in gone
            and may_meet(one, solid)
            and meets(space, solid.shape)
            and not touches(space, solid.shape, 0.0)
            for one, space in self.aboard.moving
        )

    def _in_hull(self, solid: Solid) -> bool:
        """Return whether a thing lies clear of the skins, and not out of the hull."""
        if not solid.claims or solid.through or solid.home or not self.skins:
            return True
        if any(stands_in_skin(solid.shape, mesh) for _, _, mesh in self.skins):
            return False
        if solid.kind == "part" and not is_inside(self.envelope, np.array([solid.shape.place]))[0]:
            return True  # what stands on deck may stand there
        return bool(is_inside(self.envelope, edge_points(solid.shape)).all())


def scene(boat: Boat, built: Hull, files: Files) -> Scene:
    """Return a boat's solids and skins.

    Args:
        boat: A resolved boat.
        built: Her hull.
        files: Meshes beside the boat file.
    """
    skins = tuple(
        (skin.name, f"region[{i}]", skin.body)
        for i, (region, skin) in enumerate(zip(boat.regions, built.skins, strict=True), 1)
        if not region.sealed
    )
    return Scene(aboard=aboard(boat, files), skins=skins, envelope=built.envelope)


def placed_at(solids: Sequence[Solid], shift: Triple) -> list[Solid]:
    """Return things moved so far [m]; the starboard one of a pair the other way across."""
    return [
        replace(solid, shape=solid.shape.shifted(shift[0], shift[1] * (1, -1)[k], shift[2]))
        for k, solid in enumerate(solids)
    ]


def with_shape(solid: Solid, shape: Shape) -> Solid:
    """Return a thing with another shape or place."""
    return replace(solid, shape=shape)


def worse(before: Scene, after: Scene, slacks: Mapping[Sort, float]) -> tuple[Clash, ...]:
    """Return what shares more room after a change than before it, or only then.

    Things are told by their names, since paths count anew where something is taken out.

    Args:
        before: The boat as she is.
        after: The boat with the change.
        slacks: How far each sort of clash may reach [m].
    """
    found: list[Clash] = []
    for sort, slack in slacks.items():
        was = {(c.one.name, c.name): c for c in before.clashes(slack) if c.sort == sort}
        for clash in (c for c in after.clashes(slack) if c.sort == sort):
            old = was.get((clash.one.name, clash.name))
            if old is None or clash.volume > old.volume + GROWN or clash.reach > old.reach + slack:
                found.append(clash)
    return tuple(found)
