"""Marks on a plan: kept as they were made, and made a hull or refused where they cannot be one."""

import json
from dataclasses import replace

import numpy as np
import pytest
from tests.plans.marked import B, L, T, flat, found, marked, said, whole

from trimdive.errors import PlanError
from trimdive.plans.marks import CORNERS, MOST, Marks, Point, marks_of, written
from trimdive.plans.sheet import Mark
from trimdive.plans.tiles import SIDE, Tiles


def test_marks_are_read_as_they_were_written() -> None:
    marks = whole().with_point("check", Point(at=(1.26, 2.0), on_ink=False))
    back = marks_of(written(marks), "plan.json")
    assert back == replace(marks, points={key: back.of(key) for key in marks.points})
    for key, points in marks.points.items():
        for one, other in zip(points, back.of(key), strict=True):
            assert one.at == pytest.approx(other.at, abs=0.005)
            assert one.on_ink == other.on_ink


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"", "this is no file of marks on a plan"),
        (b"\xff{", "this is no file of marks on a plan"),
        (b"[1, 2]", "this is no file of marks on a plan"),
        (b'{"format": 2}', "its format is 2, and this version reads 1"),
        (b'{"format": 1, "points": {"nose": []}, "typed": {}}', "nothing is called 'nose'"),
        (b'{"format": 1, "points": {"keel": [[1]]}, "typed": {}}', "no file of marks"),
        (b'{"format": 1, "points": {"keel": [[1e999, 0, 1]]}, "typed": {}}', "no file of marks"),
    ],
)
def test_what_is_no_file_of_marks_is_refused(data: bytes, words: str) -> None:
    with pytest.raises(PlanError, match=words.replace("(", "[(]")) as refused:
        marks_of(data, "plan.json")
    assert len(str(refused.value).splitlines()) == 1


def test_a_line_takes_points_at_its_end_and_between() -> None:
    marks = marked(Marks(), "keel", (0.0, 0.0), (50.0, 0.0), (100.0, 0.0), (70.0, 1.0))
    assert [point.at[0] for point in marks.of("keel")] == [0.0, 50.0, 70.0, 100.0]
    assert [point.at[0] for point in marks.without_point("keel", 1).of("keel")] == [
        0.0,
        70.0,
        100.0,
    ]


def test_more_clicks_on_a_pair_move_its_last_point() -> None:
    marks = marked(Marks(), "level", (0.0, 0.0), (50.0, 0.0), (90.0, 0.0))
    assert [point.at[0] for point in marks.of("level")] == [0.0, 90.0]


def test_points_that_are_not_there_and_too_many_are_refused() -> None:
    with pytest.raises(PlanError, match="that point is gone"):
        Marks().without_point("keel", 0)
    row = tuple(Point(at=(float(x), float(x * x)), on_ink=True) for x in range(MOST))
    with pytest.raises(PlanError, match=f"it has {MOST} points"):
        marked(Marks(points={"keel": row}), "keel", (1e6, 0.0))


def test_a_plan_at_a_pixel_to_the_millimetre_gives_the_hull_that_was_drawn() -> None:
    tracing = found(whole())
    assert said(tracing) == {}
    assert tracing.taken is not None
    assert tracing.taken.ends == pytest.approx((0.0, L))
    assert tracing.taken.half[:, 1].max() == pytest.approx(B / 2)
    assert [one.x for one in tracing.taken.sections] == pytest.approx([0.25, 0.5, 0.75])
    assert tracing.taken.deck[5] == pytest.approx([0.5, T])
    assert max(abs(one.off) for one in tracing.apart) < 1e-5
    assert len(tracing.spots) == 0
    keel = tracing.drawn["keel"]
    assert keel[[0, -1]] == pytest.approx(np.array([(100.0, 300.0), (1100.0, 300.0)]))
    assert tracing.drawn["section-2"][:, 0].max() == pytest.approx(700.0, abs=0.1)


def seen_otherwise(right: Mark, down: Mark, corner: Mark) -> Marks:
    """Return the whole hull's marks in a picture that was turned, or drawn the other way."""

    def moved(point: Point) -> Point:
        x, y = point.at
        at = (corner[k] + right[k] * x + down[k] * y for k in (0, 1))
        return replace(point, at=tuple(at))

    marks = whole()
    turned = {key: tuple(map(moved, points)) for key, points in marks.points.items()}
    return replace(marks, points=turned)


@pytest.mark.parametrize(
    ("right", "down", "corner"),
    [
        ((-1.0, 0.0), (0.0, 1.0), (1200.0, 0.0)),  # her bow to the left
        ((0.0, 1.0), (-1.0, 0.0), (800.0, 0.0)),  # the picture on its side, one way
        ((0.0, -1.0), (1.0, 0.0), (0.0, 1200.0)),  # and the other
    ],
)
@pytest.mark.parametrize("ends", [(0, 1), (1, 0)])
def test_bow_to_the_left_and_pictures_on_their_side(
    right: Mark, down: Mark, corner: Mark, ends: tuple[int, int]
) -> None:
    marks = seen_otherwise(right, down, corner)
    level = marks.of("level")
    marks = replace(marks, points={**marks.points, "level": tuple(level[end] for end in ends)})
    tracing = found(marks)
    assert said(tracing) == {}
    true = found(whole())
    assert tracing.taken is not None
    assert true.taken is not None
    for line in ("keel", "deck", "half"):
        assert getattr(tracing.taken, line) == pytest.approx(getattr(true.taken, line), abs=1e-9)
    for key, drawn in true.drawn.items():
        place = np.array(corner) + drawn @ np.array([right, down])
        assert tracing.drawn[key] == pytest.approx(place, abs=1e-6)


