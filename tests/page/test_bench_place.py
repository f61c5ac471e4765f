"""Bench: the slider marks what no longer bears it, fields change her, leak tests are put down."""

import re
from collections import Counter
from collections.abc import Callable, Iterator
from html import unescape
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Locator, expect
from playwright.sync_api import Page as Browsed
from tests.larger_tube import new_boat
from tests.page.browsing import Seen, entered, on_a_port, with_browser
from tests.page.conftest import BOATS, Page, desk_of, page_of
from tests.said import what_of

from trimdive.hydrostatics.equilibrium.named import bound
from trimdive.page.desk import Desk
from trimdive.page.guard import Keys
from trimdive.text.bench_text import feeding_text, links_text, plants_text
from trimdive.text.cylinder_text import cylinder_text
from trimdive.text.deep import seals_of
from trimdive.text.found import mends
from trimdive.text.layout import Block, Words
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
        assert [one for one in mends(her.boat, found) if one not in text] == []
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


FIGURE = re.compile(r"(?<![\d.])\d+(?:\.\d+)?(?: ?(?:%|°C|[A-Za-z³²]+))?")


def within(page: Page) -> dict[str, str]:
    """Return what stands in each fold of the Bench, its pictures and its own line left out."""
    text = page.client.get("/bench?bench_kinds=1").text
    text = re.sub(r"<(svg|select|script|summary)\b.*?</\1>", " ", text, flags=re.DOTALL)
    folds = re.split(r'<details class="fold" id="fold-bench-([\w-]+)"[^>]*>', text)
    return {
        key: unescape(re.sub(r"<[^>]+>", " ", inner))
        for key, inner in zip(folds[1::2], folds[2::2], strict=True)
    }


def figures(text: str) -> Counter[str]:
    """Return every figure of a text with its unit, and how often it is said."""
    return Counter(FIGURE.findall(text))


@pytest.mark.parametrize("name", NAMES)
def test_every_figure_is_said_once(name: str) -> None:
    """No fold says a figure more often than the terminal, which says each once."""
    page = page_of(BOATS / name / "boat.toml").enter()
    her, found = page.desk.her, within(page)
    for number, one in enumerate(her.bench.cylinders, 1):
        seals = [f"{bound(her.boat, seal.depth)} {seal.of}" for seal in seals_of(her, one)]
        known = figures(stated([*cylinder_text(her, one)]) + " ".join(seals))
        said = figures(found[f"cylinder-{number}"])
        depths = [bound(her.boat, d) for p in one.strength.parts for d in (p.depth, p.gives_way)]
        assert set(depths) <= set(said)
        assert said <= known, said - known
    for key, blocks in (("plant", plants_text), ("fuses", feeding_text), ("linkages", links_text)):
        assert figures(found[key]) == figures(stated([*blocks(her)]))


def stated(blocks: list[Block]) -> str:
    """Return blocks as a line of text."""
    found: list[str] = []
    for one in blocks:
        if isinstance(one, Words):
            found.append(one.text)
        else:
            found += [*getattr(one, "head", ()), *(cell for row in one.rows for cell in row)]
    return " | ".join(found)


@pytest.mark.parametrize("name", NAMES)
def test_what_is_amiss_is_counted_at_its_fold(name: str) -> None:
    page = page_of(BOATS / name / "boat.toml").enter()
    her, text = page.desk.her, page.client.get("/bench").text
    amounts = [int(one) for one in re.findall(r'<b class="amount"[^>]*>(\d+)<', text)]
    gaps = [int(one) for one in re.findall(r'<span class="gaps" title[^>]*>(\d+)\?<i', text)]
    assert sum(amounts) == her.urgent_on_bench
    assert sum(gaps) == len(her.not_entered)


@with_browser
@pytest.mark.parametrize("name", NAMES)
def test_closed_it_is_at_most_two_screens_high(
    browser: Browser, copied: Callable[[str], Path], name: str
) -> None:
    with on_a_port(desk_of(copied(name))) as served:
        seen = entered(browser, served, viewport={"width": 1366, "height": 768})
        seen.page.goto(f"{seen.home}/bench")
        seen.page.locator("details.fold").first.wait_for()
        assert seen.page.locator("details.fold[open]").count() == 0
        assert seen.page.locator(".place").evaluate("(at) => at.scrollHeight") <= 2 * 768
        seen.page.context.close()
    assert seen.wrong == []


@pytest.fixture
def seen(browser: Browser, served: tuple[Desk, str, Keys]) -> Iterator[Seen]:
    found = entered(browser, served)
    found.page.goto(f"{found.home}/bench")
    unfold(found.page, "cylinder-1")
    yield found
    found.page.context.close()
    assert found.wrong == []


