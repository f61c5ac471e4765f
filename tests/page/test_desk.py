"""The page without a browser: its numbers, do it, undo, save, a file changed on disk meanwhile."""

import json
import re
import tomllib
from collections.abc import Callable
from html import unescape
from html.parser import HTMLParser
from math import degrees
from pathlib import Path

import numpy as np
import pytest
from tests.page.conftest import BOATS, OWN, Page, page_of
from tests.said import what_of, words_of
from typer.testing import CliRunner

from trimdive.assessment import assess
from trimdive.cli.app import app as commands
from trimdive.hydrostatics.equilibrium.named import weight
from trimdive.page.large import MINUS
from trimdive.page.rows import causes
from trimdive.page.shown import name_of
from trimdive.pictures.drawings.words import figures
from trimdive.text.say import Say

NAMES = sorted(folder.name for folder in BOATS.iterdir() if (folder / "boat.toml").is_file())


def found_in(text: str) -> list[str]:
    """Return what the findings on the page say, what follows after what it follows."""
    found = re.findall(r'<(p|span) class="what">(.*?)</\1>', text)
    return [unescape(re.sub(r"<[^>]+>", "", what)) for _, what in found]  # words are explained


def figures_in(text: str) -> list[str]:
    """Return the three large figures on the page, trim without its word, minus as typed."""
    both = re.findall(r'class="large">(.*?)</span>\s*<span class="word">(.*?)</span>', text)
    (trim, _), *others = both
    found = [unescape(trim), *(unescape(" ".join(pair).strip()) for pair in others)]
    return [text.replace(MINUS, "-") for text in found]


@pytest.mark.parametrize("name", NAMES)
def test_page_terminal_and_python_give_the_same(name: str) -> None:
    """One boat, three ways to ask: nothing of the demo boats is written."""
    page = page_of(BOATS / name / "boat.toml").enter()
    assert page.client.get("/right/remains").status_code == 200  # no mend is shown before
    text = page.client.get("/").text
    answer = CliRunner().invoke(commands, ["check", str(BOATS / name), "--json"])
    stated = json.loads(answer.stdout)
    her = assess(BOATS / name / "boat.toml")
    shown = figures_in(text)
    assert shown == [value for _, value, _ in figures(her, her.lowest)]
    assert shown[0] == f"{abs(degrees(stated['tips_bow_down_rad'])):.1f}°"
    assert shown[1] == weight(her.boat, stated["lowest"]["excess_kg"])
    assert shown[2] == her.boat.units.write(stated["lowest"]["bg_m"], "length")
    whats = [one["what"] for one in stated["findings"]]
    assert [what_of(one, Say(her.boat)) for one in her.findings] == whats
    assert sorted(one.rstrip(".").lower() for one in found_in(text)) == sorted(
        what.rstrip(".").lower() for what in whats
    )
    assert text.count('class="do" id="do-') == sum(one["can_be_done"] for one in stated["findings"])


def test_the_dive_is_the_dive_of_python(bittern: Page) -> None:
    text = bittern.client.get("/").text
    found = re.search(r'<script type="application/json" class="dive">(.*?)</script>', text)
    assert found is not None
    table = json.loads(found[1])
    her = assess(BOATS / "bittern-as-bought" / "boat.toml")
    own = {round(m.filling, 6): degrees(m.state.trim_angle) for m in her.down.moments}
    for run in table["down"]:
        for filling, trim in zip(run["filling"], run["trim"], strict=True):
            assert trim == pytest.approx(own[filling], abs=0.006)
    for filling, trim in own.items():
        (run,) = (r for r in table["down"] if r["filling"][0] <= filling <= r["filling"][-1])
        between = np.interp(filling, run["filling"], run["trim"])
        assert between == pytest.approx(trim, abs=0.03), "what is left out lies between"
    assert len(table["down"]) == len(her.down.jumps) + 1
    ups = [filling for run in table["up"] for filling in run["filling"]]
    assert ups == sorted(ups)
    assert table["up"] != table["down"], "she comes up another way than she went down"


@pytest.mark.parametrize("filling", [0.0, 0.15, 0.5, 1.0])
def test_the_exact_state_is_told(bittern: Page, filling: float) -> None:
    answer = bittern.client.get("/state", params={"filling": filling}).json()
    state = bittern.desk.her.moment(filling).state
    assert answer["lie"]["trim"] == pytest.approx(degrees(state.trim_angle), abs=0.006)
    assert answer["figures"][0]["large"] == f"{abs(degrees(state.trim_angle)):.1f}°"
    if filling == 0.15:
        assert "heel 20" in answer["words"]


