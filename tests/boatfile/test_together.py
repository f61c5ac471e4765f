"""Files written together: in step whenever a writer is ended, on a full disk, and side by side.

What a file system promises is POSIX's: ``rename`` puts a name in one step in another's place
(IEEE Std 1003.1, rename). Writers are ended by signal 9, which no program can catch.
"""

import json
import os
import random
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

import pytest

from trimdive.boatfile import together
from trimdive.boatfile.together import PART, READY, finished, held, write

NAMES = ("boat.toml", "lines.csv", "boat.previous.toml")
WRITER = """
import sys
from pathlib import Path
from trimdive.boatfile.together import held, write
folder, number = Path(sys.argv[1]), int(sys.argv[2])
print("begun", flush=True)
while True:
    number += 1
    with held(folder):
        write(folder, {name: b"%d %s " % (number, name.encode()) * 4000 for name in sys.argv[3:]})
"""
COUNTER = """
import sys
from pathlib import Path
from trimdive.boatfile.together import held, write
folder, times = Path(sys.argv[1]), int(sys.argv[2])
for _ in range(times):
    with held(folder):
        now = int((folder / "count").read_text())
        write(folder, {"count": str(now + 1).encode(), "twice": str(2 * (now + 1)).encode()})
"""
UNIX = pytest.mark.skipif(os.name != "posix", reason="signal 9 is POSIX's")


def numbers(folder: Path) -> set[int]:
    """Return the numbers that stand in the files; each file holds one from its start to its end."""
    found: set[int] = set()
    for name in NAMES:
        words = (folder / name).read_bytes().split()
        assert set(words[1::2]) == {name.encode()}
        assert len(words) == 8000
        found |= {int(word) for word in words[::2]}
    return found


def killed(folder: Path, number: int, after: float) -> None:
    """Begin to write, and end the writer by force after a time [s]."""
    command = [sys.executable, "-c", WRITER, str(folder), str(number), *NAMES]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as running:
        assert running.stdout is not None
        running.stdout.readline()
        time.sleep(after)
        running.send_signal(signal.SIGKILL)


@UNIX
def test_whenever_the_writer_is_ended_all_files_are_of_one_state(tmp_path: Path) -> None:
    chance, last = random.Random(5), 0
    with held(tmp_path):
        write(tmp_path, {name: b"0 %s " % name.encode() * 4000 for name in NAMES})
    for _ in range(20):
        killed(tmp_path, last, chance.uniform(0, 0.03))
        finished(tmp_path)
        (number,) = numbers(tmp_path)
        assert number >= last, "what was written before is never lost"
        last = number
    with held(tmp_path):
        pass
    assert {one.name for one in tmp_path.iterdir()} == set(NAMES), "nothing is left behind"


class Ended(BaseException):
    """What stands for the end of the program."""


def ended_at(step: int, folder: Path, patched: pytest.MonkeyPatch) -> bool:
    """Write, and end for good at one of the calls that change the disk; return whether it ended."""
    left = step

    def counted(call: Callable[..., object]) -> Callable[..., object]:
        def calling(*args: object, **named: object) -> object:
            nonlocal left
            left -= 1
            if left < 0:
                raise Ended
            return call(*args, **named)

        return calling

    patched.setattr(together.os, "fsync", counted(os.fsync))
    for name in ("rename", "replace", "unlink"):
        patched.setattr(Path, name, counted(getattr(Path, name)))
    patched.setattr(together.shutil, "rmtree", counted(lambda *_, **__: None))
    try:
        write(folder, dict.fromkeys(NAMES, b"new"))
    except Ended:
        return True
    return False


def test_ended_at_any_step_they_are_all_old_or_all_new(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    became: list[bytes] = []
    for step in range(100):
        with held(tmp_path):
            write(tmp_path, dict.fromkeys(NAMES, b"old"))
        with monkeypatch.context() as patched:
            is_ended = ended_at(step, tmp_path, patched)
        finished(tmp_path)
        with held(tmp_path):
            pass
        (one,) = {(tmp_path / name).read_bytes() for name in NAMES}
        became.append(one)
        assert not [*tmp_path.glob(f"{PART}*"), *tmp_path.glob(READY)]
        if not is_ended:
            break
    assert became == sorted(became, reverse=True), "old until one step, new from there"
    assert {b"old", b"new"} == set(became)


@UNIX
def test_two_programs_side_by_side_lose_nothing(tmp_path: Path) -> None:
    for name in ("count", "twice"):
        (tmp_path / name).write_text("0")
    command = [sys.executable, "-c", COUNTER, str(tmp_path), "100"]
    both = [subprocess.Popen(command) for _ in range(2)]
    assert [one.wait() for one in both] == [0, 0]
    assert (tmp_path / "count").read_text() == "200"
    assert (tmp_path / "twice").read_text() == "400"


def test_a_full_disk_leaves_everything_as_it_was(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "boat.toml").write_bytes(b"old")

    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as patched:
        patched.setattr(together.os, "fsync", full)
        with pytest.raises(OSError, match="No space"), held(tmp_path):
            write(tmp_path, {"boat.toml": b"new", "lines.csv": b"new"})
    assert [(one.name, one.read_bytes()) for one in tmp_path.iterdir()] == [("boat.toml", b"old")]


def test_a_new_file_is_its_owners_alone_and_an_old_one_keeps_its_rights(tmp_path: Path) -> None:
    (tmp_path / "old").write_bytes(b"")
    (tmp_path / "old").chmod(0o640)
    with held(tmp_path):
        write(tmp_path, {"old": b"1", "new": b"2"})
    rights = {one.name: one.stat().st_mode & 0o777 for one in tmp_path.iterdir()}
    assert rights == {"old": 0o640, "new": 0o600}


@pytest.mark.parametrize("name", ["../target", "a/../../target", "link", "linked/target"])
def test_what_is_ready_never_goes_out_of_its_folder(tmp_path: Path, name: str) -> None:
    """A folder may come from somebody else, with such a list and with links in it."""
    folder, outside = tmp_path / "boat", tmp_path / "outside"
    for one in (folder, outside, folder / READY):
        one.mkdir()
    for target in (outside / "target", tmp_path / "target"):
        target.write_bytes(b"own")
    (folder / "link").symlink_to(outside / "target")
    (folder / "linked").symlink_to(outside)
    (folder / READY / "0").write_bytes(b"strange")
    (folder / READY / "names.json").write_text(json.dumps({"0": name}))
    with suppress(OSError):
        finished(folder)
    assert (outside / "target").read_bytes() == (tmp_path / "target").read_bytes() == b"own"


def test_a_link_in_the_place_of_what_is_ready_is_taken_away(tmp_path: Path) -> None:
    outside = tmp_path / "outside"
    (folder := tmp_path / "boat").mkdir()
    outside.mkdir()
    (outside / "names.json").write_text('{"0": "taken"}')
    (outside / "0").write_bytes(b"own")
    (folder / READY).symlink_to(outside)
    finished(folder)
    assert [*folder.iterdir()] == []
    assert (outside / "0").read_bytes() == b"own"


def test_a_list_of_names_that_is_none_is_put_away(tmp_path: Path) -> None:
    for text in ("", "{", "[]", '{"0": 5}', '{"x": "a"}', "\0", "9" * 5000):
        ready = tmp_path / READY
        ready.mkdir()
        (ready / "names.json").write_text(text)
        finished(tmp_path)
        assert [*tmp_path.iterdir()] == []
