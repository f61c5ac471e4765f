"""Does it come out, on the Drawing board: as in the terminal, played, stopped, past."""

import re
import signal
import time
from collections.abc import Callable, Iterator
from html import unescape
from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect
from playwright.sync_api import Page as Tab
from tests.page.browsing import ASKED, AXE, entered, on_a_port, with_browser
from tests.page.conftest import Page, desk_of, page_of
from typer.testing import CliRunner

from trimdive.cli.app import app as terminal
from trimdive.page.places.board_fit import NAME
from trimdive.page.places.jobs import job_of

SOON = 2400  # tenths of a second within which everything is tried


def waited(page: Page) -> None:
    """Wait until everything was tried."""
    job = job_of(page.desk, NAME)
    assert job is not None
    for _ in range(SOON):
        if job.is_over:
            return
        time.sleep(0.1)
    pytest.fail("it takes too long")


def sheet(page: Page) -> str:
    """Return the words of the Drawing board."""
    answer = page.client.get("/board", headers={"hx-request": "true"})
    assert answer.status_code == 200
    words = re.sub(r"<svg.*?</svg>", "", answer.text, flags=re.DOTALL)
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", words)).split())


def test_the_board_says_what_the_terminal_says(copied: Callable[[str], Path]) -> None:
    page = page_of(copied("plover")).enter()
    assert "1 hatch entered; not tried yet" in sheet(page)
    page.press("board fit", place="board")
    waited(page)
    shown = sheet(page)
    assert "Every large thing comes out" in shown
    told = CliRunner().invoke(terminal, ["fit", str(page.desk.path)])
    said = " ".join(told.output.split())
    way = said.partition("cylinder: ")[2].partition("Narrowest gaps")[0].strip()
    assert way.startswith("comes out: ")
    assert way in shown
    for row in ("cylinder touches stern", "foam 5 0.5 mm cylinder"):
        assert row in said
        assert row in shown


def test_a_tube_at_hand_is_found_a_place_as_in_the_terminal(copied: Callable[[str], Path]) -> None:
    page = page_of(copied("plover")).enter()
    sizes = ("70 mm", "300 mm")
    page.press(
        "board tube", place="board", **dict(zip(("fit.outside", "fit.length"), sizes, strict=True))
    )
    told = CliRunner().invoke(
        terminal, ["fit", str(page.desk.path), "--outside", sizes[0], "--length", sizes[1]]
    )
    _, _, said = " ".join(told.output.split()).partition("A tube ")
    assert "goes in. Most room" in said
    answer = said.partition("at the least.")[0]
    assert answer in sheet(page)
    page.press("board tube", place="board", **{"fit.outside": "70 mm"})
    assert "a tube needs both its sizes" in sheet(page).casefold()


def test_what_does_not_come_out_is_named_in_the_fold(copied: Callable[[str], Path]) -> None:
    """With its bow glued on, and a small hatch cut over the tower, Plover keeps her cylinder."""
    path = copied("plover")
    text = path.read_text("utf-8")
    small = 'x_aft = "430 mm"\nx_fore = "480 mm"\nbreadth = "30 mm"\nz_bottom = "60 mm"'
    path.write_text(text.replace('off = ["bow"]\nway = "forward"', small), "utf-8")
    page = page_of(path).enter()
    page.press("board fit", place="board")
    waited(page)
    shown = sheet(page)
    assert "Cylinder does not come out" in shown
    assert "A longer opening does not free it" in shown


def test_it_is_stopped_and_told_to_be_of_the_boat_before(copied: Callable[[str], Path]) -> None:
    page = page_of(copied("bittern")).enter()
    page.press("board fit", place="board")
    job = job_of(page.desk, NAME)
    assert job is not None
    for _ in range(SOON):
        if job.apart.running is not None:
            break
        time.sleep(0.1)
    running = job.apart.running
    assert running is not None
    page.press("board halt-fit", place="board")
    waited(page)
    assert running.poll() == -signal.SIGKILL
    assert "Stopped." in sheet(page)


def test_a_change_makes_it_past(copied: Callable[[str], Path]) -> None:
    page = page_of(copied("plover")).enter()
    page.press("board fit", place="board")
    waited(page)
    page.desk.edit("called otherwise", page.desk.written()[0].replace("Plover", "Plover two", 1))
    assert "She was changed since" in sheet(page)


@pytest.fixture
def tab(browser: Browser, copied: Callable[[str], Path]) -> Iterator[Tab]:
    """Yield Plover's board with its fold open; afterwards nothing may have gone wrong in it."""
    with on_a_port(desk_of(copied("plover"))) as served:
        seen = entered(browser, served)
        seen.page.get_by_role("link", name="Drawing board").click()
        seen.page.locator("#fold-board-fit > summary").click()
        yield seen.page
        seen.page.context.close()
    assert seen.wrong == []


@with_browser
def test_a_way_out_is_played(tab: Tab) -> None:
    tab.get_by_role("button", name="Take everything out").click()
    handle = tab.locator("[data-way]").first
    handle.wait_for(timeout=240_000)
    thing = tab.locator(".way-out .moves").first
    before = thing.bounding_box()
    handle.focus()
    for _ in range(3):
        tab.keyboard.press("End")
    expect(handle).to_have_value("1000")
    after = thing.bounding_box()
    assert before is not None
    assert after is not None
    assert after["x"] > before["x"] + 0.9 * before["width"]  # pulled off forward, to the right
    tab.keyboard.press("Home")
    tab.emulate_media(reduced_motion="reduce")
    tab.get_by_role("button", name="Play").first.click()
    expect(handle).to_have_value("1000")
    tab.evaluate(AXE)
    assert tab.evaluate(ASKED) == []


def test_an_opening_is_cut_as_long_as_it_must_be(copied: Callable[[str], Path]) -> None:
    """Three answers of one thing: the fold, the bar of places and To put right."""
    page = page_of(copied("bittern-as-bought")).enter()
    assert "Not looked at yet: whether everything comes out of her" in told(page, "right")
    page.press("board fit", place="board")
    waited(page)
    shown = sheet(page)
    assert "Forward cylinder and after cylinder do not come out" in shown
    assert "2 large things do not come out of her" in shown
    assert "2 large things do not come out of her" in told(page, "right")
    page.press("board cut cylinder[1]", place="board")
    assert page.desk.her.boat.hatches[0].x_fore == pytest.approx(1.647)
    assert "not tried since she changed" in sheet(page)
    page.press("undo")
    assert page.desk.her.boat.hatches[0].x_fore == pytest.approx(1.44)


def told(page: Page, place: str) -> str:
    """Return the words of a place."""
    return " ".join(re.sub(r"<[^>]+>", " ", page.client.get(f"/{place}").text).split())
