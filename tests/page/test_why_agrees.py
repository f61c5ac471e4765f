"""What stands beside a figure and what its "why?" says of it are one ±, at every moment."""

import re
from html import unescape

import pytest
from tests.page.conftest import BOATS, page_of

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
        if "It may be any angle" not in says:
            assert f"{unescape(off)} in 95 cases in 100" in says, (key, off, says)
