"""Every place on paper: one head, the boat once, all that the place says, and nothing to press."""

import re
import subprocess
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import pytest
from playwright.sync_api import Browser, Page, expect
from tests.page.browsing import Seen, entered, on_a_port, with_browser
from tests.page.conftest import BOATS, desk_of
from tests.page.shelves import bittern_on_a_shelf

from trimdive.page.shelf import Shelf
from trimdive.page.workshop import Workshop

pytestmark = with_browser

FORMATS = {"A4": (595.3, 841.9), "Letter": (612.0, 792.0)}  # ISO 216, ANSI Y14.1 size A [pt]
MARGIN = 13 / 25.4 * 72  # at the sides: print.css [pt]
HEAD = 75  # from the top of a sheet, as far as its head reaches at most [pt]
MOST = {"right": 3, "board": 5, "scales": 3, "tub": 2, "bench": 7, "pond": 3, "shelf": 2}  # pages
LATE = {"board": "#board-drawing svg", "bench": ".opened"}  # what the place is waited for
WORDS = "button.term, .pick, thead button, .tub-orders button, .toggle"  # buttons that are text


@dataclass(frozen=True, kw_only=True)
class Paper:
    """A printed place, as a file."""

    file: Path

    def poppler(self, tool: str, *more: str) -> bytes:
        """Return what a tool of poppler makes of it."""
        end = ("-",) if tool == "pdftotext" else ()
        return subprocess.run(
            [tool, *more, self.file, *end], capture_output=True, check=True
        ).stdout

    def words(self, *more: str) -> str:
        """Return the words, in the order of reading."""
        return " ".join(self.poppler("pdftotext", *more).decode().split())

    def sheets(self) -> list[list[tuple[float, ...]]]:
        """Return the boxes of the words on each sheet: left, top, right, foot [pt]."""
        found = self.poppler("pdftotext", "-bbox").decode().split("<page ")[1:]
        return [
            [
                tuple(map(float, re.findall(r'="([\d.-]+)"', word)))
                for word in re.findall(r"<word [^>]+>", sheet)
            ]
            for sheet in found
        ]

    def gray(self) -> np.ndarray:
        """Return the first sheet, seen coarse, in shades from 0 to 255."""
        said = self.poppler("pdftoppm", "-r", "30", "-gray", "-l", "1", "-singlefile")
        wide, high = map(int, said.split(maxsplit=3)[1:3])
        return np.frombuffer(said[-wide * high :], np.uint8).reshape(high, wide)


@pytest.fixture(scope="module")
def shelf(tmp_path_factory: pytest.TempPathFactory) -> Shelf:
    """Return a shelf with one boat, which is in order."""
    found = Shelf(tmp_path_factory.mktemp("shelf"))
    for file in (BOATS / "bittern").iterdir():
        to = found.folder / "bittern" / file.name
        to.parent.mkdir(exist_ok=True)
        to.write_bytes(file.read_bytes())
    return found


@pytest.fixture(scope="module")
def seen(browser: Browser, shelf: Shelf) -> Iterator[Seen]:
    """Yield her page; afterwards nothing may have gone wrong in it."""
    desk = desk_of(shelf.folder / "bittern" / "boat.toml")
    with on_a_port(Workshop(desk=desk, shelf=shelf)) as served:
        found = entered(browser, served)
        yield found
        found.page.context.close()
    assert found.wrong == []


def opened(seen: Seen, place: str) -> Page:
    """Return the page at a place, with the sheet for paper loaded as a first key loads it."""
    page = seen.page
    page.goto(f"{seen.home}/{place}")
    page.locator("svg.scene[viewBox]").wait_for()
    page.keyboard.press("Shift")
    page.locator("link[media=print]").wait_for(state="attached")
    page.evaluate(
        """() => new Promise((done) => {
          const link = document.querySelector("link[media=print]");
          if (link.sheet) done(); else link.addEventListener("load", () => done());
        })"""
    )
    if place in LATE:
        page.locator(LATE[place]).first.wait_for(state="attached")
    expect(page.locator(".following")).to_have_count(0)
    return page


def printed(page: Page, kind: str, folder: Path) -> Paper:
    """Return the page as it comes out of a printer."""
    file = folder / f"{kind}.pdf"
    file.write_bytes(page.pdf(format=kind))
    return Paper(file=file)


def pressed(page: Page) -> list[str]:
    """Return what stands on the buttons of the page, those that are words of its text left out."""
    texts = page.locator(f"button:not({WORDS})").all_inner_texts()
    return sorted({text.strip() for text in texts} - {""})


