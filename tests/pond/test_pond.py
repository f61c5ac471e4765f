"""What the water of the day asks for, against hand sums; and the card, against what is asked."""

import json
import random
import re
import tomllib
from dataclasses import replace
from html import unescape
from itertools import pairwise
from math import isnan, nan, radians

import pytest
from tests.cli.boats import BOATS, SMALL, demo
from tests.said import what_of

from trimdive.assessment import Assessment
from trimdive.boatfile import parse
from trimdive.errors import BoatError
from trimdive.page.large import larges
from trimdive.pond import (
    Today,
    card,
    chosen,
    dial,
    grid,
    measured,
    paper_card,
    phone_card,
    refused,
    today,
    water_words,
)
from trimdive.pond.card import depth_words
from trimdive.pond.html import table_shown
from trimdive.pond.words import WORDS
from trimdive.text.say import Say
from trimdive.text.tub_uncertainty import uncertainty_text

GOOD = ["bittern", "grebe", "plover"]
LEAD = 11340.0  # [kg/m³]: the table of materials, from a handbook


def test_sea_water_is_that_of_the_check_value() -> None:
    """UNESCO, Technical Papers in Marine Science 44, 1983: 1027.67547 kg/m³ at 5 °C and 35."""
    assert chosen("sea", 5.0, 35.16504).density == pytest.approx(1027.67547, abs=2e-3)


def test_the_lead_for_the_sea_worked_out_by_hand() -> None:
    """She pushes aside 2.859 % more in sea water of 5 °C (the check value) than at 999.1026.

    Her 23.8967 kg want 0.6834 kg more pull; lead in the wet gives 1 - 1027.675 / 11340 = 0.90938
    of its mass: 0.7515 kg.
    """
    one = today(demo("bittern"), 1027.67547)
    assert one.lead == pytest.approx(0.7515, abs=5e-4)
    assert one.foam == 0.0


@pytest.mark.parametrize("name", GOOD)
def test_changed_she_is_as_trimmed(name: str) -> None:
    """With the lead in, pull over displacement is as before: Archimedes, both states.

    Her weight with the same tank water, less the lead's own lift, over the denser water.
    """
    her = demo(name)
    for density in (992.0, 1005.0, 1028.0):
        one = today(her, density)
        weight = her.floater.mass + one.lead * (1 - density / LEAD) - one.foam * (density - 32.0)
        assert weight / density == pytest.approx(her.floater.mass / her.floater.density, rel=2e-5)


@pytest.mark.parametrize("name", GOOD)
def test_at_the_filling_told_she_is_neutral(name: str) -> None:
    her = demo(name)
    for density in (995.0, 1003.0):
        one = today(her, density)
        weight = her.floater.mass + density * one.neutral
        assert weight == pytest.approx(density * her.floater.volume, rel=1e-12)
        if not isnan(one.trim):
            low, high = float(her.blown_water.sum()), float(her.full_water.sum())
            assert low <= one.neutral <= high


def test_in_her_own_water_nothing_changes() -> None:
    her = demo("grebe")
    one = today(her, her.water.density)
    assert one.lead == pytest.approx(0.0, abs=1e-12)
    assert one.rises == pytest.approx(0.0, abs=1e-7)
    assert one.trim == pytest.approx(her.dived.trim_angle, abs=1e-6)
    assert water_words(her, one).ask == WORDS["nothing"]


def test_where_more_lead_must_come_out_than_is_aboard_foam_does_the_rest() -> None:
    """A liquid so light that 5.54 kg must give up 1.11 kg of pull; she has 1.00 kg of lead."""
    her = demo("grebe")
    kept = her.masses.of_kind("lead")
    one = today(her, 0.80 * her.water.density)
    assert one.lead == pytest.approx(-kept)
    assert one.foam > 0
    assert "add" in water_words(her, one).ask


def between(values: list[float | None], at: float) -> float:
    low = max(0, min(int(at), len(values) - 2))
    first, second = values[low], values[low + 1]
    if first is None or second is None:
        return nan
    return first + (second - first) * (at - low)


