"""Marks on a drawing: diamonds, G and B, water level, dimensions, labels in a row, scale bars."""

from dataclasses import dataclass, replace

import numpy as np

from trimdive.geometry.lines.mesh import Floats
from trimdive.pictures.drawings.flat import spread
from trimdive.pictures.drawings.ink import Ink, Size
from trimdive.pictures.drawings.svg import number, tag

Point = tuple[float, float]

DIAMOND = 2.7  # half the height of the hollow diamond [mm of paper]
LINE = 3.9  # from one line of small lettering to the next [mm of paper]
LEADER = 4.0  # height in which lines to labels slant [mm of paper]
ASIDE = 1.2  # two lines to labels stand no nearer to each other [mm of paper]


def diamond(ink: Ink, at: Point, *, full: bool, **more: str) -> str:
    """Return a diamond, hollow or full; the full one just fits into the hollow one."""
    x, y = at
    half = ink.mm(1.5 if full else DIAMOND)
    corners = np.array([[x - half, y], [x, y - half], [x + half, y], [x, y + half]])
    fill = "currentColor" if full else "none"
    return ink.shape([corners], "plain", fill=fill, **more)


def gravity(ink: Ink, at: Point) -> str:
    """Return the mark of the centre of gravity: a disc with two quarters inked."""
    (x, y), r = at, ink.mm(1.5)
    quarters = "".join(
        f"M{number(x)},{number(y)}h{number(s * r)}A{number(r)},{number(r)} 0 0 1 "
        f"{number(x)},{number(y + s * r)}Z"
        for s in (1.0, -1.0)
    )
    ring = tag("circle", cx=x, cy=y, r=r, **ink.pen("plain"))
    return tag("g", ring, tag("path", d=quarters, fill="currentColor"), class_="g")


def buoyancy(ink: Ink, at: Point) -> str:
    """Return the mark of the centre of buoyancy: a wide ring with four ticks outside."""
    (x, y), r, tick = at, ink.mm(2.4), ink.mm(1.0)
    ring = tag("circle", cx=x, cy=y, r=r, **ink.pen("plain"))
    ticks = "".join(
        f"M{number(x + c * r)},{number(y + s * r)}l{number(c * tick)},{number(s * tick)}"
        for c, s in ((1, 0), (-1, 0), (0, 1), (0, -1))
    )
    return tag("g", ring, tag("path", d=ticks, **ink.pen("plain")), class_="b")


def plumb_line(ink: Ink, top: Point, foot: Point) -> str:
    """Return a line with a bob at its foot."""
    x, y = foot
    way = np.array([x - top[0], y - top[1]])
    way /= max(float(np.hypot(*way)), 1e-9)
    side, w, h = np.array([-way[1], way[0]]), ink.mm(1.0), ink.mm(3.0)
    bob = np.array([foot - w * side, foot + w * side, foot + h * way])
    line = ink.line([top, foot], "plain", class_="plumb-line")
    return line + ink.shape([bob], "fine", fill="currentColor", class_="bob")


def water_mark(ink: Ink, at: Point) -> str:
    """Return the mark of a water level: a triangle on its point, and two strokes below."""
    x, y = at
    w, h = ink.mm(1.6), ink.mm(2.4)
    triangle = ink.shape([np.array([[x, y], [x - w, y - h], [x + w, y - h]])], "fine")
    strokes = [
        ink.line([(x - ink.mm(half), y + ink.mm(drop)), (x + ink.mm(half), y + ink.mm(drop))])
        for half, drop in ((1.5, 0.9), (0.8, 1.8))
    ]
    return triangle + "".join(strokes)


def ticked(ink: Ink, one: Point, other: Point, **more: str) -> str:
    """Return a dimension line with a slanting tick at each end."""
    t = ink.mm(0.9)
    ticks = [ink.line([(x - t, y + t), (x + t, y - t)], "plain") for x, y in (one, other)]
    return ink.line([one, other], "fine", "", **more) + "".join(ticks)


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """Words in a row, with a line to what they are about."""

    x: float  # where its line begins [mm]
    y: float  # where its line begins [mm]
    lines: tuple[str, ...]
    name: str = "label"
    has_dot: bool = False  # its line begins with a dot
    size: Size = "small"  # of the first line; the others are small
    path: str = ""  # of the piece that they are about, so that a page finds it

    @property
    def sizes(self) -> tuple[Size, ...]:
        """Return the size of each line."""
        return (self.size, *("small" for _ in self.lines[1:]))


