"""The place Pond, and the card for the phone alone in a browser without a network."""

import re
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect
from tests.cli.boats import demo
from tests.page.browsing import (
    ASKED,
    AXE,
    Seen,
    entered,
    on_a_port,
    with_browser,
)
from tests.page.conftest import OWN, desk_of, page_of

from trimdive.page.places.pond import clean_name
from trimdive.pond import card, chosen, measured, phone_card, today, water_words

pytestmark = with_browser
WATERS = [  # kind, temperature [°C], salt [g/kg]
    ("fresh", 4.0, 0.0), ("fresh", 21.5, 0.0), ("pool", 28.0, 3.2), ("sea", 12.0, 8.0),
    ("sea", 6.0, 35.1), ("sea", 33.5, 12.4),
]  # fmt: skip


def turn(page: Page, kind: str, celsius: float, salt: float) -> None:
    """Turn the dial to a water, as a hand does."""
    page.locator(f"[name=pond-kind][value={kind}]").check()
    page.locator("#pond-celsius").fill(f"{celsius:g}")
    if kind != "fresh":
        page.locator("#pond-salt").fill(f"{salt:g}")


def shown(page: Page) -> dict[str, str]:
    """Return what the dial says, hidden or not."""
    found = page.locator("[data-told]")
    return {str(one.get_attribute("data-told")): (one.text_content() or "") for one in found.all()}


def same(text: str, other: str) -> bool:
    """Return whether two texts are the same but for a last digit rounded the other way."""
    figures, others = (re.findall(r"[\d.]+", one) for one in (text, other))
    if re.sub(r"[\d.]+", "#", text) != re.sub(r"[\d.]+", "#", other):
        return False
    steps = [10.0 ** -len(one.partition(".")[2]) for one in figures]
    pairs = zip(figures, others, steps, strict=True)
    return all(abs(float(a) - float(b)) <= 1.001 * step for a, b, step in pairs)


@pytest.mark.parametrize("name", ["bittern", "grebe", "plover"])
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_the_card_works_from_a_file_without_a_network(
    browser: Browser, tmp_path: Path, name: str, scheme: str
) -> None:
    her = demo(name)
    file = tmp_path / "card.html"
    file.write_text(phone_card(her, card(her), "1 May 2026"), "utf-8")
    wrong: list[str] = []
    size = {"width": 400, "height": 800}
    context = browser.new_context(viewport=size, color_scheme=scheme, offline=True)  # type: ignore[arg-type]
    page = context.new_page()
    page.on("pageerror", lambda error: wrong.append(str(error)))
    page.on("console", lambda m: wrong.append(m.text))
    page.on("request", lambda r: r.url.startswith(("file:", "data:")) or wrong.append(r.url))
    page.goto(file.as_uri())
    for kind, celsius, salt in WATERS:
        turn(page, kind, celsius, salt)
        exact = water_words(her, today(her, chosen(kind, celsius, salt).density))
        says = shown(page)
        for key in ("ask", "full", "neutral", "rides", "hangs"):
            assert same(says[key], getattr(exact, key)), (kind, celsius, says[key])
    page.locator("[name=pond-kind][value=measured]").check()
    page.locator("#pond-density").fill("1012")
    exact = water_words(her, today(her, measured(1012.0, 15.0).density))
    assert shown(page)["ask"] == exact.ask, "a row of the table itself"
    assert page.evaluate("document.documentElement.scrollWidth") <= 400
    context.set_offline(False)
    page.evaluate("document.querySelector('meta[http-equiv]').remove()")
    page.add_script_tag(content=AXE)
    assert page.evaluate(ASKED) == []
    context.close()
    assert wrong == []


@pytest.fixture
def pond(browser: Browser, copied: Callable[[str], Path]) -> Iterator[Seen]:
    """Yield the place Pond of Bittern; afterwards nothing may have gone wrong in it."""
    with on_a_port(desk_of(copied("bittern"))) as served:
        found = entered(browser, served)
        found.page.locator("nav a[data-place=pond]").click()
        found.page.locator(".dial").wait_for()
        yield found
        found.page.context.close()
    assert found.wrong == []


