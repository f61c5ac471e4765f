"""Answers as builders type them; what they mean is plain English and the units' own tests."""

from math import asin, radians

import pytest

from trimdive.errors import TrimdiveError, UnitError
from trimdive.estimates.wethands import (
    BY_KEY,
    DisagreementError,
    Figure,
    Known,
    begun,
    step,
)
from trimdive.estimates.wethands.boats import causes
from trimdive.text.wethands_causes import AILS
from trimdive.text.wethands_quantities import figure_of
from trimdive.text.wethands_questions import WORDS, choices
from trimdive.text.wethands_typed import reply_of

HER = begun(Figure(30.0, 0.15), Figure(2.1e-3, 4e-5), Figure(2.0, 0.01), 1000.0)


@pytest.mark.parametrize(
    ("key", "text", "option", "size"),
    [
        ("angle", "nose on the bottom", "bow bottom", None),
        ("angle", "bow on the bottom, stern out", "bow bottom", None),
        ("angle", "The stern sits on the ground.", "stern bottom", None),
        ("angle", "bow down 12°", "bow", radians(12)),
        ("angle", "12 deg by the stern", "stern", radians(12)),
        ("angle", "nose 100 mm low", "bow", asin(0.1 / 2)),
        ("angle", "bow up 5°", "stern", radians(5)),
        ("angle", "2 12°", "bow", radians(12)),
        ("angle", "3", "stern", None),
        ("angle", "LEVEL", "level", None),
        ("surfaced", "bow 8 mm low", "bow", 8e-3),
        ("surfaced", "stern low 1/2 in", "stern", 12.7e-3),
        ("filling", "88 %", "nearly", 0.88),
        ("filling", "60 %", "early", 0.60),
        ("filling", "40 g heavy", "quite", 0.040),
        ("filling", "60 g light", "never", 0.060),
        ("filling", "1", "never", None),
        ("filling", "nearly", "nearly", None),
        ("ride", "6 mm low", "low", 6e-3),
        ("ride", "at her waterline", "right", None),
        ("list", "3° to port", "port", radians(3)),
        ("heel", "no", "upright", None),
        ("rock", "y", "yes", None),
        ("rock", "no change", "no", None),
        ("full", "a little better", "better", None),
        ("full", "level", "yes", None),
        ("rock", "", "skip", None),
        ("angle", "not sure", "skip", None),
    ],
)
def test_what_is_typed(key: str, text: str, option: str, size: float | None) -> None:
    found = reply_of(BY_KEY[key], text, HER)
    assert found.option == option
    if size is None:
        assert found.size is None
    else:
        assert found.size is not None
        assert found.size.value == pytest.approx(size)


def test_every_question_answer_and_cause_has_its_words() -> None:
    assert set(WORDS) == set(BY_KEY)
    assert set(AILS) == set(causes())
    for key, question in BY_KEY.items():
        assert set(WORDS[key].options) == set(question.options)
        assert len(choices(question)) == len(question.options)


def test_figures_typed() -> None:
    laid = reply_of(BY_KEY["balance"], "120 g at 150 mm from the stern", HER)
    assert (laid.option, laid.size and laid.size.value) == ("laid", pytest.approx(0.120))
    assert laid.place
    assert laid.place.value == pytest.approx(0.150)
    pull = reply_of(BY_KEY["balance"], "pull 3 oz at 4 in from the bow", HER)
    assert pull.option == "pull"
    assert pull.place
    assert pull.place.value == pytest.approx(2.0 - 0.1016)
    moved = reply_of(BY_KEY["shift"], "100 g, 300 mm, 8°", HER)
    assert moved.way
    assert moved.turned
    assert (moved.way.value, moved.turned.value) == pytest.approx((0.3, radians(8)))
    inside = reply_of(BY_KEY["slack"], "400 mm x 90 mm", HER)
    assert inside.way
    assert inside.way.value == pytest.approx(0.09)


def test_a_spread_may_be_typed() -> None:
    angle = figure_of("12° ± 2°", "angle", "°", "x")
    assert (angle.value, angle.spread) == pytest.approx((radians(12), radians(2)))
    assert figure_of("30 kg +/- 200 g", "mass", None, "x").spread == pytest.approx(0.2)
    assert figure_of("30 kg ± 1 %", "mass", None, "x").spread == pytest.approx(0.3)


