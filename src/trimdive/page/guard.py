"""The guard in front of the page: only this machine, only this page, only who has the key.

Other pages in the same browser, other users of the machine and names that only look like this
machine are turned away before anything else is done.
"""

import secrets
from dataclasses import dataclass, field
from http.cookies import CookieError, SimpleCookie
from urllib.parse import parse_qs

from starlette.datastructures import Headers, MutableHeaders
from starlette.responses import PlainTextResponse, RedirectResponse
from starlette.types import ASGIApp, Message, Receive, Scope, Send

LARGEST = 256 * 1024  # what a form of the page may hold [bytes]
LARGEST_FILE = 256 * 2**20  # what a file dropped on the page may hold [bytes]
FORMS = ("/act", "/edit")
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


def _key() -> str:
    return secrets.token_urlsafe(24)


@dataclass(slots=True)
class Keys:
    """The keys of one run of the page.

    The browser is opened with a key of its own that opens once: whoever sees it later in a list
    of running programs has no use for it.
    """

    printed: str = field(default_factory=_key)  # in the address on the terminal
    once: str = field(default_factory=_key)  # in the address that opens the browser
    cookie: str = field(default_factory=_key)  # what the browser keeps then

    def opens(self, token: str) -> bool:
        """Return whether a token from an address is a key; the one for once is then spent."""
        if self.once and _same(token, self.once):
            self.once = ""
            return True
        return _same(token, self.printed)


def _same(one: str, other: str) -> bool:
    return secrets.compare_digest(one.encode(), other.encode())


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
        headers = Headers(scope=scope)
        most = LARGEST if scope["path"] in FORMS else LARGEST_FILE
        answer = self.refused(scope["method"], headers, most) or self.unlocked(scope, headers)
        if answer is not None:
            await answer(scope, receive, _marked(send))
            return
        await self.app(scope, _limited(receive, most), _marked(send))

    def refused(
        self, method: str, headers: Headers, most: int = LARGEST
    ) -> PlainTextResponse | None:
        """Return why a request is refused for where it comes from or how large it is, or None."""
        origin, site = headers.get("origin"), headers.get("sec-fetch-site")
        if headers.getlist("host") != [self.host]:
            return _told(400, f"This page answers at http://{self.host} only.")
        if origin is not None and origin != f"http://{self.host}":
            return _told(403, "Another page asked for this; it is refused.")
        if site not in (None, "same-origin", "none"):
            return _told(403, "Another page asked for this; it is refused.")
        if method not in READING and site != "same-origin" and origin is None:
            return _told(403, "Only the page itself may change the boat.")
        length = headers.get("content-length", "0")
        if not length.isdecimal() or int(length) > most:
            return too_large()
        return None

    @property
    def cookie(self) -> str:
        """Return the name of the cookie: one a port, since cookies do not tell ports apart."""
        return f"trimdive-{self.host.rpartition(':')[2]}"

    def unlocked(
        self, scope: Scope, headers: Headers
    ) -> PlainTextResponse | RedirectResponse | None:
        """Return None for who has the cookie, the cookie for who has a key, else a refusal."""
        if _same(_cookie(headers, self.cookie), self.keys.cookie):
            return None
        asked = parse_qs(scope["query_string"].decode("latin-1")).get("token", [""])[0]
        if scope["method"] == "GET" and asked and self.keys.opens(asked):
            answer = RedirectResponse("/", status_code=303)
            answer.set_cookie(self.cookie, self.keys.cookie, httponly=True, samesite="strict")
            return answer
        return _told(403, "Open the page by the whole address that the terminal shows.")


def _cookie(headers: Headers, name: str) -> str:
    try:
        found = SimpleCookie(headers.get("cookie", "")).get(name)
    except CookieError:
        return ""
    return found.value if found else ""


def _told(status: int, text: str) -> PlainTextResponse:
    return PlainTextResponse(text + "\n", status_code=status)


def too_large() -> PlainTextResponse:
    """Return the refusal of what is larger than anything the page asks for."""
    return _told(413, "That is more than this page ever asks for.")


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
