"""Readings made of boats with hidden errors come back to them, as often as is told."""

import datetime
from functools import cache
from pathlib import Path

import numpy as np
import pytest
from scipy.stats import chi2

from trimdive.assessment import Assessment, assess
from trimdive.boatfile.tub import Reading
from trimdive.geometry.lines.mesh import Floats
from trimdive.trials.readings import (
    Listed,
    Off,
    averaged,
    chance_of,
    fit,
    listed,
    predicted,
    rows_of,
    slopes,
    update,
)
from trimdive.trials.readings.repeats import AVERAGED
from trimdive.uncertainty import WIDE

ROOT = Path(__file__).parents[2]
DAY = datetime.date(2026, 11, 25)
MANY, FEW = 1000, 16
SET = (
    Reading(date=DAY, at="bow", draught=0.098),
    Reading(date=DAY, at="stern", draught=0.098),
    Reading(date=DAY, pull_aft=0.0, pull_fore=0.0, x_aft=0.1, x_fore=0.65),
    Reading(date=DAY, moved=0.02, by=0.01, angle=0.02),
    Reading(date=DAY, moved=0.02, by=0.01, angle=0.02, dived=True),
    Reading(date=DAY, mass=1.9),
    Reading(date=DAY, leans=0.0),
)


@cache
def plover() -> Assessment:
    return assess(ROOT / "boats" / "plover" / "boat.toml")


def with_readings(her: Assessment, readings: tuple[Reading, ...]) -> Listed:
    return listed(her.boat.model_copy(update={"readings": readings}), her.files)


def read_of(true: Off, readings: tuple[Reading, ...], chance: np.random.Generator) -> list[Reading]:
    """Return readings of a boat, each off at random by its ±."""
    made = []
    for group in averaged(readings):
        answer = predicted(true, group.one)
        off = chance.standard_normal(len(answer)) * group.half / WIDE
        names = AVERAGED[group.one.kind]
        values = {name: answer[i] + off[i] for i, name in enumerate(names)}
        made.append(group.one.model_copy(update=values))
    return made


def hidden(her: Listed) -> Floats:
    """Return what readings tell apart, by each source: force, moment, lean, BG, GM."""
    at = Off(her=her, off=np.zeros(len(her.sources)))
    afloat, dived = SET[0], SET[2]
    up, down = at.answer(afloat), at.answer(dived, level=True)
    rho, middle = her.floater.density, 0.375
    rows = []
    for one in (up, down):
        force = one.mass - rho * one.volume
        rows += [force, (one.weight - rho * one.buoyancy)[:, 0] - middle * force]
    rows += [(up.weight - rho * up.buoyancy)[:, 1], down.gm_t, up.gm_t]
    return np.array(rows)


def test_of_1000_random_boats_95_in_100_lie_within_the_region() -> None:
    """Errors drawn from the list's ±, readings with theirs; seven unknowns told apart.

    The region is the ellipsoid of 95 % of chi-square with seven degrees (scipy.stats).
    """
    her = with_readings(plover(), SET)
    start = Off(her=her, off=np.zeros(len(her.sources)))
    groups = averaged(SET)
    slope = np.array([row for group in groups for row in slopes(start, group.one)])
    noise = (np.array([row.half for row in rows_of(start, groups)]) / WIDE) ** 2
    answer = hidden(her)
    chance, inside = np.random.default_rng(5), 0
    for _ in range(MANY):
        true = chance.standard_normal(len(her.sources))
        gap = slope @ true + chance.standard_normal(len(noise)) * np.sqrt(noise)
        off, scatter = update(slope, noise, gap)
        spread = np.eye(len(off)) - slope.T @ np.linalg.solve(scatter, slope)
        error = answer @ (off - true)
        inside += error @ np.linalg.solve(answer @ spread @ answer.T, error) <= chi2.ppf(0.95, 7)
    assert 0.93 <= inside / MANY <= 0.97


def test_the_full_solver_brings_hidden_errors_back() -> None:
    """Boats with errors from the list's ±, read and found by the full solver, each by itself.

    Of 16 boats at least 13 lie within the region of 95 %: fewer would happen in 1 of 100 runs
    (binomial distribution).
    """
    her = with_readings(plover(), SET)
    chance, inside = np.random.default_rng(11), 0
    for _ in range(FEW):
        true = Off(her=her, off=chance.standard_normal(len(her.sources)))
        found = fit(with_readings(plover(), tuple(read_of(true, SET, chance))))
        answer = hidden(her)
        error = answer @ (found.off - true.off)
        inside += error @ np.linalg.solve(answer @ found.spread @ answer.T, error) <= chi2.ppf(
            0.95, 7
        )
    assert inside >= 13


