"""The stated spread of outlined hulls against hulls whose shape is known."""

from dataclasses import replace

import numpy as np
import pytest
from tests.in_words import in_words
from tests.lines.outlines import HALFWAY, NO_FLAT, closer_to_ends, holds, pins
from tests.lines.tables import boat, volume_and_centre

from trimdive.geometry.lines import LinesTable, loft, read_table
from trimdive.geometry.lines.outline import Finish, Outline
from trimdive.geometry.lines.outline_figures import Waterline
from trimdive.geometry.lines.outline_sections import Section
from trimdive.geometry.lines.outline_spread import Band, Further, outline_spread
from trimdive.geometry.lines.station import Station

BITTERN = read_table(boat("bittern"), "bittern")
GREBE = read_table(boat("grebe"), "grebe")
LINES = {"bittern": (BITTERN, 0.154), "grebe": (GREBE, 0.098)}


def _widest(station: Station) -> float:
    """Return the height of the widest point, as a share of keel to deck."""
    points = station.points
    most = points[points[:, 0].argmax(), 1]
    return float((most - points[0, 1]) / (points[-1, 1] - points[0, 1]))


def _sampled(table: LinesTable, rows: list[int], *, by_points: bool) -> Outline:
    """Return what a builder reads off a hull at some of the stations of its table."""
    taken = [table.stations[row] for row in rows]
    x = [station.x for station in taken]
    three = [taken[1], taken[len(taken) // 2], taken[-2]]
    sections = tuple(
        Section(x=s.x, shape="points", points=tuple((float(y), float(z)) for y, z in s.points))
        if by_points
        else Section(x=s.x, shape="oval")
        for s in three
    )
    flat = [float(s.points[-2, 0]) / s.breadth for s in taken]
    return Outline(
        keel=pins(x, [float(s.points[0, 1]) for s in taken]),
        deck=pins(x, [float(s.points[-1, 1]) for s in taken]),
        half=pins(x, [s.breadth for s in taken]),
        widest=pins([s.x for s in three], [_widest(s) for s in three]),
        deck_half=pins(x, flat),
        sections=sections,
    )


def _below(table: LinesTable, height: float) -> float:
    """Return the volume of the loft of the whole table below a height, cut by a library."""
    import manifold3d

    mesh = loft(table)
    solid = manifold3d.Manifold(manifold3d.Mesh64(mesh.vertices, mesh.triangles.astype(np.uint64)))
    return float(solid.trim_by_plane((0.0, 0.0, -1.0), -height).volume())


@pytest.mark.parametrize("by_points", [True, False])
@pytest.mark.parametrize(
    ("name", "rows"),
    [
        ("bittern", [0, 2, 6, 10, 12]),
        ("bittern", [0, 3, 6, 9, 12]),
        ("bittern", [0, 2, 3, 6, 9, 10, 12]),
        ("bittern", [0, 1, 2, 3, 4, 6, 8, 9, 10, 11, 12]),
        ("grebe", [0, 4, 7, 10, 13]),
        ("grebe", [0, 3, 7, 11, 13]),
        ("grebe", [0, 2, 4, 7, 10, 12, 13]),
        ("grebe", [0, 2, 4, 6, 8, 10, 12, 13]),
    ],
)
def test_it_holds_for_boats_read_at_few_places(name: str, rows: list[int], by_points: bool) -> None:
    table, height = LINES[name]
    spread = outline_spread(_sampled(table, rows, by_points=by_points), Waterline(height=height))
    assert holds(spread.envelope, volume_and_centre(loft(table))[0])
    assert holds(spread.nabla, _below(table, height))
    assert spread.nabla.share < 0.12  # and is of some use


def _ellipsoid(x: np.ndarray, axes: np.ndarray, answer: Finish) -> Outline:
    """Return an ellipsoid, on its keel line, measured at places along it."""
    a, b, c = axes
    share = np.sqrt(np.maximum(1.0 - ((x - a) / a) ** 2, 0.0))
    return Outline(
        keel=pins(x, c * (1.0 - share)),
        deck=pins(x, c * (1.0 + share)),
        half=pins(x, b * share),
        widest=HALFWAY,
        deck_half=NO_FLAT,
        sections=tuple(Section(x=float(place), shape="oval") for place in x[[0, 3, -1]]),
        stern=answer,
        bow=answer,
    )


def test_it_holds_for_95_of_100_ellipsoids() -> None:
    rng = np.random.default_rng(2)
    kept: list[list[bool]] = []
    for _ in range(40):
        axes = np.array([0.5, rng.uniform(0.03, 0.08), rng.uniform(0.03, 0.08)])
        x = closer_to_ends(2.0 * axes[0], int(rng.integers(5, 12)))
        x[1:-1] += rng.uniform(-0.2, 0.2, len(x) - 2) * np.diff(x).min()
        answer: Finish = "round" if rng.random() < 0.5 else "not entered"
        spread = outline_spread(_ellipsoid(x, axes, answer), Waterline(height=float(axes[2])))
        a, b, c = axes
        truths = (
            4.0 * np.pi / 3.0 * a * b * c,
            2.0 * np.pi / 3.0 * a * b * c,
            np.pi * a * b,
            3.0 * b**2 / (8.0 * c),
        )  # closed forms of an ellipsoid half immersed
        bands = (spread.envelope, spread.nabla, spread.waterplane, spread.bm_t)
        kept.append([holds(band, truth) for band, truth in zip(bands, truths, strict=True)])
    assert np.mean(kept, axis=0).min() >= 0.95


def test_what_it_advises_narrows_the_spread() -> None:
    few = _sampled(BITTERN, [0, 3, 6, 9, 12], by_points=False)
    line = Waterline(height=0.154)
    before = outline_spread(few, line)
    assert before.further.what == "section"
    near = min(BITTERN.stations, key=lambda s: abs(s.x - before.further.x))
    by_points = tuple((float(y), float(z)) for y, z in near.points)
    measured = Section(x=near.x, shape="points", points=by_points)
    sections = tuple(s if s.x != near.x else measured for s in few.sections)
    after = outline_spread(replace(few, sections=sections), line)
    assert after.nabla.spread < 0.9 * before.nabla.spread


def test_the_widest_gap_of_a_round_hull_is_named() -> None:
    x = np.array([0.0, 0.05, 0.1, 0.15, 0.2, 0.8, 0.95, 1.0])
    r = 0.05 * np.sqrt(1.0 - (2.0 * x - 1.0) ** 2)
    hull = Outline(
        keel=pins(x, 0.05 - r),
        deck=pins(x, 0.05 + r),
        half=pins(x, r),
        widest=HALFWAY,
        deck_half=NO_FLAT,
        sections=(Section(x=0.0, shape="round"), Section(x=1.0, shape="round")),
    )
    further = outline_spread(hull, Waterline(height=0.05)).further
    assert further.what == "half-breadth"
    assert further.x == pytest.approx(0.5)
    assert further.share < 0.8


def test_the_advice_in_words() -> None:
    further = Further(what="half-breadth", x=0.4, share=0.6)
    assert in_words(further.advice) == "Measure the half-breadth at 400 mm from the stern."


def test_a_band_as_a_share() -> None:
    assert Band(value=2.0, spread=0.1).share == pytest.approx(0.05)
    assert Band(value=0.0, spread=0.1).share == 0.0
