"""``trimdive arrange``: text and JSON tell the same, what is written, and what is refused."""

import json
from pathlib import Path
from typing import Any

import pytest
from tests.cli.compared import documented_keys, keys_in
from typer.testing import CliRunner, Result

from trimdive.arranging.work import Arranged, arrange
from trimdive.assessment import assess
from trimdive.boatfile import load
from trimdive.cli.app import app
from trimdive.errors import AskError
from trimdive.text.arrange_asked import at_ends, chosen, kept, saved_with
from trimdive.text.arrange_text import FIGURES, arrange_json, arrange_text, figures, verdict
from trimdive.text.layout import Grid, Labelled, Words
from trimdive.text.marks import WATCH
from trimdive.text.say import Say

DONE: list[Arranged] = []


def run(*words: str) -> Result:
    return CliRunner().invoke(app, ["arrange", *words])


@pytest.fixture
def done(small: Path) -> Arranged:
    """Return a small boat arranged, her battery aft; worked out once for all tests."""
    if not DONE:
        her = assess(small / "boat.toml")
        DONE.append(arrange(her, ends=at_ends(her.boat, ["battery"], []), seconds=60.0, most=2))
    return DONE[0]


def test_text_and_json_tell_the_same_figures(done: Arranged) -> None:
    say = Say(done.before.boat)
    document: Any = arrange_json(done, None)
    grids = [block for block in arrange_text(done, Path("boat"), None) if isinstance(block, Grid)]
    compared, places = grids
    columns = [document["now"], *document["arrangements"]]
    assert len(columns) == len(compared.head) - 1 == 3
    for row, (key, label, _, write) in zip(compared.rows, FIGURES, strict=True):
        told = [column["figures"][key] for column in columns]
        assert row == (label, *("–" if v is None else write(say, v) for v in told))
    for column, one in zip(columns[1:], done.found, strict=True):
        assert column["figures"] == figures(one.her)
    at = [{place["name"]: place["x_m"] for place in column["places"]} for column in columns]
    assert [row[0] for row in places.rows] == list(at[0])
    for row in places.rows:
        assert row[1:] == tuple(say.length(say.boat.along(column[row[0]])) for column in at)


def test_an_arrangement_is_called_the_same_everywhere(done: Arranged) -> None:
    """Terminal and page have one function for it; in order, it says so, and only then."""
    heads = [b.text for b in arrange_text(done, Path("boat"), None) if isinstance(b, Words)]
    document: Any = arrange_json(done, None)
    for k, (one, told) in enumerate(zip(done.found, document["arrangements"], strict=True), 1):
        assert f"{k}: {verdict(one)}; from aft to fore" in heads
        assert verdict(one).startswith("in order") == told["in_order"]
        assert verdict(one).endswith(WATCH) == told["watch_the_way_up"]


def test_the_order_told_is_the_order_in_which_she_holds_them(done: Arranged) -> None:
    rows = [b.rows for b in arrange_text(done, Path("boat"), None) if isinstance(b, Labelled)]
    for told, one in zip(rows, done.found, strict=True):
        boat = one.her.boat
        held = [*boat.tanks, *(part for part in boat.parts if part.inside)]
        names = [piece.name for piece in sorted(held, key=lambda piece: piece.x)]
        assert names[0] == "battery"
        assert told == (("cylinder:", ", ".join(names)),)


def test_what_is_taken_is_written_and_no_other(done: Arranged, small: Path) -> None:
    loaded = load(small / "boat.toml")
    saved_with(loaded, done, 2)
    now = assess(small / "boat.toml")
    for piece, told in zip(now.boat.pieces, done.found[1].her.boat.pieces, strict=True):
        assert piece.name == told.name
        assert getattr(piece, "x", None) == pytest.approx(getattr(told, "x", None), abs=6e-5)
    assert now.urgent == 0
    assert (small / "boat.toml").read_text("utf-8") != loaded.text


