"""Litres by tape against the true skin of hulls by formula, integrated independently."""

from dataclasses import replace

import numpy as np
import pytest
from tests.tape.hulls import HULLS, Hull, enclosed_volume, skin_volume
from tests.tape.readings import GRP, taken_off

from trimdive.estimates.tape import Moulding, Standing, tape_litres
from trimdive.estimates.tape.answer import TapeResult
from trimdive.estimates.tape.model import hull_piece, moves, standing_piece

WALL = 0.0024
SPREADS = [("all along", 0.0, 1.0), ("ends left out", 0.06, 0.94), ("one end left out", 0.02, 0.9)]


def by_name(hull: Hull) -> str:
    return hull.name


@pytest.mark.parametrize("count", [5, 7, 9, 11])
@pytest.mark.parametrize("spread", SPREADS, ids=lambda one: one[0])
@pytest.mark.parametrize("hull", HULLS, ids=by_name)
def test_spread_holds_the_true_skin(
    hull: Hull, spread: tuple[str, float, float], count: int
) -> None:
    _, first, last = spread
    volume, x = skin_volume(hull, WALL)
    places = np.linspace(first, last, count) * hull.length
    found = tape_litres(taken_off(hull, places, walls=(WALL,) * 5))
    assert abs(found.volume - volume) < found.spread
    assert abs(found.x - x) < found.x_spread
    assert found.doubts == ()


@pytest.mark.parametrize("hull", HULLS, ids=by_name)
def test_the_gaps_alone_hold_it(hull: Hull) -> None:
    # The wall is exact here, so what gaps and ends leave open must hold the error by itself.
    volume, _ = skin_volume(hull, WALL)
    places = np.linspace(0.03, 0.97, 9) * hull.length
    found = tape_litres(taken_off(hull, places, walls=(WALL,) * 5))
    gaps = [cause.spread for cause in found.causes if cause.group in {"places", "ends", "slope"}]
    error = abs(found.volume - volume)
    assert error < np.hypot.reduce(gaps) + 0.015 * volume  # 1.5 %: knuckles, waterplane edge
    assert found.spread < 0.12 * volume  # and yet it says something


@pytest.mark.parametrize("hull", HULLS, ids=by_name)
def test_the_moulding_on_the_scale_says_the_same(hull: Hull) -> None:
    volume, x = skin_volume(hull, WALL)
    places = np.linspace(0.03, 0.97, 9) * hull.length
    scale = Moulding(mass=volume * GRP.density)
    found = tape_litres(taken_off(hull, places, moulding=scale))
    assert found.volume == pytest.approx(volume, rel=1e-9)
    assert found.mass_above == pytest.approx(volume * GRP.density, rel=1e-9)
    assert abs(found.x - x) < found.x_spread
    both = tape_litres(taken_off(hull, places, walls=(WALL,) * 5, moulding=scale))
    assert both.spread < found.spread
    assert abs(both.volume - volume) < both.spread
    assert both.doubts == ()


def test_an_edge_above_the_waterline_adds_a_strip() -> None:
    hull = HULLS[2]
    places = np.linspace(0.03, 0.97, 9) * hull.length
    plain, raised = (
        tape_litres(
            taken_off(hull, places, walls=(WALL,) * 5, moulding=Moulding(mass=2.0, edge=edge))
        )
        for edge in (0.0, 0.006)
    )
    # A strip on both sides, as long as the hull: 2 · 2.3 m · 6 mm · 2.4 mm = 66 cm³ by the scale.
    strip = 2 * 2.3 * 0.006 * WALL
    assert 0.0 < raised.volume - plain.volume < strip


def true_or_near(result: TapeResult, rng: np.random.Generator, count: int) -> np.ndarray:
    """Return litres with every input drawn from its normal spread."""
    her = result.readings
    pieces = [hull_piece(her), *(standing_piece(thing) for thing in her.standing)]
    sums = np.zeros(count)
    for piece in pieces:
        draws = {one.key: rng.normal(one.value, one.spread / 1.96, count) for one in piece.inputs}
        for k in range(count):
            sums[k] += piece.sums({key: float(values[k]) for key, values in draws.items()})[0]
    return sums


