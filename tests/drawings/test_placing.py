"""The placing card: every piece where it belongs, numbered alike in both views and in the list."""

import re
from xml.etree import ElementTree

import numpy as np
import pytest
from tests.drawings.boats import SVG, boat
from tests.drawings.odd import STEEP, TUBE, assessed
from tests.drawings.seen import marked_in, overlaps, words

from trimdive.pictures.drawings.placing import Placed, placing_card

LEAD = Placed(
    name="lead 1", kind="lead", mass=0.42, volume=37e-6, size=(0.1, 0.046, 0.008),
    x=0.6, y=0.0, z=0.014, moved_from=None,
)  # fmt: skip
FOAM = Placed(
    name="beside the cylinder", kind="foam", mass=0.02, volume=562e-6, size=(0.18, 0.052, 0.06),
    x=0.54, y=-0.07, z=0.12, moved_from=None,
)  # fmt: skip
TANK = Placed(
    name="forward tank", kind="moved", mass=0.69, volume=0.0, size=(0.13, 0.118, 0.118),
    x=1.52, y=0.0, z=0.088, moved_from=(1.6, 0.0, 0.098),
)  # fmt: skip
EVERY = (LEAD, FOAM, TANK)
TEXTS = (("", "before", "after"), ("trim", "12.4° bow down", "0.1° bow down"))


def card(*placed: Placed, texts: tuple[tuple[str, ...], ...] = ()) -> ElementTree.Element:
    return ElementTree.fromstring(placing_card(boat("bittern-as-bought"), placed, texts))


def group(svg: ElementTree.Element, name: str) -> ElementTree.Element:
    return next(g for g in svg.iter(SVG + "g") if g.get("class") == name)


def pieces(view: ElementTree.Element, kind: str) -> list[ElementTree.Element]:
    return [g for g in view.iter(SVG + "g") if g.get("class") == f"placed {kind}"]


def zero(svg: ElementTree.Element) -> float:
    """Return where on the sheet the builder's measuring begins [mm]."""
    return float(marked_in(group(svg, "ruler"))[0][0, 0])


@pytest.mark.parametrize("piece", [LEAD, FOAM], ids=["lead", "foam"])
def test_pieces_lie_where_the_record_says_and_as_large(piece: Placed) -> None:
    svg = card(*EVERY)
    (side,), (plan,) = (pieces(group(svg, view), piece.kind) for view in ("side-view", "plan"))
    seen, above = marked_in(side)[0], marked_in(plan)[0]
    for corners in (seen, above):  # both views on the same x
        assert corners[:, 0].mean() - zero(svg) == pytest.approx(1000 * piece.x, abs=0.02)
    size = 1000 * np.array(piece.size)
    assert np.ptp(seen, axis=0) == pytest.approx(size[[0, 2]], abs=0.02)
    assert np.ptp(above, axis=0) == pytest.approx(size[[0, 1]], abs=0.02)
    fill = {path.get("fill") for path in side.iter(SVG + "path")}
    assert ("currentColor" in fill) == (piece.kind == "lead")
    assert any((f or "").startswith("url(#foam") for f in fill) == (piece.kind == "foam")


def test_port_is_up_in_the_plan() -> None:
    svg = card(LEAD, FOAM)
    lead, foam = (marked_in(pieces(group(svg, "plan"), kind)[0])[0] for kind in ("lead", "foam"))
    assert foam[:, 1].mean() - lead[:, 1].mean() == pytest.approx(70.0, abs=0.02)


def test_what_is_moved_has_an_arrow_from_the_old_place_to_the_new() -> None:
    svg = card(*EVERY)
    (moved,) = pieces(group(svg, "side-view"), "moved")
    line = next(p for p in moved.iter(SVG + "path") if p.get("class") == "arrow")
    tip = marked_in(moved)[-1][0]
    ends = re.findall(r"(-?[\d.]+),(-?[\d.]+)", line.get("d", ""))
    start = np.array([float(n) for n in ends[0]])
    assert start[0] - zero(svg) == pytest.approx(1600, abs=0.02)
    assert tip - start == pytest.approx([-80.0, 10.0], abs=0.02)
    assert "forward tank: 80.0 mm aft, 10.0 mm down" in words(svg, "list")


def test_the_list_tells_what_to_cut_and_where_it_goes() -> None:
    texts = words(card(*EVERY), "list")
    row = texts.index("1")
    assert texts[row : row + 8] == [
        "1", "lead 1", "420 g", "100 × 46.0 × 8.0 mm", "600 mm", "550 to 650 mm", "14.0 mm",
        "middle",
    ]  # fmt: skip
    row = texts.index("2")
    assert texts[row : row + 8] == [
        "2", "foam, beside the cylinder", "20 g, 562 cm³", "180 × 52.0 × 60.0 mm", "540 mm",
        "450 to 630 mm", "120 mm", "70.0 mm to starboard",
    ]  # fmt: skip
    assert len([text for text in texts if text == "–"]) == 1, "what is moved is not cut"


