"""Edits leave every other line alone; what is written is read back the same."""

import difflib
import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trimdive.boatfile import (
    Boat,
    Cylinder,
    Foam,
    Lead,
    Mark,
    Part,
    PrismRegion,
    Units,
    append,
    checked,
    load,
    parse,
    remove,
    set_value,
    text_of,
)
from trimdive.boatfile.edits import with_values
from trimdive.errors import BoatFileError
from trimdive.units import Spread


def changed(before: str, after: str) -> tuple[list[str], list[str]]:
    """Return the lines that went and the lines that came."""
    rows = list(difflib.ndiff(before.splitlines(), after.splitlines()))
    gone = [row[2:] for row in rows if row.startswith("- ")]
    return gone, [row[2:] for row in rows if row.startswith("+ ")]


@pytest.mark.parametrize(
    ("place", "value", "gone", "came"),
    [
        ("tank[1].x", "1 m", ["x = 1520"], ['x = "1 m"']),
        ("part[1].x_fore", 610, ["x_fore = 600     # from the bow: easier to reach"],
         ["x_fore = 610     # from the bow: easier to reach"]),
        ("waterline.height", "155 mm", ["height = 154"], ['height = "155 mm"']),
        ("lead[2].mass", 510, ["mass = 500"], ["mass = 510"]),
        ("limits.gm-least", "5 mm", ['gm-least = "4 mm"'], ['gm-least = "5 mm"']),
        ("tank[1].order", 2, [], ["order = 2"]),
        ("lead[1].name", 'keel "1"', [], ['name = "keel \\"1\\""']),
        ("note", "after the pond", [], ['note = "after the pond"']),
        ("full_size.length", "46.0 m", [], ["", "[full_size]", 'length = "46.0 m"']),
        ("coat[1].on", ["hull"], ['on = ["hull", "tower"]'], ['on = ["hull"]']),
    ],
)  # fmt: skip
def test_one_field_changes_only_its_line(
    place: str, value: str | int | list[str], gone: list[str], came: list[str], text: str
) -> None:
    edited = set_value(text, place, value)
    assert changed(text, edited) == (gone, came)
    holder = tomllib.loads(edited)
    for step in place.replace("]", "").replace("[", ".").split("."):
        holder = holder[int(step) - 1] if step.isdecimal() else holder[step]
    assert holder == value


def test_several_fields_are_set_added_and_left_out_as_one_by_one(text: str) -> None:
    one_by_one = set_value(remove(set_value(text, "tank[1].x", "1 m"), "lead[2].mass"), "note", "x")
    values: dict[str, str | None] = {
        "tank[1].x": "1 m", "lead[2].mass": None, "note": "x", "lead[1].y": None,
    }  # fmt: skip
    assert with_values(text, values) == one_by_one
    assert with_values(text.replace("\n", "\r\n"), values) == one_by_one.replace("\n", "\r\n")
    with pytest.raises(BoatFileError):
        with_values(text, {"tank[9].x": "1 m"})
    with pytest.raises(BoatFileError):
        with_values("name = ", {"name": "x"})


def test_a_new_piece_stands_after_its_like(text: str) -> None:
    edited = append(text, "lead", {"mass": "230 g", "x": "812 mm", "z": "15 mm"})
    gone, came = changed(text, edited)
    assert gone == []
    assert [row for row in came if row] == [
        "[[lead]]", 'mass = "230 g"', 'x = "812 mm"', 'z = "15 mm"',
    ]  # fmt: skip
    assert [piece.mass for piece in parse(edited).lead] == [0.38, 0.5, 0.23]
    first = append('format = 1\nname = "x"\n', "lead", {"mass": "1 g", "x": "1 mm", "z": "1 mm"})
    assert len(parse(first).lead) == 1


def test_a_piece_goes_with_its_comment_and_leaves_the_next_one_its_own(text: str) -> None:
    gone, came = changed(text, remove(text, "lead[1]"))
    assert (gone[:2], came) == (["# Keel lead, aft first.", "[[lead]]"], [])
    gone, came = changed(text, remove(text, "cylinder[1]"))
    assert came == []
    assert "# The tank that the pump fills." not in gone
    assert len(parse(remove(text, "mark[1]")).marks) == 0
    assert parse(remove(text, "tank[1].lost")).tanks[0].lost == 0.0


