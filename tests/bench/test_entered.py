"""What has not been entered is listed, every field of the bench's tables looked at one by one.

Our own rule: in order is only what was looked at. No source.
"""

import json
from collections.abc import Iterator
from pathlib import Path

import pytest
from pydantic import BaseModel
from typer.testing import CliRunner

from trimdive.assessment import Assessment, assess
from trimdive.bench import not_entered
from trimdive.boatfile import Boat, Cylinder, parse
from trimdive.boatfile.bench import CapFitted, CapHole, Closing, LeakTest, RingFitted
from trimdive.boatfile.plant import (
    Battery,
    Failsafe,
    Hose,
    Linkage,
    Motor,
    Plant,
    Pump,
    Screw,
    Store,
    Valve,
)
from trimdive.cli.app import app as commands
from trimdive.pond import GAPS, card, phone_card
from trimdive.text.gaps import gap

BOATS = Path(__file__).parents[2] / "boats"
GOOD = ("bittern", "grebe", "plover")
TABLES = (
    Cylinder, CapFitted, CapHole, RingFitted, Closing, LeakTest, Plant, Pump, Motor, Screw, Hose,
    Valve, Store, Battery, Failsafe, Linkage,
)  # fmt: skip

ASSUMED = {  # a usual figure is taken for it, and named beside the answer
    "Cylinder": {"out_of_round", "hottest", "between", "air", "closed", "closing_temperature"},
    "CapHole": {"out", "shaft"},
    "RingFitted": {
        "gap",
        "number",
        "inside",
        "section",
    },  # one of number and both sizes, or refused
    "LeakTest": {"air", "barometer_start", "barometer_end"},
    "Plant": {"hose", "free_air", "closed_at", "seal", "stretch"},
    "Pump": {"voltage", "current", "stalled", "starts"},
    "Motor": {"voltage", "current", "stalled"},
    "Screw": {"diameter", "friction", "thread", "collar"},
    "Hose": {"bore", "length"},
    "Valve": {"bore", "unpowered"},
    "Store": {"volume", "pressure", "jet", "temperature"},
    "Battery": {"low", "drive"},
    "Failsafe": {"after"},
    "Linkage": {"rubs", "stock", "speed", "rod", "span", "y_aft", "y_fore", "shaft_y"},
}
CHOICES = {  # left out it is none, or the choice that the boat file's document names
    "Cylinder": {"slope", "inside", "ends", "pair", "folding_factor", "breaking_factor",
                 "factor_note", "aft_cap", "fore_cap"},
    "CapFitted": {"edge", "holes"},
    "RingFitted": {"sort"},
    "Closing": {"by", "count", "diameter", "overlap", "holds"},  # what is missing is refused
    "LeakTest": {"after"},
    "Plant": {"battery", "valve"},
    "Pump": {"sort"},
    "Failsafe": {"own_battery", "drops"},
    "Linkage": {"moves", "shaft_slope"},
}  # fmt: skip


ENDS = {"Cylinder": {"aft_cap", "fore_cap"}}  # choices: else caps stands for both


@pytest.fixture(scope="module")
def texts() -> dict[str, str]:
    return {name: (BOATS / name / "boat.toml").read_text("utf-8") for name in GOOD}


def stripped(piece: BaseModel) -> Iterator[tuple[tuple[str, str], BaseModel]]:
    """Yield every table under a piece without one of its fields, and which that is."""
    kind = type(piece)
    for name, field in kind.model_fields.items():
        now = getattr(piece, name)
        if not field.is_required() and now != field.get_default(call_default_factory=True):
            bare = field.get_default(call_default_factory=True)
            yield (kind.__name__, name), piece.model_copy(update={name: bare})
        inner = now if isinstance(now, tuple) else (now,)
        for number, one in enumerate(inner):
            if isinstance(one, BaseModel):
                for where, less in stripped(one):
                    many = (*inner[:number], less, *inner[number + 1 :])
                    put = many if isinstance(now, tuple) else less
                    yield where, piece.model_copy(update={name: put})


def without(boat: Boat) -> Iterator[tuple[tuple[str, str], Boat]]:
    """Yield a boat without one field of the bench's tables, again and again."""
    for name in ("cylinders", "plants", "batteries", "linkages"):
        listed = getattr(boat, name)
        for number, one in enumerate(listed):
            for where, less in stripped(one):
                many = (*listed[:number], less, *listed[number + 1 :])
                yield where, boat.model_copy(update={name: many})
    assert boat.failsafe is not None
    for where, less in stripped(boat.failsafe):
        yield where, boat.model_copy(update={"failsafe": less})


def test_every_field_of_the_bench_is_required_listed_assumed_or_a_choice(
    texts: dict[str, str],
) -> None:
    listed: dict[str, set[str]] = {}
    for text in texts.values():
        boat = parse(text)
        assert not_entered(boat) == (), "a good boat has all of it"
        for (table, field), less in without(boat):
            found = not_entered(less)
            assert all(gap(one).enter.endswith(".") for one in found), "each has its words"
            if found:
                listed.setdefault(table, set()).add(field)
    for table in TABLES:
        name = table.__name__
        own = {
            field: info
            for field, info in table.model_fields.items()
            if field in vars(table)["__annotations__"] or (name, field) == ("Cylinder", "material")
        }
        free = {field for field, info in own.items() if not info.is_required()}
        answer = [
            (listed.get(name, set()) & set(own)) - ENDS.get(name, set()),
            ASSUMED.get(name, set()),
            CHOICES.get(name, set()),
        ]
        assert set().union(*answer) == free, name
        assert sum(map(len, answer)) == len(free), f"{name}: a field is told two ways"


