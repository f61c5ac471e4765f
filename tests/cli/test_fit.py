"""``trimdive fit``: what comes out of the demo boats and what does not, and how it is told.

Source: the demo boats, invented: the casing of Bittern as bought opens 560 mm, her cylinders are
612 mm long.
"""

import json
from pathlib import Path

import numpy as np
import pytest
from tests.cli.compared import documented_keys, keys_in
from typer.testing import CliRunner

from trimdive.assessment import Assessment, assess
from trimdive.cli.app import app
from trimdive.fit.hatches import opened
from trimdive.fit.out import Out
from trimdive.fit.ways import between
from trimdive.geometry.clashes.solids import Solid
from trimdive.geometry.lines.mesh import Mesh
from trimdive.geometry.meshes.solid import solid_of

ROOT = Path(__file__).parents[2]
IN_ORDER = ("bittern", "grebe", "plover")


def once(name: str) -> Assessment:
    """Return a demo boat, assessed once for all tests."""
    return assess(ROOT / "boats" / name / "boat.toml")


def run(*words: str, status: int = 0) -> str:
    result = CliRunner().invoke(app, ["fit", *words])
    assert result.exit_code == status, result.output
    return result.output


@pytest.mark.parametrize("name", IN_ORDER)
def test_every_large_thing_comes_out_of_a_boat_in_order(name: str) -> None:
    her = once(name)
    assert her.fit.outs
    for one in her.fit.outs:
        assert one.way is not None, one.name


@pytest.mark.parametrize("name", IN_ORDER)
def test_on_its_way_out_a_thing_passes_through_no_wall(name: str) -> None:
    """Judged by manifold3d: no more is shared with the walls anywhere than where it lies."""
    her = once(name)
    state = opened(her.boat, her.hull, her.scene.aboard, her.boat.hatches)
    for one in her.fit.outs:
        thing = next(solid for solid in her.scene.aboard.solids if solid.path == one.path)
        standing = [solid_of(mesh, "wall") for mesh in state.walls]
        for box in state.shafts:
            standing = [wall - solid_of(box.surface, "hatch") for wall in standing]
        shares = [
            sum((solid_of(mesh, "thing") ^ wall).volume() for wall in standing)
            for mesh in on_the_way(one, thing)
        ]
        assert max(shares) <= shares[0] + 2e-8  # 0.02 cm³: the field is right to 0.2 mm


def on_the_way(one: Out, thing: Solid) -> list[Mesh]:
    """Return a thing all along its way out."""
    assert one.way is not None
    middle, found = np.array(thing.shape.place), []
    legs = zip(one.way.poses[:-1], one.way.poses[1:], strict=True)
    for pose in np.concatenate([between(*leg) for leg in legs])[::3]:
        s, c = np.sin(pose[3]), np.cos(pose[3])
        turn = np.array([[c, 0.0, -s], [0.0, 1.0, 0.0], [s, 0.0, c]])
        mesh = thing.shape.surface
        moved = (mesh.vertices - middle) @ turn.T + middle + pose[:3]
        found.append(Mesh(vertices=moved, triangles=mesh.triangles))
    return found


def test_the_cylinders_of_bittern_as_bought_do_not_come_out() -> None:
    her = once("bittern-as-bought")
    for one in her.fit.outs:
        assert one.name in ("forward cylinder", "after cylinder")
        assert one.way is None
        assert one.is_sure
        assert one.cut is not None
        assert one.cut.opens == pytest.approx(0.56)
        assert one.cut.needs is not None
        assert one.cut.needs > 0.612
    text = run(str(ROOT / "boats" / "bittern-as-bought"), status=1)
    assert "does not come out: the opening of casing hatch is 560 mm long" in " ".join(text.split())


def test_foam_over_a_cylinder_comes_out_first() -> None:
    (one,) = once("grebe").fit.outs
    assert one.first
    assert all(name.startswith("foam") for name in one.first)
    text = " ".join(run(str(ROOT / "boats" / "grebe")).split())
    assert f"comes out once {len(one.first)} other things are out" in text


