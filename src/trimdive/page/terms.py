"""Words of the trade as the page shows them, each with a line of explanation that opens at it.

The lines are those of data/glossary.csv. It opens by mouse, by keyboard and by touch.
"""

import re
from functools import cache

from markupsafe import Markup, escape

from trimdive.data import row, table
from trimdive.text.sentence import capital

# What is marked in a sentence: words that a builder may not know, not those that everyone says.
SHORT = frozenset(
    {"awash", "casing", "draught", "freeboard", "loll", "neutral", "slack", "waterplane", "wetted"}
)


def term(word: str, text: str = "") -> Markup:
    """Return a word whose explanation opens at it.

    Args:
        word: As the glossary has it.
        text: What is shown; left out, the word.

    Raises:
        DataError: The glossary has no such word.
    """
    means = row("glossary", word)["meaning"]
    return Markup('<button type="button" class="term" data-means="{}">{}</button>').format(
        means, text or word
    )


def known(text: str) -> Markup | str:
    """Return a text as a word explained where the glossary has it, else as it is."""
    return term(text) if text in _words() else text


def explained(sentence: str) -> Markup:
    """Return a sentence in which the first of each word of the trade is explained."""
    found = Markup()
    seen: set[str] = set()
    at = 0
    for one in _marked().finditer(sentence):
        word = one[0] if one[0] in _words() else one[0].lower()
        if word in seen:
            continue
        seen.add(word)
        found += escape(sentence[at : one.start()]) + term(word, one[0])
        at = one.end()
    return found + escape(sentence[at:])


@cache
def _words() -> frozenset[str]:
    return frozenset(entry["term"] for entry in table("glossary"))


@cache
def _marked() -> re.Pattern[str]:
    """Return what finds the words that are marked, the longest first."""
    chosen = [word for word in _words() if " " in word or word in SHORT or word[1:].isupper()]
    chosen.sort(key=len, reverse=True)
    ways = map(capital, chosen)
    every = dict.fromkeys([*chosen, *ways])
    longest = sorted(every, key=len, reverse=True)
    return re.compile(rf"\b(?:{'|'.join(map(re.escape, longest))})\b")
