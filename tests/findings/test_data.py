"""Findings are data: what was measured, its limit and what mends it, without reading a sentence.

The fixture ``held`` holds every finding that these tests meet; here it is seen that they meet many.
"""

import json
from math import radians
from pathlib import Path
from random import Random

import pytest
from tests.cli.compared import documented_keys
from tests.findings.checks import ran
from tests.findings.held import SAYS, hold, in_sentence
from tests.rest.crate import crate
from tests.said import what_of
from tests.slips.boats import by_chance
from typer.testing import CliRunner

from trimdive.assessment import Assessment, assess
from trimdive.boatfile import parse
from trimdive.cli.app import app
from trimdive.data import table
from trimdive.edits.writing import rewritten
from trimdive.errors import TrimdiveError
from trimdive.fact import fact
from trimdive.findings import BENCH_CHECKS, CHECKS, PLANT_CHECKS, Edit, Finding, limit_of
from trimdive.findings.finding import QUANTITIES, SI_UNITS, UNMEASURED, finding
from trimdive.text.found import limit_text

ROOT = Path(__file__).parents[2]
BOATS = sorted((ROOT / "boats").glob("*/boat.toml"))
CHANCE = 3  # boats by chance [-]
OK = fact("nothing")
NEAR = 1e-6  # so near to a limit a check is tried, as a share of it [-]
# Told by more than the limit: by whether she dives at all, by how she stands without other faults,
# and by shapes made smaller, of which the figure is the room that they share as it lies.
BY_MORE = {"neutral-band", "tank-offset", "room-wet", "room-skin"}


def changed(her: Assessment, chance: Random) -> Assessment | None:
    """Return a boat with the places of some of her pieces changed; None where she cannot be."""
    edits: list[Edit] = []
    for name, pieces in (("part", her.boat.parts), ("lead", her.boat.lead)):
        for number in chance.sample(range(1, len(pieces) + 1), min(2, len(pieces))):
            piece = pieces[number - 1]
            far = chance.uniform(-0.2, 0.2) * her.floater.length
            aside = chance.uniform(-0.03, 0.03)
            fields = (("x", piece.x + far), ("y", piece.y + aside))
            edits.append(Edit(action="set", path=f"{name}[{number}]", fields=fields))
    try:
        after = her.edited(edits)
        return after if after.first_findings else None
    except TrimdiveError:
        return None


def met(her: Assessment) -> tuple[Finding, ...]:
    """Return all findings of a boat, in the water and on the bench."""
    return (*her.first_findings, *her.bench_findings)


def test_boats_as_they_come_and_changed_keep_to_it() -> None:
    found: list[Finding] = []
    for path in BOATS:
        her = assess(path)
        found += met(her)
        for seed in range(3):
            if after := changed(her, Random(f"{path.parent.name} {seed}")):
                found += after.first_findings
    _held(found, checks=25, sentences=12)


def test_boats_by_chance_and_changed_keep_to_it() -> None:
    found: list[Finding] = []
    for name, text in by_chance(CHANCE):
        her = Assessment(boat=parse(text), files={})
        found += met(her)
        for seed in range(3):
            if after := changed(her, Random(f"{name} {seed}")):
                found += after.first_findings
    _held(found, checks=10, sentences=5)


def _held(found: list[Finding], checks: int, sentences: int) -> None:
    """Hold findings, and see that they are of many checks, many with a figure in the sentence."""
    for one in found:
        hold(one)
    assert len({one.key for one in found if one.stands is not None}) >= checks
    assert len({one.key for one in found if in_sentence(one) is not None}) >= sentences


@pytest.mark.parametrize("path", BOATS, ids=lambda path: path.parent.name)
def test_what_stands_is_what_is_held_against_the_limit(path: Path) -> None:
    """A limit a little wider than what stands lets it pass, one a little tighter does not."""
    her = assess(path)
    for one in her.first_findings:
        if one.key in BY_MORE or one.key not in CHECKS or not one.stands:
            continue
        is_most = one.limit.sense == "at most"
        stands = abs(one.stands) if is_most else one.stands
        if stands <= 0:
            continue  # no limit is below zero
        wider, tighter = (stands * (1 + way * NEAR) for way in ((1, -1) if is_most else (-1, 1)))
        assert one.about not in {each.about for each in ran(one.key, her, wider)}, what_of(one)
        assert one.about in {each.about for each in ran(one.key, her, tighter)}, what_of(one)


def test_what_measures_nothing_is_a_check_and_is_told() -> None:
    assert set(UNMEASURED) <= {*CHECKS, *BENCH_CHECKS, *PLANT_CHECKS, "slip"}
    assert documented_keys("A finding") == set(UNMEASURED)
    assert set(SAYS) <= {*CHECKS, *BENCH_CHECKS, *PLANT_CHECKS}