@pytest.mark.parametrize(
    "place", ["tank[9].x", "tank[0].x", "", "tank[1", "lead[9]", "part[1].colour", "nothing"]
)
def test_what_is_not_there_cannot_be_taken_out(place: str, text: str) -> None:
    with pytest.raises(BoatFileError):
        remove(text, place)


def test_a_piece_that_is_not_there_cannot_be_set(text: str) -> None:
    with pytest.raises(BoatFileError, match=r"there is no tank\[9\]"):
        set_value(text, "tank[9].x", "1 mm")


def test_line_breaks_stay_as_they_are(text: str) -> None:
    broken = text.replace("\n", "\r\n")
    edited = set_value(broken, "tank[1].order", 2)
    edited = append(edited, "lead", {"mass": "1 g", "x": "1 m", "z": "0 m"})
    edited = set_value(remove(edited, "lead[1]"), "name", "Other")
    assert edited.count("\n") == edited.count("\r\n") == edited.count("\r")
    assert parse(edited).tanks[0].order == 2


@pytest.mark.parametrize("place", ["name.x", "waterline[1].x", "tank.x", "tank[1].x.y", "lead[3]"])
def test_no_field_can_stand_there(place: str, text: str) -> None:
    with pytest.raises(BoatFileError):
        set_value(text, place, "1 mm")


def test_a_text_that_is_not_toml_is_not_edited() -> None:
    with pytest.raises(BoatFileError, match=r"text:1: .Trial. stands without quotes"):
        set_value("name = Trial", "name", "Other")


def test_a_field_is_not_put_into_a_text_of_several_lines() -> None:
    text = 'format = 1\nname = "x"\nnote = """\n[[lead]]\nmass = 3\n"""\n\n[units]\nmass = "g"\n'
    edited = set_value(text, "scale", "1:9")
    assert tomllib.loads(edited) == {**tomllib.loads(text), "scale": "1:9"}


def test_pieces_written_in_one_line_can_be_edited() -> None:
    text = 'format = 1\nname = "x"\nmark = [{ name = "a", x = "1 m" }, { name = "b", x = "2 m" }]\n'
    assert parse(set_value(text, "mark[2].x", "3 m")).marks[1].x == 3.0
    assert [mark.name for mark in parse(remove(text, "mark[1]")).marks] == ["b"]


def test_the_trial_boat_is_written_and_read_back_the_same(text: str) -> None:
    boat = parse(text)
    assert parse(text_of(boat)) == boat


LENGTHS = st.floats(1e-4, 10.0)
PLACES = st.floats(-10.0, 10.0)
MASSES = st.floats(0, 100.0)
SIGNS = st.characters(exclude_categories=("Cs", "Cc"))  # those that cannot be seen are refused
NAMES = st.text(SIGNS, min_size=1, max_size=12).filter(lambda name: name.strip() == name)
SPREADS = st.builds(Spread, st.floats(0, 1.0), st.booleans())
KNOWN = st.sampled_from(["guess", "worked out", "catalogue", "weighed"])
MARKS = st.builds(Mark, name=NAMES, x=PLACES)
LEAD = st.builds(
    Lead, mass=MASSES, x=PLACES, y=PLACES, z=PLACES, spread=SPREADS, known=KNOWN,
    density=st.none() | st.floats(1.0, 20e3),
)  # fmt: skip
FOAM = st.builds(Foam, volume=st.floats(0, 1.0), x_aft=PLACES, z_top=PLACES, shape=st.just("box"),
                 length=LENGTHS, breadth=LENGTHS, height=LENGTHS)  # fmt: skip
