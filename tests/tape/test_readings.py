"""Readings as typed: the handbook's example, slips, contradictions, and the command."""

import json
import re
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.tape.readings import EXAMPLE
from typer.testing import CliRunner

from trimdive.cli.app import app
from trimdive.errors import TrimdiveError
from trimdive.estimates.tape import parse, tape_litres
from trimdive.text.said import said
from trimdive.text.taped_text import say_by

RUN = CliRunner()


def test_the_example_is_read() -> None:
    her = parse(EXAMPLE)
    assert [one.girth for one in her.girths] == pytest.approx(
        [0.072, 0.138, 0.184, 0.193, 0.186, 0.151, 0.080]
    )
    assert her.walls == pytest.approx((0.0024, 0.0027, 0.0023))
    assert her.standing[1].material.density == 8500.0  # brass, by the table
    assert tape_litres(her).doubts == ()


def test_from_the_bow_it_is_the_same_hull() -> None:
    turned = re.sub(
        r'\bx = "(\d+) mm"', lambda found: f'x = "{1410 - int(found[1])} mm"', EXAMPLE
    ).replace('measured_from = "stern"', 'measured_from = "bow"')
    one, other = tape_litres(parse(EXAMPLE)), tape_litres(parse(turned))
    assert other.volume == pytest.approx(one.volume, rel=1e-9)
    assert other.x == pytest.approx(one.x, rel=1e-9)
    assert other.readings.along(other.x) == pytest.approx(1.41 - one.x, rel=1e-9)


WRONG = [
    ('"138 mm"', '"38 mm"', r"tape.toml:9: girth\[2\].girth: over the deck it is 38.0 mm, less "),
    ('"1350 mm"', '"1530 mm"', r"tape.toml:14: girth\[7\].x: 1530 mm lies outside the hull"),
    ('"950 mm"', '"700 mm"', r"tape.toml:12: girth\[5\].x: there are two girths at 700 mm"),
    ('"2.7 mm"', '"27 mm"', r"tape.toml:16: wall\[2\]: a wall of 27.0 mm is more than"),
    ('"2.7 mm"', '"0 mm"', r"tape.toml:16: wall\[2\]: a wall of zero"),
    ('"184 mm"', '"184"', None),
    ('"184 mm"', '"184 kg"', r"tape.toml:10: girth\[3\].girth: '184 kg' is a mass, not a length"),
    ('"184 mm"', '"-184 mm"', r"tape.toml:10: girth\[3\].girth: '-184 mm' is below zero"),
    ('"184 mm"', "true", r"tape.toml:10: girth\[3\].girth: True is not a length"),
    ("girth = [ ", "grith = [ ", r"there is no field 'grith' here. Did you mean 'girth'\?"),
    ('material = "GRP" ', 'material = "GPR" ', r"there is no material 'GPR'. Did you mean 'GRP'"),
    ('kind = "wet"', 'kind = "damp"', r"tape.toml:4: kind: 'damp' is none of the choices"),
    ('length = "1410 mm"', "", r"length: 'length' is missing"),
    ('length = "mm"', 'lenght = "mm"', r"there is no field 'lenght' here. Did you mean 'length'"),
    ('length = "mm"', 'length = "kg"', r"units: 'kg' is a mass, not a length"),
    ('mass = "24 g"', "", r"standing\[2\]: nothing tells its volume"),
    ("wall = [", "wall = [[", r"tape.toml:\d+: the line is not TOML"),
    ('{ x = "60 mm"', '"60 mm", { x = "60 mm"', r"girth\[1\]: '60 mm' stands where a reading"),
    ("[moulding]", "[[moulding]]", r"moulding: it is no table"),
]


@pytest.mark.parametrize(("old", "new", "said"), WRONG, ids=[new for _, new, _ in WRONG])
def test_bad_input_is_one_sentence(old: str, new: str, said: str | None) -> None:
    assert old in EXAMPLE
    text = EXAMPLE.replace(old, new, 1)
    if said is None:
        assert tape_litres(parse(text)).volume > 0
        return
    with pytest.raises(TrimdiveError, match=said) as error:
        parse(text)
    assert "\n" not in str(error.value)


