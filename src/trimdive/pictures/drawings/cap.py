"""An end cap seen face on: its edge, its holes, the tie rods, with the figures to drill it."""

from math import cos, pi, sin
from typing import TYPE_CHECKING

from trimdive.pictures.drawings.ink import FACE, Ink
from trimdive.pictures.drawings.marks import ticked
from trimdive.pictures.drawings.svg import number, tag
from trimdive.pictures.drawings.view import MM

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.bench import CapBench, CylinderBench

WIDE = 70.0  # of the cap [mm of paper]
RODS = 0.82  # of the bore's radius: where rods are drawn, since the file tells no circle [-]


def cap_drawing(
    her: "Assessment", one: "CylinderBench", end: "CapBench", paper: float = WIDE
) -> str:
    """Return a cap seen from outside, as SVG in millimetres of the boat.

    Holes out of the middle stand where there is room for them all: the file tells how far out they
    are, not which way.

    Args:
        her: The boat.
        one: The cylinder.
        end: Its cap.
        paper: How broad it is drawn: the less, the larger its lettering [mm of paper].
    """
    write = her.boat.units.write
    outer, bore = MM * one.outside / 2, MM * (one.outside / 2 - one.wall)
    ink = Ink(scale=2 * outer / paper)
    spots = _spots(end)
    rods = one.rods
    title = f"{end.name}: {write(end.cap.thickness, 'length')} of {end.material.name}"
    wide = f"⌀ {write(2 * bore / MM, 'length')}"
    drawn = [
        tag("circle", cx=0.0, cy=0.0, r=outer, **ink.pen("bold")),
        tag("circle", cx=0.0, cy=0.0, r=bore, **ink.pen("fine")),
        ink.line([(-outer, 0.0), (outer, 0.0)], "fine", "waterline"),
        ink.line([(0.0, -outer), (0.0, outer)], "fine", "waterline"),
        *(tag("circle", cx=x, cy=y, r=size, **ink.pen("plain")) for x, y, size in spots),
        *(_rod(ink, bore, k, rods) for k in range(rods)),
        ticked(ink, (-bore, outer + ink.mm(6)), (bore, outer + ink.mm(6))),
        ink.words(0.0, outer + ink.mm(11), wide, "small", anchor="middle"),
        *(
            ink.words(-outer, outer + ink.mm(17 + 5 * k), text, "small")
            for k, text in enumerate(_table(her, end))
        ),
        ink.words(-outer, -outer - ink.mm(3), title, "plain"),
    ]
    rows = len(_table(her, end))
    high = -outer - ink.mm(9)
    frame = (-outer - ink.mm(2), high, 2 * outer + ink.mm(24), outer + ink.mm(19 + 5 * rows) - high)
    return tag(
        "svg", *drawn, xmlns="http://www.w3.org/2000/svg", class_="groove cap", role="img",
        aria_label=f"{end.name} seen from outside",
        viewBox=" ".join(number(value) for value in frame), fill="currentColor", font_family=FACE,
    )  # fmt: skip


def _spots(end: "CapBench") -> list[tuple[float, float, float]]:
    """Return middle and radius of every hole [mm]."""
    off = [hole for hole in end.cap.holes if hole.out > 0]
    found = [(0.0, 0.0, MM * hole.across / 2) for hole in end.cap.holes if hole.out == 0]
    for k, hole in enumerate(off):
        turn = pi * (2 * k / max(len(off), 1) + (0.0 if len(off) > 1 else 0.5))
        found.append((MM * hole.out * cos(turn), MM * hole.out * sin(turn), MM * hole.across / 2))
    return found


def _rod(ink: Ink, bore: float, k: int, rods: int) -> str:
    turn = 2 * pi * k / rods - pi / 2
    x, y, t = RODS * bore * cos(turn), RODS * bore * sin(turn), ink.mm(1.2)
    return ink.line([(x - t, y), (x + t, y)], "plain") + ink.line([(x, y - t), (x, y + t)], "plain")


def _table(her: "Assessment", end: "CapBench") -> list[str]:
    """Return what to drill, a line a hole."""
    write = her.boat.units.write
    found = [
        f"hole ⌀ {write(hole.across, 'length')}, "
        + (f"{write(hole.out, 'length')} from the centre" if hole.out else "in the centre")
        for hole in end.cap.holes
    ]
    return found or ["no holes entered"]
