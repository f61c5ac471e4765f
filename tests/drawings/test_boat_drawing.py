"""The drawing of a boat: marks at the places of the records, words with their figures."""

from math import degrees, hypot
from xml.etree import ElementTree

import numpy as np
import pytest
from tests.drawings.boats import SVG, boat, drawn, state
from tests.drawings.seen import EVERY, boxes, marked, marked_in, middle, overlaps, words

from trimdive.pictures.drawings import boat_drawing
from trimdive.pictures.drawings.sheet import drawing_scale


@EVERY
def test_it_is_plain_svg_in_one_ink(name: str, which: str) -> None:
    svg = drawn(name, which)
    assert svg.tag == SVG + "svg"
    tags = {element.tag.removeprefix(SVG) for element in svg.iter()}
    assert tags <= {"svg", "title", "defs", "pattern", "g", "path", "circle", "text"}
    for element in svg.iter():
        for key in ("fill", "stroke"):
            ink = element.get(key, "none")
            assert ink in ("none", "currentColor") or ink.startswith("url(#")
        assert not {"href", "style", "onload", "onclick"} & set(element.keys())
        assert not any("nan" in value or "inf" in value for value in element.attrib.values())
    hatches = {pattern.get("id") for pattern in svg.iter(SVG + "pattern")}
    used = {e.get("fill", "")[5:-1] for e in svg.iter() if "url" in e.get("fill", "")}
    assert used <= hatches


@EVERY
def test_the_water_is_level_and_she_tips_in_it(name: str, which: str) -> None:
    svg, at = drawn(name, which), state(name, which)
    water = marked(svg, "water-surface")[0]
    assert water[0, 1] == water[1, 1]
    meant = marked(svg, "waterline-meant")[0]
    run = meant[1] - meant[0]
    slope = boat(name).boat.waterline
    assert slope is not None
    assert slope.slope == 0
    # Down on the sheet is down in the water: bow down, her own waterline falls to the right.
    assert np.sin(at.trim_angle) * np.cos(at.heel) == pytest.approx(
        run[1] / hypot(*run) * np.cos(at.heel), abs=2e-4
    )


@EVERY
def test_water_in_the_tanks_is_level(name: str, which: str) -> None:
    svg, at = drawn(name, which), state(name, which)
    water = marked(svg, "water-surface")[0][0, 1]
    levels = marked(svg, "level")
    tanks = [tank for tank in boat(name).boat.tanks if tank.kind == "open"]
    shares = at.rest.waters / boat(name).floater.tanks.capacities
    slack = [
        level
        for level, share, tank in zip(at.rest.levels, shares, boat(name).boat.tanks, strict=True)
        if tank in tanks and 1e-9 < share < 1 - 1e-9
    ]
    assert len(levels) == len(slack)
    for line, level in zip(levels, slack, strict=True):
        assert line[0, 1] == line[1, 1]
        if not at.rest.under:
            assert line[0, 1] - water == pytest.approx(1000 * (at.rest.d - level), abs=0.02)


@EVERY
def test_the_diamonds_stand_where_the_need_says(name: str, which: str) -> None:
    svg, need, at = drawn(name, which), boat(name).need, state(name, which)
    hollow, full = middle(svg, "above-middle"), middle(svg, "tank-middle")
    if abs(at.heel) < 1e-6:
        along = need.water_place - need.place
        assert hypot(*(full - hollow)) == pytest.approx(1000 * hypot(along[0], along[2]), abs=0.02)
        # Along her own waterline the distance is the offset, however she tips.
        meant = marked(svg, "waterline-meant")[0]
        run = (meant[1] - meant[0]) / hypot(*(meant[1] - meant[0]))
        assert (full - hollow) @ run == pytest.approx(1000 * need.offset, abs=0.05)
    if not at.rest.under:
        water = marked(svg, "water-surface")[0][0, 1]
        over = float(at.rest.n @ need.place) - at.rest.d
        assert water - hollow[1] == pytest.approx(1000 * over, abs=0.02)


