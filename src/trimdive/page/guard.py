"""The guard in front of the page: only this machine, only this page, only who has the key.

The key is the first part of every address. A cookie would be sent to every other server on this
machine too, whatever its port, and whoever has it may write; an address is sent to nobody else.
Other pages in the same browser, other users of the machine and names that only look like this
machine are turned away before anything else is done.
"""

import secrets
import sys
from dataclasses import dataclass, field
from traceback import extract_tb

from starlette.datastructures import Headers, MutableHeaders
from starlette.requests import ClientDisconnect
from starlette.responses import PlainTextResponse, RedirectResponse
from starlette.types import ASGIApp, Message, Receive, Scope, Send

LARGEST = 256 * 1024  # what a form of the page may hold [bytes]
LARGEST_FILE = 256 * 2**20  # what a file dropped on the page may hold [bytes]
FORMS = ("/act", "/edit", "/trace")
READING = ("GET", "HEAD")
POLICY = (
    "default-src 'self'; script-src 'self'; style-src 'self' 'unsafe-inline'; "
    "img-src 'self' data: blob:; connect-src 'self'; frame-ancestors 'none'; "
    "base-uri 'none'; form-action 'self'; object-src 'none'"
)
HEADERS = {
    "content-security-policy": POLICY,
    "x-content-type-options": "nosniff",
    "referrer-policy": "same-origin",  # with "no-referrer" own forms would name no origin
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "cache-control": "no-store",
}


class TooLargeError(Exception):
    """More was sent than the page ever asks for."""


@dataclass(frozen=True, slots=True)
class Keys:
    """The key of one run of the page."""

    page: str = field(default_factory=lambda: secrets.token_urlsafe(24))

    @property
    def root(self) -> str:
        """Return what every address of the page begins with."""
        return f"/{self.page}"

    def opens(self, path: str) -> bool:
        """Return whether an address begins with the key."""
        first = path.removeprefix("/").partition("/")[0]
        return secrets.compare_digest(first.encode(), self.page.encode())


@dataclass(frozen=True, slots=True)
class Guard:
    """What stands in front of the page."""

    app: ASGIApp
    host: str  # own host and port
    keys: Keys

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Let a request through, or turn it away."""
        if scope["type"] == "lifespan":
            await self.app(scope, receive, send)
            return
        if scope["type"] != "http":
            await send({"type": "websocket.close", "code": 1008})
            return
        headers, path = Headers(scope=scope), scope["path"].removeprefix(self.keys.root)
        most = LARGEST if path in FORMS else LARGEST_FILE
        is_door = path == "/" and scope["method"] == "GET"
        answer = self.refused(scope["method"], headers, most, is_door=is_door)
        answer = answer or self.locked(scope["path"])
        if answer is not None:
            await answer(scope, receive, _marked(send))
            return
        inner = {**scope, "root_path": self.keys.root}
        try:
            await self.app(inner, _limited(receive, most), _marked(send))
        except ClientDisconnect:
            return  # who asked has gone; there is nobody to answer
        except Exception as error:
            _note(scope["path"].removeprefix(self.keys.root), error)

    def refused(
        self, method: str, headers: Headers, most: int = LARGEST, *, is_door: bool = False
    ) -> PlainTextResponse | None:
        """Return why a request is refused for where it comes from or how large it is, or None.

        Args:
            method: Such as "GET".
            headers: Of the request.
            most: What it may hold [bytes].
            is_door: It asks for the page itself, as the file does that opens the browser.
        """
        origins, sites = headers.getlist("origin"), headers.getlist("sec-fetch-site")
        if len(origins) > 1 or len(sites) > 1:
            return _refusal(403, "Another page asked for this; it is refused.")
        origin, site = (origins or [None])[0], (sites or [None])[0]
        is_opened = is_door and headers.get("sec-fetch-mode") == "navigate"
        if headers.getlist("host") != [self.host]:
            return _refusal(400, f"This page answers at http://{self.host} only.")
        if origin is not None and origin != f"http://{self.host}":
            return _refusal(403, "Another page asked for this; it is refused.")
        if site not in (None, "same-origin", "none") and not is_opened:
            return _refusal(403, "Another page asked for this; it is refused.")
        if method not in READING and site != "same-origin" and origin is None:
            return _refusal(403, "Only the page itself may change the boat.")
        length = headers.get("content-length", "0")
        if not length.isdecimal() or int(length) > most:
            return too_large()
        return None

    def locked(self, path: str) -> PlainTextResponse | RedirectResponse | None:
        """Return None for who has the key, else a refusal; the door, where its slash is missing."""
        if not self.keys.opens(path):
            return _refusal(403, "Open the page by the whole address that the terminal shows.")
        return RedirectResponse(f"{path}/", status_code=303) if path == self.keys.root else None


def _note(path: str, error: Exception) -> None:
    """Say in the terminal in one line what went wrong, for whoever looks after the program."""
    last = [*extract_tb(error.__traceback__)][-1:]
    at = f" at {last[0].name}:{last[0].lineno}" if last else ""
    sys.stderr.write(f"page {path}: {type(error).__name__}{at}\n")


def _refusal(status: int, text: str) -> PlainTextResponse:
    return PlainTextResponse(text + "\n", status_code=status)


def too_large() -> PlainTextResponse:
    """Return the refusal of what is larger than anything the page asks for."""
    return _refusal(413, "That is more than this page ever asks for.")


def _marked(send: Send) -> Send:
    """Return a sender that puts the guard's headers on every answer."""

    async def marked(message: Message) -> None:
        if message["type"] == "http.response.start":
            MutableHeaders(scope=message).update(HEADERS)
        await send(message)

    return marked


def _limited(receive: Receive, most: int) -> Receive:
    """Return a receiver that stops at too large a body, whatever its length was said to be."""
    taken = 0

    async def limited() -> Message:
        nonlocal taken
        message = await receive()
        taken += len(message.get("body", b""))
        if taken > most:
            raise TooLargeError
        return message

    return limited
