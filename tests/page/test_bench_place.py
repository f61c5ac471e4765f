"""Bench: the slider marks what no longer bears it, fields change her, leak tests are put down."""

import re
from collections.abc import Iterator
from html import unescape

import pytest
from playwright.sync_api import Browser, expect
from tests.page.browsing import ASKED, AXE, Seen, entered, with_browser
from tests.page.conftest import BOATS, Page, page_of
from tests.said import mend_of, what_of

from trimdive.hydrostatics.equilibrium.named import bound
from trimdive.page.desk import Desk
from trimdive.page.guard import Keys
from trimdive.text.plant_figures import shown
from trimdive.text.said import said
from trimdive.text.say import Say

NAMES = sorted(folder.name for folder in BOATS.iterdir() if (folder / "boat.toml").is_file())


@pytest.mark.parametrize("name", NAMES)
def test_the_page_tells_what_python_tells(name: str) -> None:
    page = page_of(BOATS / name / "boat.toml").enter()
    text = unescape(page.client.get("/bench").text)
    her = page.desk.her
    one = her.bench.cylinders[0]
    assert bound(her.boat, one.strength.depth) in text
    for found in her.bench_findings:
        assert what_of(found, Say(her.boat))[1:] in text
        assert mend_of(found, Say(her.boat)) in text
    for answer in her.works.answers:
        for figure in answer.figures:
            assert shown(answer, figure) in text
    failures = her.works.failures
    if failures is not None:
        say = Say(her.boat)
        assert all(said(say, square.ending) in text for square in failures.squares)
    assert ("In order on the bench" in text) is her.bench_in_order


def pressed(page: Page, act: str, **typed: str) -> str:
    """Press a button of the place."""
    return unescape(page.press(f"bench {act}", place="bench", **typed))


def test_a_leak_test_is_put_down(bittern: Page) -> None:
    typed = {
        "leak_cylinder": "after cylinder", "leak_date": "2026-05-17", "leak_gauge_start": "-20 kPa",
        "leak_gauge_end": "-5 kPa", "leak_temperature_start": "20 °C",
        "leak_temperature_end": "68 °F", "leak_time": "30 min",
    }  # fmt: skip
    text = pressed(bittern, "leak", **typed)
    assert "After cylinder let in" in text
    assert "bench-leak" in [one.key for one in bittern.desk.her.bench_findings]
    bittern.press("undo")
    assert bittern.desk.her.bench.leaks == ()


@pytest.mark.parametrize(
    ("more", "says"),
    [({}, "missing"), ({"leak_gauge_start": "low"}, "low"), ({"leak_cylinder": "tin"}, "tin")],
)
def test_a_wrong_leak_test_changes_nothing(bittern: Page, more: dict[str, str], says: str) -> None:
    typed = {
        "leak_cylinder": "after cylinder", "leak_date": "2026-05-17", "leak_gauge_start": "-20 kPa",
        "leak_gauge_end": "-19 kPa", "leak_temperature_start": "20 °C",
        "leak_temperature_end": "20 °C", "leak_time": "30 min",
    }  # fmt: skip
    text = pressed(bittern, "leak", **({**typed, **more} if more else {}))
    assert says in re.findall(r'class="refused">\s*<p title="([^"]*)"', text)[0]
    assert len(bittern.desk.steps) == 1


def test_what_tube_is_asked_and_answered(bittern: Page) -> None:
    assert "d140" in pressed(bittern, "look", tube_bore="118 mm", tube_of="PVC-U")
    assert "nearest is" in pressed(bittern, "look", tube_bore="2 m")
    assert "Every kind of plant" in pressed(bittern, "look", bench_kinds="1")


@pytest.fixture
def seen(browser: Browser, served: tuple[Desk, str, Keys]) -> Iterator[Seen]:
    found = entered(browser, served)
    found.page.goto(f"{found.home}/bench")
    found.page.locator("opened-cylinder").wait_for()
    yield found
    found.page.context.close()
    assert found.wrong == []


@with_browser
def test_the_slider_marks_the_weakest_part(seen: Seen) -> None:
    page = seen.page
    one = seen.desk.her.bench.cylinders[0]
    says = page.locator("opened-cylinder .says").first
    expect(says).to_contain_text("Safe here")
    slider = page.get_by_label("Depth", exact=True)
    slider.fill(f"{one.strength.depth + 1:.1f}")
    expect(says).to_contain_text("Deeper than its safe depth")
    expect(page.locator(".opened .cut.beyond")).to_have_count(2)
    slider.focus()
    page.keyboard.press("End")
    expect(says).to_contain_text("Fails by calculation")
    expect(page.locator(".margins tr.gone")).to_have_count(1)
    page.keyboard.press("Home")
    expect(says).to_contain_text("Safe here")


@with_browser
def test_a_thinner_wall_bears_less_at_once(seen: Seen) -> None:
    page = seen.page
    before = seen.desk.her.bench.cylinders[0].strength.depth
    page.get_by_label("wall", exact=True).first.fill("2.5 mm")
    page.keyboard.press("Enter")
    expect(page.locator("#note")).to_contain_text("Done")
    now = seen.desk.her.bench.cylinders[0].strength.depth
    assert now < before / 2
    expect(page.locator(".margins tbody tr").first).to_contain_text(bound(seen.desk.her.boat, now))
    page.get_by_label("wall", exact=True).first.fill("80 mm")
    page.keyboard.press("Enter")
    expect(page.locator(".bench-fields .wrong")).to_contain_text("wall")
    page.locator("#bench_cylinder").select_option("after cylinder")
    expect(page.locator("#bench_cylinder")).to_have_value("after cylinder")


@with_browser
@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [400, 1400])
def test_nobody_is_shut_out(
    browser: Browser, served: tuple[Desk, str, Keys], scheme: str, width: int
) -> None:
    seen = entered(browser, served, color_scheme=scheme, viewport={"width": width, "height": 860})
    seen.page.goto(f"{seen.home}/bench")
    seen.page.locator("opened-cylinder").wait_for()
    seen.page.evaluate(AXE)
    assert seen.page.evaluate(ASKED) == []
    wide = "document.documentElement.scrollWidth <= document.documentElement.clientWidth"
    assert seen.page.evaluate(wide)
    seen.page.context.close()
    assert seen.wrong == []


def test_the_bench_is_counted_once_it_is_known_and_as_the_terminal_counts_it() -> None:
    page = page_of(BOATS / "bittern-as-bought" / "boat.toml").enter()
    her = page.desk.own.her
    for known in ("bench_findings", "urgent_on_bench"):  # as when nobody looked at the bench yet
        her.__dict__.pop(known, None)
    assert 'class="gaps"' not in page.client.get("/scales").text
    assert her.urgent_on_bench
    tab = page.client.get("/scales").text.partition('data-place="bench"')[2].partition("</a>")[0]
    assert f"<b>{her.urgent_on_bench}</b>" in tab
