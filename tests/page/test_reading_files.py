"""Files that are brought: read without the lock, told while they are, stopped, taken in hand.

The rule is the project's own: nobody waits for a file, and none ends the page.
"""

import time
from pathlib import Path

import pytest
from tests.page.conftest import OWN
from tests.page.shelves import ShelfPage, workshop_of

from trimdive.page import reading
from trimdive.page.apart import Progress
from trimdive.page.places.place import Take
from trimdive.page.places.shelf import SHELF
from trimdive.page.reading import Done
from trimdive.page.step import Note

PATIENCE = 60  # for what is far quicker [s]


def slowly(_: str, data: bytes) -> object:
    return sum(range(int(data)))


def by_halves(_: str, data: bytes, progress: Progress) -> object:
    progress(Done("unpacked", 0.5))
    progress(Done("unpacked"))
    progress(Done("measured", 0.4))
    return sum(range(int(data)))


def loudly(name: str, _: bytes) -> object:
    raise ZeroDivisionError(name)


def _put_aside(*_: object) -> None:
    pass


@pytest.fixture
def page(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> ShelfPage:
    """Return the page of a small boat; what is dropped on its shelf is counted up to."""
    taken: list[object] = []

    def take(desk: object, name: str, _: bytes, found: object) -> None:
        taken.append(found)
        desk.note = Note(kind="done", text=f"{name} has come to {found}.")  # type: ignore[attr-defined]

    monkeypatch.setitem(SHELF.takes, "in", Take(reads=slowly, takes=take))  # type: ignore[arg-type]
    return ShelfPage(workshop_of(tmp_path))


def asked(page: ShelfPage, data: bytes) -> str:
    where = {"revision": str(page.desk.revision), "place": "shelf"}
    head = OWN | {"x-name": "count.stl"}
    return page.client.post("/shelf/in", params=where, content=data, headers=head).text


def test_what_is_read_is_taken_in_hand(page: ShelfPage) -> None:
    assert "count.stl has come to 45." in page.give("count.stl", b"10")


def test_the_page_goes_on_while_a_file_is_read_and_stops_it(
    page: ShelfPage, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(reading, "PROMPT", 0.0)
    text = asked(page, b"9" * 15)
    assert 'class="reading"' in text
    assert "<b>Reading count.stl.</b>" in text
    assert "0.0 MB" in page.client.get("/reading", params={"place": "shelf"}).text
    assert page.client.get("/scales").status_code == 200, "the lock is not held"
    now = reading.running(page.desk)
    assert now is not None
    text = page.press("stop reading")
    assert 'class="reading"' not in text
    assert "reading stopped; nothing was changed" in text
    assert now.over.wait(60)
    assert now.apart.running is None or now.apart.running.poll() is not None
    answer = page.client.get("/reading", params={"place": "shelf"})
    assert answer.headers["hx-redirect"].endswith("/shelf")
    assert page.desk.at == 0


def test_what_is_done_of_a_file_is_told(page: ShelfPage, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(reading, "PROMPT", 0.0)
    take = Take(reads=by_halves, takes=_put_aside)
    monkeypatch.setitem(SHELF.takes, "in", take)
    asked(page, b"9" * 15)
    now = reading.running(page.desk)
    assert now is not None
    until = time.monotonic() + PATIENCE
    while now.share != 0.4 and time.monotonic() < until:  # the half before may be told still
        time.sleep(0.01)
    text = page.client.get("/reading", params={"place": "shelf"}).text
    assert "0.0 MB" in text
    assert ", unpacked, 40 % measured" in text
    assert '<progress value="0.4"' in text
    page.press("stop reading")
    assert now.over.wait(PATIENCE)


def test_nothing_is_taken_in_hand_of_a_boat_that_was_put_away(page: ShelfPage) -> None:
    page.desk.end()
    assert "has come to" not in page.give("count.stl", b"10")


def test_another_file_takes_the_place_of_one_that_is_read(
    page: ShelfPage, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(reading, "PROMPT", 0.0)
    asked(page, b"9" * 15)
    before = reading.running(page.desk)
    assert before is not None
    monkeypatch.setattr(reading, "PROMPT", 3.0)
    assert "has come to 45." in page.give("count.stl", b"10")
    assert before.over.wait(60)


def test_whatever_reading_raises_is_told(page: ShelfPage, monkeypatch: pytest.MonkeyPatch) -> None:
    take = Take(reads=loudly, takes=_put_aside)
    monkeypatch.setitem(SHELF.takes, "in", take)  # type: ignore[arg-type]
    assert "cannot be calculated (ZeroDivisionError)" in page.give("count.stl", b"10")


def test_a_file_of_a_page_that_was_changed_meanwhile_is_not_read(page: ShelfPage) -> None:
    where = {"revision": "99", "place": "shelf"}
    head = OWN | {"x-name": "count.stl"}
    text = page.client.post("/shelf/in", params=where, content=b"10", headers=head).text
    assert "changed in another window" in text
    assert reading.running(page.desk) is None
