"""The guard: what Fetch Metadata, RFC 6454 (Origin) and RFC 9110 (Host) let a server see."""

import asyncio
from collections.abc import Callable
from pathlib import Path

import pytest
from starlette.testclient import TestClient
from starlette.types import Message
from starlette.websockets import WebSocketDisconnect
from tests.page.conftest import HOST, OWN, Page, page_of

from trimdive.page.guard import LARGEST


@pytest.fixture
def shut(copied: Callable[[str], Path]) -> Page:
    return page_of(copied("grebe"))


def test_without_a_key_nothing_is_shown(shut: Page) -> None:
    for path in ("/", "/state?filling=0.5", "/static/page.css", "/?token=guess", "/?token="):
        answer = shut.client.get(path)
        assert answer.status_code == 403
        assert "Grebe" not in answer.text
    assert shut.client.post("/act", data={"act": "save"}, headers=OWN).status_code == 403


def test_the_key_leaves_the_address_and_becomes_a_cookie(shut: Page) -> None:
    answer = shut.client.get(f"/?token={shut.keys.printed}", follow_redirects=False)
    assert (answer.status_code, answer.headers["location"]) == (303, "/")
    cookie = answer.headers["set-cookie"]
    assert cookie.startswith("trimdive-8123=")
    assert {"httponly", "samesite=strict"} <= {part.strip().lower() for part in cookie.split(";")}
    assert shut.keys.printed not in cookie
    assert shut.client.get("/").status_code == 200


def test_the_key_for_the_browser_opens_once(shut: Page) -> None:
    once = shut.keys.once
    other = TestClient(shut.client.app, base_url=f"http://{HOST}")
    assert shut.client.get(f"/?token={once}").status_code == 200
    assert other.get(f"/?token={once}").status_code == 403
    assert other.get(f"/?token={shut.keys.printed}").status_code == 200


@pytest.mark.parametrize(
    "host",
    ["evil.example", "localhost:8123", "127.0.0.1", "127.0.0.1:8124", "127.0.0.1.example:8123"],
)
def test_another_name_for_this_machine_is_refused(bittern: Page, host: str) -> None:
    answer = bittern.client.get("/", headers={"host": host})
    assert answer.status_code == 400
    assert "Bittern" not in answer.text


@pytest.mark.parametrize(
    "headers",
    [
        {"origin": "http://evil.example"},
        {"origin": "null"},
        {"origin": "http://127.0.0.1:8124"},
        {"origin": f"https://{HOST}"},
        {"origin": f"http://{HOST}", "sec-fetch-site": "cross-site"},
        {"origin": f"http://{HOST}", "sec-fetch-site": "same-site"},
        {"sec-fetch-site": "cross-site"},
        {"sec-fetch-site": "none"},
        {},
    ],
)
def test_only_the_page_itself_changes_the_boat(bittern: Page, headers: dict[str, str]) -> None:
    before = bittern.file.read_bytes()
    name = bittern.desk.her.first_findings[0]
    typed = {"act": f"do {name.key}", "revision": "1"}
    assert bittern.client.post("/act", data=typed, headers=headers).status_code == 403
    assert (bittern.desk.at, bittern.desk.revision) == (0, 1)
    assert bittern.file.read_bytes() == before


def test_reading_from_another_page_is_refused(bittern: Page) -> None:
    for site in ("cross-site", "same-site"):
        assert bittern.client.get("/", headers={"sec-fetch-site": site}).status_code == 403


@pytest.mark.parametrize("path", ["/", "/nothing", "/static/page.js", "/static/../app.py"])
def test_every_answer_carries_the_policy(bittern: Page, path: str) -> None:
    fresh = page_of(bittern.file)
    for client in (bittern.client, fresh.client):
        headers = client.get(path).headers
        policy = dict(part.split(" ", 1) for part in headers["content-security-policy"].split("; "))
        assert policy["default-src"] == policy["script-src"] == policy["connect-src"] == "'self'"
        assert policy["frame-ancestors"] == "'none'"
        assert headers["x-content-type-options"] == "nosniff"
        assert headers["referrer-policy"] == "same-origin"
        assert headers["cache-control"] == "no-store"


@pytest.mark.parametrize(
    "path",
    [
        "/static/../../app.py",
        "/static/%2e%2e/app.py",
        "/static/..%2fapp.py",
        "/static/%2fetc%2fpasswd",
        "/boat.toml",
        "/lines.csv",
        "/static/",
    ],
)
def test_no_path_leaves_what_is_served(bittern: Page, path: str) -> None:
    assert bittern.client.get(path).status_code in (404, 405)


def test_too_much_is_refused_whatever_its_length_is_said_to_be(bittern: Page) -> None:
    much = b"act=save&revision=1&x=" + b"y" * LARGEST
    kind = {"content-type": "application/x-www-form-urlencoded"}
    said = bittern.client.post("/act", content=much, headers=OWN | kind)
    assert said.status_code == 413

    def drops() -> "list[bytes]":
        return [much[i : i + 1000] for i in range(0, len(much), 1000)]

    unsaid = bittern.client.post("/act", content=iter(drops()), headers=OWN | kind)
    assert unsaid.status_code == 413
    lied = bittern.client.post("/act", content=b"", headers=OWN | {"content-length": "-1"})
    assert lied.status_code == 413


def test_sockets_are_refused(bittern: Page) -> None:
    with pytest.raises(WebSocketDisconnect), bittern.client.websocket_connect("/"):
        pass


def test_two_hosts_are_refused(bittern: Page) -> None:
    """The test client cannot send one header twice, so the guard is asked itself."""
    sent: list[Message] = []

    async def send(message: Message) -> None:
        sent.append(message)

    async def receive() -> Message:
        return {"type": "http.request", "body": b"", "more_body": False}

    scope = {
        "type": "http",
        "method": "GET",
        "path": "/",
        "query_string": b"",
        "headers": [(b"host", HOST.encode()), (b"host", b"evil.example")],
    }
    asyncio.run(bittern.client.app(scope, receive, send))  # type: ignore[arg-type]
    assert sent[0]["status"] == 400
