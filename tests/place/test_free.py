"""The room that is free in the crate, by hand, and rectangles against trying every one."""

from itertools import combinations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays
from tests.rest.crate import crate

from trimdive.boatfile.placing import Placing
from trimdive.edits.task import lying
from trimdive.geometry.solids.inside import is_inside, is_inside_grid
from trimdive.placing.solve import foam_slots, keel_slots, of_piece, room, shared
from trimdive.placing.solve.apart import boxes, overlap
from trimdive.placing.solve.free import largest_box

GRIDS = arrays(bool, st.tuples(st.integers(2, 7), st.integers(2, 7)))


@given(GRIDS)
@settings(max_examples=150)
def test_largest_box_against_every_rectangle(free: np.ndarray) -> None:
    best = 0
    for a, b in combinations(range(free.shape[0]), 2):
        for c, d in combinations(range(free.shape[1]), 2):
            if free[a : b + 1, c : d + 1].all():
                best = max(best, (b - a) * (d - c))
    i0, i1, j0, j1 = largest_box(free)
    assert (i1 - i0) * (j1 - j0) == best
    assert best == 0 or free[i0 : i1 + 1, j0 : j1 + 1].all()


def test_a_grid_is_looked_through_as_its_points_are() -> None:
    """Both ways of telling what lies inside agree on the crate's cylinder and on its hull."""
    her = crate()
    xs, ys, zs = (
        np.linspace(-0.01, 1.01, 23),
        np.linspace(0, 0.11, 19),
        np.linspace(-0.01, 0.19, 31),
    )
    x, y, z = np.meshgrid(xs, ys, zs, indexing="ij")
    points = np.stack([x, y, z], axis=-1).reshape(-1, 3)
    for mesh in (her.hull.envelope, *(mesh for body in her.bodies for mesh in body.pieces)):
        answer = is_inside_grid(mesh, xs, ys, zs)
        assert (answer.reshape(-1) == is_inside(mesh, points)).all()


def test_free_room_of_the_crate_by_hand() -> None:
    """Inside 996 × 196 × 176 mm, round the cylinder of 120 mm at z 60 from x 200 to 800."""
    her = crate()
    space = room(her.boat, her.hull.envelope, her.bodies, frozenset(), ())
    points = {
        (0.1, 0.0, 0.06): True,  # aft of the cylinder
        (0.5, 0.0, 0.06): False,  # in it
        (0.5, 0.0601, 0.06): True,  # just beside it
        (0.5, 0.0, 0.1205): True,  # just over it
        (0.5, 0.0975, 0.06): True,
        (0.5, 0.0985, 0.06): False,  # in the skin, 2 mm
        (0.5, 0.0, 0.001): False,  # in the bottom
        (0.5, 0.02, 0.008): False,  # in the keel lead
        (0.5, 0.0, 0.179): False,  # in the deck
        (1.1, 0.0, 0.06): False,  # out of her
    }
    assert space.is_free(np.array(list(points))).tolist() == list(points.values())


def test_foam_beside_the_cylinder_by_hand() -> None:
    """The largest box in the corner between the cylinder (radius 60 at z 60) and hull and water.

    Beside it, y from 60 to 98 and z from 2 to 128; with whole sheets of 10 mm, 30 mm broad.
    Over it, y from 0 to 98 and z from 120 to 128: less.
    """
    her = lying(crate())
    slots = foam_slots(
        her, Placing(), room(her.boat, her.hull.envelope, her.bodies, frozenset(), ())
    )
    beside = [slot for slot in slots if 0.25 < slot.place[0] < 0.75]
    assert beside
    for slot in beside:
        assert slot.pair
        assert slot.breadth == pytest.approx(0.030)
        assert slot.place[1] + slot.breadth / 2 == pytest.approx(0.0975, abs=0.0026)
        assert slot.height == pytest.approx(0.125, abs=0.006)


def test_slots_lie_in_free_room_and_apart() -> None:
    her = lying(crate())
    wish = Placing()
    space = room(her.boat, her.hull.envelope, her.bodies, frozenset(), ())
    slots = shared([*keel_slots(her, wish, space), *foam_slots(her, wish, space)])
    assert len(slots) > 6
    every = [(k, box) for k, slot in enumerate(slots) for box in boxes(slot, slot.longest)]
    rng = np.random.default_rng(3)
    for _, (low, high) in every:
        inner = low + 5e-4 + rng.random((60, 3)) * (high - low - 1e-3)
        assert space.is_free(inner).all()
    for (i, one), (j, other) in combinations(every, 2):
        assert i == j or not overlap(one, other)


def test_lead_that_lies_there_grows_to_what_stops_it() -> None:
    """Keel lead 40 × 8.1 mm at z 8: the skin's bottom is at 2 mm; nothing stops it but its share.

    Half her length is the most, 500 mm.
    """
    her = lying(crate())
    piece = her.boat.lead[0]
    bare = room(her.boat, her.hull.envelope, her.bodies, frozenset({"lead[1]"}), ())
    slot = of_piece(her, Placing(), bare, "lead[1]", piece)
    assert slot.longest == pytest.approx(0.5, abs=0.02)
    blocked = '[[part]]\nname = "block"\nmass = 100\nx = 700\nz = 8\nshape = "box"\n'
    blocked += 'known = "weighed"\nlength = 60\nbreadth = 60\nheight = 12\n'
    her = lying(crate(blocked))
    bare = room(her.boat, her.hull.envelope, her.bodies, frozenset({"lead[1]"}), ())
    slot = of_piece(her, Placing(), bare, "lead[1]", piece)
    assert slot.longest == pytest.approx(2 * (0.670 - 0.500), abs=0.018)
    assert slot.longest <= 0.340
