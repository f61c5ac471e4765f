"""Typed into fields of the page: taken, refused beside the field, undone, saved by itself."""

import re
import tomllib
from collections.abc import Callable
from html import unescape
from pathlib import Path

import pytest
from tests.page.conftest import OWN, Page, page_of
from tests.page.hands import put
from tests.said import what_of

from trimdive.assessment import assess
from trimdive.errors import TrimdiveError


def typed(page: Page, field: str, text: str) -> str:
    """Type into a field, as the page's own script sends it, and return the page then."""
    body = {"field": field, "typed": text, "revision": str(page.desk.revision)}
    answer = page.client.post("/edit", data=body, headers=OWN | {"hx-request": "true"})
    assert answer.status_code == 200, answer.text
    return answer.text


def part(page: Page, name: str) -> str:
    """Return the path of a part by its name."""
    names = [part.name for part in page.desk.her.boat.parts]
    return f"part[{names.index(name) + 1}]"


def test_a_mass_is_taken_in_any_unit_and_undone(bittern: Page) -> None:
    path = part(bittern, "forward battery")
    before = bittern.desk.her.floater.mass
    typed(bittern, f"{path}.mass", "3 lb 4 oz")
    # International Yard and Pound Agreement, 1959: 1 lb = 0.453 592 37 kg; 1 oz = 1/16 lb
    assert bittern.desk.her.floater.mass - before == pytest.approx(3.25 * 0.45359237 - 1.48)
    text, _ = bittern.desk.written()
    assert text.count("3 lb 4 oz") == 1
    changed = [
        (a, b)
        for a, b in zip(
            bittern.file.read_text("utf-8").splitlines(), text.splitlines(), strict=True
        )
        if a != b
    ]
    assert len(changed) == 1, "one line of the file changes, with its comment"
    bittern.press("undo")
    assert bittern.desk.her.floater.mass == before
    assert bittern.desk.written()[0] == bittern.file.read_text("utf-8")


@pytest.mark.parametrize(
    ("field", "text", "says"),
    [
        ("mass", "forty", "forty"),
        ("mass", "-3 g", "mass"),
        ("mass", "1480 mm", "mm"),
        ("x", "", "x"),
        ("colour", "red", "colour"),
        ("known", "hearsay", "hearsay"),
    ],
)
def test_what_is_wrong_stands_beside_the_field_and_changes_nothing(
    bittern: Page, field: str, text: str, says: str
) -> None:
    path = f"{part(bittern, 'forward battery')}.{field}"
    put(bittern.desk, path.replace(field, "note"), "")  # nothing there: nothing done
    before, revision = bittern.desk.written()[0], bittern.desk.revision
    typed(bittern, path, text)
    assert bittern.desk.written()[0] == before
    assert bittern.desk.revision == revision
    with pytest.raises(TrimdiveError) as refused:
        put(bittern.desk, path, text)
    assert says in str(refused.value)
    assert "\n" not in str(refused.value)


def test_what_is_in_a_cylinder_goes_with_what_is_typed(bittern: Page) -> None:
    """In every way that its place can be typed; as one step, which undo takes back whole."""

    def places() -> dict[str, tuple[float, float]]:
        boat = bittern.desk.her.boat
        return {one.name: (one.x, one.z) for one in (*boat.tanks, *boat.parts)}

    boat, before = bittern.desk.her.boat, places()
    inside = {o.name for o in (*boat.tanks, *boat.parts) if o.inside == "forward cylinder"}
    answer = typed(bittern, "cylinder[1].x", "1575 mm, 90 mm")
    says = f"Done: forward cylinder to 1575 mm, height 90 mm, with {len(inside)} things in it"
    assert says in answer
    for name, (x, z) in places().items():
        by = (-0.01, 0.002) if name in inside else (0.0, 0.0)
        assert (x, z) == pytest.approx((before[name][0] + by[0], before[name][1] + by[1])), name
    assert bittern.desk.written()[0].count("[[tank]]") == 2
    bittern.press("undo")
    assert places() == before
    body = {"field": "cylinder[1].x", "typed": "1575", "revision": str(bittern.desk.revision)}
    bittern.client.post("/edit", data=body | {"alone": "1"}, headers=OWN | {"hx-request": "true"})
    assert bittern.desk.her.boat.cylinders[0].x == pytest.approx(1.575)
    assert places() == before


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("1700, 12, 60", (1.7, 0.012, 0.06)),
        ("1700 60", (1.7, 0.0, 0.06)),
        ("1.7 m; 12 mm; 6 cm", (1.7, 0.012, 0.06)),
        ("70 1/2 in, 2 in", (70.5 * 0.0254, 0.0, 2 * 0.0254)),  # the inch of 1959: 25.4 mm
        ("170 -1 6 cm", (1.7, -0.01, 0.06)),
        ("1700,0,60", (1.7, 0.0, 0.06)),
        ("1700", (1.7, 0.0, 0.116)),
    ],
)
def test_a_whole_place_is_typed_at_once(
    bittern: Page, text: str, place: tuple[float, float, float]
) -> None:
    path = part(bittern, "forward battery")
    answer = typed(bittern, f"{path}.x", text)
    one = next(p for p in bittern.desk.her.boat.parts if p.name == "forward battery")
    assert (one.x, one.y, one.z) == pytest.approx(place)
    assert "Done: forward battery to " in answer
    assert len(bittern.desk.steps) == 2


