"""Requests that no page of ours would send: none changes anything, tells anything, or breaks.

Each is sent to a boat on a shelf; afterwards every file is as it was, byte for byte, and so is the
boat on the page. What a server can see of a request is RFC 9110 (Host), RFC 6454 (Origin) and Fetch
Metadata; what may not be in one is RFC 9112. ``python -m tests.hard.forged``
"""

import io
import json
import socket
import tempfile
import threading
import warnings
import zipfile
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import product
from pathlib import Path
from urllib.parse import quote, urlsplit

from tests.hard.boats import table_of, text_of
from tests.hard.served import served
from tests.loops import in_a_loop

from trimdive.page.app import app
from trimdive.page.guard import LARGEST, Guard, Keys
from trimdive.page.serving import workshop_at
from trimdive.page.shelf import Shelf
from trimdive.page.workshop import Workshop

HOST = "127.0.0.1:8123"
SELF = f"http://{HOST}"
FORM = "application/x-www-form-urlencoded"
PAGE = {"host": HOST, "origin": SELF, "sec-fetch-site": "same-origin", "content-type": FORM}
SAVE = b"field=part[2].mass&typed=77+g&revision=1&place=scales"
SECRETS = (b"Sprat", b"battery", b"fore tank")
Headers = list[tuple[str, str]]


@dataclass(frozen=True)
class Forged:
    """A request, and whether an answer to it may show the boat."""

    kind: str
    method: str
    path: str  # "{key}" stands for the key
    headers: Headers
    body: bytes = b""
    may_show: bool = False  # it has the key, and asks in the page's own way for what is not right
    query: str = ""


@dataclass
class Figures:
    """What came out of a run."""

    tried: Counter[str] = field(default_factory=Counter)
    answers: Counter[int] = field(default_factory=Counter)
    wrong: list[str] = field(default_factory=list)


def _with(**changes: str | None) -> Headers:
    """Return the page's own headers with some changed, or left out."""
    found = {**PAGE, **{key.replace("_", "-"): value for key, value in changes.items()}}
    return [(key, value) for key, value in found.items() if value is not None]


HOSTS = (
    "evil.example", "localhost:8123", "127.0.0.1", "127.0.0.1:8124", "127.0.0.1.evil.example:8123",
    "evil.example:8123", "[::1]:8123", "0.0.0.0:8123", "127.1:8123", "2130706433:8123",
    "127.0.0.1:8123@evil.example", "127.0.0.1:08123", " 127.0.0.1:8123", "127.0.0.1:8123.", "",
)  # fmt: skip
ORIGINS = (
    "http://evil.example", "null", "http://127.0.0.1:8124", f"https://{HOST}", "http://127.0.0.1",
    f"http://{HOST}.evil.example", f"http://evil.example/{SELF}", f"{SELF}/", f"{SELF} evil", "",
    "file://", "http://localhost:8123", f"HTTP://{HOST}", "http://[::1]:8123", f"{SELF},{SELF}",
)  # fmt: skip
POSTS = (("/act", b"act=save&revision=1"), ("/edit", SAVE), ("/shelf/in", b"format = 1"))
READS = ("/", "/state", "/shelf", "/shelf/boat?which=sprat", "/static/page.js", "/pond/phone")


