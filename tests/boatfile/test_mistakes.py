"""Every mistake is one sentence: file, line, field, what is wrong, how to mend it."""

import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trimdive.boatfile import Boat, Lead, checked, load, parse
from trimdive.boatfile.loading import LARGEST
from trimdive.errors import BoatError, BoatFileError, TrimdiveError, UnitError

MISTAKES = {  # line to change: what it becomes, the field, what the sentence says
    "wrong unit": ("wall = 3.7", 'wall = "117.6 kg"', "cylinder[1].wall", "is a mass, not a"),
    "no such unit": ("x = 178", 'x = "178 mn"', "part[2].x", "Did you mean mm?"),
    "no number": ("x = 178", 'x = "aft"', "part[2].x", "'aft' is not a length"),
    "not a quantity": ("x = 178", "x = true", "part[2].x", "True is not a length"),
    "not finite": ("x = 178", "x = nan", "part[2].x", "is not a number to build by"),
    "ambiguous": ('"1480 g"', '"1,480 g"', "part[1].mass", "may part thousands or decimals"),
    "percent": ('"4 %"', '"104 %"', "tank[1].lost", "is too much. Write at most 100 %"),
    "unknown field": ("breadth = 65", "bredth = 65", "part[1].bredth", "Did you mean 'breadth'?"),
    "unknown field of a region": ("outline =", "outlin =", "region[2].outlin", "'outline'?"),
    "unknown table": ("[[tank]]", "[[tanks]]", "tanks", "Did you mean 'tank'?"),
    "unknown surface": ('"suboff"', '"subof"', "region[1]", "there is no surface 'subof'"),
    "unknown choice": ('"box"', '"bock"', "part[1].shape", "'bock' is none of the choices"),
    "missing field": ("outside = 125\n", "", "cylinder[1]", "'outside' is missing"),
    "negative mass": ('"71 g"', '"-71 g"', "part[2].mass", "'-71 g' is less than 0"),
    "no thickness at all": ("wall = 3.7", "wall = 0", "cylinder[1].wall", "is not more than 0"),
    "twice": ('"propellers"', '"Battery"', "part[2].name", "is the name of part[1] already"),
    "no name": ('name = "propellers"\n', "", "part[2]", "the part has no name"),
    "no such cylinder": (
        '"forward cylinder"\nlength',
        '"foreward cylinder"\nlength',
        "tank[1].inside",
        "Did you mean 'forward cylinder'?",
    ),
    "no such vessel": (
        'inside = "forward cylinder"\n\n',
        'inside = "box"\n\n',
        "part[1].inside",
        "there is no cylinder 'box'. Known: forward cylinder.",
    ),
    "no such region": ('"tower"]', '"towr"]', "coat[1].on", "Did you mean 'tower'?"),
    "no such material": ('"brass"', '"bras"', "part[2].material", "Did you mean 'brass'?"),
    "no such limit": ("gm-least", "gm-leats", "limits.gm-leats", "Did you mean 'gm-least'?"),
    "too long a tank": (
        "length = 130",
        "length = 700",
        "tank[1].length",
        "the tank is 700 mm long, its cylinder 'forward cylinder' 612 mm over the caps",
    ),
    "tank outside": (
        "x = 1520",
        "x = 1840",
        "tank[1].x",
        "stands 14.0 mm out of the fore end of its cylinder",
    ),
    "bore too large": (
        'lost = "4 %"',
        "bore = 120",
        "tank[1].bore",
        "is 120 mm across, the bore of its cylinder 'forward cylinder' is 118 mm",
    ),
    "wall too thick": ("wall = 3.7", "wall = 63", "cylinder[1].wall", "thicker than the radius"),
    "no place": ("x = 178\n", "", "part[2]", "has no place along the boat. Add x, x_aft or"),
    "two places": ("x = 178", "x = 178\nx_aft = 170", "part[2].x_aft", "Keep one of them"),
    "no height": ("z = 62\n", "", "part[2]", "its height is missing"),
    "two heights": ("z = 62", "z = 62\nz_top = 65", "part[2].z_top", "both say how high"),
    "end of a point": ("x = 178", "x_aft = 178", "part[2].x_aft", "a point has no length"),
    "top of a point": ("z = 62", "z_top = 62", "part[2].z_top", "a point has no height"),
    "lacking shape": ("breadth = 65\n", "", "part[1]", "a box needs its breadth"),
    "alien shape": ("breadth = 65", "breadth = 65\ndiameter = 9", "part[1].diameter", "has no"),
    "bow without length": ('length = "2300 mm"\n', "", "part[1].from", "the boat has no length"),
    "pair in the middle": ("y = 30\n", "", "part[2].pair", "a pair needs a place to port"),
    "no mass": ('mass = "71 g"\n', "", "part[2]", "its mass is missing"),
    "no volume": ('material = "brass"\n', "", "part[2]", "its volume is missing"),
    "no volume of a coat": ('material = "paint"\n', "", "coat[1]", "its volume is missing"),
    "no mass of a coat": ("mass = 453\n", "", "coat[1]", "its mass is missing"),
    "ends crossed": ("x_fore = 1590", "x_fore = 1200", "region[2].x_fore", "lies forward of"),
    "waterline twice": (
        "height = 154",
        "height = 154\naft = { x = 0, height = 150 }",
        "waterline",
        "it needs either a height or draughts aft and fore",
    ),
    "half a waterline": (
        "height = 154",
        "aft = { x = 0, height = 150 }",
        "waterline",
        "'fore' is missing",
    ),
    "wrong in a waterline": (
        "height = 154",
        'aft = { x = "9 kg", height = 150 }',
        "waterline.aft.x",
        "is a mass, not a length",
    ),
    "no skin": ("thickness = 2.2\n", "", "region[2]", "the skin has no thickness"),
    "a file elsewhere": (
        'surface = "suboff"\nlength = 2300\nz = 100',
        'surface = "lines"\nfile = "../lines.csv"',
        "region[1].file",
        "lies outside the boat's folder",
    ),
    "hung": ("mass = 453", 'mass = 453\nhung = "500 g"', "coat[1].hung", "weighs as much as in"),
    "tank full of dead water": (
        'lost = "4 %"',
        'dead_water = "1.5 L"',
        "tank[1].dead_water",
        "leave no room in it",
    ),
    "a pond of two millimetres": (
        "[units]\n",
        "[brief]\npond_depth = 2\n\n[units]\n",
        "brief.pond_depth",
        "no boat dives in 2.0 mm of water",
    ),
    "hatch without a cut": ("breadth = 190\nz_bottom = 150", "", "hatch[1]", "it has no z_bottom"),
    "hatch after itself": (
        "z_bottom = 150",
        'z_bottom = 150\nafter = ["tower"]',
        "hatch[1].after",
        "only after itself",
    ),
    "hatch of no region": ('off = ["tower"]', 'off = ["towr"]', "hatch[2].off", "no region 'towr'"),
    "plan elsewhere": ('"plan.png"', '"../plan.png"', "plan[1].file", "outside the boat's folder"),
    "marks elsewhere": ('"plan.json"', '".plan"', "plan[1].marks", "begins with a dot"),
    "hatch after none": ('after = ["casing hatch"]', 'after = ["c"]', "hatch[2].after", "no hatch"),
    "a run to nothing": (
        "[[keep_clear]]",
        '[[run]]\nkind = "hose"\nof = "battery"\nto = "propeler"\nlongest = 90\n\n[[keep_clear]]',
        "run[1].to",
        "Did you mean 'propellers'?",
    ),
    "a run to itself": (
        "[[keep_clear]]",
        '[[run]]\nkind = "cable"\nof = "battery"\nto = "battery"\nlongest = 90\n\n[[keep_clear]]',
        "run[1].to",
        "ends where it begins",
    ),
    "a run too short for anything": (
        "[[keep_clear]]",
        '[[run]]\nkind = "shaft"\nof = "battery"\nto = "propellers"\nlongest = 0\n\n[[keep_clear]]',
        "run[1].longest",
        "is not more than 0",
    ),
    "at the cap of nothing": (
        'mass = "71 g"', 'at_cap = "aft"\nmass = "71 g"', "part[2].at_cap", "lies in no cylinder"
    ),
    "keep clear": ("breadth = 120\nz_bottom", "z_bottom", "keep_clear[1]", "it needs either"),
    "text for a table": (
        'scale = "1:24"',
        'full_size = "big"',
        "full_size",
        "Begin it with a line [full_size].",
    ),
    "one for many": ("[[mark]]", "[mark]", "mark", "Begin it with a line [[mark]]."),
    "own unit": ('mass = "g"', 'mass = "grms"', "units.mass", "there is no unit 'grms'"),
    "own unit of another kind": ('mass = "g"', 'mass = "mm"', "units.mass", "is a length, not a"),
    "format": ("format = 1", "format = 2", "format", "newer than this trimdive"),
    "no format": ("format = 1\n", "", "", "it does not say its format"),
    "odd format": ("format = 1", 'format = "one"', "format", "'one' is no format"),
    "toml": ('"1480 g"', "1480 g", "", "stands without quotes"),
    "field twice": ("x = 178", "x = 178\nx = 179", "", "this field is written twice"),
    "salt": ('"12 °C"', '"12 °C"\nsalt = "-3 g/kg"', "water.salt", "is less than 0"),
    "order": ('"4 %"', '"4 %"\norder = 1.5', "tank[1].order", "is not a whole number"),
    "scale": ('"1:24"', '"24"', "scale", "Write it as 1:20"),
    "absurd mass": (
        '"71 g"', '"1e99 kg"', "part[2].mass",
        "'1e99 kg' is more than a model boat can have. Write at most 10 t; are figure and unit",
    ),
    "absurd bare mass": ("mass = 453", "mass = 4.53e30", "coat[1].mass", "Write at most 10 t"),
    "absurd length": ("x = 178", 'x = "-178 km"', "part[2].x", "Write at most 30 m"),
    "absurd volume": ('"560 cm3"', '"560 m3"', "foam[1].volume", "Write at most 10 m³"),
    "absurd angle": ("z = 88", 'z = 88\nslope = "400°"', "cylinder[1].slope", "at most 360°"),
    "absurd heat": ('"12 °C"', '"900 °C"', "water.temperature", "Write at most 100 °C"),
    "absurd density": (
        "mass = 453", 'mass = 453\ndensity = "78000 kg/m3"', "coat[1].density", "25000 kg/m³",
    ),
    "absurd spread": ("mass = 453", 'mass = 453\nspread = "± 40 t"', "coat[1].spread", "10 t"),
    "absurd share": ("mass = 453", 'mass = 453\nspread = "2e9 %"', "coat[1].spread", "1000 %"),
    "absurd scale": ('"1:24"', '"1:24000"', "scale", "Write at most 1:10000"),
    "absurd full size": (
        '[units]', '[full_size]\nlength = "52 km"\n\n[units]', "full_size.length",
        "is more than any ship has. Write at most 1000 m",
    ),
    "cylinder fatter than the hull": (
        "outside = 125", 'outside = "110 in"', "cylinder[1].outside",
        "the cylinder is 2794 mm across, the whole hull at most 288 mm",
    ),
    "cylinder longer than the hull": (
        "length = 612", 'length = "612 cm"', "cylinder[1].length",
        "the cylinder is 6120 mm long, the whole hull at most 2300 mm",
    ),
    "tank fatter than the hull": (
        'inside = "forward cylinder"\nlength = 130', 'z = 88\nmass = 90\nbore = 1118\nlength = 130',
        "tank[1].bore", "the tank is 1118 mm across",
    ),
}  # fmt: skip