def label_row(
    ink: Ink, labels: list[Label], y: float, room: tuple[float, float], *, above: bool = False
) -> str:
    """Return labels in a row that begins (or, above the boat, ends) at y, none over another.

    Args:
        ink: Pen and lettering.
        labels: What to write.
        y: Of the row's edge that is turned to the boat [mm].
        room: Left and right end of the row [mm].
        above: The row stands above the boat, not below.
    """
    ordered = _apart(sorted(labels, key=lambda label: (label.x, label.y)), ink.mm(ASIDE))
    widths = [
        max(ink.breadth(line, size) for line, size in zip(label.lines, label.sizes, strict=True))
        for label in ordered
    ]
    places = spread([label.x for label in ordered], widths, ink.mm(2.0), room)
    return "".join(
        _label(ink, label, (place, y), above=above)
        for label, place in zip(ordered, places, strict=True)
    )


def _apart(labels: list[Label], least: float) -> list[Label]:
    """Return labels in rising order of x, none of whose lines runs on another's [mm]."""
    found: list[Label] = []
    for label in labels:
        start = max(label.x, found[-1].x + least) if found else label.x
        found.append(replace(label, x=start))
    return found


def _label(ink: Ink, label: Label, at: Point, *, above: bool) -> str:
    """Return one label whose words begin (or end) at a place of its row."""
    x, y = at
    knee = y + ink.mm(LEADER) * (1.0 if above else -1.0)
    line = [(label.x, label.y), (label.x, knee), (x, y)]
    leader = ink.line(line, class_="leader", stroke_opacity="0.6" if label.has_dot else "")
    dot = tag("circle", cx=label.x, cy=label.y, r=ink.mm(0.4), fill="currentColor")
    last = len(label.lines) - 1
    words = [
        ink.words(
            x,
            y
            + (
                ink.mm(LINE) * (i - last) - ink.mm(1.0) if above else ink.mm(LINE) * i + ink.mm(3.2)
            ),
            line,
            size,
            anchor="middle",
        )
        for i, (line, size) in enumerate(zip(label.lines, label.sizes, strict=True))
    ]
    return tag(
        "g", leader, dot if label.has_dot else "", *words, class_=label.name, data_path=label.path
    )


def scale_bar(ink: Ink, at: Point, step: float, count: int, unit: str, each: float) -> str:
    """Return a bar of inked and clear fields with figures.

    Args:
        ink: Pen and lettering.
        at: Its left upper corner [mm].
        step: Length of a field [mm].
        count: How many.
        unit: What the figures are in.
        each: What one field stands for [in that unit].
    """
    x, y = at
    high = ink.mm(1.4)
    fields = [
        ink.shape(
            [box(x + i * step, y, step, high)],
            "fine",
            fill="currentColor" if i % 2 == 0 else "none",
        )
        for i in range(count)
    ]
    figures = [
        ink.words(x + i * step, y + high + ink.mm(3.6), f"{i * each:g}", anchor="middle")
        for i in range(count + 1)
    ]
    name = ink.words(x + count * step + ink.mm(4.0), y + high + ink.mm(0.2), unit)
    return tag("g", *fields, *figures, name, class_="scale-bar")


def box(x: float, y: float, width: float, height: float) -> Floats:
    """Return the corners of a rectangle, shape (4, 2) [mm]."""
    return np.array([[x, y], [x + width, y], [x + width, y + height], [x, y + height]])


def handy(most: float) -> float:
    """Return the largest of 1, 2 or 5 times a power of ten that is not above ``most``.

    >>> handy(37.0), handy(0.21)
    (20.0, 0.2)
    """
    power = 10.0 ** np.floor(np.log10(most))
    return float(next(k * power for k in (5.0, 2.0, 1.0) if k * power <= most * (1 + 1e-9)))
