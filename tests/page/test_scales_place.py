"""Scales: the weight table edited by mouse and keys, pasted into, lists in and out."""

import csv
import io
import json
import re
from collections.abc import Callable, Iterator
from html import unescape
from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect
from tests.page.browsing import ASKED, AXE, Seen, entered, with_browser
from tests.page.conftest import BOATS, Page, page_of
from tests.page.shelves import given

from trimdive.page import reading
from trimdive.page.desk import Desk
from trimdive.page.guard import Keys
from trimdive.page.places.scales_beam import boxes
from trimdive.page.places.scales_rows import rows
from trimdive.weightlists import written

NAMES = sorted(folder.name for folder in BOATS.iterdir() if (folder / "boat.toml").is_file())


def path_of(page: Page, name: str) -> str:
    """Return the path of a part by its name."""
    return f"part[{[part.name for part in page.desk.her.boat.parts].index(name) + 1}]"


def shown(page: Page) -> str:
    """Return the place as it is shown."""
    return page.client.get("/scales").text


def pressed(page: Page, act: str, **typed: str) -> str:
    """Press a button of the place."""
    return page.press(f"scales {act}", place="scales", **typed)


@pytest.mark.parametrize("name", NAMES)
def test_every_mass_of_the_ledger_is_a_row(name: str) -> None:
    page = page_of(BOATS / name / "boat.toml").enter()
    her = page.desk.her
    found = {row.path: row for row in rows(page.desk)}
    for entry in her.masses.entries:
        assert found[entry.path].mass == entry.mass
        assert found[entry.path].place == tuple(entry.place)
        assert found[entry.path].name == entry.name
    assert sum(row.mass for row in found.values()) == pytest.approx(her.masses.mass)
    text = unescape(shown(page))
    assert her.boat.units.write(her.masses.mass, "mass") in text
    assert her.boat.place(float(her.masses.gravity[0])) in text


def test_no_box_lies_over_another_and_each_is_at_its_place(bittern: Page) -> None:
    placed = boxes(rows(bittern.desk), 2300.0)
    assert len(placed) == len([row for row in rows(bittern.desk) if row.mass])
    for i, one in enumerate(placed):
        assert one.x == pytest.approx(1e3 * one.row.place[0])
        for other in placed[:i]:
            apart = abs(one.x - other.x) >= (one.side + other.side) / 2 - 1e-9
            over = one.y >= other.y + other.side - 1e-9 or other.y >= one.y + one.side - 1e-9
            assert apart or over
    areas = [one.side**2 / one.row.mass for one in placed]
    assert max(areas) == pytest.approx(min(areas)), "area goes with mass"


def pasted(cells: dict[str, str]) -> str:
    """Return what is pasted into fields, as the page's own script sends it."""
    return json.dumps([{"field": field, "typed": typed} for field, typed in cells.items()])


def test_several_cells_are_one_step_or_none(bittern: Page) -> None:
    one, two = path_of(bittern, "forward battery"), path_of(bittern, "after battery")
    pressed(
        bittern,
        "paste",
        cells=pasted({f"{one}.mass": "1.5 kg", f"{one}.x": "1760 mm", f"{two}.mass": "3 lb"}),
    )
    assert len(bittern.desk.steps) == 2
    masses = {part.name: part.mass for part in bittern.desk.her.boat.parts}
    # International Yard and Pound Agreement, 1959: 1 lb = 0.453 592 37 kg
    assert masses["forward battery"] == pytest.approx(1.5)
    assert masses["after battery"] == pytest.approx(3 * 0.45359237)
    cells = pasted({f"{one}.mass": "1 kg", f"{two}.mass": "a lot"})
    text = pressed(bittern, "paste", cells=cells)
    assert len(bittern.desk.steps) == 2
    assert f'id="wrong-{two}.mass"' in text
    assert bittern.desk.her.boat.parts[0].mass == pytest.approx(1.5)


@pytest.mark.parametrize(
    "cells",
    ["", "[]", "{", "[1]", '[{"field": "part[1].mass"}]', '{"a": 1}', '[["part[1].mass", "1 kg"]]'],
)
def test_nonsense_is_not_pasted(bittern: Page, cells: str) -> None:
    text = pressed(bittern, "paste", cells=cells)
    assert "pasted" in text
    assert len(bittern.desk.steps) == 1


