"""How findings are made: limits and where they come from, what hides and what follows what."""

import pickle
from dataclasses import replace
from math import pi
from pathlib import Path

import pytest
from tests.findings.checks import ran
from tests.rest.crate import crate
from tests.said import mend_of, what_of

import trimdive
from trimdive.data import row, table
from trimdive.errors import BoatError
from trimdive.fact import fact
from trimdive.findings import CHECKS, Edit, Finding, apply, findings, limit_of, with_rest
from trimdive.findings.finding import Mend, Remedy, finding, known_mend

SOURCE = Path(trimdive.__file__).parent


def test_every_check_has_its_limit_in_the_table() -> None:
    keys = {entry["key"] for entry in table("limits")}
    assert {limit for _, limit in CHECKS.values()} <= keys


def test_every_limit_is_used_by_a_check_or_named_elsewhere() -> None:
    used = {limit for _, limit in CHECKS.values()}
    text = "".join(path.read_text("utf-8") for path in SOURCE.rglob("*.py"))
    unused = [e["key"] for e in table("limits") if e["key"] not in used and e["key"] not in text]
    assert unused == []


@pytest.mark.parametrize("entry", table("limits"), ids=lambda entry: entry["key"])
def test_every_limit_reads_and_names_its_source(entry: dict[str, str]) -> None:
    bare = crate().boat.model_copy(update={"limits": {}})
    limit = limit_of(entry["key"], bare)
    assert limit.value >= 0
    assert limit.text == f"{entry['value']} {entry['unit']}".removesuffix(" count")
    assert limit.source.startswith(row("sources", entry["source"])["title"])


@pytest.mark.parametrize(
    ("key", "si"),
    [("bg-least", 0.004), ("heel", pi / 180), ("void-above", 20e-6), ("lift-two", 33)],
)
def test_limits_are_in_si(key: str, si: float) -> None:
    assert limit_of(key, crate().boat).value == pytest.approx(si, rel=1e-9)


@pytest.mark.parametrize("text", ["9 mm/m", "9.0 mm/m", "9,0 mm/m", "9"])
def test_a_limit_of_the_boats_own(text: str) -> None:
    """The crate stands up by 8.4 mm: enough for 4 mm/m, not for 9."""
    boat = crate(f'\n[limits]\nbg-least = "{text}"\n')
    limit = limit_of("bg-least", boat.boat)
    assert limit.value == pytest.approx(0.009)
    assert limit.source == "the boat file"
    found = ran("bg-least", boat)
    assert [each.limit.source for each in found] == ["the boat file"]


@pytest.mark.parametrize("text", ["9 mm", "much", "", "nine mm/m"])
def test_a_limit_that_is_none(text: str) -> None:
    boat = crate().boat.model_copy(update={"limits": {"bg-least": text}})
    with pytest.raises(BoatError) as refused:
        limit_of("bg-least", boat)
    assert refused.value.where == "limits.bg-least"
    assert "mm/m" in str(refused.value)


@pytest.mark.parametrize("text", ["nan mm/m", "inf mm/m", "-4 mm/m"])
def test_a_limit_that_no_boat_can_keep_or_break(text: str) -> None:
    boat = crate().boat.model_copy(update={"limits": {"bg-least": text}})
    with pytest.raises(BoatError):
        limit_of("bg-least", boat)


def test_worst_first() -> None:
    boat = crate(tank="length = 72\nx = 500 -> length = 50\nx = 520")
    ranks = [each.rank for each in boat.first_findings]
    assert len(ranks) >= 3
    assert ranks == sorted(ranks, reverse=True)
    assert findings(boat) == boat.first_findings


def test_in_order_is_what_has_nothing_to_put_right() -> None:
    light = crate('\n[limits]\nlift-two = "1 kg"\n')
    assert [each.key for each in light.first_findings] == ["lift-two"]
    assert light.in_order  # to look at, not to put right
    assert not crate(tank="length = 72\nx = 500 -> length = 50\nx = 500").in_order


def made(key: str, subject: str = "boat") -> Finding:
    limit = limit_of("heel", crate().boat)
    return finding(
        limit=limit,
        key=key,
        subject=subject,
        what=fact("take-tank-out", name=f"{key} of {subject}"),
        stands=2 * limit.value,
        mend=fact("nothing"),
        rank=1,
    )


def test_left_hidden_and_follows() -> None:
    """A mended leaves B and brings C to light; B mended takes A with it and leaves nothing.

    So B comes first, though A by itself is as urgent.
    """
    a, b, c = made("bg-least"), made("gm-least"), made("heel")
    second, first = with_rest((a, b), {a: (b, c), b: ()})
    assert (first.key, second.key) == (a.key, b.key)
    assert first.left == (b.what, c.what)
    assert first.hidden == (c.what,)
    assert first.follows == (b.about,)
    assert second.left == ()
    assert second.follows == ()


def test_what_cannot_be_mended_has_nothing_left() -> None:
    (only,) = with_rest((made("heel"),), {})
    assert only.left == only.hidden == only.follows == ()


def test_a_tank_off_the_middle_is_one_finding_whichever_tank_is_to_move() -> None:
    assert made("tank-offset", "fore").about == made("tank-offset", "after").about
    assert made("heel", "dived").about != made("heel", "on the surface").about


