"""Starter boats over 0.6 to 3 m against what is usual for their length, and against check."""

import csv
from io import StringIO

import pytest
from tests.starter.wanting import weighty

from trimdive.assessment import Assessment
from trimdive.data import table
from trimdive.errors import StarterError
from trimdive.estimates.starter import Starter, Wish, starter
from trimdive.text.first_boat import first_boat
from trimdive.text.sentences.starter import PARTS
from trimdive.units import number_in

# Order of magnitude by length, wet hulls (common practice, no source): length [m], mass [kg],
# ballast water [L], cylinder [mm], motor [W], battery [V], [Ah], lift left with tanks full [g].
USUAL = """\
from,to,mass,mass_to,litres,litres_to,cylinder,cylinder_to,power,power_to,volts,volts_to,ah,ah_to
0.6,0.9,1.5,4,0.1,0.4,50,75,3,10,7.4,7.4,1,3
0.9,1.3,3,8,0.3,0.9,65,90,5,20,7,12,2,5
1.3,1.8,6,16,0.6,1.5,75,110,10,40,12,12,5,8
1.8,2.3,12,28,1,3,100,150,20,80,12,12,7,14
2.3,3.0,22,50,2,6,110,200,40,150,12,24,12,28
"""
ROWS = [{k: float(v) for k, v in row.items()} for row in csv.DictReader(StringIO(USUAL))]
LENGTHS = [0.6, 0.72, 0.88, 0.9, 1.1, 1.29, 1.3, 1.55, 1.8, 2.05, 2.3, 2.65, 3.0]
PLASTICS = [(0.62, "PETG"), (1.0, "PLA"), (1.5, "ABS"), (0.8, "printed resin"), (2.4, "GRP mat")]


def usual(length: float) -> dict[str, float]:
    return next((row for row in ROWS if length < row["to"]), ROWS[-1])


def made(length: float, material: str = "GRP", kind: str = "wet") -> Starter:
    return starter(
        Wish(
            name="Dotterel",
            length=length,
            kind="dry" if kind == "dry" else "wet",
            material=material,
            units={"length": "mm", "mass": "g", "volume": "cm3"},
        )
    )


def held(boat: Starter, row: dict[str, float], *figures: str) -> None:
    cylinder = boat.plan.outside * 1e3
    found = {
        "mass": boat.mass,
        "litres": boat.litres * 1e3,
        "cylinder": cylinder,
        "power": boat.power.power,
        "volts": boat.power.volts,
        "ah": boat.power.charge,
    }
    for key in figures:
        assert row[key] <= found[key] <= row[f"{key}_to"], key


@pytest.mark.parametrize(
    ("length", "material"), [*((length, "GRP") for length in LENGTHS), *PLASTICS]
)
def test_wet_boats_are_usual_and_in_order(length: float, material: str) -> None:
    boat = made(length, material)
    held(boat, usual(length), "mass", "litres", "cylinder", "power", "volts", "ah")
    assert weighty(boat) == []


@pytest.mark.parametrize(
    ("length", "material"), [(0.6, "PETG"), (1.1, "GRP"), (1.8, "GRP"), (3.0, "GRP mat")]
)
def test_dry_boats_are_usual_and_in_order(length: float, material: str) -> None:
    boat = made(length, material, "dry")
    held(boat, usual(length), "mass", "power", "volts", "ah")
    # Full size 1000 t on the surface and 1150 t dived (common practice): some 15 % and the tower.
    assert 0.10 < boat.litres * 1000 / boat.mass < 0.22
    assert weighty(boat) == []


def test_she_floats_on_her_marks_and_dives_level() -> None:
    boat = made(1.4)
    her = Assessment(boat=boat.boat, files={})
    assert abs(her.surfaced.draught(0.7) - boat.plan.waterline) < 0.003
    assert abs(her.surfaced.trim_angle) < 0.009  # half a degree
    assert her.full.rest.under
    assert abs(her.dived.trim_angle) < 0.035  # two degrees
    assert her.neutral == pytest.approx(0.90, abs=0.03)
    # Archimedes, from the file alone: what she weighs is what she displaces.
    assert her.surfaced.displacement_mass == pytest.approx(boat.mass, rel=1e-6)


def test_the_file_has_about_thirty_masses_with_their_spread() -> None:
    boat = made(1.4)
    her = Assessment(boat=boat.boat, files={})
    entries = her.masses.entries
    guessed = [entry for entry in entries if entry.kind not in ("lead", "foam")]
    assert 25 <= len(guessed) <= 35
    assert all(entry.spread > 0 for entry in entries)
    assert all(part.known == "guess" for part in boat.boat.parts)


def test_units_of_the_builder() -> None:
    in_inches = starter(
        Wish(
            name="Dotterel",
            length=1.397,
            units={"length": "in", "mass": "oz", "volume": "in3"},
            scale=48.0,
        )
    )
    text = first_boat(in_inches)
    assert 'length = "55 in"' in text
    assert 'scale = "1:48"' in text
    assert " mm" not in text
    assert ' g"' not in text
    plain = made(1.397)
    assert in_inches.mass == pytest.approx(plain.mass, rel=0.03)
    assert number_in(in_inches.boat.length or 0.0, "length", "in") == pytest.approx(55.0)


def test_her_own_figures_are_kept() -> None:
    boat = starter(
        Wish(name="Dotterel", length=1.3, breadth=0.16, height=0.15, waterline=0.12, wall=0.003)
    )
    assert boat.plan.breadth == 0.16
    assert boat.boat.waterline is not None
    assert boat.boat.waterline.height_at(0.5) == pytest.approx(0.12)
    assert weighty(boat) == []


@pytest.mark.parametrize(
    ("wish", "said"),
    [
        ({"length": 0.2}, "length: a model 0.2 m long is beyond"),
        ({"length": 30.0}, "length: a model 30 m long"),
        ({"material": "lead"}, "material: no hull is made of lead"),
        ({"breadth": 0.5}, "breadth: a breadth of 500 mm does not go with a length of 1.3 m"),
        ({"height": 0.11, "waterline": 0.12}, "height: the deck amidships is no higher"),
        ({"cylinders": 5}, "cylinders: 5 cylinders are not planned for"),
    ],
)
def test_what_cannot_be_is_refused(wish: dict[str, float], said: str) -> None:
    with pytest.raises(StarterError, match=said):
        starter(Wish(**{"name": "Dotterel", "length": 1.3, **wish}))  # pyright: ignore[reportArgumentType]


def test_what_is_said_beside_a_part_is_said_of_one_in_the_table() -> None:
    assert set(PARTS) <= {entry["name"] for entry in table("starter")}
