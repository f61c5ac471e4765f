"""The panel of a thing in hand: its few fields, the same data as its row in Scales."""

import re
from html import unescape

import pytest
from playwright.sync_api import Browser, Locator, expect
from tests.page.browsing import ASKED, AXE, Seen, entered, with_browser
from tests.page.conftest import BOATS, OWN, Page, page_of

from trimdive.boatfile.kinds import others
from trimdive.boatfile.ref import ref
from trimdive.page.desk import Desk
from trimdive.page.guard import Keys
from trimdive.page.panel import Panel, panel_of
from trimdive.page.places.scales_rows import rows
from trimdive.page.typed_fields import typed_in

NAMES = sorted(folder.name for folder in BOATS.iterdir() if (folder / "boat.toml").is_file())
MOST = 5  # fields of a panel [-]


def panel(page: Page, path: str) -> Panel:
    """Return the panel of a thing."""
    found = panel_of(page.desk, path)
    assert found is not None
    return found


def heads(page: Page, path: str) -> list[str]:
    """Return what the fields of a panel are called."""
    return [head for _, head in panel(page, path).heads]


def typed(page: Page, field: str, text: str, picked: str, hand: str = "1") -> str:
    """Type into a field with a thing in hand, and return Scales as they are then."""
    sent = {"field": field, "typed": text, "revision": str(page.desk.revision), "hand": hand}
    more = {"place": "scales", "picked": picked}
    answer = page.client.post("/edit", data=sent | more, headers=OWN | {"hx-request": "true"})
    assert answer.status_code == 200, answer.text
    return answer.text


def value(text: str, ident: str) -> str:
    """Return what stands in a field of the page."""
    tag = next(one for one in re.findall("<input[^>]*>", text) if f'id="{ident}"' in one)
    found = re.search('value="([^"]*)"', tag)
    assert found, tag
    return unescape(found[1])


def told(text: str, ident: str) -> str:
    """Return the sentence beside a field; "" where none stands there."""
    found = re.search(f'id="{re.escape(ident)}" role="alert">([^<]*)<', text)
    return unescape(found[1]) if found else ""


def test_each_kind_shows_what_matters_of_it(bittern: Page) -> None:
    place = ["along", "height"]
    assert heads(bittern, "part[1]") == [*place, "mass", "how known"]
    assert heads(bittern, "lead[1]") == [*place, "mass"]
    assert heads(bittern, "foam[1]") == [*place, "mass", "volume"]
    assert heads(bittern, "tank[1]") == [*place, "inside diameter", "length"]
    assert heads(bittern, "cylinder[1]") == [*place, "outside diameter", "wall", "length"]
    assert panel(bittern, "tank[1]").told.startswith("open tank in forward cylinder, 1")
    piston = page_of(BOATS / "grebe" / "boat.toml").enter()
    assert heads(piston, "tank[1]") == [*place, "inside diameter", "stroke"]
    assert panel(piston, "tank[1]").cells["x"].hint == "water end"


@pytest.mark.parametrize("path", ["", "part[99]", "region[1]", "<b>", "tank[0].x"])
def test_of_what_cannot_be_moved_there_is_no_panel(bittern: Page, path: str) -> None:
    assert panel_of(bittern.desk, path) is None
    assert bittern.client.get("/scales", params={"picked": path}).status_code == 200


@pytest.mark.parametrize("name", NAMES)
def test_a_panel_shows_the_cells_of_its_row_and_few_more_of_its_kind(name: str) -> None:
    page = page_of(BOATS / name / "boat.toml").enter()
    found = {row.path: row for row in rows(page.desk)}
    for path, called in page.desk.shown.handles:
        one, at = panel(page, path), ref(path)
        aside = others(at.table, typed_in(page.desk, at.table)[at.order])
        assert one.name == called
        assert len(one.heads) <= MOST
        for column, cell in one.cells.items():
            assert ref(cell.path).field not in aside
            row = found.get(path)
            if row and column in row.cells:
                assert cell == row.cells[column]


def test_what_is_typed_in_either_shows_in_both_as_one_step(bittern: Page) -> None:
    text = typed(bittern, "part[1].mass", "52 oz", "part[1]")
    assert value(text, "hand-part[1].mass") == value(text, "field-part[1].mass") == "52 oz"
    # International Yard and Pound Agreement, 1959: 1 oz = 28.349 523 125 g
    assert bittern.desk.her.boat.parts[0].mass == pytest.approx(52 * 0.028349523125)
    text = typed(bittern, "part[1].x", "70 in", "part[1]", hand="")
    assert value(text, "hand-part[1].x") == value(text, "field-part[1].x") == "70 in"
    assert len(bittern.desk.steps) == 3
    text = bittern.press("undo", place="scales", picked="part[1]")
    assert value(text, "hand-part[1].x") == value(text, "field-part[1].x") == "1770 mm"


def test_what_cannot_be_stands_beside_the_field_in_which_it_was_typed(bittern: Page) -> None:
    text = typed(bittern, "part[1].mass", "a lot", "part[1]", hand="")
    says = told(text, "wrong-part[1].mass")
    assert "a lot" in says
    assert not told(text, "wrong-hand-part[1].mass")
    text = typed(bittern, "part[1].mass", "a lot", "part[1]")
    assert told(text, "wrong-hand-part[1].mass") == says
    assert not told(text, "wrong-part[1].mass")
    assert value(text, "hand-part[1].mass") == "a lot"
    assert value(text, "field-part[1].mass") == "1480 g"
    assert len(bittern.desk.steps) == 1


