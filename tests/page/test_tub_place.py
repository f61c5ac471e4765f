"""The place Tub: answers are the terminal's, works go in as one step, wet hands press buttons."""

import json
import re
import signal
import time
from collections.abc import Callable, Iterator
from html import unescape
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Route, expect
from tests.cli.boats import BOATS, NAMES, SMALL
from tests.page.browsing import (
    ASKED,
    AXE,
    Seen,
    entered,
    on_a_port,
    with_browser,
)
from tests.page.conftest import Page, desk_of, page_of
from typer.testing import CliRunner

from trimdive.boatfile import load
from trimdive.cli.app import app as terminal
from trimdive.estimates.wethands import BY_KEY
from trimdive.page.places.jobs import job_of
from trimdive.page.places.tub import SECTIONS
from trimdive.page.places.tub_blocks import for_page
from trimdive.page.places.tub_wet import PADS
from trimdive.text.layout import line

COMMANDS = {"litres": "litres", "dive": "dive", "reach": "reach", "what-if": "what-if"}
FIGURE = re.compile(r"\d+(?:\.\d+)?")
SOON = 240_000  # within which a placing is done [ms]


def asked(page: Page, at: str, **typed: str) -> str:
    """Return what a section of the Tub answers, without its drawings and marks."""
    shown = {"at": at, **{f"tub.{name}": text for name, text in typed.items()}}
    answer = page.client.get("/tub/answer", params=shown)
    assert answer.status_code == 200
    text = re.sub(r"<svg.*?</svg>", "", answer.text, flags=re.DOTALL)
    return unescape(re.sub(r"<[^>]+>", " ", text))


def sheet(page: Page, **typed: str) -> str:
    """Return the page as it stands in the Tub."""
    shown = {f"tub.{name}": text for name, text in typed.items()}
    answer = page.client.get("/tub", params=shown, headers={"hx-request": "true"})
    assert answer.status_code == 200
    return answer.text


WORKS = [("tub place", "tub halt", "placing"), ("tub kit", "tub halt-kit", "trim kit")]


@pytest.mark.parametrize("at", COMMANDS)
@pytest.mark.parametrize("name", NAMES)
def test_every_figure_is_the_terminal_s(name: str, at: str, copied: Callable[[str], Path]) -> None:
    page = page_of(copied(name)).enter()
    said = CliRunner().invoke(terminal, [COMMANDS[at], str(BOATS / name)]).stdout
    found = set(FIGURE.findall(asked(page, at)))
    assert len(found) > 10
    assert found <= set(FIGURE.findall(said))


@pytest.mark.parametrize("name", NAMES)
def test_readings_tell_what_the_terminal_tells(name: str, copied: Callable[[str], Path]) -> None:
    page = page_of(copied(name)).enter()
    said = CliRunner().invoke(terminal, ["tub", str(BOATS / name)]).stdout
    found = set(FIGURE.findall(asked(page, "read")))
    assert len(found) > 10
    assert found <= set(FIGURE.findall(said))


