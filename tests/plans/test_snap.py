"""Marks drawn to ink whose place is known: lines drawn as a pixel is covered, at no whole pixel."""

import numpy as np
import pytest
from tests.plans.drawing import ink

from trimdive.plans.snap import crossing, snapped

SIZE = (80, 80)
MIDDLE = np.array([40.0, 40.0])


def drawn(angle: float, off: float, width: float) -> tuple[np.ndarray, np.ndarray]:
    """Return a picture of one line past the middle, and the way square to it."""
    way, across = (
        np.array([np.cos(angle), np.sin(angle)]),
        np.array([-np.sin(angle), np.cos(angle)]),
    )
    ends = MIDDLE + off * across + np.array([[-60.0], [60.0]]) * way
    return ink(SIZE, [ends], width), across


@pytest.mark.parametrize(("width", "near"), [(1.0, 0.1), (2.0, 0.05), (3.0, 0.05), (6.0, 0.05)])
def test_the_middle_of_a_line_between_the_pixels(width: float, near: float) -> None:
    rng = np.random.default_rng(7)
    off = []
    for _ in range(40):
        angle, true = rng.uniform(0, np.pi), rng.uniform(-1, 1)
        grey, across = drawn(angle, true, width)
        found = snapped(grey, tuple((MIDDLE + rng.uniform(-4, 4, 2)).tolist()))
        assert found is not None
        assert found.kind == "line"
        off.append((np.array(found.at) - MIDDLE) @ across - true)
        if width >= 2.0:  # a finer one cannot be told from one of two pixels
            assert found.width == pytest.approx(width, abs=0.3)
    assert np.sqrt(np.square(off).mean()) < near
    assert np.abs(off).max() < 3 * near


def test_a_mark_is_drawn_square_to_the_line_and_not_along_it() -> None:
    grey, across = drawn(0.4, 0.3, 2.0)
    mark = MIDDLE + 4.0 * across + 3.0 * np.array([np.cos(0.4), np.sin(0.4)])
    found = snapped(grey, tuple(mark.tolist()))
    assert found is not None
    assert abs((np.array(found.at) - mark) @ (np.cos(0.4), np.sin(0.4))) < 0.15  # of 3.7 across


def test_a_bent_line() -> None:
    turn = np.linspace(0, 2 * np.pi, 400)
    ring = np.stack([40.3 + 25.2 * np.cos(turn), 39.6 + 25.2 * np.sin(turn)], axis=1)
    grey = ink(SIZE, [ring])
    for angle in np.linspace(0, 6, 17):
        mark = (40.3 + 28.0 * np.cos(angle), 39.6 + 28.0 * np.sin(angle))
        found = snapped(grey, mark)
        assert found is not None
        assert np.hypot(found.at[0] - 40.3, found.at[1] - 39.6) == pytest.approx(25.2, abs=0.12)


@pytest.mark.parametrize("angles", [(0.2, 1.9), (0.0, np.pi / 2), (0.5, 1.4)])
def test_where_lines_cross_and_where_they_meet(angles: tuple[float, float]) -> None:
    true = np.array([40.35, 39.8])
    ways = [np.array([np.cos(a), np.sin(a)]) for a in angles]
    whole = [true + np.array([[-60.0], [60.0]]) * way for way in ways]
    half = [true + np.array([[0.0], [60.0]]) * way for way in ways]
    for lines in (whole, half, [whole[0], half[1]]):
        found = crossing(ink(SIZE, lines), (43.0, 38.0))
        assert found is not None
        assert found.kind == "crossing"
        assert np.hypot(*(np.array(found.at) - true)) < 0.25


def test_a_spot() -> None:
    found = crossing(ink(SIZE, [np.array([(40.4, 39.7), (40.4, 39.7001)])], 5.0), (43.0, 38.0))
    assert found is not None
    assert found.at == pytest.approx((40.4, 39.7), abs=0.1)


def test_the_edge_of_a_dark_area() -> None:
    grey = np.full(SIZE, 250, dtype=np.uint8)
    grey[:, 41:] = 30
    grey[:, 40] = 140  # half covered: the edge lies at 40.5
    found = snapped(grey, (37.0, 33.0))
    assert found is not None
    assert found.kind == "edge"
    assert found.at[0] == pytest.approx(40.5, abs=0.05)
    assert found.at[1] == pytest.approx(33.0, abs=0.05)


def test_of_two_lines_the_nearer() -> None:
    grey = ink(SIZE, [np.array([(x, 0.0), (x, 80.0)]) for x in (36.2, 43.7)])
    for mark, true in ((38.5, 36.2), (41.5, 43.7)):
        found = snapped(grey, (mark, 40.0))
        assert found is not None
        assert found.at[0] == pytest.approx(true, abs=0.05)


@pytest.mark.parametrize(
    "mark", [(40.0, 40.0), (0.0, 0.0), (-5.0, 3.0), (79.9, 79.9), (np.nan, 1.0)]
)
def test_nothing_is_made_up_on_bare_paper(mark: tuple[float, float]) -> None:
    rng = np.random.default_rng(3)
    bare = np.full(SIZE, 245, dtype=np.uint8)
    rough = rng.normal(235, 6, SIZE).clip(0, 255).astype(np.uint8)
    shaded = np.broadcast_to(np.linspace(200, 250, 80), SIZE).astype(np.uint8)
    for grey in (bare, rough, np.zeros(SIZE, dtype=np.uint8), shaded):
        assert snapped(grey, mark) is None
        assert crossing(grey, mark) is None


def test_ink_out_of_reach_is_left() -> None:
    grey, _ = drawn(0.0, 0.0, 2.0)
    assert snapped(grey, (40.0, 52.0)) is None
    assert snapped(grey, (40.0, 46.0)) is not None


def test_no_crossing_is_made_up_on_a_line() -> None:
    grey, _ = drawn(0.3, 0.2, 2.0)
    assert crossing(grey, (41.0, 41.0)) is None


def test_a_grey_line_on_rough_paper() -> None:
    rng = np.random.default_rng(5)
    off = []
    for _ in range(30):
        grey, across = drawn(1.1, 0.4, 2.0)
        pale = 235.0 - (250.0 - grey) * 0.45 + rng.normal(0, 6, SIZE)
        found = snapped(pale.clip(0, 255).astype(np.uint8), (42.0, 39.0))
        assert found is not None
        off.append((np.array(found.at) - MIDDLE) @ across - 0.4)
    assert np.sqrt(np.square(off).mean()) < 0.15