@pytest.mark.parametrize("filling", ["nan", "inf", "-1", "2", "", "<script>"])
def test_no_filling_at_all_is_taken_as_untouched(bittern: Page, filling: str) -> None:
    answer = bittern.client.get("/state", params={"filling": filling})
    assert answer.status_code == 200
    assert answer.json()["lie"]["filling"] == 1.0


def test_do_it_opens_the_house_and_says_what_showed_only_then(bittern: Page) -> None:
    first = bittern.desk.her.findings[0]
    before = bittern.client.get("/").text
    after = bittern.press(f"do {name_of(first)}")
    her = bittern.desk.her
    assert first.key == "void-above"
    assert figures_in(after)[0] == f"{abs(degrees(her.lowest.trim_angle)):.1f}°" == "34.4°"
    assert len(found_in(after)) == len(her.findings) != len(found_in(before))
    assert first.hidden
    for what in first.hidden:
        text = words_of(what, Say(her.boat))
        assert any(said.lower().startswith(text.lower()) for said in found_in(after))
    assert bittern.file.read_bytes() == (BOATS / "bittern-as-bought" / "boat.toml").read_bytes()


def test_undo_and_redo_go_all_the_way(bittern: Page) -> None:
    seen = [figures_in(bittern.client.get("/").text)]
    for key in ("void-above", "tank-offset"):
        found = next(one for one in bittern.desk.her.findings if one.key == key)
        seen.append(figures_in(bittern.press(f"do {name_of(found)}")))
    assert len({tuple(one) for one in seen}) == 3
    assert figures_in(bittern.press("undo")) == seen[1]
    assert figures_in(bittern.press("undo")) == seen[0]
    assert figures_in(bittern.press("undo")) == seen[0]
    assert figures_in(bittern.press("redo")) == seen[1]
    assert figures_in(bittern.press("redo")) == seen[2]
    bittern.press("undo")
    other = next(one for one in bittern.desk.her.findings if one.key == "gm-least")
    text = bittern.press(f"do {name_of(other)}")
    assert "disabled" in text.split('value="redo"')[1][:20]


def test_saved_is_what_was_shown(bittern: Page) -> None:
    found = bittern.desk.her.findings[0]
    shown = figures_in(bittern.press(f"do {name_of(found)}"))
    old = bittern.file.read_bytes()
    text = bittern.press("save")
    assert "Saved in boat.toml." in text
    assert figures_in(page_of(bittern.file).enter().client.get("/").text) == shown
    assert figures_in(text) == shown
    assert bittern.file.with_name("boat.previous.toml").read_bytes() == old
    lines = set(bittern.file.read_text("utf-8").splitlines()) ^ set(old.decode().splitlines())
    assert 1 <= len(lines) <= 6, "only the fields that change"
    bittern.press("undo")
    bittern.press("save")
    assert tomllib.loads(bittern.file.read_text("utf-8")) == tomllib.loads(old.decode())


def test_a_file_beside_it_is_saved_and_taken_back(copied: Callable[[str], Path]) -> None:
    page = page_of(copied("grebe-as-bought")).enter()
    table = page.file.with_name("lines.csv")
    before = table.read_text("utf-8")
    found = next(one for one in page.desk.her.findings if one.key == "lines-doubt")
    page.press(f"do {name_of(found)}")
    assert table.read_text("utf-8") == before
    page.press("save")
    assert "59.8" in table.read_text("utf-8")
    assert table.read_text("utf-8") != before
    page.press("undo")
    page.press("save")
    assert table.read_text("utf-8") == before


@pytest.mark.parametrize("other", ["boat.toml", "lines.csv"])
def test_a_file_changed_on_disk_is_not_overwritten(bittern: Page, other: str) -> None:
    found = bittern.desk.her.findings[0]
    bittern.press(f"do {name_of(found)}")
    file = bittern.file.with_name(other)
    theirs = file.read_text("utf-8") + "# a note of mine\n"
    file.write_text(theirs, "utf-8")
    text = bittern.press("save")
    assert "changed on disk" in text
    assert 'value="load again"' in text
    assert 'value="save a copy"' in text
    assert file.read_text("utf-8") == theirs
    assert bittern.desk.at == 1, "what is on the page stays"
    copy = bittern.press("save a copy")
    assert "boat.mine-1.toml" in copy
    assert assess(bittern.file.with_name("boat.mine-1.toml")).in_order is False
    assert file.read_text("utf-8") == theirs
    again = bittern.press("load again")
    assert found_in(again)[0].startswith("Winch house is closed")
    assert "# a note of mine" in bittern.desk.written()[0] or other == "lines.csv"