@pytest.mark.parametrize("case", MISTAKES)
def test_a_mistake_is_a_sentence_with_its_place(case: str, text: str) -> None:
    old, new, field, says = MISTAKES[case]
    assert text.count(old) >= 1
    with pytest.raises(TrimdiveError) as caught:
        parse(text.replace(old, new, 1), "trial.toml")
    sentence, *others = str(caught.value).split("\n")
    assert says in sentence
    assert len(others) <= 5
    assert re.fullmatch(rf"trial\.toml(:\d+)?(: {re.escape(field)})?", caught.value.where), sentence


@pytest.mark.parametrize(
    ("old", "new"), [("x = 178", 'x = "178 mn"'), ("x = 1400", "x = []"), ("[water]", "[watr]")]
)
def test_the_line_is_the_one_that_was_changed(old: str, new: str, text: str) -> None:
    line = text[: text.index(old)].count("\n") + 1
    with pytest.raises(TrimdiveError) as caught:
        parse(text.replace(old, new, 1))
    assert caught.value.where.startswith(f"boat.toml:{line}: ")


def test_a_bare_number_without_a_unit_of_the_boats_own(text: str) -> None:
    with pytest.raises(UnitError) as caught:
        parse(text.replace('length = "mm"', "", 1))
    assert "has no length unit. Write a number and one of: mm, cm, m, in, ft." in str(caught.value)


