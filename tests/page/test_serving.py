"""The command: it tells its address, answers there and there alone, and ends cleanly."""

import os
import re
import signal
import socket
import subprocess
import sys
import urllib.error
import urllib.request
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from tests.loops import apart
from tests.page.conftest import BOATS
from typer.testing import CliRunner

from trimdive.cli.app import app as commands
from trimdive.page.desk import opened
from trimdive.page.serving import laid_out, serve
from trimdive.page.shown import name_of

UNIX = pytest.mark.skipif(sys.platform == "win32", reason="Ctrl-C is sent as on Unix")


@UNIX
@pytest.mark.parametrize("browser", [[], ["--no-browser"]])
def test_it_serves_until_ctrl_c_with_no_browser_there(
    copied: Callable[[str], Path], browser: list[str]
) -> None:
    bare = {key: value for key, value in os.environ.items() if key not in ("DISPLAY", "BROWSER")}
    command = [sys.executable, "-m", "trimdive", "page", str(copied("grebe").parent), *browser]
    with subprocess.Popen(
        command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, env=bare
    ) as running:
        assert running.stdout is not None
        line = running.stdout.readline()
        found = re.search(r"http://127\.0\.0\.1:(\d+)/\S{20,}/", line)
        assert found is not None, line
        address = found[0].removesuffix("/")[:-1]
        with pytest.raises(urllib.error.HTTPError, match="403"):
            urllib.request.urlopen(address)
        assert running.stdout.readline() == "Ctrl-C ends it.\n"
        running.send_signal(signal.SIGINT)
        out, err = running.communicate(timeout=120)
    assert (running.returncode, out, err) == (0, "", "")


def test_a_taken_port_is_told_in_a_sentence() -> None:
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = str(taken.getsockname()[1])
        typed = ["page", str(BOATS / "grebe"), "--no-browser", "--port", port]
        answer = CliRunner().invoke(commands, typed)
    assert answer.exit_code == 2
    assert answer.stderr.startswith(f"--port {port}: ")
    assert answer.stderr.count("\n") == 1


def test_a_boat_file_with_a_mistake_is_told_before_anything_is_served(tmp_path: Path) -> None:
    (tmp_path / "boat.toml").write_text("name = 3", "utf-8")
    answer = CliRunner().invoke(commands, ["page", str(tmp_path), "--no-browser"])
    assert answer.exit_code == 2
    assert answer.stdout == ""
    assert "boat.toml" in answer.stderr


@UNIX
def test_what_was_not_saved_is_counted(copied: Callable[[str], Path]) -> None:
    desk = laid_out(copied("bittern-as-bought"))
    found = desk.her.findings[0]
    desk.do(name_of(found))
    with apart():
        left = serve(desk, lambda _: os.kill(os.getpid(), signal.SIGINT), browser=False)
    assert left == 1
    assert opened(desk.path).her.findings[0].key == found.key


@UNIX
def test_whoever_asks_for_nothing_is_left(copied: Callable[[str], Path]) -> None:
    """Connections that say nothing, or begin to, are ended; the page answers beside them."""
    command = [sys.executable, "-m", "trimdive", "page", str(copied("grebe").parent)]
    with subprocess.Popen([*command, "--no-browser"], stdout=subprocess.PIPE, text=True) as running:
        assert running.stdout is not None
        address = running.stdout.readline().split()[-1]
        host = (str(urlsplit(address).hostname), int(urlsplit(address).port or 0))
        silent = [socket.create_connection(host) for _ in range(400)]
        for one in silent[::2]:
            with suppress(ConnectionError):
                one.sendall(b"GET / HTT")
        for one in silent:
            one.settimeout(120)
            with suppress(ConnectionError):
                assert one.recv(1) == b"", "ended by the page"
            one.close()
        with urllib.request.urlopen(address) as answer:
            assert answer.status == 200
        running.send_signal(signal.SIGINT)
        running.communicate(timeout=120)
