"""Rows that are no parts though a mass stands in them: margins, targets, what is left to go."""

import re
from functools import lru_cache

from trimdive.weightlists.numbers import TOKEN
from trimdive.weightlists.words import REMEMBERED, folded, longest, words

HAS_DIGIT = re.compile(r"\d")
MOST_FACTOR = 3.0  # a factor upon all masses is less [-]


@lru_cache(maxsize=REMEMBERED)
def bare(name: str) -> str:
    """Return a name without figures, units and words that say no more than "mass".

    >>> bare("Contingency 5 %"), bare("Total dry weight"), bare("target mass")
    ('contingency', '', 'target')
    """
    plain = folded(name)
    if plain in words("sum") or plain in words("derived"):
        return plain
    kept = [w for w in plain.split() if w not in words("filler") and not HAS_DIGIT.search(w)]
    return " ".join(kept)


def is_sum(name: str) -> bool:
    """Return whether a name by itself means a total: "NET", "Gross weight"."""
    return bare(name) in words("sum")


def derived(name: str, *, below_total: bool = False) -> str:
    """Return what a row worked out from others is: "factor", "amount", "aside"; "" for a part.

    Below the total one may also be "unclear", where such a word stands among others.

    Args:
        name: Of the row.
        below_total: It stands below the list's total.
    """
    found = words("derived").get(bare(name), "")
    if found == "below":  # "balance weight" may well be a part, except below the total
        return "aside" if below_total else ""
    if found or not below_total:
        return found
    return "unclear" if longest(folded(name), words("derived")) else ""


def factor_in(text: str) -> float:
    """Return the factor in a cell such as "1.05" or "5 %"; 0 where it is none [-].

    >>> factor_in("1.05"), factor_in("5 %"), factor_in("42 g")
    (1.05, 1.05, 0.0)
    """
    found = TOKEN.search(text)
    if not found:
        return 0.0
    try:
        number = float(found[0].replace(",", "."))
    except ValueError:
        return 0.0
    if "%" in text:
        return 1.0 + number / 100.0
    return number if 1.0 <= number <= MOST_FACTOR and text.strip() == found[0] else 0.0
