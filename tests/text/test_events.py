"""What happens on the way is told by its kind: a name changes nothing but that name."""

import re

from tests.page.conftest import BOATS

from trimdive.assessment import Assessment
from trimdive.boatfile import parse
from trimdive.text.dive_kinks import kinks
from trimdive.text.moments import happenings


def renamed(her: Assessment, old: str, new: str) -> Assessment:
    """Return her with a region under another name, wherever her file names it."""
    text = (BOATS / "bittern" / "boat.toml").read_text("utf-8")
    return Assessment(boat=parse(text.replace(f'"{old}"', f'"{new}"')), files=her.files)


def test_a_tower_may_be_called_anything(bittern: Assessment) -> None:
    answer = [text for _, text in kinks(bittern, bittern.down)]
    assert any("tower goes under" in text for text in answer)
    for name in ("breakwater", "all of her", "half full", "she"):
        her = renamed(bittern, "tower", name)
        assert [text for _, text in kinks(her, her.down)] == [
            re.sub(r"\btower\b", name, text) for text in answer
        ], name


def test_all_of_her_goes_under_once(bittern: Assessment) -> None:
    gone = [h for h in happenings(bittern.down) if "" in h.of_kind("under")]
    assert len(gone) == 1
    assert "the whole boat goes under" in gone[0].what
