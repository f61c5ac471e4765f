"""The hull against the full-size boat: half-breadths entered as breadths, tables in another unit.

What is right is what the demo boats say: full size over scale is the model's size.
"""

import pytest
from tests.findings.checks import one, ran
from tests.said import what_of

from trimdive.assessment import Assessment
from trimdive.findings.fullsize import renamed, scaled, sizes
from trimdive.geometry.lines.table import LinesTable, read_table


def table_of(her: Assessment) -> LinesTable:
    text = her.files["lines.csv"].decode()
    return read_table(text, "lines.csv")


def drawn(her: Assessment, text: str) -> Assessment:
    return Assessment(boat=her.boat, files={**her.files, "lines.csv": text.encode()})


@pytest.mark.parametrize(
    ("name", "times", "given", "asked"),
    [
        ("bittern", 2.0, "twice the", "were breadths entered as half-breadths?"),
        ("grebe", 0.5, "half the", "were half-breadths halved again?"),
    ],
)
def test_all_half_breadths_twice_or_half(
    name: str, times: float, given: str, asked: str, request: pytest.FixtureRequest
) -> None:
    """Named first; the change gives back every station of the table as it was."""
    boat: Assessment = request.getfixturevalue(name)
    wrong = drawn(boat, scaled(table_of(boat), times))
    first = wrong.first_findings[0]
    assert first.key == "full-size"
    assert what_of(first).startswith("lines.csv: the hull is ")
    assert given in what_of(first)
    assert asked in what_of(first)
    (edit,) = first.edits
    back = read_table(str(dict(edit.fields)["text"]), "lines.csv")
    assert back.figures == pytest.approx(table_of(boat).figures, abs=1e-6, nan_ok=True)
    assert wrong.edited(first.edits).checked == boat.checked


def test_a_table_read_in_centimetres(grebe: Assessment) -> None:
    wrong = drawn(grebe, renamed(table_of(grebe), "cm"))
    found = one("full-size", wrong)
    assert what_of(found).endswith(": mm?")
    (edit,) = found.edits
    back = read_table(str(dict(edit.fields)["text"]), "lines.csv")
    assert back.figures == pytest.approx(table_of(grebe).figures, abs=1e-9, nan_ok=True)


def test_the_size_at_the_limit(bittern: Assessment) -> None:
    """All half-breadths 1.3 times as large: no plain slip, so it is only to be looked at."""
    assert ran("full-size", bittern) == ()
    wrong = drawn(bittern, scaled(table_of(bittern), 1.3))
    found = one("full-size", wrong)
    assert found.weight == "look at"
    assert found.edits == ()
    (broad,) = [size for size in sizes(wrong) if size.word == "breadth"]
    assert broad.share == pytest.approx(1.3, rel=1e-4)
    off = broad.share - 1
    assert ran("full-size", wrong, off * (1 + 1e-9)) == ()
    assert len(ran("full-size", wrong, off * (1 - 1e-9))) == 1


def test_without_a_full_size_boat_nothing_is_held_against_it(bittern: Assessment) -> None:
    bare = bittern.boat.model_copy(update={"full_size": None})
    assert ran("full-size", Assessment(boat=bare, files=bittern.files)) == ()
