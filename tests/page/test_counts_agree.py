"""One thing has one figure: counts and amounts beside each other agree, or say of what."""

import re

import pytest
from tests.cli.boats import NAMES
from tests.page.conftest import BOATS, page_of
from tests.page.shelves import FIGURES

from trimdive.findings.order import labels
from trimdive.page import newtanks
from trimdive.page.newboat import begun
from trimdive.page.places.shelf_new import growing
from trimdive.text.found import what
from trimdive.text.remaining import remaining_words


@pytest.mark.parametrize("name", NAMES)
def test_what_remains_is_what_the_badge_counts(name: str) -> None:
    page = page_of(BOATS / name / "boat.toml").enter()
    her = page.desk.her
    called = labels(her.findings)
    counted = {
        int(label) for label, one in zip(called, her.findings, strict=True)
        if label.isdigit() and one.weight == "put right"
    }  # fmt: skip
    for k in range(len(her.findings)):
        left, remains, _ = remaining_words(her.boat, k, her.findings, called).partition(" remain")
        if not remains:
            continue
        left = left.rpartition("; ")[2]
        for low, high in re.findall(r"(\d+)(?: to (\d+))?", left):
            assert set(range(int(low), int(high or low) + 1)) <= counted, left


def test_a_new_boat_has_one_figure_for_the_water_in_her_tanks() -> None:
    new = growing(FIGURES)
    guess = new.guesses[newtanks.HELD].removeprefix("guess: ")
    assert f"her full tanks hold {guess}." in new.answer
    assert re.search(r"needs about \d", new.answer)


def test_figures_that_are_read_are_counted() -> None:
    found = begun("figures", FIGURES)
    assert (found.read, found.of) == (7, 7)


@pytest.mark.parametrize("name", ["grebe-as-bought"])
def test_two_weights_name_their_moments(name: str) -> None:
    her = page_of(BOATS / name / "boat.toml").desk.her
    found = next(one for one in her.first_findings if one.key == "neutral-band")
    assert "light with tanks full" in what(her.boat, found)
    assert (
        "Tanks blown she weighs "
        in page_of(BOATS / name / "boat.toml").enter().client.get("/right").text
    )
