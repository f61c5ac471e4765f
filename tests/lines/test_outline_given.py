"""Outlines as they stand in a boat file: filled in, turned round, shared, refused."""

import math
import re
from pathlib import Path

import numpy as np
import pytest
from tests.lines.tables import volume_and_centre

from trimdive.boatfile import OutlineRegion, parse, text_of
from trimdive.errors import TrimdiveError
from trimdive.geometry.lines.outline_given import outline_of, spread_of
from trimdive.geometry.solids.surfaces import same_surface, surface

DOCS = (Path(__file__).parents[2] / "docs" / "outlines.md").read_text("utf-8")
EXAMPLE = re.findall(r"```toml\n(.*?)```", DOCS, flags=re.DOTALL)[0]
HEAD = 'format = 1\nname = "x"\nlength = "1 m"\nunits.length = "mm"\n'
PLAIN = (
    HEAD
    + """[[region]]
name = "hull"
surface = "outline"
thickness = "2 mm"
material = "GRP"
length = 1000
breadth = 120
height = 100
profile = [
  { x = 0, keel = 50, deck = 100 },
  { x = 1000, keel = 40, deck = 110 },
]
section = [{ x = 500, shape = "oval" }]
"""
)


def _region(text: str, number: int = 0) -> OutlineRegion:
    region = parse(text).regions[number]
    assert isinstance(region, OutlineRegion)
    return region


def test_the_example_of_the_docs_floats_and_says_how_sure_it_is() -> None:
    boat = parse(EXAMPLE)
    region = _region(EXAMPLE)
    volume, centre = volume_and_centre(surface(region, {}))
    spread = spread_of(region, boat.waterline)
    assert spread.envelope.value == pytest.approx(volume, rel=2e-3)  # drawn a little coarser
    assert spread.envelope.share < 0.1
    assert 0.55 < centre[0] < 0.7
    assert text_of(boat)
    assert parse(text_of(boat)) == boat


def test_what_was_not_given_is_filled_in() -> None:
    outline = outline_of(_region(PLAIN))
    assert outline.keel == ((0.0, 0.05), (0.5, 0.0), (1.0, 0.04))
    assert outline.deck == ((0.0, 0.1), (0.5, 0.1), (1.0, 0.11))
    assert outline.half == ((0.0, 0.0), (0.5, 0.06), (1.0, 0.0))
    assert outline.widest == ((0.0, 0.5),)


def test_a_round_hull_that_is_finer_than_high_keeps_its_proportion_between_breadths() -> None:
    """An ellipsoid of three axes, whose volume is 4/3·π·a·b·c, closed form.

    Its profile is measured at other places than its breadths, as a tape does.
    """
    long, broad, high = 0.5, 0.03, 0.05  # half axes [m]

    def at(share: float) -> tuple[float, float]:
        """Return x [mm] and how far the half axes are reached there, as a share [-]."""
        x = long * (1.0 - math.cos(share * math.pi))
        return 1e3 * x, math.sqrt(max(1.0 - ((x - long) / long) ** 2, 0.0))

    profile = [at(k / 8) for k in range(9)]
    breadths = [at(k / 7) for k in range(8)]
    keels = (
        f"{{ x = {x}, keel = {50 - 1e3 * high * r}, deck = {50 + 1e3 * high * r} }}"
        for x, r in profile
    )
    widths = (f"{{ x = {x}, breadth = {2e3 * broad * r} }}" for x, r in breadths)
    text = re.sub(r"profile = \[.*?\n\]\n", "", PLAIN, flags=re.DOTALL)
    text = text.replace('"oval"', '"round"').replace("breadth = 120", "breadth = 60")
    text += f"profile = [{', '.join(keels)}]\nbreadths = [{', '.join(widths)}]\n"
    mesh = surface(_region(text), {})
    volume, _ = volume_and_centre(mesh)
    assert volume == pytest.approx(4.0 / 3.0 * math.pi * long * broad * high, rel=0.01)
    x, y, _ = mesh.vertices.T
    plan = broad * np.sqrt(np.clip(1.0 - ((x - long) / long) ** 2, 0.0, None))
    ends = (x < 0.05) | (x > 0.95)  # a blunt end has no slope that a batten could have
    assert (np.abs(y) - plan)[~ends].max() < 0.001
    assert np.abs(y).max() <= broad + 1e-9


def test_a_round_hull_is_as_broad_as_it_is_high() -> None:
    text = PLAIN.replace('"oval"', '"round"').replace("breadth = 120", "breadth = 100")
    assert outline_of(_region(text)).half == ((0.0, 0.025), (0.5, 0.05), (1.0, 0.035))


def test_points_give_keel_deck_and_breadth_of_their_place() -> None:
    points = 'shape = "points", points = [[0, 2], [60, 70], [20, 100]]'
    outline = outline_of(_region(PLAIN.replace('shape = "oval"', points)))
    assert outline.keel[1] == (0.5, 0.002)
    assert outline.half[1] == (0.5, 0.06)
    assert outline.widest == ((0.5, pytest.approx(68 / 98)),)


def test_from_the_bow_is_the_same_as_from_the_stern() -> None:
    turned = re.sub(r"\bx = (\d+)", lambda found: f"x = {1300 - int(found[1])}", EXAMPLE)
    for place in ('measured_from = "bow"\n', ""):
        text = turned.replace('length = "1300 mm"\n', f'length = "1300 mm"\n{place}', 1)
        if not place:
            text = text.replace('surface = "outline"', 'surface = "outline"\nfrom = "bow"')
        assert outline_of(_region(text)) == outline_of(_region(EXAMPLE))


