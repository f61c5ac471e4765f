"""Hulls from outlines against closed forms, and the laws that hold for any of them."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.lines.outlines import NO_FLAT, closer_to_ends, pins
from tests.lines.tables import assert_closed, volume_and_centre

from trimdive.geometry.lines.outline import Outline, Pins, net, outlined
from trimdive.geometry.lines.outline_figures import Waterline, figures
from trimdive.geometry.lines.outline_sections import Section

LENGTH, BREADTH, HEIGHT = 0.9, 0.12, 0.1


def _prism(*sections: Section, widest: float = 0.5) -> Outline:
    """Return a hull of one breadth and height from end to end."""
    ends = (0.0, LENGTH)
    return Outline(
        keel=pins(ends, (0.0, 0.0)),
        deck=pins(ends, (HEIGHT, HEIGHT)),
        half=pins(ends, (BREADTH / 2.0, BREADTH / 2.0)),
        widest=((0.0, widest),),
        deck_half=NO_FLAT,
        sections=sections,
    )


def test_an_oval_is_an_ellipse() -> None:
    volume, centre = volume_and_centre(outlined(_prism(Section(x=0.4, shape="oval"))))
    assert volume == pytest.approx(np.pi / 4.0 * BREADTH * HEIGHT * LENGTH, rel=1e-3)  # polygons
    assert centre == pytest.approx([LENGTH / 2.0, 0.0, HEIGHT / 2.0], abs=2e-5)


@pytest.mark.parametrize("radius", [0.0, 0.01, 0.03, 0.05])
def test_a_box_with_radius(radius: float) -> None:
    box = Section(x=0.4, shape="box", radius=radius, deck_radius=radius)
    volume, _ = volume_and_centre(outlined(_prism(box)))
    area = BREADTH * HEIGHT - (4.0 - np.pi) * radius**2  # closed form
    assert volume == pytest.approx(area * LENGTH, rel=1.5e-3)  # 16 chords to a corner


def test_a_knuckled_section_is_the_polygon_of_its_points() -> None:
    points = ((0.0, 0.0), (0.04, 0.01), (0.06, 0.06), (0.03, 0.1), (0.0, 0.1))
    hull = _prism(Section(x=0.4, shape="knuckled", points=points), widest=0.6)
    y, z = np.array(points).T
    area = abs(np.sum(y * np.roll(z, -1) - z * np.roll(y, -1)))  # the shoelace formula, both sides
    volume, _ = volume_and_centre(outlined(hull))
    assert volume == pytest.approx(area * LENGTH, rel=1e-6)


def test_measured_points_come_out_again() -> None:
    angle = np.linspace(0.0, np.pi, 9)
    y, z = BREADTH / 2.0 * np.sin(angle), HEIGHT / 2.0 * (1.0 - np.cos(angle))
    points = pins(y.round(12), z)
    volume, _ = volume_and_centre(outlined(_prism(Section(x=0.4, shape="points", points=points))))
    assert volume == pytest.approx(np.pi / 4.0 * BREADTH * HEIGHT * LENGTH, rel=5e-3)  # 9 points


def _ellipsoid(count: int) -> Outline:
    x = closer_to_ends(LENGTH, count)
    share = np.sqrt(np.maximum(1.0 - (2.0 * x / LENGTH - 1.0) ** 2, 0.0))
    return Outline(
        keel=pins(x, HEIGHT / 2.0 * (1.0 - share)),
        deck=pins(x, HEIGHT / 2.0 * (1.0 + share)),
        half=pins(x, BREADTH / 2.0 * share),
        widest=((0.0, 0.5),),
        deck_half=NO_FLAT,
        sections=(Section(x=LENGTH / 2.0, shape="oval"),),
    )


@pytest.mark.parametrize(("count", "close"), [(5, 0.03), (7, 0.01), (11, 0.003)])
def test_an_ellipsoid_half_immersed(count: int, close: float) -> None:
    a, b, c = LENGTH / 2.0, BREADTH / 2.0, HEIGHT / 2.0
    hull = figures(net(_ellipsoid(count)), Waterline(height=c))
    assert hull.envelope == pytest.approx(4.0 * np.pi / 3.0 * a * b * c, rel=close)
    assert hull.nabla == pytest.approx(2.0 * np.pi / 3.0 * a * b * c, rel=close)
    assert hull.waterplane == pytest.approx(np.pi * a * b, rel=close)
    assert hull.bm_t == pytest.approx(3.0 * b**2 / (8.0 * c), rel=close)


def test_a_sloping_waterline_cuts_a_box_in_two() -> None:
    box = _prism(Section(x=0.0, shape="box"))
    slope = HEIGHT / LENGTH
    half = figures(net(box), Waterline(height=0.0, slope=slope))  # from edge to edge
    assert half.nabla == pytest.approx(BREADTH * HEIGHT * LENGTH / 2.0, rel=2e-3)


def _scaled(pins_: Pins, along: float, across: float) -> Pins:
    return tuple((along * x, across * v) for x, v in pins_)


MIXED = Outline(
    keel=((0.0, 0.05), (0.2, 0.01), (0.5, 0.0), (0.9, 0.03)),
    deck=((0.0, 0.09), (0.5, 0.1), (0.9, 0.11)),
    half=((0.0, 0.01), (0.25, 0.05), (0.5, 0.06), (0.9, 0.0)),
    widest=((0.2, 0.6), (0.7, 0.5)),
    deck_half=((0.5, 0.4),),
    sections=(
        Section(x=0.1, shape="oval"),
        Section(x=0.5, shape="box", radius=0.02, deck_radius=0.01),
        Section(x=0.8, shape="knuckled", points=((0.0, 0.0), (0.02, 0.02), (0.03, 0.1))),
    ),
)


@given(scale=st.floats(0.3, 5.0))
@settings(max_examples=15)
def test_volumes_scale_as_the_cube(scale: float) -> None:
    grown = Outline(
        keel=_scaled(MIXED.keel, scale, scale),
        deck=_scaled(MIXED.deck, scale, scale),
        half=_scaled(MIXED.half, scale, scale),
        widest=_scaled(MIXED.widest, scale, 1.0),
        deck_half=_scaled(MIXED.deck_half, scale, 1.0),
        sections=tuple(
            replace(
                s,
                x=scale * s.x,
                radius=scale * s.radius,
                deck_radius=scale * s.deck_radius,
                points=tuple((scale * y, scale * z) for y, z in s.points),
            )
            for s in MIXED.sections
        ),
    )
    one = figures(net(MIXED), Waterline(height=0.07)).row
    other = figures(net(grown), Waterline(height=0.07 * scale)).row
    assert other == pytest.approx(one * scale ** np.array([3, 3, 2, 1]), rel=1e-6)


def _turned(run: Pins) -> Pins:
    return tuple((0.9 - x, v) for x, v in reversed(run))


def test_bow_for_stern_is_the_same_hull_turned_round() -> None:
    turned = Outline(
        keel=_turned(MIXED.keel),
        deck=_turned(MIXED.deck),
        half=_turned(MIXED.half),
        widest=_turned(MIXED.widest),
        deck_half=_turned(MIXED.deck_half),
        sections=tuple(replace(s, x=0.9 - s.x) for s in reversed(MIXED.sections)),
    )
    line = Waterline(height=0.07)
    assert figures(net(turned), line).row == pytest.approx(figures(net(MIXED), line).row, rel=1e-9)


def test_a_mixed_hull_closes_and_is_the_same_on_both_sides() -> None:
    mesh = outlined(MIXED)
    assert_closed(mesh)
    assert volume_and_centre(mesh)[1][1] == pytest.approx(0.0, abs=1e-12)
    assert mesh.bounds[:, 1] == pytest.approx([-0.06, 0.06])
    assert mesh.bounds[0, 2] == pytest.approx(0.0, abs=1e-12)  # no lower than was measured


def test_the_figures_of_the_net_are_those_of_the_mesh() -> None:
    whole = figures(net(MIXED), Waterline(height=1.0))
    volume, _ = volume_and_centre(outlined(MIXED))
    assert whole.nabla == whole.envelope
    assert whole.envelope == pytest.approx(volume, rel=2e-3)  # trapezoids against triangles


def test_knuckles_stay_sharp_between_stations() -> None:
    points = ((0.0, 0.0), (0.05, 0.02), (0.06, 0.1))
    hull = _prism(*(Section(x=x, shape="knuckled", points=points) for x in (0.2, 0.7)), widest=1.0)
    rows = net(hull)
    nearest = np.linalg.norm(rows[:, :, 1:] - np.array([0.05, 0.02]), axis=2).min(axis=1)
    assert nearest.max() < 1e-9
