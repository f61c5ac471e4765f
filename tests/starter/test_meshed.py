"""A first boat round a mesh: volumes against closed forms and trimesh, and what is asked."""

import json
import math
from pathlib import Path

import pytest
import trimesh
from tests.said import what_of
from typer.testing import CliRunner

from trimdive.assessment import assess
from trimdive.cli.app import app
from trimdive.estimates.starter import HowDrawn, Wish, drawn_hull, starter, wish_by_mesh
from trimdive.text.first_boat import first_boat
from trimdive.text.say import Say

RUN = CliRunner()
EGGS = {  # half-axes [mm]
    "egg": [600.0, 75.0, 80.0], "small": [400.0, 60.0, 60.0], "fat": [600.0, 110.0, 90.0],
    "large": [1000.0, 110.0, 120.0],
}  # fmt: skip


def shape(kind: str) -> trimesh.Trimesh:
    """Return a hull in millimetres: a box, a cylinder on its side, or an egg with a tower."""
    if kind == "box":
        return trimesh.creation.box([1200.0, 150.0, 140.0])
    if kind == "cylinder":
        made = trimesh.creation.cylinder(radius=75.0, height=1200.0, sections=128)
        made.apply_transform(trimesh.transformations.rotation_matrix(math.pi / 2, [0, 1, 0]))
        return made
    if kind == "lens":
        return lens()
    egg = trimesh.creation.icosphere(subdivisions=4)
    egg.apply_scale(EGGS.get(kind, EGGS["egg"]))
    if kind in EGGS:
        return egg
    tower = trimesh.creation.box([160.0, 40.0, 200.0])
    tower.apply_translation([60.0, 0.0, 60.0])
    return trimesh.boolean.union([egg, tower], engine="manifold")


def lens() -> trimesh.Trimesh:
    """Return a hull of eight flat strakes that meet in an edge fore and aft."""
    round_it = (
        (1, 0),
        (-1, 0),
        (0, 1),
        (0, -1),
        (0.7, 0.7),
        (-0.7, 0.7),
        (0.7, -0.7),
        (-0.7, -0.7),
    )
    points = [
        [x, 75.0 * y * (1 - abs(x) / 600) ** 0.5, 80.0 * z * (1 - abs(x) / 600) ** 0.5]
        for x in range(-600, 601, 50)
        for y, z in round_it
    ]
    return trimesh.convex.convex_hull(points)


def put(kind: str, folder: Path) -> Path:
    file = folder / f"{kind}.stl"
    shape(kind).export(file)
    return file


def new(folder: Path, *options: str) -> tuple[int, str]:
    answer = RUN.invoke(app, ["new", str(folder), *options])
    assert "Traceback" not in answer.output
    return answer.exit_code, " ".join(answer.output.split())


# Litres by hand: 12 × 1.5 × 1.4 dm; π r² l; 4/3 π a b c, and less by the sphere's flat facets.
BY_HAND = {
    "box": 12 * 1.5 * 1.4,
    "cylinder": math.pi * 0.75**2 * 12,
    "egg": 4 / 3 * math.pi * 6 * 0.75 * 0.8,
}


@pytest.mark.parametrize("kind", [*BY_HAND, "tower"])
def test_what_she_encloses(kind: str, tmp_path: Path) -> None:
    drawn = drawn_hull("a.stl", put(kind, tmp_path).read_bytes(), HowDrawn(unit="mm"))
    assert drawn.holds == pytest.approx(shape(kind).volume * 1e-9, rel=1e-6)  # trimesh
    if kind in BY_HAND:
        assert drawn.holds * 1e3 == pytest.approx(BY_HAND[kind], rel=0.006)
    assert drawn.length == pytest.approx(1.2, rel=1e-6)
    assert drawn.breadth == pytest.approx(0.15, rel=0.01)
    assert drawn.has_tower == (kind == "tower")
    assert not drawn.is_wall


def test_the_skin_and_its_litres_by_hand(tmp_path: Path) -> None:
    # A box of 1200 × 150 × 140 mm with a skin of 2 mm: what it encloses less 1196 × 146 × 136 mm.
    drawn = drawn_hull("a.stl", put("box", tmp_path).read_bytes(), HowDrawn(unit="mm"))
    made = starter(wish_by_mesh(Wish(name="Box", length=1.0, wall=0.002), drawn))
    (tmp_path / "boat.toml").write_text(first_boat(made), "utf-8")
    (tmp_path / "a.stl").write_bytes(drawn.data)
    her = assess(tmp_path / "boat.toml")
    (skin,) = her.hull.skins[:1]
    assert skin.volume == pytest.approx(1.2 * 0.15 * 0.14 - 1.196 * 0.146 * 0.136, rel=0.02)
    line = made.plan.waterline  # above it: the lid, and the sides down to the waterline
    above = 1.2 * 0.15 * (0.14 - line) - 1.196 * 0.146 * (0.138 - line)
    (share,) = [one.volume for one in her.need.shares if one.name == "hull"]
    assert share == pytest.approx(above, rel=0.03)


def test_what_is_left_of_an_angular_hull_is_said(tmp_path: Path) -> None:
    """Sections with edges: lead that would lie in an oval reaches into her sides."""
    _, answer = new(tmp_path / "her", "--mesh", str(put("lens", tmp_path)), "--name", "Knot")
    assert "2 things to put right before she floats on her waterline and dives" in answer
    assert "lead 2 sticks 2.6 mm out of the hull" in answer
    her = assess(tmp_path / "her" / "boat.toml")
    assert any(one.key == "room-skin" for one in her.first_findings)
    say = Say(her.boat)
    assert not [one for one in her.first_findings if " 0 cm³" in what_of(one, say)]


