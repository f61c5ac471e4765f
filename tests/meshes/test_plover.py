"""Plover and Plover as bought: the figures that were set for her, worked out before by other means.

They come from a small independent sum with clouds of volumes; a mesh moves them by a few per cent.
"""

from functools import cache
from math import degrees
from pathlib import Path

import pytest
from tests.figures import held
from tests.said import what_of

from trimdive.assessment import Assessment, assess
from trimdive.findings import Edit

BOATS = Path(__file__).parents[2] / "boats"
MESHES = (
    Edit(action="set", path="region[1]", fields=(("file_unit", "in"),)),
    Edit(action="set", path="region[3]", fields=(("repairs", ("flip",)),)),
    Edit(action="set", path="region[4]", fields=(("repairs", ("fit",)),)),
)
FIN = (Edit(action="set", path="region[4]", fields=(("hung", None), ("sealed", False))),)
SEA = (Edit(action="remove", path="lead[3]", fields=()),)


@cache
def plover() -> Assessment:
    return assess(BOATS / "plover" / "boat.toml")


@cache
def bought() -> Assessment:
    return assess(BOATS / "plover-as-bought" / "boat.toml")


def battery() -> tuple[Edit, ...]:
    number = [part.name for part in bought().boat.parts].index("battery") + 1
    return (Edit(action="set", path=f"part[{number}]", fields=(("y", 0.0), ("z", 0.022))),)


def test_she_is_in_order() -> None:
    assert plover().first_findings == ()


@pytest.mark.parametrize(
    ("figure", "wanted", "within"),
    [
        ("mass", 1905, 0.002),
        ("above", 155, 0.02),
        ("tank", 174, 0.002),
        # told 37.1 with lead at z 6 under the whole cylinder, whose underside is at 3.5: 188 g of
        # it lies on the cylinder's floor instead, about 8 mm higher: 37.1 + 188 · 8 / 1905
        ("KG", 37.9, 0.005),
        ("LCG", 375, 0.003),
        ("GM", 4.3, 0.05),
        ("BG", 6.3, 0.05),
        ("trim", 4, 0.15),  # told to a whole degree
    ],
)
def test_her_figures(figure: str, wanted: float, within: float) -> None:
    her = plover()
    found = {
        "mass": her.floater.mass * 1e3,
        "above": her.need.volume * 1e6,
        "tank": her.need.fitted * 1e6,
        "KG": her.surfaced.kg * 1e3,
        "LCG": her.surfaced.lcg * 1e3,
        "GM": her.surfaced.gm_t * 1e3,
        "BG": her.bg * 1e3,
        "trim": max(abs(degrees(moment.state.trim_angle)) for moment in her.dive),
    }
    assert found[figure] == pytest.approx(wanted, rel=within)


def test_middle_of_what_is_above_the_waterline() -> None:
    assert float(plover().need.place[0]) * 1e3 == pytest.approx(409, abs=2)


def test_neutral_at_the_filling_planned() -> None:
    assert plover().neutral == held(0.9015, printed=0.89, abs=0.015)


def test_pieces_meet_and_enclose_the_hull() -> None:
    """Volume of the body of revolution by its table of radii, 46 mm for most of her length."""
    her = plover()
    low, high = her.hull.envelope.bounds
    assert (low[0], high[0]) == pytest.approx((0.0, 0.72), abs=1e-6)
    assert high[2] == pytest.approx(0.152, abs=1e-6)


def test_every_fault_is_named_from_the_start() -> None:
    found = {(one.key, one.subject) for one in bought().first_findings}
    assert ("mesh-unit", "stern: unit") in found
    assert ("mesh-trouble", "bow: inside-out") in found
    assert ("mesh-overlap", "fin: overlap") in found
    assert ("closed-print", "fin") in found
    keys = {key for key, _ in found}
    assert {"waterline-band", "heel"} <= keys


def test_meshes_are_mended_one_by_one() -> None:
    her = bought()
    keys = ("mesh-unit", "mesh-trouble", "mesh-overlap")
    for key in keys:
        found = next(one for one in her.first_findings if one.key == key)
        assert found.edits
        her = her.edited(found.edits)
        assert key not in {one.key for one in her.first_findings}
    assert not {one.key for one in her.first_findings} & set(keys)


def test_all_mended_she_is_in_order() -> None:
    her = bought().edited((*MESHES, *FIN, *SEA, *battery()))
    assert [what_of(one) for one in her.first_findings if one.weight == "put right"] == []


def test_fin_shut_alone() -> None:
    """Table: 78 g short with the tank full."""
    her = bought().edited((*MESHES, *SEA, *battery()))
    assert -her.full.rest.excess * 1e3 == held(79.99, printed=78, rel=0.1)
    assert not her.full.rest.under


def test_lead_for_the_sea_alone() -> None:
    """Table: rides 9 mm low, neutral at 60 %, 50 g too heavy at the old mark of 89 %."""
    her = bought().edited((*MESHES, *FIN, *battery()))
    assert her.surfaced.draught(0.36) * 1e3 - 76 == held(9.322, printed=9, rel=0.1)
    assert her.neutral == held(0.5916, printed=0.60, rel=0.1)
    room = float(her.floater.tanks.capacities.sum())
    excess = her.floater.density * room * (0.89 - her.neutral)
    assert excess * 1e3 == held(51.94, printed=50, rel=0.1)


def test_battery_on_top_alone() -> None:
    """Table: leans 13° on top and 7° dived; GM 2.2 instead of 4.3 mm."""
    her = bought().edited((*MESHES, *FIN, *SEA))
    assert degrees(her.surfaced.heel) == held(13.64, printed=13, rel=0.1)
    assert degrees(her.dived.heel) == held(6.581, printed=7, rel=0.1)
    upright = plover().surfaced.gm_t * 1e3
    number = [part.name for part in bought().boat.parts].index("battery") + 1
    midships = Edit(action="set", path=f"part[{number}]", fields=(("y", 0.0),))
    level = bought().edited((*MESHES, *FIN, *SEA, midships))  # leaning, her foam cuts the water
    assert level.surfaced.gm_t * 1e3 == held(2.051, printed=2.2, rel=0.1)
    assert upright == held(4.274, printed=4.3, rel=0.1)


def test_together_she_rides_low_and_will_not_go_under() -> None:
    """Table: 28 g."""
    her = bought().edited(MESHES)
    assert -her.full.rest.excess * 1e3 == held(28.92, printed=28, rel=0.1)
    assert her.surfaced.draught(0.36) > 0.08


def test_lead_to_add_for_the_sea() -> None:
    """Table: 56 g for 35 g/kg and 15 °C; lead counts for what it weighs under water."""
    her = plover()
    sea = her.in_water("sea", 15.0, 35.0)
    wanted = sea.floater.density * (her.floater.volume - her.need.volume) - her.floater.mass
    lead = wanted / (1 - sea.floater.density / 11340)
    assert lead * 1e3 == held(56.47, printed=56, rel=0.1)