BARE = ("aft_cap", "fore_cap", "caps", "closing")


def less(text: str, *starts: str, upto: str = "") -> str:
    """Return a boat file without the lines that begin so, and without a table."""
    rows = [row for row in text.splitlines() if not row.startswith(starts)]
    if upto:
        first = rows.index(next(row for row in rows if row.startswith(upto)))
        end = next((k for k in range(first + 1, len(rows)) if rows[k].startswith("[")), len(rows))
        del rows[first:end]
    return "\n".join(rows)


@pytest.fixture(scope="module")
def bare(tmp_path_factory: pytest.TempPathFactory, texts: dict[str, str]) -> Path:
    """Return Grebe's file without caps, rings, what holds them and failsafe."""
    folder = tmp_path_factory.mktemp("bare")
    for file in (BOATS / "grebe").iterdir():
        if file.name != "boat.toml" and file.is_file():
            (folder / file.name).write_bytes(file.read_bytes())
    text = less(texts["grebe"], *BARE, upto="[failsafe]")
    (folder / "boat.toml").write_text(text, "utf-8")
    return folder


def test_a_stripped_boat_is_in_order_nowhere(bare: Path) -> None:
    her = assess(bare / "boat.toml")
    assert not her.bench_in_order
    kinds = {one.key for one in her.not_entered}
    assert {"rings", "caps", "closing", "depth"} <= kinds
    assert "failsafe-told" in {one.key for one in her.bench_findings}, "complained of, and once"
    assert "failsafe-told" not in kinds
    for words in (["bench", str(bare)], ["check", str(bare)], ["pond", str(bare)]):
        answer = CliRunner().invoke(commands, words)
        assert "n order on the bench" not in answer.stdout
        assert "failsafe" in answer.stdout or "not entered" in answer.stdout
    answer = CliRunner().invoke(commands, ["bench", str(bare)])
    assert answer.exit_code == 1
    stated = " ".join(answer.stdout.split())
    assert "Cylinder, both caps: rings not entered" in stated
    assert "Cylinder: what holds its caps not entered. Not known: whether pressure" in stated
    document = json.loads(CliRunner().invoke(commands, ["bench", str(bare), "--json"]).stdout)
    assert document["in_order"] is False
    shown = [one["what"] for one in document["not_entered"]]
    assert shown == [gap(one).what for one in her.not_entered]


def test_nothing_to_put_right_is_not_in_order_where_rings_are_missing(
    texts: dict[str, str],
) -> None:
    text = texts["grebe"].replace(
        'rings = [{ number = "336", depth = "4.15 mm", width = "7.1 mm" }]', "rings = []"
    )
    assert text != texts["grebe"]
    files = assess(BOATS / "grebe" / "boat.toml").files
    her = Assessment(boat=parse(text), files=files)
    assert her.bench_findings == ()
    assert [gap(one).what for one in her.not_entered] == ["cylinder, both caps: rings not entered"]
    assert not her.bench_in_order
    found = card(her)
    assert found.not_entered == (
        "Cylinder, both caps: rings not entered. Not known: whether it stays dry.",
    )
    page = phone_card(her, found)
    assert GAPS in page
    assert found.not_entered[0] in page
    good = assess(BOATS / "grebe" / "boat.toml")
    assert GAPS not in phone_card(good, card(good))


@pytest.mark.parametrize(
    ("field", "words"),
    [
        ("signal_lost", "no failsafe action set for signal lost"),
        ("leak", "no failsafe action set for leak"),
    ],
)
def test_an_action_that_is_not_set(field: str, words: str, texts: dict[str, str]) -> None:
    found = not_entered(parse(less(texts["plover"], f"{field} =")))
    assert [gap(one).what for one in found] == [words]
    assert gap(found[0]).enter.endswith(f'enter {field} = "come up".')


def test_free_air_of_which_nothing_tells(texts: dict[str, str]) -> None:
    boat = parse(less(texts["grebe"], "air ="))
    assert not_entered(boat) == (), "worked out from what is listed"
    alone = boat.model_copy(update={"parts": tuple(one for one in boat.parts if not one.inside)})
    assert [gap(one).what for one in not_entered(alone)] == ["cylinder: free air not entered"]


@pytest.mark.parametrize(
    ("name", "table", "words"),
    [
        ("bittern", "[[plant]]", "plant of forward tank not entered"),
        ("grebe", "[[battery]]", "voltage and capacity of the battery not entered"),
        ("plover", "[[cylinder]]", "no cylinder entered"),
    ],
)
def test_a_whole_table_that_is_missing(
    name: str, table: str, words: str, texts: dict[str, str]
) -> None:
    boat = parse(texts[name])
    gone = {"[[plant]]": "plants", "[[battery]]": "batteries", "[[cylinder]]": "cylinders"}[table]
    found = not_entered(boat.model_copy(update={gone: getattr(boat, gone)[1:]}))
    assert words in [gap(one).what for one in found]
