"""Tubes: bounds of the theory, laws of scale, and what is refused."""

import pytest

from trimdive.errors import GeometryError
from trimdive.vessels.strength import (
    buckling_pressure,
    collapse,
    hoop_stress,
    knocked_down,
    long_tube,
    roundness,
    tube,
)


def test_ends_far_away_help_nothing() -> None:
    """With n = 2 and λ = 0 von Mises' formula is the long tube's, E t³ (n²-1) / 12 R³ (1-ν²)."""
    shape = tube(0.11, 0.003, 1e4)
    assert collapse(shape, 2.8e9, 0.37).pressure == pytest.approx(
        long_tube(shape, 2.8e9, 0.37), rel=1e-6
    )
    assert collapse(shape, 2.8e9, 0.37).lobes == 2


def test_the_least_over_the_lobes_is_taken() -> None:
    shape = tube(0.406, 0.00127, 0.2)
    found = collapse(shape, 207e9, 0.3)
    for lobes in range(2, 60):
        assert buckling_pressure(shape, 207e9, 0.3, lobes) >= found.pressure
    assert buckling_pressure(shape, 207e9, 0.3, found.lobes) == found.pressure


@pytest.mark.parametrize("scale", [0.1, 3.0])
def test_size_does_not_matter(scale: float) -> None:
    """All lengths scaled alike leave the pressure as it is (dimensional analysis)."""
    one, other = tube(0.11, 0.003, 0.4), tube(0.11 * scale, 0.003 * scale, 0.4 * scale)
    assert collapse(one, 2.8e9, 0.37).pressure == pytest.approx(
        collapse(other, 2.8e9, 0.37).pressure
    )
    assert hoop_stress(one, 1e5) == pytest.approx(hoop_stress(other, 1e5))


def test_shorter_and_thicker_is_stronger() -> None:
    weak = collapse(tube(0.11, 0.003, 0.4), 2.8e9, 0.37).pressure
    assert collapse(tube(0.11, 0.003, 0.2), 2.8e9, 0.37).pressure > weak
    assert collapse(tube(0.11, 0.004, 0.4), 2.8e9, 0.37).pressure > weak


def test_thin_walls_are_stressed_as_a_hoop() -> None:
    """Membrane theory: p R / t."""
    shape = tube(1.0, 0.0005, 1.0)
    assert hoop_stress(shape, 1e3) == pytest.approx(1e3 * shape.radius / 0.0005, rel=2e-3)


def test_a_round_tube_is_not_knocked_down() -> None:
    """With w = 0 the roots are p_c and σ t/R."""
    shape = tube(0.11, 0.003, 0.4, 0.0)
    assert knocked_down(shape, 2.466e5, 70e6) == pytest.approx(2.466e5)
    assert knocked_down(shape, 1e9, 70e6) == pytest.approx(70e6 * 0.003 / shape.radius)


def test_a_knocked_down_tube_is_at_its_limit() -> None:
    """The bent ring solved back: p R/t + 6 p R w / t² / (1 - p/p_c) = σ."""
    shape, perfect, limit = tube(0.11, 0.003, 0.4, 0.001), 2.466e5, 70e6
    p = knocked_down(shape, perfect, limit)
    r, t, w = shape.radius, shape.wall, shape.out_of_round
    assert p * r / t + 6 * p * r * w / t**2 / (1 - p / perfect) == pytest.approx(limit)


def test_roundness_of_an_ellipse() -> None:
    """Half-axes R ± w: diameters differ by 4 w."""
    assert roundness(0.1102, 0.1098) == pytest.approx(0.0001)
    with pytest.raises(GeometryError, match="larger diameter first"):
        roundness(0.1098, 0.1102)


def test_unmeasured_tubes_are_taken_as_a_little_oval() -> None:
    assert tube(0.1, 0.003, 0.3).out_of_round > 0


@pytest.mark.parametrize(
    ("outside", "wall", "between", "departs", "said"),
    [
        (
            0.11,
            0.055,
            0.4,
            None,
            "my tube: a wall of 55 mm leaves no bore in 110 mm. Make the wall",
        ),
        (0.11, 0.0, 0.4, None, "my tube: its wall is 0 mm"),
        (0.11, 0.003, -1.0, None, "length is -1000 mm"),
        (float("nan"), 0.003, 0.4, None, "outside diameter is nan mm"),
        (0.11, 0.003, 0.4, 0.05, "50 mm out of round. Give 0 to 11 mm"),
    ],
)
def test_tubes_that_cannot_be(
    outside: float, wall: float, between: float, departs: float | None, said: str
) -> None:
    with pytest.raises(GeometryError, match=said):
        tube(outside, wall, between, departs, "my tube")