def test_a_place_typed_to_another_end(bittern: Page) -> None:
    """By hand from the boat file: a tank 130 mm long about 1600 mm, to its after end."""
    assert dict(panel(bittern, "tank[1]").ends)["after end"] == "1535 mm"
    sent = {"picked": "tank[1]", "place_end": "after end", "field": "tank[1].x", "hand": "1"}
    text = bittern.press("move tank[1]", place_x="far off", **sent)
    assert "far off" in told(text, "wrong-hand-tank[1].x")
    assert len(bittern.desk.steps) == 1
    text = bittern.press("move tank[1]", place_x="1455 mm", **sent)
    assert value(text, "hand-tank[1].x") == "1520 mm"
    works = next(part for part in bittern.desk.her.boat.parts if part.name == "forward tank works")
    assert works.x == pytest.approx(1.53), "they went with it"


def take(seen: Seen, name: str) -> None:
    """Take a thing in hand by the list, and wait for its fields."""
    seen.page.locator("#picked").select_option(label=name)
    expect(seen.page.locator(".panel .item").first).to_be_visible()


def field(seen: Seen, ident: str) -> Locator:
    """Return a field by its id."""
    return seen.page.locator(f'[id="{ident}"]')


@with_browser
def test_typed_in_the_strip_it_stands_in_the_row_and_the_caret_stays(seen: Seen) -> None:
    page, keys = seen.page, seen.page.keyboard
    page.get_by_role("link", name="Scales").click()
    page.locator('[data-pick="part[1]"]').click()
    expect(page.locator('tr[data-path="part[1]"]')).to_have_class(re.compile("held"))
    expect(page.locator(".scene .thing.held")).to_have_attribute("data-path", "part[1]")
    mass = field(seen, "hand-part[1].mass")
    mass.fill("1500 g")
    keys.press("ArrowLeft")
    keys.press("Enter")
    expect(field(seen, "field-part[1].mass")).to_have_value("1500 g")
    expect(mass).to_be_focused()
    assert mass.evaluate("one => one.selectionStart") == len("1500 ")
    assert len(seen.desk.steps) == 2
    mass.fill("heavy")
    keys.press("Enter")
    expect(page.locator(".panel .wrong")).to_contain_text("heavy")
    expect(page.locator(".weights .wrong")).to_have_count(0)
    expect(mass).to_be_focused()
    for scheme in ("light", "dark"):
        page.emulate_media(color_scheme=scheme)  # type: ignore[arg-type]
        page.evaluate(AXE)
        assert page.evaluate(ASKED) == []
    keys.press("Escape")
    expect(mass).to_have_value("1500 g")
    expect(page.locator(".panel .wrong")).to_have_count(0)
    cell = field(seen, "field-part[2].mass")
    cell.fill("1490 g")
    cell.press("Tab")
    expect(field(seen, "hand-part[2].mass")).to_have_value("1490 g")
    assert len(seen.desk.steps) == 3
    field(seen, "field-part[3].mass").focus()
    expect(field(seen, "hand-part[3].mass")).to_be_visible()


@with_browser
def test_every_field_is_reached_by_tab_and_escape_leaves_the_thing(seen: Seen) -> None:
    page, keys = seen.page, seen.page.keyboard
    take(seen, "forward cylinder")
    page.locator("#picked").focus()
    reached: list[str] = []
    for _ in range(12):
        keys.press("Tab")
        reached.append(
            page.evaluate("document.activeElement.id || document.activeElement.className")
        )
        if "leave" in reached[-1]:
            break
    fields = [f"hand-cylinder[1].{one}" for one in ("x", "z", "outside", "wall", "length")]
    assert [one for one in reached if one.startswith("hand-")] == fields
    assert reached[0] == "grip"
    field(seen, "hand-cylinder[1].wall").focus()
    keys.type("4")
    keys.press("Escape")
    expect(field(seen, "hand-cylinder[1].wall")).to_have_value("3.7 mm")
    keys.press("Escape")
    expect(page.locator(".panel")).to_be_hidden()
    assert page.locator("#picked").input_value() == ""
    assert len(seen.desk.steps) == 1


@with_browser
def test_a_place_is_typed_to_the_end_that_is_chosen(seen: Seen) -> None:
    take(seen, "forward tank")
    seen.page.locator(".panel .end").select_option("after end")
    along = field(seen, "hand-tank[1].x")
    expect(along).to_have_attribute("placeholder", "1535 mm")
    along.fill("1455 mm")
    along.press("Enter")
    expect(seen.page.locator("#note")).to_contain_text("80.0 mm aft")
    expect(along).to_have_attribute("placeholder", "1455 mm")
    expect(along).to_be_focused()
    seen.page.locator(".panel .end").select_option("middle")
    expect(along).to_have_value("1520 mm")


@with_browser
@pytest.mark.parametrize(
    ("wide", "high", "most"), [(1366, 768, 112), (1440, 900, 104), (400, 850, 0)]
)
def test_the_strip_moves_nothing_and_is_low(
    browser: Browser, served: tuple[Desk, str, Keys], wide: int, high: int, most: int
) -> None:
    seen = entered(browser, served, viewport={"width": wide, "height": high})
    scene = "document.querySelector('.scene').getBoundingClientRect().toJSON()"
    before = seen.page.evaluate(scene)
    for name in ("forward battery", "forward tank", "forward cylinder", "lead 1"):
        take(seen, name)
        assert seen.page.evaluate("document.documentElement.scrollWidth") <= wide
        if most:
            assert seen.page.evaluate(scene) == before
            box = seen.page.locator(".hand").bounding_box()
            assert box is not None
            assert box["height"] <= most
            assert box["y"] + box["height"] <= high
    seen.page.locator(".panel .leave").click()
    assert not most or seen.page.evaluate(scene) == before
    seen.page.context.close()
    assert seen.wrong == []
