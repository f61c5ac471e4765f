"""Serves the page: a free port of this machine, the address told, the browser opened."""

import asyncio
import os
import socket
import sys
import tempfile
import threading
import webbrowser
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

import uvicorn
from uvicorn.protocols.http.h11_impl import H11Protocol

from trimdive.errors import BoatFileError, TrimdiveError, fence
from trimdive.page.app import app
from trimdive.page.desk import Desk, Note, opened
from trimdive.page.guard import Keys
from trimdive.page.memory import settled
from trimdive.page.shelf import USUAL, Shelf
from trimdive.page.workshop import Workshop

__all__ = ["USUAL", "laid_out", "serve", "workshop_at"]

HERE = "127.0.0.1"
SILENT = 10.0  # how long a whole question is waited for [s]
CONNECTIONS = 300  # open at one time; a browser needs six [-]
LOOK = "Open the file in an editor and check the figures changed last."
DOOR = (
    '<!doctype html><meta charset="utf-8"><title>trimdive</title>'
    '<meta http-equiv="refresh" content="0;url={address}"><a href="{address}">To the page</a>\n'
)  # no letter of an address needs a sign of its own in HTML
TEXT_BROWSERS = ("www-browser", "links", "elinks", "lynx", "w3m")


def laid_out(file: Path) -> Desk:
    """Return a boat file, opened, with everything that the page shows of it.

    Raises:
        TrimdiveError: It, or a file beside it, holds a mistake.
    """
    with fence("she cannot be calculated", str(file), LOOK):
        desk = opened(file)
        desk.shown.at_once()
    with suppress(Exception):  # what remains of each finding is told when it can be
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

    Where no boat on the shelf can be opened, a demo boat is put beside them.

    Raises:
        TrimdiveError: The shelf cannot be written.
    """
    last = shelf.begin()
    try:
        return laid_out(last)
    except TrimdiveError as error:
        note = Note(kind="refused", text=f"{last.parent.name} was not opened. {error}")
    for name in shelf.names():
        with suppress(TrimdiveError):
            desk = laid_out(shelf.file_of(name))
            desk.note = note
            return desk
    desk = laid_out(shelf.put_demo())
    desk.note = note
    return desk


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
    with settled(), _listening(port) as listening:
        host = f"{HERE}:{listening.getsockname()[1]}"
        keys = Keys()
        address = f"http://{host}{keys.root}/"
        workshop = boat if isinstance(boat, Workshop) else Workshop(desk=boat)
        ahead = threading.Thread(target=workshop.foresee)
        ahead.start()
        server = _Server(app(workshop, host, keys), lambda: tell(address))
        door = Door(address, workshop.shelf.folder if workshop.shelf else None)
        if browser:
            server.then = door.opened
        try:
            asyncio.run(server.serve([listening]))
        except KeyboardInterrupt:
            pass
        finally:
            door.shut()
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


class Impatient(H11Protocol):
    """What speaks with one browser, and leaves whoever asks for nothing."""

    begun: float = 0.0  # when it was connected, by the loop's clock [s]

    def connection_made(self, transport: asyncio.Transport) -> None:  # type: ignore[override]
        """Wait so long for a whole question; where too many wait, leave the one silent longest."""
        super().connection_made(transport)
        self.begun = float(self.loop.time())
        self.loop.call_later(SILENT, self._leave)
        if len(self.connections) > CONNECTIONS:
            others = [one for one in self.connections if isinstance(one, Impatient)]
            silent = [one for one in others if one.is_silent]
            min(silent or [self], key=_since).transport.abort()

    @property
    def is_silent(self) -> bool:
        """Return whether nothing was asked yet."""
        asked: object = getattr(self, "cycle", None)  # None until there is one
        return asked is None and not self.transport.is_closing()

    def _leave(self) -> None:
        if self.is_silent:
            self.transport.abort()


def _since(one: Impatient) -> float:
    """Return when one was connected, by the loop's clock [s]."""
    return float(one.begun)


class _Server(uvicorn.Server):
    """A server that tells when it answers, and is quiet else."""

    def __init__(self, page: object, ready: Callable[[], None]) -> None:
        super().__init__(
            uvicorn.Config(
                page,  # pyright: ignore[reportArgumentType] - an ASGI application
                log_level="error",
                access_log=False,
                http=Impatient,
                backlog=128,
                lifespan="off",
                ws="none",
                server_header=False,
                timeout_graceful_shutdown=1,
            )
        )
        self.ready = ready
        self.then: Callable[[], object] = lambda: None

    async def startup(self, sockets: list[socket.socket] | None = None) -> None:
        """Begin to answer, and say so."""
        await super().startup(sockets)
        self.ready()
        threading.Thread(target=self.then, daemon=True).start()


class Door:
    """A file that leads the browser to the page.

    A browser's own command line can be read by every user of the machine, and with it any address
    on it. This file may be read by its owner alone, and is gone when the page ends.
    """

    def __init__(self, address: str, folder: Path | None) -> None:
        """Keep where it leads, and the folder it may lie in, so that any browser can reach it."""
        self.address, self.folder = address, folder
        self.file: Path | None = None

    def opened(self) -> bool:
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
            if getattr(found, "name", "") in TEXT_BROWSERS:
                return False
            return found.open(self._written().as_uri())
        except (webbrowser.Error, OSError):
            return False

    def _written(self) -> Path:
        """Write the file; ``mkstemp`` gives it rights for its owner alone."""
        folder = self.folder if self.folder and self.folder.is_dir() else None
        handle, name = tempfile.mkstemp(prefix="open-", suffix=".html", dir=folder)
        self.file = Path(name)
        with os.fdopen(handle, "w", encoding="utf-8") as stream:
            stream.write(DOOR.format(address=self.address))
        return self.file.resolve()

    def shut(self) -> None:
        """Take the file away."""
        if self.file is not None:
            with suppress(OSError):
                self.file.unlink(missing_ok=True)
