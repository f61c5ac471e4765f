"""The guard: what Fetch Metadata, RFC 6454 (Origin) and RFC 9110 (Host) let a server see."""

import stat
from collections.abc import Callable
from pathlib import Path

import pytest
from starlette.testclient import TestClient
from starlette.types import Message
from starlette.websockets import WebSocketDisconnect
from tests.loops import in_a_loop
from tests.page.conftest import HOST, OWN, Page, page_of

from trimdive.page.guard import LARGEST
from trimdive.page.serving import Door


@pytest.fixture
def shut(copied: Callable[[str], Path]) -> Page:
    return page_of(copied("grebe"))


def test_without_a_key_nothing_is_shown(shut: Page) -> None:
    stranger = TestClient(shut.client.app, base_url=f"http://{HOST}")
    key = shut.keys.page
    for start in ("", "/guess", f"/{key[:-1]}", f"/{key}x", f"/x/{key}"):
        for path in ("/", "/state?filling=0.5", "/static/page.css", "/shelf", f"/?token={key}"):
            answer = stranger.get(start + path)
            assert answer.status_code == 403
            assert "Grebe" not in answer.text
        assert stranger.post(f"{start}/act", data={"act": "save"}, headers=OWN).status_code == 403


def test_no_cookie_opens_anything_or_tells_the_key(shut: Page) -> None:
    """RFC 6265, 8.5: a cookie is sent to every port of a machine, so none may be worth having."""
    answer = shut.client.get("/")
    assert answer.status_code == 200
    assert not answer.cookies
    stranger = TestClient(shut.client.app, base_url=f"http://{HOST}")
    for name in ("trimdive-8123", "key", "token"):
        stranger.cookies.set(name, shut.keys.page)
    assert stranger.get("/").status_code == 403
    assert stranger.post("/act", data={"act": "save"}, headers=OWN).status_code == 403


def test_the_door_without_its_slash_leads_to_the_page(shut: Page) -> None:
    stranger = TestClient(shut.client.app, base_url=f"http://{HOST}")
    answer = stranger.get(shut.keys.root, follow_redirects=False)
    assert (answer.status_code, answer.headers["location"]) == (303, f"{shut.keys.root}/")


def test_the_file_that_opens_the_browser_is_its_owners_alone(tmp_path: Path) -> None:
    door = Door(f"http://{HOST}/secret/", tmp_path)
    file = door._written()
    assert stat.S_IMODE(file.stat().st_mode) == 0o600
    assert f"http://{HOST}/secret/" in file.read_text("utf-8")
    assert "secret" not in str(file)
    door.shut()
    assert not file.exists()


def test_the_door_opens_from_that_file_and_nothing_else_does(shut: Page) -> None:
    from_file = {"sec-fetch-site": "cross-site", "sec-fetch-mode": "navigate"}
    assert shut.client.get("/", headers=from_file).status_code == 200
    assert shut.client.get("/shelf", headers=from_file).status_code == 403
    assert shut.client.post("/act", data={"act": "save"}, headers=from_file).status_code == 403
    loose = {"sec-fetch-site": "cross-site", "sec-fetch-mode": "no-cors"}
    assert shut.client.get("/", headers=loose).status_code == 403


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
    # one that climbs above the key has no key any more
    assert bittern.client.get(path).status_code in (403, 404, 405)


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


@pytest.mark.parametrize(
    ("twice", "status"),
    [
        ([(b"host", HOST.encode()), (b"host", b"evil.example")], 400),
        ([(b"host", HOST.encode()), *[(b"origin", f"http://{HOST}".encode())] * 2], 403),
        (
            [
                (b"host", HOST.encode()),
                (b"sec-fetch-site", b"same-origin"),
                (b"sec-fetch-site", b"cross-site"),
            ],
            403,
        ),
    ],
)
def test_a_header_sent_twice_is_refused(
    bittern: Page, twice: list[tuple[bytes, bytes]], status: int
) -> None:
    """The test client cannot send one header twice, so the guard is asked itself."""
    sent: list[Message] = []

    async def send(message: Message) -> None:
        sent.append(message)

    async def receive() -> Message:
        return {"type": "http.request", "body": b"", "more_body": False}

    scope = {
        "type": "http",
        "method": "GET",
        "path": f"{bittern.keys.root}/",
        "query_string": b"",
        "headers": twice,
    }
    in_a_loop(bittern.client.app(scope, receive, send))  # type: ignore[arg-type]
    assert sent[0]["status"] == status
