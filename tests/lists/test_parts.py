"""From a list to a boat file: the text is read back by the standard library's TOML parser."""

import difflib
import tomllib

import pytest
from tests.in_words import SAY, all_in_words, in_words

from trimdive.boatfile import Boat, parse
from trimdive.text.list_words import remarks, shown, unanswered
from trimdive.weightlists import (
    Answers,
    ListError,
    ListPreview,
    parts_of,
    plan_of,
    taken_over,
    understood,
)
from trimdive.weightlists.alike import is_lead

BOAT = """\
format = 1
name = "Trial"
length = "2000 mm"   # over all

[units]
length = "mm"
mass = "g"

[[cylinder]]
name = "main"
outside = "100 mm"
wall = "3 mm"
length = "500 mm"
x = "900 mm"
z = "60 mm"
mass = "900 g"

# the old motor
[[part]]
name = "motor"       # bought used
mass = "200 g"
inside = "main"
x = "700 mm"
z = "50 mm"

[[part]]
name = "planes"
mass = "20 g"
material = "brass"
x = "100 mm"
y = "60 mm"
z = "60 mm"
pair = "each"

[[lead]]
mass = "500 g"
x = "600 mm"
z = "9 mm"

[[keep_clear]]       # stays last
name = "well"
x_aft = "1 mm"
x_fore = "2 mm"
breadth = "2 mm"
z_bottom = "0 mm"
z_top = "9 mm"
"""

LIST = """\
Part;Qty;Mass each [g];from bow [mm];Height [mm];Material;Known;Group;Note
servo;2;55;1400;58;ABS;weighed;steering;"spare
part"
rudder;1;9;1950;50;brass;;steering;
"""


def read(text: str, **said: str) -> ListPreview:
    return understood(text.encode(), "list.csv", Answers(**said))


def test_parts_are_fields_of_a_boat_file() -> None:
    servo, rudder = parts_of(read(LIST))
    assert servo == {
        "name": "servo", "mass": "110 g", "known": "weighed", "material": "ABS", "from": "bow",
        "x": "1400 mm", "z": "58 mm",
    }  # fmt: skip
    assert rudder["mass"] == "9 g"


def test_names_that_are_taken_get_a_number() -> None:
    twice = LIST + "Servo;1;60;1400;58;ABS;;;\n"
    assert [part["name"] for part in parts_of(read(twice), ["RUDDER"])] == [
        "servo", "rudder 2", "Servo 2",
    ]  # fmt: skip


def applied(text: str, list_: str, **said: str) -> tuple[str, Boat]:
    boat = parse(text)
    plan = plan_of(read(list_, **said), boat)
    edited = taken_over(text, plan, boat, remarks(plan))
    return edited, parse(edited)


def test_new_parts_stand_behind_the_last_and_nothing_else_changes() -> None:
    edited, boat = applied(BOAT, LIST)
    changes = [
        line for line in difflib.ndiff(BOAT.splitlines(), edited.splitlines()) if line[0] in "-+"
    ]
    assert all(line.startswith("+") for line in changes)
    assert [part["name"] for part in tomllib.loads(edited)["part"]] == [
        "motor", "planes", "servo", "rudder",
    ]  # fmt: skip
    assert boat.parts[2].mass == pytest.approx(0.11)
    assert boat.parts[2].x == pytest.approx(0.6)  # 2000 mm less 1400 mm from the bow
    assert "# steering; spare part; 2 pieces of 55 g" in edited
    assert edited.index("servo") < edited.index("[[lead]]") or "[[lead]]" in edited


def test_line_ends_are_kept() -> None:
    edited, _ = applied(BOAT.replace("\n", "\r\n"), LIST)
    assert "\n" not in edited.replace("\r\n", "")


def test_what_is_aboard_is_weighed_anew_not_doubled() -> None:
    text = "Part,Mass [g],Known\nMotor,210,weighed\nplanes,44,\nlead 1,500,\n"
    plan = plan_of(read(text), parse(BOAT))
    assert [change.piece.path for change in plan.changes] == ["part[1]", "part[2]"]
    assert [item.name for item in plan.same] == ["lead 1"]
    assert plan.preview.asks == ()  # what is aboard has its place
    edited, boat = applied(BOAT, text)
    assert boat.parts[0].mass == pytest.approx(0.21)
    assert boat.parts[0].known == "weighed"
    assert boat.parts[1].mass == pytest.approx(0.022)  # each of a pair that weighs 44 g
    assert "# bought used" in edited
    assert len(boat.parts) == 2


def test_what_is_missing_is_asked_for_in_a_sentence() -> None:
    text = "Part,Mass [g]\nservo,55\n"
    bare, placed, high = read(text), read(text, x="600 mm"), read(text, x="600 mm", z="50 mm")
    error = str(unanswered(SAY, bare))
    assert error.startswith("list.csv: every part has no place along the boat. Add")
    assert "no height above the keel line" in str(unanswered(SAY, placed))
    assert "no volume or material" in str(unanswered(SAY, high))
    for preview, field in ((bare, "x"), (placed, "z"), (high, "material")):
        with pytest.raises(ListError, match=rf"^list\.csv: '{field}' is still asked for\."):
            parts_of(preview)
    (part,) = parts_of(read(text, x="600 mm", z="50 mm", material="Messing", known="weighed"))
    assert part == {
        "name": "servo", "mass": "55 g", "known": "weighed", "x": "600 mm", "z": "50 mm",
        "material": "brass",
    }  # fmt: skip
    (part,) = parts_of(read(text, x="600", z="50", length_unit="mm", inside="main"))
    assert (part["x"], part["inside"]) == ("600 mm", "main")