@pytest.mark.parametrize("kind", FORMATS)
@pytest.mark.parametrize("place", MOST)
def test_a_place_on_paper(seen: Seen, place: str, kind: str, tmp_path: Path) -> None:
    page = opened(seen, place)
    paper = printed(page, kind, tmp_path)
    wide, high = FORMATS[kind]

    words = paper.words("-layout")  # as they stand beside each other
    there = [one for one in pressed(page) if re.search(rf"(?<!\w){re.escape(one)}(?!\w)", words)]
    assert there == [], "buttons do not print"

    head = paper.words("-l", "1", "-x", "0", "-y", "0", "-W", "700", "-H", str(HEAD))
    assert head.count("Bittern") == 1
    name = page.locator("section.place").get_attribute("aria-label")
    assert re.search(rf"1:20.*fresh water.*{name}, \d{{4}}-\d\d-\d\d", head)
    first = paper.words("-l", "1")
    for large in page.locator(".figures .large").all_inner_texts():
        assert first.count(large) >= 1

    sheets = paper.sheets()
    assert 1 <= len(sheets) <= MOST[place]
    for sheet in sheets:
        assert len(sheet) > 20, "no sheet is all but empty"
        lefts, tops, rights, feet = zip(*sheet, strict=True)
        assert min(lefts) > MARGIN - 2
        assert max(rights) < wide - MARGIN + 2, "nothing is cut off at the edge"
        assert min(tops) > 0
        assert max(feet) < high
    for number in range(1, len(sheets) + 1):
        foot = paper.words("-f", str(number), "-l", str(number))
        assert f"page {number} of {len(sheets)}" in foot


@pytest.mark.parametrize("place", ["right", "bench", "scales", "pond"])
def test_a_dark_page_prints_as_a_light_one(seen: Seen, place: str, tmp_path: Path) -> None:
    page = opened(seen, place)
    light = printed(page, "A4", tmp_path).gray()
    page.emulate_media(color_scheme="dark")
    dark = printed(page, "A4", tmp_path).gray()
    page.emulate_media(color_scheme="light")
    assert light[0, 0] == 255
    assert light.mean() > 230, "ink on white"
    assert np.array_equal(light, dark)


def test_the_list_of_weights_prints_in_whole(seen: Seen, tmp_path: Path) -> None:
    page = opened(seen, "scales")
    paper = printed(page, "A4", tmp_path)
    words = paper.words()
    for name in page.locator(".weights .pick").all_inner_texts():
        assert name in words
    for field in page.locator(".weights td.mass input.cell").all():
        assert field.input_value() in words, "an input prints as its value"
    heads = page.locator(".weights thead button").all_inner_texts()
    second = paper.words("-f", "2", "-l", "2")
    assert all(head.split()[0] in second for head in heads), "its head stands on each sheet"


def test_the_folds_of_the_bench_print_opened(seen: Seen, tmp_path: Path) -> None:
    page = opened(seen, "bench")
    assert page.locator(".fold[open]").count() == 0
    words = printed(page, "A4", tmp_path).words()
    for head in ("safe depth", "failure depth", "Rings", "signal lost", "voltage drop"):
        assert head in words
    for tool in ("Which tube?", "Every kind of plant", "Record a leak test"):
        assert tool not in words
    assert page.locator(".fold[open]").count() == 0, "on the screen they stay as they are"


def test_she_is_drawn_over_the_breadth_of_the_leaf(seen: Seen, tmp_path: Path) -> None:
    shares = []
    for place in ("right", "shelf"):  # beside the shelf she is a strip on the screen
        page = opened(seen, place)
        before = page.locator("svg.scene").get_attribute("viewBox")
        gray = printed(page, "A4", tmp_path).gray()
        sea = gray[70:108, :] < 130  # where she lies: her ink
        columns = np.flatnonzero(sea.any(axis=0))
        shares.append((columns[-1] - columns[0]) / gray.shape[1])
        assert page.locator("svg.scene").get_attribute("viewBox") == before
    assert min(shares) > 0.7


def test_the_tour_does_not_print(browser: Browser, tmp_path: Path) -> None:
    with on_a_port(bittern_on_a_shelf(tmp_path)) as served:
        found = entered(browser, served)
        page = opened(found, "right")
        says = page.locator(".walk .says").inner_text()
        words = printed(page, "A4", tmp_path).words()
        found.page.context.close()
    assert len(says) > 20
    assert says[:20] not in words
    assert "Winch house" in words
    assert found.wrong == []
