"""Lists in workbooks, as openpyxl writes them, and as bare XML by ECMA-376 (Office Open XML)."""

import datetime

import pytest
from openpyxl import Workbook
from tests.in_words import all_in_words, in_words
from tests.lists.books import book_of, bytes_of, stored_book, xml_row

from trimdive.weightlists import Answers, ListError, understood

HEADS = ["Part", "Mass [g]", "x [mm]", "z [mm]", "Material"]


def test_numbers_are_numbers() -> None:
    preview = understood(
        book_of([HEADS, ["hull", 1240.5, 600, 50, "GRP"], ["motor", 190, 375, 48, "steel"]]),
        "l.xlsx",
    )
    assert {item.name: item.mass for item in preview.items} == pytest.approx(
        {"hull": 1.2405, "motor": 0.19}
    )
    assert preview.asks == ()


def test_results_of_formulas_as_they_were_stored() -> None:
    rows = [
        xml_row(1, "Part", "Qty", "Mass each [g]", "Mass total [g]"),
        xml_row(2, "servo", 2, 55, ("B2*C2", 110)),
        xml_row(3, "motor", 1, 190, ("B3*C3", 190)),
        xml_row(4, "", "", "", ("SUM(D2:D3)", 300)),
    ]
    preview = understood(stored_book("".join(rows)), "l.xlsx")
    assert {item.name: item.mass for item in preview.items} == pytest.approx(
        {"servo": 0.11, "motor": 0.19}
    )
    (one,) = preview.sums
    assert (one.stated, one.rows) == (pytest.approx(0.3), (2, 3))
    assert one.agrees
    assert "SUM(D2:D3)" in in_words(preview.rows[3].why)


def test_a_sum_that_stops_short_is_said() -> None:
    rows = [
        xml_row(1, "Part", "Mass [g]"),
        xml_row(2, "servo", 110),
        xml_row(3, "motor", 190),
        xml_row(4, "lead", 500),
        xml_row(5, "Total", ("SUM(B2:B3)", 300)),
    ]
    (one,) = understood(stored_book("".join(rows)), "l.xlsx").sums
    assert one.difference == pytest.approx(-0.5)
    assert not one.agrees
    assert "row 4 (lead): the list's sum leaves it out?" in in_words(one.hint)


def test_a_formula_without_a_stored_result_is_said() -> None:
    rows = [xml_row(1, "Part", "Mass [g]"), xml_row(2, "servo", ("2*55", None))]
    preview = understood(stored_book("".join(rows)), "l.xlsx")
    assert "=2*55 has no stored result" in in_words(preview.not_understood[0].why)


def test_groups_merged_downwards() -> None:
    rows = [
        ["Group", *HEADS[:2]],
        ["Drive", "motor", 190],
        [None, "shaft", 50],
        ["Hull", "shell", 1],
    ]
    preview = understood(book_of(rows, merged=["A2:A3"]), "l.xlsx")
    assert [item.words["group"] for item in preview.items] == ["Drive", "Drive", "Hull"]


def test_a_mass_shared_by_merged_rows_counts_once() -> None:
    rows = [HEADS[:2], ["motor", 190], ["shaft", None], ["shell", 1000]]
    preview = understood(book_of(rows, merged=["B2:B3"]), "l.xlsx")
    assert preview.mass == pytest.approx(1.19)
    assert "shared with row 2" in in_words(preview.not_understood[0].why)


def test_units_in_number_formats() -> None:
    book = Workbook()
    sheet = book.worksheets[0]
    sheet.append(["Part", "Mass"])
    sheet.append(["hull", 1.2405])
    sheet.append(["motor", 190])
    sheet["B2"].number_format = '0.000" kg"'
    sheet["B3"].number_format = '#,##0\\ "g"'
    preview = understood(bytes_of(book), "l.xlsx")
    assert [item.mass for item in preview.items] == pytest.approx([1.2405, 0.19])
    assert "mass_unit" not in [ask.field for ask in preview.asks]


def test_a_date_made_of_a_fraction_is_not_a_mass() -> None:
    preview = understood(
        book_of([HEADS[:2], ["motor", datetime.datetime(2024, 8, 3)], ["lead", 5]]), "l.xlsx"
    )
    assert "date 03 Aug 2024" in in_words(preview.not_understood[0].why)


def test_the_sheet_that_looks_like_a_list_is_read_and_the_others_are_named() -> None:
    book = Workbook()
    book.worksheets[0].title = "battery runs"
    book.worksheets[0].append(["minutes", "volts"])
    for title, mass in (("weights", 190), ("old weights", 210)):
        sheet = book.create_sheet(title)
        sheet.append(HEADS)
        sheet.append(["motor", mass, 375, 48, "steel"])
    data = bytes_of(book)
    preview = understood(data, "l.xlsx")
    assert preview.mass == pytest.approx(0.19)
    assert "battery runs, old weights" in in_words(preview.how[1])
    assert understood(data, "l.xlsx", Answers(sheet="old weights")).mass == pytest.approx(0.21)
    with pytest.raises(ListError, match=r"there is no sheet 'x'\. Name one of: battery runs, w"):
        understood(data, "l.xlsx", Answers(sheet="x"))


def test_a_cell_far_out_does_not_fill_the_memory() -> None:
    book = Workbook()
    sheet = book.worksheets[0]
    sheet.append(HEADS)
    sheet.append(["motor", 190, 375, 48, "steel"])
    sheet.cell(1_048_576, 16_384, "far")
    preview = understood(bytes_of(book), "l.xlsx")
    assert preview.mass == pytest.approx(0.19)
    assert any("1048576" in sentence for sentence in all_in_words(preview.how))


def test_a_bomb_is_refused_before_it_is_unpacked() -> None:
    data = stored_book(xml_row(1, "Part"), extra={"xl/media/zeros.bin": bytes(64 * 2**20)})
    assert len(data) < 2**18
    with pytest.raises(ListError, match="unpacked it would be 64 MB"):
        understood(data, "l.xlsx")


def test_entities_are_refused() -> None:
    bomb = b'<?xml version="1.0"?><!DOCTYPE a [<!ENTITY b "bbbb">]><a>&b;</a>'
    with pytest.raises(ListError, match="holds entities"):
        understood(stored_book(xml_row(1, "Part"), extra={"xl/styles.xml": bomb}), "l.xlsx")


@pytest.mark.parametrize("share", [0.1, 0.5, 0.9, 0.999])
def test_a_workbook_cut_short_is_refused(share: float) -> None:
    data = book_of([HEADS, ["motor", 190, 375, 48, "steel"]])
    with pytest.raises(ListError, match="damaged"):
        understood(data[: int(len(data) * share)], "l.xlsx")


def test_other_packed_files_are_refused() -> None:
    import io
    import zipfile

    data = io.BytesIO()
    with zipfile.ZipFile(data, "w") as folder:
        folder.writestr("mimetype", "application/vnd.oasis.opendocument.spreadsheet")
    with pytest.raises(ListError, match=r"a workbook of another kind. Save the list as \.xlsx"):
        understood(data.getvalue(), "l.ods")
