"""What is done on the shelf, without a browser: new boats, variants, files brought in, versions."""

import io
import re
import zipfile
from math import pi
from pathlib import Path

import pytest
import trimesh
from tests.cli.boats import SMALL
from tests.page.conftest import BOATS
from tests.page.hands import put
from tests.page.shelves import FIGURES, TAPE, ShelfPage, workshop_of

from trimdive.boatfile import load
from trimdive.boatfile.edits import replaced
from trimdive.cli.tape import read_file
from trimdive.estimates.tape import tape_litres
from trimdive.geometry.lines.mesh import volume
from trimdive.page.bringing import LARGEST, MOST_FILES, brought

SLIM = {"new-way": "figures", "figures-length": "1 m", "figures-breadth": "8 cm"}
NARROW = SLIM | {"figures-breadth": "10 cm"}  # one cylinder goes in, two do not


@pytest.fixture
def page(tmp_path: Path) -> ShelfPage:
    """Return the page of a shelf with one small boat."""
    return ShelfPage(workshop_of(tmp_path))


def noted(html: str) -> str:
    """Return what the page says once."""
    return re.sub(r"<[^>]+>|\s+", " ", html.split('<div id="note"')[1].split("</div>")[0])


def test_ten_readings_make_a_boat_that_floats_and_dives(page: ShelfPage) -> None:
    answer = page.press("shelf begin", **TAPE)
    assert "Sanderling is on the shelf" in noted(answer)
    her = page.desk.her
    assert her.boat.name == "Sanderling"
    assert her.floater.length == pytest.approx(1.41, abs=5e-4)
    assert her.full.rest.under
    assert {found.key for found in her.first_findings if found.weight == "put right"} <= {
        "guess-share"
    }
    kept = read_file(page.desk.path.parent / "tape.toml")
    skin = next(body for body in her.bodies if body.name == "upper hull")
    assert skin.volume == pytest.approx(tape_litres(kept).shares[0].volume, rel=0.1)


def test_four_figures_and_three_sections_make_a_boat(page: ShelfPage) -> None:
    page.press("shelf begin", **FIGURES)
    size = page.desk.her.hull.envelope.bounds
    assert page.desk.her.boat.name == "Dunlin"
    assert size[1, 1] - size[0, 1] == pytest.approx(0.15, abs=1e-3)
    assert page.desk.her.boat.waterline is not None
    assert page.desk.her.boat.waterline.height_at(0.0) == pytest.approx(0.118, abs=1e-4)


@pytest.mark.parametrize(
    ("field", "typed", "says"),
    [
        ("tape-length", "long", "'long' is not a length"),
        ("tape-girth-3", "14 cm", "less than the breadth"),
        ("tape-wall-1", "24", "more than a hull of this girth has"),
        ("tape-at-5", "2 m", "outside the hull"),
        ("tape-breadth", "-3 mm", "no length"),
        ("tape-length", "9 m", "beyond what is known"),
    ],
)
def test_what_is_wrong_stands_beside_its_field(
    page: ShelfPage, field: str, typed: str, says: str
) -> None:
    shown = page.client.get("/shelf/growing", params=TAPE | {field: typed}).json()
    assert says in shown["wrong"][field]
    before = page.workshop.shelf.names() if page.workshop.shelf else ()
    answer = page.press("shelf begin", **(TAPE | {field: typed}))
    assert "refused" in answer.split('<div id="note"')[1][:60]
    assert page.workshop.shelf is not None
    assert page.workshop.shelf.names() == before