def test_a_field_below_the_units_is_sent_up() -> None:
    with pytest.raises(TrimdiveError, match="Move it up, above the first line in"):
        parse(EXAMPLE.replace("[units]", '[units]\nwall = ["2 mm"]').replace("wall = [", "#", 1))


def test_fewer_than_five_girths() -> None:
    short = "\n".join(line for line in EXAMPLE.splitlines() if '{ x = "1' not in line)
    short = short.replace('  { x = "60 mm",   girth = "72 mm" },\n', "")
    with pytest.raises(TrimdiveError, match="there are 4 girths, and 5 or more are needed"):
        parse(short)


@pytest.mark.parametrize(
    ("old", "new", "likely"),
    [
        ('"184 mm", breadth', '"1840 mm", breadth', "184 mm?"),
        ('"186 mm"', '"18.6 mm"', "186 mm?"),
        ('"184 mm", breadth', '"418 mm", breadth', "about 1"),
    ],
)
def test_a_girth_far_off_is_doubted_with_the_likely_figure(old: str, new: str, likely: str) -> None:
    found = tape_litres(parse(EXAMPLE.replace(old, new)))
    assert any(likely in said(say_by(found.readings), doubt.what) for doubt in found.doubts)


def test_wall_and_moulding_that_disagree() -> None:
    found = tape_litres(parse(EXAMPLE.replace('mass = "905 g"', 'mass = "540 g"')))
    assert [doubt.path for doubt in found.doubts] == ["moulding"]


def test_command(tmp_path: Path) -> None:
    file = tmp_path / "tape.toml"
    file.write_text(EXAMPLE, "utf-8")
    shown = RUN.invoke(app, ["tape", str(file)])
    assert shown.exit_code == 0
    assert max(len(line) for line in shown.stdout.splitlines()) <= 80
    answer = json.loads(RUN.invoke(app, ["tape", str(file), "--json"]).stdout)
    assert answer["volume_m3"] == pytest.approx(tape_litres(parse(EXAMPLE)).volume)
    assert sum(one["volume_m3"] for one in answer["above_waterline"]) == pytest.approx(
        answer["volume_m3"]
    )
    file.write_text(EXAMPLE.replace('"186 mm"', '"18.6 mm"'), "utf-8")
    assert RUN.invoke(app, ["tape", str(file)]).exit_code == 1
    file.write_text(EXAMPLE.replace('"138 mm"', '"38 mm"'), "utf-8")
    refused = RUN.invoke(app, ["tape", str(file), "--json"])
    assert refused.exit_code == 2
    assert "girth[2]" in json.loads(refused.stdout)["error"]["where"]


ANSWERS = (
    "cm|Unnamed|141|wet|GRP|stern|6|9.2||20|abc|16.1||45|21.4||70|22.6|||95|21.5||120|17.4|||"
    "2.4 mm|2.6 mm|||tower|82||33|10.5|1.8 mm|masts|83|24 g||brass||"
).replace("|", "\n")


def test_asked_one_by_one(tmp_path: Path) -> None:
    file = tmp_path / "kept.toml"
    answer = RUN.invoke(app, ["tape", "--save", str(file)], input=ANSWERS)
    assert answer.exit_code == 0, answer.output
    assert "'abc' is not a length" in answer.output  # and was asked again
    assert "There are 4 girths, and 5 or more are needed" in answer.output
    her = parse(file.read_text("utf-8"))
    assert [one.girth for one in her.girths] == pytest.approx(
        [0.092, 0.161, 0.214, 0.226, 0.215, 0.174]
    )
    assert [thing.name for thing in her.standing] == ["tower", "masts"]
    again = RUN.invoke(app, ["tape", "--save", str(file)], input=ANSWERS)
    assert again.exit_code == 2
    assert "there is such a file already" in again.output


def test_answers_that_end_too_soon() -> None:
    answer = RUN.invoke(app, ["tape"], input="mm\nName\n")
    assert answer.exit_code == 2
    assert "no answer to 'Length over all'" in answer.output


@settings(max_examples=60)
@given(st.text(max_size=200))
def test_any_text_is_read_or_refused(text: str) -> None:
    try:
        parse(text)
    except TrimdiveError:
        return  # anything else fails the test
