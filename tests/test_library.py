"""trimdive as a library: its names, how cheap it is to load, boats made in Python."""

import pydoc
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

import trimdive as td
from trimdive import errors

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
    told = refused.value.sentences
    assert told[0] == 'part[3]: the part has no name. Give name = "…"'
    assert "part 'battery': it has no place along the boat. Add x, x_aft or x_fore." in told
    assert "part 'motor': inside: there is no cylinder 'tin'. Known: none." in told
    assert not isinstance(refused.value, td.BoatFileError)
