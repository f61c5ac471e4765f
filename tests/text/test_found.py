"""What mends a finding is known by its kind, whatever the units and however things are called."""

import re
from pathlib import Path

import pytest

from trimdive.assessment import Assessment, assess
from trimdive.boatfile import parse
from trimdive.cli.as_json import check_json

BITTERN = Path(__file__).parents[2] / "boats" / "bittern-as-bought"
IMPERIAL = {"length": "in", "mass": "oz", "volume": "in3"}


def of(her: Assessment, key: str) -> tuple[str, ...]:
    """Return check, words and kind of each mend in the document of a boat."""
    return tuple(str(one[key]) for one in check_json(her)["findings"])  # type: ignore[attr-defined]


@pytest.fixture(scope="module")
def bittern() -> Assessment:
    return assess(BITTERN)


def test_kinds_of_what_mends(bittern: Assessment) -> None:
    kinds = dict(zip(of(bittern, "check"), of(bittern, "mend_kind"), strict=True))
    assert kinds["void-above"] == "drill-holes"
    assert kinds["tank-offset"] == "move-tank-and-lead"  # of three things said the first
    assert "" not in kinds.values()


def test_kinds_are_the_same_in_other_units_and_under_another_name(bittern: Assessment) -> None:
    text = (BITTERN / "boat.toml").read_text("utf-8").replace("winch house", "shed")
    for kind, unit in IMPERIAL.items():
        text = re.sub(rf'^{kind} = "[a-z0-9]+"$', f'{kind} = "{unit}"', text, count=1, flags=re.M)
    her = Assessment(boat=parse(text), files=bittern.files)
    assert of(her, "mend_kind") == of(bittern, "mend_kind")
    assert of(her, "mend") != of(bittern, "mend")
    assert "shed" in " ".join(of(her, "what"))
