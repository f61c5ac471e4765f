"""Seals: a groove worked by hand, the rules, and what is refused."""

import pytest

from trimdive.errors import GeometryError
from trimdive.vessels.seals import (
    closing_force,
    face_seal,
    face_seals_around,
    gland,
    radial_seal,
    ring,
    rule,
    seals_for,
    thinned,
    thinned_by_volume,
)


@pytest.mark.parametrize(
    ("stretch", "loss"),
    [(1, 1.002), (2, 1.735), (3, 2.476), (5, 3.395), (6.21, 4.05), (8, 4.986)],
)
def test_thinning_as_makers_give_it(stretch: float, loss: float) -> None:
    """Worked out apart from the program; a published check has 4.04 at 6.21 %."""
    assert thinned(stretch / 100) * 100 == pytest.approx(loss, abs=6e-3)


@pytest.mark.parametrize(("stretch", "loss"), [(1, 0.496), (2, 0.985), (3, 1.467), (5, 2.410)])
def test_thinning_by_volume(stretch: float, loss: float) -> None:
    """Rubber keeps its volume: 1 - 1/√(1+X); the makers' form is the larger, so the safer."""
    assert thinned_by_volume(stretch / 100) * 100 == pytest.approx(loss, abs=6e-4)
    assert thinned(stretch / 100) > thinned_by_volume(stretch / 100)


def test_a_ring_not_stretched_keeps_its_thickness() -> None:
    assert thinned(0.0) == 0.0 == thinned(-0.02)
    assert 0 <= thinned(1e-6) < 1e-4


def test_a_plug_worked_by_hand() -> None:
    """Bore 3.000 in, ring 149 of 2.800 × 0.103 in pressed 22 %: bottom 2.8393 in, stretched 1.4 %.

    Depth 0.08034 in, width by 70 % fill 0.14816 in. Squeeze with the makers' thinning at that
    stretch; ± 0.003 in of the section, ± 0.05 mm (0.00197 in) of the depth, ± 0.1 mm of the width.
    """
    inch = 0.0254
    one = ring("149")
    assert one.inside == pytest.approx(2.800 * inch, rel=1e-3)
    seal = radial_seal(one, "plug", 3.0 * inch, 0.0, 0.006 * inch)
    depth = 0.103 * 0.78
    bottom = 3.0 - 2 * depth
    stretch = bottom / (one.inside / inch) - 1
    assert seal.bottom / inch == pytest.approx(bottom)
    assert seal.cut / inch == pytest.approx(depth - 0.006)
    assert seal.width / inch == pytest.approx(0.14816, abs=1e-5)
    assert seal.stretch.usual == pytest.approx(stretch)
    thin = 0.103 * (1 - thinned(stretch))
    assert seal.squeeze.usual == pytest.approx(1 - depth / thin)
    assert seal.squeeze.most == pytest.approx(1 - (depth - 0.0019685) / 0.106)  # not stretched
    worst = 0.7853982 * 0.106**2 / ((depth - 0.0019685) * (0.14816 - 0.0039370))
    assert seal.fill.most == pytest.approx(worst, abs=1e-4)  # 78.1 %
    assert seal.is_good


def test_the_worst_lies_outside_the_usual() -> None:
    for seal in (*seals_for("plug", 0.104), *seals_for("sleeve", 0.110), *face_seals_around(0.1)):
        for figure in (seal.squeeze, seal.stretch, seal.fill):
            assert figure.least < figure.usual < figure.most


@pytest.mark.parametrize("place", ["plug", "sleeve"])
@pytest.mark.parametrize("across", [0.03, 0.05, 0.07, 0.09, 0.104, 0.15, 0.2])
def test_rings_found_keep_every_rule(place: str, across: float) -> None:
    """Stretch 1 to 5 %, squeeze at least 10 %, fill at most 85 %: makers' guides."""
    found = seals_for(place, across)  # pyright: ignore
    assert len({seal.ring.section for seal in found}) == len(found)
    for seal in found:
        assert 0.01 <= seal.stretch.usual <= 0.05
        assert seal.squeeze.least >= 0.10
        assert seal.squeeze.usual <= 0.30
        assert seal.fill.most <= 0.85
        around = seal.bottom if place == "plug" else across
        assert around == pytest.approx(seal.ring.inside * (1 + seal.stretch.usual))


