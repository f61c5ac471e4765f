"""``what-if``: cases as text and JSON, what is typed, and bad input."""

import re

import pytest
from tests.cli.boats import BOATS, NAMES, demo, document
from tests.cli.compared import compare, documented_keys, keys_in
from tests.cli.refusing import refused
from typer.testing import CliRunner, Result

from trimdive.cli import app as commands
from trimdive.cli import whatif as module


@pytest.fixture(autouse=True)
def _worked_out(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(module, "opened", lambda boat, water=None: demo(boat.name))
    monkeypatch.setenv("COLUMNS", "80")


def ask(name: str, *options: str) -> Result:
    return CliRunner().invoke(commands.app, ["what-if", str(BOATS / name), *options])


@pytest.mark.parametrize("name", NAMES)
def test_text_fits_and_says_who_sinks(name: str) -> None:
    result = ask(name)
    assert result.exit_code == (1 if name.endswith("as-bought") else 0)
    assert max(map(len, result.stdout.splitlines())) <= 80
    assert not re.search(r"\bnan\b|\binf\b|None", result.stdout)
    found = document(ask(name, "--json"))["cases"]
    assert isinstance(found, list)
    text = " ".join(result.stdout.split())
    for case in found:
        if not case["stays_up"]:
            assert case["name"] in text
            assert case["spare_kg"] < 0 == case["above_water_m3"]


def test_lift_to_spare_is_what_still_stands_out() -> None:
    """Archimedes: afloat, she could still carry the weight of the volume that is out."""
    found = document(ask("bittern", "--json"))
    density = found["water"]["density_kg_m3"]  # type: ignore[index]
    for case in found["cases"]:  # type: ignore[union-attr]
        if case["stays_up"]:
            assert case["spare_kg"] == pytest.approx(case["above_water_m3"] * density, rel=1e-6)


def test_the_same_in_its_place_changes_nothing() -> None:
    her = demo("bittern")
    battery = next(part for part in her.boat.parts if part.name == "forward battery")
    assert battery.mass is not None
    options = ("--instead", "forward battery", "--mass", f"{battery.mass * 1e3:.3f} g", "--json")
    blown, full = document(ask("bittern", *options))["cases"]  # type: ignore[misc]
    for case, state in ((blown, her.surfaced), (full, her.full)):
        answer = case["trim_bow_down_rad"]
        assert answer == pytest.approx(state.trim_angle, abs=1e-5)


def test_a_heavier_one_further_forward_tips_her_by_the_bow() -> None:
    options = ("--instead", "forward battery", "--mass", "1600 g", "--json")
    nearer, further = (
        document(ask("bittern", *options, "--x", x))["cases"][0]  # type: ignore[index]
        for x in ("1690 mm", "1790 mm")
    )
    tips = [one["trim_bow_down_rad"] for one in (nearer, further)]
    assert tips[1] > tips[0] > demo("bittern").surfaced.trim_angle


def test_left_at_home_she_rides_higher() -> None:
    blown, _ = document(ask("grebe", "--without", "battery", "--json"))["cases"]  # type: ignore[misc]
    assert blown["above_water_m3"] > demo("grebe").surfaced.reserve


@pytest.mark.parametrize(
    ("options", "start", "said"),
    [
        (("--without", "batery"), "--without: ", "Did you mean 'battery'?"),
        (("--instead", "batery", "--mass", "3 g"), "--instead: ", "Did you mean 'battery'?"),
        (("--instead", "battery"), "--instead: ", "the other part has no mass"),
        (("--mass", "300 g"), "--mass: ", "does not say what is replaced"),
        (("--instead", "battery", "--mass", "much"), "--mass: ", "much"),
        (("--instead", "battery", "--mass", "3 g", "--x", "3 g"), "--x: ", "3 g"),
    ],
)
def test_bad_input(options: tuple[str, ...], start: str, said: str) -> None:
    line = refused(ask("grebe", *options))
    assert line.startswith(start)
    assert said in line


def test_every_key_is_told() -> None:
    keys = {key for name in ("bittern", "plover") for key in keys_in(document(ask(name, "--json")))}
    compare(keys, documented_keys("what-if") | documented_keys("Every command"))
