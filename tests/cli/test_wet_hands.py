"""``wet-hands`` on the terminal: the talk, answers as an option, JSON, keys told, bad input."""

import json
import re
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from trimdive.cli.app import app

ROOT = Path(__file__).parents[2]
HER = ("--mass", "30 kg", "--tank", "2.1 L", "--length", "2 m")
TANK = (
    "angle: bow down 12°; surfaced: level; full: no; rock: no; closed: no; filling: 88 %; "
    "balance: 130 g at 200 mm from the stern; place: 1 m from the stern; "
    "room: 210 mm from the bow"
)


def run(*words: str, typed: str = "") -> Result:
    return CliRunner().invoke(app, ["wet-hands", *words], input=typed, env={"COLUMNS": "80"})


def plain(result: Result) -> str:
    assert "Traceback" not in result.output
    return " ".join(result.output.split())


def test_it_ends_in_a_piece_to_cut() -> None:
    """130 g of lead pull 118.5 g at 0.8 m: 94.8 g m; foam of 33 kg/m³ at 0.79 m: 124 ml."""
    found = run(*HER, "--answers", TANK)
    text = plain(found)
    assert found.exit_code == 1
    assert "Tank too far forward" in text
    piece = re.search(r"Foam: (\d+)(?:\.\d)? × (\d+)(?:\.\d)? × (\d+)(?:\.\d)? mm \((\d+) ml", text)
    assert piece
    long, wide, high, volume = (float(number) for number in piece.groups())
    assert volume == pytest.approx(0.0948 / 0.79 / 0.967 * 1e3, rel=0.03)
    assert long * wide * high / 1e3 == pytest.approx(volume, rel=0.05)
    assert "210 mm from the bow" in text
    assert "you have 252 ml" in text  # 12 % of 2.1 L
    assert re.search(r"Or the tank \d+\.\d mm ± \d\.\d mm further aft", text)
    assert max(len(row) for row in found.output.splitlines()) <= 80


def test_text_and_json_agree() -> None:
    found = json.loads(run(*HER, "--answers", TANK, "--json").output)
    text = plain(run(*HER, "--answers", TANK))
    pieces = found["remedies"][0]["pieces"]
    assert found["remedies"][0]["cause"] == "tank"
    assert f"{pieces[0]['amount']['value'] * 1e6:.0f} ml" in text
    assert f"{pieces[1]['amount']['value'] * 1e3:.1f} mm ±" in text


def keys(value: object, path: str = "") -> set[str]:
    if isinstance(value, dict):
        return {key for name, part in value.items() for key in keys(part, f"{path}.{name}")}
    if isinstance(value, list) and value:
        return {key for part in value for key in keys(part, f"{path}[]")}
    return {path.lstrip(".")}


def test_every_key_is_told() -> None:
    answer = (ROOT / "docs" / "json.md").read_text("utf-8")
    documents = [
        run(*HER, "--answers", TANK, "--json").output,
        run(*HER, "--json").output,
    ]
    for document in documents:
        assert all(f"`{key.rstrip('[]')}" in answer for key in keys(json.loads(document)))


def test_the_talk() -> None:
    """Asked from the first figure on; nonsense is asked again; the answers are those above."""
    typed = {
        "lengthways": "level", "How does she hang": "nose on the bottom", "Is she right": "no",
        "Level now": "no", "Is there foam": "no", "Does she stay": "no", "How full": "88 %",
        "How much, and where": "130 g at 200 mm from the stern", "Where is it": "1 m from the bow",
        "Where is its centre": "210 mm from the bow", "waterline?": "at her waterline",
    }  # fmt: skip
    lines = ["lots", "30 kg", "2.1 L", "2 m", "banana"]
    for _ in range(14):
        text = plain(run(typed="\n".join(lines) + "\n"))
        asked = text.rsplit(" > ", 1)[0]
        last = max(typed, key=asked.rfind)
        if "How sure" in text and asked.rfind(last) < 0:
            break
        if "Foam: " in text and len(lines) > 8:
            break
        lines.append(typed[last])
    assert "LET HER HANG JUST UNDER" in text
    assert "is not a mass" in text or "no number" in text or "'lots'" in text
    assert "'banana' is not an answer to it" in text
    assert "Foam: " in text


