"""Weight lists with every trait of builders' lists: right, or asked, and none silently wrong.

Mass and moments of each are stated in ``thirty`` by hand; here they are only summed. As a script it
prints the table: ``python -m tests.lists.test_thirty``.
"""

import pytest
from tests.lists.thirty import CASES, Case

from trimdive.errors import TrimdiveError
from trimdive.lists import ListPreview, understood

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
    asked = [ask.what for ask in preview.asks if ask.field not in inside]
    left = [f"row {row.number}: {row.why}" for row in preview.not_understood]
    off = [f"row {one.row} does not add up {one.hint}" for one in preview.sums if not one.agrees]
    return [*asked, *left, *off]


def verdict(of: Case) -> tuple[str, Sums | None, str]:
    """Return "right", "asked", "refused" or "WRONG", with sums and reasons."""
    try:
        preview = understood(of.data, f"list{of.suffix}", of.said)
    except TrimdiveError as error:
        return "refused", None, str(error)
    sums, why = found(preview), problems(preview)
    is_right = sums == pytest.approx(stated(of), rel=1e-6, abs=1e-3)
    is_right = is_right and (not stated(of)[1] or ends(preview) == {of.end})
    if is_right and bool(of.holds):
        return ("asked" if why else "right"), sums, "; ".join(why)
    return ("asked" if why else "WRONG"), sums, "; ".join(why)


@pytest.mark.parametrize("of", CASES, ids=[of.name for of in CASES])
def test_right_or_asked_and_never_silently_wrong(of: Case) -> None:
    how, sums, why = verdict(of)
    wanted = "refused" if of.refused else "asked" if of.asked else "right"
    assert (how, of.refused or of.asked) == (wanted, of.refused or of.asked), (sums, why)
    assert (of.refused or of.asked) in why


def main() -> None:
    """Print what was stated and what was understood of each list."""
    print(f"{'':3}{'list':68}{'stated g':>10}{'found g':>10}  {'along':>9} {'across':>8} {'up':>8}")
    for k, of in enumerate(CASES, 1):
        how, sums, why = verdict(of)
        right = stated(of)
        cells = (
            "".join(f"{s - r:+9.1f}" for s, r in zip(sums[1:], right[1:], strict=True))
            if sums
            else ""
        )
        print(
            f"{k:2} {of.name[:67]:68}{right[0]:10.1f}{sums[0] if sums else 0:10.1f}  {cells}  {how}"
        )
        if why:
            print(f"{'':6}{why[:170]}")


if __name__ == "__main__":
    main()
