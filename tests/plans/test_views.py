"""Views on one sheet: laid to the stern, checked against each other, carried into the volume."""

from dataclasses import replace

import numpy as np
import pytest

from trimdive.boatfile import Waterline as Marked
from trimdive.errors import PlanError
from trimdive.geometry.lines import Floats, volume
from trimdive.geometry.lines.outline import boxes, outlined
from trimdive.geometry.lines.outline_given import outline_of
from trimdive.plans.agree import apart, between
from trimdive.plans.outline import finishes, outline_figures, outline_region
from trimdive.plans.spread import traced_spread
from trimdive.plans.views import Traced, TracedSection, View, traced

L, B, T = 1.0, 0.1, 0.0625
WORTH = 2e-4
X = np.linspace(0.0, L, 21)
STATIONS = (0.1, 0.25, 0.5, 0.75, 0.9)


def half_breadth(x: Floats | float) -> Floats:
    breadths: Floats = B / 2 * (1 - (2 * np.asarray(x, dtype=np.float64) / L - 1) ** 2)
    return breadths


def section(x: float, broader: float = 0.0, higher: float = 0.0) -> TracedSection:
    z = np.linspace(0.0, T, 9)
    side = (float(half_breadth(x)) + broader) * (1 - (1 - z / T) ** 2)
    points = np.stack([side, z * (T + higher) / T], axis=1)
    return TracedSection(x=x, points=np.concatenate([points, [(0.0, T + higher)]]))


def hull(
    plan: float = 0.0, broader: dict[float, float] | None = None, higher: float = 0.0
) -> Traced:
    """Return Wigley's hull with views that differ by so much."""
    wide = broader or {}
    return traced(
        np.stack([X, 0 * X], 1),
        np.stack([X, 0 * X + T], 1),
        np.stack([X, half_breadth(X) + plan * (half_breadth(X) > 0)], 1),
        tuple(section(x, wide.get(x, 0.0), higher) for x in STATIONS),
        WORTH,
    )


def as_row(line: Floats, origin: tuple[float, float], times: float, way: float) -> Floats:
    return line / times * (way, 1.0) + origin


@pytest.mark.parametrize(("forward", "way"), [("right", 1.0), ("left", -1.0)])
def test_a_view_is_laid_to_the_stern(forward: str, way: float) -> None:
    line = np.stack([X, half_breadth(X)], 1)
    view = View(origin=(3.0, 2.0), forward="right" if forward == "right" else "left", times=0.02)
    drawn = as_row(line, (3.0, 2.0), 0.02, way)
    assert view.lengthways(drawn) == pytest.approx(line)
    assert view.lengthways(drawn[::-1]) == pytest.approx(line)
    below = as_row(line * (1, -1), (3.0, 2.0), 0.02, way)
    assert view.half_breadths(below) == pytest.approx(line)


def test_a_section_runs_from_the_keel_on_either_side() -> None:
    true = section(0.5).points
    view = View(origin=(1.0, 1.0), times=0.5)
    for way in (1.0, -1.0):
        drawn = as_row(true, (1.0, 1.0), 0.5, way)
        assert view.section(drawn) == pytest.approx(true)
        assert view.section(drawn[:-1]) == pytest.approx(true)  # closed to the centre line
        assert view.section(drawn[:-1][::-1]) == pytest.approx(true)


def test_views_that_agree() -> None:
    found = apart(hull())
    assert len(found) == 3 * len(STATIONS)
    assert max(abs(one.off) for one in found) < 0.2 * WORTH
    taken, _ = between(hull())
    mesh = outlined(outline_of(outline_region(taken, "hull")))
    assert volume(mesh) == pytest.approx(4 / 9 * L * B * T, rel=5e-3)


def test_where_views_disagree_is_told_and_half_way_is_taken() -> None:
    taken, found = between(hull(broader={0.5: 0.004}))
    own = [one for one in found if one.what == "half-breadth" and abs(one.off) > 1e-3]
    assert [(one.x, round(one.off, 4)) for one in own] == [(0.5, 0.004)]
    assert taken.half[10, 1] == pytest.approx(B / 2 + 0.002, abs=1e-5)
    assert taken.half[5, 1] == pytest.approx(float(half_breadth(0.25)), abs=1e-4)
    middle = next(one for one in taken.sections if one.x == 0.5)
    assert middle.points[:, 0].max() == pytest.approx(B / 2 + 0.002, abs=1e-5)


