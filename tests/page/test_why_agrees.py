"""What stands beside a figure and what its "why?" says of it are one ±, at every moment."""

import re
from html import unescape
from pathlib import Path

import pytest
from tests.larger_tube import new_boat
from tests.page.conftest import BOATS, page_of

from trimdive.uncertainty import ANY, halves

FIGURES = re.compile(
    r'data-why="(trim|light-or-heavy|bg)".*?<span class="off">(.*?)</span>', flags=re.DOTALL
)


@pytest.mark.parametrize("filling", ["0", "0.37", "0.9", "1"])
@pytest.mark.parametrize("name", ["grebe", "plover", "bittern-as-bought"])
def test_why_gives_the_uncertainty_of_the_moment(name: str, filling: str) -> None:
    page = page_of(BOATS / name / "boat.toml").enter()
    moment = {"filling": filling, "touched": "1", "revision": str(page.desk.revision)}
    shown = dict(FIGURES.findall(page.client.get("/right", params=moment).text))
    assert set(shown) == {"trim", "light-or-heavy", "bg"}
    for key, off in shown.items():
        answer = page.client.get("/why", params={"key": key, **moment})
        assert answer.status_code == 200
        says = re.sub(r"\s+", " ", unescape(re.sub("<[^>]*>", " ", answer.text)))
        is_any = off == "may be any angle"
        wanted = "It may be any angle" if is_any else f"{unescape(off)} in 95 cases in 100"
        assert wanted in says, (key, off, says)


def test_a_trim_of_which_nothing_is_known_is_told_so_in_both_places(tmp_path: Path) -> None:
    """A new boat of guesses, dived at neutral: BG alone holds her, and her sums are guesses."""
    (tmp_path / "boat.toml").write_text(new_boat(), "utf-8")
    page = page_of(tmp_path / "boat.toml").enter()
    assert halves(page.desk.her, page.desk.her.dived).trim > ANY
    text = page.client.get("/right").text
    assert dict(FIGURES.findall(text))["trim"] == "may be any angle"
    assert "It may be any angle" in page.client.get("/why", params={"key": "trim"}).text
