"""Every row of a list is accounted for: part, heading, total, note, blank, or said not to be clear.

That each row appears once, by its number in the file, is checked by counting lines in the text.
"""

import contextlib
import string

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.in_words import all_in_words, in_words

from trimdive.errors import TrimdiveError
from trimdive.weightlists import Answers, ListPreview, understood

LIST = """\
Weights of the boat,,,
,,,
Part,Mass [g],x [mm],Note
Hull,,,
shell,1000,600,
paint,120,600,"two coats,
matt"
Subtotal,1120,,
,,,
Drive,,,
motor,190,375,
spare fuse,,380,
coupling,tbd,,
lost lift,-25,600,
Part,Mass [g],x [mm],Note
lead,500,610,not glued
,500,,
Total,1810,,
* weighed in spring,,,
-----,,,
"""


def read(text: str, **said: str) -> ListPreview:
    return understood(text.encode(), "list.csv", Answers(**said))


def test_every_row_is_told() -> None:
    answer = {row.number: row.use for row in read(LIST).rows}
    assert answer == {
        1: "note", 2: "blank", 3: "heads", 4: "heading", 5: "part", 6: "part", 8: "subtotal",
        9: "blank", 10: "heading", 11: "part", 12: "not understood", 13: "not understood",
        14: "not understood", 15: "heads", 16: "part", 17: "not understood", 18: "total",
        19: "note", 20: "note",
    }  # fmt: skip


def test_why_a_row_does_not_go_in() -> None:
    why = {row.number: in_words(row.why) for row in read(LIST).not_understood}
    assert why[12] == "its mass is missing"
    assert "still to come" in why[13]
    assert "below zero" in why[14]
    assert "without a name" in why[17]


def test_headings_become_groups() -> None:
    groups = {item.name: item.words.get("group") for item in read(LIST).items}
    assert groups == {"shell": "Hull", "paint": "Hull", "motor": "Drive", "lead": "Drive"}


def test_a_sum_without_a_name_is_known_by_its_figure() -> None:
    preview = read("Part,Mass [g]\nmotor,190\nlead,500\n,690\nservo,55\n")
    assert [row.use for row in preview.rows] == ["heads", "part", "part", "total", "part"]
    assert preview.sums[0].agrees


def test_no_pieces_no_part() -> None:
    preview = read("Part,Qty,Mass each [g]\nmotor,0,190\nlead,1,500\n")
    assert [row.use for row in preview.rows] == ["heads", "none", "part"]
    assert preview.mass == pytest.approx(0.5)


def test_a_column_left_aside_is_said() -> None:
    preview = read("Part,Mass [g],Price,Colour,Part,\nmotor,190,12.50,red,M-1,odd\n")
    aside = {column.head: in_words(column.why) for column in preview.columns if not column.use}
    assert set(aside) == {"Price", "Colour", ""}
    assert all("ignored" in why for why in aside.values())
    assert preview.items[0].words["note"] == "M-1"


def test_a_date_where_a_mass_should_be() -> None:
    preview = read("Part,Mass [g]\nmotor,03-Aug\nlead,500\n")
    assert "03-Aug" in in_words(preview.not_understood[0].why)


def test_a_place_that_is_no_length_is_doubted_not_dropped() -> None:
    preview = read("Part,Mass [g],x [mm]\nmotor,190,amidships\nlead,500,600\n")
    assert "amidships" in in_words(preview.items[0].doubts[0])
    ask = next(ask for ask in preview.asks if ask.field == "x")
    assert "row 2" in in_words(ask.what)


@given(
    st.lists(st.lists(st.text(string.printable, max_size=12), min_size=1, max_size=6), max_size=12),
    st.sampled_from([",", ";", "\t", "|"]),
)
def test_whatever_stands_below_the_heads_no_row_is_lost(
    rows: list[list[str]], separator: str
) -> None:
    kept = str.maketrans("", "", '"\r\n\x0b\x0c' + separator)
    body = [separator.join(cell.translate(kept) for cell in row) for row in rows]
    heads = separator.join(["Name", "Mass [g]", "x [mm]", "z [mm]"])
    text = "\n".join([heads, f"motor{separator}190{separator}375{separator}48", *body])
    preview = understood(text.encode(), "list.csv")
    numbers = [row.number for row in preview.rows]
    assert numbers == sorted(set(numbers))
    filled = {k for k, line in enumerate(text.split("\n"), 1) if line.strip()}
    assert filled <= set(numbers)
    parts = [row.number for row in preview.rows if row.use == "part"]
    assert parts == [item.row for item in preview.items]


@given(st.binary(max_size=400))
def test_any_bytes_are_read_or_refused_in_a_sentence(data: bytes) -> None:
    how: list[str] = []
    with contextlib.suppress(TrimdiveError):  # any other error fails the test
        how = all_in_words(understood(data, "list.csv").how)
    assert all(how)
