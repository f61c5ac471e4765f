"""Every figure asked "why?": the formula with the values put in gives what is shown elsewhere.

Each formula is done again here from the values that the panel shows; that these figures are right
is tested where they are worked out.
"""

import re
from collections.abc import Callable
from math import asin, degrees, sqrt
from pathlib import Path

import pytest
from tests.cli.boats import NAMES, SMALL, demo

from trimdive.assessment import Assessment
from trimdive.boatfile import parse
from trimdive.data import table
from trimdive.errors import AskError
from trimdive.hydrostatics.equilibrium import State
from trimdive.pictures.drawings.words import figures
from trimdive.text.said import said
from trimdive.text.say import Say
from trimdive.text.whys import MEANS, QUESTIONS, WhyInWords, in_words, meanings
from trimdive.units import read
from trimdive.why import as_text, asked, every_finding, found_keys, keys, why
from trimdive.why.asked import OF_ONE, PLAIN

Values = dict[str, float]
AGAIN: dict[str, Callable[[Values], float]] = {
    "trim": lambda v: asin(v["x_G − x_B"] / v["BG"]),
    "light-or-heavy": lambda v: v["ρ"] * (v["∇_0"] - v["w"]) - v["m"],
    "bg": lambda v: v["KB"] - v["KG"],
    "bg-upright": lambda v: v["KB"] - v["KG"],
    "tank-water-offset": lambda v: v["x_tank"] - v["x_above"],
    "neutral-filling": lambda v: (v["∇_0"] - v["m"] / v["ρ"]) / v["V_t"],
    "gm-empty": lambda v: v["BG"] + v["BM_T"] - v["GG_V"],
    "gm-least": lambda v: v["BG"] + v["BM_T"] - v["GG_V"],
    "kg-dived": lambda v: (
        (v["m"] * v["z_G"] + v["ρ"] * v["w"] * v["z_w"]) / (v["m"] + v["ρ"] * v["w"])
    ),
    "rule-of-thumb": lambda v: v["m_above"] / v["ρ"],
    "draught": lambda v: v["T_0"] + v["x"] * v["tan θ"],
    "tank-volume": lambda v: v["V_t"] * (v["f_t"] - v["r_t"]),
    "lead-for-water": lambda v: (v["ρ_new"] / v["ρ"] - 1) * v["m"] / (1 - v["ρ_new"] / v["ρ_lead"]),
    "sinks": lambda v: sqrt(2 * v["m_x"] * v["g"] / (v["ρ"] * v["C_D"] * v["A"])),
    "rises": lambda v: sqrt(2 * v["m_x"] * v["g"] / (v["ρ"] * v["C_D"] * v["A"])),
}
MADE = re.compile(r'means="([^"]+)"')
SUMMED = {
    "litres-needed", "litres-centre", "tank-water-centre", "dry-mass", "x-of-g", "z-of-g",
    "kb-dived", "volume-above", "tank-centre", "finding",
}  # fmt: skip


def answer(her: Assessment, key: str, state: State | None = None) -> WhyInWords:
    return in_words(her.boat, why(her, key, state))


def all_of(her: Assessment) -> list[WhyInWords]:
    return [answer(her, key) for key in keys(her)]


@pytest.mark.parametrize("name", NAMES)
def test_the_formula_gives_the_figure(name: str) -> None:
    for one in all_of(demo(name)):
        again = AGAIN.get(one.key.partition("/")[0])
        if again is not None:
            done = again({value.symbol: value.value for value in one.values})
            assert done == pytest.approx(one.result, rel=1e-9, abs=1e-9), one.key


@pytest.mark.parametrize("name", NAMES)
def test_every_kind_is_done_again_or_summed(name: str) -> None:
    assert {key.partition("/")[0] for key in keys(demo(name))} <= set(AGAIN) | SUMMED


@pytest.mark.parametrize("name", NAMES)
def test_the_figure_is_what_is_worked_out(name: str) -> None:
    her = demo(name)
    found = {one.key: one.result for one in all_of(her)}
    need, state = her.need, her.surfaced
    expected = {
        "trim": her.lowest.trim_angle,
        "bg": her.lowest.bg,
        "bg-upright": her.bg,
        "litres-needed": need.volume,
        "litres-centre": float(need.place[0]),
        "tank-water-centre": float(need.water_place[0]),
        "tank-water-offset": need.offset,
        "neutral-filling": her.neutral,
        "gm-empty": state.gm_t,
        "gm-least": her.down.least_gm.state.gm_t,
        "x-of-g": float(her.masses.gravity[0]),
        "z-of-g": float(her.masses.gravity[2]),
        "kb-dived": her.dived.kb,
        "light-or-heavy": -her.lowest.rest.excess,
        **{f"lead-for-water/{one.name}": one.lead for one in her.changes},
    }
    for key, value in expected.items():
        if key in found:
            assert found[key] == pytest.approx(value, rel=1e-6, abs=2e-6), key


@pytest.mark.parametrize("name", NAMES)
def test_the_three_figures_read_as_on_the_page(name: str) -> None:
    her = demo(name)
    shown = figures(her, her.lowest)
    for key, (_, value, _) in zip(("trim", "light-or-heavy", "bg"), shown, strict=True):
        assert answer(her, key).answer == value


