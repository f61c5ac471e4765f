"""Other units: what is worked out stays the same thing, only what is written changes."""

import re
from html import unescape

import pytest
from tests.cli.boats import NAMES, demo
from tests.page.conftest import OWN, Page, page_of

from trimdive.page.units import CHOICES, UNITS, in_choice
from trimdive.units import read


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("choice", list(UNITS))
def test_findings_are_the_same_but_for_their_words(name: str, choice: str) -> None:
    own = demo(name)
    other = in_choice(own, choice)
    assert other.boat.units == UNITS[choice]
    assert other.findings is own.findings, "nothing is worked out anew"
    assert other.need is own.need
    assert other == other.in_units(UNITS[choice])
    assert other != own


def test_inches_are_read_back_as_the_same() -> None:
    """The inch is 25.4 mm and the ounce 28.349523125 g, by definition (NIST SP 811)."""
    boat = in_choice(demo("bittern"), "inches").boat
    assert boat.units.write(0.0254, "length") == "1.00 in"
    assert boat.units.write(0.45359237, "mass") == "16.00 oz"
    assert boat.units.write(16.387064e-6, "volume") == "1.0 in³"
    assert read(boat.units.write(15.0, "temperature"), "temperature") == pytest.approx(15.0)


@pytest.fixture
def inches(bittern: Page) -> Page:
    """Return the page in inches and ounces."""
    bittern.client.cookies.set("units", "inches")
    return bittern


def test_a_bare_number_counts_in_the_file_s_own_unit(inches: Page) -> None:
    number = next(
        k for k, part in enumerate(inches.desk.her.boat.parts, 1) if part.name == "winch house"
    )
    asked = {
        "field": f"part[{number}].mass", "typed": "700", "says": "",
        "revision": str(inches.desk.revision),
    }  # fmt: skip
    answer = inches.client.post("/edit", data=asked, headers=OWN | {"hx-request": "true"})
    assert answer.status_code == 200
    assert inches.desk.her.boat.parts[number - 1].mass == pytest.approx(0.700)
    assert inches.desk.her.boat.units.length == "in"
    assert inches.desk.file_units.length == "mm"


def test_what_is_no_choice_is_the_file_s_own(bittern: Page) -> None:
    for choice in ("", "furlongs", "<script>"):
        bittern.client.cookies.set("units", choice)
        text = bittern.client.get("/", headers=OWN).text
        assert '<option value="" selected>' in text
        assert "367 g" in text
        assert "furlongs" not in text
    assert set(CHOICES) == {"", *UNITS}


def test_doing_and_undoing_in_other_units(inches: Page) -> None:
    before = inches.file.read_text("utf-8")
    inches.client.get("/right/remains", headers=OWN)  # no button is there before
    name = re.search(r'value="do ([^"]+)"', inches.client.get("/", headers=OWN).text)
    assert name
    inches.press(f"do {unescape(name[1])}")
    assert inches.desk.at == 1
    inches.press("save")
    saved = inches.file.read_text("utf-8")
    assert saved != before
    assert not re.search(r"\d in\b|\d oz\b|in³", saved)
    inches.press("undo")
    assert inches.desk.at == 0


def test_another_page_is_not_in_them(inches: Page) -> None:
    inches.client.get("/", headers=OWN)
    assert inches.desk.units == "inches"
    assert page_of(inches.file).desk.units == ""
