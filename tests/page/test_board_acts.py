"""What is done on the drawing board, without a browser: cells, doubts, meshes, marks."""

import re
from collections.abc import Callable
from pathlib import Path

import pytest
from tests.page.conftest import OWN, Page, page_of
from tests.page.hands import put
from tests.page.shelves import TAPE

from trimdive.page.board_drawing import board_drawing, numbers_of
from trimdive.page.newboat import begun
from trimdive.page.newboat import made as starter_of
from trimdive.page.offsets import offsets_of, with_cell
from trimdive.page.shelf import Shelf
from trimdive.pictures.drawings.things import things
from trimdive.text.first_boat import first_boat


@pytest.fixture
def grebe(copied: Callable[[str], Path]) -> Page:
    """Return the page of Grebe as bought, opened."""
    return page_of(copied("grebe-as-bought")).enter()


@pytest.fixture
def plover(copied: Callable[[str], Path]) -> Page:
    """Return the page of Plover as bought, opened."""
    return page_of(copied("plover-as-bought")).enter()


def on_board(page: Page, pressed: str, **more: str) -> str:
    """Press a button of the board."""
    return page.press(f"board {pressed}", place="board", **more)


def table(page: Page) -> list[str]:
    """Return the lines of the table as shown."""
    return page.desk.written()[1]["lines.csv"].decode().splitlines()


def test_the_slipped_figure_is_told_and_put_right_by_a_press(grebe: Page) -> None:
    """demo-boats: "station 650, height 60 mm: 5.98 lies 53 mm inside its neighbours; 59.8?"."""
    shown = grebe.client.get("/board").text
    assert "station 650, height 60 mm: 5.98 lies 53 mm inside its neighbours; 59.8?" in shown
    found = re.search(r'value="board (likely \d+ \d+)">Write 59\.8<', shown)
    assert found is not None
    before = table(grebe)
    answer = on_board(grebe, found[1])
    assert "59.8 for 5.98" in answer
    changed = [(a, b) for a, b in zip(before, table(grebe), strict=True) if a != b]
    assert changed == [
        ("650,0,24.5,33.4,44.4,55.8,5.98,59.3,55.6,49.4,126,35",
         "650,0,24.5,33.4,44.4,55.8,59.8,59.3,55.6,49.4,126,35"),
    ]  # fmt: skip
    assert "lies 53 mm inside" not in answer


@pytest.mark.parametrize(
    ("typed", "written"), [("60", "60"), ("59,8", "59.8"), ("2.35 in", "59.69"), ("", "")]
)
def test_a_cell_takes_what_is_typed(grebe: Page, typed: str, written: str) -> None:
    on_board(grebe, "cell 1 10 6", cell=typed)
    assert table(grebe)[9].split(",")[6] == written
    assert grebe.desk.wrong is None
    answer = grebe.press("undo", place="board")
    assert table(grebe)[9].split(",")[6] == "5.98"
    assert "Undone" in answer


@pytest.mark.parametrize(
    ("cell", "typed", "says"),
    [
        ("cell 1 10 6", "wide", "not a length"),
        ("cell 1 10 6", "-4", "negative"),
        ("cell 1 10 1", "", "missing"),
        ("cell 1 10 0", "520", "stands twice"),
        ("cell 1 10 6", "5; drop", "drop"),
        ("cell 1 1 0", "5", "no such cell"),
        ("cell 1 10 99", "5", "no such cell"),
    ],
)
def test_what_a_cell_cannot_take_is_told_beside_the_table(
    grebe: Page, cell: str, typed: str, says: str
) -> None:
    before = grebe.desk.written()
    answer = on_board(grebe, cell, cell=typed)
    assert says in answer
    assert grebe.desk.written() == before


@pytest.mark.parametrize(
    "pressed", ["cell", "cell 9 1 1", "cell a b c", "cell 4 1 1", "likely 1 7", "drop-mark 9",
                "undo-repair 1 1", "undo-repair 77 1", "likely 1 -1"],
)  # fmt: skip
def test_what_is_not_on_the_board_is_refused(grebe: Page, pressed: str) -> None:
    before = grebe.desk.written()
    answer = on_board(grebe, pressed, cell="5")
    assert 'class="refused"' in answer
    assert grebe.desk.written() == before


def test_a_table_with_a_cell_changed_is_the_same_elsewhere() -> None:
    """Comments, line breaks of another system and a decimal comma's separator stay."""
    text = "# mine\r\nx mm;keel;20;40\r\n0;5;1;2\r\n100;0;30;40 \r\n200;5;1;\r\n"
    new = with_cell(text, "lines.csv", 4, 2, "31,5")
    assert new == text.replace("100;0;30;40 ", "100;0;31.5;40 ")
    assert with_cell(text, "lines.csv", 5, 3, "2") == text.replace("200;5;1;", "200;5;1;2")