@pytest.mark.parametrize("name", NAMES)
def test_the_text_is_the_result(name: str) -> None:
    her = demo(name)
    for one in all_of(her):
        if one.kind and one.kind != "percent":
            answer = her.boat.along(one.result) if " from the " in one.answer else one.result
            number = one.answer.partition(" from the ")[0].removesuffix(" heavy")
            number = number.removesuffix(" light").replace("neutral", "0 g")
            shown = read(number, one.kind)
            step = {"angle": 1e-3, "mass": 6e-4, "length": 6e-4, "volume": 6e-7, "speed": 6e-3}
            assert abs(shown) == pytest.approx(abs(answer), abs=step[one.kind]), one.key


@pytest.mark.parametrize("name", NAMES)
def test_every_symbol_is_in_the_list(name: str) -> None:
    own = {"w", "z_w", "x"}  # told beside the value
    for one in all_of(demo(name)):
        symbols = {value.symbol for value in one.values} | set(one.heads)
        assert symbols - {""} <= set(meanings()) | own, one.key
        for value in one.values:
            assert not value.symbol or value.symbol in as_text(one.formula), one.key
            assert value.says


@pytest.mark.parametrize("name", NAMES)
def test_every_figure_has_a_source_and_says_how_sure_it_is(name: str) -> None:
    for one in all_of(demo(name)):
        assert one.source
        assert one.uncertainty.endswith("."), one.key
        assert one.question.endswith("?")


def test_a_finding_asked_says_how_to_mend_it() -> None:
    her = demo("bittern-as-bought")
    for one, key in zip(every_finding(her), found_keys(her), strict=True):
        assert answer(her, key).says.endswith(said(Say(her.boat), one.mend))


def test_each_kind_has_its_question_and_its_formula() -> None:
    kinds = {*PLAIN, *OF_ONE, "lead-for-density"}
    assert set(QUESTIONS) == kinds | {"finding"}
    assert {entry["key"] for entry in table("formulas")} == kinds


def test_all_that_is_put_in_has_its_words_and_no_words_are_left_over() -> None:
    folder = Path(asked.__file__).parent
    made = {one for file in folder.glob("*.py") for one in MADE.findall(file.read_text("utf-8"))}
    assert made == set(MEANS)


def test_sea_asks_for_the_lead_worked_out_by_hand() -> None:
    """23.897 kg, from 999.10 to 1025.97 kg/m³ (EOS-80, 35 g/kg, 15 °C), lead of 11 340 kg/m³.

    (1025.97 / 999.10 - 1) x 23.897 kg = 0.6427 kg; over 1 - 1025.97 / 11340 = 0.90953: 0.7066 kg.
    """
    found = answer(demo("bittern"), "lead-for-water/sea")
    assert found.result == pytest.approx(0.7066, abs=5e-4)


def test_any_density_can_be_asked() -> None:
    her = demo("bittern")
    sea = next(one for one in her.changes if one.name == "sea")
    found = answer(her, f"lead-for-density/{sea.water.density:.4f}")
    assert found.result == pytest.approx(sea.lead, abs=1e-5)
    with pytest.raises(AskError, match="there is no figure 'lead-for-density/nan'"):
        answer(her, "lead-for-density/nan")


def from_the_bow(text: str) -> str:
    """Return a boat file of a boat 600 mm long with every x measured from the other end."""
    text = re.sub(r'\bx = "(\d+) mm"', lambda one: f'x = "{600 - int(one[1])} mm"', text)
    text = text.replace('x_aft = "0 mm"\nx_fore = "600 mm"', 'x_aft = "600 mm"\nx_fore = "0 mm"')
    return text.replace("\n[units]", 'measured_from = "bow"\n\n[units]', 1)


def test_a_boat_measured_from_the_bow_is_the_same_boat() -> None:
    her, other = (Assessment(boat=parse(one), files={}) for one in (SMALL, from_the_bow(SMALL)))
    assert keys(her) == keys(other)
    for key in keys(her):
        one, turned = answer(her, key), answer(other, key)
        assert turned.result == pytest.approx(one.result, rel=1e-6, abs=1e-7), key
    assert answer(her, "litres-centre").answer == "300 mm from the stern"
    assert answer(other, "tank-centre/fore tank").answer == "240 mm from the bow"


@pytest.mark.parametrize(
    "leave_out", [r"\[\[tank]]\n[^\[]+", r"\[\[region]]\n[^\[]+", r"\[\[lead]]\n[^\[]+"]
)
def test_whatever_is_listed_can_be_asked(leave_out: str) -> None:
    her = Assessment(boat=parse(re.sub(leave_out, "", SMALL)), files={})
    for key in keys(her):
        assert answer(her, key).key == key


def test_tips_by_follows_the_state_asked_for() -> None:
    her = demo("bittern-as-bought")
    assert (
        answer(her, "trim", her.surfaced).answer == f"{abs(degrees(her.surfaced.trim_angle)):.1f}°"
    )
    assert answer(her, "trim").answer == "12.4°"


def test_what_is_no_figure_is_refused_in_a_sentence() -> None:
    with pytest.raises(AskError, match=r"no figure .bg-uprigth. of Bittern\. Did you"):
        answer(demo("bittern"), "bg-uprigth")