def test_an_outline_may_be_shared() -> None:
    text = PLAIN + (
        '[[region]]\nname = "upper"\nsurface = "outline"\nlike = "hull"\nabove = 60\n'
        'thickness = 2\nmaterial = "GRP"\n'
    )
    boat = parse(text)
    lower, upper = boat.regions
    assert surface(lower, {}) is surface(upper, {})
    assert same_surface(lower, upper)


def _refused(text: str) -> str:
    with pytest.raises(TrimdiveError) as caught:
        parse(text, "boat.toml")
    return str(caught.value)


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("breadth = 120\n", "", "an outline needs its breadth"),
        ("keel = 50, ", "", "the keel is missing at the end of the hull"),
        ("x = 1000, keel = 40", "x = 900, keel = 40", "it reaches 900 mm, the length is 1000 mm"),
        ("keel = 50", "keel = 150", "the keel is not below the deck"),
        ("{ x = 1000,", "{ x = 500, keel = 0, deck = 80 }, { x = 1000,", "height says 100 mm"),
        ("section =", "breadths = [{ x = 500 }]\nsection =", "its breadth is missing"),
        (
            "section =",
            "breadths = [{ x = 500, half = 60, breadth = 120 }]\nsection =",
            "it gives both breadth and half",
        ),
        ("section =", "breadths = [{ x = 500, half = 120 }]\nsection =", "240 mm across is more"),
        ("section =", "breadths = [{ x = 500, half = 40 }]\nsection =", "the broadest of breadths"),
        ("section =", "breadths = [{ x = 300, half = 0 }]\nsection =", "has no breadth here"),
        ("section =", "breadths = [{ x = 1500, half = 9 }]\nsection =", "lies beyond the profile"),
        (
            "section =",
            "breadths = [{ x = 500, half = 60, widest = 150 }]\nsection =",
            "widest below the keel or above the deck",
        ),
        (
            "section =",
            "breadths = [{ x = 500, half = 60, deck_breadth = 150 }]\nsection =",
            "the flat of the deck is broader",
        ),
        ("section =", "breadths = [{ x = 500, haff = 60 }]\nsection =", "Did you mean 'half'?"),
        ('"oval"', '"box"', "a box needs the radius"),
        ('"oval"', '"oval", radius = 3', "only a box has a radius"),
        ('"oval"', '"knuckled"', "needs its points"),
        ('"oval"', '"oval", points = [[0, 0], [60, 50], [0, 100]]', "shape oval has no points"),
        ('"oval"', '"points", points = [[0, 100], [60, 50], [0, 0]]', "not run from keel to deck"),
        ('"oval"', '"points", points = [[0, 0], [60], [0, 100]]', "point 2 is not a pair"),
        ('"oval"', '"points", points = "a few"', "no list of points"),
        ('"oval"', '"points", points = [[0, 0], [0, 50], [0, 100]]', "half-breadths are nothing"),
        (
            '"oval"',
            '"points", points = [[0, 0], [60, 50], [60, 50], [0, 100]]',
            "a point stands twice",
        ),
        (
            '"oval"',
            '"points", knuckles = [4], points = [[0, 0], [60, 50], [0, 100]]',
            "there is no point 4",
        ),
        (
            '"oval"',
            '"points", points = [[0, 0], [60, 80], [20, 20], [50, 20], [0, 100]]',
            "crosses itself",
        ),
        ('"oval"', '"square"', "'square' is none of the choices"),
        ("x = 500, shape", 'x = "500 kg", shape', "kg"),
        ('shape = "oval" }', 'shape = "oval" }, { x = 500, shape = "round" }', "already"),
        ("profile = [", "like = 'hull'\nprofile = [", "there is no region 'hull'"),
    ],
)
def test_refused_in_one_sentence(old: str, new: str, said: str) -> None:
    assert old in PLAIN
    text = _refused(PLAIN.replace(old, new, 1))
    assert said in text
    assert text.startswith("boat.toml:")
    assert "region[1]" in text


def test_a_low_deck_between_high_ends_is_taken() -> None:
    row = "{ x = 250, deck = 48 },\n  { x = 1000"
    text = PLAIN.replace("keel = 50", "keel = 90").replace("{ x = 1000", row)
    assert outline_of(_region(text)).deck[1] == (0.25, 0.048)


def test_a_point_has_no_breadth() -> None:
    pointed = PLAIN.replace("keel = 50, deck = 100", "keel = 70, deck = 70")
    assert outline_of(_region(pointed)).half[0] == (0.0, 0.0)
    text = pointed.replace("section =", "breadths = [{ x = 0, half = 20 }]\nsection =")
    assert "keel and deck meet in a point here" in _refused(text)


def test_points_must_agree_with_the_profile() -> None:
    points = '{ x = 0, shape = "points", points = [[0, 0], [30, 60], [0, 100]] }, { x = 500'
    text = _refused(PLAIN.replace("section = [{ x = 500", f"section = [{points}"))
    assert "the points run over 100 mm, keel to deck is 50.0 mm there" in text


def test_the_line_of_a_row_is_named() -> None:
    text = PLAIN.replace("x = 1000, keel = 40", "x = 1000, keel = 140")
    line = next(k for k, row in enumerate(text.splitlines(), 1) if "140" in row)
    assert _refused(text).startswith(f"boat.toml:{line}: region[1].profile[2].keel ('hull'): ")


def test_lists_of_points_on_lines_of_their_own_are_no_heads_of_tables() -> None:
    points = 'shape = "points", points = [\n  [0, 0],\n  [60, 50],\n  [0, 100],\n]'
    text = PLAIN.replace('shape = "oval"', points) + "colour = 3\n"
    line = len(text.splitlines())
    assert _refused(text).startswith(f"boat.toml:{line}: region[1].colour ('hull'): ")