def test_a_long_table_is_left_to_a_spreadsheet() -> None:
    rows = "".join(f"{x},0,30,40\n" for x in range(1200))
    found = offsets_of(f"x mm,keel,20,40\n{rows}", "lines.csv")
    assert found.rows == ()


def test_each_trouble_of_a_mesh_is_mended_by_itself_and_taken_back(plover: Page) -> None:
    """demo-boats: stern in inches, bow inside out, fin overlapping; each said, and mended."""
    shown = plover.client.get("/board").text
    for says in ("only in inches", "inside out", "counts twice"):
        assert says in shown
    names = set(re.findall(r'value="do (mesh-[^"]+)"', shown))
    assert len(names) == 3
    plover.press(f"do {next(one for one in names if one.startswith('mesh-unit'))}", place="board")
    assert plover.desk.her.boat.regions[0].file_unit == "in"  # type: ignore[union-attr]
    shown = plover.client.get("/board").text
    names = re.findall(r'value="do (mesh-[^"]+)"', shown)
    answer = plover.press(f"do {next(n for n in names if 'mesh-trouble' in n)}", place="board")
    assert "Repaired: turned right side out" in answer
    answer = on_board(plover, "undo-repair 3 1")
    assert "Repaired: turned right side out" not in answer
    assert "inside out" in answer


def test_marks_are_put_in_and_taken_out(grebe: Page) -> None:
    names = [mark.name for mark in grebe.desk.her.boat.marks]
    on_board(grebe, "add-mark", **{"mark-name": "quarter", "mark-x": "12 in"})
    assert grebe.desk.her.boat.marks[-1].x == pytest.approx(0.3048)
    on_board(grebe, f"drop-mark {len(names) + 1}")
    assert [mark.name for mark in grebe.desk.her.boat.marks] == names


@pytest.mark.parametrize("name", ["bittern", "grebe", "plover"])
def test_every_piece_is_on_the_drawing_once_by_its_number(
    copied: Callable[[str], Path], name: str
) -> None:
    page = page_of(copied(name)).enter()
    drawn = board_drawing(page.desk.her)
    numbers = numbers_of(things(page.desk.her))
    shown = re.findall(r'class="lettering">(\d+)<', drawn)
    assert sorted(map(int, shown)) == sorted(numbers.values())
    answer = page.client.get("/board/drawing", headers=OWN)
    assert drawn in answer.text


@pytest.mark.parametrize("name", ["bittern", "grebe", "plover", "bittern-as-bought"])
def test_every_region_part_and_cylinder_has_its_fields(
    copied: Callable[[str], Path], name: str
) -> None:
    page = page_of(copied(name)).enter()
    shown, boat = page.client.get("/board").text, page.desk.her.boat
    for k in range(1, len(boat.regions) + 1):
        assert f'data-field="region[{k}].thickness"' in shown
    for k in range(1, len(boat.parts) + 1):
        assert f'data-field="part[{k}].x"' in shown
    for k in range(1, len(boat.cylinders) + 1):
        assert f'data-field="cylinder[{k}].outside"' in shown
    assert 'data-field="waterline.height"' in shown


def test_the_figures_of_an_outline_are_fields(tmp_path: Path) -> None:
    made = begun("tape", TAPE)
    page = page_of(Shelf(tmp_path).put("Sanderling", first_boat(starter_of(made)), {})).enter()
    shown = page.client.get("/board").text
    path = "region[1].profile[3].keel"
    assert f'data-field="{path}" value="56 mm"' in shown
    put(page.desk, path, "2 in")
    assert page.desk.her.boat.regions[0].profile[2].keel == pytest.approx(0.0508)  # type: ignore[union-attr]
    on_board(page, "shape 1 2", shape="box")
    section = page.desk.her.boat.regions[0].section[1]  # type: ignore[union-attr]
    assert section.shape == "box"
    assert section.radius == pytest.approx(0.15 * 0.16, abs=1e-3), "corners of 15 % of the breadth"
    assert 'data-field="region[1].section[2].radius"' in page.client.get("/board").text
    on_board(page, "shape 1 2", shape="oval")
    assert page.desk.her.boat.regions[0].section[1].radius is None  # type: ignore[union-attr]
    answer = on_board(page, "shape 1 2", shape="points")
    assert "points" in answer.split('role="alert"')[1][:300]
    assert 'class="refused"' in on_board(page, "shape 1 9", shape="box")
    before = page.desk.written()
    typed = {"field": path, "typed": "high", "revision": str(page.desk.revision), "place": "board"}
    answer = page.client.post("/edit", data=typed, headers=OWN).text
    assert "&#39;high&#39; is not a length" in answer
    assert page.desk.written() == before


def test_what_is_usual_where_it_is_left_out_is_shown_so(grebe: Page) -> None:
    """Aboard counts as yes where the file says nothing; taken out, the file says no."""
    shown = grebe.client.get("/board").text
    field = re.search(r'<input type="checkbox"[^>]*data-field="tank\[1\]\.aboard" (\w*)', shown)
    assert field is not None
    assert field[1] == "checked"