def test_more_than_a_place_is_refused(bittern: Page) -> None:
    with pytest.raises(TrimdiveError, match="Enter along, to port, height, as 612, 0, 45"):
        put(bittern.desk, f"{part(bittern, 'forward battery')}.x", "1, 2, 3, 4")
    assert len(bittern.desk.steps) == 1


def test_no_such_piece(bittern: Page) -> None:
    for path in (
        "part[999].mass",
        "part[0].mass",
        "nothing[1].mass",
        "",
        "part[",
        "part[1].mass.x",
    ):
        typed(bittern, path, "3 g")
    assert len(bittern.desk.steps) == 1


def test_a_window_that_is_behind_changes_nothing(bittern: Page) -> None:
    body = {"field": f"{part(bittern, 'forward battery')}.mass", "typed": "2 kg", "revision": "0"}
    answer = bittern.client.post("/edit", data=body, headers=OWN | {"hx-request": "true"})
    assert "changed in another window" in unescape(answer.text)
    assert len(bittern.desk.steps) == 1


def test_every_change_is_saved_by_itself_and_the_first_file_is_kept(bittern: Page) -> None:
    bittern.desk.is_keeping = True
    first = bittern.file.read_bytes()
    path = f"{part(bittern, 'forward battery')}.mass"
    for grams in (1500, 1510, 1520):
        typed(bittern, path, f"{grams} g")
        bittern.desk.keep()
        assert bittern.desk.is_saved
        assert f'"{grams} g"' in bittern.file.read_text("utf-8")
    kept = list((bittern.file.parent / "earlier").iterdir())
    assert [one.read_bytes() for one in kept] == [first]
    assert bittern.client.get("/now").json()["is_saved"]
    bittern.press("undo")
    assert bittern.desk.is_saved
    assert '"1510 g"' in bittern.file.read_text("utf-8")


def test_do_it_then_typed_then_saved_is_what_the_terminal_reads(bittern: Page) -> None:
    assert bittern.desk.her.findings, "a mend is shown once it is calculated"
    doable = re.findall(r'value="(do [^"]+)"', bittern.client.get("/").text)
    bittern.press(unescape(doable[0]))
    typed(bittern, f"{part(bittern, 'forward battery')}.mass", "1490 g")
    bittern.press("save")
    there, here = assess(bittern.file), bittern.desk.her
    assert there.floater.mass == pytest.approx(here.floater.mass, abs=1e-9)
    assert [what_of(one) for one in there.findings] == [what_of(one) for one in here.findings]


def test_saving_by_itself_where_it_cannot_be_written_says_so(
    bittern: Page, monkeypatch: pytest.MonkeyPatch
) -> None:
    bittern.desk.is_keeping = True
    before = bittern.file.read_bytes()

    def full(*_: object, **__: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("trimdive.boatfile.together.os.fsync", full)
    typed(bittern, f"{part(bittern, 'forward battery')}.mass", "1500 g")
    assert bittern.file.read_bytes() == before
    assert not bittern.desk.is_saved
    answer = bittern.client.get("/now").json()["trouble"]
    assert "no space left" in answer.lower()
    assert "room" in answer
    assert "Not saved yet" in bittern.client.get("/").text
    monkeypatch.undo()
    bittern.desk.keep()
    assert bittern.desk.is_saved
    assert bittern.desk.trouble == ""


def test_changed_on_disk_it_is_not_saved_by_itself(bittern: Page) -> None:
    bittern.desk.is_keeping = True
    typed(bittern, f"{part(bittern, 'forward battery')}.mass", "1500 g")
    theirs = bittern.file.read_text("utf-8") + "# mine\n"
    bittern.file.write_text(theirs, "utf-8")
    bittern.desk.keep()
    assert bittern.file.read_text("utf-8") == theirs


def test_new_files_are_written_with_the_boat_file_or_not_at_all(
    copied: Callable[[str], Path], monkeypatch: pytest.MonkeyPatch
) -> None:
    page = page_of(copied("grebe")).enter()
    text, files = page.desk.written()
    table = next(name for name in files if name.endswith(".csv"))
    page.desk.edit(
        "other lines", text.replace(f'"{table}"', '"other.csv"'), {"other.csv": files[table]}
    )

    def refuse(*_: object, **__: object) -> None:
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as patched:
        patched.setattr("trimdive.boatfile.together.os.fsync", refuse)
        page.press("save")
    assert not page.file.with_name("other.csv").exists()
    page.press("save")
    assert page.file.with_name("other.csv").read_bytes() == files[table]
    saved = tomllib.loads(page.file.read_text("utf-8"))
    assert any(region.get("file") == "other.csv" for region in saved["region"])
