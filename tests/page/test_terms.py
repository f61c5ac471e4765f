"""Words of the trade explained at the word: which, and that nothing in a sentence is lost."""

import re
from html import unescape

import pytest

from trimdive.data import table
from trimdive.errors import DataError
from trimdive.page.terms import explained, known, term


def plain(marked: object) -> str:
    return unescape(re.sub(r"<[^>]+>", "", str(marked)))


@pytest.mark.parametrize("word", [entry["term"] for entry in table("glossary")])
def test_every_word_has_one_line(word: str) -> None:
    text = str(term(word))
    assert plain(text) == word
    meaning = next(one["meaning"] for one in table("glossary") if one["term"] == word)
    assert len(meaning) <= 140
    assert "\n" not in meaning
    assert unescape(text.split('data-means="')[1].split('"')[0]) == meaning


def test_a_sentence_stays_as_it_is() -> None:
    says = "Dived and upright: BG 6.4 mm; <b>9.2 mm</b> & neutral, neutral wanted."
    marked = explained(says)
    assert plain(marked) == says
    assert "<b>" not in str(marked), "what stands in a sentence does nothing"
    assert str(marked).count(">neutral<") == 1, "only the first"
    assert str(marked).count("<button") == 2


def test_a_word_at_the_start_of_a_sentence_is_known() -> None:
    assert 'data-means="As heavy as' in str(explained("Neutral at 90 %."))


def test_parts_of_words_are_none() -> None:
    assert str(explained("GMX and slackened")) == "GMX and slackened"


def test_what_is_no_word_of_the_trade() -> None:
    assert known("with tanks quite full") == "with tanks quite full"
    with pytest.raises(DataError):
        term("with tanks quite full")