def _doors() -> Iterator[Forged]:
    """Yield requests from another name, another origin, or with one of these twice."""
    for host, (path, body) in product(HOSTS, (*POSTS, ("/", b""))):
        yield Forged("host", "POST" if body else "GET", "{key}" + path, _with(host=host), body)
    for origin, (path, body) in product(ORIGINS, POSTS):
        yield Forged("origin", "POST", "{key}" + path, _with(origin=origin), body)
    for site, (path, body) in product(("cross-site", "same-site", "none", "x", ""), POSTS):
        one = _with(origin=None, sec_fetch_site=site)
        yield Forged("fetch site", "POST", "{key}" + path, one, body)
    for path, body in POSTS:
        yield Forged(
            "no origin", "POST", "{key}" + path, _with(origin=None, sec_fetch_site=None), body
        )
    twice = (("host", HOST), ("host", "evil.example"), ("origin", SELF), ("origin", "null"),
             ("sec-fetch-site", "same-origin"), ("sec-fetch-site", "cross-site"))  # fmt: skip
    for header, (path, body) in product(twice, POSTS):
        yield Forged("header twice", "POST", "{key}" + path, [*_with(), header], body)
        yield Forged("header twice", "POST", "{key}" + path, [header, *_with()], body)
    for path in READS:
        one = _with(origin=None, sec_fetch_site="cross-site")
        yield Forged("read by another page", "GET", "{key}" + path, one)


def _keys(key: str, other: str) -> Iterator[Forged]:
    """Yield requests without the key, or with something like it somewhere else."""
    starts = (
        "", "/", "//", f"/{other}", f"/{key[:-1]}", f"/{key}x", f"/{key.swapcase()}", f"/ {key}",
        f"/x/{key}", f"/{key}%00", f"/%2f{key}", f"/{key};x", f"/{key}\\", f"/.{key}",
    )  # fmt: skip
    for start, (path, body) in product(starts, POSTS):
        yield Forged("wrong key", "POST", start + path, _with(), body)
    for start, path in product(starts[:8], READS):
        yield Forged("wrong key", "GET", start + path, _with())
    held: tuple[tuple[str, str], ...] = (
        ("cookie", f"trimdive={key}"), ("cookie", f"trimdive-8123={key}; key={key}"),
        ("authorization", f"Bearer {key}"), ("x-key", key), ("referer", f"{SELF}/{key}/"),
        ("x-original-url", f"/{key}/"), ("x-forwarded-prefix", f"/{key}"),
    )  # fmt: skip
    for header, (path, body) in product(held, POSTS):
        yield Forged("key elsewhere", "POST", path, [*_with(), header], body)
        yield Forged("key elsewhere", "POST", path, _with(), body, query=f"token={key}&key={key}")


