"""The batten: against scipy's splines, and the laws it must keep."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays
from scipy.interpolate import CubicSpline, UnivariateSpline

from trimdive.geometry.lines.batten import by_the_others, strain
from trimdive.geometry.lines.curves import fair_slopes, on_curve

T = np.array([0.0, 0.7, 1.5, 2.0, 3.1, 4.0])
KNOTS = np.linspace(0.0, 7.0, 8)


def test_where_nothing_is_limited_it_is_the_spline_of_continuous_curvature() -> None:
    """Against scipy.interpolate.CubicSpline with the same end conditions."""
    f = np.sin(0.3 * T)  # rises gently all the way
    for ours, theirs in (("straight", "natural"), ("level", "clamped")):
        other = CubicSpline(T, f, bc_type=(theirs, "natural"))
        slope = fair_slopes(T, f, ours, "straight")  # type: ignore[arg-type]
        unlimited = slice(2, None) if ours == "level" else slice(None)
        assert slope[unlimited] == pytest.approx(other(T, 1)[unlimited], abs=1e-12)


def test_a_parabola_is_kept() -> None:
    f = (T + 1.0) ** 2
    places = np.linspace(0.0, 4.0, 57)
    assert on_curve(T, f, fair_slopes(T, f), places) == pytest.approx((places + 1.0) ** 2)


@given(arrays(float, 8, elements=st.floats(0.0, 1.0)))
def test_rising_figures_give_a_rising_curve(steps: np.ndarray) -> None:
    f = np.cumsum(steps)
    curve = on_curve(KNOTS, f, fair_slopes(KNOTS, f), np.linspace(0.0, 7.0, 701))
    assert np.diff(curve).min() >= -1e-12


@given(arrays(float, 8, elements=st.floats(-1.0, 1.0)))
def test_the_curve_passes_through_its_pins_and_mirrors(f: np.ndarray) -> None:
    slope = fair_slopes(KNOTS, f)
    assert on_curve(KNOTS, f, slope, KNOTS) == pytest.approx(f, abs=1e-12)
    assert -fair_slopes(KNOTS, f[::-1])[::-1] == pytest.approx(slope, abs=1e-9)


def test_strain_and_what_the_others_say_against_scipy() -> None:
    """Bending energy by quadrature of CubicSpline; each pin left out, by CubicSpline as well."""
    v = np.array([0.0, 0.9, 1.1, 2.5, 2.0, 1.0])
    natural = CubicSpline(T, v, bc_type="natural")
    fine = np.linspace(0.0, 4.0, 400_001)
    assert strain(T, v) == pytest.approx(np.trapezoid(natural(fine, 2) ** 2, fine), rel=1e-6)
    expected, caused = by_the_others(T, v)
    for at in range(1, len(T) - 1):
        rest = CubicSpline(np.delete(T, at), np.delete(v, at), bc_type="natural")
        assert expected[at] == pytest.approx(float(rest(T[at])), abs=1e-9)
        left = np.trapezoid(rest(fine, 2) ** 2, fine)
        assert strain(T, v) - caused[at] == pytest.approx(left, rel=1e-6)


def test_a_straight_batten_has_no_strain() -> None:
    assert strain(T, 3.0 * T + 1.0) == pytest.approx(0.0, abs=1e-12)
    line = UnivariateSpline(T, 3.0 * T + 1.0, k=1, s=0)
    assert by_the_others(T, 3.0 * T + 1.0)[0] == pytest.approx(line(T))