def test_stopping_half_way_tells_what_is_known() -> None:
    found = run(*HER, typed="bow down 12°\nstop\n")
    text = plain(found)
    assert found.exit_code == 1
    assert "Known so far" in text
    assert "angle: bow down 12°" in text
    assert "Still open" in text
    assert "Next" in text


def test_an_answer_can_be_taken_back() -> None:
    found = run(*HER, typed="stern down\nback\nbow down\nstop\n")
    known = plain(found).split("Known so far")[1]
    assert "bow down" in known
    assert "stern" not in known.split("Still open")[0]


def test_why_tells_why() -> None:
    assert "This test best separates" in plain(run(*HER, typed="why\nstop\n"))


def test_nothing_to_mend_is_in_order() -> None:
    answers = (
        "angle: level; surfaced: level; filling: 90 %; ride: at her waterline; list: upright; "
        "heel: upright; way: no; rock: no"
    )
    found = run(*HER, "--answers", answers)
    assert found.exit_code == 0
    assert "Nothing to fix" in plain(found)


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ((*HER, "--answers", "angle: banana"), "'banana' is not an answer to it"),
        ((*HER, "--answers", "angel: level"), "Did you mean 'angle'?"),
        ((*HER, "--answers", "level"), "'level' is not a question"),
        ((*HER, "--answers", "angle: level; angle: bow down"), "disagree"),
        ((*HER, "--answers", "way: only under way; angle: bow down 20°"), "disagree"),
        (("--mass", "30 kg", "--json"), "--tank"),
        (("--mass", "30", "--tank", "2 L", "--length", "2 m", "--answers", ""), "unit"),
        (("--mass", "30 kg", "--tank", "2 L", "--length", "2 km", "--json"), "length"),
        (("--mass", "2 kg", "--tank", "3 L", "--length", "2 m", "--json"), "more than the whole"),
        ((*HER, "--water", "soup", "--json"), "'soup' is not a water"),
        ((*HER, "--bg", "-3 mm", "--json"), "upside down"),
        ((*HER, "--answers", "balance: 5 g"), "does not say where"),
    ],
)
def test_bad_input_is_told_in_a_sentence(words: tuple[str, ...], says: str) -> None:
    found = run(*words)
    assert found.exit_code == 2
    assert says in plain(found)


def test_disagreeing_answers_are_asked_for_again() -> None:
    """500 g on deck is 390 g m, ten times what 5° with any BG of such a boat makes."""
    before = ("bow down 5°", "no", "level", "no", "no", "no", "88 %", "no")
    after = ("500 g at 150 mm from the stern", "bow down 12°", "130 g at 200 mm from the stern")
    text = plain(run(*HER, typed="\n".join((*before, *after, "1 m from the bow", "")) + "\n"))
    assert "'angle: bow down 5°' and 'balance: 500 g at 150 mm from the stern' disagree" in text
    assert "Both are asked for again" in text
    assert "± covers 95 cases in 100." in text
    assert "Angle and weights together" in text


def _in_inches(answers: str) -> str:
    inches = answers.replace("130 g at 200 mm", "20 g at 4 in").replace("1 m ", "18 in ")
    return f"{inches}; heel: upright; list: upright; over: no"


def test_inches_answer_in_inches() -> None:
    her = ("--mass", "9 lb", "--tank", "9 oz", "--length", "36 in")
    assert run(*her, "--json").exit_code == 2  # an ounce is no volume
    her = ("--mass", "9 lb", "--tank", "260 ml", "--length", "36 in")
    text = plain(run(*her, "--answers", _in_inches(TANK)))
    assert re.search(r"Foam: \d\.\d\d × \d\.\d\d × \d\.\d\d in", text)
