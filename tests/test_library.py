"""trimdive as a library: its names, how cheap it is to load, boats made in Python."""

import dataclasses
import pydoc
import subprocess
import sys
import textwrap
from collections.abc import Callable, Mapping
from pathlib import Path

import numpy as np
import pytest

import trimdive as td
from trimdive import errors
from trimdive.records import is_equal

ROOT = Path(__file__).parents[1]
BOATS = ROOT / "boats"
SOURCE = ROOT / "src" / "trimdive"


def test_every_name_is_there_and_no_folder_has_the_same() -> None:
    assert sorted(td.__all__) == sorted(set(td.__all__))
    folders = {file.stem for file in SOURCE.iterdir()}
    for name in td.__all__:
        assert getattr(td, name).__doc__, name
        assert name not in folders, "the folder would take its place once it is loaded"
    assert set(td.__all__) <= set(dir(td))


def test_a_name_that_is_not_there_is_refused_as_python_does() -> None:
    with pytest.raises(AttributeError, match="has no attribute 'submarine'"):
        _ = td.submarine  # pyright: ignore[reportAttributeAccessIssue]
    with pytest.raises(ImportError):
        from trimdive import submarine  # pyright: ignore[reportAttributeAccessIssue]  # noqa: F401


def test_every_error_is_handed_out() -> None:
    family = {
        name
        for name, one in vars(errors).items()
        if isinstance(one, type) and issubclass(one, errors.TrimdiveError)
    }
    assert family <= set(td.__all__)
    assert len(family) > 5


def test_loading_it_loads_nothing_slow() -> None:
    program = "import sys, trimdive; print(*sorted(m for m in sys.modules if '.' not in m))"
    found = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True)
    loaded = set(found.stdout.split())
    assert "trimdive" in loaded
    assert not loaded & {"numpy", "numba", "scipy", "pydantic", "tomlkit"}


def test_types_are_told() -> None:
    assert (SOURCE / "py.typed").is_file()
    assert '"trimdive" = ["py.typed"]' in (ROOT / "pyproject.toml").read_text("utf-8")


def test_its_help_is_a_page_to_learn_from() -> None:
    page = pydoc.plain(pydoc.render_doc(td))
    for word in ("td.assess(", "TrimdiveError", "docs/library.md", "class Assessment", "SI"):
        assert word in page, word


@pytest.mark.parametrize("name", ["plover", "grebe"])
def test_a_boat_is_the_same_by_her_file_her_folder_and_as_a_boat(name: str) -> None:
    loaded = td.load(BOATS / name)
    assert loaded.path == BOATS / name / "boat.toml"
    assert loaded.boat == td.load(str(BOATS / name / "boat.toml")).boat
    her = td.assess(loaded)
    again = td.assess(loaded.boat, beside=BOATS / name)
    assert again.boat == her.boat
    assert again.files == her.files
    assert td.assess(loaded.boat, beside=her.files).files == her.files


def test_a_boat_made_in_python_needs_what_she_names() -> None:
    boat = td.load(BOATS / "plover").boat
    for beside in (None, BOATS / "bittern", {}):
        with pytest.raises(td.BoatFileError, match=r"no file 'stern\.stl' beside her\. .*beside=…"):
            td.assess(boat, beside=beside)


def test_a_folder_without_a_boat_says_what_to_name(tmp_path: Path) -> None:
    with pytest.raises(td.BoatFileError, match=r"there is no boat\.toml in this folder"):
        td.load(tmp_path)


