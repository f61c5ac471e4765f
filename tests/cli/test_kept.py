"""Answers shown again: the same to the letter, and never one of a boat that has changed since."""

import io
import os
import subprocess
import sys
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

import pytest
from tests.cli.boats import SMALL

from trimdive.cli import kept

WORDS = ["float", "boat.toml"]
Run = Callable[..., Path]


@pytest.fixture
def boat(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return a file beside which nothing lies, in the folder in which words are typed."""
    folder = tmp_path / "sprat"
    folder.mkdir()
    monkeypatch.chdir(folder)
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    monkeypatch.delenv(kept.OFF)
    (folder / "boat.toml").write_text("length = 1", "utf-8")
    return folder / "boat.toml"


def place() -> Path:
    """Return where the answer to the words is kept."""
    found = kept.place_of(WORDS)
    assert found is not None
    return found


def answered(boat: Path, status: int = 0, meanwhile: Callable[[], object] = list) -> Path:
    """Answer the words with what the file holds, and return where that is kept."""
    at = place()
    with suppress(SystemExit), kept.keeping(at, WORDS):
        print(f"“{boat.read_text('utf-8')}”")
        meanwhile()
        sys.exit(status)
    return at


@pytest.mark.parametrize("status", [0, 1])
def test_an_answer_is_shown_again(
    boat: Path, capsys: pytest.CaptureFixture[str], status: int
) -> None:
    at = answered(boat, status)
    first = capsys.readouterr().out
    assert kept.shown(at) == status
    assert capsys.readouterr().out == first == "“length = 1”\n"


@pytest.mark.parametrize(
    "change",
    [
        lambda boat: boat.write_text("length = 2", "utf-8"),
        lambda boat: boat.unlink(),
        lambda boat: boat.with_name("lines.csv").touch(),
        lambda boat: (boat.unlink(), boat.mkdir()),
    ],
    ids=["edited", "taken away", "something new beside it", "a folder in its place"],
)
def test_no_answer_outlives_what_it_was_read_from(
    boat: Path, capsys: pytest.CaptureFixture[str], change: Callable[[Path], object]
) -> None:
    at, when = answered(boat), boat.stat().st_mtime_ns
    change(boat)
    if boat.is_file():
        os.utime(boat, ns=(when, when))  # times are not what counts
    capsys.readouterr()
    assert kept.shown(at) is None
    assert capsys.readouterr().out == ""


def test_a_file_that_was_missed_counts_too(boat: Path) -> None:
    there = boat.with_name("deep") / "hull.stl"

    def look() -> None:
        with pytest.raises(OSError, match="hull"):
            there.open()

    at = answered(boat, meanwhile=look)
    assert kept.shown(at) == 0
    there.parent.mkdir()
    there.touch()
    assert kept.shown(at) is None


def test_what_changes_while_it_is_worked_out_keeps_the_answer_from_being_kept(boat: Path) -> None:
    at = answered(boat, meanwhile=lambda: boat.write_text("length = 2", "utf-8"))
    assert not at.exists()


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="there are no pipes with names here")
def test_a_pipe_is_left_to_whoever_reads_it(boat: Path) -> None:
    pipe = boat.with_name("pipe")
    os.mkfifo(pipe)
    assert kept.contents(str(pipe)) is None


def test_only_answers_are_kept(boat: Path) -> None:
    assert not answered(boat, status=2).exists()
    assert not answered(boat, meanwhile=lambda: print("x" * kept.LARGEST)).exists()
    assert kept.place_of(["page", "boat.toml"]) is None
    assert kept.place_of([]) is None


def test_it_can_be_turned_off(boat: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    assert kept.shown(answered(boat)) == 0
    monkeypatch.setenv(kept.OFF, "off")
    assert kept.place_of(WORDS) is None


def test_other_words_folders_terminals_and_programs_have_other_answers(
    boat: Path, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    found = [place(), kept.place_of([*WORDS, "--json"])]
    monkeypatch.setenv("COLUMNS", "40")
    found.append(place())
    monkeypatch.chdir(tmp_path)
    found.append(place())
    program = tmp_path / "program"
    program.mkdir()
    monkeypatch.setattr(kept, "PACKAGE", program)
    found.append(place())
    (program / "cut.py").write_text("x = 1", "utf-8")
    found.append(place())
    os.utime(program / "cut.py", ns=(5, 5))
    found.append(place())
    monkeypatch.setattr(kept, "_libraries", lambda: ["numpy-9.9.dist-info"])
    found.append(place())
    assert len({*found}) == len(found) == 8


@pytest.mark.parametrize(
    "spoilt", [b"", b"{", b"[]", b"\xff", b'{"status": 0, "said": "x", "seen": {}}', b"[" * 10**5]
)
def test_what_cannot_be_read_counts_as_not_there(boat: Path, spoilt: bytes) -> None:
    at = answered(boat)
    at.write_bytes(spoilt)
    assert kept.shown(at) is None
    assert kept.shown(answered(boat)) == 0


def test_where_nothing_can_be_kept_the_answer_is_given_all_the_same(
    boat: Path, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    (tmp_path / "cache").touch()
    assert not answered(boat).exists()
    assert capsys.readouterr().out == "“length = 1”\n"


def test_only_so_many_are_kept(boat: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(kept, "MOST", 3)
    for columns in range(40, 45):
        monkeypatch.setenv("COLUMNS", str(columns))
        last = answered(boat)
    assert len(list(last.parent.iterdir())) == 3
    assert kept.shown(last) == 0


@pytest.mark.parametrize(
    ("system", "named", "ends"),
    [
        ("linux", {"XDG_CACHE_HOME": "/x"}, "/x/trimdive"),
        ("linux", {"XDG_CACHE_HOME": "x"}, ".cache/trimdive"),
        ("linux", {}, ".cache/trimdive"),
        ("darwin", {"XDG_CACHE_HOME": "/x"}, "Library/Caches/trimdive"),
        ("win32", {"LOCALAPPDATA": "/x"}, "/x/trimdive"),
    ],
)
def test_they_lie_where_the_system_keeps_such(
    system: str, named: dict[str, str], ends: str
) -> None:
    """XDG Base Directory Specification 0.8; Apple's and Microsoft's folders from memory."""
    assert kept.folder(named, system).as_posix().endswith(ends)


@pytest.mark.parametrize("words", [["float", "."], ["check", ".", "--json"]])
def test_a_boat_asked_for_twice_needs_no_sums(boat: Path, tmp_path: Path, words: list[str]) -> None:
    """The whole program: the same letters, and the second time without its large libraries."""
    boat.write_text(SMALL, "utf-8")
    program = (
        f"import atexit, sys; from trimdive.cli import main; sys.argv[1:] = {words};"
        "atexit.register(lambda: print('numba' in sys.modules, file=sys.stderr)); main()"
    )
    runs = [
        subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=False)
        for _ in range(2)
    ]
    assert [run.stderr.strip() for run in runs] == ["True", "False"]
    assert runs[0].stdout == runs[1].stdout != ""
    assert runs[0].returncode == runs[1].returncode


def test_an_answer_that_nobody_read_to_its_end_is_not_kept(
    boat: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A reader such as ``head`` goes before all is told; the rest must not be missing for good."""

    class Gone(io.StringIO):
        def write(self, text: str) -> int:
            if "second" in text:
                raise BrokenPipeError
            return super().write(text)

    at = place()
    monkeypatch.setattr(sys, "stdout", Gone())
    with suppress(SystemExit), kept.keeping(at, WORDS):
        boat.read_text("utf-8")
        print("first")
        try:
            print("second")
        except BrokenPipeError:
            sys.exit(1)
    assert not at.exists()