def test_a_part_put_in_doubled_and_taken_out(bittern: Page) -> None:
    before = bittern.desk.her.masses.mass
    new = {"new_kind": "part", "new_name": "camera", "new_mass": "3 oz", "new_known": "weighed"}
    pressed(bittern, "add", **new, new_x="1700 mm", new_z="90 mm", new_inside="forward cylinder")
    # the same agreement: 1 oz = 28.349 523 125 g
    assert bittern.desk.her.masses.mass - before == pytest.approx(3 * 0.028349523125)
    path = path_of(bittern, "camera")
    pressed(bittern, f"double {path}")
    assert bittern.desk.her.boat.parts[-1].name == "camera 2"
    pressed(bittern, f"out {path}")
    assert "camera" not in [part.name for part in bittern.desk.her.boat.parts]
    for _ in range(3):
        bittern.press("undo")
    assert bittern.desk.her.masses.mass == before


@pytest.mark.parametrize(
    ("act", "typed", "says"),
    [
        ("add", {"new_kind": "part", "new_name": "x", "new_mass": "heavy"}, "heavy"),
        ("add", {"new_kind": "sail"}, "sail"),
        ("add", {"new_kind": "part", "new_mass": "3 g"}, "x"),
        ("out part[99]", {}, "part[99]"),
        ("out boat", {}, "boat"),
        ("double", {}, "there is no"),
        ("weigh", {"weighed_date": "yesterday", "weighed_mass": "23 kg"}, "yesterday"),
        ("weigh", {"weighed_date": "2026-05-17"}, "mass"),
        ("weigh", {"weighed_date": "2026-05-17", "weighed_mass": "23 mm"}, "mm"),
        ("over", {}, "no list"),
    ],
)
def test_what_is_wrong_changes_nothing(
    bittern: Page, act: str, typed: dict[str, str], says: str
) -> None:
    text = unescape(pressed(bittern, act, **typed))
    answer = re.search(r'id="note" role="status" class="refused">\s*<p title="([^"]*)"', text)
    assert answer is not None
    assert says in answer[1]
    assert len(bittern.desk.steps) == 1


def test_on_the_scale(bittern: Page) -> None:
    typed = {"weighed_date": "2026-05-17", "weighed_mass": "24.1 kg", "weighed_note": "wet"}
    text = unescape(pressed(bittern, "weigh", **typed))
    her = bittern.desk.her
    assert her.boat.weigh_ins[-1].mass == pytest.approx(24.1)
    off = her.boat.units.write(24.1 - her.masses.dry, "mass")
    assert f"{off} more than the list now (wet)" in text
    pressed(bittern, "out weigh_in[1]")
    assert bittern.desk.her.boat.weigh_ins == ()


def brought(page: Page, data: bytes, name: str) -> str:
    """Drop a file on the table."""
    return unescape(given(page.client, "scales/list", page.desk, name, data))


def test_places_of_a_list_are_taken_where_wanted(bittern: Page) -> None:
    """As ``weights-in --places``: shown with how far each moves, and taken only where ticked."""
    one = next(part for part in bittern.desk.her.boat.parts if part.name == "forward battery")
    row = f"{one.name},{(one.mass or 0) * 1e3:.0f},{one.x * 1e3 + 25:.2f},{one.z * 1e3 - 4:.2f}"
    rows = f"Part,Mass [g],x [mm],z [mm]\n{row}\n".encode()
    text = brought(bittern, rows, "mine.csv")
    assert "row 2: forward battery, 25.0 mm forward, 4.0 mm down" in text
    pressed(bittern, "over", list_places="1")
    now = next(part for part in bittern.desk.her.boat.parts if part.name == "forward battery")
    assert (now.x, now.z) == pytest.approx((one.x + 0.025, one.z - 0.004))
    bittern.press("undo")
    again = next(part for part in bittern.desk.her.boat.parts if part.name == "forward battery")
    assert (again.x, again.z) == pytest.approx((one.x, one.z))


PATIENCE = 60.0  # for what is far quicker [s]


def _not_here(*_: object) -> None:
    pytest.fail("it is read in the page's own process")