MADE: dict[str, tuple[Callable[[], object], type[td.TrimdiveError], str]] = {
    "a mass below zero": (
        lambda: td.Part(name="battery", mass=-1),
        td.BoatError,
        "part 'battery': mass: -1 is less than 0. Write 0 or more.",
    ),
    "a length for a mass": (
        lambda: td.Part(name="battery", mass="12 mm"),  # pyright: ignore[reportArgumentType]
        td.UnitError,
        "part 'battery': mass: '12 mm' is a length, not a mass.",
    ),
    "a word of the trade": (
        lambda: td.Lead(name="keel", weight=1),  # pyright: ignore[reportCallIssue]
        td.BoatError,
        "lead 'keel': weight: there is no field 'weight' here. Did you mean 'mass'?",
    ),
    "too much by far": (
        lambda: td.Tank(name="tank", length=1e6),
        td.UnitError,
        "tank 'tank': length: '1000000.0' is more than a model boat can have.",
    ),
    "no name": (lambda: td.Foam(mass=-1), td.BoatError, "foam: mass: -1 is less than 0."),
    "missing": (
        lambda: td.Cylinder(name="after", wall=0.003, length=0.2),  # pyright: ignore[reportCallIssue]
        td.BoatError,
        "cylinder 'after': 'outside' is missing.",
    ),
    "a region": (
        lambda: td.MeshRegion(name="bow", surface="mesh", fil="x"),  # pyright: ignore[reportCallIssue]
        td.BoatError,
        "region 'bow': fil: there is no field 'fil' here. Did you mean 'file'?",
    ),
}


@pytest.mark.parametrize("case", list(MADE))
def test_a_piece_made_in_python_names_its_field(case: str) -> None:
    make, kind, begin = MADE[case]
    with pytest.raises(kind) as refused:
        make()
    assert str(refused.value).startswith(begin)


def test_a_boat_made_in_python_names_piece_and_field() -> None:
    parts = (
        td.Part(name="battery", mass=0.2),
        td.Part(name="motor", mass=0.1, x=0.1, z=0.1, inside="tin", shape="box", length=0.05),
        td.Part(mass=0.1, x=0.1, z=0.1),
    )
    with pytest.raises(td.BoatError) as refused:
        td.assess(td.Boat(name="Sprat", parts=parts))
    answer = refused.value.sentences
    assert answer[0] == 'part[3]: the part has no name. Give name = "…"'
    assert "part 'battery': it has no place along the boat. Add x, x_aft or x_fore." in answer
    assert "part 'motor': inside: there is no cylinder 'tin'. Known: none." in answer
    assert not isinstance(refused.value, td.BoatFileError)


HOLDS = (tuple, list, frozenset)


def records(value: object, seen: dict[int, object]) -> None:
    """Gather every record that can be come at from a value."""
    if id(value) in seen or isinstance(value, np.ndarray | np.generic | str | bytes):
        return
    seen[id(value)] = value
    if isinstance(value, Mapping):
        for entry in value.values():
            records(entry, seen)
    elif isinstance(value, HOLDS) and not hasattr(value, "_fields"):
        for entry in value:
            records(entry, seen)
    elif dataclasses.is_dataclass(value):
        for field in dataclasses.fields(value):
            records(getattr(value, field.name), seen)
    else:
        names = getattr(value, "_fields", None) or getattr(type(value), "model_fields", ())
        for name in names:
            records(getattr(value, name), seen)


def test_every_record_is_short_to_look_at_and_equal_to_its_copy(plover: td.Assessment) -> None:
    her = td.Assessment(boat=plover.boat, files=plover.files)  # of whom nobody asked anything yet
    seen: dict[int, object] = {}
    for name in dir(her):
        if not name.startswith("__") and not callable(value := getattr(her, name)):
            records(value, seen)
    seen[id(her)] = her
    found = [one for one in seen.values() if type(one).__module__.startswith("trimdive.")]
    kinds = {type(one).__name__ for one in found}
    assert {"Assessment", "Boat", "State", "Mesh", "Floater", "Ledger", "Uncertainty"} <= kinds
    long = {type(one).__name__: len(repr(one)) for one in found if len(repr(one)) >= 300}
    assert long == {}
    for one in {type(one): one for one in found}.values():
        assert one == copied(one), type(one)


def copied(one: object) -> object:
    """Return a record of the same with every array copied."""
    if isinstance(one, np.ndarray):
        return one.copy()
    if isinstance(one, tuple) and hasattr(one, "_fields"):
        return type(one)(*map(copied, one))
    if isinstance(one, tuple):
        return tuple(map(copied, one))
    if dataclasses.is_dataclass(one) and type(one).__eq__ is is_equal:
        fields = {f.name: copied(getattr(one, f.name)) for f in dataclasses.fields(one)}
        return dataclasses.replace(one, **fields)  # pyright: ignore[reportArgumentType]
    return one