def test_a_bore_not_measured_closely_costs_squeeze() -> None:
    one = ring("149")
    close = radial_seal(one, "plug", 0.0762, 0.0, 0.15e-3)
    loose = radial_seal(one, "plug", 0.0762, 0.2e-3, 0.15e-3)
    assert loose.squeeze.least < close.squeeze.least
    assert loose.fill.most > close.fill.most
    with pytest.raises(
        GeometryError, match=r"Measure or turn the bore to within ± 0\.\d\d mm: then"
    ):
        seals_for("plug", 0.104, 0.4e-3)


def test_a_ring_that_is_too_small_or_too_loose_says_so() -> None:
    loose = radial_seal(ring("153"), "plug", 0.0762, 0.0, 0.15e-3)
    small = radial_seal(ring("140"), "plug", 0.0762, 0.0, 0.15e-3)
    assert "ring-loose" in {fault.kind for fault in loose.faults}
    assert "ring-too-small" in {fault.kind for fault in small.faults}


def test_a_face_groove_for_pressure_from_outside() -> None:
    """The ring lies against the inner wall; 346 is 4.100 × 0.210 in, pressed 24 %.

    Depth 0.1596 in, width by 70 % fill π/4 × 0.210 / (0.70 × 0.76) = 0.310026 in.
    """
    seal = face_seal(ring("346"))
    assert seal.bottom == seal.ring.inside
    assert seal.outer - seal.bottom == pytest.approx(2 * 0.3100256 * 0.0254, rel=1e-6)
    assert seal.cut == pytest.approx(0.1596 * 0.0254)
    assert seal.outer > seal.ring.outside  # there is room for it to be pressed flat


def test_faces_around_an_opening_take_the_smallest_ring_that_clears_it() -> None:
    for seal in face_seals_around(0.104):
        assert seal.ring.inside >= 0.104
        smaller = seal.ring.inside - 0.104
        assert smaller < 0.02


def test_a_face_wants_force_and_a_bore_none() -> None:
    face, bore = face_seal(ring("243")), radial_seal(ring("149"), "plug", 0.0762, 0.0, 0.15e-3)
    assert closing_force(face) > 500
    assert closing_force(bore) == 0.0


def test_the_chamfer_lets_the_ring_slide_in() -> None:
    """1.5 times the squeeze across, at 20°: longer than it is deep."""
    seal = radial_seal(ring("149"), "plug", 0.0762, 0.0, 0.15e-3)
    deep = 1.5 * (seal.ring.section - seal.gland.depth_least)
    assert seal.chamfer == pytest.approx(deep / 0.36397, rel=1e-4)
    assert rule("chamfer-angle") == pytest.approx(0.349066, rel=1e-5)


@pytest.mark.parametrize(
    ("place", "across", "said"),
    [
        (
            "plug",
            0.010,
            r"no ring seals on 10\.00 .* The nearest is \d+, which is .* suits a bore of",
        ),
        ("plug", 0.9, "The nearest is 475"),
        ("sleeve", 0.002, "no ring seals on 2 mm. Make it more than"),
        ("plug", float("nan"), "diameter is nan mm"),
        ("plug", -0.1, "Give a number above 0"),
    ],
)
def test_bores_without_a_ring(place: str, across: float, said: str) -> None:
    with pytest.raises(GeometryError, match=said):
        seals_for(place, across)  # pyright: ignore


def test_grooves_that_are_not_known() -> None:
    with pytest.raises(GeometryError, match=r"no groove is known for a ring 1\.02 mm thick"):
        radial_seal(ring("001"), "plug", 0.01, 0.0, 0.0)
    with pytest.raises(
        GeometryError, match=r"no groove is 'turning'\. Known: radial, face, moving"
    ):
        gland(0.00262, "turning")  # pyright: ignore
    with pytest.raises(GeometryError, match="no ring goes around 900 mm"):
        face_seals_around(0.9)
    with pytest.raises(GeometryError, match="gap 5 mm"):
        radial_seal(ring("149"), "plug", 0.0762, 0.0, 5e-3)
