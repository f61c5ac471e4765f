"""The page in a browser: where it is served, what is seen there, and what goes wrong in it."""

import os
import re
import socket
import threading
from collections.abc import Generator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from urllib.parse import urlsplit

import pytest
import uvicorn
from playwright.sync_api import Browser, Page, expect

from trimdive.page.ahead import foresee
from trimdive.page.app import app
from trimdive.page.desk import Desk
from trimdive.page.guard import Keys

CHROMIUM = Path("/usr/bin/chromium")
WITHOUT = (  # the last list counts, so this has what playwright leaves out as well
    *("AvoidUnnecessaryBeforeUnloadCheckSync", "DestroyProfileOnBrowserClose", "HttpsUpgrades"),
    *("HttpsFirstBalancedModeAutoEnable", "LensOverlay", "MediaRouter", "PaintHolding"),
    *("ThirdPartyStoragePartitioning", "AvoidCorsURLLoaderRestartOnRedirect"),
    *("OptimizationHints", "NetworkTimeServiceQuerying", "AimEnabled", "PreconnectToSearch"),
    # Two pages of the browser's own, behind its address line, that each new profile would load
    # and run: twice what opening a page costs.
    *("WebUIOmniboxPopup", "WebUIOmniboxAimPopup", "WebUIOmniboxFullPopup"),
)
ARGUMENTS = [
    f"--disable-features={','.join(WITHOUT)}",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--use-angle=swiftshader",
    "--enable-unsafe-swiftshader",
    "--font-render-hinting=none",
]
IS_REQUIRED = os.environ.get("TRIMDIVE_BROWSER_TESTS") == "required"
with_browser = pytest.mark.skipif(
    not CHROMIUM.exists() and not IS_REQUIRED, reason=f"there is no {CHROMIUM}"
)
WIDE = {"width": 1400, "height": 900}
PATIENCE = 120_000  # a slow machine is no fault of the page [ms]
expect.set_options(timeout=PATIENCE)


@dataclass(frozen=True, kw_only=True)
class Seen:
    """The page of Bittern as bought in a browser, and what went wrong in it."""

    page: Page
    desk: Desk
    host: str
    home: str  # the address of the page, with its key
    wrong: list[str] = field(default_factory=list)

    def value(self, number: int = 0) -> str:
        """Return one of the three large figures."""
        return self.page.locator(".figures .large").nth(number).inner_text()

    def loaded(self) -> None:
        """Wait until the page's scripts have done their first work, after it was loaded again."""
        self.page.locator("svg.scene[viewBox]").wait_for()

    def slide(self, filling: float) -> None:
        """Slide and let go, as a hand does, and wait for the exact state."""
        with self.page.expect_response(re.compile("/state")):
            self.page.locator("input[name=filling]").fill(str(filling))


@contextmanager
def on_a_port(desk: Desk, *, ahead: bool = False) -> Generator[tuple[Desk, str, Keys]]:
    """Serve a boat on a port of this machine.

    Args:
        desk: The boat.
        ahead: Whether what may be pressed next is worked out ahead, as the program does it. It
            takes a third of a test's time, and shows the same: it is tried where haste is.
    """
    keys = Keys()
    with socket.create_server(("127.0.0.1", 0)) as listening:
        host = f"127.0.0.1:{listening.getsockname()[1]}"
        config = uvicorn.Config(app(desk, host, keys), log_level="error", lifespan="off", ws="none")
        server = uvicorn.Server(config)
        threads = [threading.Thread(target=server.run, args=([listening],))]
        if ahead:
            threads.append(threading.Thread(target=foresee, args=(desk,)))
        for thread in threads:
            thread.start()
        try:
            yield desk, host, keys
        finally:
            server.should_exit = True
            desk.end()
            for thread in threads:
                thread.join()


def entered(browser: Browser, served: tuple[Desk, str, Keys], **looks: object) -> Seen:
    """Return the page opened in a new profile."""
    desk, host, keys = served
    page = browser.new_context(**{"viewport": WIDE} | looks).new_page()  # type: ignore[arg-type]
    seen = Seen(page=page, desk=desk, host=host, home=f"http://{host}{keys.root}")
    page.on("pageerror", lambda error: seen.wrong.append(str(error)))
    page.on("console", lambda m: m.type in ("error", "warning") and seen.wrong.append(m.text))
    page.on("request", lambda asked: _foreign(asked.url, host, seen.wrong))
    page.goto(f"http://{host}{keys.root}/")
    page.locator("svg.scene[viewBox]").wait_for()
    return seen


def _foreign(url: str, host: str, wrong: list[str]) -> None:
    if urlsplit(url).netloc != host and not url.startswith("data:"):
        wrong.append(f"asked {url}")


AXE = (Path(__file__).parents[1] / "data" / "axe.min.js").read_text("utf-8")
ASKED = """async () => (await axe.run({ runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa",
  "wcag22aa", "best-practice"] })).violations.map((one) =>
  `${one.id}: ${one.help}: ${one.nodes.map((node) => node.html.slice(0, 120))}`)"""
