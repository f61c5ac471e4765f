"""What came of a weight list that was read."""

import pytest
from tests.in_words import in_words
from tests.lists.thirty import Case

from trimdive.errors import TrimdiveError
from trimdive.weightlists import ListPreview, understood

Sums = tuple[float, float, float, float]


def stated(of: Case) -> Sums:
    """Return mass [g] and moments along, to port and up [g mm] as stated."""
    mass = sum(m for m, *_ in of.holds)
    return (mass, *(sum(row[0] * row[k] for row in of.holds) for k in (1, 2, 3)))  # type: ignore[return-value]


def found(preview: ListPreview) -> Sums:
    """Return mass [g] and moments along, to port and up [g mm] as understood."""
    masses = [1000.0 * item.mass for item in preview.items]
    places = [
        [1000.0 * next((item.figures[n] for n in names if n in item.figures), 0.0)
         for names in (("x",), ("y",), ("z", "z_bottom"))]
        for item in preview.items
    ]  # fmt: skip
    along, across, up = (
        sum(m * place[k] for m, place in zip(masses, places, strict=True)) for k in range(3)
    )
    return sum(masses), along, across, up


def ends(preview: ListPreview) -> set[str]:
    """Return the ends from which places are counted."""
    return {item.words.get("from", "stern") for item in preview.items if "x" in item.figures}


def problems(preview: ListPreview) -> list[str]:
    """Return all that must be said or mended before the list goes in unchanged."""
    inside = ("material", "x", "z")  # what a list of masses alone need not say
    asked = [in_words(ask.what) for ask in preview.asks if ask.field not in inside]
    left = [f"row {row.number}: {in_words(row.why)}" for row in preview.not_understood]
    off = [
        f"row {one.row} does not add up {in_words(one.hint)}"
        for one in preview.sums
        if not one.agrees
    ]
    return [*asked, *left, *off]


def verdict(of: Case) -> tuple[str, Sums | None, str]:
    """Return "right", "asked", "refused" or "WRONG", with sums and reasons."""
    try:
        preview = understood(of.file, f"list{of.suffix}", of.said)
    except TrimdiveError as error:
        return "refused", None, str(error)
    sums, why = found(preview), problems(preview)
    is_right = sums == pytest.approx(stated(of), rel=1e-6, abs=1e-3)
    is_right = is_right and (not stated(of)[1] or ends(preview) == {of.end})
    if is_right and bool(of.holds):
        return ("asked" if why else "right"), sums, "; ".join(why)
    return ("asked" if why else "WRONG"), sums, "; ".join(why)