def test_every_key_is_told() -> None:
    found = json.loads(run(str(ROOT / "boats" / "grebe"), "--json"))
    own = ("comes_out", "gaps", "largest_cylinders", "room_left_m3", "largest_tubes", "sections")
    own = (*own, "foam_room_m3", "lead_room_m3", "saddles")
    keys = keys_in({key: found[key] for key in own})
    told = {key for key in documented_keys("fit") if not key.startswith("tube.")}
    empty = {"comes_out[].in_the_way", "comes_out[].opening_edges_m", "comes_out[].also_in_the_way"}
    clear = {"saddles[].in_the_way"}  # of one of her two
    assert {key.replace("[][]", "[]") for key in keys} - told == empty | clear
    nested = {"comes_out[].poses_m_rad[]", "largest_tubes.outside_m[]"}
    listed = {f"{key}[]" for key in empty} | nested | {"files[]"}
    assert {key for key in told - keys if not key.startswith("findings")} == listed


def test_a_tube_that_goes_in_and_one_that_does_not() -> None:
    boat = str(ROOT / "boats" / "bittern")
    found = json.loads(run(boat, "--outside", "4.5 in", "--length", "2 ft", "--json"))["tube"]
    told = {key for key in documented_keys("fit") if key.startswith("tube.")}
    assert {f"tube.{key}" for key in found} == told
    assert found["goes_in"]
    assert found["x_from_m"] <= found["x_m"] <= found["x_to_m"]
    assert found["z_from_m"] < found["z_m"] < found["z_to_m"]
    (one,) = [one for one in once("bittern").fit.largest if one.length > 0.6][:1]
    sizes = ("--length", f"{one.length} m", "--outside")
    assert "goes in nowhere" in run(boat, *sizes, f"{one.diameter + 2e-3} m")
    assert "goes in. Most room" in run(boat, *sizes, f"{one.diameter - 1e-3} m")


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        (["--outside", "3"], "a tube needs both its sizes. Add its length"),
        (["--length", "3"], "a tube needs both its sizes. Add its outside"),
        (["--outside", "3", "--length", "-2"], "a tube has some size. Write one above zero"),
        (["--outside", "3 g", "--length", "2"], "Write a number and one of"),
    ],
)
def test_a_tube_of_no_size_is_refused_in_a_sentence(typed: list[str], says: str) -> None:
    assert says in " ".join(run(str(ROOT / "boats" / "plover"), *typed, status=2).split())


def test_hatches_are_told_in_the_order_of_opening(tmp_path: Path) -> None:
    text = (ROOT / "boats" / "plover" / "boat.toml").read_text("utf-8")
    for file in (ROOT / "boats" / "plover").iterdir():
        if file.is_file():
            (tmp_path / file.name).write_bytes(file.read_bytes())
    waits = 'name = "bow section"\nafter = ["fin"]\ntools = true'
    fin = '[[hatch]]\nname = "fin"\noff = ["fin"]\n\n[[coat]]'
    (tmp_path / "boat.toml").write_text(
        text.replace('name = "bow section"', waits).replace("[[coat]]", fin, 1), "utf-8"
    )
    said = " ".join(run(str(tmp_path)).split())
    assert "Tried with fin, then bow section (with a tool) open." in said
    found = json.loads(run(str(tmp_path), "--json"))
    assert found["comes_out"][0]["open"] == ["fin", "bow section"]


def test_a_cylinder_that_lies_too_near_to_the_skin_is_named() -> None:
    said = " ".join(run(str(ROOT / "boats" / "plover")).split())
    assert "Cylinder touches stern 206 mm from the stern." in said
    assert "clear of" not in " ".join(run(str(ROOT / "boats" / "bittern")).split())


def test_without_a_hatch_it_says_what_to_enter(tmp_path: Path) -> None:
    text = (ROOT / "boats" / "grebe" / "boat.toml").read_text("utf-8")
    start, end = text.index("[[hatch]]"), text.index("[[coat]]")
    for file in (ROOT / "boats" / "grebe").iterdir():
        if file.is_file():
            (tmp_path / file.name).write_bytes(file.read_bytes())
    (tmp_path / "boat.toml").write_text(text[:start] + text[end:], "utf-8")
    assert "No hatch is entered" in run(str(tmp_path))


def test_a_hatch_that_nobody_can_open_is_refused_in_a_sentence(tmp_path: Path) -> None:
    text = (ROOT / "boats" / "grebe" / "boat.toml").read_text("utf-8")
    for file in (ROOT / "boats" / "grebe").iterdir():
        if file.is_file():
            (tmp_path / file.name).write_bytes(file.read_bytes())
    wrong = text.replace('off = ["casing", "tower"]', 'off = ["casin"]')
    (tmp_path / "boat.toml").write_text(wrong, "utf-8")
    said = " ".join(run(str(tmp_path), status=2).split())
    assert "there is no region 'casin'" in said
    assert "Did you mean 'casing'?" in said
