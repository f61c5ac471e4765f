"""What tells columns, rows and tables of a list apart, trait by trait (no source)."""

import io
import zipfile

import pytest
from tests.in_words import SAY, all_in_words, in_words
from tests.lists.books import book_of, stored_book, xml_row
from tests.lists.thirty import CASES, with_merge

from trimdive.text.list_words import ask_sentence
from trimdive.weightlists import Answers, ListError, ListPreview, understood
from trimdive.weightlists.bounds import MOST_CELLS
from trimdive.weightlists.words import head_of


def read(text: str, **said: str) -> ListPreview:
    return understood(text.encode(), "list.csv", Answers(**said))


@pytest.mark.parametrize(
    ("head", "column", "unit"),
    [
        ("Arm fore-aft (in)", "arm", "in"),
        ("Arm lateral (in)", "y", "in"),
        ("LCG [m]", "arm", "m"),
        ("TCG [m]", "y", "m"),
        ("VCG [m]", "z", "m"),
        ("From front (mm)", "x_bow", "mm"),
        ("distance from bow/cm", "x_bow", "cm"),
        ("Dist. aft of bow, in", "x_bow", "in"),
        ("forward of stern", "x_stern", ""),
        ("distance from centreline/cm", "y", "cm"),
        ("Off centre", "y", ""),
        ("To starboard [mm]", "y_starboard", "mm"),
        ("from baseline/cm", "z", "cm"),
        ("Height of CG above base", "z", ""),
        ("y position", "y", ""),
        ("Position quer (mm)", "y", "mm"),
        ("Arm long. (mm)", "arm", "mm"),
        ("Moment long. (g mm)", "moment", ""),
        ("Longitudinal moment", "moment", ""),
        ("Weight of vertical tail", "mass", ""),
        ("Weight %", "aside", "%"),
        ("Mass Units", "unit", ""),
        ("Frame no", "aside", ""),
        ("Height below waterline", "elsewhere", ""),
        ("Unit weight [g/cm3]", "density", "g/cm³"),
    ],
)
def test_heads(head: str, column: str, unit: str) -> None:
    found = head_of(head)
    assert (found.column, found.unit) == (column, unit)


def test_a_place_across_is_never_added_to_the_place_along() -> None:
    (item,) = read(
        "Part,Mass [g],Arm fore-aft [in],Distance from middle [in]\nbox,9,14.5,11\n"
    ).items
    assert item.figures["x"] == pytest.approx(14.5 * 0.0254)


def test_a_figure_is_no_end_to_measure_from() -> None:
    (item,) = read("Part,Mass [g],x [mm],Measured from\nbox,9,145,110\n").items
    assert item.figures["x"] == pytest.approx(0.145)
    assert "is not an end" in in_words(item.doubts[0])


@pytest.mark.parametrize(
    ("cell", "y"), [("25 P", 25), ("25 S", -25), ("25 mm to stbd", -25), ("-3", -3)]
)
def test_sides_in_cells(cell: str, y: float) -> None:
    (item,) = read(f"Part,Mass [g],Off centre [mm]\nbox,9,{cell}\n").items
    assert item.figures["y"] == pytest.approx(y / 1000)


@pytest.mark.parametrize(
    ("head", "numbers", "pieces"),
    [
        ("Number", (3, 2), [3, 2]),
        ("No.", (2, 1), [2, 1]),
        ("No.", (1, 2), [1, 1]),
        ("#", (7, 8), [1, 1]),
    ],
)
def test_numbers_beside_a_mass_of_one(
    head: str, numbers: tuple[int, int], pieces: list[int]
) -> None:
    a, b = numbers
    found = read(f"{head},Part,Mass each [g]\n{a},rod,10\n{b},nut,5\n").items
    assert [item.quantity for item in found] == pieces


@pytest.mark.parametrize(
    ("each", "total", "goes_in"),
    [("55", "165", True), ("55.4", "166", True), ("55", "155", False), ("55", "165.6", True)],
)
def test_pieces_make_the_rows_total(each: str, total: str, goes_in: bool) -> None:
    preview = read(f"Part,Qty,Each [g],Total [g]\nrod,3,{each},{total}\nnut,1,5,5\n")
    assert (len(preview.items) == 2) is goes_in
    assert goes_in or "its total says" in in_words(preview.not_understood[0].why)


def test_units_of_places_on_each_row() -> None:
    found = read("Part,Mass,Mass Units,x,Position units\nrod,10,g,50,cm\nbar,2,oz,9,in\n").items
    assert [item.figures["x"] for item in found] == pytest.approx([0.5, 9 * 0.0254])


def test_a_row_that_may_be_a_sum_or_a_part_is_asked() -> None:
    preview = read("Part,Mass [g]\na,100\nb,200\nc,50\nHull things,350\n\nd,20\n")
    assert "as much as rows 2 to 4 together" in in_words(preview.not_understood[0].why)