@EVERY
def test_distances_are_those_of_the_records(name: str, which: str) -> None:
    svg, found, at = drawn(name, which), boat(name), state(name, which)
    write = found.boat.units.write
    far, way = words(svg, "distance")
    assert far == f"Tank water {write(abs(found.need.offset), 'length')}"
    assert way == f"too far {'forward' if found.need.offset > 0 else 'aft'}"
    assert words(svg, "need")[0].startswith(write(found.need.volume, "volume"))
    # One BG: of the state that is drawn, beside the lever and in the head.
    assert words(svg, "lever")[0] == f"BG {write(at.bg, 'length')}"
    figures = words(svg, "header")
    assert f"{abs(degrees(at.trim_angle)):.1f}°" in figures
    assert write(at.bg, "length") in figures
    off = write(abs(at.rest.excess), "mass")
    heavy = "heavy" if at.rest.excess > 0 else "light"
    assert ("neutral" if abs(at.rest.excess) < 5e-4 else f"{off} {heavy}") in figures
    if found.full.rest.excess > 0 and abs(at.rest.excess) > 5e-4:
        neutral = f", neutral at {found.neutral:.0%}".replace("%", " %")
        assert any(text.endswith(neutral) for text in figures)


@pytest.mark.parametrize(
    ("name", "which", "says"),
    [
        ("bittern", "surfaced", "Tanks blown: floats "),
        ("bittern", "dived", "wholly under, neutral"),
        ("bittern-as-bought", "full", "Tanks full: still floats, "),
        ("bittern-as-bought", "dived", "held wholly under, "),
        ("grebe", "full", "Tanks full: wholly under, "),
        ("grebe", "half", "Tanks 50 % full: still floats, "),
    ],
)
def test_the_state_is_told_in_words(name: str, which: str, says: str) -> None:
    answer = words(drawn(name, which), "header")[1]
    assert says in answer
    at = state(name, which)
    if abs(at.rest.excess) > 1e-3 and which != "surfaced":
        mass = boat(name).boat.units.write(abs(at.rest.excess), "mass")
        assert f"{mass} {'heavy' if at.rest.excess > 0 else 'light'}" in answer
    assert answer.endswith(".")


@EVERY
def test_g_and_b_stand_on_one_vertical(name: str, which: str) -> None:
    svg, at = drawn(name, which), state(name, which)
    rings = {
        kind: next(g for g in svg.iter(SVG + "g") if g.get("class") == kind).find(SVG + "circle")
        for kind in ("g", "b")
    }
    g, b = (
        np.array([float(rings[kind].get("cx", "")), float(rings[kind].get("cy", ""))])
        for kind in ("g", "b")
    )
    assert b[0] == pytest.approx(g[0], abs=0.05)
    assert g[1] - b[1] == pytest.approx(1000 * at.bg, abs=0.05)


@EVERY
def test_draughts_are_told_when_afloat(name: str, which: str) -> None:
    svg, found, at = drawn(name, which), boat(name), state(name, which)
    answer = " / ".join(words(svg, "draught"))
    assert bool(answer) == (not at.rest.under)
    for mark in found.boat.marks if answer else ():
        assert f"draught {found.boat.units.write(at.draught(mark.x), 'length')}" in answer
    if which == "surfaced" and found.boat.waterline:
        x = found.boat.marks[0].x if found.boat.marks else None
        if x is not None:
            off = at.draught(x) - found.boat.waterline.height_at(x)
            says = f"{found.boat.units.write(abs(off), 'length')} {'low' if off > 0 else 'high'}"
            assert says in answer or "on her waterline" in answer


@EVERY
def test_everything_aboard_is_drawn_and_guesses_are_dashed(name: str, which: str) -> None:
    svg, found = drawn(name, which), boat(name)
    for view in ("side-view", "plan"):
        group = next(g for g in svg.iter(SVG + "g") if g.get("class") == view)
        drawn_things = {g.get("data-path"): g for g in group.iter(SVG + "g") if g.get("data-path")}
        masses = {entry.path: entry for entry in found.masses.entries}
        pieces = {path for path in masses if not path.startswith(("region", "coat"))}
        assert pieces <= set(drawn_things)
        for path, thing in drawn_things.items():
            is_guess = path in masses and masses[path].known == "guess"
            if " spot" in thing.get("class", ""):
                assert [bool(c.get("stroke-dasharray")) for c in thing.iter(SVG + "circle")] == (
                    [True] if is_guess else []
                )
                continue
            outline = [p for p in thing.iter(SVG + "path") if p.get("stroke") != "none"]
            assert outline
            assert all(bool(p.get("stroke-dasharray")) == is_guess for p in outline)


