"""The page's own forms, filled in at random: every answer is a page or a sentence, in time.

What can be typed and pressed is read from the page that was shown last. A status of 500 or more, an
answer that names a kind of error, and whatever is raised count as wrong.
``python -m tests.fuzz.forms 3000``
"""

import random
import re
import sys
import tempfile
import warnings
from contextlib import suppress
from functools import partial
from html import unescape
from pathlib import Path
from urllib.parse import quote, urlencode

from starlette.testclient import TestClient
from tests.cli.boats import SMALL
from tests.fuzz.readers import FIGURES, Figures, printed, tried

from trimdive.errors import GeometryError
from trimdive.page.app import app
from trimdive.page.guard import Keys
from trimdive.page.serving import workshop_at
from trimdive.page.shelf import Shelf

HOST = "127.0.0.1:8123"
HEAD = {
    "origin": f"http://{HOST}", "sec-fetch-site": "same-origin", "hx-request": "true",
    "content-type": "application/x-www-form-urlencoded",
}  # fmt: skip
AFRESH = 60  # requests after which another shelf is begun [-]
PLACES = ("shelf", "right", "board", "scales", "tub", "bench", "pond")
SECTIONS = re.compile(r'data-tub-at="([^"]+)"')
FIELDS, ACTS = re.compile(r'data-field="([^"]+)"'), re.compile(r'name="act" value="([^"]+)"')
INPUTS = re.compile(r'<(?:input|select|textarea)[^>]*name="([^"]+)"')
REVISION = re.compile(r'name="revision" value="(\d+)"')
UNFORESEEN = re.compile(r"calculated for her \((\w+)\)")
WORDS = (
    *FIGURES, "", " ", "1 g", "298 mm", "mass 24.1 kg", "hull", "PVC-U", "box", "yes", "trim 4 bow",
    "<b>", "\0", "\x1b[2J", "'; --", "../..", "#panic()", "ß" * 300, "sea", "pond 14", "battery",
    "mast=12 g", "draught forward 71 mm", "lead 1", "1:20", "fore", "10 %", "2026-01-02", "-5 mm",
)  # fmt: skip
LONG = ("place", "kit", "begin", "stop reading")  # what takes seconds by its nature
SCRIPTS = (
    "state?filling={}", "now", "hold?path={}", "try?path=part[1]&x={}&z={}", "tanks?full={}",
    "cut?x={}", "why?key={}", "pond/phone?pond-kind={}&pond-celsius={}", "scales/export?as={}",
    "shelf/boat?which={}", "shelf/growing?new-way=figures&figures-length={}&figures-breadth={}",
    "tub/answer?at=what-if&tub.what={}", "tub/answer?at=reach&tub.waters={}",
    "shelf/slid?filling={}", "shelf/compared", "board/drawing", "tub/progress?of={}",
    "pond?pond-kind={}&pond-salt={}",
)  # fmt: skip


class Page:
    """The page of a small boat on a shelf, without a browser."""

    def __init__(self, home: Path) -> None:
        """Begin with the boat as she is."""
        shelf, keys = Shelf(home), Keys()
        self.workshop = workshop_at(home, shelf.put("Sprat", SMALL, {}))
        self.client = TestClient(
            app(self.workshop, HOST, keys), f"http://{HOST}{keys.root}", follow_redirects=False
        )
        self.text = self.client.get("/right").text

    def asked(self, method: str, path: str, typed: dict[str, str]) -> None:
        """Ask, keep the page, and say what is wrong with the answer.

        Raises:
            AssertionError: It is no answer that may be.
            GeometryError: She was refused in words.
        """
        body = urlencode(typed).encode("utf-8", "surrogateescape")
        answer = self.client.request(method, path, content=body or None, headers=HEAD)
        assert answer.status_code < 500, f"{answer.status_code}"
        if REVISION.search(answer.text):
            self.text = answer.text
        found = UNFORESEEN.search(answer.text)
        assert not found, found and found[1]
        if answer.status_code >= 400 or 'class="refused"' in answer.text:
            raise GeometryError("refused", path, "in words")

    def chosen(self, chance: random.Random) -> tuple[str, str, dict[str, str]]:
        """Return what is asked next: method, address and form."""
        at = REVISION.search(self.text)
        held = {"revision": at[1] if at else "1", "place": chance.choice(PLACES)}
        kind = chance.randrange(10)
        if kind == 0:
            section = chance.choice(SECTIONS.findall(self.text) or ["dive"])
            return "GET", f"/{held['place']}?tub.at={section}", {}
        if kind == 1:
            path = chance.choice(SCRIPTS)
            values = [quote(chance.choice(WORDS)) for _ in range(path.count("{}"))]
            return "GET", f"/{path.format(*values)}", {}
        fields = [unescape(one) for one in FIELDS.findall(self.text)] or ["part[1].mass"]
        if kind < 6:
            typed = {"field": chance.choice(fields), "typed": chance.choice(WORDS)}
            return "POST", "/edit", held | typed
        acts = [unescape(one) for one in ACTS.findall(self.text)] or ["undo"]
        names = [unescape(one) for one in INPUTS.findall(self.text)]
        act = chance.choice([one for one in acts if not any(word in one for word in LONG)] or acts)
        typed = {one: chance.choice(WORDS) for one in names if chance.random() < 0.5}
        return "POST", "/act", typed | held | {"act": act}


def run(count: int, seed: int, longest: float = 60.0) -> Figures:
    """Fill in so many forms, for no longer than allowed each [s]."""
    chance, found = random.Random(seed), Figures()
    with tempfile.TemporaryDirectory() as home, warnings.catch_warnings():
        warnings.simplefilter("ignore")
        for number in range(count):
            if number % AFRESH == 0:
                page = Page(Path(home) / str(number))
            method, path, typed = page.chosen(chance)
            says = f"{method} {path} {typed}".encode()
            tried(found, "form", partial(page.asked, method, path, typed), says[:2000], longest)
            if number % 5 == 4:
                with suppress(GeometryError):  # what was refused before may still be told
                    page.asked("GET", f"/{chance.choice(PLACES)}", {})
    return found


def main() -> int:
    """Run as a script: how many, and which seed."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 3000
    seed = int(sys.argv[2]) if len(sys.argv) > 2 else 1
    return printed(run(count, seed), seed)


if __name__ == "__main__":
    raise SystemExit(main())