@pytest.mark.parametrize("kind", ["egg", "tower", "small", "fat", "large"])
def test_nothing_of_a_round_hull_shares_room(kind: str, tmp_path: Path) -> None:
    code, _ = new(tmp_path / "her", "--mesh", str(put(kind, tmp_path)), "--name", "Knot")
    assert code == 0
    her = assess(tmp_path / "her" / "boat.toml")
    assert her.scene.clashes() == ()
    assert [one.key for one in her.first_findings if one.key.startswith(("room", "out"))] == []
    under = [one for one in her.boat.lead if abs(one.x - her.boat.cylinders[0].x) < 0.2]
    tops = [one.z + (one.height or 0.0) / 2 for one in under]
    assert max(tops) < her.boat.cylinders[0].z - her.boat.cylinders[0].outside / 2


@pytest.mark.parametrize("kind", ["box", "cylinder", "egg", "tower"])
def test_she_floats_and_dives(kind: str, tmp_path: Path) -> None:
    file, folder = put(kind, tmp_path), tmp_path / "her"
    code, answer = new(folder, "--mesh", str(file), "--name", "Knot")
    assert code == 0, answer
    assert f"{kind}.stl is taken as her outside: 1200 mm long" in answer
    assert (folder / f"{kind}.stl").read_bytes() == file.read_bytes()
    her = assess(folder / "boat.toml")
    assert her.full.rest.under
    assert her.surfaced.gm_t > 0
    assert ("tower" in [region.name for region in her.boat.regions]) == (kind != "tower")
    assert abs(her.surfaced.draught(0.6) - her.boat.waterline.height_at(0.6)) < 0.004  # pyright: ignore
    wrong = [
        what_of(one)
        for one in her.first_findings
        if one.weight == "put right" and one.key != "guess-share"
    ]
    assert wrong == []


def test_unit_scale_and_length(tmp_path: Path) -> None:
    big = shape("egg")
    big.apply_scale(48.0 / 25.4)  # at full size of 1:48, in inches
    file = tmp_path / "big.stl"
    big.export(file)
    ways = (
        ("--mesh-unit", "in", "--drawn-at", "1:48"),
        ("--mesh-unit", "in", "--length", "3 ft 11 1/4 in"),
        ("--length", "1.2 m"),
    )
    for k, way in enumerate(ways):
        code, answer = new(tmp_path / str(k), "--mesh", str(file), *way, "--json")
        assert code == 0, answer
        her = assess(Path(json.loads(answer)["file"]))
        assert float(her.hull.skins[0].outer.bounds[1, 0]) == pytest.approx(1.2, rel=0.001)
    assert 'file_scale = "1:48"' in (tmp_path / "0" / "boat.toml").read_text("utf-8")


def test_other_axes_and_an_inside_out_mesh(tmp_path: Path) -> None:
    odd = shape("tower")
    odd.apply_transform(trimesh.transformations.rotation_matrix(math.pi / 2, [1, 0, 0]))
    odd.apply_transform(trimesh.transformations.rotation_matrix(math.pi / 2, [0, 0, 1]))
    file = tmp_path / "odd.stl"
    odd.export(file)
    code, answer = new(tmp_path / "a", "--mesh", str(file))
    assert code == 0, answer
    assert "1200 mm long" in answer
    assert "A tower is drawn with it" in answer


WRONG = {
    ("--mesh", "nowhere.stl"): "there is no such file",
    ("--mesh", "box.stl", "--mesh-unit", "kg"): "--mesh-unit",
    ("--mesh", "box.stl", "--mesh-unit", "m"): "is 1200 m long",
    ("--mesh", "box.stl", "--forward", "q"): "there is no axis 'q'",
    ("--mesh", "box.stl", "--forward", "x", "--up", "x"): "forward and up both lie along x",
    ("--mesh", "box.stl", "--repair", "paint"): "there is no repair 'paint'",
    ("--mesh", "box.stl", "--length", "9 3/4"): "has no length unit",
    ("--mesh", "box.stl", "--length", "0 mm"): "she has no length",
    ("--mesh", "box.stl", "--length", "1 m", "--drawn-at", "1:2"): "both set her size",
    ("--mesh", "box.stl", "--breadth", "100 mm"): "--breadth: the mesh has it already",
    ("--mesh", "box.stl", "--tape", "tape.toml"): "both describe her hull",
    ("--mesh", "open.stl"): "--repair cap",
    ("--mesh", "tape.toml"): "tape.toml",
    ("--mesh", "tiny.stl"): "Add --mesh-unit",
}


@pytest.mark.parametrize("said", WRONG, ids=[" ".join(one) for one in WRONG])
def test_bad_input_is_one_sentence_and_writes_nothing(
    said: tuple[str, ...], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    put("box", tmp_path)
    open_ = shape("egg")
    open_.update_faces([k != 5 for k in range(len(open_.faces))])
    open_.export(tmp_path / "open.stl")
    tiny = shape("box")
    tiny.apply_scale(0.01)
    tiny.export(tmp_path / "tiny.stl")
    (tmp_path / "tape.toml").write_text('length = "1 m"\n', "utf-8")
    code, answer = new(tmp_path / "her", *said)
    assert code == 2, answer
    assert WRONG[said] in answer
    assert not (tmp_path / "her").exists()