@pytest.mark.parametrize("name", GOOD)
def test_the_dial_is_off_by_less_than_it_says(name: str) -> None:
    """Any waters, read from the card's own table as it is written, against the exact figures."""
    her = demo(name)
    found = card(her)
    table = json.loads(json.dumps(table_shown(her, found)))
    chance = random.Random(7)
    worst = 0.0
    for _ in range(400):
        kind = chance.choice(["fresh", "pool", "sea"])
        salt = {"fresh": 0.0, "pool": 10.0, "sea": 42.0}[kind] * chance.random()
        warm = 40.0 * chance.random()
        wide = table["grids"][kind]["salts"]
        rows = [
            between(row, (salt - wide["start"]) / wide["step"]) if len(row) > 1 else row[0]
            for row in table["grids"][kind]["rows"]
        ]
        density = between(rows, warm / table["celsius"]["step"]) / table["fine"]
        exact = chosen(kind, warm, salt).density
        assert density == pytest.approx(exact, abs=3e-3)
        lead = between(table["rows"]["lead"], (density - table["from"]) / table["step"])
        worst = max(worst, abs(lead - today(her, exact).lead))
    assert worst <= found.dial.off < 1e-3, "below a gram"
    most = float(re.findall(r"less than ([\d.]+) g", found.off)[0])
    assert worst * 1e3 < most


@pytest.mark.parametrize("name", GOOD)
def test_riding_and_hanging_are_read_as_closely_as_the_document_says(name: str) -> None:
    her = demo(name)
    rows = dial(her).rows
    for low, high in pairwise(rows):
        middle = today(her, (low.density + high.density) / 2)
        assert (low.rises + high.rises) / 2 == pytest.approx(middle.rises, abs=1e-4)
        if not isnan(low.trim + high.trim):
            assert (low.trim + high.trim) / 2 == pytest.approx(middle.trim, abs=radians(0.02))


def test_how_far_off_is_told_in_other_units() -> None:
    for choice, unit in (("lb", "oz"), ("kg", "g")):
        boat = demo("plover").boat
        units = boat.units.model_copy(update={"mass": choice})
        her = Assessment(boat=boat.model_copy(update={"units": units}), files=demo("plover").files)
        text = re.findall(r"less than ([\d.]+) (\w+)\.", card(her).off)
        assert text
        assert text[0][1] == unit
        assert float(text[0][0]) > 0


def test_grids_reach_as_far_as_their_sources() -> None:
    assert grid("sea").densities.shape == (81, 43)
    assert grid("fresh").densities[8, 0] == pytest.approx(999.975, abs=1e-3), "4 °C, the densest"


def test_a_boat_to_be_put_right_has_no_card() -> None:
    her = demo("bittern-as-bought")
    every = (*her.findings, *her.bench_findings)
    assert refused(her) == tuple(
        what_of(one, Say(her.boat)) for one in every if one.weight == "put right"
    )
    with pytest.raises(BoatError, match="no card yet, put these right first: winch"):
        card(her)


def test_a_boat_to_be_put_right_on_the_bench_has_no_card() -> None:
    """A wall of half a millimetre on 80 mm folds at hand's depth; afloat she is as before."""
    her = Assessment(boat=parse(SMALL.replace('wall = "3 mm"', 'wall = "0.5 mm"')), files={})
    on_the_bench = [
        what_of(one, Say(her.boat)) for one in her.bench_findings if one.weight == "put right"
    ]
    assert on_the_bench
    assert set(on_the_bench) <= set(refused(her))


@pytest.mark.parametrize("name", GOOD)
def test_the_depth_she_may_go_to_is_told_and_never_deeper_than_worked_out(name: str) -> None:
    her = demo(name)
    least = min(one.strength.depth for one in her.bench.cylinders)
    seals = [h.depth for one in her.bench.cylinders for end in one.caps for h in end.through]
    least = min([least, *seals])
    depth_shown = re.findall(r"may go to ([\d.]+) m", " ".join(card(her).depth))
    assert len(depth_shown) == 1
    assert least - 0.11 <= float(depth_shown[0]) <= least


@pytest.mark.parametrize(("density", "word"), [(980.0, "980"), (1500.0, "1500")])
def test_what_is_no_water_is_refused(density: float, word: str) -> None:
    with pytest.raises(BoatError, match=f"no water to sail on weighs {word} kg/m³"):
        measured(density, 15.0)