def test_a_unit_that_is_not_told_is_asked_for_first() -> None:
    preview = read("Part,Weight\nservo,55\n")
    assert "does not say the unit of 'Weight'" in str(unanswered(SAY, preview))
    with pytest.raises(ListError, match="'mass_unit' is still asked for"):
        parts_of(preview)


@pytest.mark.parametrize(
    ("said", "what"),
    [
        ({"mass_unit": "mm"}, "'mm' is no unit of mass"),
        ({"mass_of": "some"}, "'some' is no answer"),
        ({"known": "sure"}, "not known by 'sure'"),
        ({"material": "unobtainium"}, "there is no material 'unobtainium'"),
        ({"x": "600"}, "'600' has no length unit"),
        ({"z": "5 g"}, "'5 g' is a mass, not a length"),
        ({"measured_from": "middle"}, "'middle' is not a length"),
    ],
)
def test_answers_that_are_none(said: dict[str, str], what: str) -> None:
    with pytest.raises(ListError, match=what):
        read(LIST, **said)


def test_every_part_is_read_back_from_the_boat_file() -> None:
    rows = "".join(f"part {k};1;{k + 0.25};{10 * k};{k};ABS;;;\n" for k in range(1, 200))
    preview = read(LIST.split("\n")[0] + "\n" + rows)
    boat = parse(BOAT)
    plan = plan_of(preview, boat)
    after = parse(taken_over(BOAT, plan, boat, remarks(plan)))
    assert sum(part.mass or 0.0 for part in after.parts[2:]) == pytest.approx(
        sum(k + 0.25 for k in range(1, 200)) / 1000
    )


def test_an_empty_boat_file_takes_a_list() -> None:
    _, boat = applied('format = 1\nname = "New"\nlength = "2 m"\n', LIST)
    assert [part.name for part in boat.parts] == ["servo", "rudder"]


GUESSED = BOAT.replace(
    "# the old motor",
    """\
[[part]]
name = "battery"
mass = "570 g"
known = "guess"
inside = "main"
x = "800 mm"
z = "40 mm"

# the old motor""",
)
PACKS = """\
name,mass [g],x [mm],z [mm],material
LiPo pack,610,780,40,
battery tray,35,780,30,ABS
lead fore,300,900,9,
"""


def test_a_pack_beside_a_guessed_battery_is_asked_about() -> None:
    """By hand: one battery of 610 g, or two of 570 and 610 g; never both unasked."""
    boat = parse(GUESSED)
    asked = plan_of(read(PACKS, inside="main"), boat)
    (ask,) = asked.preview.asks
    assert ask.field == "same"
    assert "row 2 may already be aboard as a guess ('LiPo pack' and 'battery')" in in_words(
        ask.what
    )
    with pytest.raises(ListError, match="'same' is still asked for"):
        taken_over(GUESSED, asked, boat, remarks(asked))
    for same, names, mass in (("yes", [], 610), ("no", ["LiPo pack"], 570)):
        plan = plan_of(read(PACKS, inside="main", same=same), boat)
        assert not plan.preview.asks
        after = parse(taken_over(GUESSED, plan, boat, remarks(plan)))
        masses = {part.name: part.mass for part in after.parts}
        assert masses["battery"] == pytest.approx(mass / 1e3)
        assert [name for name in masses if name == "LiPo pack"] == names
        assert masses["battery tray"] == pytest.approx(0.035)
    with pytest.raises(ListError, match="'maybe' is no answer"):
        read(PACKS, same="maybe")


def test_rows_of_plain_lead_do_not_go_into_the_cylinder() -> None:
    boat = parse(GUESSED)
    plan = plan_of(read(PACKS, inside="main", same="no"), boat)
    text = taken_over(GUESSED, plan, boat, remarks(plan))
    after = {part.name: part for part in parse(text).parts}
    assert after["lead fore"].inside is None
    assert after["lead fore"].material == "lead"
    assert after["LiPo pack"].inside == "main"


@pytest.mark.parametrize(
    ("name", "wanted"),
    [("lead", True), ("Keel lead 3", True), ("lead ballast", True), ("trim lead aft", True),
     ("lead screw", False), ("battery lead", False), ("leads", False), ("lead-acid pack", False)],
)  # fmt: skip
def test_what_is_plain_lead(name: str, wanted: bool) -> None:
    (item,) = read(f"name,mass [g],x [mm],z [mm]\n{name},300,900,9\n").items
    assert is_lead(item) == wanted


def test_masses_are_shown_as_a_person_reads_them() -> None:
    """An avoirdupois ounce is 28.349523125 g: 14.2 oz are 402.563 g and something."""
    assert shown(14.2 * 0.028349523125, "oz") == "14.2 oz"
    assert shown(0.1 + 0.2, "kg") == "0.3 kg"
    assert shown(1.2345678, "g") == "1234.57 g"


def test_ounces_are_shown_as_they_stand_in_a_list() -> None:
    """5 oz are 141.747615625 g (NIST SP 811: 28.349523125 g each)."""
    assert shown(5 * 0.028349523125, "oz") == "5 oz"
    assert shown(3.5 * 0.028349523125, "oz") == "3.5 oz"


def test_two_places_of_one_part_that_do_not_agree_are_said() -> None:
    """650 mm and 850 mm from the bow of 2 000 mm are 500 mm apart: one of them is wrong."""
    rows = "Part;Mass [g];from bow [mm];x [mm]\nservo;190;850;650\nmotor;300;700;\n"
    servo, motor = read(rows).items
    doubts = all_in_words(servo.doubts)
    assert any("850" not in one and "650 under x" in one for one in doubts), doubts
    assert not motor.doubts
    same = "Part;Mass [g];x [mm];Station [mm]\nservo;190;650;650\n"
    assert not any("two places" in one for one in all_in_words(read(same).items[0].doubts))
