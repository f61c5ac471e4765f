"""The laws by hand, and the orders of size that builders report (builders' table of diagnoses)."""

from math import asin, atan, degrees, radians, tan

import numpy as np
import pytest

from trimdive.estimates.wethands.cures import block
from trimdive.estimates.wethands.figure import Figure, apart, mean_of, tangent
from trimdive.estimates.wethands.physics import (
    bays_for,
    bg_by_shift,
    foam_for,
    hung_angle,
    least_angle,
    moment_at,
    pull_of_lead,
    slack_loss,
    taken_by,
    tank_shift,
)


def exact(value: float) -> Figure:
    return Figure(value, 0.0)


@pytest.mark.parametrize(
    ("grams", "arm", "mass", "bg", "says"),
    [  # printed to the degree, the third to a tenth: derived beside the builders' table
        (1900, 0.050, 30.0, 0.015, 12.0),
        (10, 0.45, 4.0, 0.008, 8.0),
        (10, 1.0, 30.0, 0.015, 1.3),
    ],
)
def test_orders_of_size(grams: float, arm: float, mass: float, bg: float, says: float) -> None:
    angle = hung_angle(exact(grams / 1e3 * arm), exact(mass), exact(bg))
    assert degrees(angle.value) == pytest.approx(says, abs=0.5 if says > 2 else 0.05)


def test_the_foam_that_cures_the_first_of_them() -> None:
    """1.9 kg, 50 mm off, at 0.9 m arm: 0.095 kg m / 0.9 m = 105.6 g of lift; some 0.1 L of tank."""
    foam = foam_for(exact(1.9 * 0.050), exact(0.9), 1000.0)
    assert foam.value * (1000.0 - 33.0) == pytest.approx(0.10556, abs=1e-4)
    assert taken_by(foam, 1000.0).value == pytest.approx(0.10556e-3, abs=1e-7)
    assert tank_shift(exact(1.9 * 0.050), exact(1.9e-3), 1000.0).value == pytest.approx(0.050)


def test_lead_pulls_less_under_water() -> None:
    """Lead of 11.34 in fresh water: 1 - 1/11.34 = 0.912; builders say 0.91."""
    assert pull_of_lead(exact(1.0), 1000.0).value == pytest.approx(0.9118, abs=1e-4)


def test_the_shift_test_undoes_the_hanging() -> None:
    """0.1 kg moved 0.3 m on 30 kg at 15 mm: tan = 0.03 / 0.45, and back."""
    angle = exact(atan(0.03 / 0.45))
    assert bg_by_shift(exact(0.1), exact(0.3), angle, exact(30.0)).value == pytest.approx(0.015)


@pytest.mark.parametrize(
    ("length", "loses"), [(0.15, 1e-3), (0.3, 7.5e-3), (0.5, 35e-3)]
)  # tank 0.1 m wide on 30 kg: builders' table, printed to 2 figures
def test_slack_water(length: float, loses: float) -> None:
    loss = slack_loss(exact(length), exact(0.1), exact(30.0), 1000.0)
    assert loss.value == pytest.approx(loses, rel=0.07)


def test_bays() -> None:
    """35 mm in n bays is 35/n²: 35, 8.75, 3.89, 2.19; of 15 mm a quarter is 3.75, so four."""
    assert bays_for(0.035, 0.015, 0.25) == 4
    assert bays_for(0.003, 0.015, 0.25) == 1


def test_nose_on_the_bottom() -> None:
    """2 m long in 0.5 m of water: the arc sine of a quarter; deeper than long: on end."""
    assert least_angle(0.5, 2.0) == pytest.approx(asin(0.25))
    assert least_angle(3.0, 2.0) == pytest.approx(radians(90))


def test_block_of_foam() -> None:
    """Sides are handy, the volume is kept to half a millimetre of height; large ones are parted."""
    for volume in np.geomspace(5e-6, 2e-3, 30):
        (long, wide, high), count = block(float(volume))
        assert long * wide * high * count == pytest.approx(volume, abs=0.5e-3 * long * wide * count)
        assert count == 1 or count % 2 == 0
        assert volume / count <= 150e-6 + 1e-12


def test_spreads_carry_as_drawing_lots_does() -> None:
    """First order against 200 000 draws of normal figures, 95 % as 1.96 standard deviations."""
    rng = np.random.default_rng(3)
    mass, bg, angle = Figure(30.0, 0.3), Figure(0.015, 0.0015), Figure(0.2, 0.02)
    answer = moment_at(angle, mass, bg)
    m, b, a = (rng.normal(f.value, f.spread / 1.96, 200_000) for f in (mass, bg, angle))
    assert answer.spread == pytest.approx(1.96 * np.std(m * b * np.tan(a)), rel=0.02)
    assert answer.value == pytest.approx(30 * 0.015 * tan(0.2))
    d = rng.normal(0.5, 0.03 / 1.96, 200_000)
    over = answer.over(Figure(0.5, 0.03))
    assert over.spread == pytest.approx(1.96 * np.std(m * b * np.tan(a) / d), rel=0.02)


def test_two_ways_to_one_figure() -> None:
    """The textbook mean of 10 ± 1 and 12 ± 2 by inverse squares: (10 + 12/4) / (1 + 1/4)."""
    both = mean_of(Figure(10.0, 1.0), Figure(12.0, 2.0))
    assert both.value == pytest.approx(10.4)
    assert both.spread == pytest.approx((1 + 0.25) ** -0.5)
    assert apart(Figure(10.0, 3.0), Figure(20.0, 4.0)) == pytest.approx(2.0)
    assert tangent(Figure(0.0, 0.1)).spread == pytest.approx(0.1)
