"""The depth she may go to is one figure at bench, card, reach and page; seals and parts by hand."""

import json
from html import unescape
from pathlib import Path

import pytest
from tests.page.conftest import page_of
from typer.testing import CliRunner

from trimdive.assessment import Assessment, assess
from trimdive.boatfile import parse
from trimdive.cli.app import app as commands
from trimdive.hydrostatics.equilibrium.named import bound, deep
from trimdive.pond import card, refused
from trimdive.text.deep import bounds, may_go, may_go_words

BOATS = Path(__file__).parents[2] / "boats"
ALL = ("bittern", "grebe", "plover", "bittern-as-bought", "grebe-as-bought", "plover-as-bought")


def answer(*words: str) -> str:
    return CliRunner().invoke(commands, list(words)).stdout


@pytest.mark.parametrize("name", ALL)
def test_bench_card_reach_and_page_say_one_depth(name: str) -> None:
    her = assess(BOATS / name / "boat.toml")
    found, sentence = may_go(her), may_go_words(her)
    assert found is not None
    assert sentence.startswith(f"She may go to {bound(her.boat, found.depth)} by calculation")
    where = str(BOATS / name)
    for command in ("bench", "reach", "pond"):
        if command != "pond" or not refused(her):
            assert sentence in " ".join(answer(command, where).split()), command
        assert json.loads(answer(command, where, "--json"))["may_go_m"] == found.depth, command
    if not refused(her):
        assert card(her).depth[0] == sentence
    page = page_of(BOATS / name / "boat.toml").enter()
    assert sentence in unescape(page.client.get("/bench").text)


def test_the_least_of_parts_and_seals_limits_her() -> None:
    """40 kPa of a lip seal over 1000 · 9.80665 is 4.08 m, less than the 4.8 m of her tube."""
    her = assess(BOATS / "grebe" / "boat.toml")
    found = may_go(her)
    assert found is not None
    assert found.depth == pytest.approx(40e3 / 9806.65)
    assert found.because == "lip seal on 4.0 mm, after cap of cylinder"
    assert found.depth <= min(one.depth for one in bounds(her))
    text = (
        (BOATS / "grebe" / "boat.toml").read_text("utf-8").replace('seal = "lip"', 'seal = "ring"')
    )
    tube = may_go(Assessment(boat=parse(text), files=her.files))
    assert tube is not None
    assert tube.depth == her.bench.cylinders[0].strength.depth
    assert "between its ends" in tube.because


def test_what_is_not_entered_is_said_beside_the_depth() -> None:
    text = (BOATS / "grebe" / "boat.toml").read_text("utf-8").replace('seal = "lip", ', "")
    her = Assessment(boat=parse(text), files=assess(BOATS / "grebe" / "boat.toml").files)
    assert "as far as is entered (1 thing not entered)" in may_go_words(her)


@pytest.mark.parametrize(
    ("depth", "metric", "feet"),
    [(3.0, "3.0 m", "9 ft"), (3.99, "3.9 m", "13 ft"), (0.3, "0.3 m", "0 ft")],
)
def test_a_bound_is_never_rounded_up(depth: float, metric: str, feet: str) -> None:
    """1 ft is 0.3048 m."""
    boat = assess(BOATS / "grebe" / "boat.toml").boat
    inches = boat.model_copy(update={"units": boat.units.model_copy(update={"length": "in"})})
    assert (bound(boat, depth), bound(inches, depth)) == (metric, feet)
    assert deep(inches, 3.048) == "10.0 ft"