def test_a_plan_that_is_broader_all_along_makes_the_volume_that_unsure() -> None:
    """Breadths d too small everywhere: the volume by d/b of itself, b the mean breadth."""
    brim = Marked(height=T * (1 - 1e-9))
    sure, unsure = traced_spread(hull(), brim), traced_spread(hull(plan=0.002), brim)
    assert sure.of_views[0] < 0.01 * sure.envelope.value
    # Half-breadths of ± 2 mm between 0.1 L and 0.9 L, to nothing at the ends: 0.9 L in the mean,
    # over T, with the fullness of the sections (2/3), on both sides.
    expected = 2 * 0.002 * 0.9 * L * T * 2 / 3
    assert unsure.of_views[0] == pytest.approx(expected, rel=0.05)
    assert unsure.of_views[2] == pytest.approx(2 * 0.002 * 0.9 * L, rel=0.05)
    assert unsure.envelope.spread > sure.envelope.spread


def test_heights_that_differ() -> None:
    spread = traced_spread(hull(higher=0.003), None)
    decks = [one for one in spread.apart if one.what == "deck"]
    assert [one.off for one in decks] == pytest.approx([0.003] * len(STATIONS))
    assert spread.of_views[0] > 0.003 / T * 0.5 * spread.envelope.value


def test_the_scale_goes_by_the_cube() -> None:
    spread = traced_spread(hull(), Marked(height=0.05), scale=-0.01)
    assert spread.of_scale == pytest.approx(
        np.array([0.03 * spread.envelope.value, 0.03 * spread.nabla.value, 0.02, 0.01])
        * (1, 1, spread.waterplane.value, spread.bm_t.value)
    )
    whole = spread.of_outline**2 + spread.of_views**2 + spread.of_ink**2 + spread.of_scale**2
    assert spread.nabla.spread == pytest.approx(np.sqrt(whole[1]))


def test_half_a_pixel_of_ink() -> None:
    """Every line half a pixel out: breadth on both sides, keel and deck, as independent errors."""
    spread = traced_spread(hull(), None)
    sides, ends = 0.5 * WORTH * 2 * L * T * 2 / 3, 0.5 * WORTH * L * B * 2 / 3 * 2 / 3
    assert spread.of_ink[0] == pytest.approx(np.sqrt(sides**2 + 2 * ends**2), rel=0.05)


def test_few_points_pass_near_all() -> None:
    figures = outline_figures(between(hull())[0])
    rows = figures["breadths"]
    assert isinstance(rows, list)
    assert 3 <= len(rows) <= 9  # of 21
    drawn = boxes(outline_of(outline_region(between(hull())[0], "hull")), X)
    assert drawn.half[:, 0] == pytest.approx(half_breadth(X), abs=0.51 * WORTH)
    assert figures["length"] == L
    assert figures["breadth"] == pytest.approx(B, abs=1e-5)
    assert figures["height"] == pytest.approx(T, abs=1e-5)


def test_how_the_ends_finish() -> None:
    sharp = finishes(hull())
    assert (sharp.stern, sharp.bow) == ("sharp", "sharp")
    blunt = hull()
    round_ = np.stack([X, B / 2 * np.sqrt(np.maximum(1 - (2 * X / L - 1) ** 2, 0.0))], 1)
    ends = finishes(replace(blunt, half=round_))
    assert (ends.stern, ends.bow) == ("round", "round")


def test_a_hull_without_a_plan_has_the_breadths_of_its_sections() -> None:
    bare = traced(hull().keel, hull().deck, None, hull().sections, WORTH)
    region = outline_region(between(bare)[0], "hull")
    assert region.breadths == ()
    mesh = outlined(outline_of(region))
    assert volume(mesh) == pytest.approx(4 / 9 * L * B * T, rel=0.03)


