"""Cautions where the hand is: every command, place and card shows those of its rows, and no other.

What the table says is common practice, no source; the limit for air is the row of the limits, and
carbon dioxide stands at 50.9 bar at 15 °C (CoolProp, as the table of vapour pressures has it).
"""

import json
import re
from html import unescape
from pathlib import Path
from xml.etree import ElementTree

import pytest
from tests.cli.boats import BOATS, demo
from tests.page.conftest import page_of
from typer.testing import CliRunner

from trimdive.cli import app as commands
from trimdive.data import row, table
from trimdive.data.cautions import IF, cautions, spots
from trimdive.errors import DataError
from trimdive.pond import card, phone_card
from trimdive.text.care import LAST_WORD

COMMANDS = [  # what is typed, and the cautions that belong to it
    (["bench", "plover"], "bench; leak test", ["gas"]),
    (["bench", "grebe"], "bench; leak test", []),
    (["bench", "grebe", "--kinds"], "bench; leak test; kinds", []),
    (["place", "plover"], "place", []),
    (["kit", "plover", "--waters", "pond"], "kit", []),
    (["tub", "plover"], "tub", []),
    (["weigh", "plover"], "scales", []),
    (["check", "plover"], "check", []),
    (["reach", "grebe"], "reach", []),
    (["pond", "plover"], "pond", ["gas"]),
    (["pond", "grebe"], "pond", []),
    (["marks", "plover"], "marks", []),
]
ALL = {entry["key"] for entry in table("cautions")}
WET = ["--mass", "30 kg", "--tank", "2 L", "--length", "2 m", "--answers", "angle: level"]


def keys(spot: str, *kinds: str) -> set[str]:
    """Return what belongs to a place, read from the table without the program."""
    wanted = {spot, *(f"{spot} if {kind}" for kind in kinds)}
    return {one["key"] for one in table("cautions") if wanted & set(one["where"].split("; "))}


def shown_in(text: str) -> set[str]:
    """Return the cautions that stand whole in a text."""
    flat = re.sub(r"\s+", " ", unescape(text))
    every = {one.key: one.short for spot in spots() for one in cautions(spot, ["gas"])}
    return {key for key, short in every.items() if short in flat}


def terminal(*typed: str) -> str:
    return CliRunner().invoke(commands.app, list(typed), env={"COLUMNS": "80"}).stdout


@pytest.mark.parametrize(
    ("typed", "spots", "kinds"), COMMANDS, ids=[" ".join(one[0]) for one in COMMANDS]
)
def test_commands_end_with_their_cautions_as_text_and_for_a_program(
    typed: list[str], spots: str, kinds: list[str]
) -> None:
    wanted = {key for spot in spots.split("; ") for key in keys(spot, *kinds)}
    asked = (typed[0], str(BOATS / typed[1]), *typed[2:])
    text = terminal(*asked)
    assert shown_in(text) == wanted
    assert LAST_WORD in text
    *answer, last = json.loads(terminal(*asked, "--json"))["cautions"]
    assert shown_in("\n".join(answer)) == wanted
    assert len(answer) == len(wanted)
    assert last == LAST_WORD


def test_wet_hands_end_with_theirs() -> None:
    text = terminal("wet-hands", *WET)
    assert shown_in(text) == keys("wet-hands")
    assert LAST_WORD in text
    answer = json.loads(terminal("wet-hands", *WET, "--json"))["cautions"]
    assert shown_in("\n".join(answer)) == keys("wet-hands")


def test_a_talk_at_the_tub_begins_with_the_water() -> None:
    answer = CliRunner().invoke(commands.app, ["wet-hands"], input="", env={"COLUMNS": "80"})
    assert keys("tub") <= shown_in(answer.stdout)