def unfold(page: Browsed, key: str) -> Locator:
    """Open a fold of the Bench, and return it."""
    fold = page.locator(f"#fold-bench-{key}")
    fold.locator("summary").first.click()
    expect(fold).to_have_attribute("open", "")
    return fold


@with_browser
def test_the_slider_marks_the_weakest_part(seen: Seen) -> None:
    page = seen.page
    one = seen.desk.her.bench.cylinders[0]
    says = page.locator("opened-cylinder .says").first
    expect(says).to_contain_text("Safe here")
    slider = page.get_by_label("Depth", exact=True).first
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
    expect(page.locator("#fold-bench-cylinder-1")).to_have_attribute("open", "")


@with_browser
def test_folds_stay_as_they_were_left(seen: Seen) -> None:
    page = seen.page
    plant = unfold(page, "plant")
    page.locator("nav a[data-place=pond]").click()
    expect(plant).to_have_count(0)
    page.locator("nav a[data-place=bench]").click()
    expect(plant).to_have_attribute("open", "")
    expect(page.locator("details.fold[open]")).to_have_count(2)
    plant.locator("summary").first.click()
    expect(page.locator("details.fold[open]")).to_have_count(1)
    page.reload()
    expect(page.locator("details.fold[open]")).to_have_count(1)
    expect(page.locator("#fold-bench-cylinder-1")).to_have_attribute("open", "")


@with_browser
def test_every_kind_is_calculated_when_it_is_opened(seen: Seen) -> None:
    kinds = unfold(seen.page, "kinds")
    expect(kinds).to_contain_text("(hers)")
    expect(kinds.locator("tbody tr").first).to_contain_text("%")


def test_the_bench_is_counted_once_it_is_known_and_as_the_terminal_counts_it() -> None:
    page = page_of(BOATS / "bittern-as-bought" / "boat.toml").enter()
    her = page.desk.own.her
    for known in ("bench_findings", "urgent_on_bench"):  # as when nobody looked at the bench yet
        her.__dict__.pop(known, None)

    def tab() -> str:
        return page.client.get("/scales").text.partition('data-place="bench"')[2].partition("<")[2]

    assert tab().startswith('span class="mark later" title="being calculated">…<')
    told = page.client.get("/marks").json()["marks"]["bench"]
    assert told.strip().removeprefix("<") == tab().partition("</a>")[0]
    assert f">{her.urgent_on_bench}<" in told
    assert f"bench: {her.urgent_on_bench} to put right" in told


def test_what_is_not_entered_stands_in_its_own_fold_too(copied: Callable[[str], Path]) -> None:
    """A battery without fuse and wire: the fold of fuses opens to what it lacks, not to nothing."""
    page = page_of(copied("grebe")).enter()
    text = re.sub(r"\[\[battery\]\].*?(?=\n\[|\Z)", "", page.desk.written()[0], flags=re.DOTALL)
    text = re.sub(r"^battery = .*\n", "", text, flags=re.MULTILINE)
    page.file.write_text(text, "utf-8")
    html = page_of(page.file).enter().client.get("/bench").text
    fold = html[html.index('id="fold-bench-fuses"') :].partition("</details>")[0]
    assert 'class="not-entered"' in fold
    assert "Enter it" in fold
    gaps = html[html.index('id="fold-bench-gaps"') :].partition("</summary>")[0]
    count = html[html.index('id="fold-bench-gaps"') :].partition("</details>")[0].count("<li>")
    assert (f"and {count - 1} more" in gaps) == (count > 1)


@with_browser
def test_enter_it_begins_at_what_is_missing(browser: Browser, tmp_path: Path) -> None:
    (tmp_path / "boat.toml").write_text(new_boat(), "utf-8")
    with on_a_port(desk_of(tmp_path / "boat.toml")) as served:
        seen = entered(browser, served, viewport={"width": 1366, "height": 768})
        page = seen.page
        page.goto(f"{seen.home}/bench")
        seen.loaded()
        page.locator("#fold-bench-gaps > summary").click()
        page.get_by_role(
            "button", name=re.compile("Enter it: cylinder.*caps: thickness")
        ).first.click()
        expect(page.locator("[id='entry-caps.thickness']")).to_be_focused()
        expect(page.locator("#entry-caps")).to_be_checked()
        page.get_by_role("button", name="Back to Bench").click()
        page.get_by_role("button", name=re.compile("Enter it: .*what holds")).first.click()
        expect(page.locator("[id^='entry-closing.']").first).to_be_focused()
        page.context.close()
    assert seen.wrong == []
