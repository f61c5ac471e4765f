"""``tub`` on the terminal: text, JSON, keys told, widths."""

import json
import re
import shutil
from pathlib import Path

import pytest
from typer.testing import CliRunner

from trimdive.boatfile import load
from trimdive.cli.app import app

ROOT = Path(__file__).parents[2]
BOATS = ("bittern", "bittern-as-bought", "grebe", "grebe-as-bought", "plover")


def run(*words: str) -> str:
    result = CliRunner().invoke(app, ["tub", *words])
    assert result.exit_code in (0, 1), result.output
    return result.output


@pytest.mark.parametrize("boat", BOATS)
def test_it_fits_eighty_columns_and_has_no_nan(boat: str) -> None:
    text = run(str(ROOT / "boats" / boat))
    assert max(len(row) for row in text.splitlines()) <= 80
    assert "nan" not in text
    assert "To weigh or measure next" in text


def test_the_whole_mass_is_as_sure_as_weigh_has_it() -> None:
    boat = str(ROOT / "boats" / "grebe")
    answer = json.loads(run(boat, "--json"))["uncertainty"]["figures"]
    mass = next(one for one in answer if one["key"] == "mass")
    weighed = json.loads(CliRunner().invoke(app, ["weigh", boat, "--json"]).output)
    assert mass["half"] == pytest.approx(weighed["spread_kg"], rel=1e-6)
    assert f"± {mass['half'] * 1e3:.0f} g" in run(boat)


READINGS = (
    "draught bow 93.2 mm on 2026-05-17",
    "draught middle 101.6 mm on 2026-05-17",
    "draught stern 110 mm on 2026-05-17",
    "scales 62 g at 100 mm, 22 g at 1200 mm on 2026-05-17",
    "mass 5.6 kg on 2026-05-17",
)


@pytest.fixture
def grebe(tmp_path: Path) -> Path:
    """Return a copy of Grebe, her servos only guessed."""
    shutil.copytree(ROOT / "boats" / "grebe", tmp_path / "grebe")
    file = tmp_path / "grebe" / "boat.toml"
    text = file.read_text("utf-8")
    old = 'inside = "cylinder"\nmass = "165 g"\nknown = "weighed"'
    assert text.count(old) == 1
    new = old.replace('"weighed"', '"guess"').replace('"165 g"', '"165 g"\nspread = "± 80 g"')
    file.write_text(text.replace(old, new), "utf-8")
    return tmp_path / "grebe"


def typed(boat: Path, *readings: str) -> str:
    """Return what is printed when readings are typed."""
    return run(str(boat), *(word for one in readings for word in ("--read", one)))