@pytest.mark.parametrize("entry", table("limits"), ids=lambda entry: entry["key"])
def test_every_limit_has_a_sense_a_quantity_and_a_unit(entry: dict[str, str]) -> None:
    assert entry["sense"] in ("at most", "at least")
    limit = limit_of(entry["key"], crate().boat.model_copy(update={"limits": {}}))
    assert (limit.quantity, limit.unit) == QUANTITIES[entry["unit"]]
    assert limit.sense == entry["sense"]
    if entry["key"].endswith(("-least", "-most")):
        assert limit.sense == f"at {entry['key'].rpartition('-')[2]}"


@pytest.mark.parametrize(
    ("key", "stands", "over", "part"),
    [
        ("trim-dived", 0.0, -1.0, 0.0),
        ("trim-dived", -3.0, 2.0, 3 / 4),  # three times as much: 3 / (1 + 3)
        ("bg-least", 0.25, 0.75, 3 / 7),  # three quarters lack: 0.75 / (1 + 0.75)
        ("lift-left", 0.1, float("inf"), 1.0),
    ],
)
def test_how_far_beyond_is_worked_out_from_what_stands(
    key: str, stands: float, over: float, part: float
) -> None:
    """What stands is told in limits, but for the last, of which the limit is zero."""
    limit = limit_of(key, crate().boat)
    stands *= limit.value or 1.0
    assert limit.excess(stands) == pytest.approx(over)
    if over <= 0:
        return
    one = finding(
        limit=limit, subject="boat", what=OK, stands=stands, mend=OK, rank=7, beyond="by limit"
    )
    assert (one.over, one.rank) == (pytest.approx(over), pytest.approx(7 + part))


def test_a_figure_within_its_limit_or_none_at_all_is_noticed() -> None:
    """The other tests can fail: what they hold findings with refuses what is wrong."""
    heel = limit_of("heel", crate().boat)
    with pytest.raises(AssertionError, match="measures nothing"):
        finding(limit=heel, subject="", what=OK, stands=None, mend=OK, rank=1)
    with pytest.raises(AssertionError):
        finding(limit=heel, subject="", what=OK, stands=0.0, mend=OK, rank=1)
    says = fact("heels", state="dived", heel=radians(-4.2), either=False)
    with pytest.raises(AssertionError):
        finding(limit=heel, subject="", what=says, stands=0.075, mend=OK, rank=1)


def document(command: str, boat: str) -> dict[str, object]:
    result = CliRunner().invoke(app, [command, str(ROOT / "boats" / boat), "--json"])
    return json.loads(result.stdout)


@pytest.mark.parametrize("command", ["check", "bench", "pond"])
@pytest.mark.parametrize("boat", ["bittern-as-bought", "grebe-as-bought", "plover-as-bought"])
def test_json_tells_figure_and_limit_of_each(command: str, boat: str) -> None:
    found = document(command, boat)["findings"]
    assert isinstance(found, list)
    assert found or command == "bench"
    for one in found:
        least, most, limit = one["at_least"], one["at_most"], one["limit"]
        assert (least is None) != (most is None)
        assert limit["value"] == (most if least is None else least)
        assert SI_UNITS[limit["quantity"]] == one["unit"]
        if one["stands"] is None:
            assert one.get("check", one.get("key")) in UNMEASURED
        else:
            assert one["stands"] <= least if most is None else abs(one["stands"]) >= most


@pytest.mark.parametrize("boat", ["bittern-as-bought", "grebe-as-bought", "plover-as-bought"])
def test_json_tells_each_mend_as_changes_that_do_the_same(boat: str) -> None:
    """What is read from JSON writes the same boat file as the finding's own changes."""
    folder = ROOT / "boats" / boat
    her, text = assess(folder / "boat.toml"), (folder / "boat.toml").read_text("utf-8")
    answer = document("check", boat)["findings"]
    assert isinstance(answer, list)
    assert any(one["edits"] for one in answer)
    for one, plain in zip(answer, her.findings, strict=True):
        edits = [
            Edit(
                action=edit["action"],
                path=edit["path"],
                fields=tuple((each["field"], each["value"]) for each in edit["fields"]),
            )
            for edit in one["edits"]
        ]
        assert rewritten(text, edits, her.files) == rewritten(text, plain.edits, her.files)
        for each in (each for edit in one["edits"] for each in edit["fields"]):
            is_figure = isinstance(each["value"], float)
            assert (each["unit"] in ("m", "kg", "m3", "kg/m3")) == is_figure, each


@pytest.mark.parametrize(
    ("unit", "texts"), [("oz", ("0 oz", "881.8 oz", "0.18 oz")), ("g", ("0 g", "25 kg", "5 g"))]
)
def test_limits_of_masses_stand_in_the_unit_of_the_boat(unit: str, texts: tuple[str, ...]) -> None:
    """By the international ounce, 28.349 523 125 g: 25 kg are 881.85 of it, 5 g 0.176."""
    boat = crate().boat
    boat = boat.model_copy(
        update={"limits": {}, "units": boat.units.model_copy(update={"mass": unit})}
    )
    keys = ("lift-left", "lift-one", "plant-drift")
    assert tuple(limit_text(boat, limit_of(key, boat)) for key in keys) == texts
    own = boat.model_copy(update={"limits": {"plant-drift": "7 g"}})
    assert limit_text(own, limit_of("plant-drift", own)) == "7 g"