@pytest.mark.parametrize(
    ("name", "shut"), [("plover-as-bought", ["fin"]), ("plover", []), ("bittern", [])]
)
def test_what_is_shut_hides_nothing(name: str, shut: list[str]) -> None:
    svg = drawn(name, "surfaced")
    skins = {
        g.findtext(SVG + "title"): (g.get("class"), g.findall(SVG + "path"))
        for g in svg.iter(SVG + "g")
        if (g.get("class") or "").startswith("skin") and g.findtext(SVG + "title")
    }
    assert {region.name for region in boat(name).boat.regions} == set(skins)
    assert [key for key, (look, _) in skins.items() if look == "skin shut"] == shut
    for key, (_, paths) in skins.items():
        for path in paths:
            tint = float(path.get("fill-opacity", "1"))
            assert (tint < 0.2) == (key in shut)


@EVERY
def test_no_lettering_stands_on_other_lettering_or_off_the_sheet(name: str, which: str) -> None:
    svg = drawn(name, which)
    assert len(boxes(svg)) > 30
    assert overlaps(svg) == []


@EVERY
def test_paper_size_and_scale_agree(name: str, which: str) -> None:
    svg = drawn(name, which)
    width = float(svg.get("viewBox", "").split()[2])
    paper = float(svg.get("width", "").removesuffix("mm"))
    answer = next(text for text in words(svg) if text.startswith("Drawn 1:"))
    scale = float(answer.split(":")[1].split()[0])
    assert width / paper == pytest.approx(scale, rel=1e-3)
    assert paper <= 410
    wide = float(answer.split(" on paper ")[1].split()[0])
    assert wide == pytest.approx(paper, abs=0.51)  # told to the millimetre


def test_scale_bars_measure_the_model_and_full_size() -> None:
    svg, found = drawn("bittern", "surfaced"), boat("bittern")
    bars = [g for g in svg.iter(SVG + "g") if g.get("class") == "scale-bar"]
    assert len(bars) == 2
    for bar, per_unit in zip(bars, (10.0, 1000.0 / (found.boat.scale or 1)), strict=True):
        figures = list(bar.iter(SVG + "text"))[:-1]
        places = [float(t.get("x", "")) for t in figures]
        numbers = [float(t.text or "") for t in figures]
        assert np.diff(places) == pytest.approx(np.diff(numbers) * per_unit, abs=0.02)


def test_a_name_that_looks_like_a_tag_stays_a_name() -> None:
    found = boat("grebe")
    nasty = '<script>&"'
    renamed = type(found)(boat=found.boat.model_copy(update={"name": nasty}), files=found.files)
    text = boat_drawing(renamed, found.surfaced)
    assert "<script" not in text
    svg = ElementTree.fromstring(text)
    assert words(svg)[0].startswith(nasty)


def test_the_same_records_give_the_same_drawing() -> None:
    found = boat("grebe")
    assert boat_drawing(found) == boat_drawing(found, found.surfaced)


@pytest.mark.parametrize("length", [300.0, 720.0, 1300.0, 2300.0, 2900.0])
def test_boats_of_every_length_fit_the_paper(length: float) -> None:
    assert length / drawing_scale(length, 300.0) <= 360
    assert length / drawing_scale(300.0, length) <= 260


@EVERY
def test_the_plan_is_true_to_scale_however_she_tips(name: str, which: str) -> None:
    svg, found, at = drawn(name, which), boat(name), state(name, which)
    hull = next(
        np.vstack(marked_in(g)) for g in svg.iter(SVG + "g") if g.get("class") == "plan-hull"
    )
    low, high = found.hull.envelope.bounds
    assert np.ptp(hull, axis=0) == pytest.approx(1000 * (high - low)[:2], abs=0.05)
    tipped = at.rest.n[2] < np.cos(np.radians(1.0))
    assert len(words(svg, "plan-note")) == tipped


@EVERY
def test_upright_and_level_the_plan_has_the_same_x_as_the_side_view(name: str, which: str) -> None:
    svg, at = drawn(name, which), state(name, which)
    along = {}
    for view in ("side-view", "plan"):
        group = next(g for g in svg.iter(SVG + "g") if g.get("class") == view)
        for thing in group.iter(SVG + "g"):
            if thing.get("data-path"):
                corners = np.vstack(marked_in(thing))
                middle = (corners.min(axis=0) + corners.max(axis=0)) / 2
                along.setdefault(thing.get("data-path"), []).append(middle[0])
    high = 1000 * np.ptp(boat(name).hull.envelope.bounds[:, 2])
    length = 1000 * np.ptp(boat(name).hull.envelope.bounds[:, 0])
    # Tipped, heights move things by their sine, and lengths shrink by what the cosine lacks.
    most = abs(np.sin(at.trim_angle)) * high + (1 - np.cos(at.trim_angle)) * length + 0.6
    assert along
    assert all(abs(side - plan) <= most for side, plan in along.values())
