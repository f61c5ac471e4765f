"""Forms of whole pieces: opened over a place, saved together and checked together, kept."""

import re
import tomllib
from collections.abc import Iterator
from itertools import product
from pathlib import Path

import pytest
from tests.page.conftest import BOATS, OWN, Page, page_of
from tests.page.entering import Form

from trimdive.boatfile.form import NEVER, surface_of, tables
from trimdive.boatfile.ref import Ref
from trimdive.boatfile.schema import schema
from trimdive.boatfile.tub import FIGURE
from trimdive.data import table as table_of
from trimdive.page.entries.choices import bare
from trimdive.page.entries.draft import Draft, begun
from trimdive.page.entries.view import groups_of

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


@pytest.mark.parametrize("name", [name for name in NAMES if "bought" in name])
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


def test_a_kind_is_changed_with_its_fields(plover: Page) -> None:
    form = press(plover, "edit tank[1]")
    was = form.fields
    form = press(plover, "look", form, kind="piston")
    assert "stroke" in form.choices or "entry:stroke" in form.held
    form = press(plover, "save", form, **(PISTON | {"bore": "60 mm"}))
    assert (form.wrong, form.top) == ({}, [])
    kept = file_of(plover)["tank"][0]
    assert kept["kind"] == "piston"
    assert kept.keys() >= PISTON.keys()
    assert not kept.keys() & {"x", "length"}
    assert was["length"]
    assert "changed" in plover.desk.steps[-1].says
    assert file_of(plover)["plant"][0]["kind"] == "piston"
    plover.press("undo")
    form = press(plover, "look", press(plover, "edit tank[1]"), kind="piston")
    held = {**PISTON, "bore": "60 mm", "plant then": "none"}
    assert not press(plover, "save", form, **held).is_there
    assert "plant" not in file_of(plover)


def test_a_cylinder_goes_with_what_lies_in_it(plover: Page) -> None:
    name = plover.desk.her.boat.cylinders[0].name
    plover.press("entry out cylinder[1]", place="bench")
    found = file_of(plover)
    assert "cylinder" not in found
    assert not [one for one in found["part"] if one.get("inside") == name]
    assert "tank" not in found
    assert "plant" not in found
    says = plover.desk.steps[-1].says
    assert says.startswith(f"{name} removed, and with it ")
    assert re.search(r", \w[^,]* and \d+ more$", says), "a few are named"
    plover.press("undo")
    assert plover.desk.written()[0] == (BOATS / "plover" / "boat.toml").read_text("utf-8")


def test_what_lies_in_a_cylinder_goes_along_with_it(plover: Page) -> None:
    before = plover.desk.her.boat
    form = press(plover, "edit cylinder[1]")
    assert not press(plover, "save", form, x="375 mm").is_there  # two millimetres forward
    after = plover.desk.her.boat
    moved = {new.name: new.x - old.x for old, new in zip(before.parts, after.parts, strict=True)}
    home = before.cylinders[0].name
    assert {name for name, far in moved.items() if far} == {
        part.name for part in before.parts if part.inside == home
    }
    assert {round(far, 6) for far in moved.values() if far} == {0.002}


def test_a_new_name_is_written_wherever_it_is_named(plover: Page) -> None:
    form = press(plover, "edit cylinder[1]")
    assert not press(plover, "save", form, name="dry box").is_there
    boat = plover.desk.her.boat
    assert {tank.inside for tank in boat.tanks} == {"dry box"}
    assert any(part.inside == "dry box" for part in boat.parts)


def test_a_form_left_half_filled_is_found_again(plover: Page) -> None:
    form = press(plover, "add tank kind=piston")
    held = form.typed(stroke="6 parsecs")
    gone = plover.client.get("/bench", params=held | {"place": "bench"})
    assert not Form(gone.text).is_there
    assert Form(plover.client.get("/scales").text).fields["stroke"] == "6 parsecs"
    form = Form(plover.press("undo", place="scales", **held))
    assert form.fields["stroke"] == "6 parsecs"
    form = press(plover, "cancel", form)
    assert not form.is_there
    assert not Form(plover.client.get("/scales").text).is_there


def test_what_was_changed_meanwhile_is_shown_and_then_yours_counts(plover: Page) -> None:
    form = press(plover, "edit cylinder[1]")
    edit = {"field": "cylinder[1].wall", "typed": "2.9 mm", "revision": str(plover.desk.revision)}
    plover.client.post("/edit", data=edit, headers=OWN | {"hx-request": "true"})
    assert file_of(plover)["cylinder"][0]["wall"] == "2.9 mm"
    answer = plover.press("entry save", place="scales", **form.typed(wall="2.8 mm"))
    assert "changed elsewhere meanwhile" in answer
    assert "<td>2.9 mm</td>" in answer
    assert file_of(plover)["cylinder"][0]["wall"] == "2.9 mm"
    assert not press(plover, "save", Form(answer)).is_there
    assert file_of(plover)["cylinder"][0]["wall"] == "2.8 mm"


