"""Slips of one figure: found by trying, named first, and never cried where there is none.

What is right is what the demo boats say; that they obey weight and buoyancy is checked elsewhere.
"""

import shutil
from dataclasses import replace
from math import log
from pathlib import Path

import pytest
from tests.conftest import BOATS
from tests.rest.crate import crate
from tests.said import mend_of, what_of
from tests.slips.rate import COUNT, LEAST, Answer, boats, cried, tried

from trimdive.assessment import Assessment, assess, read_beside
from trimdive.boatfile import load, parse, set_value
from trimdive.errors import BoatFileError, TrimdiveError
from trimdive.fact import fact
from trimdive.findings import Edit
from trimdive.findings.balance import surprise
from trimdive.findings.slips import explained, slipped
from trimdive.findings.slips.asked import in_words
from trimdive.findings.slips.candidates import Candidate
from trimdive.findings.slips.factors import factors


def with_figure(her: Assessment, path: str, **fields: float) -> Assessment:
    return her.edited((Edit(action="set", path=path, fields=tuple(fields.items())),))


def number(her: Assessment, name: str) -> str:
    return next(f"part[{k}]" for k, one in enumerate(her.boat.parts, 1) if one.name == name)


def test_kg_for_g_is_asked_first_with_the_figure_that_would_be_right(grebe: Assessment) -> None:
    boat = with_figure(grebe, number(grebe, "battery"), mass=520.0)
    first = boat.first_findings[0]
    assert what_of(first) == "battery, mass 520 kg: 520 g?"
    assert "kg for g" in mend_of(first)
    assert boat.edited(first.edits).first_findings == grebe.first_findings


def test_a_battery_nowhere_near_the_hull(grebe: Assessment) -> None:
    """X = 7 400: asked first, and that it lies out of the hull comes before all that follows."""
    boat = with_figure(grebe, number(grebe, "battery"), x=8.12)
    slip, far, *_ = boat.first_findings
    assert what_of(slip) == "battery, 8120 mm from the stern: 812 mm?"
    assert far.key == "place-far"
    assert "out of the hull" in what_of(far)


def test_a_mast_high_above_her(grebe: Assessment) -> None:
    boat = with_figure(grebe, number(grebe, "battery"), z=0.5)
    assert boat.first_findings[0].key == "slip"
    assert any(one.key == "place-far" for one in boat.first_findings)


@pytest.mark.parametrize(("height", "where"), [(1.54, "above the whole hull"), (-0.1, "below")])
def test_a_waterline_that_does_not_cut_the_hull(
    bittern: Assessment, height: float, where: str
) -> None:
    boat = bittern.edited((Edit(action="set", path="waterline", fields=(("height", height),)),))
    found = next(one for one in boat.first_findings if one.key == "waterline-place")
    assert where in what_of(found)


@pytest.mark.parametrize(
    "name", ["bittern_as_bought", "grebe_as_bought", "plover_as_bought", "bittern", "plover"]
)
def test_no_wolf_is_cried(name: str, request: pytest.FixtureRequest) -> None:
    """What is wrong with them as bought is no slip of a factor, but where a table says so."""
    her = request.getfixturevalue(name)
    assert her.in_order or slipped(her) == ()


def test_a_heavy_load_is_no_slip() -> None:
    """700 g too many: taken out she would float too, so a smaller figure explains nothing."""
    load = '[[part]]\nname = "load"\nmass = 700\nx = 500\nz = 40\ninside = "cylinder"\n'
    assert slipped(crate(load)) == ()


def test_a_surprise_is_the_logarithm_of_cauchy() -> None:
    """Student's distribution with one degree of freedom is Cauchy's: density as 1/(1 + x²)."""
    assert surprise(3.0) == pytest.approx(log((1 + 9.0) ** 0.5))


def test_full_size_goes_by_the_scale() -> None:
    lengths = {one.why: one.times for one in factors("length", "x", 24.0)}
    masses = {one.why: one.times for one in factors("mass", "mass", 24.0)}
    assert lengths[fact("slip-full-size")] == pytest.approx(1 / 24)
    assert masses[fact("slip-full-size")] == pytest.approx(24.0**-3)