def test_an_assessment_is_equal_by_boat_and_files_and_has_no_hash(plover: td.Assessment) -> None:
    her = td.assess(plover.boat, beside=plover.files)
    assert her is not plover
    assert her == plover
    assert her != td.Assessment(boat=plover.boat, files={})
    assert her != plover.boat
    with pytest.raises(TypeError, match="unhashable type: 'Assessment'"):
        hash(plover)
    with pytest.raises(TypeError, match="unhashable: State holds arrays"):
        hash(plover.surfaced)
    with pytest.raises(dataclasses.FrozenInstanceError):
        plover.boat = her.boat  # pyright: ignore[reportAttributeAccessIssue]


def test_states_differ_by_what_they_hold(plover: td.Assessment) -> None:
    first, again = plover.surfaced, plover.at(plover.blown_water)
    assert first is not again
    assert first == again
    assert first != plover.full
    assert first != "State"
    assert repr(first).startswith("State(rest=Rest(…), displacement_mass=")
    assert repr(plover).startswith("Assessment(Boat(name='Plover'")


REFUSED: dict[str, tuple[Callable[[td.Assessment], object], str]] = {
    "a name near another": (
        lambda her: her.with_piece("batery", x=0.3),
        "Plover: there is no piece 'batery'. Did you mean 'battery' or 'stern'?",
    ),
    "a name near none": (
        lambda her: her.without("zzzz"),
        "Plover: there is no piece 'zzzz'. She has 'stern', 'middle', 'bow', 'fin', 'paint',",
    ),
    "a field near another": (
        lambda her: her.with_piece("battery", lenght=0.3),
        "part 'battery': lenght: there is no field 'lenght' here. Did you mean 'length'?",
    ),
    "a figure": (
        lambda her: her.with_piece("battery", mass=-0.3),
        "part 'battery': mass: -0.3 is less than 0. Write 0 or more.",
    ),
    "what others need": (
        lambda her: her.without("cylinder"),
        "tank 'tank': inside: there is no cylinder 'cylinder'. Known: none.",
    ),
    "no piece": (
        lambda her: her.with_added(her.boat.units),
        "added: Units(length='mm', mass='g', volume='cm³') is no piece that a boat has.",
    ),
    "no picture": (
        lambda her: td.show(her, "side"),  # pyright: ignore[reportArgumentType]
        "show: there is no picture 'side'. Ask for a State, or one of: surfaced, full, dived,",
    ),
    "no column": (
        lambda her: td.plot({"her": her.dive_table()}, y="gm"),
        "plot: there is no column of figures 'gm'. Known: share, filling,",
    ),
    "no column of figures": (
        lambda her: td.plot({"her": her.parts_table()}, x="name", y="x_m"),
        "plot: there is no column of figures 'name'.",
    ),
    "too many curves": (
        lambda her: td.plot(dict.fromkeys("abcde", her.dive_table())),
        "plot: 5 curves. Give 1 to 4 tables.",
    ),
}


@pytest.mark.parametrize("case", list(REFUSED))
def test_what_cannot_be_asked_is_refused_with_a_mend(case: str, plover: td.Assessment) -> None:
    ask, begin = REFUSED[case]
    with pytest.raises(td.BoatError) as refused:
        ask(plover)
    assert str(refused.value).startswith(begin)


def test_a_name_that_two_have_is_asked_for_by_its_place(plover: td.Assessment) -> None:
    boat = plover.boat
    lead = td.Lead(name="motor", mass=0.05, x=0.3, z=0.02)
    with pytest.raises(td.BoatError, match="'motor' is the name of"):
        plover.with_added(lead)
    both = td.Assessment(boat=boat.model_copy(update={"lead": (lead,)}), files=plover.files)
    with pytest.raises(td.AskError, match=r"part\[4\] and lead\[1\] are both called 'motor'"):
        both.with_piece("motor", x=0.2)


