"""Serves the page: a free port of this machine, the address told, the browser opened."""

import asyncio
import os
import socket
import sys
import threading
import webbrowser
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

import uvicorn

from trimdive.errors import BoatFileError, TrimdiveError
from trimdive.page.app import app
from trimdive.page.desk import Desk, Note, opened
from trimdive.page.guard import Keys
from trimdive.page.shelf import USUAL, Shelf
from trimdive.page.workshop import Workshop

__all__ = ["USUAL", "laid_out", "serve", "workshop_at"]

HERE = "127.0.0.1"
TEXT_BROWSERS = ("www-browser", "links", "elinks", "lynx", "w3m")


def laid_out(file: Path) -> Desk:
    """Return a boat file, opened, with everything that the page shows of it.

    Raises:
        TrimdiveError: It, or a file beside it, holds a mistake.
    """
    desk = opened(file)
    desk.shown.ready()
    return desk


def workshop_at(shelf: Path, boat: Path | None) -> Workshop:
    """Return the workshop: the boat that was named, or the one worked on last.

    Args:
        shelf: Folder of boats; made where it is not there yet and no boat is named.
        boat: A boat file; None: the boat worked on last, or the first one of a new shelf.

    Raises:
        TrimdiveError: She, or a file beside her, holds a mistake, or the shelf cannot be made.
    """
    place = Shelf(shelf)
    if boat is not None:
        found = Workshop(desk=laid_out(boat), shelf=place)
    else:
        found = Workshop(desk=_begun(place), shelf=place)
    found.desk.is_keeping = True
    found.remember()
    return found


def _begun(shelf: Shelf) -> Desk:
    """Return the boat worked on last; where she cannot be opened, another, and why.

    Raises:
        TrimdiveError: No boat can be opened.
    """
    last = shelf.begin()
    try:
        return laid_out(last)
    except TrimdiveError as error:
        for name in shelf.names():
            with suppress(TrimdiveError):
                desk = laid_out(shelf.file_of(name))
                desk.note = Note(kind="refused", text=f"{last.parent.name} was not opened. {error}")
                return desk
        raise


def serve(
    boat: Desk | Workshop, tell: Callable[[str], None], *, port: int = 0, browser: bool = True
) -> int:
    """Serve the page of a boat until it is ended; return how many changes were not saved.

    Args:
        boat: The boat, alone or with the others on the shelf.
        tell: Told the address, when it answers.
        port: To serve at; 0: any that is free.
        browser: Open the browser, where there is one.

    Raises:
        BoatFileError: The port is taken.
    """
    with _listening(port) as listening:
        host = f"{HERE}:{listening.getsockname()[1]}"
        keys = Keys()
        address = f"http://{host}/?token="
        workshop = boat if isinstance(boat, Workshop) else Workshop(desk=boat)
        ahead = threading.Thread(target=workshop.foresee)
        ahead.start()
        server = _Server(app(workshop, host, keys), lambda: tell(address + keys.printed))
        if browser:
            server.then = lambda: _open(address + keys.once)
        try:
            asyncio.run(server.serve([listening]))
        except KeyboardInterrupt:
            pass
        finally:
            workshop.end()
            ahead.join()
    desk = workshop.desk
    desk.keep()
    return abs(desk.at - desk.saved) if desk.saved >= 0 else desk.at or 1


def _listening(port: int) -> socket.socket:
    try:
        return socket.create_server((HERE, port))
    except OSError as error:
        what = (error.strerror or "it cannot be served at").lower()
        mend = "Leave it out: any free one is taken."
        raise BoatFileError(what, f"--port {port}", mend) from None


class _Server(uvicorn.Server):
    """A server that tells when it answers, and is quiet else."""

    def __init__(self, page: object, told: Callable[[], None]) -> None:
        super().__init__(
            uvicorn.Config(
                page,  # pyright: ignore[reportArgumentType] - an ASGI application
                log_level="error",
                access_log=False,
                lifespan="off",
                ws="none",
                server_header=False,
                timeout_graceful_shutdown=1,
            )
        )
        self.told = told
        self.then: Callable[[], object] = lambda: None

    async def startup(self, sockets: list[socket.socket] | None = None) -> None:
        """Begin to answer, and say so."""
        await super().startup(sockets)
        self.told()
        threading.Thread(target=self.then, daemon=True).start()


def _open(address: str) -> bool:
    """Open the browser, where there is one that shows pictures; return whether it was."""
    has_screen = (
        sys.platform in ("win32", "darwin")
        or os.environ.get("DISPLAY")
        or os.environ.get("WAYLAND_DISPLAY")
        or os.environ.get("BROWSER")
    )
    if not has_screen:
        return False
    try:
        found = webbrowser.get()
        return getattr(found, "name", "") not in TEXT_BROWSERS and found.open(address)
    except (webbrowser.Error, OSError):
        return False