def test_findings_of_a_boat_tell_what_remains() -> None:
    """Works to port and a tank 20 mm forward: each mended leaves the other."""
    boat = crate(
        tank="length = 72\nx = 500 -> length = 72\nx = 520",
        works="x = 620\nz = 40 -> x = 620\ny = 4\nz = 40",
    )
    by_key = {(each.key, each.subject): each for each in boat.findings}
    lean, offset = by_key["heel", "dived"], by_key["tank-offset", "tank"]
    left = {what.kind for what in lean.left}
    assert "tank-water-off" in left
    assert "heels" not in left
    assert "heels" in {what.kind for what in offset.left}
    assert lean.hidden == ()
    hangs = by_key["trim-dived", "boat"]
    assert hangs.follows == (("tank-offset", ""),)


def test_edits_set_add_and_remove() -> None:
    boat = crate().boat
    edits = (
        Edit(action="set", path="part[1]", fields=(("x", 0.6),)),
        Edit(action="remove", path="part[2]", fields=()),
        Edit(action="add", path="lead", fields=(("mass", 0.1), ("x", 0.3), ("z", 0.01))),
        Edit(action="file", path="lines.csv", fields=(("text", "x\n"),)),
    )
    after, files = apply(boat, {}, edits)
    assert [part.name for part in after.parts] == ["fore works"]
    assert after.parts[0].x == 0.6
    assert [piece.mass for piece in after.lead] == [0.7998, 0.1]
    assert files == {"lines.csv": b"x\n"}
    assert boat.parts[0].x == 0.62  # the boat itself is as it was


def test_numbers_in_paths_are_those_before_any_edit() -> None:
    boat = crate().boat
    edits = (
        Edit(action="remove", path="part[1]", fields=()),
        Edit(action="set", path="part[2]", fields=(("x", 0.4),)),
    )
    after, _ = apply(boat, {}, edits)
    assert [(part.name, part.x) for part in after.parts] == [("after works", 0.4)]


def test_a_path_that_names_nothing() -> None:
    with pytest.raises(BoatError, match="sail"):
        apply(crate().boat, {}, (Edit(action="set", path="sail[1]", fields=()),))


@pytest.mark.parametrize("path", ["part[9]", "part", "part[0]"])
def test_a_number_that_names_nothing(path: str) -> None:
    with pytest.raises(BoatError):
        apply(crate().boat, {}, (Edit(action="set", path=path, fields=(("x", 0.1),)),))


def test_a_finding_is_frozen() -> None:
    one = made("heel")
    with pytest.raises(AttributeError):
        one.rank = 2.0  # type: ignore[misc]
    assert replace(one, rank=2.0).rank == 2.0


def test_nothing_is_worse_than_sinking() -> None:
    """50 kg of 25 ml on deck: that she sinks comes right after the figure that it comes of."""
    heavy = '[[part]]\nname = "top"\nmass = 50000\nx = 500\nz = 160\nvolume = 25\n'
    slip, same, sinks, *_ = crate(heavy).first_findings
    assert (slip.key, slip.subject) == ("slip", "part[3].mass")
    assert "top, mass 50000 g: " in what_of(slip)
    assert (same.key, same.subject) == ("density-most", "part[3]")
    assert "sinks" in what_of(sinks)


def test_causes_come_first_and_what_goes_with_them_under_them() -> None:
    """A heavy consequence stands under its light cause, before a fault that stands by itself."""
    cause, heavy, alone = made("bg-least"), made("gm-least"), made("heel")
    heavy, alone = replace(heavy, rank=60.0), replace(alone, rank=30.0)
    answer = with_rest((heavy, alone, cause), {cause: (alone,)})
    assert [one.key for one in answer] == ["bg-least", "gm-least", "heel"]


def test_what_cannot_be_comes_before_all_and_what_shares_its_room_next() -> None:
    keys = ("neutral-band", "mesh-overlap", "place-far", "slip")
    found = tuple(replace(made(key), rank=20.0 + k) for k, key in enumerate(keys[:3]))
    answer = with_rest((*found, replace(made("slip"), rank=120.0)), {})
    assert [one.key for one in answer] == ["slip", "place-far", "mesh-overlap", "neutral-band"]


def change(one: Finding) -> Finding:
    edits = (Edit(action="remove", path="part[1]", fields=()),)
    return replace(one, cure=known_mend((fact("take-foam-out"), edits)))


def test_a_mend_is_worked_out_when_it_is_asked_for_and_goes_to_another_process_as_known() -> None:
    asked: list[int] = []

    def work() -> Remedy:
        asked.append(1)
        return fact("measure-again"), ()

    one = replace(made("heel"), cure=Mend(work))
    assert (one, hash(one)) == (made("heel"), hash(made("heel")))
    assert not asked
    assert mend_of(pickle.loads(pickle.dumps(one))) == mend_of(one) == "Measure it again."
    assert asked == [1]


def test_a_change_that_makes_her_worse_is_not_offered() -> None:
    light, sinks = change(made("heel")), replace(made("waterline-band"), rank=100.0)
    (answer,) = with_rest((light,), {light: (sinks,)})
    assert answer.edits == ()
    assert what_of(sinks) in mend_of(answer)
    assert answer.left == ()


def test_a_change_that_puts_something_out_of_the_hull_is_not_offered() -> None:
    heavy, out = replace(change(made("heel")), rank=60.0), made("outside-slack", "cylinder")
    (answer,) = with_rest((heavy,), {heavy: (out,)})
    assert answer.edits == ()


def test_a_change_that_cannot_be_calculated_is_not_offered_and_that_is_said() -> None:
    one = change(made("heel"))
    (answer,) = with_rest((one,), {one: None})
    assert answer.edits == ()
    assert "cannot be calculated" in mend_of(answer)