def test_pieces_of_every_kind_are_changed(plover: td.Assessment) -> None:
    """Weight and moment go by what was changed, by hand: 100 g more at so many metres."""
    before = plover.masses
    names = {
        "stern": None,
        "cylinder": None,
        "battery": 0.3,
        "lead on the floor of the cylinder": 0.2901,
    }
    for name, x in names.items():
        old = next(one for one in before.entries if one.name == name)
        after = plover.with_piece(name, mass=old.mass + 0.1).masses
        assert after.mass == pytest.approx(before.mass + 0.1)
        moment = float(after.moment[0] - before.moment[0])
        assert moment == pytest.approx(0.1 * float(old.place[0]))
        assert x is None or moment == pytest.approx(0.1 * x)
    tank = plover.boat.tanks[0]
    longer = plover.with_piece("tank", length=1.1 * tank.length)
    assert longer.floater.tanks.capacities[0] == pytest.approx(
        1.1 * plover.floater.tanks.capacities[0]
    )
    paint = next(one for one in before.entries if one.name == "paint")
    assert plover.without("paint").masses.mass == pytest.approx(before.mass - paint.mass)
    assert plover.with_piece("battery", x_aft=0.25).boat.parts[2].x == pytest.approx(
        0.25 + 0.105 / 2
    )
    assert plover.boat == td.load(BOATS / "plover").boat


@pytest.mark.parametrize("kind", [np.float64, np.float32, np.int64])
def test_a_figure_of_an_array_is_a_figure(kind: type, plover: td.Assessment) -> None:
    mass = np.array([0, 1], dtype=kind)[1]
    assert plover.with_piece("battery", mass=mass).boat.parts[2].mass == 1.0
    with pytest.raises(td.UnitError, match=r"battery': mass: array\(\[0, 1\]\) is not a mass"):
        plover.with_piece("battery", mass=np.array([0, 1]))
    with pytest.raises(td.UnitError, match="True is not a mass"):
        plover.with_piece("battery", mass=True)


def test_a_tank_goes_along_with_its_cylinder(plover: td.Assessment) -> None:
    home, tank = plover.boat.cylinders[0], plover.boat.tanks[0]
    raised = plover.with_piece("cylinder", z=home.z + 0.004).boat.tanks[0]
    assert raised.z == pytest.approx(tank.z + 0.004)
    thicker = plover.with_piece("cylinder", wall=home.wall + 0.0005).boat.tanks[0]
    assert thicker.bore == pytest.approx(tank.bore - 0.001)


def test_a_table_is_a_dict_and_shows_itself(plover: td.Assessment) -> None:
    parts = plover.parts_table()
    assert isinstance(parts, dict)
    assert (
        {len(column) for column in parts.values()} == {parts.rows} == {len(plover.masses.entries)}
    )
    shown = parts._repr_html_()  # pyright: ignore[reportPrivateUsage]
    assert shown.count("<tr>") == 1 + parts.rows
    assert "<td>battery</td>" in shown
    long = plover.dive_table()
    assert long._repr_html_().count("<tr>") == 1 + 61 < long.rows  # pyright: ignore[reportPrivateUsage]
    for one in (parts, long, plover.findings_table(), td.show(plover)):
        assert len(repr(one)) < 300
    assert plover.findings_table().rows == len(plover.findings)
    assert {"stands", "unit", "at_most", "at_least"} <= set(plover.findings_table())
    odd = td.Table({"a<b": np.array(["<script>"])})
    assert "<script>" not in odd._repr_html_()  # pyright: ignore[reportPrivateUsage]
    assert "a<b" not in odd._repr_html_()  # pyright: ignore[reportPrivateUsage]


def test_the_example_of_its_help_runs(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)
    text = str(td.__doc__).partition("::\n\n")[2].partition("\n\nInside everything")[0]
    names: dict[str, object] = {}
    exec(textwrap.dedent(text), names)
    assert isinstance(names["picture"], td.Picture)
