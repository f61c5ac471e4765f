"""Batteries in open water: common practice, no source; cells and water do not go together."""

from pathlib import Path

import pytest
from tests.said import mend_of, what_of

from trimdive.assessment import Assessment
from trimdive.boatfile import load, parse
from trimdive.findings import Finding
from trimdive.geometry.solids.beside import read_beside

BOAT = Path(__file__).parents[2] / "boats" / "bittern" / "boat.toml"


def found(x: str = "1690 mm", more: str = "") -> tuple[Finding, ...]:
    """Return what is found with no cylinder entered for the forward battery."""
    text = BOAT.read_text("utf-8")
    at = text.index('name = "forward battery"')
    tail = text[at:].replace('inside = "forward cylinder"\n', "", 1)
    tail = tail.replace('x = "1690 mm"', f'x = "{x}"', 1)
    boat = parse(text[:at] + tail + more)
    return Assessment(boat=boat, files=read_beside(load(BOAT))).findings


def test_a_dry_battery_passes() -> None:
    her = Assessment(boat=load(BOAT).boat, files=read_beside(load(BOAT)))
    assert not any(one.key == "battery-wet" for one in her.findings)


def test_one_at_its_place_is_named_first_with_the_change() -> None:
    first = found()[0]
    assert first.key == "battery-wet"
    assert what_of(first) == "forward battery is in open water: no cylinder is entered for it"
    assert first.edits[0].fields == (("inside", "forward cylinder"),)


def test_one_elsewhere_is_put_where_she_lies_level() -> None:
    """Weighed at 1690 mm; what else is off by a hair may shift it by a centimetre."""
    first = found(x="2100 mm")[0]
    assert first.key == "battery-wet"
    fields = dict(first.edits[0].fields)
    assert fields["inside"] == "forward cylinder"
    assert fields["x"] == pytest.approx(1.690, abs=0.01)
    assert "there she is level" in mend_of(first)


@pytest.mark.parametrize(("allowed", "count"), [("0", 1), ("1", 0)])
def test_at_the_limit(allowed: str, count: int) -> None:
    limit = f'\n[limits]\nbattery-wet = "{allowed}"\n'
    assert sum(one.key == "battery-wet" for one in found(more=limit)) == count