def test_figures_of_the_ship_are_scaled() -> None:
    marks = whole().with_typed("of", "ship").with_typed("along-1", "50 m").with_typed("up-1", "5")
    for number, station in enumerate(("12.5", "25", "37.5 m"), 1):
        marks = marks.with_typed(f"section-{number}", station)
    tracing = found(marks, 50.0)
    assert said(tracing) == {}
    assert tracing.taken is not None
    assert tracing.taken.ends == pytest.approx((0.0, L))
    assert list(said(found(marks))) == ["scale"]


def test_the_waterline_and_the_check_length() -> None:
    marks = marked(whole(), "waterline", (150.0, 260.0), (900.0, 260.0))
    marks = marked(marks, "check", (100.0, 400.0), (900.0, 400.0)).with_typed("check", "810 mm")
    tracing = found(marks)
    assert tracing.waterline is not None
    assert tracing.waterline.height == pytest.approx(0.04)
    assert tracing.lie.checked is not None
    assert tracing.lie.checked.off == pytest.approx(-0.010)


def test_where_views_disagree_is_shown_on_the_line() -> None:
    marks = whole()
    moved = [
        replace(one, at=(600.0 + 1.1 * (one.at[0] - 600.0), one.at[1]))
        for one in marks.of("section-2")
    ]
    tracing = found(replace(marks, points={**marks.points, "section-2": tuple(moved)}))
    assert tracing.spots == pytest.approx(np.array([(600.0, 447.5)]), abs=6.0)


FLAT = ((600.0, 700.0), (640.0, 700.0), (680.0, 700.0))
SHORT = marked(whole().without("section-1"), "section-1", *FLAT).with_typed("section-1", "250 mm")
CROSSED = replace(whole(), points={**whole().points, "deck": whole().of("keel")})


@pytest.mark.parametrize(
    ("marks", "key", "words"),
    [
        (whole().with_typed("along-1", "long"), "along-1", "'long'"),
        (whole().with_typed("up-1", "0 mm"), "lie", "a known length is 0 m"),
        (marked(whole().without("level"), "level", (5.0, 5.0), (5.5, 5.0)), "lie", "upon each"),
        (whole().with_typed("section-2", ""), "section-2", "its station is not entered"),
        (whole().with_typed("section-2", "2 m"), "sections", "lies outside the profile"),
        (whole().with_typed("section-2", "250"), "sections", "two sections stand at 250.0 mm"),
        (whole().with_typed("larger", "twice"), "larger", "'twice' times larger"),
        (CROSSED, "deck", "keel and deck cross"),
        (marked(whole(), "waterline", (150.0, 360.0), (900.0, 360.0)), "waterline", "under the"),
        (marked(whole(), "waterline", (150.0, 260.0), (150.0, 260.0)), "waterline", "each other"),
        (SHORT, "section-1", "a section encloses nothing"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_told_where_it_is(marks: Marks, key: str, words: str) -> None:
    troubles = said(found(marks))
    assert words in troubles[key]
    assert len(troubles) == 1


def test_a_section_that_is_cleared_is_gone() -> None:
    assert whole().sections == ("section-1", "section-2", "section-3")
    assert whole().without("section-2").sections == ("section-1", "section-3")
    assert whole().without("along-1").said("along-1") == "1000"


def test_a_photographed_plan_by_four_points() -> None:
    marks = whole(Marks(typed={"lie": "photo"}))
    places = ((100.0, 500.0), (1100.0, 500.0), (1100.0, 100.0), (100.0, 100.0))
    for corner, (x, y) in zip(CORNERS, places, strict=True):
        marks = marked(marks, corner, (x, y))
        marks = marks.with_typed(f"{corner}-x", f"{x} mm").with_typed(f"{corner}-z", f"{-y} mm")
    tracing = found(marks)
    assert said(tracing) == {}
    assert tracing.taken is not None
    assert tracing.taken.ends == pytest.approx((0.0, L))
    line = marked(marks, "corner-3", (600.0, 300.0))
    troubles = said(found(line.with_typed("corner-3-x", "600 mm").with_typed("corner-3-z", "-300")))
    assert "three of these known points lie on one line" in troubles["lie"]


def test_nothing_is_wrong_with_what_is_only_begun() -> None:
    for marks in (Marks(), marked(Marks(), "level", (1.0, 1.0)), flat()):
        tracing = found(marks)
        assert said(tracing) == {}
        assert tracing.taken is None
    begun = marked(whole().without("section-2"), "section-2", (600.0, 700.0), (640.0, 690.0))
    assert said(found(begun)) == {}
    assert len(found(begun).drawn) == len(found(whole()).drawn) - 1


def test_tiles_are_the_picture_and_its_halves() -> None:
    grey = (np.indices((SIDE + 9, 2 * SIDE + 1)).sum(0) % 251).astype(np.uint8)
    tiles = Tiles(grey=grey)
    assert tiles.at_level(0) is grey
    half = tiles.at_level(1)
    assert half.shape == (-(-(SIDE + 9) // 2), SIDE + 1)
    assert half[3, 5] == pytest.approx(grey[6:8, 10:12].mean(), abs=0.51)
    assert (tiles.tile(0, 2, 1) or b"").startswith(b"\x89PNG")
    assert tiles.tile(0, 3, 0) is None
    assert tiles.tile(-1, 0, 0) is None


def test_marks_are_plain_json() -> None:
    held = json.loads(written(whole()))
    assert held["format"] == 1
    assert held["points"]["level"] == [[100.0, 300.0, 1], [1100.0, 300.0, 1]]
    assert held["typed"]["up-1"] == "100 mm"
