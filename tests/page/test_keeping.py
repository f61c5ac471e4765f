"""No work lost: answers are saved answers, undo keeps texts, slips end nothing, links stay inside.

Small invented boats; what is asked of the disk is POSIX's.
"""

import stat
import threading
import time
from pathlib import Path

import pytest
from tests.cli.boats import SMALL
from tests.page.conftest import Page
from tests.page.hands import put
from tests.page.shelves import ShelfPage

from trimdive.assessment import Assessment
from trimdive.boatfile import load
from trimdive.boatfile.together import PART
from trimdive.errors import BoatFileError
from trimdive.page.ahead import RUSHED, foresee
from trimdive.page.desk import NEAR, opened
from trimdive.page.keeping import EARLIER, MOST, keep_earlier
from trimdive.page.memory import EVERY
from trimdive.page.serving import workshop_at
from trimdive.page.shelf import Shelf
from trimdive.page.workshop import Workshop


def typed(page: Page, field: str, text: str) -> str:
    """Type into a field as the page's script does, and return what the page is then."""
    sent = {"field": field, "typed": text, "revision": str(page.desk.revision), "place": "scales"}
    own = {"origin": "http://127.0.0.1:8123", "sec-fetch-site": "same-origin", "hx-request": "true"}
    answer = page.client.post("/edit", data=sent, headers=own)
    assert answer.status_code == 200, answer.text
    return answer.text


def test_an_edit_answered_is_an_edit_saved(sprat: Page) -> None:
    for number in range(3):
        typed(sprat, "part[1].mass", f"{410 + number} g")
        assert load(sprat.file).boat.parts[0].mass == pytest.approx(0.41 + 0.001 * number)
    sprat.press("undo")
    assert load(sprat.file).boat.parts[0].mass == pytest.approx(0.411)


def test_undo_keeps_texts_and_not_worked_out_boats(sprat: Page) -> None:
    first = sprat.desk.her.masses.mass
    for number in range(8):
        typed(sprat, "part[1].mass", f"{410 + number} g")
    assert sum(one.shown is not None for one in sprat.desk.steps) <= 1 + NEAR
    for _ in range(8):
        sprat.press("undo")
    assert sprat.desk.her.masses.mass == pytest.approx(first, abs=1e-12)
    assert load(sprat.file).text == SMALL


@pytest.mark.parametrize(
    ("field", "text"),
    [
        ("region[1].breadth", "0.12 mm"),
        ("region[1].z_top", "100 m"),
        ("part[2].volume", "8000 cm3"),
        ("cylinder[1].wall", "39.9 mm"),
        ("waterline.height", "8000 mm"),
    ],
)
def test_no_slip_ends_the_work_ahead_or_the_next_start(sprat: Page, field: str, text: str) -> None:
    ahead = threading.Thread(target=foresee, args=(sprat.desk,), daemon=True)
    ahead.start()
    try:
        typed(sprat, field, text)
        for place in ("right", "shelf", "board", "scales", "tub", "bench", "pond"):
            assert sprat.client.get(f"/{place}").status_code == 200
        typed(sprat, "part[1].mass", "411 g")
        assert ahead.is_alive()
    finally:
        sprat.desk.end()
        ahead.join(60)
    found = workshop_at(sprat.file.parent / "shelf", sprat.file)
    assert found.desk.own.her.boat.parts[0].mass == pytest.approx(0.411)


def test_memory_is_given_back_though_nobody_ever_rests(
    sprat: Page, monkeypatch: pytest.MonkeyPatch
) -> None:
    given = threading.Event()
    monkeypatch.setattr("trimdive.page.ahead.give_back", given.set)
    with sprat.desk.first():  # somebody waits all the while
        ahead = threading.Thread(target=foresee, args=(sprat.desk,), daemon=True)
        ahead.start()
        sprat.desk.wanted.set()
        while sprat.desk.wanted.is_set():  # until it has been seen
            time.sleep(0.01)
        assert not given.is_set()
        sprat.desk.revision += RUSHED * EVERY
        sprat.desk.wanted.set()
        assert given.wait(60)
        assert not sprat.desk.is_ahead
        sprat.desk.end()
    ahead.join(60)