@pytest.mark.parametrize("name", GOOD)
def test_the_card_for_the_phone_stands_alone(name: str) -> None:
    text = phone_card(demo(name), card(demo(name)), "1 May 2026")
    assert len(text) < 100_000
    assert not re.search(r"(src|href)=\"(?!data:)|@import|https?://|url\(", text)
    assert "default-src 'none'" in text
    assert "made 1 May 2026" in text


def test_names_in_the_card_do_nothing() -> None:
    her = demo("grebe")
    boat = her.boat.model_copy(update={"name": "<script>alert(1)</script>"})
    other = type(her)(boat=boat, files=her.files)
    assert "<script>alert" not in phone_card(other, card(other))


@pytest.mark.parametrize("name", GOOD)
def test_the_sheet_is_one_page(name: str) -> None:
    her = demo(name)
    data = paper_card(her, card(her, chosen("sea", 12.0, 8.0)), "1 May 2026")
    assert data.startswith(b"%PDF")
    assert re.findall(rb"/Type ?/Pages.{0,80}?/Count (\d+)", data, flags=re.DOTALL) == [b"1"]


def test_demo_boats_are_what_they_were() -> None:
    """The waters told are all of the table, thinnest first."""
    contents = tomllib.loads((BOATS / "bittern" / "boat.toml").read_text("utf-8"))
    found = card(demo("bittern"))
    assert found.name == contents["name"]
    densities = [one.water.density for one in found.named]
    assert densities == sorted(densities)
    assert len(densities) == 11


def test_small_masses_have_a_decimal_and_none_is_neutral() -> None:
    """Archimedes: 0.4 kg/m³ denser, 5540 g want 2.2 g more pull, lead 1 / (1 - 999.5 / 11340)."""
    her = demo("grebe")
    one = today(her, her.water.density + 0.4)
    pull = her.floater.mass * 0.4 / her.water.density
    lead = pull / (1 - one.density / LEAD)
    assert water_words(her, one).ask == f"add {1e3 * lead:.1f} g of lead"
    neutral = replace(one, short=0.00004)
    assert water_words(her, neutral).full == "is neutral with tanks full"
    assert water_words(her, replace(one, short=-0.0021)).full == "is 2.1 g heavy with tanks full"


def test_dial_rows_are_the_exact_figures() -> None:
    her = demo("plover")
    for row in dial(her).rows[::20]:
        assert row == today(her, row.density) or isnan(row.trim)
        assert isinstance(row, Today)


def test_what_comes_up_is_said_only_of_what_was_entered() -> None:
    """A boat of a list and no more has no plant that could blow her tanks, and no rings."""
    full = demo("bittern")
    bare = full.boat.model_copy(
        update={
            "plants": (),
            "failsafe": None,
            "cylinders": tuple(
                one.model_copy(update={"caps": None, "aft_cap": None, "fore_cap": None})
                for one in full.boat.cylinders
            ),
        }
    )
    says = "Blown tanks bring her up from as deep as she may go"
    (whole,) = [one for one in depth_words(full) if one.startswith(says)]
    assert whole == f"{says}; her failsafe acts at 3.0 m."
    (bare_text,) = [one for one in depth_words(replace(full, boat=bare)) if one.startswith(says)]
    assert bare_text == (f"{says}, by her list; not entered in full: plant, failsafe, caps, rings.")


@pytest.mark.parametrize("name", ["bittern", "grebe", "plover"])
def test_the_card_says_how_sure_she_is_as_the_figures_do(name: str) -> None:
    her = demo(name)
    shown = larges(her, her.full)[1]["off"]
    how, loose = card(her).sure
    assert f"to {shown}, in 95 cases" in how
    assert any(loose in getattr(one, "text", "") for one in uncertainty_text(her))
    assert loose in unescape(phone_card(her, card(her)))


def test_a_sheet_with_gaps_stays_one_page() -> None:
    her = demo("bittern")
    bare = replace(her, boat=her.boat.model_copy(update={"batteries": (), "linkages": ()}))
    found = card(bare)
    assert found.not_entered
    data = paper_card(bare, found, "1 May 2026")
    assert re.findall(rb"/Type ?/Pages.{0,80}?/Count (\d+)", data, flags=re.DOTALL) == [b"1"]