def test_one_press_arranges_and_leaves_the_file_as_it_was(small: Path) -> None:
    text = (small / "boat.toml").read_text("utf-8")
    result = run(str(small), "--keep", "cylinder", "--json", "--seconds", "40")
    assert result.exit_code == 1, result.output  # as she is, tanks and battery share room
    assert (small / "boat.toml").read_text("utf-8") == text
    found = json.loads(result.stdout)
    own = ("now", "arrangements", "guessed_lengths", "gap_m", "written")
    keys = keys_in({key: found[key] for key in own})
    told = documented_keys("arrange")
    empty = {f"arrangements[].{key}" for key in ("shortfalls", "remains", "do_not_come_out")}
    assert keys - told == empty
    assert told - keys == {f"{key}[]" for key in empty}
    assert found["written"] is False
    assert found["arrangements"][0]["lead_and_foam_placed"]
    at = {one["path"]: one["x_m"] for one in found["now"]["places"]}
    for one in found["arrangements"]:
        kept_there = {place["path"]: place["x_m"] for place in one["places"]}
        assert kept_there["cylinder[1]"] == at["cylinder[1]"]


def test_written_from_the_terminal_she_is_in_order(small: Path) -> None:
    text = (small / "boat.toml").read_text("utf-8")
    result = run(str(small), "--apply", "--aft", "battery", "--seconds", "40")
    assert "Written into the boat file" in result.output
    assert assess(small / "boat.toml").urgent == 0
    assert text in [file.read_text("utf-8") for file in small.iterdir()]  # it is kept beside


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        (["--keep", "batery"], "there is no cylinder, tank or part 'batery'. Did you mean"),
        (["--keep", "qqqq"], "--keep: there is no cylinder, tank or part 'qqqq'. Write it as"),
        (["--aft", "mast"], "--aft: 'mast' lies in no cylinder. Write inside"),
        (["--aft", "battery", "--fore", "battery"], "'battery' cannot lie at both ends"),
        (["--seconds", "0"], "--seconds"),
    ],
)
def test_what_is_typed_amiss_is_refused_in_a_sentence(
    small: Path, typed: list[str], says: str
) -> None:
    result = run(str(small), *typed)
    assert result.exit_code == 2
    assert says in " ".join(result.output.split())
    assert "Traceback" not in result.output


@pytest.mark.parametrize(
    ("was", "now", "says"),
    [
        ('length = "400 mm"', 'length = "640 mm"', "'cylinder' is 640 mm long, her hull 600 mm"),
        ('length = "28 mm"', 'length = "250 mm"', "is 195 mm longer, end to end, than its room"),
        ('outside = "80 mm"', 'outside = "118 mm"', "'cylinder' goes into the hull nowhere"),
    ],
)
def test_a_boat_that_cannot_be_arranged_is_refused_in_a_sentence(
    small: Path, was: str, now: str, says: str
) -> None:
    """Two tanks of 250 mm and 400 g over a bore of 74 mm, 93 mm: 595 mm with two gaps, in 400."""
    file = small / "boat.toml"
    text = file.read_text("utf-8").replace(was, now)
    file.write_text(text, "utf-8")
    result = run(str(small), "--apply")
    assert says in " ".join(result.output.split())
    assert result.exit_code == 2
    assert "Traceback" not in result.output
    assert file.read_text("utf-8") == text


@pytest.mark.parametrize(
    ("first", "says"),
    [
        ("[[cylinder]]", "she has no cylinder to arrange things in"),
        ("[[tank]]", "nothing lies in a cylinder. Write inside"),
    ],
)
def test_a_boat_with_nothing_to_arrange_is_refused(small: Path, first: str, says: str) -> None:
    file = small / "boat.toml"
    text = file.read_text("utf-8")
    mast = text.index('[[part]]\nname = "mast"')
    file.write_text(text[: text.index(first)] + text[mast:], "utf-8")
    result = run(str(small))
    assert result.exit_code == 2
    assert says in " ".join(result.output.split())


def test_an_arrangement_that_is_none_is_refused(done: Arranged) -> None:
    for number in (0, 3):
        with pytest.raises(AskError, match="Name one of 1 to 2"):
            chosen(done, number)


def test_a_name_is_known_by_its_letters_alone(done: Arranged) -> None:
    assert kept(done.before.boat, [" Battery "]) == {"part[1]"}
