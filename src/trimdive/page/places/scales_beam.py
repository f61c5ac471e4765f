"""The balance beam: every mass at its place, as large as it is heavy, the middle its pivot."""

from dataclasses import dataclass
from math import sqrt
from typing import TYPE_CHECKING

from trimdive.pictures.drawings.svg import clean, number, tag

if TYPE_CHECKING:
    from collections.abc import Sequence

    from trimdive.assessment import Assessment
    from trimdive.page.places.scales_rows import Row

MM = 1e3
SHARE = 0.10  # side of the box of half of her mass, of her length [-]
GAP = 0.0012  # between boxes, of her length [-]
NAMED = 6  # heaviest boxes that carry their name; the page leaves out one that does not go in [-]
LETTER = 0.0099  # size of letters on paper, of her length [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """One mass on the beam."""

    row: "Row"
    x: float  # of its middle, from the stern [mm]
    y: float  # of its underside above the beam [mm]
    side: float  # [mm]


def boxes(rows: "Sequence[Row]", length: float) -> list[Box]:
    """Return every mass on the beam, the heaviest lowest, none over another.

    Args:
        rows: What weighs.
        length: Of the boat [mm].
    """
    whole = sum(abs(row.mass) for row in rows) or 1.0
    placed: list[Box] = []
    for row in sorted(rows, key=lambda one: -abs(one.mass)):
        side = SHARE * length * sqrt(2 * abs(row.mass) / whole)
        if side <= 0:
            continue
        x = MM * row.place[0]
        placed.append(Box(row=row, x=x, y=_height(placed, x, side, GAP * length), side=side))
    return placed


def _height(placed: "Sequence[Box]", x: float, side: float, gap: float) -> float:
    """Return the lowest place over a spot of the beam at which a box lies on no other [mm]."""
    near = [one for one in placed if abs(one.x - x) < (one.side + side) / 2 + gap]
    for y in sorted([0.0, *(one.y + one.side + gap for one in near)]):
        if all(y >= one.y + one.side or y + side <= one.y for one in near):
            return y
    raise AssertionError("above the highest there is always room")


def beam(her: "Assessment", rows: "Sequence[Row]", picked: str) -> str:
    """Return the balance beam as SVG, on the same scale along as the boat above it."""
    low, high = (MM * float(x) for x in her.hull.envelope.bounds[:, 0]) if her.hull.skins else (
        0.0, MM * her.floater.length,
    )  # fmt: skip
    length, g = high - low, MM * float(her.masses.gravity[0])
    placed = boxes(rows, length)
    top = max((one.y + one.side for one in placed), default=0.0) + 0.02 * length
    foot = 0.075 * length
    named = {one.row.path for one in placed[:NAMED]}
    drawn = [
        *(_box(her, one, named, picked, length) for one in placed),
        tag("path", d=f"M{number(low)},0H{number(high)}", class_="beam"),
        tag(
            "path",
            d=f"M{number(g)},0l{number(0.014 * length)},{number(0.024 * length)}"
            f"h{number(-0.028 * length)}z",
            class_="pivot",
        ),
        *_lever(her, placed, picked, g, length),
    ]
    margin = 0.03 * length
    view = (
        f"{number(low - margin)} {number(-top)} {number(length + 2 * margin)} {number(top + foot)}"
    )
    says = f"Balance beam; it pivots at G, {her.boat.place(g / MM)}"
    return tag("svg", *drawn, class_="balance", viewBox=view, role="img", aria_label=says)


def _box(her: "Assessment", one: Box, named: set[str], picked: str, length: float) -> str:
    row = one.row
    left, up = one.x - one.side / 2, -(one.y + one.side)
    says = f"{row.name}: {her.boat.units.write(row.mass, 'mass')}, {her.boat.place(row.place[0])}"
    more = [" guess"] * row.is_guess + [" held"] * (row.path == picked)
    look = f"weight {row.group}{''.join(more)}"
    parts = [
        tag("title", clean(says)),
        tag("rect", x=left, y=up, width=one.side, height=one.side),
    ]
    if row.path in named:
        parts.append(
            tag("text", clean(row.name), x=one.x, y=up + one.side / 2, text_anchor="middle",
                font_size=number(LETTER * length), dy="0.35em")
        )  # fmt: skip
    return tag("g", *parts, class_=look, data_path=row.path)


def _lever(
    her: "Assessment", placed: "Sequence[Box]", picked: str, g: float, length: float
) -> list[str]:
    """Return the lever of the thing that is picked, from the middle of all to its own."""
    one = next((box for box in placed if box.row.path == picked), None)
    if one is None:
        return []
    y, tick = 0.04 * length, 0.008 * length
    far = her.boat.units.write(abs(one.x - g) / MM, "length")
    way = "forward of" if one.x > g else "aft of"
    says = f"{one.row.name}: {her.boat.units.write(one.row.mass, 'mass')}, {far} {way} G"
    ends = "".join(f"M{number(x)},{number(y - tick)}v{number(2 * tick)}" for x in (g, one.x))
    return [
        tag("path", d=f"M{number(g)},{number(y)}H{number(one.x)}{ends}", class_="lever"),
        tag("text", clean(says), x=(one.x + g) / 2, y=y + 3.2 * tick, text_anchor="middle",
            font_size=number(0.0135 * length), class_="lever-says"),
    ]  # fmt: skip