def test_numbers_are_the_same_in_both_views_and_in_the_list() -> None:
    svg = card(*EVERY)
    for view in ("side-view", "plan"):
        assert sorted(words(group(svg, view), "number")) == ["1", "2", "3"]
    assert sorted(words(group(svg, "side-view"), "x")) == ["1520 mm", "540 mm", "600 mm"]
    assert len([g for g in svg.iter(SVG + "g") if g.get("class") == "sign"]) == 3


def test_before_and_after_stand_as_they_were_told() -> None:
    table = words(card(*EVERY, texts=TEXTS), "before-after")
    assert table == [text for row in TEXTS for text in row if text]
    assert words(card(*EVERY), "before-after") == []


def test_how_much_there_is_to_do_is_told_first() -> None:
    twice = (LEAD, LEAD, FOAM, TANK)
    assert words(card(*twice), "summary") == [
        "2 pieces of lead, 840 g; 1 piece of foam, 562 cm³; 1 thing to move."
    ]
    assert words(card(), "summary") == ["Nothing to place and nothing to move."]


def test_x_is_told_from_the_end_that_the_builder_measures_from() -> None:
    text = STEEP.replace('length = "900 mm"', 'length = "900 mm"\nmeasured_from = "bow"', 1)
    text = text.replace("x_aft = 0", "x_aft = 900").replace("x_fore = 900", "x_fore = 0")
    her = assessed(text)
    at = Placed(
        name="lead", kind="lead", mass=0.1, volume=9e-6, size=(0.04, 0.02, 0.011),
        x=0.65, y=0.0, z=0.01, moved_from=None,
    )  # fmt: skip
    svg = ElementTree.fromstring(placing_card(her, [at]))
    assert words(svg, "x") == ["250 mm"]
    assert "230 to 270 mm" in words(svg, "list")
    assert "0, measured from the bow" in words(svg, "ruler")
    lead = marked_in(pieces(group(svg, "side-view"), "lead")[0])[0]
    assert zero(svg) - lead[:, 0].mean() == pytest.approx(250, abs=0.02)


def many(count: int) -> list[Placed]:
    return [
        Placed(
            name=f"lead {k}", kind="lead", mass=0.05, volume=4.4e-6, size=(0.03, 0.02, 0.0075),
            x=0.6 + 0.002 * k, y=(-1) ** k * 0.02, z=0.01, moved_from=None,
        )
        for k in range(count)
    ]  # fmt: skip


@pytest.mark.parametrize(
    "placed", [EVERY, (), many(5), many(16), many(40)], ids=["some", "none", "5", "16", "40"]
)
def test_no_lettering_stands_on_other_lettering(placed: list[Placed]) -> None:
    svg = card(*placed, texts=TEXTS)
    assert overlaps(svg) == []
    for element in svg.iter():
        assert not any("nan" in value or "inf" in value for value in element.attrib.values())


def test_a_piece_without_a_size_is_a_mark_and_bare_boats_have_cards() -> None:
    spot = Placed(
        name="lead", kind="lead", mass=0.1, volume=9e-6, size=(0.0, 0.0, 0.0),
        x=0.3, y=0.0, z=0.01, moved_from=None,
    )  # fmt: skip
    svg = ElementTree.fromstring(placing_card(assessed(TUBE), [spot]))
    lead = marked_in(pieces(group(svg, "side-view"), "lead")[0])[0]
    assert lead.mean(axis=0)[0] - zero(svg) == pytest.approx(300, abs=0.02)
    assert np.ptp(lead, axis=0).min() > 1
    assert words(svg, "list").count("–") == 2  # nothing to cut, no ends


def test_names_that_look_like_tags_stay_names() -> None:
    nasty = Placed(
        name='<script>&"', kind="lead", mass=0.1, volume=9e-6, size=(0.04, 0.02, 0.011),
        x=0.65, y=0.0, z=0.01, moved_from=None,
    )  # fmt: skip
    text = placing_card(boat("bittern"), [nasty], (("", nasty.name),))
    assert "<script" not in text
    ElementTree.fromstring(text)


def test_pieces_that_cover_one_another_share_a_line_in_the_side_view() -> None:
    port = Placed(
        name="foam", kind="foam", mass=0.02, volume=562e-6, size=FOAM.size,
        x=FOAM.x, y=-FOAM.y, z=FOAM.z, moved_from=None,
    )  # fmt: skip
    svg = card(FOAM, LEAD, port)
    lines = [g for g in group(svg, "side-view").iter(SVG + "g") if g.get("class") == "balloon"]
    assert [words(g, "number") for g in lines] == [["1", "3"], ["2"]]
    assert words(group(svg, "side-view"), "x") == ["540 mm", "600 mm"]
    assert sorted(words(group(svg, "plan"), "number")) == ["1", "2", "3"]
