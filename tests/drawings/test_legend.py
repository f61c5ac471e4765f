"""The legend explains what is in the picture, all of it and nothing else."""

from xml.etree import ElementTree

import pytest
from tests.drawings.boats import SVG, drawn
from tests.drawings.odd import NOSE_HEAVY, STEEP, TUBE, assessed
from tests.drawings.seen import EVERY, words

from trimdive.pictures.drawings import boat_drawing


def looks(svg: ElementTree.Element) -> set[str]:
    """Return the class of everything that is drawn of her, without how surely it is known."""
    views = [g for g in svg.iter(SVG + "g") if g.get("class") in ("side-view", "plan", "key")]
    found = {g.get("class") or "" for view in views for g in view.iter() if len(g) or g.get("d")}
    return {name.removesuffix(" guess") for name in found}


def fills(group: ElementTree.Element) -> set[str]:
    """Return the hatches that are used under an element."""
    used = {e.get("fill", "") for e in group.iter()}
    return {fill.removeprefix("url(#").split("-")[0] for fill in used if fill.startswith("url")}


EXPLAINED = {
    "above-middle": "its centre: the tank water belongs under it",
    "tank-middle": "centre of the tank water",
    "g": "G: centre of all weight, tank water too",
    "b": "B: centre of the water she displaces",
    "waterline-meant": "waterline meant",
    "water-surface": "water surface",
    "draught-marks": "heights above the keel line, 1 cm apart",
    "skin": "skin",
    "skin shut": "sealed: no water gets in anywhere",
    "station": "station",
    "opening": "well through the hull",
    "towers": "tower or fin from above",
    "skin-hole": "hole in the skin",
    "plate-line": "line on the skin",
    "draught-figures": "foot of a figure of the draught",
    "vessels": "watertight cylinder, its wall grey",
    "thing tank": "tank",
    "thing part": "part",
    "thing point spot": "part, its shape not given",
    "thing sparse": "part spread between these corners",
    "thing lead": "lead",
    "thing lead spot": "lead, its shape not given",
    "thing foam": "foam",
    "thing foam spot": "foam, its shape not given",
}
# Drawn without a line of their own: groups, words, and what the words beside them explain.
UNSAID = {"", "side-view", "plan", "key", "skins", "silhouette", "stations", "above", "openings"}
UNSAID |= {"tank-waters", "tank-water", "water", "level", "plumb-line", "bob", "offset"}
UNSAID |= {"thing cylinder", "plan-hull", "skin-marks"}  # its wall has one


def check(svg: ElementTree.Element) -> None:
    legend = next(g for g in svg.iter(SVG + "g") if g.get("class") == "legend")
    answer = [text.text or "" for text in legend.iter(SVG + "text")]
    drawn_looks = looks(svg)
    assert drawn_looks <= set(EXPLAINED) | UNSAID
    expected = {EXPLAINED[look] for look in drawn_looks & set(EXPLAINED)}
    picture = [g for g in svg.iter(SVG + "g") if g.get("class") in ("side-view", "plan")]
    hatches = set().union(*(fills(group) for group in picture))
    expected |= {"above the waterline: tank water must equal it"} & {
        f"{name} the waterline: tank water must equal it" for name in hatches
    }
    expected |= {"water in a tank"} if "water" in hatches else set()
    classes = {g.get("class") or "" for group in picture for g in group.iter()}
    guesses = {name for name in classes if name.endswith(" guess")}
    if any(not name.endswith(" spot guess") for name in guesses):
        expected.add("dashed: its mass is guessed")
    if any(name.endswith(" spot guess") for name in guesses):
        expected.add("in a dashed ring: its mass is guessed")
    assert set(answer) ^ expected == set()
    assert len(answer) == len(set(answer))
    # What the picture needs by hatch, the legend shows by the same hatch.
    assert fills(legend) == hatches


@EVERY
def test_the_legend_of_a_demo_boat_is_its_picture(name: str, which: str) -> None:
    check(drawn(name, which))


MARKED = """
[[hole]]
name = "drain"
x = "300 mm"
girth = "20 mm"
diameter = "4 mm"
[[plate_line]]
name = "weld"
x = "200 mm"
[[draught_mark]]
name = "figures"
x = "250 mm"
z = "40 mm"
step = "5 mm"
"""
TEXTS = {"tube": TUBE, "nose": NOSE_HEAVY, "steep": STEEP, "marked": NOSE_HEAVY + MARKED}


@pytest.mark.parametrize("text", TEXTS.values(), ids=TEXTS)
def test_the_legend_of_an_unfinished_boat_is_its_picture(text: str) -> None:
    check(ElementTree.fromstring(boat_drawing(assessed(text))))


def test_masses_that_are_only_guessed_are_seen_as_such() -> None:
    svg = ElementTree.fromstring(boat_drawing(assessed(STEEP)))
    answer = words(next(g for g in svg.iter(SVG + "g") if g.get("class") == "legend"))
    assert "in a dashed ring: its mass is guessed" in answer  # battery and lead
    assert "lead, its shape not given" in answer
    assert not {"foam", "lead", "part"} & set(answer)
    assert "lead, 1 place, 600 g in all, guess" in words(svg, "list")
