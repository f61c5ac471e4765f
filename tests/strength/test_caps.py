"""Caps: the rule for holes against the exact plate with a hole, and what is refused."""

from math import log

import pytest
from scipy.integrate import quad

from trimdive.errors import GeometryError
from trimdive.vessels.strength import Hole, cap, cap_stress, cap_yields_at, material, plain_stress
from trimdive.vessels.strength.caps import cap_doubts


def exact_rim(share: float, poisson: float) -> float:
    """Return k in σ = k p a²/t² at the rim of a hole b = share · a of a supported plate.

    Theory of Plates and Shells: (1/r (r φ)')' = Q/D with Q = p (r² - b²)/2r and no moment along
    the radius at b and a; solved by quadrature, with a = p = D = 1.
    """

    def bent(r: float) -> float:
        return ((r**2 - share**2) / 2 - share**2 * log(r / share)) / 2

    def rising(r: float) -> float:
        return r * bent(r)

    whole = quad(rising, share, 1.0)[0]
    # r φ = I(r) + c1 (r² - b²)/2 + c2; M_r ~ φ' + ν φ/r = (r φ)'/r - (1 - ν) φ/r, none at b and a
    # at b: c1 - (1-ν) c2 / b² = 0;  at a: bent(1) + c1 - (1-ν)(I + c1 (1-b²)/2 + c2) = 0
    back = 1 - poisson
    one = 1 - back * (1 - share**2) / 2 - share**2
    c1 = (back * whole - bent(1.0)) / one
    c2 = c1 * share**2 / back
    # M_t = φ/r + ν φ' at b, where φ' = c1 - φ/r
    slope = c2 / share**2
    return 6 * abs(slope + poisson * (c1 - slope))


@pytest.mark.parametrize(
    ("over", "printed"), [(1.25, 0.592), (1.5, 0.976), (2, 1.440), (3, 1.880), (4, 2.08), (5, 2.19)]
)
def test_exact_plates_are_those_of_the_book(over: float, printed: float) -> None:
    """Theory of Plates and Shells, table of plates with a hole, ν = 0.3, from memory."""
    assert exact_rim(1 / over, 0.3) == pytest.approx(printed, abs=6e-3)


@pytest.mark.parametrize("poisson", [0.30, 0.37])
@pytest.mark.parametrize("share", [0.001, 0.02, 0.1, 0.3, 0.6])
def test_the_rule_for_holes_is_on_the_safe_side(share: float, poisson: float) -> None:
    shape = cap("cap", 2.0, 0.1, "supported", (Hole(out=0.0, across=2 * share),))
    ours = cap_stress(shape, poisson, 1.0) * 0.1**2
    exact = exact_rim(share, poisson)
    assert ours >= exact * (1 - 1e-9)
    if share == 0.001:
        assert ours == pytest.approx(exact, rel=1e-3)


def test_a_small_hole_in_the_middle_doubles_the_stress() -> None:
    """Theory of Plates and Shells: a very small hole in the middle doubles it."""
    plain = cap("cap", 0.1, 0.008)
    holed = cap("cap", 0.1, 0.008, holes=(Hole(out=0.0, across=0.002),))
    assert cap_stress(holed, 0.37, 1e5) == pytest.approx(2 * plain_stress(plain, 0.37, 1e5))


def test_nowhere_does_a_small_hole_more_than_double_it() -> None:
    """3 σ1 - σ2 falls from the middle outward: closed form, supported."""
    plain = plain_stress(cap("cap", 0.1, 0.008), 0.37, 1e5)
    worst = [
        cap_stress(cap("cap", 0.1, 0.008, holes=(Hole(out=k * 1e-3, across=1e-3),)), 0.37, 1e5)
        for k in range(0, 49, 4)
    ]
    assert max(worst) == worst[0] == pytest.approx(2 * plain)
    assert worst == sorted(worst, reverse=True)


def test_more_holes_are_weaker() -> None:
    one = cap("cap", 0.1, 0.008, holes=(Hole(out=0.0, across=0.01),))
    two = cap("cap", 0.1, 0.008, holes=(*one.holes, Hole(out=0.03, across=0.02)))
    ratio = cap_stress(two, 0.37, 1e5) / cap_stress(one, 0.37, 1e5)
    assert ratio == pytest.approx(1 / (1 - 0.02 / 0.1))  # a fifth of the diameter is gone


def test_a_clamped_edge_with_a_hole_near_it() -> None:
    """At the edge σ_r = 3/4 p (a/t)² and σ_t = ν σ_r: the rim has (3 - ν) σ_r."""
    near = cap("cap", 0.1, 0.005, "clamped", (Hole(out=0.0499, across=1e-4),))
    assert cap_stress(near, 0.37, 1e5) == pytest.approx(
        (3 - 0.37) * 0.75 * 1e5 * (0.05 / 0.005) ** 2, rel=2e-2
    )


def test_at_its_pressure_a_cap_bears_its_limit() -> None:
    shape, made_of = cap("cap", 0.1, 0.008), material("acrylic")
    pressure = cap_yields_at(shape, made_of)
    assert plain_stress(shape, made_of.poisson, pressure) == pytest.approx(made_of.limit)


def test_what_thin_plates_do_not_cover_is_said() -> None:
    made_of = material("acrylic")
    assert cap_doubts(cap("fore cap", 0.1, 0.012), made_of, 1e5)[0].kind == "cap-thick"
    assert cap_doubts(cap("fore cap", 0.1, 0.005), made_of, 1e3) == ()
    assert cap_doubts(cap("fore cap", 0.1, 0.002), made_of, 1e5)[0].kind == "cap-sags"


@pytest.mark.parametrize(
    ("across", "thickness", "edge", "holes", "said"),
    [
        (0.1, 0.0, "clamped", (), "fore cap: its thickness is 0 mm. Give a number above 0"),
        (-0.1, 0.01, "clamped", (), "diameter is -100 mm"),
        (0.1, 0.01, "glued", (), "an edge cannot be 'glued'. Write one of: supported, clamped"),
        (0.1, 0.01, "clamped", (Hole(out=0.048, across=0.01),), "Keep holes within 50 mm"),
        (0.1, 0.01, "clamped", (Hole(out=0.0, across=0.06),) * 2, "Make them fewer"),
    ],
)
def test_caps_that_cannot_be(
    across: float, thickness: float, edge: str, holes: tuple[Hole, ...], said: str
) -> None:
    with pytest.raises(GeometryError, match=said):
        cap("fore cap", across, thickness, edge, holes)