@pytest.mark.parametrize(
    ("key", "text"),
    [
        ("angle", "banana"),
        ("angle", "9"),
        ("angle", "bow down 120°"),
        ("angle", "bow down 3 m"),
        ("filling", "130 %"),
        ("filling", "-5 %"),
        ("balance", "120 g"),
        ("balance", "120 g at 5 m from the stern"),
        ("balance", "much at 100 mm from the stern"),
        ("place", "950 mm"),
        ("shift", "100 g, 300 mm"),
        ("shift", "100 g, 300 mm, 0°"),
        ("slack", "long"),
        ("slack", "9 m x 90 mm"),
        ("depth", "-3 mm"),
        ("degrees", "x"),
        ("breadth", "5 m"),
        ("rides", "5 kg"),
        ("spare", "lots"),
        ("spare", "3"),
        ("over", "level"),
        ("closed", "right"),
        ("closed", "better"),
        ("rock", "maybe maybe"),
        ("angle", "1" * 200),
        ("over", "1 banana"),
        ("over", "1 m"),
        ("depth", "3 m"),
    ],
)
def test_nonsense_is_refused_in_a_sentence(key: str, text: str) -> None:
    with pytest.raises(UnitError) as error:
        reply_of(BY_KEY[key], text, HER)
    assert error.value.mend
    assert "\n" not in str(error.value)


@pytest.mark.parametrize(
    ("mass", "tank", "length"),
    [(0.0, 1e-3, 1.0), (30.0, 0.0, 1.0), (30.0, 1e-3, 900.0), (2.0, 3e-3, 1.0), (-1, 1e-4, 1)],
)
def test_no_such_boat(mass: float, tank: float, length: float) -> None:
    with pytest.raises(TrimdiveError):
        begun(Figure(mass, 0.0), Figure(tank, 0.0), Figure(length, 0.0), 1000.0)


def replied(**answers: str) -> Known:
    known = HER
    for key, text in answers.items():
        known = known.with_reply(reply_of(BY_KEY[key], text, known))
    return known


@pytest.mark.parametrize(
    ("answers", "keys"),
    [
        ({"way": "only under way", "angle": "bow down 20°"}, {"way", "angle"}),
        ({"list": "8° to port", "heel": "8° to starboard"}, {"list", "heel"}),
        # 500 g at 0.85 m is 388 g m; 5° on 32 kg with BG 14 ± 7 mm is 39 ± 20
        (
            {"angle": "bow down 5°", "balance": "500 g at 150 mm from the stern"},
            {"angle", "balance"},
        ),
        (
            {"angle": "bow down 12°", "balance": "100 g at 100 mm from the bow"},
            {"angle", "balance"},
        ),
    ],
)
def test_answers_that_disagree_are_named(answers: dict[str, str], keys: set[str]) -> None:
    with pytest.raises(DisagreementError) as error:
        step(replied(**answers))
    assert {error.value.one.key, error.value.other.key} == keys
    assert all(f"'{key}: " in str(error.value) for key in keys)


def test_nose_on_the_bottom_gives_a_bound_and_says_how_to_get_a_figure() -> None:
    """600 mm of water and 2 m of boat: at least asin(0.3) = 17.5°, and so at least so much foam."""
    known = replied(
        angle="bow on the bottom, stern out", surfaced="level", rock="no", full="no", closed="no",
        over="no", filling="88 %", balance="", depth="600 mm", place="1 m from the bow",
        room="200 mm from the bow",
    )  # fmt: skip
    found = step(known)
    assert found.moment
    assert found.moment.at_least
    bg = 7e-3 * 2.0
    mass = 30 + 1000 * 2.1e-3 * 0.88
    least = mass * bg * 0.3 / (1 - 0.09) ** 0.5
    assert found.moment.size.value == pytest.approx(least, rel=1e-3)
    piece = found.remedies[0].pieces[0]
    assert piece.is_bound
    assert piece.amount.value == pytest.approx(least / 0.8 / (1000 - 33), rel=1e-3)


def test_small_weights_need_no_bg_and_tell_it() -> None:
    """100 g of lead, 0.0912 kg of pull, at 0.85 m: 77.5 g m; with 10° on 31.85 kg BG is 13.8 mm."""
    known = replied(
        angle="bow down 10°", surfaced="level", rock="no", full="no", closed="no", over="no",
        filling="88 %", balance="100 g at 150 mm from the stern", place="1 m from the stern",
    )  # fmt: skip
    found = step(known)
    pull = 0.1 * (1 - 1000 / 11340) * 0.85
    assert found.moment
    assert found.moment.bg
    assert found.moment.bg.value == pytest.approx(pull / (31.848 * 0.17633), rel=1e-3)
    assert found.moment.size.value == pytest.approx(pull, rel=0.02)  # the angle counts a little
    assert found.moment.size.share < 0.1
