"""The groove of a ring with every figure to cut it: seen where the ring lies, much enlarged."""

from typing import TYPE_CHECKING

from trimdive.pictures.drawings.ink import FACE, Ink
from trimdive.pictures.drawings.marks import box, ticked
from trimdive.pictures.drawings.svg import number, tag
from trimdive.pictures.drawings.view import MM

if TYPE_CHECKING:
    from trimdive.boatfile import Boat
    from trimdive.vessels.seals import Seal

WIDE = 70.0  # of the drawing [mm of paper]
FACES = {
    "plug": ("bore of the tube", "plug of the cap"),
    "sleeve": ("outside of the tube", "inside of the cap"),
    "face": ("closing face", "face of the cap"),
}


def groove_drawing(boat: "Boat", seal: "Seal", title: str, *, has_shares: bool = True) -> str:
    """Return a groove with its ring, cut across the ring, as SVG.

    Args:
        boat: For its units.
        seal: The ring in its groove.
        title: What stands over it.
        has_shares: Write squeeze, stretch and fill under it too.
    """
    width, deep = MM * seal.width, MM * seal.cut
    room = MM * (seal.gland.depth_least + seal.gland.depth_most) / 2
    gap = max(room - deep, 0.0)
    ink = Ink(scale=4.2 * width / WIDE)
    side, thick = 1.1 * width, 0.7 * room
    left, right = -side, width + side
    write = boat.units.write
    plug = f"M{number(left)},0H0V{number(deep)}H{number(width)}V0H{number(right)}"
    plug += f"V{number(deep + thick)}H{number(left)}Z"
    faced, own = FACES[seal.place]
    pen = ink.pen("plain")
    top = -gap - thick
    under = (_seal_text(seal), _lead(boat, seal)) if has_shares else (_lead(boat, seal),)
    drawn = [
        ink.hatches(),
        tag("path", d=plug, **{**pen, "fill": f"url(#{ink.name('above')})"}),
        ink.shape([box(left, top, right - left, thick)], "plain", fill="currentColor",
                  fill_opacity="0.2"),
        tag("ellipse", cx=width / 2, cy=(deep - gap) / 2, rx=_flattened(seal, room), ry=room / 2,
            **{**pen, "fill": "currentColor", "fill_opacity": "0.35"}),
        *_dimensions(boat, ink, (width, deep, gap), (left, right, thick)),
        ink.words(left, top - ink.mm(7.5), title, "plain"),
        ink.words(left, top - ink.mm(2.0), faced, "small"),
        ink.words(left, deep + thick + ink.mm(5.0), own, "small"),
        *_lines(ink, under, (left, deep + thick + ink.mm(16.0))),
    ]  # fmt: skip
    high = top - ink.mm(14.0)
    foot = deep + thick + ink.mm(15.0 + 5.0 * len(under))
    frame = (left - ink.mm(2), high, right - left + ink.mm(52), foot - high)
    says = f"{title}: {write(seal.cut, 'length', 2)} deep, {write(seal.width, 'length', 2)} wide"
    return tag(
        "svg", *drawn, xmlns="http://www.w3.org/2000/svg", class_="groove", role="img",
        aria_label=says, viewBox=" ".join(number(value) for value in frame), fill="currentColor",
        font_family=FACE,
    )  # fmt: skip


def _lines(ink: Ink, lines: tuple[str, ...], at: tuple[float, float]) -> list[str]:
    """Return lines of lettering, one under another."""
    return [ink.words(at[0], at[1] + ink.mm(5.0 * k), text) for k, text in enumerate(lines)]


def _flattened(seal: "Seal", room: float) -> float:
    """Return half the breadth of a pressed ring whose section keeps its area [mm]."""
    section = MM * seal.ring.section
    return section**2 / (2 * room)


def _dimensions(
    boat: "Boat",
    ink: Ink,
    groove: tuple[float, float, float],
    frame: tuple[float, float, float],
) -> list[str]:
    """Return width and depth of the groove, and the gap, with their figures."""
    (width, deep, gap), (_, right, thick) = groove, frame
    write = boat.units.write
    below, beside = deep + thick + ink.mm(9.5), right + ink.mm(2.5)
    return [
        ticked(ink, (0.0, below), (width, below)),
        ink.words(
            width + ink.mm(2.0), below + ink.mm(1.0), write(width / MM, "length", 2), "small"
        ),
        ticked(ink, (beside, 0.0), (beside, deep)),
        ink.words(
            beside + ink.mm(1.5), deep / 2 + ink.mm(1.0), write(deep / MM, "length", 2), "small"
        ),
        ink.words(beside + ink.mm(1.5), -gap, f"gap {write(gap / MM, 'length', 2)}", "small"),
    ]


def _seal_text(seal: "Seal") -> str:
    return (
        f"squeeze {100 * seal.squeeze.usual:.0f} %, stretch {100 * seal.stretch.usual:.1f} %, "
        f"fill {100 * seal.fill.most:.0f} % at most"
    )


def _lead(boat: "Boat", seal: "Seal") -> str:
    write = boat.units.write
    if seal.place == "face":
        return f"groove centre ⌀ {write(seal.faced, 'length', 2)}"
    start = f"groove bottom ⌀ {write(seal.bottom, 'length', 2)}"
    return f"{start}; lead-in {write(seal.chamfer, 'length', 1)} long at 20°"
