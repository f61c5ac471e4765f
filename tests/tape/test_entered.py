"""Readings asked for one by one: looked at at once, taken back, never lost."""

import os
import sys
import time
from contextlib import suppress
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.tape.readings import EXAMPLE
from typer.testing import CliRunner

from trimdive.boatfile.loading import toml
from trimdive.cli.app import app
from trimdive.errors import TrimdiveError
from trimdive.estimates.tape import parse, tape_litres
from trimdive.estimates.tape.entered import entered_of, look, text_of

RUN = CliRunner()
HEAD = ["in", "Shelduck", "4 ft 7 1/2 in", "wet", "GRP", "stern"]
GIRTHS = [
    *("2 3/8", '2 7/8"', "", "9 3/4 in", "6", "4 1/4", "17 3/4", "7 1/4", "5.6"),
    *("27 1/2", "7.6", "5.9", "37 1/2", "7 5/16", "", "47", "6", "", "53", "3 1/8", "", ""),
]
REST = ["0.1", "2.4 mm", "", "", "masts", "33", "3 lb 4 oz", "", "brass", ""]


def said(lines: list[str], *options: str) -> tuple[int, str]:
    answer = RUN.invoke(app, ["tape", *options], input="\n".join(lines) + "\n")
    assert "Traceback" not in answer.output
    return answer.exit_code, answer.output


def test_odd_units_are_read_as_by_hand(tmp_path: Path) -> None:
    file = tmp_path / "kept.toml"
    code, answer = said([*HEAD, *GIRTHS, *REST], "--save", str(file))
    assert code == 0, answer
    her = parse(file.read_text("utf-8"))
    inch, pound = 0.0254, 0.45359237  # exact by definition, international yard and pound
    assert her.length == pytest.approx(55.5 * inch)
    assert her.girths[0].girth == pytest.approx((2 + 7 / 8) * inch)
    assert her.girths[1].x == pytest.approx(9.75 * inch)
    assert her.standing[0].mass == pytest.approx((3 + 4 / 16) * pound)


WRONG = {  # what is typed after some answers, and what is said at once
    ("in", "Shelduck", "4 ft 7 1/2 kg"): "'4 ft 7 1/2 kg' is a mass, not a length",
    ("kg",): "'kg' is a mass, not a length",
    (*HEAD[:2], "1410 m"): "'1410 m' is more than a model boat can have",
    (*HEAD[:2], "-3"): "'-3' is below zero",
    (*HEAD[:3], "damp"): "Write wet or dry",
    (*HEAD[:4], "GPR"): "Did you mean 'GRP'?",
    (*HEAD[:5], "keel"): "Write stern or bow",
    (*HEAD, "70"): "70.00 in lies outside the hull, which is 55.50 in long",
    (*HEAD, "4", "2", "3"): "Over the deck it is 2.00 in, less than the breadth of 3.00 in",
    (*HEAD, "4", "2", "", "4"): "There are two girths at 4.00 in",
    (*HEAD, "4", "2", "", ""): "There is 1 girth, and 5 or more are needed",
    (*HEAD, *GIRTHS, "0.1 mm"): "A wall of 0.0039 in is thinner than any moulding",
    (*HEAD, *GIRTHS, "27"): "A wall of 27.00 in is more than a hull of this girth has",
    (*HEAD, *GIRTHS, "", ""): "Neither the wall nor the mass of the upper moulding is given",
    (*HEAD, *GIRTHS, "0.1", "", "", "tower", "99"): "Tower stands outside the hull",
    (*HEAD, *GIRTHS, "0.1", "", "", "tower", "9", "", "13", "4", "3"): "is too thick for it",
    (*HEAD[:3], "dry", *HEAD[4:], "4", "2", " "): "Nothing entered",
}


@pytest.mark.parametrize("typed", WRONG, ids=list(WRONG.values()))
def test_an_entry_is_looked_at_as_it_is_typed(typed: tuple[str, ...]) -> None:
    code, answer = said(list(typed))
    assert WRONG[typed] in answer
    assert "no answer to" in answer  # it was asked again, not taken
    assert code == 2


def test_back_offers_what_was_entered_and_the_others_stay() -> None:
    plain = said([*HEAD, *GIRTHS, *REST])[1]
    slip = ["2 3/8", "9", "", "back", "back", '2 7/8"']  # the first girth was typed wrong
    code, answer = said([*HEAD, *slip, *GIRTHS[2:], *REST])
    assert code == 0
    assert 'girth there [9]: 2 7/8"' in answer.replace(
        "girth there [9]: ", 'girth there [9]: 2 7/8"'
    )
    assert answer.split("\nShelduck: ")[1] == plain.split("\nShelduck: ")[1]
    over = said([*HEAD, *GIRTHS[:6], *["back"] * 3, "", "", "", *GIRTHS[6:], *REST])[1]
    assert over.split("\nShelduck: ")[1] == plain.split("\nShelduck: ")[1]