def test_a_file_that_vanished_or_broke_is_told(bittern: Page) -> None:
    bittern.press(f"do {name_of(bittern.desk.her.findings[0])}")
    bittern.file.write_text("name = ", "utf-8")
    assert "changed on disk" in bittern.press("save")
    text = bittern.press("load again")
    assert "not TOML" in unescape(text)
    assert bittern.desk.at == 1
    bittern.file.unlink()
    assert "changed on disk" in bittern.press("save")


def test_two_windows_do_not_work_over_one_another(bittern: Page) -> None:
    found = bittern.desk.her.findings
    bittern.press(f"do {name_of(found[0])}")
    text = bittern.press(f"do {name_of(found[3])}", revision="1")
    assert "another window" in text
    assert bittern.desk.at == 1


@pytest.mark.parametrize("pressed", ["do nothing/at all", "do ", "", "format", "do void-above"])
def test_what_cannot_be_pressed_does_nothing(bittern: Page, pressed: str) -> None:
    bittern.press(pressed)
    assert (bittern.desk.at, len(bittern.desk.steps)) == (0, 1)


def test_without_scripts_a_button_still_works(bittern: Page) -> None:
    typed = {"act": f"do {name_of(bittern.desk.her.findings[0])}", "revision": "1"}
    answer = bittern.client.post("/act", data=typed, headers=OWN)
    assert answer.status_code == 200
    assert str(answer.url).endswith(f"8123{bittern.keys.root}/")
    assert answer.text.startswith("<!doctype html>")
    assert "Done: winch house entered as drilled" in answer.text


EVIL = "<script>alert(1)</script>\" onload='x' </script> {{ 7*7 }}"


class Tags(HTMLParser):
    """What a browser makes elements and attributes of."""

    def __init__(self) -> None:
        super().__init__()
        self.names: set[str] = set()
        self.scripts = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Take down one element."""
        self.scripts += tag == "script"
        self.names |= {name for name, _ in attrs}


def test_names_from_the_file_do_nothing(copied: Callable[[str], Path]) -> None:
    file = copied("bittern-as-bought")
    text = file.read_text("utf-8")
    for name in ("Bittern as bought", "Winch house", "winch house", "forward tank", "tower"):
        quoted = '"' + (EVIL + name).replace("\\", "\\\\").replace('"', '\\"') + '"'
        text = text.replace(f'"{name}"', quoted)
    file.write_text(text, "utf-8")
    page = page_of(file).enter()
    pages = [page.client.get("/").text]
    pages.append(page.press(f"do {name_of(page.desk.her.findings[0])}"))
    for shown in pages:
        assert EVIL not in shown
        assert "alert(1)" in shown, "the name is shown"
        assert "<script>alert" not in shown
        assert "49" not in re.findall(r"<h1>(.*?)</h1>", shown)[0]
        tags = Tags()
        tags.feed(shown)
        assert not {name for name in tags.names if name.startswith("on")}
        assert tags.scripts == shown.count("</script>")
        assert tags.scripts == 2 + len(re.findall(r'<script src="/[^/]+/static/', shown))


def test_a_path_out_of_the_folder_is_refused(copied: Callable[[str], Path]) -> None:
    file = copied("bittern-as-bought")
    (file.parent.parent / "lines.csv").write_bytes((file.parent / "lines.csv").read_bytes())
    text = file.read_text("utf-8").replace('"lines.csv"', '"../lines.csv"')
    file.write_text(text, "utf-8")
    answer = CliRunner().invoke(commands, ["page", str(file), "--no-browser"])
    assert answer.exit_code == 2
    assert "outside the boat's folder" in answer.stderr


@pytest.mark.parametrize(("name", "faults"), [("bittern", 3), ("grebe", 3), ("plover", 7)])
def test_one_fault_is_told_once(name: str, faults: int) -> None:
    """Three faults each, and in Plover her mesh, which hides where her tank lies."""
    her = assess(BOATS / f"{name}-as-bought" / "boat.toml")
    answer = [row for row in causes(her.boat, her.findings) if row.is_urgent]
    under = [one for row in answer for one in row.along]
    urgent = [found for found in her.findings if found.weight == "put right"]
    assert len(answer) == faults, [what_of(row) for row in answer]
    assert len(answer) + len(under) == len(urgent)
    assert [row.label for row in answer] == [str(k) for k in range(1, len(answer) + 1)]
    assert all(one.label.startswith(row.label) for row in answer for one in row.along)
