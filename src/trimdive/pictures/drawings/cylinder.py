"""One cylinder opened lengthwise, true to scale: walls and caps cut, what is inside, a ruler below.

Every part that can give way carries its name as ``data-part``, so that a page can mark it.
"""

from typing import TYPE_CHECKING

import numpy as np

from trimdive.pictures.drawings.ink import FACE, Ink
from trimdive.pictures.drawings.marks import box, ticked
from trimdive.pictures.drawings.svg import clean, number, tag
from trimdive.pictures.drawings.things import things
from trimdive.pictures.drawings.view import MM
from trimdive.text.said import said
from trimdive.text.say import Say

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.bench import CapBench, CylinderBench
    from trimdive.pictures.drawings.things import Thing

PAPER = 250.0  # width of the drawing [mm of paper]
SIDE = 16.0  # room left and right [mm of paper]
ROW = 6.5  # between dimension lines [mm of paper]
ARM = 1.4  # of a cross [mm of paper]
CROSS = 2.6  # from the middle of a cross up to its name [mm of paper]
APART = 1.6  # between one name and the next on a line, to either side [mm of paper]
SHIFTS = (
    0.0,
    0.7,
    -0.7,
    1.0,
    -1.0,
    1.5,
    -1.5,
    2.0,
    -2.0,
)  # of a name, in halves of its breadth [-]
ROWS = 3.9  # between lines of lettering [mm of paper]


def cylinder_drawing(her: "Assessment", one: "CylinderBench", paper: float = PAPER) -> str:
    """Return a cylinder cut open along its axis, as SVG in millimetres of the boat.

    Args:
        her: The boat.
        one: The cylinder.
        paper: Width of the drawing: the less, the larger its lettering [mm of paper].
    """
    length, outside = MM * one.length, MM * one.outside
    ink = Ink(scale=length / (paper - 2 * SIDE))
    foot = _below(her, ink, one)
    inside, names = _inside(her, ink, one)
    drawn = [
        ink.hatches(),
        *inside,
        *_walls(ink, one),
        *(_cap(ink, one, end, k) for k, end in enumerate(one.caps)),
        *_rods(her, ink, one),
        *names,
        foot[0],
    ]
    top, side = outside / 2 + ink.mm(ROW), ink.mm(SIDE)
    box_of = (-side, -top, length + 2 * side, top + foot[1])
    says = f"{one.name} opened lengthwise, {her.boat.units.write(one.length, 'length')} long"
    return tag(
        "svg", *drawn, xmlns="http://www.w3.org/2000/svg", class_="opened", role="img",
        aria_label=says, viewBox=" ".join(number(value) for value in box_of),
        fill="currentColor", font_family=FACE,
    )  # fmt: skip


def _walls(ink: Ink, one: "CylinderBench") -> list[str]:
    """Return the wall above and below the bore, cut; they carry the names of both ways to fail."""
    length, out, wall = MM * one.length, MM * one.outside / 2, MM * one.wall
    found: list[str] = []
    for up in (-out, out - wall):
        loop = [box(0.0, up, length, wall)]
        cut = ink.shape(loop, "plain", fill="currentColor", fill_opacity="0.55")
        found.append(tag("g", tag("title", "wall"), cut, class_="cut", data_part="wall"))
    axis = ink.line([(-ink.mm(4), 0.0), (length + ink.mm(4), 0.0)], "fine", "waterline")
    return [*found, axis]


