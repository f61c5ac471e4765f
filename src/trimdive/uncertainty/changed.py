"""The boat as she would be with some things off: the way to the full solver."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from trimdive.geometry.lines.mesh import Floats, Mesh
from trimdive.geometry.solids.cut import cut
from trimdive.geometry.solids.tree import LANES, Tree, carried, forest, planted, shifted
from trimdive.hydrostatics.equilibrium import Floater
from trimdive.hydrostatics.equilibrium.problem import Tanks
from trimdive.uncertainty.things import Source, Thing

SAME = 1e-15  # less than this is no change [m, -]


def _weighted(tree: Tree, share: float) -> Tree:
    """Return a tree of which only a share displaces."""
    leaves = tree.leaves.copy()
    leaves[:, 9 * LANES :] *= share
    return tree._replace(leaves=leaves, sums=tree.sums * share)


def totals(
    found: Sequence[Thing], listed: Sequence[Source], off: Floats
) -> tuple[Floats, Floats, Floats, Floats]:
    """Return by how much each thing is off in mass, share of volume, place and share of room.

    Args:
        found: What is aboard.
        listed: What may be off.
        off: How far it is, in standard deviations, shape (s,) [-].

    Returns:
        Mass, shape (k,) [kg]; share, shape (k,) [-]; shift, shape (k, 3) [m]; room, shape (k,) [-].
    """
    count = len(found)
    mass, share, room = np.zeros(count), np.zeros(count), np.zeros(count)
    shift = np.zeros((count, 3))
    for source, far in zip(listed, off, strict=True):
        mass[source.thing] += far * source.mass
        share[source.thing] += far * source.share
        for k in source.moves:
            shift[k] += far * source.shift
        room[source.thing] += far * source.room
    return mass, share, shift, room


def changed(
    boat: Floater, found: Sequence[Thing], listed: Sequence[Source], off: Floats
) -> Floater:
    """Return the boat with some things off.

    Args:
        boat: The boat as the file has her.
        found: What is aboard.
        listed: What may be off.
        off: How far it is, in standard deviations, shape (s,) [-].
    """
    mass, share, shift, room = totals(found, listed, off)
    centre = boat.tree.centre
    tree = _tree(found, share, shift, centre)
    top = float(np.abs(tree.boxes).sum(axis=1).max()) + 1.0
    up = np.array([0.0, 0.0, 1.0])
    whole = cut(tree, up, top + float(centre[2]))
    masses = np.array([thing.mass for thing in found])
    places = np.stack([thing.place for thing in found]) - centre
    total = float((masses + mass).sum())
    gravity = (masses + mass) @ (places + shift) / total
    return boat._replace(
        tree=tree,
        volume=whole.volume,
        buoyancy=whole.moment / whole.volume - centre,
        mass=total,
        gravity=gravity,
        tanks=_tanks(boat, found, shift, room),
    )


def changed_things(
    found: Sequence[Thing], listed: Sequence[Source], off: Floats
) -> tuple[Thing, ...]:
    """Return what is aboard with some things off; tanks keep their room.

    Args:
        found: What is aboard.
        listed: What may be off.
        off: How far it is, in standard deviations, shape (s,) [-].
    """
    mass, share, shift, _ = totals(found, listed, off)
    return tuple(
        replace(
            thing,
            mass=thing.mass + float(mass[k]),
            place=thing.place + shift[k],
            bodies=tuple(
                replace(
                    body,
                    mesh=carried(body.mesh, shift[k])
                    if thing.moves and np.abs(shift[k]).max() > SAME
                    else body.mesh,
                    share=body.share * (1.0 + float(share[k])),
                    volume=body.volume * (1.0 + float(share[k])),
                )
                for body in thing.bodies
            ),
        )
        for k, thing in enumerate(found)
    )


def _tree(found: Sequence[Thing], share: Floats, shift: Floats, centre: Floats) -> Tree:
    """Return all bodies as one tree; those of one mesh that stay in place are one."""
    place = (float(centre[0]), float(centre[1]), float(centre[2]))
    kept: dict[int, tuple[Mesh, float]] = {}
    trees: list[Tree] = []
    for k, thing in enumerate(found):
        for body in thing.bodies:
            part = body.share * (1.0 + share[k])
            if thing.moves and np.abs(shift[k]).max() > SAME:
                there = shifted(planted(body.mesh, 1.0, place), shift[k])
                trees.append(_weighted(there, part))
            else:
                before = kept.get(id(body.mesh), (body.mesh, 0.0))[1]
                kept[id(body.mesh)] = (body.mesh, before + part)
    trees += [_weighted(planted(mesh, 1.0, place), part) for mesh, part in kept.values()]
    return forest(trees)


def _tanks(boat: Floater, found: Sequence[Thing], shift: Floats, room: Floats) -> Tanks:
    """Return the tanks where they lie and with the room that they have."""
    tanks = boat.tanks
    shares, centroids, ends = tanks.shares.copy(), tanks.centroids.copy(), tanks.ends.copy()
    trees: dict[int, Tree] = {}
    centre = boat.tree.centre
    place = (float(centre[0]), float(centre[1]), float(centre[2]))
    for k, thing in enumerate(found):
        if thing.room is None:
            continue
        shares[thing.tank] *= 1.0 + room[k]
        centroids[thing.tank] += shift[k]
        ends[thing.tank] += shift[k][0]
        trees[thing.tank] = shifted(planted(thing.room, 1.0, place), shift[k])
    if not trees:
        return tanks
    tree = forest([trees[k] for k in sorted(trees)])
    return tanks._replace(tree=tree, shares=shares, centroids=centroids, ends=ends)