def waited(page: Page, name: str) -> None:
    """Wait until a work is done."""
    job = job_of(page.desk, name)
    assert job is not None
    for _ in range(SOON // 100):
        if job.is_over:
            return
        time.sleep(0.1)
    pytest.fail("it takes too long")


@pytest.mark.parametrize("name", ["grebe-as-bought", "plover-as-bought"])
def test_a_placing_is_the_terminal_s(name: str, copied: Callable[[str], Path]) -> None:
    page = page_of(copied(name)).enter()
    at = {"place": "tub", "tub.at": "placing"}
    page.press("tub place", **at)
    waited(page, "placing")
    said = CliRunner().invoke(terminal, ["place", str(BOATS / name)]).stdout
    answer = sheet(page, at="placing")
    cells = re.findall(r"<td[^>]*>([^<]+)</td>", answer)
    found = {one for cell in cells for one in FIGURE.findall(unescape(cell))}
    assert len(found) > 10
    assert found <= set(FIGURE.findall(said))
    page.press("tub put", **at)
    assert page.desk.at == 1
    assert page.desk.her.in_order or "even then" in answer
    page.press("undo", **at)
    assert page.desk.at == 0


def test_a_kit_is_the_terminal_s(copied: Callable[[str], Path]) -> None:
    page = page_of(copied("grebe")).enter()
    page.press("tub kit", place="tub", **{"tub.at": "kit", "tub.waters": "pond, moonshine"})
    waited(page, "trim kit")
    assert "moonshine" in sheet(page, at="kit")
    page.press("tub kit", place="tub", **{"tub.at": "kit", "tub.waters": "pond, sea"})
    waited(page, "trim kit")
    said = CliRunner().invoke(terminal, ["kit", str(BOATS / "grebe"), "--waters", "pond, sea"])
    cells = re.findall(r"<td[^>]*>([^<]+)</td>", sheet(page, at="kit"))
    found = {one for cell in cells for one in FIGURE.findall(cell)}
    assert len(found) > 5
    assert found <= set(FIGURE.findall(said.stdout))


def test_with_the_after_tank_leading_she_tips_less(copied: Callable[[str], Path]) -> None:
    """The lesson of Bittern: one tank a little ahead takes more than half of the tipping away."""
    page = page_of(copied("bittern")).enter()
    text = asked(page, "dive", order="after tank ahead by 8 %")
    worst = re.search(r"largest trim on the way down\s+([\d.]+)°", text)
    together = re.search(r"as planned\s+([\d.]+)°", text)
    assert worst
    assert together
    assert float(worst[1]) < float(together[1]) / 2
    run = ["dive", str(BOATS / "bittern"), "--order", "after tank ahead by 8 %"]
    said = CliRunner().invoke(terminal, run).stdout
    assert re.search(rf"largest trim\s+{re.escape(worst[1])}°", said)


def test_what_is_typed_counts_in_the_file_s_own_units(bittern: Page) -> None:
    typed = {"instead": "forward battery", "mass": "3000"}
    own = asked(bittern, "what-if", **typed)
    bittern.client.cookies.set("units", "inches")
    other = asked(bittern, "what-if", **typed)
    grams = re.search(r"forward battery, tanks blown.*?([\d.]+) g", " ".join(own.split()))
    ounces = re.search(r"forward battery, tanks blown.*?([\d.]+) oz", " ".join(other.split()))
    assert grams
    assert ounces
    assert float(grams[1]) == pytest.approx(float(ounces[1]) * 28.3495, rel=1e-2)


@pytest.mark.parametrize(
    ("at", "field", "typed", "says"),
    [
        ("dive", "order", "fore peak first", "there is no tank"),
        ("dive", "order", "sideways", "no order of filling"),
        ("what-if", "without", "anchor", "anchor"),
    ],
)
def test_what_is_typed_wrong_is_told_beside_its_field(
    bittern: Page, at: str, field: str, typed: str, says: str
) -> None:
    text = bittern.client.get("/tub/answer", params={"at": at, f"tub.{field}": typed}).text
    assert f'data-tub-wrong="tub.{field}"' in text
    assert says.lower() in text.lower()
    answer = re.search(r"hidden>(.*?)</span>", text)
    assert answer
    assert "--" not in answer[1], "no options of the terminal"
    again = sheet(bittern, at=at, **{field: typed})
    assert f'id="wrong-tub.{field}"' in again, "and still when it is known already"
    assert bittern.desk.at == 0


@pytest.mark.parametrize(
    "typed", ["", "draft at nowhere 9 mm", "mass 900 kg", "draught bow 97 bananas"]
)
def test_a_reading_that_cannot_be_changes_nothing(bittern: Page, typed: str) -> None:
    text = bittern.press("tub read", **{"place": "tub", "tub.at": "read", "tub.reading": typed})
    assert 'id="wrong-tub.reading"' in text
    assert bittern.desk.at == 0
    if typed:
        assert f'value="{typed}"' in text, "what was typed is still there"


def test_readings_go_into_the_list_and_out_again(bittern: Page) -> None:
    at = {"place": "tub", "tub.at": "read"}
    bittern.press("tub read", **at, **{"tub.reading": "draught fore mark 160 mm"})
    bittern.press("tub read", **at, **{"tub.reading": "mass 24.1 kg"})
    assert [r.draught or r.mass for r in bittern.desk.her.boat.readings] == [0.16, 24.1]
    text = bittern.press("tub correct", **at)
    assert "Correct the list again" in text
    assert bittern.desk.her.boat.from_tub
    assert bittern.desk.her.masses.mass == pytest.approx(24.1, abs=0.05)
    bittern.press("undo", **at)
    assert not bittern.desk.her.boat.from_tub
    bittern.press("tub out 1", **at)
    assert [r.mass for r in bittern.desk.her.boat.readings] == [24.1]
    refused = bittern.press("tub out 7", **at)
    assert "there is no such reading" in refused


def test_no_pieces_go_in_before_the_readings(bittern: Page) -> None:
    bittern.press("tub read", place="tub", **{"tub.at": "read", "tub.reading": "mass 24.1 kg"})
    bittern.press("tub place", place="tub", **{"tub.at": "placing"})
    waited(bittern, "placing")
    answer = sheet(bittern, at="placing")
    assert "Before the pieces go in:" in answer
    assert 'value="tub put"' not in answer
    assert "nothing was added" in bittern.press("tub put", place="tub")
    assert bittern.desk.at == 1


def test_nothing_is_put_in_that_was_not_placed(bittern: Page) -> None:
    assert "nothing was placed yet" in bittern.press("tub put", place="tub")
    assert bittern.desk.at == 0
    assert bittern.client.get("/tub/card").status_code == 409


@pytest.mark.parametrize(("act", "stop", "name"), WORKS)
def test_a_work_that_is_stopped_ends_its_solver(
    bittern: Page, act: str, stop: str, name: str
) -> None:
    bittern.press(act, place="tub", **{"tub.at": "placing", "tub.seconds": "180"})
    job = job_of(bittern.desk, name)
    assert job is not None
    while job.apart.running is None and not job.is_over:
        time.sleep(0.01)
    assert job.is_running
    running = job.apart.running
    assert running is not None
    assert running.poll() is None, "it works in a process of its own"
    bittern.press(stop, place="tub")
    waited(bittern, name)
    assert running.poll() == -signal.SIGKILL
    assert (job.is_stopped, job.done, job.wrong) == (True, None, "")
    assert bittern.desk.at == 0
    assert "Stopped" in sheet(bittern, at={"placing": "placing", "trim kit": "kit"}[name])


def test_commands_of_the_terminal_are_not_told(bittern: Page) -> None:
    answer = for_page([line("Not corrected yet.", "trimdive tub BOAT --apply writes it.")], skip=0)
    assert [one.text for one in answer] == ["Not corrected yet."]
    for place in ("right", "tub", "bench", "pond"):
        text = unescape(re.sub(r"<[^>]+>", " ", bittern.client.get(f"/{place}").text))
        assert not re.search(r"trimdive [a-z]|(?<![-<])--[a-z]", text), place


def test_every_figure_asked_of_wet_hands_has_its_buttons() -> None:
    keys = {key for key, one in BY_KEY.items() if not one.options}
    assert keys <= set(PADS)


def test_a_boat_without_tanks_is_asked_less(tmp_path: Path) -> None:
    file = tmp_path / "boat.toml"
    file.write_text(re.sub(r"\[\[tank]]\n[^\[]+", "", SMALL), "utf-8")
    page = page_of(file).enter()
    text = sheet(page, at="dive")
    assert "Stability" in text
    assert "The dive" not in text
    assert "Lead and foam" not in text
    for one in ("litres", "stands", "what-if", "read"):
        asked(page, one)
        sheet(page, at=one)
    assert "Her dry mass" in sheet(page, at="wet")


@pytest.fixture
def tub(browser: Browser, copied: Callable[[str], Path]) -> Iterator[Seen]:
    """Yield the Tub of Bittern as bought; afterwards nothing may have gone wrong in it."""
    with on_a_port(desk_of(copied("bittern-as-bought"))) as served:
        found = entered(browser, served)
        found.page.locator("nav a[data-place=tub]").click()
        found.page.locator("#fold-tub-litres").wait_for()
        yield found
        found.page.context.close()
    assert found.wrong == []


def open_at(seen: Seen, key: str) -> None:
    """Open a section, and wait for its answer."""
    fold = seen.page.locator(f"#fold-tub-{key}")
    fold.locator("summary").first.click()
    expect(fold).to_have_attribute("open", "")
    expect(fold.locator("[data-tub-closed]")).to_have_count(0)
    expect(seen.page.locator("[data-tub-later]")).to_have_count(0, timeout=SOON)


@with_browser
@pytest.mark.parametrize(("scheme", "width"), [("light", 1400), ("dark", 400)])
def test_wet_hands_shut_nobody_out(
    browser: Browser, copied: Callable[[str], Path], scheme: str, width: int
) -> None:
    """WCAG 2.2 A and AA, by axe-core; nothing is wider than a narrow window."""
    with on_a_port(desk_of(copied("bittern-as-bought"))) as served:
        size = {"width": width, "height": 850}
        seen = entered(browser, served, color_scheme=scheme, viewport=size)
        seen.page.locator("nav a[data-place=tub]").click()
        seen.page.locator("[data-tub-at=wet]").click()
        expect(seen.page.locator(".wet-hands h1")).to_be_visible()
        seen.page.evaluate(AXE)
        assert seen.page.evaluate(ASKED) == []
        assert seen.page.evaluate("document.documentElement.scrollWidth") <= width
        seen.page.context.close()
    assert seen.wrong == []


@with_browser
def test_sections_that_were_opened_stay_open(tub: Seen) -> None:
    """Also where the answer to what was opened before comes last; and over places."""
    late: list[Route] = []
    first = re.compile(r"/tub\?.*tub\.at=litres&|/tub\?.*tub\.at=litres$")
    tub.page.route(first, lambda route: late.append(route))
    with tub.page.expect_request(first):
        tub.page.locator("#fold-tub-litres > summary").click()
    open_at(tub, "dive")
    with tub.page.expect_response(first) as found:
        late[0].continue_()
    found.value.finished()
    tub.page.evaluate("new Promise((done) => setTimeout(done, 100))")
    for key in ("litres", "dive"):
        expect(tub.page.locator(f"#fold-tub-{key}")).to_have_attribute("open", "")
        expect(tub.page.locator(f"#fold-tub-{key} .tub-answer")).to_contain_text("full")
    tub.page.locator("nav a[data-place=pond]").click()
    expect(tub.page.locator("#fold-tub-dive")).to_have_count(0)
    tub.page.locator("nav a[data-place=tub]").click()
    expect(tub.page.locator("#fold-tub-dive .tub-chart")).to_be_visible()
    expect(tub.page.locator("details.fold[open]")).to_have_count(2)


@with_browser
def test_an_address_opens_its_section(tub: Seen) -> None:
    for key in ("reach", "kit"):
        tub.page.goto(f"{tub.home}/tub?tub.at={key}")
        expect(tub.page.locator(f"#fold-tub-{key}")).to_have_attribute("open", "")
        expect(tub.page.locator(f"#fold-tub-{key} [data-tub-closed]")).to_have_count(0)
    expect(tub.page.locator("#fold-tub-reach")).to_have_attribute("open", "")


@pytest.mark.parametrize("name", NAMES)
def test_closed_it_says_each_answer_in_a_line(name: str, copied: Callable[[str], Path]) -> None:
    """Three groups at most; the figures in the lines are those of the answers."""
    page = page_of(copied(name)).enter()
    text = sheet(page, at="")
    assert 1 <= text.count('class="group-name"') <= 3
    assert "data-tub-later" not in text
    lines = re.findall(r'id="fold-tub-([\w-]+)".*?class="answer">(.*?)</span>', text, re.DOTALL)
    assert {key for key, _ in lines} == {one.key for one in SECTIONS}
    for key, says in lines:
        if key in ("litres", "dive", "stands"):
            assert FIGURE.findall(says)
            assert set(FIGURE.findall(says)) <= set(FIGURE.findall(asked(page, key))), key


@with_browser
def test_orders_are_compared_and_typed(tub: Seen) -> None:
    open_at(tub, "dive")
    tub.page.get_by_role("button", name="after tank first").click()
    expect(tub.page.get_by_role("button", name="after tank first")).to_have_attribute(
        "aria-pressed", "true", timeout=SOON
    )
    typed = tub.page.locator("[name='tub.order']")
    expect(typed).to_have_value("after tank first")
    typed.fill("sideways")
    typed.press("Enter")
    expect(tub.page.locator("[id='wrong-tub.order']")).to_contain_text("no order of filling")
    expect(typed).to_have_value("sideways")
    assert tub.desk.at == 0


@with_browser
def test_placed_put_in_and_undone(tub: Seen) -> None:
    open_at(tub, "placing")
    before = tub.desk.written()[0]
    tub.page.get_by_role("button", name="Place her").click()
    expect(tub.page.locator(".tub-running")).to_be_visible()
    put = tub.page.get_by_role("button", name="Apply all")
    expect(put).to_be_visible(timeout=SOON)
    expect(tub.page.locator(".place.tub")).to_contain_text("Winch house is closed")
    expect(tub.page.locator(".place.tub")).to_contain_text(
        "Proven: no other choice of these pieces"
    )
    assert tub.page.locator("svg.placing-card").count() == 1
    with tub.page.expect_download() as found:
        tub.page.get_by_role("link", name="Card to print").click()
    assert Path(found.value.path()).read_bytes().startswith(b"%PDF")
    put.click()
    expect(tub.page.locator("#note")).to_contain_text("of lead and foam placed")
    assert tub.desk.at == 1
    assert tub.desk.her.in_order
    tub.page.get_by_role("button", name="Undo").click()
    expect(tub.page.locator("#note")).to_contain_text("Undone")
    assert tub.desk.written()[0] == before


@with_browser
def test_a_placing_can_be_stopped(tub: Seen) -> None:
    open_at(tub, "placing")
    tub.page.get_by_role("button", name="Place her").click()
    tub.page.get_by_role("button", name="Stop").click()
    expect(tub.page.locator(".place.tub")).to_contain_text("Stopped. Nothing was changed.")
    assert tub.desk.at == 0


@with_browser
def test_a_reading_by_keyboard(tub: Seen) -> None:
    open_at(tub, "read")
    field = tub.page.locator("[name='tub.reading']")
    field.fill("draught fore mark 9 bananas")
    field.press("Enter")
    expect(tub.page.locator("[id='wrong-tub.reading']")).to_be_visible()
    expect(field).to_be_focused()
    field.fill("draught fore mark 160 mm")
    field.press("Enter")
    expect(tub.page.locator(".tub-rows li")).to_have_count(1)
    expect(field).to_have_value("")
    expect(tub.page.locator(".tub-answer")).to_contain_text("What was read", timeout=SOON)
    tub.page.get_by_role("button", name="Correct the list").click()
    expect(tub.page.locator("#note")).to_contain_text("list corrected")
    assert tub.desk.her.boat.from_tub
    tub.page.locator("h1").click()
    tub.page.keyboard.press("Control+z")
    expect(tub.page.locator("#note")).to_contain_text("Undone")
    assert not tub.desk.her.boat.from_tub


@with_browser
def test_wet_hands_by_touch_and_by_keyboard(tub: Seen) -> None:
    page = tub.page
    page.locator("[data-tub-at=wet]").click()
    page.get_by_role("button", name="It is Bittern").click()
    expect(page.locator(".wet-hands h1")).to_contain_text("Let her hang just under")
    assert not page.locator("svg.scene").is_visible(), "nothing else is there"
    heights = page.locator(".wet-hands button, .wet-hands a").evaluate_all(
        "all => all.map((one) => one.getBoundingClientRect().height)"
    )
    assert min(heights) >= 64
    page.keyboard.press("2")
    expect(page.locator(".wet-so-far")).to_be_visible()
    page.keyboard.press("Backspace")
    expect(page.locator(".wet-hands h1")).to_contain_text("Let her hang just under")
    page.keyboard.press("2")
    expect(page.locator(".wet-so-far")).to_be_visible()
    for _ in range(24):
        asks = page.locator(".wet-hands").get_attribute("data-asked") or ""
        if asks == "end":
            break
        if page.locator("[data-wet='°']").count():
            for one in ("1", "2", "°"):
                page.locator(f"[data-wet='{one}']").click()
            assert page.locator("[name='wet.text']").input_value() == "12°"
            page.get_by_role("button", name="Enter", exact=True).click()
        else:
            page.get_by_role("button", name="Not known").click()
        expect(page.locator(f"[data-asked={asks}]")).to_have_count(0)
    expect(page.locator(".wet-told")).to_contain_text("Signs: ")
    page.get_by_role("link", name="Dry hands").click()
    expect(page.locator("svg.scene")).to_be_visible()
    assert tub.desk.at == 0


@with_browser
def test_in_another_water(tub: Seen) -> None:
    open_at(tub, "what-if")
    tub.page.locator("[name='tub.water']").select_option("sea")
    expect(tub.page.locator("[data-tub-later]")).to_have_count(0, timeout=SOON)
    said = CliRunner().invoke(
        terminal, ["what-if", str(BOATS / "bittern-as-bought"), "--water", "sea", "--json"]
    )
    case = json.loads(said.stdout)["cases"][0]
    cell = tub.page.locator("#fold-tub-what-if .tub-table tbody tr").first.locator("td").nth(1)
    assert float(cell.inner_text().split(" ")[0]) == pytest.approx(
        case["above_water_m3"] * 1e6, abs=1
    )
    assert load(tub.desk.path).text == tub.desk.written()[0]
