"""``why`` and ``words`` as text and JSON."""

from collections.abc import Iterator
from difflib import get_close_matches
from typing import TYPE_CHECKING

from trimdive.cli.layout import Block, heading, labelled, line, table
from trimdive.data import table as rows_of
from trimdive.errors import BoatFileError
from trimdive.text.documents import common
from trimdive.text.layout import Document
from trimdive.text.whys import answer, in_words
from trimdive.why import as_text, keys, why

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.hydrostatics.equilibrium import State
    from trimdive.text.whys import WhyInWords


def keys_text(her: "Assessment") -> Iterator[Block]:
    """Yield what can be asked of a boat, with the figures."""
    yield line(f"Ask one of these of {her.boat.name}: trimdive why BOAT KEY")
    yield line()
    yield table(["KEY", "is"], ((key, answer(her.boat, why(her, key))) for key in keys(her)))


def keys_json(her: "Assessment") -> Document:
    """Return what can be asked of a boat."""
    return {**common(her), "keys": list(keys(her))}


def why_text(her: "Assessment", key: str, state: "State | None") -> Iterator[Block]:
    """Yield why a figure is what it is.

    Args:
        her: The boat.
        key: Of the figure.
        state: How she lies; None: dived, or as low as she goes.
    """
    found = in_words(her.boat, why(her, key, state))
    yield line(f"{found.question} {found.answer}")
    yield line()
    yield line(found.says)
    if found.formula:
        yield line()
        yield line(f"  {as_text(found.formula)}")
    if found.values:
        yield heading("Values")
        yield table(["", "", "", "from"], _values(found), right=(1,))
    if found.items:
        yield heading("Sum")
        flush = range(1, 1 + len(found.heads))
        rows = ((one.name, *one.texts, one.origin) for one in found.items)
        yield table(["thing", *found.heads, "from"], rows, right=flush)
    yield line()
    yield labelled([("How sure", found.uncertainty), ("Source", f"{found.source}.")])


def _values(found: "WhyInWords") -> Iterator[list[str]]:
    for one in found.values:
        asks = f"why {one.asks}" if one.asks else one.origin
        yield [one.symbol or "·", one.text, one.says, asks]


def why_json(her: "Assessment", key: str, state: "State | None") -> Document:
    """Return why a figure is what it is.

    Args:
        her: The boat.
        key: Of the figure.
        state: How she lies; None: dived, or as low as she goes.
    """
    found = in_words(her.boat, why(her, key, state))
    return {
        **common(her),
        "key": found.key,
        "question": found.question,
        "answer": found.answer,
        "result_si": found.result,
        "kind": found.kind,
        "says": found.says,
        "formula": as_text(found.formula),
        "put_in": [
            {
                "symbol": one.symbol,
                "says": one.says,
                "text": one.text,
                "value_si": one.value,
                "kind": one.kind,
                "origin": one.origin,
                "ask": one.asks or None,
            }
            for one in found.values
        ],
        "summed_over": list(found.heads),
        "summed": [
            {"name": one.name, "origin": one.origin, "texts": list(one.texts)}
            for one in found.items
        ],
        "source": found.source,
        "how_sure": found.uncertainty,
    }


def words_text(word: str) -> Iterator[Block]:
    """Yield what words mean; of one, or of all.

    Args:
        word: A word or part of one; "" for all.

    Raises:
        BoatFileError: There is no such word.
    """
    entries = rows_of("glossary")
    asked = word.strip().casefold()
    found = [one for one in entries if asked in one["term"].casefold()]
    if not found:
        near = get_close_matches(asked, [one["term"].casefold() for one in entries], n=1)
        mend = f"Did you mean '{near[0]}'?" if near else "Leave it out to see all of them."
        raise BoatFileError(f"'{word}' is not among the words", "words", mend)
    order = sorted(found, key=lambda one: one["term"].casefold())
    yield labelled((one["term"], one["meaning"]) for one in order)
