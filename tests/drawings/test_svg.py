"""SVG as text: what any XML reader gets back is what was put in."""

from math import inf, nan
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trimdive.pictures.drawings.svg import clean, number, tag

# Characters that XML 1.0 allows, section 2.2 of the W3C recommendation; a line end reads as \n.
ALLOWED = st.text(
    st.one_of(
        st.sampled_from("\t\n"),
        st.characters(min_codepoint=0x20, max_codepoint=0xD7FF),
        st.characters(min_codepoint=0xE000, max_codepoint=0xFFFD),
        st.characters(min_codepoint=0x10000, max_codepoint=0x10FFFF),
    )
)


@given(ALLOWED)
def test_any_name_comes_back_as_it_went_in(name: str) -> None:
    read = ElementTree.fromstring(tag("text", clean(name), title=name.replace("\n", " ")))
    assert (read.text or "") == name
    if name:
        assert read.get("title") == name.replace("\n", " ").replace("\t", " ")


@given(st.text(st.characters(codec="utf-16", exclude_categories=())))
def test_no_name_breaks_the_drawing(name: str) -> None:
    ElementTree.fromstring(tag("text", clean(name)))


def test_control_characters_are_left_out() -> None:
    assert clean("a\x00b\x0bc\ufffed") == "abcd"


@pytest.mark.parametrize("value", [nan, inf, -inf])
def test_what_is_no_number_is_not_drawn(value: float) -> None:
    with pytest.raises(ValueError, match="cannot be drawn"):
        number(value)


@given(st.floats(-1e6, 1e6))
def test_numbers_are_true_to_a_hundredth(value: float) -> None:
    assert float(number(value)) == pytest.approx(value, abs=0.00501)
    assert "e" not in number(value)