def test_a_piece_removed_meanwhile_can_be_added_again(plover: Page) -> None:
    count = len(plover.desk.her.boat.lead)
    form = press(plover, "edit lead[1]")
    plover.press("entry out lead[1]", place="scales")
    form = press(plover, "save", form)
    assert form.top == ["It was removed meanwhile. Save it again to add it."]
    assert not press(plover, "save", form).is_there
    assert len(plover.desk.her.boat.lead) == count


def test_a_piece_that_moved_up_in_its_list_is_still_the_same(plover: Page) -> None:
    form = press(plover, "edit lead[2]")
    plover.press("entry out lead[1]", place="scales")
    second = file_of(plover)["lead"][0]
    assert not press(plover, "save", form, mass="7 g").is_there
    assert file_of(plover)["lead"][0] == {**second, "mass": "7 g"}


def test_rows_are_added_and_removed(plover: Page) -> None:
    form = press(plover, "edit cylinder[1]")
    form = press(plover, "look", form, fore_cap="true")
    form = press(plover, "more fore_cap.rings", form)
    form = press(plover, "more fore_cap.rings", form, **{"fore_cap__rings[1]__number": "228"})
    form = press(plover, "save", form, **{"fore_cap__rings[2]__number": "99999"})
    assert set(form.wrong) == {"fore_cap.rings[2].number"}
    form = press(plover, "less fore_cap.rings[2]", form)
    assert not press(plover, "save", form).is_there
    assert file_of(plover)["cylinder"][0]["fore_cap"] == {"rings": [{"number": "228"}]}


def test_what_is_wrong_in_another_piece_is_said_on_top_with_its_name(plover: Page) -> None:
    form = press(plover, "edit mark[1]", at="board")
    form = press(plover, "save", form, at="board", name=plover.desk.her.boat.marks[1].name)
    said = [*form.top, *form.wrong.values()]
    assert len(said) == 1
    assert "toml" not in said[0]
    assert "mark[" not in said[0]


@pytest.mark.parametrize("table", [key for key, one in tables().items() if one.is_list])
def test_an_empty_form_is_refused_in_a_builders_words(plover: Page, table: str) -> None:
    before = plover.desk.written()[0]
    form = press(plover, "save", press(plover, f"add {table}"))
    assert plover.desk.written()[0] == before
    assert form.is_there
    said = [*form.top, *form.wrong.values()]
    assert said
    for one in said:
        assert not re.search(r"toml|\[\d|line|[_=]|\[\[", one), one


def test_the_same_again_of_a_piece_with_tables_of_its_own(plover: Page) -> None:
    plover.press("entry double cylinder[1]", place="bench")
    first, second = file_of(plover)["cylinder"]
    assert second == {**first, "name": f"{first['name']} 2"}


def test_every_field_of_the_boat_file_can_be_entered(plover: Page) -> None:
    """But its format, which the program alone writes, and how figures are known by default."""
    reached: set[str] = set()
    for key, table in tables().items():
        for model in table.models or (None,):
            surface = surface_of(model) if model else ""
            draft = begun(plover.desk, Ref(key), "board", {"surface": surface} if surface else {})
            reached |= {f"{key}.{path}" for path in switched_on(plover, draft)}
    document = schema()
    assert reached >= {f"limits.{row['key']}" for row in table_of("limits")}
    for path in walked(document, document, ""):
        assert path in reached or path.partition(".")[2] in NEVER, path


def switched_on(page: Page, draft: Draft) -> set[str]:
    """Return the fields of a form of every kind, with every table, and a row in each."""
    found: set[str] = set()
    kinds = [[(key, one) for one in kinds_of(draft, key)] for key in draft.deciding]
    for kind in product(*kinds):
        draft.typed |= dict(kind)
        while True:
            shown = [one for group in groups_of(page.desk, draft) for one in group.all()]
            off = [one for one in shown if one.kind in ("table", "rows")]
            new = {one.path: "true" for one in off if one.kind == "table" and not one.value}
            new |= {f"{one.path}[1].": "" for one in off if one.kind == "rows" and not one.rows}
            paths = {bare(one.path) for one in shown if one.path}
            found |= paths | {path.rpartition(".")[0] for path in paths}  # a map is its fields
            if not new:
                break
            draft.typed |= new
    return found


def kinds_of(draft: Draft, key: str) -> list[str]:
    """Return what may be chosen in a field that decides which others there are."""
    fields = {one.key: one for one in draft.fields}
    return [*(fields[key].options if key in fields else FIGURE)]


def walked(whole: dict, node: dict, path: str) -> Iterator[str]:
    """Yield every field that a schema has, by its path without numbers."""
    if "$ref" in node:
        yield from walked(whole, whole["$defs"][node["$ref"].rpartition("/")[2]], path)
    for one in (*node.get("anyOf", ()), *node.get("oneOf", ())):
        yield from walked(whole, one, path)
    if isinstance(node.get("items"), dict):
        yield from walked(whole, node["items"], path)
    for key, one in node.get("properties", {}).items():
        inner = f"{path}.{key}" if path else key
        below = [*walked(whole, one, inner)]
        is_own = not path and key not in tables()
        yield from [f"boat.{key}"] if is_own else below or ([inner] if path else [])