PARTS = st.builds(
    Part, name=NAMES, mass=MASSES, x_fore=PLACES, z=PLACES, shape=st.just("sphere"),
    diameter=LENGTHS, measured_from=st.sampled_from([None, "bow"]), open=st.booleans(),
    material=st.just("brass"),
)  # fmt: skip
CYLINDERS = st.builds(
    Cylinder, name=NAMES, outside=st.floats(0.02, 0.15), wall=st.floats(1e-3, 9e-3),
    length=st.floats(1e-3, 3.0), x_aft=PLACES, z=PLACES, slope=st.floats(-0.5, 0.5), mass=MASSES,
)  # fmt: skip
TOWERS = st.builds(
    PrismRegion, name=NAMES, surface=st.just("prism"), measured_from=st.just("stern"),
    outline=st.just("oval"),
    x_aft=st.floats(0, 1.0), x_fore=st.floats(1.1, 2.0), breadth=LENGTHS, mass=MASSES,
    thickness=LENGTHS, z_bottom=st.floats(0, 0.1), z_top=st.floats(0.2, 0.3),
)  # fmt: skip
BOATS = st.builds(
    Boat,
    name=NAMES,
    note=st.text(SIGNS, max_size=20),
    scale=st.none() | st.floats(1.0, 400.0),
    length=st.floats(2.0, 3.0),  # no piece is longer than her by half
    measured_from=st.sampled_from(["stern", "bow"]),
    units=st.builds(
        Units,
        length=st.sampled_from([None, "mm", "in", "cm", "ft"]),
        mass=st.sampled_from([None, "g", "oz", "lb"]),
        volume=st.sampled_from([None, "L", "cm³", "fl oz (US)"]),
    ),
    marks=st.lists(MARKS, max_size=2, unique_by=lambda m: m.name.casefold()).map(tuple),
    regions=st.lists(TOWERS, max_size=1).map(tuple),
    cylinders=st.lists(CYLINDERS, max_size=1).map(tuple),
    parts=st.lists(PARTS, max_size=1).map(tuple),
    lead=st.lists(LEAD, max_size=2).map(tuple),
    foam=st.lists(FOAM, max_size=2).map(tuple),
)


@given(boat=BOATS)
def test_any_boat_is_written_and_read_back_the_same(boat: Boat) -> None:
    whole = checked(boat)
    again = parse(text_of(whole))  # what is resolved is written as measured from the stern
    assert again.model_dump() == whole.model_dump()
    assert parse(text_of(boat)) == whole  # as it was measured, too


@given(index=st.integers(1, 2), mass=MASSES)
def test_any_mass_goes_into_its_line_only(index: int, mass: float) -> None:
    piece = '\n# c\n[[lead]]\nmass = "1 g"  # m\nx = "1 m"\nz = "0 m"\n'
    text = 'format = 1\nname = "x"\n' + piece * 2
    edited = set_value(text, f"lead[{index}].mass", f"{mass!r} kg")
    rows = zip(text.splitlines(), edited.splitlines(), strict=True)
    differ = [number for number, (old, new) in enumerate(rows) if old != new]
    assert differ == [5 + 6 * (index - 1)]
    assert parse(edited).lead[index - 1].mass == mass


def test_the_example_in_the_handbook_is_written_and_read_back(pytestconfig: pytest.Config) -> None:
    boat = load(pytestconfig.rootpath / "docs" / "examples" / "boat-file.toml").boat
    assert parse(text_of(boat)) == boat


HEADED = """\
name = "Sprat"

[[lead]]
name = "one"
mass = "10 g"
# it was cast in May

# ---- foam, in the ends

# the after block
[[foam]]
name = "block"
volume = "20 cm3"
# end of the list
"""


def test_a_heading_does_not_go_with_the_piece_before_it() -> None:
    text = remove(HEADED, "lead[1]")
    assert "# ---- foam, in the ends" in text
    assert "cast in May" not in text
    assert "the after block" in text


def test_a_new_piece_does_not_land_under_the_next_heading() -> None:
    text = append(HEADED, "lead", {"name": "two", "mass": "5 g"})
    assert text.index('"two"') < text.index("# ---- foam")
    assert text.index("cast in May") < text.index('"two"')
    assert text.rstrip().endswith("# end of the list")
