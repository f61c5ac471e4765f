"""Saving: whole or not at all, the previous version kept, nobody's changes lost."""

import stat
from pathlib import Path

import pytest

from trimdive.boatfile import load, previous_of, save, save_new, set_value, together
from trimdive.errors import BoatFileError, UnitError


def test_the_new_text_is_there_and_the_previous_one_beside_it(file: Path) -> None:
    loaded = load(file)
    file.chmod(0o640)
    saved = save(loaded, set_value(loaded.text, "name", "Second"))
    assert load(file) == saved
    assert saved.boat.name == "Second"
    assert previous_of(file).read_text("utf-8") == loaded.text
    assert stat.S_IMODE(file.stat().st_mode) == 0o640
    assert sorted(entry.name for entry in file.parent.iterdir()) == [
        "boat.previous.toml",
        "boat.toml",
    ]
    again = save(saved, set_value(saved.text, "name", "Third"))
    assert (load(file).boat.name, again.boat.name) == ("Third", "Third")


def test_what_somebody_else_changed_is_not_overwritten(file: Path) -> None:
    loaded = load(file)
    theirs = loaded.text + "# theirs\n"
    file.write_text(theirs, encoding="utf-8")
    with pytest.raises(BoatFileError, match="it was changed on disk since it was read"):
        save(loaded, set_value(loaded.text, "name", "Mine"))
    assert file.read_text("utf-8") == theirs
    assert not previous_of(file).exists()


def test_a_text_with_a_mistake_is_not_saved(file: Path) -> None:
    loaded = load(file)
    with pytest.raises(UnitError, match=r"tank\[1\].x"):
        save(loaded, set_value(loaded.text, "tank[1].x", "3 kg"))
    assert file.read_text("utf-8") == loaded.text


def test_a_disk_that_is_full_leaves_the_file_as_it_was(
    file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    loaded = load(file)
    monkeypatch.setattr(together.os, "fsync", full)
    with pytest.raises(BoatFileError, match="not saved: no space left on device"):
        save(loaded, set_value(loaded.text, "name", "Mine"))
    assert [entry.name for entry in file.parent.iterdir()] == ["boat.toml"]
    assert file.read_text("utf-8") == loaded.text


def test_a_link_stays_a_link(file: Path) -> None:
    link = file.with_name("link.toml")
    link.symlink_to(file)
    save(load(link), set_value(load(link).text, "name", "Through"))
    assert link.is_symlink()
    assert load(file).boat.name == "Through"


def test_a_new_file_is_never_put_over_another(file: Path, text: str) -> None:
    with pytest.raises(BoatFileError, match="there is such a file already"):
        save_new(file, text)
    assert save_new(file.with_name("copy.toml"), text).boat == load(file).boat
    with pytest.raises(BoatFileError, match="not saved"):
        save_new(file.parent / "nowhere" / "boat.toml", text)