@pytest.mark.parametrize("how", ["walls", "moulding", "both"])
def test_error_propagation_against_monte_carlo(how: str) -> None:
    hull = HULLS[2]
    volume, _ = skin_volume(hull, WALL)
    her = taken_off(
        hull,
        np.linspace(0.03, 0.97, 7) * hull.length,
        walls=() if how == "moulding" else (0.0022, 0.0025, 0.0026, 0.0023),
        moulding=None if how == "walls" else Moulding(mass=volume * GRP.density),
    )
    things = (
        Standing(name="tower", x=1.4, material=GRP, girth=0.6, height=0.15, wall=0.002),
        Standing(name="house", x=0.8, material=GRP, mass=0.1, hung=0.02),
        Standing(name="foam", x=1.0, material=GRP, volume=40e-6),
    )
    found = tape_litres(replace(her, standing=things))
    drawn = true_or_near(found, np.random.default_rng(20261125), 1500)
    # 1500 draws tell a spread to within about 4 % (1 / √(2 n), twice); the rest is curvature.
    assert 1.96 * drawn.std() == pytest.approx(found.spread, rel=0.08)
    assert drawn.mean() == pytest.approx(found.volume, rel=0.005)


def test_causes_add_up_to_the_spread() -> None:
    found = tape_litres(taken_off(HULLS[3], np.linspace(0.03, 0.97, 7) * 1.3, walls=(WALL,) * 3))
    assert sum(cause.share for cause in found.causes) == pytest.approx(1.0)
    assert np.hypot.reduce([cause.spread for cause in found.causes]) == pytest.approx(found.spread)
    assert found.causes[0].spread == max(cause.spread for cause in found.causes)


@pytest.mark.parametrize(
    ("walls", "count", "helps"),
    [((WALL,), 11, "tape-walls"), ((WALL,) * 40, 5, "tape-girth-at")],
)
def test_what_helps_most_helps(walls: tuple[float, ...], count: int, helps: str) -> None:
    hull = HULLS[0]
    found = tape_litres(taken_off(hull, np.linspace(0.01, 0.99, count) * hull.length, walls=walls))
    assert found.next_measurement.kind == helps
    more = tape_litres(
        taken_off(hull, np.linspace(0.01, 0.99, 2 * count - 1) * hull.length, walls=walls * 5)
    )
    first = found.causes[0]
    after = next(cause for cause in more.causes if cause.group == first.group)
    assert after.spread < 0.7 * first.spread


def test_closed_forms() -> None:
    # An upright tower of girth 0.4, height 0.1 and wall 2 mm, open above: girth halfway through
    # the wall is less by π · wall.
    tower = Standing(
        name="tower", x=0.5, material=GRP, girth=0.4, height=0.1, wall=0.002, has_top=False
    )
    piece = standing_piece(tower)
    volume, moment = piece.sums({one.key: one.value for one in piece.inputs})
    assert volume == pytest.approx(0.002 * 0.1 * (0.4 - np.pi * 0.002), rel=1e-12)
    assert moment == pytest.approx(0.5 * volume, rel=1e-12)
    # Archimedes: 96 g in air, 19 g under water push aside 77 g of water.
    house = standing_piece(Standing(name="house", x=0.8, material=GRP, mass=0.096, hung=0.019))
    assert house.sums({one.key: one.value for one in house.inputs})[0] == pytest.approx(
        0.077 / 999.1, rel=1e-12
    )
    assert len(moves(house)) == 3


@pytest.mark.parametrize("hull", HULLS, ids=by_name)
def test_a_dry_hull_counts_whole(hull: Hull) -> None:
    volume, x = enclosed_volume(hull)
    found = tape_litres(taken_off(hull, np.linspace(0.02, 0.98, 9) * hull.length, kind="dry"))
    assert abs(found.volume - volume) < found.spread
    assert abs(found.x - x) < found.x_spread


def test_measured_from_the_bow_it_is_the_same() -> None:
    hull = HULLS[2]
    places = np.linspace(0.03, 0.97, 7) * hull.length
    her = taken_off(hull, places, walls=(WALL,) * 3)
    turned = replace(
        her,
        girths=tuple(replace(one, x=hull.length - one.x) for one in reversed(her.girths)),
    )
    one, other = tape_litres(her), tape_litres(turned)
    assert other.volume == pytest.approx(one.volume, rel=1e-12)
    assert other.spread == pytest.approx(one.spread, rel=1e-9)
    assert other.x == pytest.approx(hull.length - one.x, rel=1e-9)


def test_litres_grow_with_the_cube_of_the_scale() -> None:
    hull = HULLS[3]
    her = taken_off(hull, np.linspace(0.03, 0.97, 7) * hull.length, walls=(WALL,) * 3)
    large = replace(
        her,
        length=2 * her.length,
        walls=tuple(2 * wall for wall in her.walls),
        girths=tuple(replace(one, x=2 * one.x, girth=2 * one.girth) for one in her.girths),
    )
    assert tape_litres(large).volume == pytest.approx(8 * tape_litres(her).volume, rel=1e-9)
