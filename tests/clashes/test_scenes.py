"""Room that shapes share against manifold3d booleans, on meshes that trimesh makes.

The meshes are made here, by another library than the program's, with 256 sides to a circle: a
polygon inscribed in it holds 2π²/(3·256²) = 0.01 % less. Closed forms stand against the same.
"""

from math import pi

import numpy as np
import pytest
from tests.clashes.drawn import drawn
from tests.cli.boats import demo

from trimdive.geometry.clashes.closed import ball_and_ball, circle_and_circle, circle_and_rectangle
from trimdive.geometry.clashes.found import NOTHING, stands_in_skin
from trimdive.geometry.clashes.shapes import Form, Shape, in_mesh, shared

SCENES = 300
FORMS: tuple[Form, ...] = ("box", "round", "ball")


def some(draw: np.random.Generator) -> Shape:
    """Return a shape of any form somewhere near the origin."""
    form = FORMS[int(draw.integers(3))]
    axis = int(draw.integers(3)) if form == "round" else 0
    size = draw.uniform(0.02, 0.15, 3)
    if form == "ball":
        size[:] = size[0]
    elif form == "round":
        size[(axis + 1) % 3] = size[(axis + 2) % 3]
    place = draw.uniform(-0.05, 0.05, 3)
    a, b = tuple(map(float, place)), tuple(map(float, size))
    return Shape(form=form, place=a, size=b, axis=axis)  # type: ignore[arg-type]


@pytest.mark.parametrize("seed", range(SCENES))
def test_random_pair(seed: int) -> None:
    """The meshes lie within the round shapes, so theirs is less by 0.2 % of the smaller at most."""
    draw = np.random.default_rng(seed)
    one, other = some(draw), some(draw)
    theirs = (drawn(one) ^ drawn(other)).volume()
    off = 2e-3 * min(one.volume, other.volume)
    assert shared(one, other) == pytest.approx(theirs, abs=off)
    assert shared(other, one) == pytest.approx(shared(one, other), rel=1e-9, abs=1e-15)


def test_most_pairs_share_some_room() -> None:
    """So that the scenes try what they are meant to."""
    draws = [np.random.default_rng(seed) for seed in range(SCENES)]
    found = [shared(some(draw), some(draw)) > 0 for draw in draws]
    assert sum(found) > SCENES / 2
    assert not all(found)


def test_closed_forms_by_hand() -> None:
    """Two unit circles a radius apart: 2π/3 - √3/2. A quarter circle. Balls: 5π/12."""
    assert circle_and_circle(1.0, 1.0, 1.0) == pytest.approx(2 * pi / 3 - 3**0.5 / 2)
    assert circle_and_rectangle(1.0, (0.0, 2.0), (0.0, 2.0)) == pytest.approx(pi / 4)
    assert circle_and_rectangle(1.0, (-2.0, 2.0), (0.5, 2.0)) == pytest.approx(
        pi / 3 - 3**0.5 / 4
    )  # the segment beyond half a radius
    assert ball_and_ball(1.0, 1.0, 1.0) == pytest.approx(5 * pi / 12)
    assert circle_and_rectangle(1.0, (2.0, 3.0), (0.0, 1.0)) == 0.0


def test_what_stands_deep_in_a_skin_shares_room_with_it() -> None:
    """The quick answer and the exact one agree, for boxes all over a demo boat's skins."""
    skins, chance = [skin.body for skin in demo("plover").hull.skins], np.random.default_rng(11)
    answers: list[bool] = []
    for _ in range(150):
        skin = skins[int(chance.integers(len(skins)))]
        low, high = skin.bounds
        x, y, z = low + (high - low) * chance.uniform(0, 1, 3)
        long, broad, up = chance.uniform(0.001, 0.04, 3)
        shape = Shape(form="box", place=(x, y, z), size=(long, broad, up))
        exact = in_mesh(shape, skin) > NOTHING
        assert stands_in_skin(shape, skin) == exact, shape
        answers.append(exact)
    assert 20 < sum(answers) < 130