def _cap(ink: Ink, one: "CylinderBench", end: "CapBench", number_of: int) -> str:
    """Return a cap in its end, its holes left open and its rings as dots."""
    length, bore, thick = MM * one.length, MM * (one.outside - 2 * one.wall), MM * end.cap.thickness
    left = 0.0 if number_of == 0 else length - thick
    loop = [box(left, -bore / 2, thick, bore)]
    parts = [ink.hatched(loop, "above"), ink.shape(loop, "plain")]
    for hole in end.cap.holes:
        across, at = MM * hole.across, MM * hole.out
        parts.append(
            tag("rect", x=left, y=-at - across / 2, width=thick, height=across,
                class_="hole", fill="none", stroke="currentColor",
                stroke_width=number(ink.mm(0.16)))
        )  # fmt: skip
    for k, ring in enumerate(end.rings):
        section = MM * ring.ring.section
        inward = left + thick * (0.5 if len(end.rings) == 1 else (k + 1) / (len(end.rings) + 1))
        parts += [
            tag("circle", cx=inward, cy=side * (bore / 2 - section / 2 + 0.3), r=section / 2,
                class_=f"ring{' amiss' if ring.faults else ''}", fill="currentColor")
            for side in (-1.0, 1.0)
        ]  # fmt: skip
    label = "; ".join([end.name, f"{thick:g} mm of {end.material.name}"])
    return tag("g", tag("title", clean(label)), *parts, class_="cut", data_part=end.cap.name)


def _rods(her: "Assessment", ink: Ink, one: "CylinderBench") -> list[str]:
    """Return the tie rods, drawn once above and below the middle."""
    if not one.rods:
        return []
    length, at = MM * one.length, MM * (one.outside / 2 - one.wall) * 0.82
    return [
        tag(
            "g",
            tag("title", clean(said(Say(her.boat), one.closing))),
            *(ink.line([(-ink.mm(2), y), (length + ink.mm(2), y)], "plain") for y in (-at, at)),
            class_="rods",
        )
    ]


def _inside(her: "Assessment", ink: Ink, one: "CylinderBench") -> tuple[list[str], list[str]]:
    """Return what lies inside, tanks with their water, parts by boxes or places; and the names."""
    boat = her.boat
    home = next(vessel for vessel in boat.cylinders if vessel.name == one.name)
    start = np.array([home.x - home.length / 2, 0.0, home.z])
    lies = {f"tank[{k}]": tank.inside for k, tank in enumerate(boat.tanks, 1)}
    lies |= {f"part[{k}]": part.inside for k, part in enumerate(boat.parts, 1)}
    own = [thing for thing in things(her) if lies.get(thing.path) == one.name]
    own.sort(key=lambda thing: float(thing.place[0]))
    drawn = [_thing(ink, thing, MM * start) for thing in own]
    spots = [_spot(ink, thing, MM * start) for thing in own]
    crosses = [(x, y + ink.mm(CROSS)) for (x, y), thing in zip(spots, own, strict=True)
               if not thing.meshes]  # fmt: skip
    room = (MM * one.length, MM * (one.outside / 2 - one.wall))
    return drawn, _names(ink, [thing.name for thing in own], spots, crosses, room)


def _thing(ink: Ink, thing: "Thing", start: np.ndarray) -> str:
    """Return one thing by the box round it, or by a cross where it has no shape."""
    title = tag("title", clean(thing.title))
    if not thing.meshes:
        x, y = (float(one) for one in (MM * thing.place - start)[[0, 2]])
        t = ink.mm(ARM)
        cross = "".join(
            ink.line([(x - t, -y - s * t), (x + t, -y + s * t)], "plain") for s in (1, -1)
        )
        return tag("g", title, cross, class_="within", data_path=thing.path)
    low, high = (MM * np.asarray(end) - start for end in thing.meshes[0].bounds)
    loop = [box(float(low[0]), -float(high[2]), float(high[0] - low[0]), float(high[2] - low[2]))]
    fill = ink.hatched(loop, "water") if thing.look == "tank" else ""
    edge = ink.shape(loop, "fine", dash="guess" if thing.is_guess else "")
    return tag("g", title, fill, edge, class_="within", data_path=thing.path)


def _spot(ink: Ink, thing: "Thing", start: np.ndarray) -> tuple[float, float]:
    """Return where a name would best stand: in the top of a box, above a cross [mm]."""
    if not thing.meshes:
        x, y = (float(one) for one in (MM * thing.place - start)[[0, 2]])
        return x, -y - ink.mm(CROSS)
    low, high = (MM * np.asarray(end) - start for end in thing.meshes[0].bounds)
    return float(low[0] + high[0]) / 2, -float(high[2]) + ink.mm(4.0)