def test_a_part_with_a_place_is_a_part_whatever_it_weighs() -> None:
    preview = read("Part,Mass [g],x [mm]\na,100,1\nb,200,2\nc,50,3\nframe,350,4\n")
    assert len(preview.items) == 4


def test_a_part_named_as_its_group_is_asked_where_it_is_not_its_sum() -> None:
    preview = read("Group,Part,Mass [g]\nHull,shell,100\nHull,deck,20\nHull,Hull,130\n")
    assert "named as its group" in in_words(preview.not_understood[0].why)


@pytest.mark.parametrize(
    ("row", "use"),
    [("Margin 5 %,6", "none"), ("Target weight,900", "none"), ("Fishing net,6", "part"),
     ("Margin plate,6", "part"), ("NET,120", "total"), ("Balance weight,6", "part")],
)  # fmt: skip
def test_words_of_rows_that_are_no_parts(row: str, use: str) -> None:
    rows = {one.number: one.use for one in read(f"Part,Mass [g]\nshell,100\ndeck,20\n{row}\n").rows}
    assert rows[4] == use


def test_a_margin_explains_a_total_and_a_wrong_one_does_not() -> None:
    text = "Part,Mass [g]\nshell,100\ndeck,20\nMargin factor,1.1\nGross,{}\n"
    assert read(text.format(132)).sums[0].agrees
    assert not read(text.format(140)).sums[0].agrees


@pytest.mark.parametrize(
    ("row", "use"),
    [
        ("Displacement (submerged),4500", "not understood"),
        ("Displacement,4500", "none"),
        ("Balance weight,6", "none"),
        ("servo,6", "part"),
    ],
)
def test_what_stands_below_the_total(row: str, use: str) -> None:
    text = f"Part,Mass [g]\nshell,100\ndeck,20\nTotal,120\n{row}\n"
    assert {one.number: one.use for one in read(text).rows}[5] == use


def test_a_size_beside_length_and_width_is_no_place() -> None:
    (item,) = read("Part,Length [mm],Width [mm],Height [mm],Mass [g]\nrod,100,20,5,12\n").items
    assert "z" not in item.figures


def test_a_total_that_runs_on_is_not_the_mass_of_all() -> None:
    preview = read("Part,Mass [g],Total [g]\nrod,55,55\nbar,10,65\nnut,5,70\n")
    assert preview.mass == pytest.approx(0.07)
    assert "runs on" in in_words(preview.columns[2].why)


def test_a_total_without_pieces_is_compared_too() -> None:
    preview = read("Part,Mass each [g],Total mass [g]\nrod,55,165\nbar,10,65.4\n")
    assert [item.mass for item in preview.items] == pytest.approx([0.165])
    assert "its total says 65.4 g" in in_words(preview.not_understood[0].why)


def test_spacing_columns_are_no_side_table() -> None:
    rows = [["Part", None, "Mass [g]", None, "x [mm]"], ["rod", None, 10, None, 50]]
    (item,) = understood(book_of(rows), "list.xlsx").items
    assert item.figures["x"] == pytest.approx(0.05)


def test_too_many_cells_are_refused_before_work() -> None:
    row = "".join(f'<c r="A{k}"><v>1</v></c>' for k in range(1, 12))
    many = "".join(f"<row>{row}</row>" for _ in range(MOST_CELLS // 10))
    with pytest.raises(ListError, match="cells in it are filled"):
        understood(stored_book(many), "list.xlsx")


def test_areas_merged_without_end_are_forgotten() -> None:
    data = stored_book(xml_row(1, "Part", "Mass [g]") + xml_row(2, "rod", 10))
    assert len(understood(with_merge(data, "A5:XFD1048576"), "list.xlsx").items) == 1


def test_an_escaped_sign_in_a_workbook_is_taken_out() -> None:
    data = stored_book(xml_row(1, "Part", "Mass [g]") + xml_row(2, "ro_x001B_[31md", 10))
    assert understood(data, "list.xlsx").items[0].name == "rod"


def test_no_option_is_named_outside_the_terminal() -> None:
    for of in (one for one in CASES if not one.refused):
        preview = understood(of.file, f"list{of.suffix}")
        said = [*all_in_words(preview.how), *(ask_sentence(SAY, ask) for ask in preview.asks)]
        said += [in_words(row.why) for row in preview.rows]
        said += [in_words(doubt) for item in preview.items for doubt in item.doubts]
        assert not [text for text in said if "--" in text]


def test_a_sheet_keeps_its_other_files() -> None:
    """Cutting a workbook down leaves every file of it in place."""
    from trimdive.weightlists.bounds import bounded

    data = book_of([["Part", "Mass [g]"], ["rod", 10]])
    before, after = (
        zipfile.ZipFile(io.BytesIO(one)).namelist() for one in (data, bounded(data, "a"))
    )
    assert before == after
