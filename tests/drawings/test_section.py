"""Sections across a boat."""

from math import cos, hypot, sin
from xml.etree import ElementTree

import numpy as np
import pytest
from tests.drawings.boats import BOATS, SVG, boat, state
from tests.drawings.seen import marked, overlaps, words

from trimdive.errors import GeometryError
from trimdive.pictures.drawings import section_drawing


@pytest.mark.parametrize("name", BOATS)
@pytest.mark.parametrize("share", [0.32, 0.5, 0.62, 0.98])
def test_breadth_and_water_are_those_of_the_records(name: str, share: float) -> None:
    found = boat(name)
    x = share * (found.boat.length or 0.0)
    svg = ElementTree.fromstring(section_drawing(found, x))
    water, meant = (
        marked(svg, "water-surface", "water")[0],
        marked(svg, "waterline-meant", "water")[0],
    )
    line = found.boat.waterline
    assert line is not None
    # Square to the water: on her middle line, and turned by her heel.
    deeper = 1000 * (found.surfaced.draught(x) - line.height_at(x)) * cos(found.surfaced.heel)
    assert meant[:, 1].mean() - water[0, 1] == pytest.approx(deeper, abs=0.03)
    lean = (meant[1] - meant[0]) / hypot(*(meant[1] - meant[0]))
    assert lean[1] == pytest.approx(sin(found.surfaced.heel), abs=2e-4)
    assert not any("nan" in value for e in svg.iter() for value in e.attrib.values())
    breadth = marked(svg, "breadth", "")[0]
    answer = next(text for text in words(svg) if "drawn 1:" in text)
    assert float(answer.split()[0]) == pytest.approx(np.ptp(breadth[:, 0]), abs=0.51)  # to the mm


def test_bittern_is_as_broad_as_her_table_says() -> None:
    svg = ElementTree.fromstring(section_drawing(boat("bittern"), 1.149))
    # Half-breadth 112 mm at the station x 1150.
    assert np.ptp(marked(svg, "breadth", "")[0][:, 0]) == pytest.approx(224, abs=0.1)


def test_tank_water_is_level_where_it_is_cut() -> None:
    found, at = boat("bittern"), state("bittern", "half")
    tank = found.boat.tanks[0]
    svg = ElementTree.fromstring(section_drawing(found, tank.x, at))
    assert sum(g.get("class") == "tank-water" for g in svg.iter(SVG + "g")) == 1
    dry = ElementTree.fromstring(section_drawing(found, tank.x))
    assert sum(g.get("class") == "tank-water" for g in dry.iter(SVG + "g")) == 0


def test_lettering_stands_clear() -> None:
    svg = ElementTree.fromstring(section_drawing(boat("grebe"), 0.65))
    assert overlaps(svg) == []


def test_what_a_wrong_unit_left_open_is_refused() -> None:
    # The stern of this boat came in inches and was entered as millimetres: a gap behind 215 mm.
    with pytest.raises(GeometryError, match=r"no hull at x 100\b"):
        section_drawing(boat("plover-as-bought"), 0.1)
    section_drawing(boat("plover"), 0.1)


def test_a_place_without_hull_is_refused_in_one_sentence() -> None:
    with pytest.raises(GeometryError, match=r"no hull at x .* Choose a place from"):
        section_drawing(boat("grebe"), 5.0)
