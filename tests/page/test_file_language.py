"""The page says what the forms say: nothing on it is said in the language of the boat file."""

import re
import shutil
from collections.abc import Iterator
from html import unescape
from pathlib import Path

import pytest
from tests.cli.boats import NAMES
from tests.page.conftest import BOATS, page_of

from trimdive.boatfile.form import limit_fields, tables, whole_form
from trimdive.boatfile.piece import Piece
from trimdive.page.places import ALL
from trimdive.page.shown import name_of

FILE = re.compile(
    r"`|\[\[|\]\]"  # a table of several, or what is quoted from a file
    r"|\[[a-z]+\]|\bunder \["  # a table
    r'|\b[a-z_]+ = ["\[{\d]|\b[a-z_]+ = (?:true|false)\b'  # a line of it
    r"|\b[a-z]+(?:_[a-z0-9]+)+\b"  # a key
    r"|(?<!\w)--[a-z]"  # an option of the terminal
)
ASIDE = re.compile(r"<(script|style|svg defs)\b.*?</\1>", re.DOTALL)
READ_OUT = re.compile(r'\b(?:title|aria-label|placeholder|alt)="([^"]*)"')
FILES = re.compile(r"\b[\w.-]+\.(?:toml|csv|stl|obj|png|pdf|html)\b|\bboat file\b")
# One boat lacks what none of the demo boats lacks: depth, battery, plant, failsafe, caps.
BARE = ("battery", "plant", "failsafe", "brief", "linkage")


def said_on(html: str) -> Iterator[str]:
    """Yield each piece of text of a page that is seen or read out."""
    plain = ASIDE.sub(" ", html)
    yield from (unescape(one) for one in READ_OUT.findall(plain))
    yield from (unescape(one).strip() for one in re.findall(r">([^<>]+)<", plain))


def in_file_language(html: str) -> list[str]:
    """Return what of a page is said in the language of the boat file; names of files are none."""
    return [one for one in said_on(html) if FILE.search(FILES.sub("", one))]


def bare(text: str) -> str:
    """Return a boat file without its tables that say what moves and feeds her."""
    pieces = re.split(r"(?m)^(?=\[)", text)
    return "".join(one for one in pieces if not re.match(rf"\[+({'|'.join(BARE)})\b", one))


def bare_bittern(folder: Path) -> Path:
    """Return a boat of which nothing on the bench is entered but bare tubes."""
    shutil.copytree(BOATS / "bittern-as-bought", folder / "bare")
    file = folder / "bare" / "boat.toml"
    text = bare(file.read_text())
    text = re.sub(r"(?m)^(caps|aft_cap|fore_cap|closing|air|rings) = .*\n", "", text)
    file.write_text(text)
    return file


@pytest.mark.parametrize("name", [*NAMES, "bare"])
def test_no_place_speaks_the_language_of_the_file(name: str, tmp_path: Path) -> None:
    file = bare_bittern(tmp_path) if name == "bare" else BOATS / name / "boat.toml"
    page = page_of(file).enter()
    assert page.client.get("/right/remains").status_code == 200
    amiss: list[str] = []
    for place in ALL:
        html = page.client.get(f"/{place.key}").text
        amiss += [f"{place.key}: {one}" for one in in_file_language(html)]
    for one in [*page.desk.her.findings, *page.desk.her.bench_findings]:
        answer = page.client.get("/why", params={"key": f"finding/{name_of(one)}"})
        assert answer.status_code == 200
        html = answer.text
        amiss += [f"why of {one.key}: {said}" for said in in_file_language(html)]
    assert not amiss


def test_what_is_looked_for_is_found() -> None:
    for text in (
        'Enter it under [[battery]].', 'Enter pond_depth = "3 m" under [brief].',
        "set through_hull = true", 'enter inside = "cylinder"', "write sealed = false",
        "Set [waterline] height", "See --seconds and [placing].", "quoted `so`",
    ):  # fmt: skip
        assert in_file_language(f"<p>{text}</p>"), text
    for text in ("GM 5 mm = a + b", "lines.csv:10: 59.8?", "see pond_card.pdf", "BG – 5 mm"):
        assert not in_file_language(f"<p>{text}</p>"), text


def _hints(model: type[Piece]) -> Iterator[str]:
    for one in whole_form(model):
        yield one.says
        if one.model is not None:
            yield from _hints(one.model)


def test_no_form_does() -> None:
    hints = {
        says for table in tables().values() for model in table.models for says in _hints(model)
    }
    hints |= {one.says for one in (*tables().values(), *limit_fields())}
    assert not [one for one in hints if FILE.search(one)]