def _methods() -> Iterator[Forged]:
    """Yield methods that the page does not know, and known ones where they do not belong."""
    paths = ("/", "/act", "/edit", "/shelf/in", "/state", "/static/page.js", "/shelf")
    names = ("PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "CONNECT", "PROPFIND", "post", "GETX")
    for method, path in product(names, paths):
        yield Forged("method", method, "{key}" + path, _with(), SAVE, may_show=method == "post")
    for path, body in POSTS:
        where = urlsplit(f"{path}?{body.decode()}")
        yield Forged(
            "a change by GET",
            "GET",
            "{key}" + where.path,
            _with(),
            may_show=True,
            query=where.query,
        )


def _bodies() -> Iterator[Forged]:
    """Yield forms that the page would not fill in so."""
    odd = (
        b"", b"&&&&", b"=", b"%", b"%zz=%zz", b"\xff\xfe\x00", b"\0" * 100, b"a=b" * 5000,
        b"&".join(b"x%d=1" % k for k in range(9000)), b"revision=1", b"revision=2&act=undo",
        b"revision=" + b"9" * 5000 + b"&act=undo", b"revision=-1&act=undo", b"revision=1&act=",
        b"revision=1&act=nothing", b"revision=1&act=do+x", b"revision=1&act=move",
        b"revision=1&act=move+part[99]&move_x=1", b"revision=1&act=move+part[1]&move_x=nan",
        b"revision=1&act=move+part[1]&move_x=1e999&place_x=%00", b"revision=1&act=shelf",
        b"revision=1&act=board+cell+1+2", b"revision=1&act=board+cell+9+9+9&cell=1",
        b"revision=1&act=tub+put-in", b"revision=1&act=scales+take-over", b"revision=1&act=%1b[2J",
        b"revision=1&field=&typed=", b"revision=1&field=part[1]&typed=3",
        b"revision=1&field=part[0].mass&typed=3+g", b"revision=1&field=..&typed=3",
        b"revision=1&field=part[1].mass&typed=" + b"9" * 5000, b"revision=1&field=[[&typed=]]",
        b"revision=1&field=part[1].mass&typed=%00", b"revision=1&field=name&typed=%1b[31m",
        b"revision=1&field=part[999999999999].mass&typed=1+g", b"y" * (LARGEST + 1),
    )  # fmt: skip
    for body, path in product(odd, ("/act", "/edit")):
        yield Forged("body", "POST", "{key}" + path, _with(), body, may_show=True)
    for kind in ("application/json", "multipart/form-data", "text/plain", "", "a/b; charset=utf-7"):
        body = json.dumps({"act": "save", "revision": "1"}).encode()
        yield Forged("kind", "POST", "{key}/act", _with(content_type=kind), body, may_show=True)
    for length in ("-1", "1e9", "x", "0x10", "99999999999999999999", str(LARGEST + 1), "1,1"):
        one = [*_with(), ("content-length", length)]
        yield Forged("length", "POST", "{key}/edit", one, b"", may_show=True)


OUT = ("../../etc/passwd", "..", "/etc/passwd", "sprat/../../x", "..%2f..%2fx", "C:\\x", ".", "",
       "\0", "linked", "sprat/", "boat.toml", "%2e%2e", "~", "a" * 5000)  # fmt: skip

PLAIN = ("linked", "%2e%2e", "~")  # in a zip, names as good as any


def _paths() -> Iterator[Forged]:
    """Yield names that lead out of where they should."""
    for name in OUT:
        answer = quote(name, safe="")
        for place in ("/static/", "/shelf/", "/", "/pond/", "/static/places/"):
            yield Forged(
                "path", "GET", "{key}" + place + answer, _with(), may_show=name in ("", ".")
            )
        yield Forged(
            "path", "GET", "{key}/shelf/boat", _with(), may_show=True, query=f"which={answer}"
        )
        for act in ("shelf open ", "shelf take-variant ", "shelf version "):
            body = f"revision=1&place=shelf&act={quote(act)}{answer}".encode()
            yield Forged("path", "POST", "{key}/act", _with(), body, may_show=True)
        if name in PLAIN:
            continue
        packed = io.BytesIO()
        with zipfile.ZipFile(packed, "w") as book, warnings.catch_warnings():
            warnings.simplefilter("ignore")  # one name twice
            book.writestr("boat.toml", text_of(0).replace("lines.csv", name or "x"))
            book.writestr(name.replace("\0", "") or "x", table_of(0))
        one = [*_with(), ("x-name", quote(f"{name}.zip"))]
        data, query = packed.getvalue(), "revision=1&place=shelf"
        yield Forged("zip", "POST", "{key}/shelf/in", one, data, may_show=True, query=query)


RAW = (
    b"GET / HTTP/1.1\r\n\r\n", b"GET / HTTP/1.0\r\n\r\n", b"GET /\r\n\r\n", b"\r\n\r\n\r\n",
    b"\0" * 64,
    b"GET http://evil.example/ HTTP/1.1\r\nHost: {host}\r\n\r\n", b"\x16\x03\x01\x02\x00\x01\x00",
    b"POST {key}/act HTTP/1.1\r\nHost: {host}\r\nOrigin: http://{host}\r\nContent-Length: 5\r\n"
    b"Content-Length: 6\r\n\r\nact=x",
    b"POST {key}/act HTTP/1.1\r\nHost: {host}\r\nOrigin: http://{host}\r\nContent-Length: 5\r\n"
    b"Transfer-Encoding: chunked\r\n\r\n0\r\n\r\nGET / HTTP/1.1\r\n\r\n",
    b"POST {key}/act HTTP/1.1\r\nHost: {host}\r\nOrigin: http://{host}\r\n"
    b"Transfer-Encoding: chunked\r\n\r\nzz\r\n",
    b"GET {key}/ HTTP/1.1\r\nHost: {host}\r\nX: " + b"y" * 200_000 + b"\r\n\r\n",
    b"GET {key}/ HTTP/1.1\r\nHost: {host}\r\n" + b"X: y\r\n" * 20_000 + b"\r\n",
    b"GET {key}/" + b"a" * 100_000 + b" HTTP/1.1\r\nHost: {host}\r\n\r\n",
    b"GET {key}/ HTTP/1.1\r\nHost: {host}\r\nHost: evil.example\r\n\r\n",
    b"GET {key}/ HTTP/1.1\r\nHost: {host}\r\n Origin: x\r\n\r\n",
    b"GET {key}/ HTTP/1.1\r\nHost : {host}\r\n\r\n", b"GET {key}/ HTTP/1.1\nHost: evil\n\n",
    b"GET {key}/ HTTP/9.9\r\nHost: {host}\r\n\r\n",
    b"GET {key}/\x00 HTTP/1.1\r\nHost: {host}\r\n\r\n",
    b"GET {key}/\xff\xfe HTTP/1.1\r\nHost: {host}\r\n\r\n",
    b"PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n", b"OPTIONS * HTTP/1.1\r\nHost: {host}\r\n\r\n",
    b"GET {key}/ HTTP/1.1\r\nHost: {host}\r\nUpgrade: websocket\r\nConnection: Upgrade\r\n"
    b"Sec-WebSocket-Key: x\r\nSec-WebSocket-Version: 13\r\nOrigin: http://evil.example\r\n\r\n",
    b"GET {key}/ HTTP/1.1\r\nHost: {host}\r\nExpect: 100-continue\r\nOrigin: null\r\n\r\n",
)  # fmt: skip


def everything(key: str, other: str) -> list[Forged]:
    """Return all requests that go to the page itself."""
    return [*_doors(), *_keys(key, other), *_methods(), *_bodies(), *_paths()]


def _asked(page: Guard, one: Forged, key: str) -> tuple[int, bytes]:
    """Send a request as a server hands it on; return status and answer."""
    path, _, query = one.path.replace("{key}", f"/{key}").partition("?")
    length = [] if any(name == "content-length" for name, _ in one.headers) else [
        ("content-length", str(len(one.body)))
    ]  # fmt: skip
    sent: list[dict[str, object]] = []
    scope = {
        "type": "http", "asgi": {"version": "3.0"}, "http_version": "1.1", "scheme": "http",
        "method": one.method, "path": path, "raw_path": path.encode(), "root_path": "",
        "query_string": (query or one.query).encode(), "client": ("127.0.0.1", 9),
        "headers": [(a.encode(), b.encode("latin-1")) for a, b in [*one.headers, *length]],
    }  # fmt: skip

    async def receive() -> dict[str, object]:
        return {"type": "http.request", "body": one.body, "more_body": False}

    async def send(message: dict[str, object]) -> None:
        sent.append(message)

    in_a_loop(page(scope, receive, send))  # type: ignore[arg-type]
    status = sent[0]["status"]
    body = b"".join(bytes(each.get("body", b"")) for each in sent[1:])  # type: ignore[call-overload]
    assert isinstance(status, int)
    return status, body


def _files(folder: Path) -> dict[str, bytes]:
    return {str(one): one.read_bytes() for one in sorted(folder.rglob("*")) if one.is_file()}


def shelf_in(home: Path) -> Workshop:
    """Return a shelf with a boat and with links that lead out of it."""
    shelf, outside = Shelf(home / "shelf"), home / "outside"
    file = shelf.put("Sprat", text_of(0), {"lines.csv": table_of(0)})
    outside.mkdir()
    (outside / "boat.toml").write_text(text_of(5), "utf-8")
    (outside / "lines.csv").write_bytes(table_of(5))
    (shelf.folder / "linked").symlink_to(outside)
    (shelf.folder / "half").mkdir()
    (shelf.folder / "half" / "boat.toml").symlink_to(outside / "boat.toml")
    return workshop_at(shelf.folder, file)


def run(part: int = 1) -> Figures:
    """Send every so manieth of them, and look at what came of each."""
    found, keys, other = Figures(), Keys(), Keys()
    with tempfile.TemporaryDirectory() as home:
        workshop = shelf_in(Path(home))
        page, before = app(workshop, HOST, keys), _files(Path(home))
        desk = workshop.desk
        for one in everything(keys.page, other.page)[::part]:
            desk.kept.clear()
            says = f"{one.kind}: {one.method} {one.path[:60]!r} {one.headers[:5]} {one.body[:60]!r}"
            try:
                status, body = _asked(page, one, keys.page)
            except Exception as error:
                found.wrong.append(f"{type(error).__name__} of {says}")
                continue
            found.tried[one.kind] += 1
            found.answers[status] += 1
            if status >= 500 or (not one.may_show and not 400 <= status < 500):
                found.wrong.append(f"{status} to {says}")
            if not one.may_show and any(
                secret in body for secret in (*SECRETS, keys.page.encode())
            ):
                found.wrong.append(f"told something: {says}")
            if (desk.at, desk.revision, workshop.desk is desk) != (0, 1, True):
                found.wrong.append(f"the boat was changed by {says}")
                workshop.desk = desk
                desk.at, desk.revision = 0, 1
            if (after := _files(Path(home))) != before:
                found.wrong.append(f"files were changed by {says}: {sorted({*after} ^ {*before})}")
                before = after
    return found


def run_raw(found: Figures) -> None:
    """Send what is no request at all to a page that is served; it goes on answering."""
    with tempfile.TemporaryDirectory() as home:
        shelf = Shelf(Path(home) / "shelf")
        shelf.remember_last(shelf.put("Sprat", text_of(0), {"lines.csv": table_of(0)}))
        before = _files(shelf.folder / "sprat")
        with served(shelf.folder) as server:
            parts = urlsplit(server.address)
            own = (parts.netloc.encode(), parts.path.rstrip("/").encode())
            for raw in RAW:
                answer = _raw(
                    parts.port or 0, raw.replace(b"{host}", own[0]).replace(b"{key}", own[1])
                )
                found.tried["raw"] += 1
                code = int(answer.split()[1]) if answer.startswith(b"HTTP/1") else 0
                found.answers[code] += 1
                if code >= 500:
                    found.wrong.append(f"{code} to {raw[:80]!r}")
            silent = [socket.create_connection(("127.0.0.1", parts.port or 0)) for _ in range(400)]
            if "Sprat" not in server.get("right"):
                found.wrong.append("the page no longer answers")
            for one in silent:
                one.close()
            found.tried["silent"] += len(silent)
        if _files(shelf.folder / "sprat") != before:
            found.wrong.append("files were changed by what is no request")


def _raw(port: int, data: bytes) -> bytes:
    """Return what comes back; nothing where the line is cut."""
    with socket.create_connection(("127.0.0.1", port), timeout=60) as one:
        try:
            threading.Thread(target=_sent, args=(one, data), daemon=True).start()
            return one.recv(4096)
        except OSError:
            return b""


def _sent(one: socket.socket, data: bytes) -> None:
    try:
        one.sendall(data)
        one.shutdown(socket.SHUT_WR)
    except OSError:
        return


def main() -> int:
    """Run as a script."""
    found = run()
    run_raw(found)
    for kind, count in found.tried.items():
        print(f"{count:6} {kind}")
    print("answers: " + ", ".join(f"{code} {n} times" for code, n in sorted(found.answers.items())))
    for wrong in found.wrong[:40]:
        print(f"WRONG {wrong}")
    print(f"{sum(found.tried.values())} requests, {len(found.wrong)} wrong")
    return 1 if found.wrong else 0


if __name__ == "__main__":
    raise SystemExit(main())
