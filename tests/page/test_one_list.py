"""What is to be put right is one list: in the tab, on the shelf, the terminal and the pond card."""

import re
from html import unescape
from pathlib import Path

import pytest
from tests.cli.boats import NAMES
from tests.page.conftest import BOATS, Page, page_of
from typer.testing import CliRunner

from trimdive.assessment.marks import marks
from trimdive.cli import layout
from trimdive.cli.app import app as commands
from trimdive.page.places.shelf_cards import own_card
from trimdive.text.marks import mark_words, marks_line

NUMBERED = re.compile(r"^ *(\d+[a-z]*)\. (.*)$", re.MULTILINE)
BESIDE = re.compile(r"^ *(fix|rest|more) +(.*)$", re.MULTILINE)


@pytest.fixture(params=NAMES)
def page(request: pytest.FixtureRequest) -> Page:
    """Return the page of a demo boat, with what remains of each finding worked out."""
    found = page_of(BOATS / request.param / "boat.toml").enter()
    assert found.client.get("/right/remains").status_code == 200
    return found


def printed(command: str, file: Path) -> str:
    """Return what a command prints about a boat, in lines that are not broken."""
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(layout, "WIDEST", 4000)
        text = CliRunner().invoke(commands, [command, str(file)], env={"COLUMNS": "4000"}).stdout
    return "\n".join(one.rstrip() for one in text.split("\n"))


def plain(html: str) -> str:
    """Return the words of a piece of the page."""
    return " ".join(unescape(re.sub(r"<[^>]+>", "", html)).split())


def on_page(html: str) -> list[tuple[str, str]]:
    """Return label and sentence of each finding on the page, in their order."""
    found: list[tuple[str, str]] = []
    label = ""
    for match in re.finditer(
        r'<li value="(?P<head>\d+)">|<b>(?P<under>\d+[a-z]+)</b> '
        r'<span class="what">(?P<a>.*?)</span>|<p class="what">(?P<b>.*?)</p>',
        html,
    ):
        if match["head"]:
            label = match["head"]
        elif match["under"]:
            found.append((match["under"], plain(match["a"])))
        else:
            found.append((label, plain(match["b"])))
    return found


def of_class(html: str, name: str) -> list[str]:
    """Return the words of every paragraph of a class."""
    return [plain(one) for one in re.findall(rf'<p class="{name}">(.*?)</p>', html, re.DOTALL)]


def test_tab_and_terminal_have_the_same_list(page: Page) -> None:
    html = page.client.get("/").text
    told = printed("check", page.file)
    listed = [(label, what) for label, what in NUMBERED.findall(told)]
    assert on_page(html) == listed
    rest = [text for key, text in BESIDE.findall(told) if key == "rest"]
    assert sorted(of_class(html, "rest")) == sorted(rest)
    fixes = [text for key, text in BESIDE.findall(told) if key in ("fix", "more")]
    assert sorted(one.removesuffix(" why?") for one in of_class(html, "mend")) == sorted(fixes)


def test_the_count_is_one(page: Page) -> None:
    her, html = page.desk.her, page.client.get("/").text
    told = printed("check", page.file)
    urgent = [one for one in her.findings if one.weight == "put right"]
    badges = re.findall(r'data-place="right".*?class="mark[^"]*" title="([^"]*)">([^<]*)<', html)
    assert badges[0] == (
        f"afloat: {mark_words(marks(her)[0])}",
        str(len(urgent) or ("✓ watch" if her.heels_coming_up else "✓")),
    )
    for one in marks(her):
        assert re.search(rf"^{one.where}: +{mark_words(one)}$", told, re.MULTILINE)
    assert own_card(page.desk, "x").state == marks_line(marks(her)).removesuffix(".")
    things = re.search(r"(\d+) things? to put right\.", told)
    assert (int(things[1]) if things else 0) == len(urgent) == marks(her)[0].urgent


def test_the_pond_card_is_refused_for_the_same(page: Page) -> None:
    her, told = page.desk.her, printed("check", page.file)
    urgent = NUMBERED.findall(told.partition("To put right\n")[2].partition("To look at\n")[0])
    pond, bench = printed("pond", page.file), printed("bench", page.file)
    reasons = re.findall(r"^- (.*)$", pond.partition("No card yet.")[2].partition("\n\n")[0], re.M)
    assert [what for _, what in urgent] == reasons[: len(urgent)]
    assert len(reasons) == marks(her)[2].urgent
    for one in reasons[len(urgent) :]:
        assert one.removesuffix(".") in bench
    assert mark_words(marks(her)[2]) == ("no card yet" if reasons else "in order") or not reasons


def test_bench_marks_are_those_of_the_bench(page: Page) -> None:
    assert page.client.get("/marks").status_code == 200
    html = page.client.get("/bench").text
    badges = re.findall(r'data-place="bench".*?class="mark[^"]*" title="([^"]*)">', html)
    _, bench, pond = marks(page.desk.her)
    assert badges[0] == f"bench: {mark_words(bench)}"
    assert f'title="pond: {mark_words(pond)}"' in html