@pytest.mark.parametrize(
    ("place", "typed", "asked"),
    [
        ("cylinder[1].x", "6250 mm", "cylinder, x 6250 mm: 625 mm?"),
        ("foam[2].z", "84 m", "foam 2, z 84 m: 84.0 mm?"),
        ("tank[1].stroke", "13 m", "piston tank, stroke 13 m: 130 mm?"),
    ],
)
def test_a_file_that_is_refused_names_the_slip_first(
    tmp_path: Path, place: str, typed: str, asked: str
) -> None:
    """That the tank lies out of a cylinder that slipped is said after the cylinder."""
    folder = tmp_path / "grebe"
    shutil.copytree(BOATS / "grebe", folder)
    file = folder / "boat.toml"
    file.write_text(set_value(file.read_text("utf-8"), place, typed), "utf-8")
    with pytest.raises(TrimdiveError) as refused:
        assess(file)
    first, second, *_ = str(refused.value).splitlines()
    assert asked in first
    assert f": {place}: " in first
    assert "lines.csv" not in second


@pytest.mark.parametrize(
    ("place", "typed", "asked"),
    [
        ("region[3].inset", "3200 mm", "joint lip, inset 3200 mm: 3.2 mm"),
        ("cylinder[2].outside", "12500 mm", "after cylinder, outside 12500 mm: 125 mm"),
        ("tank[1].x", "30400 mm", "forward tank, x 30400 mm: 1520 mm?"),
    ],
)
def test_what_a_refusal_names_is_asked_for(place: str, typed: str, asked: str) -> None:
    """What is right is what the file says: each as written into it, the tanks with it."""
    whole = load(BOATS / "bittern" / "boat.toml")
    files, text = read_beside(whole), set_value(whole.text, place, typed)
    with pytest.raises(TrimdiveError) as refused:
        parse(text)
    said = str(
        explained(refused.value, text, "boat.toml", lambda boat: Assessment(boat=boat, files=files))  # type: ignore[arg-type]
    )
    assert asked in said.partition("\n")[0]
    assert str(refused.value) in said


def test_slips_drawn_by_chance_are_named_first() -> None:
    """A quick form of ``python -m tests.slips.rate``: a slip or two on each of eight boats."""
    found: list[tuple[str, Answer]] = []
    for seed, (name, text, files) in enumerate(boats((), count=2)):
        count = 1 if name.endswith("bought") else 2
        found += [(name, one) for one in tried(text, files, count, seed=seed)]
        assert not cried(text, files), name
    assert len(found) == 13
    answer = [(name, str(one.slip), one.said) for name, one in found if not one.is_asked]
    assert not any(one.is_silent for _, one in found)
    assert len(answer) <= len(found) * (COUNT - LEAST) / COUNT, answer


@pytest.mark.parametrize(
    ("unit", "written", "typed", "asked"),
    [
        ("g", "25.5 g", "25.5 g", "255 g"),
        ("g", "0.0255 kg", "0.0255 kg", "255 g"),
        ("g", "25.5", "25.5 g", "255 g"),
        ("kg", "1.8845 kg", "1.8845 kg", "18.845 kg"),
        ("g", "28.93 g", "28.93 g", "289.3 g"),
    ],
)
def test_a_figure_is_quoted_as_it_stands_in_the_file(
    unit: str, written: str, typed: str, asked: str
) -> None:
    """As it is typed, with its unit, so that it is found; as it would be, with as many digits."""
    text = (BOATS / "grebe" / "boat.toml").read_text("utf-8")
    text = set_value(set_value(text, "units.mass", unit), "part[1].mass", written)
    boat = parse(text)
    was = boat.parts[0].mass
    assert was
    slip = Candidate(
        path="part[1]", name="it", field="mass", kind="mass", was=was, would=was * 10,
        why=fact("slip-point"), rare=0.0, changes=(("mass", was * 10),),
    )  # fmt: skip
    assert in_words(boat, slip) == (typed, asked)
    heavier = boat.parts[0].model_copy(update={"mass": 0.0303})
    changed = boat.model_copy(update={"parts": (heavier, *boat.parts[1:])})
    other = replace(slip, was=0.0303, would=0.303)
    assert in_words(changed, other) != (typed, asked)


def test_what_a_file_is_refused_for_is_said_once() -> None:
    """A figure out of place breaks several rules: each has one line, and the slip comes first."""
    error, slip = BoatFileError("a", "x", "Mend a."), BoatFileError("c?", "z", "Write c.")
    error.others, error.left = (BoatFileError("b", "y", "Mend b."),), 2
    slip.others, slip.left = (error, *error.others), error.left
    assert str(slip).splitlines() == [
        "z: c? Write c.", "x: a. Mend a.", "y: b. Mend b.", "2 more to mend after that.",
    ]  # fmt: skip
