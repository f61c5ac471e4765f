"""Where does it all go, on the Drawing board: as in the terminal, taken and undone, stopped, past.

Source: the demo boats, invented; what is in order is judged by the checks, the full solver, shared
room and the search for ways out (``tests/arranging``), none of which the page looks at.
"""

import re
import time
from html import unescape
from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect
from tests.arranging.right import in_order
from tests.arranging.shells import empty_shell
from tests.page.browsing import ASKED, AXE, entered, on_a_port, with_browser
from tests.page.conftest import Page, desk_of, page_of

from trimdive.arranging.work import Arranged
from trimdive.assessment import assess
from trimdive.page.places.board_arrange import NAME
from trimdive.page.places.jobs import Job, job_of
from trimdive.text.arrange_short import SHOWN
from trimdive.text.arrange_text import FIGURES, arrange_text
from trimdive.text.layout import Grid

SOON = 2400  # tenths of a second within which it is arranged
LABELS = {key: label for key, label, _, _ in FIGURES}


def waited(page: Page) -> Job:
    """Wait until she is arranged, and return the work."""
    job = job_of(page.desk, NAME)
    assert job is not None
    for _ in range(SOON):
        if job.is_over:
            return job
        time.sleep(0.1)
    pytest.fail("it takes too long")


def sheet(page: Page) -> str:
    """Return the fold on the Drawing board."""
    answer = page.client.get("/board", headers={"hx-request": "true"})
    assert answer.status_code == 200
    return answer.text.partition('id="fold-board-arrange"')[2].partition("fold-board-parts")[0]


def words(html: str) -> str:
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", html)).split())


def cells(html: str) -> list[dict[str, str]]:
    """Return the figures of each row of the table, by their heads."""
    rows = re.findall(r"<tr class.*?</tr>", html, re.DOTALL)
    found = [re.findall(r'<td data-head="([^"]+)"[^>]*>(.*?)</td>', row) for row in rows]
    return [{head: unescape(text) for head, text in row} for row in found]


@pytest.fixture
def shell(tmp_path: Path) -> Page:
    """Return the page of Plover as an empty shell."""
    return page_of(empty_shell("plover", tmp_path)).enter()


def test_one_press_and_she_is_in_order_with_one_undo(shell: Page) -> None:
    """What the page shows is what the terminal prints of the same; taken, all answers agree."""
    assert "8 things in cylinders; not tried yet" in words(sheet(shell))
    shell.press("board arrange", place="board")
    done = waited(shell).done
    assert isinstance(done, Arranged)
    assert len(done.found) == 3
    shown = sheet(shell)
    rows = cells(shown)
    printed = next(b for b in arrange_text(done, Path("boat"), None) if isinstance(b, Grid))
    told = {row[0]: row[1:] for row in printed.rows if row}
    for key, head in (*SHOWN, ("share_room", "sharing room")):
        assert tuple(row[head] for row in rows) == told[LABELS[key]]
    assert [row["comes out"] for row in rows] == ["–", "all", "all", "all"]
    assert "3 arrangements in order" in words(shown)
    assert shown.count("<svg") == 4
    before = shell.desk.written()
    shell.press("board take-arranged 2", place="board")
    assert "Arrangement 2 is taken" in words(sheet(shell))
    shell.file.write_text(shell.desk.written()[0], "utf-8")
    now = assess(shell.file)
    in_order(now)
    assert now.masses.of_kind("lead") == pytest.approx(done.found[1].her.masses.of_kind("lead"))
    shell.press("undo", place="board")
    assert shell.desk.written() == before
    assert "She was changed since" not in words(sheet(shell))
    shell.desk.edit("called otherwise", before[0].replace("Plover", "Plover two", 1))
    assert "She was changed since" in words(sheet(shell))
    assert "take-arranged" not in sheet(shell)
    assert "she was changed since" in words(shell.press("board take-arranged 1", place="board"))


def test_what_is_ticked_stays(shell: Page) -> None:
    lies = shell.desk.her.boat.cylinders[0].x
    ticked = {"arrange.form": "1", "arrange.stays.cylinder[1]": "yes"}
    shell.press("board arrange", place="board", **ticked)
    done = waited(shell).done
    assert isinstance(done, Arranged)
    assert {one.her.boat.cylinders[0].x for one in done.found} == {lies}
    shown = sheet(shell)
    assert re.search(r'name="arrange.stays.cylinder\[1\]" value="yes" checked', shown)
    assert shown.count(" checked") == 1
    assert "Cylinder stays in place" in words(shown)


def test_it_is_stopped_and_says_so(shell: Page) -> None:
    shell.press("board arrange", place="board")
    assert "Trying orders" in words(sheet(shell))
    text = shell.desk.written()
    shell.press("board halt-arrange", place="board")
    waited(shell)
    assert "Stopped. Nothing was changed." in words(sheet(shell))
    assert "nothing is arranged yet" in words(shell.press("board take-arranged 1", place="board"))
    assert shell.desk.written() == text


def test_what_cannot_be_arranged_is_told_in_a_sentence(shell: Page) -> None:
    """A gas bottle as long as her cylinder goes in beside no motor."""
    text = shell.desk.written()[0]
    at = text.index('name = "gas bottle with valve"')
    shell.desk.edit(
        "longer", text[:at] + re.sub('length = "70 mm"', 'length = "330 mm"', text[at:], count=1)
    )
    shell.press("board arrange", place="board")
    waited(shell)
    assert "longer, end to end, than its room" in words(sheet(shell))


@with_browser
def test_an_empty_shell_is_arranged_by_one_press(browser: Browser, tmp_path: Path) -> None:
    """Pressed, told how far it is, compared, taken: nothing is left to be put right."""
    with on_a_port(desk_of(empty_shell("plover", tmp_path))) as served:
        seen = entered(browser, served)
        tab = seen.page
        tab.set_viewport_size({"width": 1366, "height": 768})
        tab.get_by_role("link", name="Drawing board").click()
        tab.locator("#fold-board-arrange > summary").click()
        cap = tab.get_by_label("Where motor belongs")
        expect(cap).to_have_value("aft")
        tab.get_by_role("button", name="Arrange her").click()
        rows = tab.locator(".arranged-table tbody tr")
        expect(rows).to_have_count(4, timeout=240_000)
        tab.evaluate(AXE)
        assert tab.evaluate(ASKED) == []
        for wide in (1366, 400):
            tab.set_viewport_size({"width": wide, "height": 768})
            over = "e => e.scrollWidth - e.clientWidth"
            assert tab.locator("#fold-board-arrange .within").evaluate(over) <= 0
            lefts = {box["x"] for k in range(4) if (box := rows.nth(k).bounding_box())}
            assert len(lefts) == 1
        picture, name = (rows.nth(1).locator(of).bounding_box() for of in ("svg", "th"))
        assert picture is not None
        assert name is not None
        assert picture["y"] > name["y"] + name["height"] - 1  # under it, where it is narrow
        tab.set_viewport_size({"width": 1366, "height": 768})
        tab.get_by_role("button", name="Take this one: arrangement 1").click()
        expect(tab.locator(".arranged-table .chosen")).to_have_count(1)
        expect(tab.locator(".worst")).to_have_count(0)
        seen.page.context.close()
    assert seen.wrong == []