def test_exact_readings_are_met() -> None:
    """With readings that are sure to a thousandth of the usual, the boat found reads just so."""
    her = with_readings(plover(), SET)
    chance = np.random.default_rng(3)
    true = Off(her=her, off=0.7 * chance.standard_normal(len(her.sources)))
    exact = []
    for group in averaged(SET):
        answer = predicted(true, group.one)
        values = {name: answer[i] for i, name in enumerate(AVERAGED[group.one.kind])}
        unit = {"draught": "mm", "pull": "g", "shift": "°", "mass": "g", "leans": "°"}
        size = f"0.01 {unit[group.one.kind]}"
        exact.append(group.one.model_copy(update={**values, "spread": size}))
    found = fit(with_readings(plover(), tuple(exact)))
    for row, by_tub in zip(found.rows, found.by_tub, strict=True):
        assert by_tub == pytest.approx(row.read, abs=2 * row.half), row.label


def test_what_no_reading_tells_stays_as_sure_as_it_was() -> None:
    """Only the scale: the ± of the mass shrinks as the mean of two measurements has it.

    1/sqrt(1/a² + 1/b²) of the list's a and the scale's b, any text on errors.
    """
    her = with_readings(plover(), (Reading(date=DAY, mass=1.9031),))
    found = fit(her)
    row = np.array([source.mass for source in her.sources])
    after = WIDE * float(np.sqrt(row @ found.spread @ row))
    a, b = her.masses.spread, found.rows[0].half
    assert after == pytest.approx(1 / np.sqrt(1 / a**2 + 1 / b**2), rel=1e-3)
    lever = next(i for i, s in enumerate(her.sources) if s.what == "along")
    assert found.spread[lever, lever] == pytest.approx(1.0)


def test_a_slip_is_named() -> None:
    """One draught 15 mm off among readings of the boat as she is: that one is named."""
    her = with_readings(plover(), SET)
    true = Off(her=her, off=np.zeros(len(her.sources)))
    good = read_of(true, SET, np.random.default_rng(1))
    assert fit(with_readings(plover(), tuple(good))).odd is None
    good += [good[0].model_copy(update={"at": "middle", "draught": 0.0915})]
    bad = fit(with_readings(plover(), tuple(good)))
    assert bad.odd == len(good) - 1
    assert bad.agreement == "not"
    assert bad.wider == 0.0  # water is flat: no boat has her draughts out of line
    assert fit(with_readings(plover(), tuple(good[:-1]))).wider == 1.0


def test_a_list_that_is_farther_off_than_it_says_is_told_from_a_slip() -> None:
    """Everything that weighs is 2.5 times its ± too heavy, all one way: wider lists explain it."""
    her = with_readings(plover(), SET)
    off = np.array([2.5 * WIDE if source.what == "mass" else 0.0 for source in her.sources])
    true = Off(her=her, off=off)
    found = fit(with_readings(plover(), tuple(read_of(true, SET, np.random.default_rng(5)))))
    assert found.agreement == "not"
    assert 2.0 <= found.wider <= 8.0


def test_repeated_readings_are_averaged_and_their_scatter_told() -> None:
    """97, 98 and 99 mm: mean 98 mm, standard deviation 1 mm, ± 1.96/sqrt(3) mm, by hand."""
    three = [Reading(date=DAY, at="bow", draught=d) for d in (0.097, 0.098, 0.099)]
    (found,) = averaged(three)
    assert (found.count, found.one.draught) == (3, pytest.approx(0.098))
    assert found.scatter == pytest.approx(0.001)
    assert found.half == pytest.approx(1.96e-3 / 3**0.5, rel=1e-3)


def test_chance_is_that_of_the_chi_square_table() -> None:
    """Table of chi-square: 12.592 at six degrees 0.05, 18.307 at ten 0.05 (any handbook)."""
    assert chance_of(12.592, 6) == pytest.approx(0.05, abs=5e-5)
    assert chance_of(18.307, 10) == pytest.approx(0.05, abs=5e-5)
