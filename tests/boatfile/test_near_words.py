"""Keys typed wrong: the table of near words against the models that it names (common practice)."""

import re
from functools import cache
from itertools import product
from typing import TYPE_CHECKING

import pytest

from trimdive.boatfile import parse
from trimdive.boatfile.boat import Boat
from trimdive.boatfile.messages import _annotation, _models, named_fields
from trimdive.boatfile.near_words import ANY, TOP, folded, no_field, row_for
from trimdive.data import Row, table
from trimdive.errors import TrimdiveError
from trimdive.estimates.tape import typed

if TYPE_CHECKING:
    from pydantic import BaseModel

ROWS = table("near_words")


@cache
def pieces() -> dict[str, list[list[str]]]:
    """Return every table of a boat file by its last name, with the fields that it may have.

    Those of a file of tape readings stand with them.
    """
    models: dict[str, list[type[BaseModel]]] = {TOP: [Boat]}
    heads: list[type[BaseModel]] = [Boat]
    while heads:
        model = heads.pop()
        for name in named_fields(model):
            for inner in _models(_annotation(model, name)):
                if inner not in models.setdefault(name, []):
                    models[name].append(inner)
                    heads.append(inner)
    found = {name: [named_fields(model) for model in held] for name, held in models.items()}
    tape = {"tape": typed.TOP, "girth": typed.GIRTH, "standing": typed.STANDING}
    return found | {name: [list(fields)] for name, fields in tape.items()}


def fields_of(entry: Row) -> list[tuple[str, list[str]]]:
    """Return the tables for which a row holds, each with its fields."""
    named = entry["pieces"].split()
    return [
        (name, fields)
        for name, tables in pieces().items()
        if name in named or named == [ANY]
        for fields in tables
        if not entry["field"] or entry["field"] in fields
    ]


@pytest.mark.parametrize("entry", ROWS, ids=[entry["key"] for entry in ROWS])
def test_every_target_is_a_field_of_every_table_that_the_row_names(entry: Row) -> None:
    held = {name for name, _ in fields_of(entry)}
    assert held, "no table has that field"
    if entry["pieces"] != ANY:
        assert held == set(entry["pieces"].split())
    said = re.findall(r"'(\w+)'", entry["mend"])
    for name, fields in fields_of(entry):
        assert set(said) <= set(fields), name
    assert entry["field"] or entry["mend"]


@pytest.mark.parametrize("entry", ROWS, ids=[entry["key"] for entry in ROWS])
def test_every_word_leads_to_its_field_somewhere(entry: Row) -> None:
    for word in entry["words"].split(";"):
        assert folded(word) == word
        tables = [(name, fields) for name, fields in fields_of(entry) if word not in fields]
        assert tables, f"{word} is a field itself wherever the row holds"
        led = [(name, fields) for name, fields in tables if row_for(word, name, fields) is entry]
        assert led, f"another row takes {word} everywhere"
        for name, fields in led:
            says = no_field(word, name, fields).mend
            assert entry["mend"] in says
            assert not entry["field"] or f"'{entry['field']}'" in says


def test_no_word_stands_twice_for_one_table() -> None:
    seen: dict[tuple[str, str, str], str] = {}
    for entry in ROWS:
        for word, piece in product(entry["words"].split(";"), entry["pieces"].split()):
            place = (piece, word, entry["field"])
            assert place not in seen, f"{place}: {seen.get(place)} and {entry['key']}"
            seen[place] = entry["key"]


TYPED = {  # what is typed instead of a line of the example, and what is said
    ('mass = "71 g"', 'weight = "71 g"'): "Did you mean 'mass'?",
    ('mass = "71 g"', "mass_g = 71"): 'Write the unit with the figure: mass = "71 g".',
    ('mass = "71 g"', "Weight = 71"): "Did you mean 'mass'?",
    ("outside = 125", "od = 125"): "Did you mean 'outside'?",
    ("outside = 125", "id = 118"): "Write the outside diameter and the wall",
    ("outside = 125", "diameter = 125"): "Did you mean 'outside'?",
    ("wall = 3.7", "thickness = 3.7"): "Did you mean 'wall'?",
    ("breadth = 65", "width = 65"): "Did you mean 'breadth'?",
    ("breadth = 65", "width_mm = 65"): 'breadth = "65 mm"',
    ("x = 178", "pos = 178"): "Did you mean 'x'?",
    ("x = 178", "position = 178"): "Did you mean 'x'?",
    ("x = 178", "X = 178"): "Write it as 'x'.",
    ("length = 130", "len = 130"): "Did you mean 'length'?",
    ("length = 130", "depth = 130"): "Did you mean 'height'?",
    ("z = 62", "z = 62\nqty = 2"): "Enter each with its own place",
    ("thickness = 2.2", "wall = 2.2"): "Did you mean 'thickness'?",
    ("[[lead]]", "[[ballast]]"): "Did you mean 'lead'?",
    ("height = 154", "draught = 154"): "Did you mean 'height'?",
    ("breadth = 65", "bredht = 65"): "Did you mean 'breadth'?",
}


@pytest.mark.parametrize("slip", TYPED, ids=[new for _, new in TYPED])
def test_slips_in_a_boat_file_name_the_field_that_is_meant(
    slip: tuple[str, str], text: str
) -> None:
    old, new = slip
    assert old in text
    with pytest.raises(TrimdiveError) as caught:
        parse(text.replace(old, new, 1))
    assert TYPED[slip] in str(caught.value)
    assert "there is no field" in str(caught.value)


def test_the_letters_alone_would_have_said_height() -> None:
    # What stood here before: difflib's nearest spelling of "weight" among a part's fields.
    assert "'mass'" in no_field("weight", "part", ["height", "mass"]).mend
    assert "'height'" in no_field("heigth", "part", ["height", "mass"]).mend