def _names(
    ink: Ink,
    names: list[str],
    spots: list[tuple[float, float]],
    crosses: list[tuple[float, float]],
    room: tuple[float, float],
) -> list[str]:
    """Return names where they best stand, none over another and none outside the bore.

    Args:
        ink: Pen and lettering.
        names: What to write.
        spots: Where each would best stand: the middle of its base line [mm].
        crosses: Middle of each cross, which no name may cover [mm].
        room: Length of the cylinder and half its bore [mm].
    """
    (length, half), step, found = room, ink.mm(ROWS), list[str]()
    rows = np.arange(-half + step, half, step)
    t, apart = ink.mm(ARM), ink.mm(APART)
    taken = [(x - t, x + t, y + t) for x, y in crosses]  # left, right, base line
    for name, (x, y) in zip(names, spots, strict=True):
        wide = ink.breadth(name) / 2
        ends = min(wide, length / 2), max(length - wide, length / 2)
        ways = [
            (float(np.clip(x + shift * wide, *ends)), row)
            for row in [y, *sorted(rows.tolist(), key=lambda row: abs(row - y))]
            for shift in SHIFTS
        ]
        middle, base = min(ways, key=lambda way, wide=wide: _over(way, wide, taken, step))
        taken.append((middle - wide - apart, middle + wide + apart, base))
        found.append(ink.words(middle, base, name, "small", anchor="middle"))
    return found


def _over(
    way: tuple[float, float],
    wide: float,
    taken: list[tuple[float, float, float]],
    step: float,
) -> float:
    """Return how much of what is taken a name would cover [mm].

    Args:
        way: Middle of its base line [mm].
        wide: Half its breadth [mm].
        taken: Left, right and base line of each thing that is there [mm].
        step: Between lines of lettering [mm].
    """
    middle, base = way
    return sum(
        max(min(right, middle + wide) - max(left, middle - wide), 0.0)
        for left, right, at in taken
        if abs(base - at) < step
    )


def _below(her: "Assessment", ink: Ink, one: "CylinderBench") -> tuple[str, float]:
    """Return the ruler and the dimension lines under the cylinder, and how far down they reach."""
    length, out = MM * one.length, MM * one.outside / 2
    write = her.boat.units.write
    y = out + ink.mm(ROW)
    step = 10.0 if length <= 400 else 20.0
    ticks = [
        ink.line([(k * step, y), (k * step, y + ink.mm(2.4 if k % 5 == 0 else 1.2))], "fine")
        for k in range(int(length / step) + 1)
    ]
    numbers = [
        ink.words(k * step, y + ink.mm(6.0), f"{k * step:g}", "small", anchor="middle")
        for k in range(0, int(length / step) + 1, 5)
    ]
    numbers.append(ink.words(-ink.mm(3.0), y + ink.mm(1.0), "aft", "small", anchor="end"))
    numbers.append(ink.words(length + ink.mm(3.0), y + ink.mm(1.0), "mm", "small"))
    ruler = tag("g", ink.line([(0.0, y), (length, y)], "plain"), *ticks, *numbers, class_="ruler")
    first, last = (MM * end.cap.thickness for end in one.caps)
    low = y + ink.mm(2 * ROW)
    dims = [
        _dimension(
            ink, (first, length - last), low, f"{write(one.between, 'length')} between caps"
        ),
        _dimension(ink, (0.0, length), low + ink.mm(ROW + 2), write(one.length, "length")),
    ]
    across = f"⌀ {write(one.outside, 'length')}, wall {write(one.wall, 'length')}"
    label = ink.words(0.0, -out - ink.mm(2.0), f"{across}, {one.material}", "small")
    return "".join([ruler, *dims, label]), low + ink.mm(2 * ROW + 4)


def _dimension(ink: Ink, ends: tuple[float, float], y: float, words: str) -> str:
    line = ticked(ink, (ends[0], y), (ends[1], y))
    middle = sum(ends) / 2
    return line + ink.words(middle, y - ink.mm(1.2), words, "small", anchor="middle")
