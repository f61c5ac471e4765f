"""What the tests of the page begin with: a copy of a demo boat, and the page open on it."""

import shutil
import socket
from collections import OrderedDict
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, sync_playwright
from starlette.testclient import TestClient
from tests.assessed import same
from tests.cli.boats import SMALL
from tests.page.browsing import ARGUMENTS, CHROMIUM, PATIENCE, Seen, entered, on_a_port
from tests.page.forked import CAN_FORK, Forked, forking

from trimdive.page import apart
from trimdive.page.app import app
from trimdive.page.desk import Desk, opened
from trimdive.page.guard import Keys
from trimdive.page.shown import Shown

BOATS = Path(__file__).parents[2] / "boats"
HOST = "127.0.0.1:8123"
OWN = {"origin": f"http://{HOST}", "sec-fetch-site": "same-origin"}


@dataclass(frozen=True, kw_only=True)
class Page:
    """The page of a boat, without a browser."""

    desk: Desk
    keys: Keys
    client: TestClient

    @property
    def file(self) -> Path:
        """Return the boat file."""
        return self.desk.path

    def enter(self) -> "Page":
        """Open the page with the key that the terminal shows."""
        assert self.client.get("/").status_code == 200
        return self

    def press(self, pressed: str, **more: str) -> str:
        """Press a button of the page, and return what the page is then."""
        typed = {"act": pressed, "revision": str(self.desk.revision), **more}
        answer = self.client.post("/act", data=typed, headers=OWN | {"hx-request": "true"})
        assert answer.status_code == 200, answer.text
        return answer.text


SHOWN: "OrderedDict[int, Shown]" = OrderedDict()  # by the assessment
MOST = 6  # boats whose pictures are kept, those used last [-]


def desk_of(file: Path) -> Desk:
    """Return a boat file, opened; one that reads the same is worked out once for all tests."""
    desk = opened(file)
    her = same(desk.written()[0], desk.on_disk, desk.own.her)
    shown = SHOWN.setdefault(id(her), Shown(her=her))  # which holds her, so that the id is hers
    SHOWN.move_to_end(id(her))
    while len(SHOWN) > MOST:
        SHOWN.popitem(last=False)
    desk.steps[0] = replace(desk.steps[0], shown=shown)
    return desk


def page_of(file: Path) -> Page:
    """Return the page of a boat file, not yet opened."""
    desk, keys = desk_of(file), Keys()
    client = TestClient(app(desk, HOST, keys), base_url=f"http://{HOST}{keys.root}")
    return Page(desk=desk, keys=keys, client=client)


@pytest.fixture(scope="session")
def forks() -> Iterator[Callable[[], Forked]]:
    """Yield a way to begin a process for work apart that need not load the program."""
    with ExitStack() as open_until_the_end:

        @cache
        def ask() -> socket.socket:
            return open_until_the_end.enter_context(forking())

        yield lambda: Forked(ask())


@pytest.fixture(autouse=True)
def begun_at_once(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    """Begin work apart at once, but in a file of tests that says ``LOADS_ANEW``."""
    if CAN_FORK and not getattr(request.module, "LOADS_ANEW", False):
        monkeypatch.setattr(apart, "_begun", request.getfixturevalue("forks"))


@pytest.fixture
def copied(tmp_path: Path) -> Callable[[str], Path]:
    """Return a way to copy a demo boat to where it may be written."""

    def copy(name: str) -> Path:
        shutil.copytree(BOATS / name, tmp_path / name)
        return tmp_path / name / "boat.toml"

    return copy


@pytest.fixture
def bittern(copied: Callable[[str], Path]) -> Page:
    """Return the page of Bittern as bought, opened."""
    return page_of(copied("bittern-as-bought")).enter()


@pytest.fixture
def sprat(tmp_path: Path) -> Page:
    """Return the page of a small boat that saves herself, opened."""
    file = tmp_path / "boat.toml"
    file.write_text(SMALL, "utf-8")
    page = page_of(file)
    page.desk.is_keeping = True
    return page.enter()


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Yield the browser, begun once; its event loop is the worker's from then on."""
    with sync_playwright() as play:
        found = play.chromium.launch(executable_path=str(CHROMIUM), args=ARGUMENTS)
        with_looks = found.new_context

        def patient(**looks: object) -> BrowserContext:
            context = with_looks(**looks)  # type: ignore[arg-type]
            context.set_default_timeout(PATIENCE)
            return context

        found.new_context = patient  # type: ignore[method-assign]
        yield found
        found.close()


@pytest.fixture
def served(
    copied: Callable[[str], Path], request: pytest.FixtureRequest
) -> Iterator[tuple[Desk, str, Keys]]:
    """Yield Bittern as bought, served."""
    ahead = getattr(request.module, "WORKS_AHEAD", False)
    with on_a_port(desk_of(copied("bittern-as-bought")), ahead=ahead) as found:
        yield found


@pytest.fixture
def seen(browser: Browser, served: tuple[Desk, str, Keys]) -> Iterator[Seen]:
    """Yield the page; afterwards nothing may have gone wrong in it."""
    found = entered(browser, served)
    yield found
    found.page.context.close()
    assert found.wrong == []
