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
from playwright.sync_api import Page as Browsed
from tests.page.browsing import Seen, entered, with_browser
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


def typed_rows(*rows: dict[str, str]) -> str:
    """Return new rows as the page's own script sends them."""
    return json.dumps([{"key": str(k), "row": row} for k, row in enumerate(rows, 1)])


CAMERA = {"kind": "part", "name": "camera", "mass": "3 oz", "known": "weighed", "x": "1700, 90"}


def test_a_part_put_in_doubled_and_taken_out(bittern: Page) -> None:
    before = bittern.desk.her.masses.mass
    pressed(bittern, "rows", rows=typed_rows(CAMERA | {"inside": "forward cylinder"}))
    # the same agreement: 1 oz = 28.349 523 125 g
    assert bittern.desk.her.masses.mass - before == pytest.approx(3 * 0.028349523125)
    camera = bittern.desk.her.boat.parts[-1]
    assert (camera.x, camera.y, camera.z) == pytest.approx((1.7, 0.0, 0.09))
    path = path_of(bittern, "camera")
    bittern.press(f"entry double {path}", place="scales")
    assert bittern.desk.her.boat.parts[-1].name == "camera 2"
    bittern.press(f"entry out {path}", place="scales")
    assert "camera" not in [part.name for part in bittern.desk.her.boat.parts]
    for _ in range(3):
        bittern.press("undo")
    assert bittern.desk.her.masses.mass == before


def test_of_several_new_rows_those_in_order_go_in_each_a_step(bittern: Page) -> None:
    good = CAMERA | {"inside": "forward cylinder"}
    wrong = [
        good | {"mass": "heavy"},
        good | {"name": "a", "mass": ""},
        good | {"name": "b", "inside": ""},
        good | {"name": "c", "kind": "sail"},
    ]
    text = pressed(bittern, "rows", rows=typed_rows(good, *wrong, good | {"name": "d"}))
    told = json.loads(text.partition('class="added">')[2].partition("</script>")[0])
    assert told["1"] is None
    assert told["6"] is None
    assert [told[key][0] for key in "2345"] == ["mass", "mass", "material", "name"]
    assert "is not a mass" in told["2"][1]
    assert [part.name for part in bittern.desk.her.boat.parts[-2:]] == ["camera", "d"]
    bittern.press("undo")
    assert bittern.desk.her.boat.parts[-1].name == "camera"


@pytest.mark.parametrize("rows", ["", "[]", "{", "[1]", '[{"key": 1, "row": 2}]'])
def test_nonsense_is_no_row(bittern: Page, rows: str) -> None:
    assert 'class="refused"' in pressed(bittern, "rows", rows=rows)
    assert len(bittern.desk.steps) == 1


def test_a_column_is_filled_and_masses_are_weighed_in_one_step(bittern: Page) -> None:
    paths = [path_of(bittern, name) for name in ("forward battery", "after battery")]
    cells = pasted({f"{path}.mass": "1.6 kg" for path in paths})
    text = pressed(bittern, "fill", cells=cells)
    assert "Done: mass 1.6 kg in 2 rows" in text
    assert [part.mass for part in bittern.desk.her.boat.parts[:2]] == pytest.approx([1.6, 1.6])
    lip = "foam[1]"  # its mass is worked out
    text = pressed(
        bittern, "weighed", cells=pasted({f"{p}.known": "weighed" for p in (*paths, lip)})
    )
    assert "Done: 2 masses weighed; 1 without a mass left as they were" in text
    assert [part.known for part in bittern.desk.her.boat.parts[:2]] == ["weighed", "weighed"]
    assert len(bittern.desk.steps) == 3
    both = pasted({f"{paths[0]}.mass": "1590 g", f"{paths[0]}.known": "weighed"})
    assert "Done: forward battery: mass 1590 g, weighed" in pressed(bittern, "weighed", cells=both)
    text = pressed(bittern, "weighed", cells=pasted({f"{lip}.known": "weighed"}))
    assert "none of these has a mass entered" in text


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