def test_back_from_the_first_question_and_none_for_what_was_entered() -> None:
    assert "This is the first question" in said(["back", "mm"])[1]
    answer = said([*HEAD, "4", "9", "3", "back", "none", "list"])[1]
    assert '{ x = "4", girth = "9" }' in answer


def test_what_was_entered_is_kept_where_the_questions_end_early(tmp_path: Path) -> None:
    file, whole = tmp_path / "part.toml", tmp_path / "whole.toml"
    code, answer = said([*HEAD, *GIRTHS[:9], "70"], "--save", str(file))
    assert code == 2
    assert "Go on with: trimdive tape" in answer
    assert "not complete" in file.read_text("utf-8").splitlines()[0]
    assert "there are 3 girths, and 5 or more" in RUN.invoke(app, ["tape", str(file)]).output
    on = [*[""] * len(HEAD), *[""] * 9, *GIRTHS[9:], *REST]
    code, answer = said(on, str(file), "--more", "--save", str(whole))
    assert code == 0, answer
    assert parse(whole.read_text("utf-8")) == parse(_at_one_go(tmp_path))
    lost = said([*HEAD, *GIRTHS[:9]])[1]
    assert "to be kept as a file" in lost
    assert 'girth = "7 1/4"' in lost


def _at_one_go(folder: Path) -> str:
    file = folder / "one-go.toml"
    assert said([*HEAD, *GIRTHS, *REST], "--save", str(file))[0] == 0
    return file.read_text("utf-8")


def test_a_file_that_is_there_is_refused_before_anything_is_asked(tmp_path: Path) -> None:
    file = tmp_path / "kept.toml"
    file.write_text("mine", "utf-8")
    code, answer = said([*HEAD, *GIRTHS, *REST], "--save", str(file))
    assert code == 2
    assert "there is such a file already" in answer
    assert "Unit of lengths" not in answer
    assert file.read_text("utf-8") == "mine"


def test_the_example_of_the_page_comes_back_from_its_entries() -> None:
    again = text_of(entered_of(EXAMPLE, "tape.toml"))
    one, other = tape_litres(parse(EXAMPLE)), tape_litres(parse(again))
    assert other.volume == pytest.approx(one.volume, rel=1e-12)
    assert [share.x for share in other.shares] == [share.x for share in one.shares]


def parse_partly(entered: dict[str, str]) -> bool:
    """Return whether what was taken makes a text of TOML."""
    return bool(toml(text_of(entered), "kept"))


@settings(max_examples=60)
@given(text=st.text(max_size=20), key=st.sampled_from(
    ["name", "length", "kind", "material", "girth.1.x", "girth.1.girth", "girth.2.breadth",
     "wall.1", "moulding.mass", "moulding.edge", "standing.1.name", "standing.1.x",
     "standing.1.mass", "standing.1.hung", "standing.1.wall"]))  # fmt: skip
def test_any_entry_stands_or_is_a_sentence(text: str, key: str) -> None:
    entered = {"unit": "mm", "length": "900", "girth.2.x": "40", "girth.2.girth": "90"}
    with suppress(TrimdiveError):
        look(entered, key, text)
        assert parse_partly({**entered, key: text})


@pytest.mark.skipif(sys.platform == "win32", reason="there is no pseudo-terminal")
def test_at_a_terminal_she_is_made_of_the_answers(tmp_path: Path) -> None:
    import pty

    folder = tmp_path / "shelduck"
    light = ["3/4 oz" if line == "3 lb 4 oz" else line for line in REST]
    lines = [*HEAD, *GIRTHS, *light, "", str(folder)]
    child, terminal = pty.fork()
    if child == 0:
        os.execv(sys.executable, [sys.executable, "-m", "trimdive", "tape"])
    answer = _typed(terminal, lines)
    assert os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == 0, answer
    assert "She needs" in answer
    assert 'name = "Shelduck"' in (folder / "boat.toml").read_text("utf-8")
    assert parse((folder / "tape.toml").read_text("utf-8")).length == pytest.approx(1.4097)


def _typed(terminal: int, lines: list[str]) -> str:
    """Type lines, each once a question stands there; return all that was shown."""
    answer, asked = "", 0
    for line in [*lines, None]:
        while not answer[asked:].rstrip("\r\n").endswith(": ") or line is None:
            try:
                answer += os.read(terminal, 4096).decode("utf-8", "replace")
            except OSError:  # it has ended
                return answer
            time.sleep(0)
        asked = len(answer)
        os.write(terminal, f"{line}\n".encode())
    return answer