@pytest.mark.parametrize(
    ("path", "wanted"),
    [
        ("/bench", keys("bench", "gas") | keys("leak test")),
        ("/bench?bench_kinds=1", keys("bench", "gas") | keys("leak test") | keys("kinds")),
        ("/scales", keys("scales")),
        ("/board", keys("board")),
        ("/pond", keys("pond", "gas")),
        ("/tub?tub.at=placing", keys("place")),
        ("/tub?tub.at=kit", keys("kit")),
        ("/tub?tub.at=read", keys("tub")),
        ("/tub?tub.at=wet", keys("wet-hands")),
        ("/right", set()),
        ("/shelf", set()),
    ],
)
def test_places_of_the_page_show_theirs(path: str, wanted: set[str]) -> None:
    page = page_of(BOATS / "plover" / "boat.toml").enter()
    text = page.client.get(path).text
    assert shown_in(text) == wanted
    if wanted and path != "/pond":
        assert "have the last word" in text


def test_a_boat_without_gas_is_not_told_of_it() -> None:
    text = page_of(BOATS / "grebe" / "boat.toml").enter().client.get("/bench").text
    assert "gas" not in shown_in(text)


def test_the_caution_stands_beside_the_leak_test_before_anything_is_pressed() -> None:
    text = page_of(BOATS / "grebe" / "boat.toml").enter().client.get("/bench").text
    form = unescape(text[text.index('aria-label="Leak test"') :].partition("</section>")[0])
    assert shown_in(form) == keys("leak test")
    assert "at most 0.2 bar above the air outside" in form
    assert "above that, test with water" in form


def test_more_of_a_caution_is_folded_away() -> None:
    text = page_of(BOATS / "grebe" / "boat.toml").enter().client.get("/tub?tub.at=kit").text
    fold = text[text.index('<details class="care"') :].partition("</details>")[0]
    head, _, rest = fold.partition("</summary>")
    (lead,) = cautions("kit")
    assert lead.short in unescape(head)
    assert lead.text in unescape(rest)
    assert lead.text not in unescape(head)


@pytest.mark.parametrize("name", ["plover", "grebe"])
def test_the_pond_card_shows_its_own(name: str) -> None:
    her = demo(name)
    kinds = [plant.kind for plant in her.boat.plants]
    assert list(card(her).cautions) == [one.short for one in cautions("pond", kinds)]
    text = phone_card(her, card(her))
    assert shown_in(text) == keys("pond", *kinds)
    assert LAST_WORD in text


def test_the_placing_card_shows_its_own(tmp_path: Path) -> None:
    terminal("place", str(BOATS / "grebe-as-bought"), "--card", str(tmp_path))
    (file,) = tmp_path.glob("*.svg")
    text = "\n".join(ElementTree.parse(file).getroot().itertext())
    assert shown_in(text) == keys("placing card")
    assert LAST_WORD in text


def test_every_row_is_shown_somewhere_and_every_spot_is_tried_here() -> None:
    tried = {"bench", "leak test", "kinds", "place", "kit", "tub", "scales", "wet-hands", "board",
             "pond", "placing card", "check", "reach", "marks"}  # fmt: skip
    assert spots() == tried
    assert {one.key for spot in spots() for one in cautions(spot, ["gas"])} == ALL
    for entry in table("cautions"):
        for spot in entry["where"].split("; "):
            assert spot.partition(IF)[2] in ("", "gas")


def test_what_must_be_said_is_said() -> None:
    every = {one.key: f"{one.short} {one.text}" for s in spots() for one in cautions(s, ["gas"])}
    for key, said in {
        "lead": ("gloves", "wash", "melt", "indoors", "children"),
        "gas": ("rated", "in date", "relief", "50 bar", "no gas that burns"),
        "leak-pressure": ("0.2 bar", "common practice, no source", "with water"),
        "lithium": ("out of the boat", "swollen", "outdoors"),
        "hydrogen": ("closed hull", "explodes"),
        "lifting": ("25 kg", "33 kg", "bank"),
        "mains": ("plug", "reach of the water"),
        "tub-weight": ("kilogram", "firm ground"),
        "children": ("children",),
    }.items():
        for word in said:
            assert word in every[key], (key, word)
    assert float(row("gas_vapour", "CO2 15")["pressure"]) > 50e5
    with pytest.raises(DataError, match="no cautions belong to 'garage'"):
        cautions("garage")


def test_short_lines_are_short() -> None:
    """A line that nobody reads helps nobody: two lines of a terminal at most."""
    for spot in spots():
        for one in cautions(spot, ["gas"]):
            assert len(one.short) <= 2 * 78 - 4, one.key
            assert one.short.endswith(".")
