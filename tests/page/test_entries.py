"""Forms of whole pieces: opened over a place, saved together and checked together, kept."""

import tomllib
from pathlib import Path

import pytest
from tests.page.conftest import BOATS, Page, page_of
from tests.page.entering import Form

from trimdive.boatfile.ref import Ref

NAMES = sorted(folder.name for folder in BOATS.iterdir() if (folder / "boat.toml").is_file())
PISTON = {"bore": "20 mm", "stroke": "60 mm", "runs": "forward", "water_end": "300 mm"}


def press(
    page: Page, deed: str, form: Form | None = None, at: str = "scales", **typed: str
) -> Form:
    """Press a button of a form, with what stands in it, and return the form as it is then."""
    held = form.typed(**typed) if form else {}
    return Form(page.press(f"entry {deed}", place=at, **held))


def file_of(page: Page) -> dict:
    """Return what the boat file holds as it is shown."""
    return tomllib.loads(page.desk.written()[0])


def refs(page: Page) -> list[str]:
    """Return every piece of a boat file, as it is written."""
    found = file_of(page)
    listed = {key: held for key, held in found.items() if isinstance(held, list)}
    every = [str(Ref(key, n)) for key, held in listed.items() for n in range(1, len(held) + 1)]
    return [*every, *(key for key, held in found.items() if isinstance(held, dict)), "boat"]


@pytest.fixture
def plover(tmp_path: Path) -> Page:
    """Return the page of Plover, opened, with her file where it may be written."""
    file = tmp_path / "boat.toml"
    for one in (BOATS / "plover").iterdir():
        if one.is_file():
            (tmp_path / one.name).write_bytes(one.read_bytes())
    return page_of(file).enter()


def test_a_piston_tank_is_added_at_once(plover: Page) -> None:
    form = press(plover, "add tank kind=piston")
    assert form.is_there
    assert form.fields["kind"] == "piston"
    home = plover.desk.her.boat.cylinders[0].name
    form = press(plover, "save", form, name="trim tank", inside=home, **PISTON)
    assert not form.is_there
    assert file_of(plover)["tank"][-1] == {
        "kind": "piston", "name": "trim tank", "inside": home, **PISTON,
    }  # fmt: skip
    assert plover.desk.steps[-1].says == "trim tank added"
    plover.press("undo")
    assert plover.desk.written()[0] == (BOATS / "plover" / "boat.toml").read_text("utf-8")


def test_what_is_missing_is_said_beside_each_field(plover: Page) -> None:
    before = plover.desk.written()[0]
    form = press(plover, "add tank kind=piston")
    home = plover.desk.her.boat.cylinders[0].name
    form = press(plover, "save", form, name="trim tank", inside=home, stroke="6 parsecs")
    assert set(form.wrong) == {"stroke"}
    assert form.fields["stroke"] == "6 parsecs"
    form = press(plover, "save", form, stroke="")
    assert form.wrong == dict.fromkeys(("water_end", "stroke", "runs"), "A piston tank needs it.")
    assert form.top == []
    assert plover.desk.written()[0] == before
    assert len(plover.desk.steps) == 1


def test_what_is_wrong_in_a_fold_opens_it(plover: Page) -> None:
    form = press(plover, "edit cylinder[1]")
    assert form.open_folds == []
    form = press(plover, "save", form, caps__thickness="thick")
    assert set(form.wrong) == {"caps.thickness"}
    assert form.open_folds == ["fold-caps"]


@pytest.mark.parametrize("name", NAMES)
def test_a_form_saved_as_it_is_leaves_the_file_as_it_is(name: str) -> None:
    page = page_of(BOATS / name / "boat.toml").enter()
    before = page.desk.written()[0]
    for ref in refs(page):
        form = press(page, f"edit {ref}")
        assert form.is_there, ref
        form = press(page, "save", form)
        assert (form.is_there, form.wrong, form.top) == (False, {}, []), ref
        assert page.desk.written()[0] == before, ref
    assert len(page.desk.steps) == 1