def test_the_dial_of_the_page_is_that_of_the_card(pond: Seen) -> None:
    her = pond.desk.her
    expect(pond.page.locator("[data-told=ask]")).to_have_text("nothing to change")
    expect(pond.page.locator("[data-told=where]")).to_have_text("")
    turn(pond.page, "sea", 12.0, 8.0)
    exact = water_words(her, today(her, chosen("sea", 12.0, 8.0).density))
    assert same(shown(pond.page)["ask"], exact.ask)
    pond.page.locator("button[data-pond=why]").click()
    expect(pond.page.locator("#why h2")).to_contain_text("water of 1005.7 kg/m³")
    expect(pond.page.locator(".why-answer")).to_have_text("172 g")
    pond.page.keyboard.press("Escape")
    expect(pond.page.locator("[data-told=where]")).to_contain_text("from the stern")


def test_the_dial_by_keyboard(pond: Seen) -> None:
    pond.page.locator("#pond-celsius").focus()
    for _ in range(10):
        pond.page.keyboard.press("ArrowRight")
    expect(pond.page.locator("[data-row=celsius] output")).to_have_text("20.0 °C")
    exact = water_words(pond.desk.her, today(pond.desk.her, chosen("fresh", 20.0, 0.0).density))
    assert same(shown(pond.page)["ask"], exact.ask)


def test_what_is_taken_along_is_for_the_water_on_the_dial(pond: Seen, tmp_path: Path) -> None:
    pond.page.locator("#pond-named").select_option(label="cold sea")
    with pond.page.expect_download() as found:
        pond.page.get_by_role("link", name="For the phone").click()
    assert found.value.suggested_filename == "bittern-pond.html"
    found.value.save_as(tmp_path / "card.html")
    text = (tmp_path / "card.html").read_text("utf-8")
    her = pond.desk.her
    assert water_words(her, today(her, chosen("sea", 6.0, 35.16504).density)).ask in text
    with pond.page.expect_download() as found:
        pond.page.get_by_role("link", name="On paper").click()
    assert found.value.suggested_filename == "bittern-pond.pdf"
    found.value.save_as(tmp_path / "card.pdf")
    assert (tmp_path / "card.pdf").read_bytes().startswith(b"%PDF")


def test_the_water_stays_when_she_is_changed_or_units_are(pond: Seen) -> None:
    pond.page.locator("#pond-named").select_option(label="brackish")
    pond.page.locator("#units").select_option("inches")
    expect(pond.page.locator("[data-row=celsius] output")).to_have_text("53.6 °F")
    expect(pond.page.locator("[data-told=ask]")).to_have_text("add 6.08 oz of lead")


def test_a_boat_to_be_put_right_is_told_why(
    browser: Browser, copied: Callable[[str], Path]
) -> None:
    with on_a_port(desk_of(copied("grebe-as-bought"))) as served:
        seen = entered(browser, served)
        seen.page.locator("nav a[data-place=pond]").click()
        place = seen.page.locator("section.pond")
        expect(place).to_contain_text("No pond card yet")
        expect(place).to_contain_text("180 g light with tanks full")
        assert place.locator(".dial").count() == 0
        place.get_by_role("link", name="Put her right").click()
        expect(seen.page.locator("section.right")).to_be_visible()
        seen.page.context.close()
    assert seen.wrong == []


def test_a_card_of_a_boat_to_be_put_right_is_refused(copied: Callable[[str], Path]) -> None:
    page = page_of(copied("bittern-as-bought")).enter()
    answer = page.client.get("/pond/phone", headers=OWN)
    assert answer.status_code == 409
    assert "put these right first" in answer.text


def test_a_water_that_cannot_be_is_refused(copied: Callable[[str], Path]) -> None:
    page = page_of(copied("grebe")).enter()
    for asked in (
        "pond-kind=sea&pond-celsius=90",
        "pond-kind=tea",
        "pond-kind=fresh&pond-celsius=nan",
    ):
        answer = page.client.get(f"/pond/paper?{asked}", headers=OWN)
        assert answer.status_code == (200 if "nan" in asked else 409), answer.text[:80]
        assert page.client.get(f"/pond?{asked}", headers=OWN).status_code == 200


@pytest.mark.parametrize(
    ("name", "file"),
    [
        ("Bittern", "bittern-pond.html"),
        ("../../etc/passwd", "etc-passwd-pond.html"),
        ('a"; x="\r\n', "a-x-pond.html"),
        ("日本", "boat-pond.html"),
    ],
)
def test_names_of_files_taken_along_are_clean(name: str, file: str) -> None:
    assert clean_name(name, "html") == file