def test_the_example_of_the_page_is_what_is_printed(
    grebe: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(grebe.parent)
    text = typed(Path("grebe"), *READINGS)
    page = (ROOT / "docs" / "tub.md").read_text("utf-8")
    shown = re.search(r"```text\n(.*?)```", page, re.S)
    assert shown
    assert [row.rstrip() for row in text.splitlines()] == shown[1].splitlines()


def test_every_reading_of_the_page_is_understood(grebe: Path) -> None:
    page = (ROOT / "docs" / "tub.md").read_text("utf-8")
    table = page.split("| typed after")[1].split("To any of them")[0]
    examples = [
        example for row in table.splitlines()[2:] for example in re.findall(r"`([^`]+)`", row)
        if " " in example
    ]  # fmt: skip
    assert len(examples) >= 9
    text = typed(
        grebe, *examples, "draught bow 97 mm port 55 mm out ± 2 mm in sea at 12 °C note: x"
    )
    count = len(examples) + 1
    assert f"{count} readings" in text
    written = (grebe / "boat.toml").read_text("utf-8")
    assert written.count("[[reading]]") == count
    assert 'side = "port"\ndraught = "97 mm"\nnote = "x"' in written.replace('at = "bow"\n', "")
    assert "# ---- the hull: GRP 2.2" in written


def test_with_readings_it_fits_eighty_columns_and_every_key_is_told(grebe: Path) -> None:
    text = typed(grebe, *READINGS)
    assert max(len(row) for row in text.splitlines()) <= 80
    found = json.loads(run(str(grebe), "--json"))
    answer = (ROOT / "docs" / "json.md").read_text("utf-8")
    assert [key for key in keys(found) if f"`{key}`" not in answer] == []
    read = next(one for one in found["readings"] if one["label"] == "draught at bow")
    assert read["read"] == pytest.approx(0.0932)


def test_apply_corrects_the_list_for_all_commands(grebe: Path) -> None:
    typed(grebe, *READINGS)
    text = run(str(grebe), "--apply")
    assert "fits list and readings" in " ".join(text.split())
    weighed = json.loads(CliRunner().invoke(app, ["weigh", str(grebe), "--json"]).output)
    assert weighed["mass_kg"] == pytest.approx(5.6, abs=0.0112)
    for command in ("float", "litres", "check", "dive", "reach", "what-if"):
        assert CliRunner().invoke(app, [command, str(grebe)]).exit_code in (0, 1), command
    again = (grebe / "boat.toml").read_text("utf-8")
    run(str(grebe), "--apply")
    assert (grebe / "boat.toml").read_text("utf-8") == again


def test_past_readings_count_no_more_and_that_is_told(grebe: Path) -> None:
    typed(grebe, *READINGS)
    run(str(grebe), "--apply")
    corrected = json.loads(CliRunner().invoke(app, ["weigh", str(grebe), "--json"]).output)
    file = grebe / "boat.toml"
    text = file.read_text("utf-8")
    text = re.sub(r"(\[\[(?:reading|from_tub)\]\]\n)", r"\1past = true\n", text)
    file.write_text(text, "utf-8")
    assert "before she was changed" in " ".join(run(str(grebe)).split())
    found = json.loads(run(str(grebe), "--json"))
    mass = next(one for one in found["uncertainty"]["figures"] if one["key"] == "mass")
    assert mass["value"] == pytest.approx(corrected["mass_kg"])  # the correction stands
    again = json.loads(run(str(grebe), "--json", "--read", "mass 5.6 kg"))
    assert [one["label"] for one in again["readings"]] == ["whole boat on the scale"]
    assert again["readings"][0]["by_list"] == pytest.approx(corrected["mass_kg"])


def test_two_tanks_are_told_apart_by_their_names(tmp_path: Path) -> None:
    shutil.copytree(ROOT / "boats" / "bittern", tmp_path / "bittern")
    boat = tmp_path / "bittern"
    text = typed(boat, "after tank gave 1.25 l", "forward tank gave 1.2 l")
    assert "water out of after tank" in text
    assert "water out of forward tank" in text
    found = CliRunner().invoke(app, ["tub", str(boat), "--read", "tank gave 1 l"])
    assert found.exit_code == 2
    assert "which tank" in found.output


@pytest.mark.parametrize(
    ("reading", "says"),
    [
        ("draught keel 97 mm", "Name a mark (middle, stern, bow)"),
        ("draught bow", "its figure is missing"),
        ("draught bow 97 kg", "'97 kg' is a mass, not a length"),
        ("draugth bow 97 mm", "Did you mean 'draught'?"),
        ("freeboard bow 40 mm", "how high that deck edge is"),
        ("scales 35 g", "scales 35 g at 100 mm, 42 g at 1200 mm"),
        ("laid 1 g at 90 mm, 2 g at 90 mm", "the same place"),
        ("shift 100 g 60 mm 3°", "shift 100 g by 60 mm across"),
        ("tips 0.5° by the keel", "trim 0.5° by the bow"),
        ("mass 0 g", "the scale read nothing"),
        ("draught bow 97 mm tanks 140 %", "no filling"),
        ("draught bow 97 mm ± 2 kg", "'2 kg' is a mass, not a length"),
        ("draught bow 97 mm on 2026-13-40", "there is no date '2026-13-40'"),
        ("draught bow 97 mm port", "needs y"),
        ("", "is not a reading"),
        ("draught bow 97 cm", "no such height on her"),
        ("scales 35 g at 100 mm, 42 g at 12 m", "no such place on her"),
        ("mass 56 g", "both cannot be right"),
    ],
)
def test_bad_readings_are_told_in_a_sentence_and_change_nothing(
    grebe: Path, reading: str, says: str
) -> None:
    before = (grebe / "boat.toml").read_bytes()
    found = CliRunner().invoke(app, ["tub", str(grebe), "--read", reading])
    assert found.exit_code == 2
    assert says in " ".join(found.output.split())
    assert "Traceback" not in found.output
    assert (grebe / "boat.toml").read_bytes() == before


def test_measured_from_the_bow_the_after_scale_is_the_farther(grebe: Path) -> None:
    """The same two hooks told from stern and from bow (1300 mm over all) say the same of her."""
    answer = json.loads(
        run(str(grebe), "--json", "--read", "scales 62 g at 100 mm, 22 g at 1200 mm")
    )
    file = grebe / "boat.toml"
    text = file.read_text("utf-8")
    start = text.index("[[reading]]")
    file.write_text(text[:start], "utf-8")
    typed(grebe, "scales 22 g at 1200 mm, 62 g at 100 mm")
    assert 'pull_aft = "62 g"\nx_aft = "100 mm"' in file.read_text("utf-8")
    from_bow = text[:start] + '[[reading]]\ndate = 2026-05-17\nfrom = "bow"\n'
    from_bow += 'pull_aft = "62 g"\nx_aft = "1200 mm"\npull_fore = "22 g"\nx_fore = "100 mm"\n'
    file.write_text(from_bow, "utf-8")
    again = json.loads(run(str(grebe), "--json"))
    assert [one["by_list"] for one in again["readings"]] == pytest.approx(
        [one["by_list"] for one in answer["readings"]]
    )


def test_apply_without_readings_is_refused(grebe: Path) -> None:
    found = CliRunner().invoke(app, ["tub", str(grebe), "--apply"])
    assert found.exit_code == 2
    assert "no readings in the tub yet" in found.output


@pytest.mark.parametrize(
    ("table", "says"),
    [
        ('date = 2026-05-17\nat = "nose"\ndraught = "97 mm"', "there is no mark 'nose'"),
        ("date = 2026-05-17", "it has nothing"),
        ('date = 2026-05-17\nmass = "5 kg"\nleans = "1°"', "it has mass and leans"),
        ('date = 2026-05-17\ndraught = "97 mm"', "either a mark or a place"),
        ('date = 2026-05-17\nmoved = "9 g"', "needs 'by' beside it"),
        ('date = 2026-05-17\nlitres = "9 ml"\ntank = "rear"', "there is no tank 'rear'"),
        ('date = 2026-05-17\nmass = "5 kg"\nof = "cheese"', "there is no material 'cheese'"),
    ],
)
def test_bad_tables_are_told_in_a_sentence(grebe: Path, table: str, says: str) -> None:
    file = grebe / "boat.toml"
    file.write_text(f"{file.read_text('utf-8')}\n[[reading]]\n{table}\n", "utf-8")
    found = CliRunner().invoke(app, ["tub", str(grebe)])
    assert found.exit_code == 2
    assert says in " ".join(found.output.split())


def keys(value: object, path: str = "") -> set[str]:
    if isinstance(value, dict):
        return {key for name, part in value.items() for key in keys(part, f"{path}.{name}")}
    if isinstance(value, list) and value:
        return keys(value[0], f"{path}[]")
    return {path.lstrip(".")}


def test_every_key_is_told() -> None:
    found = json.loads(run(str(ROOT / "boats" / "grebe"), "--json"))
    answer = (ROOT / "docs" / "json.md").read_text("utf-8")
    assert [key for key in keys(found) if f"`{key}`" not in answer] == []


def test_a_slip_that_no_list_explains_is_not_applied(grebe: Path) -> None:
    """Three draughts out of line: water is flat, so that one of them was misread."""
    typed(grebe, "draught bow 97 mm", "draught stern 98 mm", "draught middle 79 mm")
    before = (grebe / "boat.toml").read_bytes()
    found = CliRunner().invoke(app, ["tub", str(grebe), "--apply"])
    assert found.exit_code == 2
    assert "no list explains draught at" in " ".join(found.output.split())
    assert (grebe / "boat.toml").read_bytes() == before


INCHES = {  # as typed after --read, and metres by hand (inch 25.4 mm, ounce 28.349523125 g: exact)
    'draught bow 3 15/16"': 3.9375 * 0.0254,
    "draught bow 3-15/16 in": 3.9375 * 0.0254,
    "draught 3½” at bow": 3.5 * 0.0254,
    'draught at bow 31/8"': 31 / 8 * 0.0254,
    "draught bow 97 mm ± 1/16 in": 0.097,
}


@pytest.mark.parametrize("reading", INCHES)
def test_fractions_of_an_inch(grebe: Path, reading: str) -> None:
    found = CliRunner().invoke(app, ["tub", str(grebe), "--read", reading])
    assert found.exit_code in (0, 1), found.output
    (last,) = load(grebe / "boat.toml").boat.readings_now
    assert last.draught == pytest.approx(INCHES[reading])


def test_pounds_and_fractions_of_an_ounce(grebe: Path) -> None:
    typed(grebe, "mass 12 lb 6 1/4 oz", 'scales 1 1/4 oz at 4", 1 1/2 oz at 3\' 11 1/4"')
    mass, scales = load(grebe / "boat.toml").boat.readings_now
    assert mass.mass == pytest.approx(12 * 0.45359237 + 6.25 * 0.028349523125)
    assert scales.pull_fore == pytest.approx(1.5 * 0.028349523125)
    assert scales.x_fore == pytest.approx((36 + 11.25) * 0.0254)


def test_a_reading_is_withdrawn(grebe: Path) -> None:
    before = (grebe / "boat.toml").read_text("utf-8")
    typed(grebe, "draught bow 97 mm")
    one = (grebe / "boat.toml").read_text("utf-8")
    typed(grebe, 'draught stern 3 7/8" note: with the "old" scale')
    answer = CliRunner().invoke(app, ["tub", str(grebe), "--withdraw", "last"])
    assert answer.exit_code in (0, 1)
    assert "Withdrawn: 2: at stern, draught 3 7/8 in (" in answer.stderr
    assert (grebe / "boat.toml").read_text("utf-8").strip() == one.strip()
    CliRunner().invoke(app, ["tub", str(grebe), "--withdraw", "1"])
    assert (grebe / "boat.toml").read_text("utf-8").strip() == before.strip()


@pytest.mark.parametrize(
    ("which", "says"),
    [
        ("3", "there is no reading '3'. Name one by its number, or last. 1: at bow, draught 97 mm"),
        ("0", "there is no reading '0'"),
        ("draught", "there is no reading 'draught'"),
    ],
)
def test_a_reading_that_is_not_there_is_not_withdrawn(grebe: Path, which: str, says: str) -> None:
    typed(grebe, "draught bow 97 mm", "mass 5.6 kg")
    before = (grebe / "boat.toml").read_bytes()
    answer = CliRunner().invoke(app, ["tub", str(grebe), "--withdraw", which])
    assert answer.exit_code == 2
    assert says in " ".join(answer.output.split())
    assert (grebe / "boat.toml").read_bytes() == before


def test_the_correction_that_a_reading_made_is_named(grebe: Path) -> None:
    typed(grebe, "draught bow 97 mm", "mass 5.6 kg")
    CliRunner().invoke(app, ["tub", str(grebe), "--apply"])
    answer = CliRunner().invoke(app, ["tub", str(grebe), "--withdraw", "1"])
    assert "was made with it: correct the list again" in answer.stderr
