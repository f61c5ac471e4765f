"""The placing card: which pieces go where, on her side view and plan, and a list to cut them by.

She is drawn upright and level, lightly; what is to be done stands out: lead inked, foam in its
hatch, and an arrow from the old place to the new for what is moved. The numbers are those of the
list.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from trimdive.assessment import Assessment
from trimdive.data.cautions import cautions
from trimdive.geometry.lines.mesh import Floats
from trimdive.pictures.drawings.ink import FACE, Ink
from trimdive.pictures.drawings.placing_list import GAP, ROW, Grid, grid, list_rows
from trimdive.pictures.drawings.placing_marks import (
    Balloon,
    Placed,
    balloon_row,
    corners_of,
    piece_ink,
    ruler,
    sign,
)
from trimdive.pictures.drawings.plan import hull_outline, towers
from trimdive.pictures.drawings.sheet import MARGIN, drawing_scale
from trimdive.pictures.drawings.side import Scene, silhouette, thing_ink, vessels, waterline
from trimdive.pictures.drawings.svg import clean, number, tag
from trimdive.pictures.drawings.things import shell, things
from trimdive.pictures.drawings.view import View, views
from trimdive.text.care import LAST_WORD

__all__ = ["Placed", "placing_card"]

UP = np.array([0.0, 0.0, 1.0])
FAINT = "0.4"  # how strongly the boat herself is inked, so that the pieces stand out
SHOWN = ("cylinder", "tank", "part", "lead", "foam")  # what is drawn of what is aboard


@dataclass(frozen=True, slots=True, kw_only=True)
class Card:
    """All that the card is drawn from."""

    scene: Scene
    placed: tuple[Placed, ...]
    side: View
    plan: View
    width: float  # of the sheet [mm]

    @property
    def ink(self) -> Ink:
        """Pen and lettering."""
        return self.scene.ink

    @property
    def room(self) -> tuple[float, float]:
        """Left and right end of rows of numbers [mm]."""
        return self.ink.mm(3.0), self.width - self.ink.mm(3.0)


def placing_card(
    assessed: Assessment, placed: Sequence[Placed], texts: Sequence[Sequence[str]] = ()
) -> str:
    """Return the card as SVG.

    Args:
        assessed: The boat.
        placed: What is placed or moved, in the order of its numbers.
        texts: A table of before and after, in finished words: its head, then a row a figure.
    """
    pieces = tuple(placed)
    boat = assessed.boat
    ink = Ink(scale=drawing_scale(*_size(assessed, pieces)))
    signs = tuple(sign(ink, piece) for piece in pieces)
    rows = Grid(ink=ink, rows=list_rows(boat, pieces), signs=signs, name="list")
    table = Grid(ink=ink, rows=tuple(map(tuple, texts)), signs=(), name="before-after")
    head = f"{boat.name}: what goes where"
    says = summary(assessed, pieces)
    care = [*(one.short for one in cautions("placing card")), LAST_WORD]
    words = max(ink.breadth(head, "large"), *(ink.breadth(one, "plain") for one in (says, *care)))
    widest = max(words, rows.width, table.width) + ink.mm(2 * MARGIN)
    card = _card(assessed, pieces, ink, widest)
    left, y = ink.mm(MARGIN), ink.mm(MARGIN + 7.0)
    top = [
        ink.words(left, y, head, "large", class_="name"),
        ink.words(left, y + ink.mm(8.0), says, "plain", class_="summary"),
    ]
    side_text, y = _side(card, y + ink.mm(18.0))
    plan_text, y = _plan(card, y)
    list_text, y = grid(rows, left, y)
    table_text, y = grid(table, left, y + ink.mm(GAP)) if texts else ("", y)
    drawn = [tag("g", *top, class_="header"), side_text, plan_text, list_text, table_text]
    for text in care:
        y += ink.mm(ROW)
        drawn.append(ink.words(left, y, text, "plain", class_="care"))
    return _svg(card, head, drawn, y + ink.mm(MARGIN))


def _size(assessed: Assessment, placed: tuple[Placed, ...]) -> tuple[float, float]:
    """Return length and height of the side view [mm]."""
    low, high = _span(assessed, placed, views(UP)[0])
    return float(high[0] - low[0]), float(high[1] - low[1])


def _card(assessed: Assessment, placed: tuple[Placed, ...], ink: Ink, widest: float) -> Card:
    """Return all that is drawn from, with the boat in the middle of a sheet at least so wide."""
    side, plan = views(UP)
    low, high = _span(assessed, placed, side)[:, 0]
    width = max(float(high - low) + ink.mm(4 * MARGIN), widest)
    x = (width - float(high + low)) / 2
    aboard = things(assessed)
    return Card(
        scene=Scene(assessed=assessed, state=assessed.surfaced, ink=ink, things=aboard, water=()),
        placed=placed,
        side=side.moved(x, 0.0),
        plan=plan.moved(x, 0.0),
        width=width,
    )


def _svg(card: Card, head: str, drawn: list[str], height: float) -> str:
    """Return the whole sheet, so high [mm]."""
    scale = card.ink.scale
    return tag(
        "svg",
        tag("title", clean(head)),
        card.ink.hatches(),
        *drawn,
        xmlns="http://www.w3.org/2000/svg",
        class_="placing-card",
        role="img",
        width=f"{number(card.width / scale)}mm",
        height=f"{number(height / scale)}mm",
        viewBox=f"0 0 {number(card.width)} {number(height)}",
        fill="currentColor",
        font_family=FACE,
    )


def summary(assessed: Assessment, placed: Sequence[Placed]) -> str:
    """Return how much there is to do, in one sentence."""
    write = assessed.boat.units.write
    found = []
    for kind in ("lead", "foam"):
        group = [piece for piece in placed if piece.kind == kind]
        if group:
            much = (
                write(sum(piece.mass for piece in group), "mass")
                if kind == "lead"
                else write(sum(piece.volume for piece in group), "volume")
            )
            found.append(f"{len(group)} piece{'s' if len(group) > 1 else ''} of {kind}, {much}")
    out = sum(piece.kind == "out" for piece in placed)
    if out:
        found.append(f"{out} piece{'s' if out > 1 else ''} to take out")
    moved = sum(piece.kind == "moved" for piece in placed)
    if moved:
        found.append(f"{moved} thing{'s' if moved > 1 else ''} to move")
    return f"{'; '.join(found)}." if found else "Nothing to place and nothing to move."


def _span(assessed: Assessment, placed: tuple[Placed, ...], view: View) -> Floats:
    """Return left and top, right and bottom of boat and pieces in a view, shape (2, 2) [mm]."""
    points = [view.on(shell(assessed).vertices)]
    points += [view.on(mesh.vertices) for thing in things(assessed) for mesh in thing.meshes]
    points += [corners_of(piece, view, at) for piece in placed for at in piece.places]
    every = np.vstack(points)
    return np.array([every.min(axis=0), every.max(axis=0)])


def _faint(card: Card, view: View) -> list[str]:
    """Return what is aboard, in outline."""
    shown = [thing for thing in card.scene.things if thing.look in SHOWN and thing.meshes]
    return [
        vessels(card.scene, view),
        *(thing_ink(card.scene, thing, view, "0") for thing in shown),
    ]


def _side(card: Card, y: float) -> tuple[str, float]:
    """Return the side view with its ruler and numbers, and where it ends [mm]."""
    ink, scene = card.ink, card.scene
    low, high = _span(scene.assessed, card.placed, card.side)
    view = card.side.moved(card.side.x, y - float(low[1]))
    y += float(high[1] - low[1]) + ink.mm(6.0)
    boat = scene.assessed.boat
    line, end = ruler(ink, scene.assessed, view, y)
    spots = [
        Balloon(
            numbers=tuple(numbers),
            at=at,
            foot=y,
            text=boat.units.write(boat.along(card.placed[numbers[0] - 1].x), "length"),
        )
        for at, numbers in covering(card.placed, view).items()
    ]
    faint = [silhouette(scene, view), *_faint(card, view), waterline(scene, view)]
    drawn = tag(
        "g",
        tag("g", *faint, opacity=FAINT, class_="boat"),
        line,
        balloon_row(ink, spots, end, card.room, above=False),
        *(piece_ink(ink, k, piece, view) for k, piece in enumerate(card.placed, 1)),
        class_="side-view",
    )
    return drawn, end + ink.mm(24.0)


def covering(placed: Sequence[Placed], view: View) -> dict[tuple[float, float], list[int]]:
    """Return the numbers of pieces by their middle in a view, to 0.1 mm [mm]."""
    found: dict[tuple[float, float], list[int]] = {}
    for k, piece in enumerate(placed, 1):
        x, y = view.at(piece.middle)
        found.setdefault((round(x, 1), round(y, 1)), []).append(k)
    return found


def _plan(card: Card, y: float) -> tuple[str, float]:
    """Return the plan with its numbers, port above and the others below, and its end [mm]."""
    ink, scene = card.ink, card.scene
    low, high = _span(scene.assessed, card.placed, card.plan)
    y += ink.mm(12.0)
    view = card.plan.moved(card.plan.x, y - float(low[1]))
    foot = y + float(high[1] - low[1])
    port, other = list[Balloon](), list[Balloon]()
    for k, piece in enumerate(card.placed, 1):
        is_port = piece.y > 0
        edge = y if is_port else foot
        spot = Balloon(numbers=(k,), at=view.at(piece.middle), foot=edge, text="")
        (port if is_port else other).append(spot)
    faint = [hull_outline(scene, view), towers(scene, view), *_faint(card, view)]
    drawn = tag(
        "g",
        tag("g", *faint, opacity=FAINT, class_="boat"),
        balloon_row(ink, port, y, card.room, above=True),
        balloon_row(ink, other, foot, card.room, above=False),
        *(piece_ink(ink, k, piece, view) for k, piece in enumerate(card.placed, 1)),
        class_="plan",
    )
    return drawn, foot + ink.mm(14.0 + ROW)