def test_whatever_is_raised_ahead_is_left_out(sprat: Page, monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(_: Assessment) -> object:
        raise ZeroDivisionError

    monkeypatch.setattr(Assessment, "bench_findings", property(broken))
    ahead = threading.Thread(target=foresee, args=(sprat.desk,), daemon=True)
    ahead.start()
    try:
        typed(sprat, "part[1].mass", "412 g")
        time.sleep(0.1)
        assert ahead.is_alive()
        shown = sprat.client.get("/bench")
        assert shown.status_code == 200
        assert "cannot be calculated" in shown.text or "Bench" in shown.text
    finally:
        sprat.desk.end()
        ahead.join(60)


def test_a_boat_that_cannot_be_calculated_does_not_stop_the_start(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    shelf = Shelf(tmp_path / "shelf")
    file = shelf.put("Sprat", SMALL, {})
    shelf.remember_last(file)
    work = Assessment.lowest

    def broken(her: Assessment) -> object:
        if her.boat.name == "Sprat":
            raise OverflowError("cannot convert float infinity to integer")
        return work.__get__(her)

    monkeypatch.setattr(Assessment, "lowest", property(broken))
    found = workshop_at(shelf.folder, None)
    assert found.desk.own.her.boat.name == "Bittern as bought"
    assert found.desk.note is not None
    assert found.desk.note.text.startswith("sprat was not opened.")
    assert file.read_text("utf-8") == SMALL


def test_a_table_taken_back_never_blocks_a_later_save(sprat: Page) -> None:
    table = b"x,z,y\n"
    text = SMALL + "\n# with a table\n"
    desk = sprat.desk
    desk.edit("a table", text.replace('note = ""', ""), {})
    stray = sprat.file.parent / "lines.csv"
    stray.write_bytes(b"somebody's own")
    desk.steps[desk.at].files = {"lines.csv": table}
    desk.saved = -1
    desk.keep()
    assert desk.trouble == ""
    assert stray.read_bytes() == table
    kept = [one.read_bytes() for one in (sprat.file.parent / EARLIER).glob("lines *.csv")]
    assert kept == [b"somebody's own"], "what lay there before is among the earlier ones"


def test_a_full_disk_pushes_no_earlier_file_out(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = tmp_path / "boat.toml"
    file.write_text(SMALL, "utf-8")
    folder = tmp_path / EARLIER
    folder.mkdir()
    for number in range(MOST):
        (folder / f"boat 2026-01-{number + 1:02} 10.00.00.toml").write_text(SMALL, "utf-8")
    left = folder / f"{PART}99"
    left.mkdir()
    (left / "0").write_bytes(b"half")
    before = sorted(folder.glob("*.toml"))

    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as patched:
        patched.setattr("trimdive.boatfile.together.os.fsync", full)
        for _ in range(3):
            with pytest.raises(BoatFileError, match="no space left"):
                keep_earlier(file)
    assert sorted(folder.iterdir()) == before, "no part is left, and none of the old ones is gone"
    keep_earlier(file)
    after = sorted(folder.glob("*.toml"))
    assert sorted(folder.iterdir()) == after
    assert len(after) == MOST
    assert all(one.read_text("utf-8") == SMALL for one in after)
    assert before[0] not in after


def test_what_leads_out_of_the_shelf_is_refused(tmp_path: Path) -> None:
    outside = tmp_path / "secret.toml"
    outside.write_text(SMALL, "utf-8")
    shelf = Shelf(tmp_path / "shelf")
    own = shelf.put("Sprat", SMALL, {})
    for name in ("boat.previous.toml", "lines.csv", EARLIER):
        link = own.parent / name
        link.symlink_to(outside)
        with pytest.raises(BoatFileError, match="leads out of the boat's folder"):
            shelf.file_of("sprat")
        link.unlink()
    desk = opened(shelf.file_of("sprat"))
    desk.is_keeping = True
    page = ShelfPage(Workshop(desk=desk, shelf=shelf))
    (own.parent / "boat.previous.toml").symlink_to(outside)
    put(page.desk, "part[1].mass", "413 g")
    page.desk.keep()
    assert "leads out" in page.desk.trouble
    assert outside.read_text("utf-8") == SMALL
    assert own.read_text("utf-8") == SMALL
    (shelf.folder / ".shelf.json").unlink(missing_ok=True)
    (shelf.folder / ".shelf.json").symlink_to(outside)
    shelf.remember(last="sprat/boat.toml")
    assert outside.read_text("utf-8") == SMALL


def test_what_lies_on_a_shelf_is_its_owners_alone(tmp_path: Path) -> None:
    shelf = Shelf(tmp_path / "shelf")
    file = shelf.put("Sprat", SMALL, {"notes/plan.csv": b"1"})
    shelf.remember_last(file)
    for one in [shelf.folder, *shelf.folder.rglob("*")]:
        if one.name != "notes":
            assert stat.S_IMODE(one.stat().st_mode) & 0o077 == 0, one