def test_several_mistakes_are_told_each_with_its_line_and_what_it_is_called(text: str) -> None:
    broken = text.replace("x = 178", 'x = "178 kg"').replace("x = 2200", 'x = "2200 g"')
    with pytest.raises(UnitError) as caught:
        parse(broken)
    line = [broken[: broken.index(bad)].count("\n") + 1 for bad in ('"2200 g"', '"178 kg"')]
    first, second = str(caught.value).split("\n")
    assert first.startswith(f"boat.toml:{line[0]}: mark[1].x ('bow'): '2200 g' is a mass")
    assert second.startswith(f"boat.toml:{line[1]}: part[2].x ('propellers'): '178 kg' is a mass")
    assert caught.value.where == f"boat.toml:{line[0]}: mark[1].x"


def test_of_many_mistakes_five_are_told_and_the_others_counted() -> None:
    lead = [f'[[lead]]\nmass = "{k} mm"\nx = "1 m"\nz = "0 mm"\n' for k in range(7)]
    with pytest.raises(UnitError) as caught:
        parse('format = 1\nname = "heap"\n' + "".join(lead))
    *answer, left = str(caught.value).split("\n")
    assert [f"lead[{k}].mass" in line for k, line in enumerate(answer, 1)] == [True] * 5
    assert left == "2 more to mend after that."