class Hands:
    """Keys pressed one after another, counted."""

    def __init__(self, page: Browsed) -> None:
        """Begin with none pressed."""
        self.page, self.count = page, 0

    def press(self, *keys: str) -> None:
        """Press keys that are not letters."""
        for key in keys:
            self.page.keyboard.press(key)
            self.count += 1

    def type(self, text: str) -> None:
        """Type a text."""
        self.page.keyboard.type(text)
        self.count += len(text)


THIRTY = 30
HOME = "forward cylinder"


@with_browser
def test_thirty_weights_without_the_mouse(seen: Seen) -> None:
    """From nothing to saved, by keys alone; what a row costs beside its own letters is counted."""
    page, hands = seen.page, Hands(seen.page)
    first = len(seen.desk.her.boat.parts)
    page.evaluate("addEventListener('pointerdown', () => { throw new Error('the mouse'); })")
    page.locator("weight-list").focus()
    page.locator("input[name=scales_find]").focus()
    hands.press("Control+Enter")
    letters = 0
    for k in range(1, THIRTY + 1):
        name, mass, place = f"pump {k}", f"{20 + k}", f"{1560 + k} {80 + k % 5}"
        hands.type(name)
        hands.press("Tab")
        hands.type(mass)
        hands.press("w")
        hands.type(place)
        if k == 1:
            hands.press("Tab", "Tab", "Tab")
            hands.type(HOME[0])
        hands.press("Enter")
        letters += len(name) + len(mass) + len(place)
    expect(page.locator("tbody.fresh tr")).to_have_count(1)
    expect(page.locator("tbody.fresh [data-new=name]")).to_be_focused()
    page.locator("tbody.fresh [data-new=name]").fill("")
    parts = seen.desk.her.boat.parts[first:]
    assert [part.name for part in parts] == [f"pump {k}" for k in range(1, THIRTY + 1)]
    for k, part in enumerate(parts, 1):
        assert part.mass == pytest.approx((20 + k) * 1e-3)
        assert (part.x, part.z) == pytest.approx(((1560 + k) * 1e-3, (80 + k % 5) * 1e-3))
        assert (part.known, part.inside) == ("weighed", HOME)
    spare = hands.count - letters
    assert spare <= 3 * THIRTY + 5, "three keys a row, and five in all"
    hands.press("Control+s")
    expect(page.locator("button.save")).to_have_text("Saved")
    assert '"pump 30"' in seen.desk.path.read_text("utf-8")


@with_browser
def test_a_refused_row_stays_with_its_reason(seen: Seen) -> None:
    page = seen.page
    page.get_by_role("button", name="New row").click()
    page.keyboard.type("clock")
    page.keyboard.press("Tab")
    page.keyboard.type("heavy")
    page.keyboard.press("Enter")
    wrong = page.locator("tbody.fresh .wrong")
    expect(wrong).to_contain_text("'heavy' is not a mass")
    expect(page.locator("tbody.fresh [aria-invalid]")).to_have_count(1)
    expect(page.locator("tbody.fresh [data-new=name]").last).to_be_focused()  # one goes on there
    page.locator("a[data-place=bench]").click()
    page.locator(".place.bench").wait_for()
    page.locator("a[data-place=scales]").click()
    expect(page.locator("tbody.fresh [data-new=name]").first).to_have_value("clock")


@with_browser
def test_cells_are_chosen_filled_and_weighed_by_keys(seen: Seen) -> None:
    page = seen.page
    page.locator(battery(seen, "mass")).focus()
    page.keyboard.press("Shift+ArrowDown")
    expect(page.locator(".weights .chosen")).to_have_count(2)
    page.keyboard.press("Control+d")
    expect(page.locator("#note")).to_contain_text("Done: mass 1480 g in 1 row")
    assert seen.desk.her.boat.parts[1].mass == pytest.approx(1.48)
    page.locator(battery(seen, "mass")).focus()
    page.keyboard.press("Control+a")
    page.keyboard.type("1490w")
    expect(page.locator("#note")).to_contain_text("Done: forward battery: mass 1490, weighed")
    assert seen.desk.her.boat.parts[0].known == "weighed"
    focused = page.evaluate("document.activeElement.dataset.field")
    assert focused == "part[2].mass", "it goes on to the row below"


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
