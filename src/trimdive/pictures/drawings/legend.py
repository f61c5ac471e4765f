"""The legend: each mark and hatch that is in the picture, with one line of words."""

import re
from collections.abc import Callable

import numpy as np

from trimdive.geometry.lines.mesh import Floats
from trimdive.pictures.drawings.ink import Hatch, Ink, Weight
from trimdive.pictures.drawings.marks import box, buoyancy, diamond, gravity
from trimdive.pictures.drawings.side import corners, shut_ink, spot_ink
from trimdive.pictures.drawings.svg import tag
from trimdive.pictures.drawings.things import Look

ROW = 5.4  # height of a line [mm of paper]
SIGN = 12.0  # breadth of the marks [mm of paper]

Sign = Callable[[float, float], str]  # a mark, by the place of its middle [mm]
Entry = tuple[str, Sign, str]  # the pattern that finds it in a picture, the mark, the words


def legend(ink: Ink, picture: str, x: float, y: float, width: float) -> tuple[str, float]:
    """Return the legend in columns, and how high it is [mm].

    Args:
        ink: Pen and lettering.
        picture: What is explained, as SVG; only what is in it gets a line.
        x: Left edge [mm].
        y: Upper edge [mm].
        width: Room for it [mm].
    """
    entries = [
        (sign, words)
        for pattern, sign, words in (*_key(ink), *_hull(ink), *_things(ink))
        if re.search(pattern, picture)
    ]
    longest = max((ink.breadth(words) for _, words in entries), default=0.0) + ink.mm(SIGN + 4.0)
    count = max(1, int(width // longest))
    rows = -(-len(entries) // count)
    found = []
    for i, (sign, words) in enumerate(entries):
        left, middle = x + (i // rows) * width / count, y + ink.mm(ROW) * (i % rows + 0.5)
        found.append(
            tag(
                "g",
                sign(left + ink.mm(SIGN / 2), middle),
                ink.words(left + ink.mm(SIGN + 2), middle + ink.mm(1.1), words),
            )
        )
    return tag("g", *found, class_="legend"), rows * ink.mm(ROW)


def _key(ink: Ink) -> list[Entry]:
    """Return the lines about water and the points that matter."""
    return [
        (
            rf"#{ink.name('above')}\)",
            _swatch(ink, "above"),
            "above the waterline: tank water must equal it",
        ),
        (
            _class("above-middle"),
            _diamond(ink, full=False),
            "its centre: the tank water belongs under it",
        ),
        (
            _class("tank-middle"),
            _diamond(ink, full=True),
            "centre of the tank water",
        ),
        (
            _class("g"),
            lambda x, y: gravity(ink, (x, y)),
            "G: centre of all weight, tank water too",
        ),
        (
            _class("b"),
            lambda x, y: buoyancy(ink, (x, y)),
            "B: centre of the water she displaces",
        ),
        (_class("waterline-meant"), _stroke(ink, "plain", "waterline"), "waterline meant"),
        (_class("water-surface"), _stroke(ink, "plain", ""), "water surface"),
        (_class("draught-marks"), _rungs(ink), "heights above the keel line, 1 cm apart"),
        (rf"#{ink.name('water')}\)", _swatch(ink, "water"), "water in a tank"),
    ]


def _hull(ink: Ink) -> list[Entry]:
    """Return the lines about hull and cylinders."""
    return [
        (_class("skin"), _stroke(ink, "bold", ""), "skin"),
        (
            _class("skin shut"),
            lambda x, y: shut_ink(ink, _corners(ink, x, y)),
            "sealed: no water gets in anywhere",
        ),
        (_class("station"), _stroke(ink, "fine", "station"), "station"),
        (_class("opening"), _crossed(ink), "well through the hull"),
        (_class("towers"), _oval(ink), "tower or fin from above"),
        (_class("skin-hole"), _slot(ink), "hole in the skin"),
        (_class("plate-line"), _stroke(ink, "fine", ""), "line on the skin"),
        (_class("draught-figures"), _tick(ink), "foot of a figure of the draught"),
        (_class("vessels"), _walled(ink), "watertight cylinder, its wall grey"),
    ]


def _things(ink: Ink) -> list[Entry]:
    """Return the lines about what is in her."""
    return [
        (_class("thing tank(?: guess)?"), _frame(ink, "plain"), "tank"),
        (_class("thing part(?: guess)?"), _frame(ink, "fine"), "part"),
        (_class("thing point spot(?: guess)?"), _spot(ink, "point"), "part, its shape not given"),
        (_class("thing sparse(?: guess)?"), _spread(ink), "part spread between these corners"),
        (_class("thing lead(?: guess)?"), _swatch(ink, "lead"), "lead"),
        (_class("thing lead spot(?: guess)?"), _spot(ink, "lead"), "lead, its shape not given"),
        (_class("thing foam(?: guess)?"), _swatch(ink, "foam"), "foam"),
        (_class("thing foam spot(?: guess)?"), _spot(ink, "foam"), "foam, its shape not given"),
        (
            _class(r"thing \w+ guess"),
            _frame(ink, "fine", "guess"),
            "dashed: its mass is guessed",
        ),
        (
            _class(r"thing \w+ spot guess"),
            _spot(ink, "point", "guess"),
            "in a dashed ring: its mass is guessed",
        ),
    ]


def _class(name: str) -> str:
    """Return the pattern that finds what is drawn of a class."""
    return f'class="{name}"'


def _corners(ink: Ink, x: float, y: float) -> list[Floats]:
    return [box(x - ink.mm(5.0), y - ink.mm(1.7), ink.mm(10.0), ink.mm(3.4))]


def _diamond(ink: Ink, *, full: bool) -> Sign:
    return lambda x, y: diamond(ink, (x, y), full=full)


def _swatch(ink: Ink, hatch: Hatch) -> Sign:
    return lambda x, y: (
        ink.hatched(_corners(ink, x, y), hatch) + ink.shape(_corners(ink, x, y), "fine")
    )


def _frame(ink: Ink, weight: Weight, dash: str = "") -> Sign:
    return lambda x, y: ink.shape(_corners(ink, x, y), weight, dash=dash)


def _walled(ink: Ink) -> Sign:
    def sign(x: float, y: float) -> str:
        inner = box(x - ink.mm(4.3), y - ink.mm(1.0), ink.mm(8.6), ink.mm(2.0))
        both = [*_corners(ink, x, y), inner]
        return ink.shape(both, "fine", fill="currentColor", fill_opacity="0.6")

    return sign


def _crossed(ink: Ink) -> Sign:
    def sign(x: float, y: float) -> str:
        frame = _corners(ink, x, y)
        cross = [ink.line(frame[0][[i, i + 2]]) for i in (0, 1)]
        return "".join([ink.shape(frame, "plain"), *cross])

    return sign


def _oval(ink: Ink) -> Sign:
    turn = np.linspace(0.0, 2 * np.pi, 40, endpoint=False)
    ring = np.column_stack([ink.mm(5.0) * np.cos(turn), ink.mm(1.7) * np.sin(turn)])
    return lambda x, y: ink.shape([ring + np.array([x, y])], "plain")


def _slot(ink: Ink) -> Sign:
    turn = np.linspace(0.0, 2 * np.pi, 24, endpoint=False)
    ring = np.column_stack([np.cos(turn) + 2.0 * np.sign(np.cos(turn)), np.sin(turn)])
    return lambda x, y: ink.shape([ink.mm(0.9) * ring + np.array([x, y])], "plain")


def _tick(ink: Ink) -> Sign:
    return lambda x, y: ink.line([(x - ink.mm(0.8), y), (x + ink.mm(0.8), y)], "plain")


def _rungs(ink: Ink) -> Sign:
    heights = (-1.6, -0.8, 0.0, 0.8, 1.6)
    return lambda x, y: "".join(
        ink.line([(x - ink.mm(half), y + ink.mm(h)), (x + ink.mm(half), y + ink.mm(h))])
        for h, half in zip(heights, (0.7, 0.7, 1.3, 0.7, 0.7), strict=True)
    )


def _spread(ink: Ink) -> Sign:
    return lambda x, y: corners(ink, _corners(ink, x, y), "")


def _spot(ink: Ink, look: Look, dash: str = "") -> Sign:
    return lambda x, y: spot_ink(ink, look, (x, y), dash)


def _stroke(ink: Ink, weight: Weight, dash: str) -> Sign:
    return lambda x, y: ink.line([(x - ink.mm(6.0), y), (x + ink.mm(6.0), y)], weight, dash)