@pytest.mark.parametrize(
    ("typed", "field", "says"),
    [
        ({"new-tank": "bag", "new-plant": "gas"}, "new-plant", "Choose 'pump with a bag', or"),
        ({"new-held": "wet"}, "new-held", "'wet' is not a volume"),
        ({"new-held": "-1"}, "new-held", "no volume"),
        ({"new-held": "9 L"}, "new-held", "do not fit into her. There is room for about"),
        (NARROW | {"new-cylinders": "2"}, "new-cylinders", "no room for 0.5 L of foam"),
    ],
)
def test_tanks_and_plant_that_cannot_be_stand_beside_their_field(
    page: ShelfPage, typed: dict[str, str], field: str, says: str
) -> None:
    shown = page.client.get("/shelf/growing", params=TAPE | typed).json()
    assert says in shown["wrong"][field]
    assert list(shown["wrong"]) == [field]


def test_tanks_and_plant_are_as_answered_and_each_guess_says_so(page: ShelfPage) -> None:
    shown = page.client.get("/shelf/growing", params=TAPE | {"new-tank": "piston tank"}).json()
    assert shown["guesses"]["new-cylinders"] == "guess: one"
    assert shown["guesses"]["new-plant"] == "guess: piston on a screw"
    assert re.fullmatch(r"guess: \d+ cm³", shown["guesses"]["new-held"])
    typed = {"new-cylinders": "2", "new-tank": "piston tank", "new-held": "65 in3"}
    page.press("shelf begin", **(TAPE | typed))
    boat = page.desk.her.boat
    assert len(boat.cylinders) == 2
    assert [tank.kind for tank in boat.tanks] == ["piston", "piston"]
    assert [plant.kind for plant in boat.plants] == ["piston", "piston"]
    rooms = [pi / 4 * one.bore**2 * one.length * (1 - one.lost) for one in boat.tanks]
    # 1 in = 25.4 mm: International Yard and Pound Agreement, 1959
    assert sum(rooms) == pytest.approx(65 * 0.0254**3, rel=0.01)
    page.press("shelf begin", **(TAPE | {"new-name": "Sanderling too"}))
    assert 'kind = "pump vented"              # guessed' in page.desk.written()[0]


def test_tanks_too_small_may_stand_and_nobody_says_that_she_dives(page: ShelfPage) -> None:
    typed = TAPE | {"new-held": "400 ml"}
    shown = page.client.get("/shelf/growing", params=typed).json()
    assert "to dive. With less she stays up" in shown["wrong"]["new-held"]
    assert "her tanks are too small to dive" in noted(page.press("shelf begin", **typed))


def test_she_grows_reading_by_reading(page: ShelfPage) -> None:
    typed: dict[str, str] = {}
    pictures = []
    for key, value in TAPE.items():
        typed[key] = value
        answer = page.client.get("/shelf/growing", params=typed).json()
        pictures.append("<svg" in answer["html"])
        assert answer["wrong"] == {}
    assert pictures == [False] * 3 + [True] * (len(TAPE) - 3), "from her length on"
    assert "All 10 entered" in answer["html"]
    assert re.search(r"needs \d+ cm³ ± \d+ cm³ of ballast water", answer["html"])


def test_a_name_of_markup_does_nothing(page: ShelfPage) -> None:
    answer = page.press("shelf begin", **(TAPE | {"new-name": '<script>alert(1)</script>"'}))
    assert "<script>alert" not in answer
    assert page.desk.her.boat.name == "<script>alert(1)</script>'"


def test_variants_are_put_by_compared_and_taken(page: ShelfPage) -> None:
    page.press("shelf variant", **{"variant-name": "as she was"})
    put(page.desk, "tank[1].x", "365 mm")
    table = page.client.get("/shelf/compared").text
    assert "fore tank: x 365 mm → 360 mm" in table
    for name in ("trim, ", "tank", "BG, ", "litres needed"):
        assert name in table
    answer = page.press("shelf take-variant as-she-was")
    assert "Done: variant as-she-was applied" in noted(answer)
    assert 'x = "360 mm"' in page.desk.written()[0]
    page.press("undo")
    assert 'x = "365 mm"' in page.desk.written()[0]


