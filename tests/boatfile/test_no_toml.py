"""The slips that break TOML most often are called by their name, and other files too."""

import pytest

from trimdive.boatfile import parse
from trimdive.errors import BoatFileError

SLIPS = {  # the line as typed: what is said, and what mends it
    "name = “Dabchick”": ("the quotes are those of a word processor", 'Write name = "Dabchick".'),
    "name = „Dabchick“ # her name": ("those of a word processor", 'Write name = "Dabchick".'),
    "name = ‘Dabchick’": ("those of a word processor", 'Write name = "Dabchick".'),
    "length = 1,1": ("'1,1' has a decimal comma but no quotes", 'length = "1,1 …", with its unit'),
    "length = 850,5 mm": ("has a decimal comma but no quotes", 'length = "850,5 mm"'),
    "length = 0,85 m # about": ("'0,85' has a decimal comma", "or length = 0.85 where [units]"),
    "length = 850 mm": ("'850 mm' stands without quotes", 'Write length = "850 mm".'),
    'length = 33.5"': ("stands without quotes", 'Write length = "33.5 in".'),
    "name = Dabchick": ("'Dabchick' stands without quotes", 'Write name = "Dabchick".'),
    "name = Little grebe # hers": ("'Little grebe' stands", 'Write name = "Little grebe".'),
    "name =": ("the line is not TOML", "Write a field as: "),
    "length 850": ("the line is not TOML", "Write a field as: "),
}


@pytest.mark.parametrize("typed", SLIPS)
def test_a_slip_is_called_by_its_name(typed: str) -> None:
    what, mend = SLIPS[typed]
    with pytest.raises(BoatFileError) as caught:
        parse(f"format = 1\n{typed}\n")
    assert caught.value.where == "boat.toml:2"
    assert what in caught.value.what
    assert mend in caught.value.mend


def test_a_slip_in_a_file_of_another_system_is_called_so_too() -> None:
    with pytest.raises(BoatFileError, match=r"'1.1 kg' stands without quotes"):
        parse("format = 1\r\nmass = 1.1 kg\r\n")


@pytest.mark.parametrize("head", ["x mm,y,z", "# by hand\nx cm;keel;20;40", "x in\tradius"])
def test_a_table_of_lines_is_told_from_a_boat_file(head: str) -> None:
    with pytest.raises(BoatFileError) as caught:
        parse(f"{head}\n0,0,0\n", "lines.csv")
    assert caught.value.what == "it is a table of lines, not a boat file"
    assert 'under [[region]]: surface = "lines" and file = "lines.csv"' in caught.value.mend


def test_a_weight_list_is_told_from_a_boat_file() -> None:
    with pytest.raises(BoatFileError, match=r"it is a table, not .* weights-in takes a weight"):
        parse("part;mass;x\nlead;12;3\n", "weights.csv")