def test_a_list_of_which_more_is_said_is_read_again_beside_the_page(
    bittern: Page, monkeypatch: pytest.MonkeyPatch
) -> None:
    text = brought(bittern, b"Part,Mass\nnew rod,10\n", "mine.csv")
    assert 'name="list_mass_unit"' in text
    here = "trimdive.page.places.scales_list.understood"
    monkeypatch.setattr(here, _not_here)
    monkeypatch.setattr(reading, "PROMPT", PATIENCE)
    wrong = unescape(pressed(bittern, "over", list_mass_unit="mm"))
    assert "'mm' is no unit of mass" in wrong
    assert len(bittern.desk.steps) == 1
    said = {
        "mass_unit": "oz",
        "x": "1700 mm",
        "z": "90 mm",
        "material": "brass",
        "known": "weighed",
    }
    more = {f"list_{key}": text for key, text in said.items()}
    answer = unescape(pressed(bittern, "over", **more))
    assert "Done: mine.csv: 1 new" in answer
    # the international avoirdupois ounce of 1959: 1 oz = 28.349 523 125 g
    assert bittern.desk.her.boat.parts[-1].mass == pytest.approx(0.28349523125)


def test_rows_that_are_no_parts_are_shown(bittern: Page) -> None:
    rows = b"Part,Mass [g]\nnew rod,10\nnew bar,20\nTotal,30\nMargin 5 %,1.5\n"
    text = brought(bittern, rows, "mine.csv")
    assert "Not parts: row 4, Total | 30 (named so); row 5, Margin 5 % | 1.5" in text
    assert "--" not in text.partition("Imported list")[2].partition("</section>")[0]


def test_a_list_goes_out_and_comes_in_again(bittern: Page) -> None:
    answer = bittern.client.get("/scales/export", params={"as": "csv"})
    her = bittern.desk.her
    assert answer.content == written(her.masses, her.boat.units, ".csv")
    assert "bittern-as-bought-weights.csv" in answer.headers["content-disposition"]
    table = list(csv.reader(io.StringIO(answer.content.decode("utf-8-sig"))))
    name, mass = table[0].index("name"), next(i for i, h in enumerate(table[0]) if "mass" in h)
    for row in table:
        if row[name] == "forward battery":
            row[mass] = str(float(row[mass]) + 60)
    changed = io.StringIO()
    csv.writer(changed).writerows(table)
    text = brought(bittern, changed.getvalue().encode(), "mine.csv")
    assert "1 weighed again" in text
    assert len(bittern.desk.steps) == 1, "nothing changes before it is taken over"
    pressed(bittern, "over")
    battery = next(p for p in bittern.desk.her.boat.parts if p.name == "forward battery")
    assert battery.mass == pytest.approx(1.54)
    assert len(bittern.desk.steps) == 2
    assert bittern.client.get("/scales/export", params={"as": "xlsx"}).content[:2] == b"PK"
    assert bittern.client.get("/scales/export", params={"as": "exe"}).status_code == 404


@pytest.mark.parametrize(
    ("data", "name"),
    [
        (b"\x89PNG....", "boat.png"),
        (b"", "empty.csv"),
        (b"PK\x03\x04bad", "x.xlsx"),
        (b"a,b", "x.csv"),
    ],
)
def test_a_wrong_file_is_told_in_a_sentence(bittern: Page, data: bytes, name: str) -> None:
    text = brought(bittern, data, name)
    assert 'class="refused"' in text
    assert "Traceback" not in text
    assert len(bittern.desk.steps) == 1


def test_names_do_nothing(copied: Callable[[str], Path]) -> None:
    file = copied("bittern-as-bought")
    evil = '<script>alert(1)</script>{{7*7}}" onload="x'
    quoted = evil.replace('"', '\\"')
    file.write_text(file.read_text("utf-8").replace('"forward battery"', f'"{quoted}"'), "utf-8")
    text = page_of(file).enter().client.get("/scales").text
    assert "<script>alert" not in text
    assert 'onload="x' not in text
    assert "alert(1)" in text


@pytest.fixture
def seen(browser: Browser, served: tuple[Desk, str, Keys]) -> Iterator[Seen]:
    found = entered(browser, served)
    found.page.locator("a[data-place=scales]").click()
    found.page.locator("weight-list").wait_for()
    yield found
    found.page.context.close()
    assert found.wrong == []


def battery(seen: Seen, field: str) -> str:
    """Return what finds a cell of the forward battery."""
    names = [part.name for part in seen.desk.her.boat.parts]
    return f"[id='field-part[{names.index('forward battery') + 1}].{field}']"


