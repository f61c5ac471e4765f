"""The shelf: a new one, the last boat, names, and that nothing leaves it or is written over."""

import errno
import shutil
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest
from tests.cli.boats import SMALL
from tests.page.conftest import BOATS

from trimdive.errors import BoatFileError
from trimdive.page.shelf import FIRST, Shelf, demo, folder_name

ROOT = BOATS.parent


def test_a_new_shelf_holds_bittern_as_bought(tmp_path: Path) -> None:
    shelf = Shelf(tmp_path / "boats")
    file = shelf.begin()
    assert shelf.names() == (FIRST,)
    for one in (BOATS / FIRST).iterdir():
        assert (file.parent / one.name).read_bytes() == one.read_bytes()


def test_it_begins_with_the_boat_worked_on_last(tmp_path: Path) -> None:
    shelf = Shelf(tmp_path)
    first, other = shelf.begin(), shelf.put("Sprat", SMALL, {})
    shelf.remember_last(other)
    assert Shelf(tmp_path).begin() == other
    shutil.rmtree(other.parent)
    assert Shelf(tmp_path).begin() == first, "the last one was taken away"


def test_a_boat_beside_the_shelf_may_be_the_last_one(tmp_path: Path) -> None:
    shelf, elsewhere = Shelf(tmp_path / "shelf"), tmp_path / "elsewhere"
    shelf.begin()
    shutil.copytree(BOATS / "grebe", elsewhere)
    shelf.remember_last(elsewhere / "boat.toml")
    assert shelf.begin() == elsewhere / "boat.toml"
    assert shelf.name_of(elsewhere / "boat.toml") == ""


def test_what_the_builder_changed_is_never_written_over(tmp_path: Path) -> None:
    shelf = Shelf(tmp_path)
    file = shelf.begin()
    file.write_text("mine", "utf-8")
    (tmp_path / ".shelf.json").write_text("no json", "utf-8")
    assert shelf.begin() == file
    assert file.read_text("utf-8") == "mine"
    taken = [shelf.put("Sprat", SMALL, {}).parent.name for _ in range(3)]
    assert taken == ["sprat", "sprat-2", "sprat-3"]


@pytest.mark.parametrize(
    "name",
    ["..", ".", "", "../outside", "inside/../../outside", "/etc", "linked", "sprat/", "sprat\0"],
)
def test_no_name_leads_out_of_the_shelf(tmp_path: Path, name: str) -> None:
    shelf = Shelf(tmp_path / "shelf")
    shelf.put("Sprat", SMALL, {})
    outside = tmp_path / "outside"
    outside.mkdir()
    (outside / "boat.toml").write_text(SMALL, "utf-8")
    (shelf.folder / "linked").symlink_to(outside, target_is_directory=True)
    with pytest.raises(BoatFileError, match="no such boat"):
        shelf.file_of(name)


@pytest.mark.parametrize("name", ["../../etc/passwd", "..", "C:\\boats", "con", "a" * 400, "Ære 2"])
def test_every_name_makes_a_folder_on_the_shelf(tmp_path: Path, name: str) -> None:
    file = Shelf(tmp_path / "shelf").put(name, SMALL, {})
    assert file.parent.parent == tmp_path / "shelf"
    assert folder_name(name) == file.parent.name


@pytest.mark.parametrize("beside", ["../lines.csv", "sub/../../lines.csv"])
def test_nothing_beside_a_boat_leads_out_of_her_folder(tmp_path: Path, beside: str) -> None:
    shelf = Shelf(tmp_path / "shelf")
    with pytest.raises(BoatFileError, match="outside the boat's folder"):
        shelf.put("Sprat", SMALL, {beside: b"x"})
    assert not shelf.folder.exists() or not any(shelf.folder.iterdir())
    assert not (tmp_path / "lines.csv").exists()


def test_a_full_disk_is_said_and_leaves_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_: object) -> int:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr("trimdive.boatfile.together.os.fsync", full)
    with pytest.raises(BoatFileError, match="not saved: no space left on device"):
        Shelf(tmp_path).put("Sprat", SMALL, {"lines.csv": b"x"})
    assert list(tmp_path.iterdir()) == []


def test_an_installed_program_brings_its_demo_boats_and_places(tmp_path: Path) -> None:
    """As pip installs it: a wheel, unpacked away from the sources."""
    source = tmp_path / "source"
    source.mkdir()
    for name in ("pyproject.toml", "setup.py", "MANIFEST.in", "README.md", "LICENSE"):
        shutil.copy(ROOT / name, source / name)
    leave = shutil.ignore_patterns("__pycache__", "*.egg-info")
    for name in ("src", "boats"):
        shutil.copytree(ROOT / name, source / name, ignore=leave)
    build = [sys.executable, "-m", "pip", "wheel", "--quiet", "--no-deps", "--no-build-isolation"]
    subprocess.run([*build, "--wheel-dir", str(tmp_path), str(source)], check=True)
    with zipfile.ZipFile(next(tmp_path.glob("*.whl"))) as wheel:
        wheel.extractall(tmp_path / "installed")
    for folder in ("templates", "static"):
        own = ROOT / "src/trimdive/page" / folder
        packed = tmp_path / "installed/trimdive/page" / folder
        names = {str(one.relative_to(own)) for one in own.rglob("*") if one.is_file()}
        assert {str(one.relative_to(packed)) for one in packed.rglob("*") if one.is_file()} == names
    asked = "from trimdive.page.shelf import demo; print(demo())"
    answer = subprocess.run(
        [sys.executable, "-c", asked],
        env={"PYTHONPATH": str(tmp_path / "installed")},
        cwd=tmp_path,
        capture_output=True,
        text=True,
        check=True,
    )
    folder = Path(answer.stdout.strip())
    assert folder.is_relative_to(tmp_path / "installed")
    assert sorted(one.name for one in folder.iterdir()) == ["boat.toml", "lines.csv"]
    assert demo() == BOATS / FIRST
