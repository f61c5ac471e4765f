"""The program as a builder starts it: a process of its own, asked over this machine's network."""

import os
import re
import subprocess
import sys
import urllib.request
from collections.abc import Generator
from contextlib import contextmanager
from dataclasses import dataclass
from http.client import HTTPConnection
from pathlib import Path
from urllib.parse import urlencode, urlsplit

ADDRESS = re.compile(r"http://127\.0\.0\.1:\d+/\S+?/(?=\s|$)")
REVISION = re.compile(r'name="revision" value="(\d+)"')
PATIENCE = 120  # for one answer of a busy machine [s]


@dataclass
class Server:
    """A page that is served."""

    process: "subprocess.Popen[str]"
    address: str

    def get(self, path: str = "") -> str:
        """Return what is at an address."""
        with urllib.request.urlopen(self.address + path, timeout=PATIENCE) as answer:
            return str(answer.read().decode())

    def revision(self) -> str:
        """Return the number of the state that is shown."""
        found = REVISION.search(self.get("right"))
        assert found
        return found[1]

    def post(self, path: str, typed: dict[str, str]) -> tuple[int, str]:
        """Send a form as the page does; return status and answer."""
        with self.line() as one:
            return one.post(path, typed)

    @contextmanager
    def line(self) -> Generator["Line"]:
        """Connect one window."""
        parts = urlsplit(self.address)
        one = HTTPConnection(parts.netloc, timeout=PATIENCE)
        try:
            yield Line(one, parts.netloc, parts.path)
        finally:
            one.close()

    def type(self, field: str, text: str, revision: str) -> str:
        """Type into a field of the boat file; return the page after it."""
        typed = {"field": field, "typed": text, "revision": revision, "place": "scales"}
        status, page = self.post("edit", typed)
        assert status == 200, page
        return page

    def worked(self) -> float:
        """Return the time of the processor that the process has taken [s]."""
        answer = Path(f"/proc/{self.process.pid}/stat").read_text().rpartition(")")[2].split()
        return (int(answer[11]) + int(answer[12])) / os.sysconf("SC_CLK_TCK")

    def memory(self) -> int:
        """Return the memory that the process holds [bytes]."""
        pages = Path(f"/proc/{self.process.pid}/statm").read_text().split()[1]
        return int(pages) * os.sysconf("SC_PAGESIZE")


@dataclass
class Line:
    """One window, whose connection is kept."""

    connection: HTTPConnection
    host: str
    root: str

    def get(self, path: str = "") -> str:
        """Return what is at an address."""
        self.connection.request("GET", self.root + path)
        return self.connection.getresponse().read().decode()

    def post(self, path: str, typed: dict[str, str]) -> tuple[int, str]:
        """Send a form as the page does; return status and answer."""
        own = {
            "origin": f"http://{self.host}",
            "sec-fetch-site": "same-origin",
            "hx-request": "true",
            "content-type": "application/x-www-form-urlencoded",
        }
        self.connection.request("POST", self.root + path, urlencode(typed), own)
        answer = self.connection.getresponse()
        return answer.status, answer.read().decode()


@contextmanager
def served(shelf: Path) -> Generator[Server]:
    """Start the program on a shelf, and end it afterwards."""
    command = [sys.executable, "-m", "trimdive", "--shelf", str(shelf), "--no-browser"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as running:
        assert running.stdout is not None
        try:
            line = ""
            while not (found := ADDRESS.search(line)):
                line = running.stdout.readline()
                assert line, "it ended before it answered"
            yield Server(running, found[0])
        finally:
            running.terminate()
            try:
                running.wait(30)
            except subprocess.TimeoutExpired:
                running.kill()