def test_every_boat_has_her_picture_and_her_state(page: ShelfPage, tmp_path: Path) -> None:
    shelf = page.workshop.shelf
    assert shelf is not None
    shelf.put("Smelt", replaced(SMALL, "name", "Smelt"), {})
    shelf.put("Worm", SMALL, {}).write_text("name = 3", "utf-8")
    shown = page.client.get("/shelf").text
    froms = re.findall(r'data-from="/[^/]+(/shelf/boat[^"]+)"', shown)
    assert froms == ["/shelf/boat?which=smelt", "/shelf/boat?which=worm"]
    card = page.client.get(froms[0]).text
    assert "<svg" in card
    assert '<p class="state' in card
    assert "2 to put right" in card, "her foam and her lead reach into the cylinder"
    assert "Cannot be opened" in page.client.get(froms[1]).text
    assert page.client.get("/shelf/boat?which=../outside").status_code == 409
    again = page.client.get("/shelf").text
    assert 'data-from="/shelf/boat' not in again, "made once, kept until a file changes"
    (shelf.folder / "smelt" / "boat.toml").write_text(replaced(SMALL, "name", "Dab"), "utf-8")
    assert "which=smelt" in page.client.get("/shelf").text


def test_save_as_goes_on_with_the_new_one_and_leaves_the_old(page: ShelfPage) -> None:
    old = page.desk.path
    put(page.desk, "tank[1].x", "365 mm")
    page.press("shelf save-as", **{"as-name": "Sprat again"})
    assert page.desk.path.parent.name == "sprat-again"
    assert load(page.desk.path).boat.tanks[0].x == pytest.approx(0.365)
    put(page.desk, "tank[1].x", "350 mm")
    page.desk.keep()
    assert load(old).boat.tanks[0].x == pytest.approx(0.365), "saved by itself before"


@pytest.mark.parametrize("which", ["../sprat", "..", "nix", "/etc", "sprat/../sprat"])
@pytest.mark.parametrize("verb", ["open", "take-variant", "version"])
def test_no_button_leads_out_of_the_shelf(page: ShelfPage, verb: str, which: str) -> None:
    before = page.desk
    answer = page.press(f"shelf {verb} {which}")
    assert "there is no such" in noted(answer)
    assert page.desk is before


def test_an_earlier_version_opens_as_a_boat_of_its_own(page: ShelfPage) -> None:
    put(page.desk, "tank[1].x", "365 mm")
    page.desk.keep()
    answer = page.press("undo")
    found = re.search(r'value="shelf version ([^"]+)"', answer)
    assert found is not None
    old = page.desk.path
    page.press(f"shelf version {found[1]}")
    assert page.desk.path != old
    assert page.desk.written()[0] == SMALL


def test_the_brief_takes_what_is_typed_and_waters_by_a_press(page: ShelfPage) -> None:
    page.press("shelf water cold sea")
    page.press("shelf water pond")
    brief = page.desk.her.boat.brief
    assert brief is not None
    assert brief.waters == ("cold sea", "pond")
    page.press("shelf water cold sea")
    put(page.desk, "brief.lift_limit", "25 kg")
    brief = page.desk.her.boat.brief
    assert brief is not None
    assert (brief.waters, brief.lift_limit) == (("pond",), 25.0)


def test_changes_that_cannot_be_saved_keep_her_on_the_page(
    page: ShelfPage, monkeypatch: pytest.MonkeyPatch
) -> None:
    page.press("shelf begin", **FIGURES)
    put(page.desk, "tank[1].lost", "5 %")
    before = page.desk

    def full(*_: object, **__: object) -> object:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("trimdive.boatfile.together.tempfile.mkdtemp", full)
    answer = page.press("shelf open sprat")
    assert "not saved yet" in noted(answer)
    assert "no space left" in noted(answer).lower()
    assert page.desk is before
    assert 'lost = "5 %"' in page.desk.written()[0]


