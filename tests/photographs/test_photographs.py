"""A photograph of the boat afloat against a pinhole of the tests' own, which knows how she lies."""

from functools import cache

import numpy as np
import pytest
from scipy.stats import chi2
from tests.photographs.shots import WIDE, Kind, Lying, Shot, boat, errors, found, lying, shot

from trimdive.errors import TrimdiveError
from trimdive.plans.marks import Marks, Point
from trimdive.trials.photographs import Lies, together

FEW = 10  # pictures of a kind; hard.photographs takes a hundred


def lies(ones: list[Shot], name: str) -> Lies:
    return together([found(one, name).sight for one in ones], boat(name)[1].middle)


@pytest.mark.parametrize(
    ("name", "points", "bend", "film"),
    [("plover", 5, 0.02, True), ("bittern", 5, 0.0, False), ("bittern", 2, 0.0, True)],
)
def test_side_pictures_are_as_sure_as_they_say(
    name: str, points: int, bend: float, film: bool
) -> None:
    """Askew by 12° and 2 to 18° above: all errors over their spreads have a root mean square of 1.

    Chi-square, from a table of it: 30 figures, of which few pictures share what is off, are beyond
    these bounds in 2 of 1000 cases.
    """
    random = np.random.default_rng(4)
    rows, trims = [], []
    for _ in range(FEW):
        one = shot(random, name, points=points, bend=bend, film=film)
        by = lies([one], name)
        rows.append(errors(by, one.true))
        trims.append(abs(by.trim[0] - one.true.trim))
    square = float((np.array(rows) ** 2).sum())
    assert chi2.ppf(1e-5, 3 * FEW) < square < chi2.ppf(0.999, 3 * FEW)
    assert np.median(trims) < np.deg2rad(0.1)
    if points == 5:
        assert max(trims) < np.deg2rad(0.2)


@pytest.mark.parametrize("kind", ["bow", "stern"])
def test_end_pictures_tell_the_heel(kind: Kind) -> None:
    random = np.random.default_rng(7)
    off, told = [], 0
    for _ in range(6):
        one = shot(random, "bittern", kind, points=4)
        by = lies([one], "bittern")
        told += by.tells_heel
        off.append((by.heel[0] - one.true.heel) / (by.heel[1] / WIDE))
    assert told >= 4
    square = float((np.array(off) ** 2).sum())
    assert chi2.ppf(1e-5, 6) < square < chi2.ppf(0.999, 6)


@cache
def both() -> tuple[Lying, list[Shot]]:
    random = np.random.default_rng(11)
    true = lying(random, "bittern")
    kinds: tuple[Kind, ...] = ("side", "side", "bow")
    return true, [shot(random, "bittern", kind, points=4, true=true) for kind in kinds]


def test_pictures_of_one_state_together() -> None:
    true, ones = both()
    alone, by = lies(ones[:1], "bittern"), lies(ones, "bittern")
    assert by.agree
    assert np.abs(errors(by, true)).max() < 3.5
    assert (np.diag(by.spread) < np.diag(alone.spread)).all()
    assert by.tells_heel


def test_pictures_that_disagree_say_it() -> None:
    """One of her 12 mm deeper: the spread grows, and the odd one stands farthest off."""
    true, ones = both()
    random = np.random.default_rng(12)
    deeper = Lying(true.height + 0.012, true.trim, true.heel)
    odd = shot(random, "bittern", points=5, true=deeper)
    by = lies([*ones, odd], "bittern")
    assert not by.agree
    assert int(np.abs(by.apart).argmax()) == len(ones)
    assert by.spread[0, 0] > lies(ones, "bittern").spread[0, 0]


def test_two_points_leave_more_open_and_the_advice_keeps_its_word() -> None:
    """What a further point is said to do it does, within a quarter: clicks and places differ."""
    random = np.random.default_rng(21)
    true = lying(random, "bittern")
    two = shot(random, "bittern", points=2, true=true)
    first = found(two, "bittern")
    assert first.further
    told = next(one for one in first.further if one.what == "top")
    place = boat("bittern")[1].top
    at = two.camera.sees(np.array([place]))[0].tolist()
    marks = two.marks.with_point("point-3", Point(at=(at[0], at[1]), on_ink=True))
    for axis, value in zip("xyz", place, strict=True):
        marks = marks.with_typed(f"point-3-{axis}", f"{1e3 * value:.2f} mm")
    more = found(Shot(marks, two.size, two.focal, true, two.camera), "bittern")
    assert more.half == pytest.approx(told.half, rel=0.25)
    assert more.half < 0.8 * first.half


def test_a_wrong_figure_is_said_and_makes_it_less_sure() -> None:
    """The last point 15 mm too high: not within any ±."""
    one = shot(np.random.default_rng(31), "bittern", points=6)
    wrong = one.marks.with_typed("point-6-z", "185 mm")
    right, amiss = (
        found(one, "bittern"),
        found(Shot(wrong, one.size, one.focal, one.true, one.camera), "bittern"),
    )
    assert right.sight.agrees
    assert not amiss.sight.agrees
    assert amiss.sight.spread[0, 0] > 2.0 * right.sight.spread[0, 0]


def refused(marks: Marks, one: Shot) -> str:
    with pytest.raises(TrimdiveError) as error:
        found(Shot(marks, one.size, one.focal, one.true, one.camera), "bittern")
    return str(error.value)


def test_what_cannot_be_is_refused_in_a_sentence() -> None:
    one = shot(np.random.default_rng(41), "bittern", points=2)
    marks = one.marks
    at = marks.of("point-1")[0]
    water = marks.of("waterline")

    def moved(down: float) -> Marks:
        lower = marks.without("waterline")
        for click in water:
            lower = lower.with_point(
                "waterline", Point(at=(click.at[0], click.at[1] + down), on_ink=True)
            )
        return lower

    for marked, words in (
        (marks.without("point-2"), "two are needed"),
        (marks.without("waterline"), "not clicked yet"),
        (marks.with_point("point-2", at, 0), "lie upon each other"),
        (marks.with_typed("point-2-x", marks.said("point-1-x"))
         .with_typed("point-2-y", marks.said("point-1-y")), "one place"),
        (marks.with_typed("point-1-x", "2600 mm"), "beyond the end of the hull"),
        (marks.with_typed("point-1-z", "900 mm"), "no place on her"),
        (marks.with_typed("point-1-y", "400 mm port"), "farther than she is broad"),
        (marks.with_typed("point-1-x", "long"), "long"),
        (marks.with_typed("known", "0 mm"), "not known exactly"),
        (moved(400.0), "under her keel"),
        (moved(-700.0), "above her"),
    ):  # fmt: skip
        assert words in refused(marked, one)
