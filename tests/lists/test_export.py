"""What is written is read back, by us, by the csv module and by openpyxl; no cell is a formula.

Formula injection: the guard follows the advice for CSV injection of OWASP's testing guide (from
memory): a leading = + - @, tab or carriage return must not open a cell of text.
"""

import csv
import io
import re
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from openpyxl import load_workbook

from trimdive.boatfile import Units
from trimdive.hydrostatics.weights import Entry, Ledger
from trimdive.weightlists import ListError, csv_of, table_of, understood, written, xlsx_of
from trimdive.weightlists.export import guarded, unguarded

GRAMS = Units(length="mm", mass="g")
POUNDS = Units(length="in", mass="lb")

LETTERS = st.characters(codec="utf-8", categories=("L", "N", "P", "S", "Zs"))
NAMES = st.text(LETTERS, min_size=1, max_size=30).map(lambda text: " ".join(text.split()))
MASSES = st.floats(1e-4, 500.0).map(lambda mass: round(mass, 7))
PLACES = st.floats(-5.0, 5.0).map(lambda place: round(place, 6))


def entry(name: str, mass: float, place: tuple[float, float, float] = (0.6, 0.0, 0.05)) -> Entry:
    return Entry(
        name=name, kind="part", path="part[1]", mass=mass, spread=mass / 20, known="weighed",
        place=np.array(place), inside="", dry=mass, aboard=True,
    )  # fmt: skip


def ledgers() -> st.SearchStrategy[Ledger]:
    # Names that mean a total would rightly be read as one.
    words = ("total", "sum", "gesamt", "som", "overall", "altogether", "insgesamt", "carried",
             "σ", "∑")  # fmt: skip
    plain = NAMES.filter(lambda text: any(c.isalnum() for c in text)).map(
        lambda text: "part " + text if not any(w in text.casefold() for w in words) else "part x"
    )
    risky = st.tuples(st.sampled_from(["=", "+", "-", "@", "'=", "''+"]), plain).map("".join)
    one = st.tuples(plain | risky, MASSES, st.tuples(PLACES, PLACES, PLACES))
    return st.lists(one, min_size=1, max_size=8).map(
        lambda rows: Ledger(entries=tuple(entry(*row) for row in rows))
    )


@settings(max_examples=60)
@given(
    ledgers(), st.sampled_from([GRAMS, POUNDS]), st.sampled_from([".csv", ".xlsx"]), st.booleans()
)
def test_any_ledger_is_read_back(masses: Ledger, units: Units, suffix: str, comma: bool) -> None:
    preview = understood(written(masses, units, suffix, decimal_comma=comma), f"list{suffix}")
    assert [item.name for item in preview.items] == [e.name for e in masses.entries]
    assert [item.mass for item in preview.items] == pytest.approx(
        [e.mass for e in masses.entries], rel=1e-9, abs=1e-9
    )
    places = [[item.figures[axis] for axis in "xyz"] for item in preview.items]
    assert np.array(places) == pytest.approx(np.array([e.place for e in masses.entries]), abs=1e-8)
    assert {item.words["known"] for item in preview.items} == {"weighed"}
    (one,) = preview.sums
    assert one.agrees
    assert one.stated == pytest.approx(masses.mass, rel=1e-9)
    assert preview.not_understood == ()


@given(st.text(max_size=40))
def test_no_text_opens_as_a_formula(text: str) -> None:
    shown = guarded(text)
    assert not shown.startswith(("=", "+", "-", "@", "\t", "\r"))
    assert unguarded(shown) == text or shown == text


@pytest.mark.parametrize("name", ["=1+1", "+x", "-x", "@x", '=cmd|" /C calc"!A0', "＝1"])  # noqa: RUF001
def test_risky_names_in_both_kinds_of_file(name: str) -> None:
    masses = Ledger(entries=(entry(name, 0.19),))
    table = table_of(masses, GRAMS)
    rows = list(csv.reader(io.StringIO(csv_of(table).decode("utf-8-sig"))))
    assert rows[1][0] == f"'{name}"
    cell = load_workbook(io.BytesIO(xlsx_of(table))).worksheets[0]["A2"]
    assert (cell.data_type, cell.value) == ("s", f"'{name}")


def test_numbers_stay_numbers() -> None:
    masses = Ledger(entries=(entry("motor", 0.19, (0.375, -0.012, 0.048)),))
    cells = load_workbook(io.BytesIO(written(masses, GRAMS, ".xlsx"))).worksheets[0]
    heads = [cell.value for cell in cells[1]]
    row = dict(zip(heads, [cell.value for cell in cells[2]], strict=True))
    assert row["mass [g]"] == pytest.approx(190)
    assert row["x from stern [mm]"] == pytest.approx(375)
    assert row["y to port [mm]"] == pytest.approx(-12)
    text = written(masses, GRAMS, ".csv", decimal_comma=True).decode("utf-8-sig")
    assert next(csv.reader(text.splitlines()[1:], delimiter=";"))[2:4] == ["190", "9,5"]


@pytest.mark.parametrize("comma", [False, True])
@pytest.mark.parametrize(
    "name", ["rods; bars", "rods, bars", "=1;=2", "a;=1+1", 'a,"=1+1', "b|+1", "c; '=1"]
)
def test_a_cell_stays_one_and_no_formula_whatever_parts_the_cells(name: str, comma: bool) -> None:
    """RFC 4180, 2.5 to 2.7, read by either sign: as a spreadsheet of another country would."""
    masses = Ledger(entries=(entry(name, 0.19, (0.3755, -0.0125, 0.048)),))
    data = written(masses, GRAMS, ".csv", decimal_comma=comma)
    text = data.decode("utf-8-sig")
    own = list(csv.reader(io.StringIO(text), delimiter=";" if comma else ","))
    assert {len(row) for row in own} == {len(own[0])}
    assert unguarded(own[1][0]) == name
    for sign in (",", ";", "\t", "|"):
        cells = [cell for row in csv.reader(io.StringIO(text), delimiter=sign) for cell in row]
        words = [cell for cell in cells if not re.fullmatch(r"-?[\d.,]+", cell)]
        assert not [cell for cell in words if cell.lstrip(' "').startswith(("=", "+", "-", "@"))]
    assert [item.name for item in understood(data, "list.csv").items] == [name.strip()]


def test_soaked_masses_and_what_is_to_come_have_their_columns() -> None:
    wet = replace(entry("planking", 0.05), dry=0.044)
    masses = Ledger(entries=(wet, replace(entry("mast", 0.017), aboard=False)))
    preview = understood(written(masses, GRAMS, ".csv"), "list.csv")
    assert [item.mass for item in preview.items] == pytest.approx([0.044, 0.017])
    assert [item.figures["soaked"] for item in preview.items] == pytest.approx([0.05, 0.017])
    assert [item.words["aboard"] for item in preview.items] == ["yes", "no"]
    assert preview.sums[0].agrees


def test_no_other_kind_of_file() -> None:
    with pytest.raises(ListError, match=r"no list is written as '\.txt'"):
        written(Ledger(entries=()), GRAMS, ".txt")


@pytest.mark.parametrize(("comma", "shown"), [(False, b"671.8750"), (True, b"671,8750")])
def test_three_decimals_are_written_so_that_they_part_no_thousands(
    comma: bool, shown: bytes
) -> None:
    masses = Ledger(entries=(entry("rod", 1.0, (0.0, 0.0, 0.671875)),))
    data = written(masses, GRAMS, ".csv", decimal_comma=comma)
    assert shown in data
    assert understood(data, "list.csv").items[0].figures["z"] == pytest.approx(0.671875)