def test_keel_and_deck_that_all_but_meet_at_the_bow_meet() -> None:
    deck = np.concatenate([DECK[:-1], [(L, -0.4 * WORTH)]])
    found = traced(KEEL, deck, PLAN, ONE, WORTH)
    assert found.deck[-1, 1] == found.keel[-1, 1]
    assert outline_region(between(found)[0], "hull").profile[-1].keel == pytest.approx(
        0.0, abs=WORTH
    )


def test_an_upright_stem_belongs_to_the_keel() -> None:
    stem = np.concatenate([KEEL, [(L, T / 2), (L, T)]])
    assert traced(stem, DECK, PLAN, ONE, WORTH).keel == pytest.approx(KEEL)


def test_a_section_a_hair_beyond_the_stern_stands_at_the_stern() -> None:
    blunt = replace(section(0.5), x=-0.5 * WORTH)
    found = traced(KEEL, DECK, PLAN, (blunt, *ONE), WORTH)
    assert found.sections[0].x == 0.0
    assert len(between(found)[1]) == 6


def test_ends_of_plan_and_profile_that_differ_make_the_length_unsure() -> None:
    short = hull().half * (0.99, 1.0)
    found = replace(hull(), half=short)
    assert between(found)[0].half[-1, 0] == pytest.approx(L)
    spread = traced_spread(found, None)
    assert spread.of_views[0] > 0.009 * spread.envelope.value


KEEL, DECK = np.stack([X, 0 * X], 1), np.stack([X, 0 * X + T], 1)
PLAN = np.stack([X, half_breadth(X)], 1)
BACK = np.array([(0.0, 0.0), (0.5, 0.0), (0.3, 0.0), (1.0, 0.0)])
ONE = (section(0.5),)


@pytest.mark.parametrize(
    ("keel", "deck", "half", "sections", "said"),
    [
        (DECK, KEEL, PLAN, ONE, "profile: keel and deck cross at 0.0 mm from the stern"),
        (BACK, DECK, PLAN, ONE, "keel: the line runs back at 300.0 mm from the stern"),
        (KEEL[:1], DECK, PLAN, ONE, "keel: the line has 1 of two points or more"),
        (KEEL[:0], DECK, PLAN, ONE, "keel: the line has 0 of two points or more"),
        (KEEL * np.nan, DECK, PLAN, ONE, "keel: a point of the line is no place"),
        (KEEL[:-2], DECK, PLAN, ONE, "keel: the line ends 100.0 mm short of the bow"),
        (KEEL, DECK, PLAN * (1.1, 1.0), ONE, "the plan reaches 100.0 mm beyond the profile"),
        (KEEL, DECK, PLAN, (), "sections: no section is traced"),
        (KEEL, DECK, PLAN, (section(1.2),), "the section at 1200.0 mm lies outside the profile"),
        (KEEL, DECK, PLAN, (*ONE, *ONE), "two sections stand at 500.0 mm. Keep one of them"),
    ],
)
def test_traces_that_cannot_be_are_refused(
    keel: Floats,
    deck: Floats,
    half: Floats,
    sections: tuple[TracedSection, ...],
    said: str,
) -> None:
    with pytest.raises(PlanError, match=said) as refused:
        traced(keel, deck, half, sections, WORTH)
    assert len(str(refused.value).splitlines()) == 1


@pytest.mark.parametrize(
    ("points", "said"),
    [
        ([(0.0, 0.0), (1.0, 1.0)], "a section has 2 of three points or more"),
        ([(0.0, 0.0), (np.nan, 1.0), (0.0, 2.0)], "a point of a section is no place"),
        ([(0.0, 0.0), (0.0, 1.0), (0.0, 2.0)], "a section encloses nothing"),
        ([(0.0, 1.0), (2.0, 1.0), (0.0, 1.0)], "a section encloses nothing"),
    ],
)
def test_sections_that_cannot_be_are_refused(points: list[tuple[float, float]], said: str) -> None:
    with pytest.raises(PlanError, match=said):
        View(origin=(0.0, 0.0)).section(np.array(points))