@with_browser
def test_a_mass_by_mouse_and_by_keyboard(seen: Seen) -> None:
    page = seen.page
    cell = page.locator(battery(seen, "mass"))
    cell.click()
    cell.fill("1600 g")
    page.keyboard.press("Enter")
    expect(page.locator("tr.all .mass")).to_have_text("24070 g")
    expect(page.locator("#note")).to_contain_text("Done")
    after = page.evaluate("document.activeElement.id")
    assert after.endswith(".mass"), "Enter goes on to the cell below"
    page.keyboard.press("ArrowUp")
    assert page.evaluate("document.activeElement.id") == battery(seen, "mass")[5:-2]
    page.keyboard.type("far too much")
    page.keyboard.press("Enter")
    wrong = page.locator(".weights .wrong")
    expect(wrong).to_contain_text("far too much")
    expect(page.locator("tr.all .mass")).to_have_text("24070 g")
    page.locator("h1").click()
    page.keyboard.press("Control+z")
    expect(page.locator("tr.all .mass")).to_have_text("23950 g")
    page.reload()
    expect(page.locator("tr.all .mass")).to_have_text("23950 g")


@with_browser
def test_cells_are_pasted_sorted_and_looked_through(seen: Seen) -> None:
    page = seen.page
    page.locator(battery(seen, "mass")).focus()
    page.evaluate(
        """() => {
        const data = new DataTransfer();
        data.setData("text/plain", "1500 g\\tcatalogue\\n1510 g\\tcatalogue\\n");
        document.activeElement.dispatchEvent(
            new ClipboardEvent("paste", { clipboardData: data, bubbles: true, cancelable: true }));
        }"""
    )
    expect(page.locator("#note")).to_contain_text("4 cells pasted")
    assert [p.mass for p in seen.desk.her.boat.parts[:2]] == pytest.approx([1.5, 1.51])
    page.locator("[data-sort=mass]").click()
    page.locator("[data-sort=mass]").click()
    expect(page.locator("th.mass")).to_have_attribute("aria-sort", "descending")
    expect(page.locator(".weights tbody tr").first).to_contain_text("lower hull")
    page.locator("[name=scales_show]").select_option("group:lead")
    expect(page.locator(".of")).to_have_text(re.compile("^7 of "))
    expect(page.locator("tr.shown .mass")).to_have_text("3200 g")
    page.locator("[name=scales_find]").fill("lead 3")
    expect(page.locator("tr.shown .mass")).to_have_text("420 g")
    page.get_by_role("button", name="Undo").click()
    expect(page.locator("#note")).to_contain_text("Undone")
    expect(page.locator("tr.shown .mass")).to_have_text("420 g")
    expect(page.locator("th.mass")).to_have_attribute("aria-sort", "descending")


@with_browser
def test_picked_here_is_picked_in_the_drawing(seen: Seen) -> None:
    page = seen.page
    page.get_by_role("button", name="forward tank works", exact=True).click()
    path = page.locator("select[name=picked]").input_value()
    expect(page.locator(".scene .thing.held")).to_have_attribute("data-path", path)
    expect(page.locator("weight-list tr.held")).to_have_attribute("data-path", path)


@with_browser
def test_two_windows_on_one_list(seen: Seen) -> None:
    other = seen.page.context.new_page()
    other.goto(f"{seen.home}/scales")
    other.locator(battery(seen, "mass")).fill("1700 g")
    other.keyboard.press("Enter")
    expect(other.locator("#note")).to_contain_text("Done")
    seen.page.locator(battery(seen, "mass")).fill("1800 g")
    seen.page.keyboard.press("Enter")
    expect(seen.page.locator("#note")).to_contain_text("changed in another window")
    expect(seen.page.locator(battery(seen, "mass"))).to_have_value("1700 g")
    other.close()


@with_browser
@pytest.mark.parametrize("looks", [{"color_scheme": "light"}, {"color_scheme": "dark"}])
@pytest.mark.parametrize("width", [1400, 400])
def test_nobody_is_shut_out(
    browser: Browser, served: tuple[Desk, str, Keys], looks: dict[str, str], width: int
) -> None:
    seen = entered(browser, served, viewport={"width": width, "height": 860}, **looks)
    seen.page.goto(f"{seen.home}/scales")
    seen.page.locator("weight-list").wait_for()
    seen.page.evaluate(AXE)
    assert seen.page.evaluate(ASKED) == []
    wide = "document.documentElement.scrollWidth <= document.documentElement.clientWidth"
    assert seen.page.evaluate(wide), "only the table scrolls sideways"
    seen.page.context.close()
    assert seen.wrong == []
