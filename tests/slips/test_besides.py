"""A fresh slip is not drowned in an old fault: what hides others is put right besides.

What is right is what the demo boat's own file says.
"""

from pathlib import Path

import pytest
from tests.conftest import BOATS
from tests.said import mend_of, what_of
from tests.slips.boats import in_order

from trimdive.assessment import Assessment
from trimdive.boatfile import Boat, load, parse, set_value
from trimdive.errors import TrimdiveError
from trimdive.fact import fact
from trimdive.findings.slips import explained
from trimdive.findings.slips.candidates import candidates
from trimdive.findings.slips.choose import as_filed, besides_of
from trimdive.findings.slips.factors import OUNCE, factors
from trimdive.geometry.solids.beside import read_beside


def spoilt(name: str, *figures: tuple[str, str]) -> Assessment:
    """Return a demo boat with figures typed into her file."""
    loaded = load(Path(BOATS / name / "boat.toml"))
    text = loaded.text
    for path, value in figures:
        text = set_value(text, path, value)
    return Assessment(boat=parse(text), files=read_beside(loaded))


@pytest.mark.parametrize(
    ("name", "figures", "asked"),
    [
        ("grebe-as-bought", [("foam[10].x", "283 mm")], "foam 10, 283 mm from the stern: 1017"),
        ("grebe-as-bought", [("part[18].x", "17653 mm")], "17653 mm from the stern: 695 mm"),
        (
            "plover-as-bought",
            [("lead[3].z", "574.04 mm")],
            ", 574.04 mm above the keel line: 22.6 mm",
        ),
        (
            "plover",
            [("part[2].z", "3.2 mm")],
            "gas bottle with valve, 3.2 mm above the keel line: 32.0 mm",
        ),
        ("grebe", [("part[20].length", "1680 mm")], "stem fittings, length 1680 mm: 60.0 mm"),
        ("grebe", [("part[2].mass", "14742 g")], "battery, mass 14742 g: 520.01 g"),
        # put right it leaves a GM that hardly falls short of the limit: that is no new fault
        ("plover-as-bought", [("lead[2].x", "147.5 mm")], ", 147.5 mm from the stern: 572.5 mm"),
    ],
)
def test_the_fresh_slip_is_named_first(
    name: str, figures: list[tuple[str, str]], asked: str
) -> None:
    first = spoilt(name, *figures).findings[0]
    assert first.key == "slip"
    assert asked in what_of(first)


@pytest.mark.parametrize(
    ("figures", "asked"),
    [
        ([("part[17].mass", "2.39862941 g")], "rods and horns, mass 2.39862941 g: 68 g"),
        ([("part[18].breadth", "256.54 mm")], "keel strip, breadth 256.54 mm: 10.1 mm"),
        ([("region[1].below", "0.132 mm")], "lower hull, 'below' 0.132 mm: 132 mm"),
    ],
)
def test_the_fresh_slip_of_a_boat_by_chance_is_named_first(
    figures: list[tuple[str, str]], asked: str
) -> None:
    text = in_order(10)
    assert text
    for path, value in figures:
        text = set_value(text, path, value)
    first = Assessment(boat=parse(text), files={}).findings[0]
    assert first.key == "slip"
    assert asked in what_of(first)


@pytest.mark.parametrize(
    ("path", "value", "asked"),
    [
        ("region[2].above", "1320 mm", "upper hull, above 1320 mm: 132 mm"),
    ],
)
def test_a_region_of_which_nothing_is_left_is_asked_for_its_edge(
    path: str, value: str, asked: str
) -> None:
    """The hull names its region, not a figure; what is right is what the file says."""
    whole = in_order(10)
    assert whole
    text = set_value(whole, path, value)
    with pytest.raises(TrimdiveError) as refused:
        _ = Assessment(boat=parse(text), files={}).findings
    said = explained(refused.value, text, "boat.toml", lambda boat: Assessment(boat=boat, files={}))
    assert asked in str(said).partition("\n")[0]