def test_a_unit_that_is_named_nowhere_is_asked_for_once(text: str) -> None:
    with pytest.raises(UnitError) as caught:
        parse(text.replace('length = "mm"', "", 1))
    (sentence,) = str(caught.value).split("\n")
    found = re.search(
        r"Or name it once for all (\d+) such figures, under \[units\]: length = \"mm\"", sentence
    )
    assert found
    assert int(found[1]) > 20
    parse(text)  # where it is named all are read


def test_what_she_is_a_model_of_and_deep_water_have_bounds_of_their_own(text: str) -> None:
    ship = '[full_size]\nlength = "52 m"\ndisplacement_dived = "480 t"\n'
    boat = parse(text.replace("[units]", f'{ship}[brief]\npond_depth = "60 m"\n[units]'))
    assert boat.full_size
    assert boat.full_size.displacement_dived == 480e3


def test_a_cylinder_that_merely_does_not_fit_is_no_slip(text: str) -> None:
    assert parse(text.replace("outside = 125", "outside = 300")).cylinders[0].outside == 0.3


def test_where_the_lines_stand_elsewhere_her_length_bounds_a_cylinder(text: str) -> None:
    elsewhere = text.replace(
        'surface = "suboff"\nlength = 2300\nz = 100', 'surface = "lines"\nfile = "a"'
    )
    assert parse(elsewhere.replace("outside = 125", "outside = 1150")).cylinders
    with pytest.raises(
        BoatFileError,
        match=r"cylinder\[1\].outside \('forward cylinder'\): the cylinder is 1750 mm",
    ):
        parse(elsewhere.replace("outside = 125", "outside = 1750"))


