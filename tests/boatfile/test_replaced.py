"""One field of a boat file replaced within its line: the same as set anew, nothing else touched."""

import tomllib
from pathlib import Path

import pytest

from trimdive.boatfile.edits import replaced, set_value
from trimdive.errors import BoatFileError

TEXT = """format = 1
name = "A"   # a name = "B"
[water]
temperature = '15 °C'   # warm
[[part]]
name = "battery \\"low\\""
mass = "85 g" # weighed
inside = "tube"
aboard = true
x = "1 m"
"""
BOATS = Path(__file__).parents[2] / "boats"


@pytest.mark.parametrize(
    ("place", "typed", "line"),
    [
        ("name", "C", 'name = "C"   # a name = "B"'),
        ("water.temperature", "6 °C", 'temperature = "6 °C"   # warm'),
        ("part[1].name", "pack", 'name = "pack"'),
        ("part[1].mass", " 3 oz ", 'mass = "3 oz" # weighed'),
        ("part[1].aboard", "false", "aboard = false"),
        ("part[1].x", 'a "b" \\', 'x = "a \\"b\\" \\\\"'),
    ],
)
def test_one_line_changes(place: str, typed: str, line: str) -> None:
    new = replaced(TEXT, place, typed)
    changed = [b for a, b in zip(TEXT.splitlines(), new.splitlines(), strict=True) if a != b]
    assert changed == [line]
    value = {"false": False}.get(typed, typed.strip())
    assert tomllib.loads(new) == tomllib.loads(set_value(TEXT, place, value))


def test_nothing_typed_takes_the_field_out() -> None:
    assert "weighed" not in replaced(TEXT, "part[1].mass", "")
    assert replaced(TEXT, "part[1].density", "") == TEXT
    assert 'density = "1.2"' in replaced(TEXT, "part[1].density", "1.2")


def test_windows_line_breaks_stay() -> None:
    new = replaced(TEXT.replace("\n", "\r\n"), "part[1].mass", "3 g")
    assert new.count("\r\n") == new.count("\n") == TEXT.count("\n")


@pytest.mark.parametrize("place", ["part[2].mass", "nothing[1].x", "", "part[0].x", "name.x"])
def test_no_such_place(place: str) -> None:
    with pytest.raises(BoatFileError):
        replaced(TEXT, place, "3 g")


@pytest.mark.parametrize("name", sorted(p.parent.name for p in BOATS.glob("*/boat.toml")))
def test_every_text_of_a_demo_boat_is_replaced_as_it_is_set(name: str) -> None:
    text = (BOATS / name / "boat.toml").read_text("utf-8")
    contents = tomllib.loads(text)
    for key, pieces in contents.items():
        for number, piece in enumerate(pieces if isinstance(pieces, list) else [], 1):
            for field in (f for f, value in piece.items() if isinstance(value, str)):
                new = replaced(text, f"{key}[{number}].{field}", '1 "x')
                piece_now = tomllib.loads(new)[key][number - 1]
                assert piece_now == {**piece, field: '1 "x'}
                assert len(new.splitlines()) == len(text.splitlines())