def test_the_wall_of_a_tube_is_held_against_what_is_usual() -> None:
    """Full size for model at 1:50: 2 mm of wall on 84 mm of tube, with its mass and volume."""
    whole = load(Path(BOATS / "plover-as-bought" / "boat.toml"))
    files, text = read_beside(whole), set_value(whole.text, "part[14].wall", "100 mm")
    with pytest.raises(TrimdiveError) as refused:
        parse(text)
    said = explained(
        refused.value, text, "boat.toml", lambda boat: Assessment(boat=boat, files=files)
    )
    assert "2.0 mm" in str(said).partition("?")[0]


def test_a_place_that_nobody_can_measure_is_named_first() -> None:
    first = spoilt("bittern-as-bought", ("part[16].z", "0.062 mm")).findings[0]
    assert what_of(first) == "rudders with stocks, 0.062 mm above the keel line: 62.0 mm?"


def test_the_figure_is_asked_before_lead_is_added_for_it() -> None:
    """106 g of wiring typed as 10.6 g: 95 g of lead under water would float her right too."""
    first, *others = spoilt("bittern", ("part[21].mass", "10.6 g")).findings
    assert what_of(first) == "wiring in the wet, aerial, plugs, mass 10.6 g: 106 g?"
    assert any(mend_of(one).startswith("Add ") for one in others)


def test_lead_typed_with_a_tenth_of_its_weight_is_asked_first() -> None:
    """Its shape in lead is 64 g: that is put right, not only looked at, so that a slip is tried."""
    her = spoilt("grebe", ("lead[7].mass", "6.4 g"))
    assert what_of(her.findings[0]) == "lead 7, mass 6.4 g: 64 g?"
    filled = next(one for one in her.findings if one.key == "lead-fill")
    assert filled.weight == "put right"
    assert dict(filled.edits[0].fields)["mass"] == pytest.approx(0.064, rel=0.01)


def test_repairs_of_two_kinds_are_put_right_together(plover_as_bought: Assessment) -> None:
    """Inches for millimetres, a fin shut that counts twice, a bow inside out: each its field."""
    edits = besides_of(plover_as_bought)
    answer = {(edit.path, field) for edit in edits for field, _ in edit.fields}
    assert {
        ("region[1]", "file_unit"),
        ("region[3]", "repairs"),
        ("region[4]", "repairs"),
    } <= answer
    left = {one.key for one in plover_as_bought.edited(edits).checked}
    assert not left & {"mesh-unit", "mesh-trouble", "mesh-overlap", "closed-print"}


def test_paths_as_the_file_has_them() -> None:
    assert as_filed("foam[3]", ["foam[1]", "foam[4]"]) == "foam[5]"
    assert as_filed("foam[3]", ["lead[1]"]) == "foam[3]"
    assert as_filed("waterline", ["lead[1]"]) == "waterline"


def test_grams_and_ounces() -> None:
    """The ounce is 28.349523125 g by definition (NIST SP 811)."""
    times = {one.why: one.times for one in factors("mass", "mass", None)}
    assert (
        times[fact("slip-unit", meant="grams", written="ounces")]
        == pytest.approx(28.349523125)
        == OUNCE
    )
    assert times[fact("slip-unit", meant="ounces", written="grams")] == pytest.approx(
        1 / 28.349523125
    )


def test_a_figure_that_comes_out_rounder_is_likelier(grebe: Assessment) -> None:
    """1680 by 28 is 60; by 25.4 it is 66.1417, by which nobody measures."""
    boat: Boat = spoilt("grebe", ("part[20].length", "1680 mm")).boat
    rare = {
        one.why: one.rare
        for one in candidates(boat, "part[20]", boat.parts[19])
        if one.field == "length" and len(one.changes) == 1
    }
    inches = fact("slip-unit", meant="inches", written="millimetres")
    assert rare[fact("slip-full-size")] < rare[inches]


def test_an_old_fault_takes_no_fresh_slip_with_it(grebe_as_bought: Assessment) -> None:
    """216 g of lead entered as 216 kg: first, and her lines' own fault after it."""
    her = spoilt("grebe-as-bought", ("lead[1].mass", "216 kg"))
    first, *others = her.findings
    assert "216 kg: 216 g" in what_of(first)
    assert any(one.key == "lines-doubt" for one in others)
    assert first.follows == ()