def test_a_boat_made_in_python_is_checked_too() -> None:
    boat = Boat(name="twice", lead=(Lead(name="a", mass=1, x=0, z=0),) * 2)
    with pytest.raises(BoatError, match=r"lead\[2\]: name: 'a' is the name of lead\[1\] already"):
        checked(boat)


FILES = {  # bytes in the file: what the sentence says
    "utf-16": ("name".encode("utf-16"), "it is saved as UTF-16. Save it as UTF-8"),
    "latin-1": (b'format = 1\nname = "M\xfcve"\n', "boat.toml:2: byte 0xfc is not UTF-8"),
    "zeros": (b"\0" * 64, "the line is not TOML"),
    "empty": (b"", "it does not say its format"),
    "deep": (b"a = " + b"[" * 100_000, "its brackets go too deep"),
    "long number": (b"a = " + b"9" * 10_000, "a number there has thousands of digits"),
    "open text": (b'format = 1\nname = "x', "boat.toml:2: the line is not TOML"),
}


@pytest.mark.parametrize("case", FILES)
def test_bytes_that_are_no_boat_file(case: str, tmp_path: Path) -> None:
    data, says = FILES[case]
    path = tmp_path / "boat.toml"
    path.write_bytes(data)
    with pytest.raises(BoatFileError) as caught:
        load(path)
    assert says in str(caught.value)


def test_the_mark_that_some_editors_put_first_is_no_mistake(file: Path) -> None:
    plain = load(file).boat
    file.write_bytes(b"\xef\xbb\xbf" + file.read_bytes().replace(b"\n", b"\r\n"))
    assert load(file).boat == plain


def test_a_file_of_2_gb_is_refused_before_it_is_read(tmp_path: Path) -> None:
    path = tmp_path / "boat.toml"
    with path.open("wb") as stream:
        stream.truncate(2 * 2**30)  # takes no room on the disk
    with pytest.raises(
        BoatFileError, match=r"it is 2048 MB\. Boat files and tables are text of at most 16 MB"
    ):
        load(path)
    assert LARGEST == 16 * 2**20


def test_no_file_at_all(file: Path) -> None:
    with pytest.raises(BoatFileError, match=r"there is no such file. There is boat.toml in that"):
        load(file.with_name("baot.toml"))
    with pytest.raises(BoatFileError, match="There is no folder"):
        load(file.parent / "nowhere" / "boat.toml")
    assert load(file.parent).path == file
    file.rename(file.with_name("her.toml"))
    with pytest.raises(BoatFileError, match=r"no boat\.toml in this folder\. Name one: her\.toml"):
        load(file.parent)
    with pytest.raises(BoatFileError, match="there is no such file"):
        load("a\0b")
    with pytest.raises(BoatFileError, match="it is no file"):
        load("/dev/zero")


LINES = st.sampled_from(
    ["[[part]]", "[part]", "[[region]]", 'surface = "mesh"', "x = 1", "x = {}", 'mass = "3 g"',
     "[units]", "length = 3", 'length = "mm"', "format = 1", 'name = "a"', "x = [[1]]", "[x.y]",
     "lead = 3", "foam = [1, 2]", "tank = [{}]", "[waterline.aft]", 'known = "weighed"',
     "mark = [[]]", "units = 3", "limits = { a = 1 }", 'name = ""', "[[tank]]", "z = 1979-05-27"],
)  # fmt: skip


@given(rows=st.lists(LINES, max_size=12))
def test_any_pile_of_lines_is_a_boat_or_a_sentence(rows: list[str]) -> None:
    text = "\n".join(["format = 1", *rows])
    try:
        assert parse(text).name
    except TrimdiveError as error:
        sentence = str(error)
    else:
        return
    *answer, last = sentence.split("\n")
    assert all(line.startswith("boat.toml") for line in answer)
    assert last.startswith("boat.toml") or re.fullmatch(r"\d+ more to mend after that\.", last)
    assert len(answer) <= 5


@given(text=st.text())
def test_any_text_is_a_sentence(text: str) -> None:
    with pytest.raises(BoatFileError):
        parse(text)