def packed(files: dict[str, bytes]) -> bytes:
    """Return files as a zip."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as made:
        for name, data in files.items():
            made.writestr(name, data)
    return out.getvalue()


def test_a_boat_file_and_a_zipped_folder_are_brought_in(page: ShelfPage) -> None:
    page.give("other.toml", replaced(SMALL, "name", "Smelt").encode())
    assert page.desk.her.boat.name == "Smelt"
    folder = BOATS / "grebe"
    files = {f"boats/grebe/{one.name}": one.read_bytes() for one in folder.iterdir()}
    page.give("grebe.zip", packed({**files, "boats/grebe/holiday.jpg": b"x", "../evil.toml": b"x"}))
    assert page.desk.her.boat.name == "Grebe"
    assert sorted(one.name for one in page.desk.path.parent.iterdir()) == ["boat.toml", "lines.csv"]


def test_a_table_of_lines_and_a_mesh_are_brought_in_as_hulls(page: ShelfPage) -> None:
    page.give("Hull lines.csv", (BOATS / "grebe" / "lines.csv").read_bytes())
    assert page.desk.her.floater.length == pytest.approx(1.3, abs=1e-3)
    page.give("middle.stl", (BOATS / "plover" / "middle.stl").read_bytes())
    assert page.desk.her.floater.length == pytest.approx(0.33, abs=1e-3)  # 215 to 545


def test_a_first_boat_is_planned_round_a_mesh(page: ShelfPage) -> None:
    egg = trimesh.creation.icosphere(subdivisions=4)
    egg.apply_scale([600.0, 75.0, 80.0])
    page.give("Egg.stl", trimesh.exchange.stl.export_stl(egg))
    her = page.desk.her
    assert her.hull.skins[0].name == "hull"
    assert her.full.rest.under
    assert len(her.boat.parts) > 20
    # The hull's outside is the mesh: its volume by trimesh, to a part in a thousand.
    assert volume(her.hull.skins[0].outer) == pytest.approx(egg.volume * 1e-9, rel=1e-3)


@pytest.mark.parametrize(
    ("name", "data", "says"),
    [
        ("boat.toml", b"", "empty"),
        ("boat.toml", b"\xff\xfe", "not UTF-8"),
        ("boat.toml", b"name = 3", "boat.toml"),
        ("boat.toml", b"x" * (5 * 2**20), "larger than 4 MB"),
        ("lines.toml", (BOATS / "grebe" / "boat.toml").read_bytes(), "beside her boat file"),
        ("photo.jpg", b"\xff\xd8", "no boat can be read from a file of this kind"),
        ("boat.zip", b"no zip", "no zip that can be read"),
        ("boat.zip", packed({"readme.txt": b"x"}), "no boat.toml in it"),
        ("two.zip", packed({"a/boat.toml": b"x", "b/boat.toml": b"x"}), "more than one boat"),
        ("many.zip", packed({f"{k}": b"" for k in range(MOST_FILES + 1)}), "501 files"),
        ("lines.csv", b"a,b\n1,2\n", "lines.csv"),
        ("many.csv", b"x mm,keel,20\n" + b"".join(b"%d,0,9\n" % k for k in range(300)), "300 stat"),
        ("hull.stl", b"solid nothing", "hull.stl"),
    ],
)
def test_a_wrong_file_is_told_in_one_sentence(
    page: ShelfPage, name: str, data: bytes, says: str
) -> None:
    shelf = page.workshop.shelf
    assert shelf is not None
    before, shown = sorted(shelf.folder.rglob("*")), page.desk
    answer = noted(page.give(name, data))
    assert says in answer
    assert "Traceback" not in answer
    assert sorted(shelf.folder.rglob("*")) == before
    assert page.desk is shown


def test_a_zip_that_unpacks_to_too_much_is_read_no_further() -> None:
    """Ten thousand to one: 260 MB of nought in a small file."""
    bomb = packed({"boat.toml": SMALL.encode(), "lines.csv": bytes(LARGEST + 1)})
    assert len(bomb) < 2**20
    with pytest.raises(Exception, match="unpacked it is larger than 256 MB"):
        brought("bomb.zip", bomb)
