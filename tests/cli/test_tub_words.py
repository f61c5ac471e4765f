"""One reading, said in several ways, is one reading: what a mark is called, and which way first."""

import datetime
from pathlib import Path

import pytest

from trimdive.boatfile import load
from trimdive.errors import AskError
from trimdive.text.tub_typed import reading_of

BOATS = Path(__file__).parents[2] / "boats"
DAY = datetime.date(2026, 5, 17)


def read(text: str, name: str = "bittern") -> dict[str, object]:
    """Return what is understood, without the date."""
    fields = reading_of(text, load(BOATS / name / "boat.toml").boat, DAY)
    return {key: value for key, value in fields.items() if key != "date"}


@pytest.mark.parametrize(
    "text",
    [
        "draught bow 97 mm",
        "draught bow: 97 mm",
        "draft at the fore mark 97 mm",
        "draught 97 mm at the front",
    ],
)
def test_the_foremost_mark_is_the_bow(text: str) -> None:
    assert read(text) == {"at": "fore mark", "draught": "97 mm"}


def test_a_mark_of_that_name_comes_first() -> None:
    assert read("draught stern 97 mm", "grebe")["at"] == "stern"
    assert read("draught amidships 97 mm", "grebe")["at"] == "middle"


@pytest.mark.parametrize(
    "text",
    [
        "tips 1.2° by the stern",
        "stern down 1.2°",
        "trim: 1.2° stern down",
        "tips by the stern 1.2°",
    ],
)
def test_an_angle_by_the_stern(text: str) -> None:
    assert read(text) == {"tips": "-1.2°"}


@pytest.mark.parametrize("text", ["leans 2° to port", "list 2° port", "heels to port 2°"])
def test_an_angle_to_port(text: str) -> None:
    assert read(text) == {"leans": "-2°"}


@pytest.mark.parametrize(
    "text", ["draught 97 mm", "draught keel 97 mm", "tips 3°", "bow down", "list 2°"]
)
def test_what_is_not_told_is_asked(text: str) -> None:
    with pytest.raises(AskError) as refused:
        read(text)
    assert "Write it as" in str(refused.value) or 'as "draught' in str(refused.value)
