"""A true figure typed over a guess of the program is no slip; one that cannot be still is.

What is right is what was typed: a tube of 75 mm is one that is sold, a battery of 520 kg is none.
"""

import pytest
from tests.larger_tube import FIGURES, new_boat, typed_over
from tests.said import what_of

from trimdive.assessment import Assessment
from trimdive.boatfile import parse, set_value
from trimdive.findings.slips import slipped
from trimdive.findings.slips.guessed import rests_on_guesses


def with_figures(text: str, *figures: tuple[str, str]) -> Assessment:
    for place, typed in figures:
        text = set_value(text, place, typed)
    return Assessment(boat=parse(text), files={})


@pytest.mark.parametrize("count", [1, 2, 3, 5, 7, 10, 13, len(FIGURES)])
def test_a_true_figure_typed_over_a_guess_is_no_slip(count: int) -> None:
    """Lead and foam lie where the guessed tube had them: her sums say nothing of the true one."""
    her = with_figures(typed_over(count))
    assert not her.in_order
    assert slipped(her) == ()


def test_a_figure_that_cannot_be_is_asked_among_guesses_too() -> None:
    assert new_boat().count('name = "battery"') == 1
    first = with_figures(new_boat(), ("part[1].mass", "520 kg")).first_findings[0]
    assert first.key == "slip"
    was, _, asked = what_of(first).partition(":")
    assert (was, "520 g" in asked) == ("battery, mass 520 kg", True), "g for kg is asked"


def test_her_sums_count_as_soon_as_few_guesses_are_left() -> None:
    """At the limit: beyond the share of her mass that may be a guess, and within it."""
    new, weighed = new_boat(), new_boat().replace('known = "guess"', 'known = "weighed"')
    assert rests_on_guesses(with_figures(new))
    assert not rests_on_guesses(with_figures(weighed))
    entries = with_figures(weighed).masses.entries
    whole = sum(one.mass for one in entries if one.known == "weighed")
    battery = next(one for one in entries if one.name == "battery")
    share = 100 * battery.mass / whole
    for limit, rests in ((share * 0.999, True), (share * 1.001, False)):
        own = f'\n[limits]\nslip-guessed = "{limit:.9f} %"\n'
        assert rests_on_guesses(with_figures(weighed + own, ("part[1].known", "guess"))) is rests
