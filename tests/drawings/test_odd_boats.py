"""Boats that are not finished yet: no hull, no waterline, no tanks, on end, in inches."""

from xml.etree import ElementTree

import pytest
from tests.drawings.boats import SVG
from tests.drawings.odd import NOSE_HEAVY, TUBE, assessed
from tests.drawings.seen import overlaps, words

from trimdive.errors import GeometryError
from trimdive.pictures.drawings import boat_drawing, section_drawing


def test_a_bare_tube_is_drawn_with_what_is_known() -> None:
    found = assessed(TUBE)
    svg = ElementTree.fromstring(boat_drawing(found))
    assert words(svg, "header")[1].startswith("No tanks: floats ")
    assert not words(svg, "distance")
    assert len(words(svg, "need")) == 2
    draughts = words(svg, "draught")
    assert draughts[0::3] == ["stern", "middle", "bow"]
    assert draughts[1] == draughts[4] == draughts[7]
    assert "Drawn 1:1" in " ".join(words(svg))
    ElementTree.fromstring(section_drawing(found, 0.3))


def test_without_a_waterline_nothing_is_told_of_it() -> None:
    found = assessed(NOSE_HEAVY)
    svg = ElementTree.fromstring(boat_drawing(found))
    assert not words(svg, "need")
    assert not [p for p in svg.iter(SVG + "path") if p.get("class") == "waterline-meant"]
    assert " in" in words(svg, "lever")[0]
    assert words(svg)[0] == "nose & <heavy>"


def test_no_section_is_drawn_of_a_boat_on_end() -> None:
    found = assessed(NOSE_HEAVY)
    assert abs(found.surfaced.rest.n[0]) > 0.995, "this boat hangs by her stern"
    with pytest.raises(GeometryError, match="on end"):
        section_drawing(found, 0.3)
    svg = ElementTree.fromstring(boat_drawing(found))
    assert float(svg.get("height", "").removesuffix("mm")) < 500
    assert overlaps(svg) == []
