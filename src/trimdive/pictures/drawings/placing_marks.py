"""Pieces, arrows, numbers and the ruler of the placing card."""

from dataclasses import dataclass
from typing import Literal

import numpy as np

from trimdive.assessment import Assessment
from trimdive.geometry.lines.mesh import Floats
from trimdive.pictures.drawings.flat import spread
from trimdive.pictures.drawings.ink import SIZES, Ink, Size
from trimdive.pictures.drawings.marks import Point, box
from trimdive.pictures.drawings.svg import clean, tag
from trimdive.pictures.drawings.things import shell
from trimdive.pictures.drawings.view import View

RING = 3.1  # radius of the ring round a number [mm of paper]
KNEE = 5.0  # height in which lines to numbers slant [mm of paper]
APART = 2.0  # clear room between numbers [mm of paper]
WIDE = 1.15  # figures with their unit are this much broader than lettering is [-]
EDGE = 0.6  # left clear at both ends of a piece of lead [mm of paper]
SHORT = 3.0  # an arrow shorter than this says nothing [mm of paper]
SPOT = 2.4  # side of the square that stands for a piece without a size [mm of paper]

Kind = Literal["lead", "foam", "moved", "out"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """A piece that is placed or taken out, or a thing that is moved."""

    name: str
    kind: Kind
    mass: float  # [kg]
    volume: float  # [m³]
    size: tuple[float, float, float]  # length, breadth, height; zeros where not known [m]
    x: float  # of its middle, forward of the stern [m]
    y: float  # of its middle, to port [m]
    z: float  # of its middle, above the keel line [m]
    moved_from: tuple[float, float, float] | None  # its middle before; None for a new piece [m]
    pair: bool = False  # there is another to starboard; mass and volume are of both
    note: str = ""  # said behind its mass, such as what it was before

    @property
    def middle(self) -> Floats:
        """Return its middle, shape (3,) [m]."""
        return np.array([self.x, self.y, self.z])

    @property
    def places(self) -> tuple[Floats, ...]:
        """Return its middle, and where that was before, each shape (3,) [m]."""
        before = () if self.moved_from is None else (np.array(self.moved_from),)
        return (self.middle, *before)


def corners_of(piece: Placed, view: View, at: Floats) -> Floats:
    """Return the rectangle of a piece in a view that has x to the right, shape (4, 2) [mm].

    Args:
        piece: The piece.
        view: Side view or plan, upright and level.
        at: Its middle, shape (3,) [m].
    """
    half = np.array(piece.size) / 2
    signs = np.array([[-1, -1, -1], [1, -1, -1], [1, 1, 1], [-1, 1, 1]])
    return view.on(at + signs * half)


def piece_ink(ink: Ink, number: int, piece: Placed, view: View) -> str:
    """Return a piece as it is placed: lead inked, foam hatched, what is moved with its arrow."""
    at = view.at(piece.middle)
    loop = corners_of(piece, view, piece.middle)
    if not np.ptp(loop, axis=0).min() > 0:
        half = ink.mm(SPOT) / 2
        loop = box(at[0] - half, at[1] - half, 2 * half, 2 * half)
    drawn = _filled(ink, piece, loop)
    if piece.pair:
        other = corners_of(piece, view, piece.middle * np.array([1.0, -1.0, 1.0]))
        drawn += _filled(ink, piece, other) if not np.allclose(other, loop) else ""
    if piece.moved_from is not None:
        before = np.array(piece.moved_from)
        drawn += ink.shape([corners_of(piece, view, before)], "plain", dash="station")
        drawn += arrow(ink, view.at(before), at)
    title = tag("title", clean(f"{number}: {piece.name}"))
    return tag("g", title, drawn, class_=f"placed {piece.kind}")


def _filled(ink: Ink, piece: Placed, loop: Floats) -> str:
    """Return a closed line with the fill of its kind."""
    if piece.kind == "lead":
        # Inked short of its ends, so that pieces that touch are still seen as two.
        low, high = loop.min(axis=0), loop.max(axis=0)
        short = min(ink.mm(EDGE), 0.2 * float(high[0] - low[0]))
        inked = box(low[0] + short, low[1], float(high[0] - low[0]) - 2 * short, high[1] - low[1])
        return ink.shape([loop], "plain") + ink.shape([inked], "fine", fill="currentColor")
    if piece.kind == "foam":
        return ink.hatched([loop], "foam") + ink.shape([loop], "plain")
    if piece.kind == "out":
        low, high = loop.min(axis=0), loop.max(axis=0)
        cross = [[low, high], [(low[0], high[1]), (high[0], low[1])]]
        crossed = "".join(ink.line(np.array(stroke), "plain") for stroke in cross)
        return ink.shape([loop], "plain", dash="station") + crossed
    return ink.shape([loop], "plain")


def arrow(ink: Ink, start: Point, end: Point) -> str:
    """Return an arrow; none where it would be too short to see."""
    way = np.array(end) - np.array(start)
    run = float(np.hypot(*way))
    if run < ink.mm(SHORT):
        return ""
    way /= run
    side, head = np.array([-way[1], way[0]]) * ink.mm(1.2), way * ink.mm(3.2)
    tip = np.array(end)
    point = ink.shape(
        [np.array([tip, tip - head + side, tip - head - side])], "fine", fill="currentColor"
    )
    return ink.line(np.array([start, tip - head]), "bold", class_="arrow") + point


def sign(ink: Ink, piece: Placed) -> str:
    """Return the mark of a kind of piece about the origin, for the list."""
    if piece.kind == "moved":
        return arrow(ink, (ink.mm(-4.5), 0.0), (ink.mm(4.5), 0.0))
    return _filled(ink, piece, box(ink.mm(-4.5), ink.mm(-1.6), ink.mm(9.0), ink.mm(3.2)))


@dataclass(frozen=True, slots=True, kw_only=True)
class Balloon:
    """A number in a ring, with a line to its piece; several where pieces cover one another."""

    numbers: tuple[int, ...]
    at: Point  # the middle of the piece [mm]
    foot: float  # how far its line runs straight up or down the sheet [mm]
    text: str  # under the ring; or ""


def balloon_row(
    ink: Ink, balloons: list[Balloon], y: float, room: tuple[float, float], *, above: bool
) -> str:
    """Return numbers in a row, none over another, each with its line.

    Args:
        ink: Pen and lettering.
        balloons: What to write.
        y: Of the edge from which lines slant to the row [mm].
        room: Left and right end of the row [mm].
        above: The row stands above that edge, not below.
    """
    ordered = sorted(balloons, key=lambda balloon: balloon.at[0])
    size, sizes = _fitting(ink, ordered, room[1] - room[0])
    places = spread([b.at[0] for b in ordered], sizes, ink.mm(APART), room)
    way = -1.0 if above else 1.0
    found = []
    for b, x in zip(ordered, places, strict=True):
        middle = y + way * ink.mm(KNEE + RING)
        line = [b.at, (b.at[0], b.foot), (b.at[0], y), (x, y + way * ink.mm(KNEE))]
        base = middle + ink.mm(RING + 5.0)
        has_text = bool(b.text and size)
        found.append(
            tag(
                "g",
                ink.line(line, class_="leader"),
                tag("circle", cx=b.at[0], cy=b.at[1], r=ink.mm(0.4), fill="currentColor"),
                _rings(ink, b.numbers, x, middle),
                ink.words(x, base, b.text, size or "small", "middle", class_="x")
                if has_text
                else "",
                class_="balloon",
            )
        )
    return "".join(found)


def _rings(ink: Ink, numbers: tuple[int, ...], x: float, y: float) -> str:
    """Return numbers, each in a ring, side by side about a place [mm]."""
    base, found = y + ink.mm(SIZES["plain"]) * 0.36, list[str]()
    for i, number in enumerate(numbers):
        at = x + ink.mm(2 * RING) * (i - (len(numbers) - 1) / 2)
        found.append(tag("circle", cx=at, cy=y, r=ink.mm(RING), **ink.pen("plain")))
        found.append(ink.words(at, base, f"{number}", "plain", "middle", class_="number"))
    return "".join(found)


def _fitting(ink: Ink, balloons: list[Balloon], room: float) -> tuple[Size | None, list[float]]:
    """Return the size of lettering with which a row fits, and the breadths in it [mm].

    None where no lettering does; the list tells it too.
    """
    choices: tuple[Size | None, ...] = ("plain", "small", None)
    sizes = list[float]()
    for size in choices:
        words = [ink.breadth(b.text, size) * WIDE if size else 0.0 for b in balloons]
        rings = [ink.mm(2 * RING) * len(b.numbers) for b in balloons]
        sizes = [max(pair) for pair in zip(rings, words, strict=True)]
        if sum(sizes) + ink.mm(APART) * len(sizes) < room:
            return size, sizes
    return None, sizes


def ruler(ink: Ink, assessed: Assessment, view: View, y: float) -> tuple[str, float]:
    """Return the line along which the builder measures, and where it ends [mm].

    Args:
        ink: Pen and lettering.
        assessed: The boat.
        view: The side view.
        y: How far down the sheet it lies [mm].
    """
    boat, bounds = assessed.boat, shell(assessed).bounds
    start = (boat.length or 0.0) if boat.entered_from == "bow" else 0.0
    far = float(bounds[0, 0]) if boat.entered_from == "bow" else float(bounds[1, 0])
    places = np.array([[x, 0.0, float(bounds[0, 2])] for x in (start, far)])
    zero, end = (float(x) for x in view.on(places)[:, 0])
    top = float(view.on(np.array([[start, 0.0, float(bounds[1, 2])]]))[0, 1])
    toward = 1.0 if end > zero else -1.0
    words = f"0, measured from the {boat.entered_from}"
    drawn = tag(
        "g",
        ink.line([(zero, top), (zero, y + ink.mm(2.0))], "plain"),
        arrow(ink, (zero, y), (end, y)),
        ink.words(
            zero - toward * ink.mm(1.0),
            y + ink.mm(5.5),
            words,
            "small",
            "start" if toward > 0 else "end",
        ),
        class_="ruler",
    )
    return drawn, y + ink.mm(7.0)
