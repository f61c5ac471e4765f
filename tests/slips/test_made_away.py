"""An honest size is never called a slip because a smaller thing would be in nobody's way.

What is right is worked by hand from the boat file: common practice, no source.
"""

from pathlib import Path

import pytest
from tests.said import mend_of, what_of

from trimdive.assessment import Assessment
from trimdive.boatfile import load, parse
from trimdive.geometry.solids.beside import read_beside
from trimdive.text.say import Say

BOAT = Path(__file__).parents[2] / "boats" / "bittern" / "boat.toml"
TRIM_TANK = """
[[tank]]
name = "trim tank"
inside = "after cylinder"
x = "860 mm"
length = "130 mm"
"""


def assessed(text: str) -> Assessment:
    """Return Bittern with another text of her file."""
    return Assessment(boat=parse(text), files=read_beside(load(BOAT)))


@pytest.fixture(scope="module")
def text() -> str:
    return BOAT.read_text("utf-8")


def test_two_tanks_in_one_place_are_named_and_no_length_is_doubted(text: str) -> None:
    """After tank 893 to 1023 mm, trim tank 795 to 925 mm: 32 mm of bore 117.6 are in both."""
    her = assessed(text + TRIM_TANK)
    found = her.findings
    assert found[0].key == "room-tanks"
    assert not any(one.key == "slip" for one in found)
    shared = 0.032 * 0.1176**2 * 3.14159 / 4 * 1e6
    assert f"share {shared:.0f} cm³" in what_of(found[0], Say(her.boat))


def test_a_battery_not_entered_inside_is_told_so(text: str) -> None:
    at = text.index('name = "forward battery"')
    spoilt = text[:at] + text[at:].replace('inside = "forward cylinder"\n', "", 1)
    found = assessed(spoilt).findings
    assert found[0].edits[0].fields == (("inside", "forward cylinder"),), what_of(found[0])


def test_a_tank_entered_in_the_other_cylinder_goes_back_to_its_works(text: str) -> None:
    at = text.index('name = "forward tank"')
    head, tail = text[:at], text[at:]
    tail = tail.replace('inside = "forward cylinder"', 'inside = "after cylinder"', 1)
    tail = tail.replace('x = "1520 mm"', 'x = "900 mm"', 1)
    her = assessed(head + tail)
    first = her.findings[0]
    assert first.key == "room-tanks"
    assert "works lie in forward cylinder" in mend_of(first)
    (edit,) = first.edits
    assert dict(edit.fields)["inside"] == "forward cylinder"
    assert dict(edit.fields)["x"] == pytest.approx(1.53, abs=0.02)
    after = her.edited(first.edits)
    assert "room-tanks" not in {one.key for one in after.findings}
