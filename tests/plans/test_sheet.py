"""From pixels to the sheet, against maps that were made by hand and undone by numpy and scipy."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import root_scalar
from scipy.spatial.transform import Rotation

from trimdive.errors import PlanError
from trimdive.plans.level import Levelled, level
from trimdive.plans.photo import homography, photographed
from trimdive.plans.sheet import Known, Lens, Sheet, check_length

CORNERS = np.array([(0.0, 0.0), (0.8, 0.0), (0.8, 0.5), (0.0, 0.5)])
SIZE = (3000, 2000)


def scan(places: np.ndarray, turn: float, along: float, up: float, skew: float = 0.0) -> np.ndarray:
    """Return where a scanner sees places: stretched, leant over, turned clockwise, row 0 on top."""
    x, z = (places / (along, up)).T
    x = x + skew * z
    c, s = np.cos(turn), np.sin(turn)
    return np.stack([c * x + s * z + 300, s * x - c * z + 1800], axis=1)


def of_scan(turn: float, along: float, up: float, skew: float = 0.0) -> Levelled:
    """Return the sheet as levelled by its frame."""
    a, b, c, d = map(tuple, scan(CORNERS, turn, along, up, skew).tolist())
    return level(
        ((a, b),),
        (Known(start=a, end=b, length=0.8),),
        (Known(start=a, end=d, length=0.5),),
        upright=((a, d), (b, c)) if skew else (),
    )


@given(
    turn=st.floats(-3.1, 3.1),
    along=st.floats(1e-4, 1e-3),
    stretch=st.floats(0.9, 1.1),
    skew=st.floats(-0.1, 0.1),
)
def test_turn_stretch_and_lean_are_undone(
    turn: float, along: float, stretch: float, skew: float
) -> None:
    found = of_scan(turn, along, along * stretch, skew)
    places = np.array([(0.1, 0.2), (0.7, 0.45), (0.4, -0.1)])
    seen = found.sheet.at(scan(places, turn, along, along * stretch, skew))
    assert seen - seen[0] == pytest.approx(places - places[0], abs=1e-9)
    assert found.stretch == pytest.approx(1 / stretch, rel=1e-6) or skew
    assert np.cos(found.turn - turn) == pytest.approx(1.0)


def test_pixels_are_the_way_back() -> None:
    found = of_scan(0.1, 2e-4, 2.1e-4)
    pixels = np.array([(300.0, 500.0), (1234.5, 99.25)])
    assert found.sheet.pixels(found.sheet.at(pixels)) == pytest.approx(pixels)


def test_of_two_lengths_the_best_fit_is_taken_and_the_rest_told() -> None:
    # Least squares by hand: lengths 100 and 200 px, 0.101 and 0.200 m: p = Σul/Σu².
    marks = [((0.0, 50.0), (100.0, 50.0)), ((0.0, 80.0), (200.0, 80.0))]
    known = tuple(
        Known(start=a, end=b, length=length)
        for (a, b), length in zip(marks, (0.101, 0.2), strict=True)
    )
    upright = Known(start=(0.0, 100.0), end=(0.0, 0.0), length=0.1)
    found = level((marks[0],), known, (upright,))
    pitch = (100 * 0.101 + 200 * 0.2) / (100**2 + 200**2)
    assert found.along == pytest.approx(pitch)
    assert found.left_along == pytest.approx([100 * pitch - 0.101, 200 * pitch - 0.2])
    assert found.left_up == pytest.approx([0.0], abs=1e-15)


def test_a_third_length_is_checked() -> None:
    found = of_scan(0.05, 2e-4, 2.1e-4)
    a, c = map(tuple, scan(CORNERS[[0, 2]], 0.05, 2e-4, 2.1e-4).tolist())
    checked = check_length(found.sheet, Known(start=a, end=c, length=0.94))
    assert checked.measured == pytest.approx(np.hypot(0.8, 0.5))
    assert checked.off == pytest.approx(np.hypot(0.8, 0.5) - 0.94)
    assert checked.share == pytest.approx(np.hypot(0.8, 0.5) / 0.94 - 1)


def camera(places: np.ndarray, bend: float = 0.0) -> np.ndarray:
    """Return where a hole before a plane shows places of a sheet held crooked."""
    turned = Rotation.from_euler("xyz", (17.0, -12.0, 5.0), degrees=True)
    out = np.column_stack([places - CORNERS.mean(axis=0), np.zeros(len(places))]) * (1, -1, 1)
    before = turned.apply(out) + np.array([0, 0, 1.1])
    reach = np.hypot(*SIZE) / 2
    r = before[:, :2] / before[:, 2:] * 1.1 * SIZE[0] / reach
    return np.array(SIZE) / 2 + r * (1 + bend * (r**2).sum(axis=1, keepdims=True)) * reach


def grid(n: int) -> np.ndarray:
    x, z = np.meshgrid(np.linspace(0, 0.8, n), np.linspace(0, 0.5, n))
    return np.stack([x.ravel(), z.ravel()], axis=1)


def as_marks(points: np.ndarray) -> tuple[tuple[float, float], ...]:
    return tuple(map(tuple, points.tolist()))


def test_perspective_by_four_points() -> None:
    found = photographed(as_marks(camera(CORNERS)), as_marks(CORNERS), SIZE)
    assert found.sheet.at(camera(grid(9))) == pytest.approx(grid(9), abs=1e-12)
    assert found.sheet.pixels(grid(9)) == pytest.approx(camera(grid(9)), abs=1e-8)
    assert found.rms < 1e-12


def test_a_homography_by_eight_equations() -> None:
    """Four points give eight linear equations, here solved as they stand, with h₃₃ = 1."""
    seen = camera(CORNERS)
    rows, right = [], []
    for (x, y), (u, v) in zip(seen, CORNERS, strict=True):
        rows += [[x, y, 1, 0, 0, 0, -u * x, -u * y], [0, 0, 0, x, y, 1, -v * x, -v * y]]
        right += [u, v]
    by_hand = np.append(np.linalg.solve(np.array(rows), np.array(right)), 1.0).reshape(3, 3)
    found = homography(seen, CORNERS)
    assert found / found[2, 2] == pytest.approx(by_hand, rel=1e-6, abs=1e-12)


@pytest.mark.parametrize("bend", [-0.12, -0.05, 0.03, 0.1])
def test_a_lens_is_found_by_more_points(bend: float) -> None:
    known = grid(4)
    found = photographed(as_marks(camera(known, bend)), as_marks(known), SIZE)
    assert found.sheet.lens.bend == pytest.approx(bend, abs=1e-5)
    assert found.sheet.at(camera(grid(9), bend)) == pytest.approx(grid(9), abs=1e-6)


@pytest.mark.parametrize("bend", [-0.08, 0.06])
def test_a_lens_is_found_by_straight_lines(bend: float) -> None:
    sides = [
        np.linspace(a, b, 7) for a, b in zip(CORNERS, np.roll(CORNERS, -1, axis=0), strict=True)
    ]
    straight = tuple(as_marks(camera(side, bend)) for side in sides)
    seen = as_marks(camera(CORNERS, bend))
    found = photographed(seen, as_marks(CORNERS), SIZE, straight=straight)
    assert found.sheet.at(camera(grid(9), bend)) == pytest.approx(grid(9), abs=2e-6)
    without = photographed(seen, as_marks(CORNERS), SIZE)
    assert np.abs(without.sheet.at(camera(grid(9), bend)) - grid(9)).max() > 1e-3


@pytest.mark.parametrize("bend", [-0.14, -0.05, 0.2, 0.5])
def test_a_lens_is_undone_as_by_a_root_finder(bend: float) -> None:
    lens = Lens(centre=(1500.0, 1000.0), reach=1800.0, bend=bend)
    for seen in np.linspace(0.01, 0.95, 12):
        true = root_scalar(np.poly1d([bend, 0.0, 1.0, -seen]), bracket=(0.0, 1.5)).root
        pixel = np.array([(1500 + 1800 * seen, 1000.0)])
        assert lens.straightened(pixel)[0, 0] == pytest.approx(1500 + 1800 * true, abs=1e-6)
        assert lens.bent(lens.straightened(pixel)) == pytest.approx(pixel, abs=1e-6)


def test_what_is_left_over_tells_a_wrong_figure() -> None:
    known = grid(3)
    wrong = known.copy()
    wrong[4] += (0.004, 0.0)
    found = photographed(as_marks(camera(known)), as_marks(wrong), SIZE)
    assert int(np.argmax(np.linalg.norm(found.left, axis=1))) == 4
    assert found.rms > 5e-4


def four(*changed: tuple[int, tuple[float, float]]) -> tuple[tuple[float, float], ...]:
    marks = list(as_marks(camera(CORNERS)))
    for number, mark in changed:
        marks[number] = mark
    return tuple(marks)


LINE = as_marks(np.array([(0.0, 0.0), (100.0, 50.0), (200.0, 100.0), (400.0, 200.0)]))


@pytest.mark.parametrize(
    ("pixels", "places", "said"),
    [
        (LINE, as_marks(CORNERS), "three of these known points lie on one line"),
        (four(), LINE, "three of these known points lie on one line"),
        (four((1, four()[0])), as_marks(CORNERS), "two marks lie upon each other"),
        (four(), as_marks(CORNERS[[0, 1, 2, 2]]), "two known points have one place"),
        (four()[:3], as_marks(CORNERS[:3]), "3 points are known, and four are needed"),
        (four(), as_marks(CORNERS[[0, 2, 1, 3]]), "stand in another order on the sheet"),
        (four(), as_marks(CORNERS[::-1]), "stand in another order on the sheet"),
        (four((0, (np.nan, 0.0))), as_marks(CORNERS), "a mark is no place in the picture"),
    ],
)
def test_points_that_tell_nothing_are_refused(
    pixels: tuple[tuple[float, float], ...], places: tuple[tuple[float, float], ...], said: str
) -> None:
    with pytest.raises(PlanError, match=said):
        photographed(pixels, places, SIZE)


def test_more_points_all_on_one_line_are_refused() -> None:
    line = np.linspace((0.0, 0.0), (0.8, 0.5), 6)
    with pytest.raises(PlanError, match="the known points lie on one line"):
        photographed(as_marks(camera(line)), as_marks(line), SIZE)


def test_a_place_beyond_the_horizon_is_refused() -> None:
    sheet = Sheet(matrix=np.array([[1.0, 0, 0], [0, -1.0, 0], [0, 0.01, -1.0]]), lens=Lens())
    assert np.isfinite(sheet.at(np.array([(0.0, 200.0)]))).all()
    with pytest.raises(PlanError, match="beyond the horizon"):
        sheet.at(np.array([(0.0, 50.0)]))


BASE = ((0.0, 100.0), (200.0, 100.0))
ALONG = Known(start=BASE[0], end=BASE[1], length=0.2)
UP = Known(start=(0.0, 100.0), end=(0.0, 0.0), length=0.1)


@pytest.mark.parametrize(
    ("lines", "along", "up", "said"),
    [
        ((), (ALONG,), (UP,), "no line is known to be level"),
        ((BASE,), (), (UP,), "no length is known along"),
        ((BASE,), (ALONG,), (), "no length is known up"),
        ((((5.0, 5.0), (5.5, 5.0)),), (ALONG,), (UP,), "two marks lie upon each other at 5, 5"),
        ((BASE,), (UP,), (UP,), "runs across the way that it was marked for"),
        ((BASE,), (Known(start=(0, 0), end=(9, 0), length=0.0),), (UP,), "a known length is 0 m"),
        ((BASE,), (Known(start=(0, 0), end=(9, 0), length=-1.0),), (UP,), "a known length is -1 m"),
        ((BASE,), (Known(start=(0, 0), end=(1, 0), length=1.0),), (UP,), "two marks lie upon"),
    ],
)
def test_a_sheet_that_cannot_be_levelled(
    lines: tuple[tuple[tuple[float, float], tuple[float, float]], ...],
    along: tuple[Known, ...],
    up: tuple[Known, ...],
    said: str,
) -> None:
    with pytest.raises(PlanError, match=said) as refused:
        level(lines, along, up)
    assert len(str(refused.value).splitlines()) == 1


def test_an_upright_line_that_runs_along_is_refused() -> None:
    with pytest.raises(PlanError, match="a line marked as upright runs along"):
        level((BASE,), (ALONG,), (UP,), upright=(BASE,))
