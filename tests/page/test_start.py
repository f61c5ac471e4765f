"""The bare command: a new shelf, the last boat, and a killed program loses nothing it saved."""

import os
import re
import signal
import subprocess
import sys
import time
from collections.abc import Generator
from contextlib import contextmanager
from pathlib import Path

import httpx2 as httpx
import pytest
from tests.cli.boats import SMALL
from tests.page.conftest import BOATS
from typer.testing import CliRunner

from trimdive.boatfile import load
from trimdive.cli.app import app as commands
from trimdive.page.shelf import FIRST, Shelf

UNIX = pytest.mark.skipif(sys.platform == "win32", reason="signals are sent as on Unix")


@contextmanager
def started(home: Path, *typed: str) -> Generator[tuple[subprocess.Popen[str], httpx.Client]]:
    """Start the program as typed, with a home folder of its own; yield it and its page, entered."""
    own = {**os.environ, "HOME": str(home)}
    own = {key: value for key, value in own.items() if key not in ("DISPLAY", "BROWSER")}
    command = [sys.executable, "-m", "trimdive", *typed]
    with subprocess.Popen(
        command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, env=own
    ) as running:
        assert running.stdout is not None
        found = re.search(r"(http://[^/]+)(/\S+)/", running.stdout.readline())
        assert found is not None
        with httpx.Client(
            base_url=found[1] + found[2], headers={"origin": found[1]}, timeout=60
        ) as client:
            page = client.get("/")
            assert page.status_code == 200
            yield running, client
        if running.poll() is None:
            running.send_signal(signal.SIGINT)
            running.communicate(timeout=120)


@UNIX
def test_the_first_start_and_the_next(tmp_path: Path) -> None:
    with started(tmp_path) as (_, client):
        first = client.get("/").text
    assert "This boat was bought nearly finished." in first
    shelf = Shelf(tmp_path / "trimdive")
    assert shelf.names() == (FIRST,)
    shelf.put("Sprat", SMALL, {})
    with started(tmp_path) as (_, client):
        sent = {"act": "shelf open sprat", "revision": "1", "place": "shelf"}
        answer = client.post("/act", data=sent, headers={"hx-request": "true"})
        assert answer.headers["hx-redirect"] == f"{client.base_url.raw_path.decode()}shelf"
    with started(tmp_path) as (_, client):
        assert "<h1>Sprat</h1>" in client.get("/").text


@UNIX
def test_a_boat_as_the_first_word_is_opened(tmp_path: Path) -> None:
    (tmp_path / "own").mkdir()
    (tmp_path / "own" / "boat.toml").write_text(SMALL, "utf-8")
    with started(tmp_path, str(tmp_path / "own")) as (_, client):
        assert "<h1>Sprat</h1>" in client.get("/").text
    assert not (tmp_path / "trimdive").exists(), "no shelf is made that was not asked for"


@UNIX
def test_killed_it_loses_nothing_that_it_said_was_saved(tmp_path: Path) -> None:
    shelf = Shelf(tmp_path)
    file = shelf.put("Sprat", SMALL, {})
    with started(tmp_path, str(file)) as (running, client):
        sent = {"field": "tank[1].x", "typed": "365 mm", "revision": "1"}
        assert client.post("/edit", data=sent).status_code == 200
        deadline = time.monotonic() + 120
        while not client.get("/now").json()["is_saved"] and time.monotonic() < deadline:
            time.sleep(0.05)
        assert client.get("/now").json()["is_saved"]
        running.send_signal(signal.SIGKILL)
    assert load(file).boat.tanks[0].x == pytest.approx(0.365)


@UNIX
def test_killed_while_it_saves_the_file_is_whole(tmp_path: Path) -> None:
    """Killed at once after the answer: the file is the old one or the new one, never a part."""
    for wait in (0.0, 0.005, 0.02, 0.05):
        shelf = Shelf(tmp_path / f"{wait}")
        file = shelf.put("Sprat", SMALL, {})
        with started(tmp_path, str(file)) as (running, client):
            sent = {"field": "tank[1].x", "typed": "365 mm", "revision": "1"}
            assert client.post("/edit", data=sent).status_code == 200
            time.sleep(wait)
            running.send_signal(signal.SIGKILL)
        assert file.read_text("utf-8") in (SMALL, SMALL.replace("360 mm", "365 mm", 1))


@UNIX
def test_ended_in_the_middle_everything_is_saved(tmp_path: Path) -> None:
    file = Shelf(tmp_path).put("Sprat", SMALL, {})
    with started(tmp_path, str(file)) as (_, client):
        sent = {"field": "tank[1].x", "typed": "365 mm", "revision": "1"}
        client.post("/edit", data=sent)
    assert load(file).boat.tanks[0].x == pytest.approx(0.365)


def test_a_shelf_that_cannot_be_made_is_told_in_a_sentence(tmp_path: Path) -> None:
    (tmp_path / "taken").write_text("a file", "utf-8")
    answer = CliRunner().invoke(commands, ["--shelf", str(tmp_path / "taken"), "--no-browser"])
    assert answer.exit_code == 2
    assert answer.stderr.count("\n") == 1
    assert "name another: trimdive --shelf" in answer.stderr


def test_a_last_boat_with_a_mistake_does_not_shut_the_door(tmp_path: Path) -> None:
    from trimdive.page.serving import workshop_at

    shelf = Shelf(tmp_path)
    shelf.put("Sprat", SMALL, {})
    broken = shelf.put("Worm", SMALL, {})
    broken.write_text("name = 3", "utf-8")
    shelf.remember_last(broken)
    found = workshop_at(tmp_path, None)
    assert found.desk.her.boat.name == "Sprat"
    assert found.desk.note is not None
    assert "worm was not opened" in found.desk.note.text


@pytest.mark.parametrize("typed", [["fly"], ["--nonsense"], ["boats/nowhere"], ["nowhere.toml"]])
def test_what_is_no_command_and_no_boat_is_refused(typed: list[str]) -> None:
    answer = CliRunner().invoke(commands, typed)
    assert answer.exit_code == 2
    assert "Traceback" not in answer.output


def test_help_is_still_help() -> None:
    answer = CliRunner().invoke(commands, ["--help"])
    assert answer.exit_code == 0
    assert "Without a command it opens the page." in " ".join(answer.output.split())


def test_no_command_is_hidden_by_a_folder_of_its_name(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "check").mkdir()
    answer = CliRunner().invoke(commands, ["check", str(BOATS / "bittern")])
    assert answer.exit_code == 0
