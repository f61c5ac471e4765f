"""From the tub to a level boat: an error is hidden, read and found, and she is placed by that.

The pieces that the corrected list asks for are laid into the boat as she really is; that one, let
go, must float on her waterline and hang level: what is checked is the true boat, not the list.
"""

from math import degrees
from pathlib import Path

import pytest
from tests.fromtub.stories import copy, true
from tests.rest.crate import CRATE
from typer.testing import CliRunner

from trimdive.assessment import Assessment, assess
from trimdive.boatfile import Boat, append, load, parse, save
from trimdive.cli.app import app
from trimdive.edits.work import Work, work, written
from trimdive.findings import limit_of
from trimdive.text.tub_text import note_of
from trimdive.text.tub_work import corrected
from trimdive.trials.correction import Story


@pytest.fixture(scope="module")
def file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return Grebe's file, corrected by the readings of the boat as she really is."""
    found = copy(tmp_path_factory.mktemp("tub"))
    corrected(found, assess(found))
    return found


@pytest.fixture(scope="module")
def done(file: Path) -> Work:
    her = assess(file)
    return work(her, her.boat.placing, 20.0)


def off(her: Assessment) -> tuple[float, float, float]:
    """Return how far she is off: waterline amidships [m], trim on the surface and dived [rad]."""
    line = her.boat.waterline
    assert line is not None
    middle = her.midships
    return (
        abs(her.surfaced.draught(middle) - line.height_at(middle)),
        abs(her.surfaced.trim_angle),
        abs(her.dived.trim_angle),
    )


def test_as_she_is_she_lies_wrong() -> None:
    low, _, dived = off(true())
    assert low > limit_of("waterline-band", true().boat).value
    assert degrees(dived) > 2


def test_the_pieces_make_the_true_boat_right(done: Work) -> None:
    """Within the limits and what the readings leave unsure: a millimetre, and 2° of trim dived."""
    assert done.found is not None
    assert {one.key for one in done.found.left} == {"guess-share"}  # the servos, as told
    now = true().edited(done.found.edits)
    low, surfaced, dived = off(now)
    assert low < limit_of("waterline-band", now.boat).value
    assert surfaced < limit_of("trim-surfaced", now.boat).value
    assert degrees(dived) < degrees(limit_of("trim-dived", now.boat).value) + 2.0
    assert dived < off(true())[2] / 3


def test_what_was_read_before_is_past_and_what_it_told_stands(file: Path, done: Work) -> None:
    before = load(file)
    her = written(done.her, before, done.edits)
    assert all(reading.past for reading in her.boat.readings)
    assert all(piece.past for piece in her.boat.from_tub)
    keys = {one.key for one in her.first_findings if one.weight == "put right"}
    assert keys == {"guess-share"}
    assert not [one for one in her.first_findings if one.key == "tub-behind"]
    # A new reading comes upon what stands: the list with it reads nearly so already.
    reading = {"date": "2026-11-26", "at": "bow", "draught": "98 mm"}
    save(load(file), append(load(file).text, "reading", reading))
    story = Story(her=assess(file))
    assert len(story.fit.rows) == 1
    assert float(story.fit.by_list[0]) == pytest.approx(her.surfaced.draught(1.235), abs=1e-6)
    again = story.written(load(file).text, note_of)
    kept = [piece for piece in parsed(file, again).from_tub if piece.past]
    assert len(kept) == len(her.boat.from_tub)


def parsed(file: Path, text: str) -> Boat:
    return parse(text, file.name)


def test_readings_that_do_not_count_yet_are_minded(tmp_path: Path) -> None:
    text = CRATE.replace("mass = 799.8", "mass = 690.1")
    text += '[[reading]]\ndate = "2026-05-01"\nx = 100\ndraught = 126\n'
    (tmp_path / "boat.toml").write_text(text, "utf-8")
    seen = CliRunner().invoke(app, ["place", str(tmp_path)])
    said = " ".join(seen.stdout.split())
    assert "First: one reading from the tub does not count in her weight list" in said
    refused = CliRunner().invoke(app, ["place", str(tmp_path), "--apply"])
    assert refused.exit_code == 2
    assert "Take over what the tub says first" in " ".join(refused.stderr.split())
    assert (tmp_path / "boat.toml").read_text("utf-8") == text
