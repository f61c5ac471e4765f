"""The weakest part and its depth: figures by hand from p = ρ g h; factors as given."""

import pytest

from trimdive.data import row, table
from trimdive.errors import StrengthError
from trimdive.fact import Fact, fact
from trimdive.vessels.strength import (
    Factors,
    Hole,
    Strength,
    cap,
    cap_yields_at,
    collapse,
    material,
    measured,
    strength,
    tube,
    usual_factors,
    yields_at,
)

FRESH = 999.1
ACRYLIC = measured(material("acrylic", 21.111), modulus=2.8e9, limit=70e6)
ROUND = tube(0.110, 0.003, 0.4, 0.0)


def answer(thickness: float = 0.008, **more: object) -> Strength:
    caps = [(cap("fore cap", 0.104, thickness), ACRYLIC), (cap("after cap", 0.104, 0.02), ACRYLIC)]
    return strength(ROUND, ACRYLIC, caps, FRESH, **more)  # pyright: ignore


def test_a_round_tube_goes_as_deep_as_its_collapse_leaves() -> None:
    """0.2466 MPa of case A over 6, over 999.1 · 9.80665: 4.195 m; it folds at 25.17 m."""
    found = answer()
    assert found.weakest.way == "folded"
    assert found.depth == pytest.approx(0.24660e6 / 6 / (FRESH * 9.80665), rel=2e-4)
    assert found.weakest.gives_way == pytest.approx(25.17, abs=0.02)
    assert found.round.lobes == 2


def test_a_thin_cap_is_weakest() -> None:
    """Supported, 4.841 MPa on 8 mm at a 50 and 10 m; here a 52 and 2 mm, factor 4."""
    found = answer(0.002)
    stress = 3 * 3.37 / 8 * (52 / 2) ** 2
    assert found.weakest.cap == "fore cap"
    assert found.depth == pytest.approx(70e6 / stress / 4 / (FRESH * 9.80665), rel=1e-6)


def test_parts_stand_in_order_and_each_is_there() -> None:
    found = answer()
    depths = [part.depth for part in found.parts]
    assert depths == sorted(depths)
    by_name = {part.cap or part.way: part for part in found.parts}
    assert set(by_name) == {"crushed", "folded", "fore cap", "after cap"}
    assert by_name["crushed"].fails == yields_at(ROUND, 70e6)
    assert by_name["after cap"].fails == cap_yields_at(cap("c", 0.104, 0.02), ACRYLIC)


def test_a_vacuum_takes_depth_and_overpressure_gives_none() -> None:
    """A vacuum of 9.798 kPa is a metre of fresh water."""
    plain, sucked = answer(), answer(inside=-FRESH * 9.80665)
    assert plain.depth - sucked.depth == pytest.approx(1.0)
    assert answer(inside=2e4).depth == plain.depth


def test_factors_are_the_builders() -> None:
    own = answer(factors=Factors(buckling=3.0, yielding=2.0))
    assert own.depth == pytest.approx(2 * answer().depth)
    with pytest.raises(StrengthError, match=r"a safety factor of 0\.5\. Give 1 or more"):
        answer(factors=Factors(buckling=0.5, yielding=2.0))


def test_factors_follow_the_material() -> None:
    """Common practice, no source: 6 for acrylic, 4 for pipe, 3 for metals; yield 4, 4, 2."""
    for name, buckling, yielding in (("acrylic", 6, 4), ("PVC-U", 4, 4), ("aluminium", 3, 2)):
        assert usual_factors(material(name)) == Factors(buckling=buckling, yielding=yielding)


def test_a_load_that_stays_halves_the_modulus() -> None:
    """Half of the collapse, by von Mises' formula, which is linear in E."""
    short, held = material("acrylic"), material("acrylic", held=True)
    half = collapse(ROUND, held.modulus, held.poisson).pressure
    assert half == pytest.approx(collapse(ROUND, short.modulus, short.poisson).pressure / 2)
    assert material("aluminium", held=True) == material("aluminium")


def test_margin_and_test_pressure() -> None:
    found = answer()
    assert found.margin(found.depth) == pytest.approx(1.0)
    assert found.margin(found.depth / 2) == pytest.approx(2.0)
    assert found.margin(0.0) == float("inf")
    assert found.test_pressure == pytest.approx(1.5 * FRESH * 9.80665 * found.depth)
    assert found.test_pressure < found.weakest.fails


def test_out_of_round_takes_depth() -> None:
    oval = tube(0.110, 0.003, 0.4, 0.001)
    found = strength(oval, ACRYLIC, [], FRESH)
    assert found.weakest.fails == pytest.approx(0.2176e6, abs=60)  # ring formula, by hand
    assert found.depth < answer().depth


def test_holes_take_depth() -> None:
    holed = cap("fore cap", 0.104, 0.002, holes=(Hole(out=0.0, across=0.006),))
    found = strength(ROUND, ACRYLIC, [(holed, ACRYLIC)], FRESH)
    assert found.depth == pytest.approx(answer(0.002).depth / 2)


def remembered(figure: str, name: str) -> Fact:
    return fact("from-memory", figure=figure, material=name)


def test_what_is_from_memory_is_told() -> None:
    brass = material("brass")
    found = strength(ROUND, brass, [], FRESH)
    assert found.doubts == (remembered("stiffness", "brass"), remembered("strength", "brass"))
    warm = material("polycarbonate").doubts
    assert fact("unknown-when-warm", material="polycarbonate") in warm


def test_a_thick_wall_is_told() -> None:
    assert strength(tube(0.03, 0.003, 0.2), ACRYLIC, [], FRESH).doubts == (fact("wall-thick"),)
    assert strength(ROUND, ACRYLIC, [], FRESH).doubts == ()


def test_what_is_borne_for_good_says_where_it_is_from() -> None:
    held = material("PVC-U", held=True).doubts
    assert remembered("strength", "PVC-U") in held
    assert remembered("held stiffness", "PVC-U") in held
    assert material("PVC-U").doubts == (remembered("stiffness", "PVC-U"),)
    assert material("acrylic").doubts == ()


@pytest.mark.parametrize("entry", table("strengths"), ids=lambda entry: entry["material"])
def test_every_material_is_whole(entry: dict[str, str]) -> None:
    """Each has a density and a stiffness too; for good it bears no more than for a while."""
    short, held = (material(entry["material"], held=held) for held in (False, True))
    assert row("materials", short.name)
    assert 0 < held.limit <= short.limit < 1e9
    assert 0 < short.poisson < 0.5
    is_metal = entry["kind"] == "metal"
    assert is_metal == (held == short)
    assert (entry["held_status"] == "") == is_metal


def test_unknown_materials_and_waters() -> None:
    with pytest.raises(StrengthError, match="Did you mean 'acrylic'"):
        material("acrilic")
    with pytest.raises(StrengthError, match=r"water of 0 kg/m³"):
        strength(ROUND, ACRYLIC, [], 0.0)
    with pytest.raises(StrengthError, match="modulus of 0 MPa"):
        measured(ACRYLIC, modulus=0.0)


def test_a_very_deep_vacuum_leaves_nothing() -> None:
    assert answer(inside=-90_000).depth == 0.0
