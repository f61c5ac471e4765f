"""Mistakes in plant, batteries, failsafe and linkages: one sentence, and what would do."""

import re
from pathlib import Path

import pytest

from trimdive.boatfile import parse
from trimdive.boatfile.plant import KINDS
from trimdive.data import table
from trimdive.errors import TrimdiveError
from trimdive.findings import PLANT_CHECKS
from trimdive.text.plant_figures import TITLES

PAGE = Path(__file__).parents[2] / "docs" / "plant.md"

HEAD = """\
format = 1
name = "Dabchick"
length = "900 mm"
[units]
length = "mm"
mass = "g"
[[cylinder]]
name = "cylinder"
outside = "70 mm"
wall = "3 mm"
length = "400 mm"
x = "450 mm"
z = "40 mm"
material = "acrylic"
[[tank]]
name = "tank"
inside = "cylinder"
x = "450 mm"
length = "60 mm"
"""
PUMP = """\
[[plant]]
name = "pump"
kind = "pump vented"
tanks = ["tank"]
"""


def refused(text: str) -> str:
    with pytest.raises(TrimdiveError) as caught:
        parse(HEAD + text, "boat.toml")
    return str(caught.value)


def test_a_plant_is_read_with_its_units() -> None:
    boat = parse(
        HEAD + PUMP + 'pump = { flow = "2.4 L/min", head = "1.2 bar", current = "900 mA" }\n'
        'free_air = "0.8 L"\n[[battery]]\nname = "pack"\nvoltage = "7.4 V"\ncapacity = "2200 mAh"\n'
        'wire = "0.75 mm2"\n',
        "boat.toml",
    )
    pump = boat.plants[0].pump
    assert pump is not None
    assert (pump.flow, pump.head, pump.current) == pytest.approx((4e-5, 1.2e5, 0.9))
    assert boat.batteries[0].capacity == pytest.approx(2.2 * 3600)
    assert boat.batteries[0].wire == pytest.approx(0.75e-6)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (PUMP.replace('["tank"]', '["tnak"]'), "there is no tank 'tnak'. Did you mean 'tank'?"),
        (PUMP + PUMP.replace('"pump"', '"two"', 1), "'pump' serves tank already"),
        (PUMP.replace("pump vented", "pump vent"), "'pump vent' is none of the choices"),
        (PUMP.replace("pump vented", "piston"), "tank is no piston tank, and the plant is of kind"),
        (PUMP + 'store = { gas = "propane" }\n', "a plant of kind pump vented has no store"),
        (PUMP + 'battery = "pack"\n', "there is no battery 'pack'"),
        (
            PUMP.replace("pump vented", "gas") + 'store = { gas = "propan" }\n',
            "there is no gas 'propan'. Did you mean 'propane'?",
        ),
        (
            PUMP.replace("pump vented", "gas") + 'store = { volume = "40 ml" }\n',
            "a bottle of compressed gas needs both volume and pressure",
        ),
        (
            PUMP.replace("pump vented", "gas")
            + 'store = { mass = "40 g", volume = "40 ml", pressure = "8 bar" }\n',
            "both the mass of a liquefied gas and the bottle of a compressed one",
        ),
        ('[failsafe]\nleak = "drop weight"\n', "it is to drop a weight that is not named"),
        ('[failsafe]\ndrops = "keel"\n', "there is no part 'keel'"),
        ('[failsafe]\nleak = "surface"\n', "'surface' is none of the choices"),
        (
            '[[linkage]]\nname = "planes"\narm = "10 mm"\nhorn = "12 mm"\ntravel = "40°"\n'
            'torque = "12 N cm"\nx_aft = "20 mm"\n',
            "the rod's ends need z_aft, x_fore, z_fore too",
        ),
        (PUMP + 'pump = { flow = "2 bar" }\n', "'2 bar' is a pressure, not a flow"),
        (PUMP + 'pump = { head = "-1 bar" }\n', "is less than 0"),
    ],
)
def test_mistakes(text: str, words: str) -> None:
    assert words in refused(text)


def test_a_linkage_is_measured_from_where_the_boat_is() -> None:
    text = HEAD.replace('name = "Dabchick"\n', 'name = "Dabchick"\nmeasured_from = "bow"\n')
    text += (
        '[[linkage]]\nname = "planes"\narm = "10 mm"\nhorn = "12 mm"\ntravel = "40°"\n'
        'torque = "12 N cm"\nx_aft = "880 mm"\nz_aft = "40 mm"\n'
        'x_fore = "600 mm"\nz_fore = "40 mm"\n'
    )
    one = parse(text, "boat.toml").linkages[0]
    assert one.x_aft == pytest.approx(0.020)
    assert one.x_fore == pytest.approx(0.300)


def test_every_kind_has_its_words() -> None:
    assert list(TITLES) == list(KINDS)
    assert [entry["key"] for entry in table("plant_kinds")] == list(KINDS)


def test_the_page_of_the_handbook_is_read_as_it_stands() -> None:
    """Every block of docs/plant.md, in a boat with the tank that it names."""
    blocks = re.findall(r"```toml\n(.*?)```", PAGE.read_text("utf-8"), flags=re.DOTALL)
    assert len(blocks) == 2
    boat = parse(HEAD.replace('name = "tank"', 'name = "forward tank"') + "".join(blocks), "x")
    assert boat.plants[0].valve is not None
    assert boat.failsafe is not None
    assert boat.linkages[0].name == "after planes"


def test_the_page_names_every_check_and_every_gas() -> None:
    text = PAGE.read_text("utf-8")
    assert [key for key in PLANT_CHECKS if f"`{key}`" not in text] == []
    assert [entry["key"] for entry in table("gases") if entry["key"] not in text] == []
    assert [kind for kind in KINDS if f"`{kind}`" not in text] == []
