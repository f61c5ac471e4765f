"""Full-size shapes as files: SVG and DXF in true size, a PDF on sheets to be glued together."""

import io
from collections.abc import Sequence
from math import ceil

import numpy as np

from trimdive.geometry.lines.mesh import Floats
from trimdive.patterns.sections import Pattern
from trimdive.pictures.drawings.svg import clean, number, tag, way, ways
from trimdive.records import record
from trimdive.sheets.setting import compiled, printable
from trimdive.text.pattern_words import MARKS, SHEET, note, title
from trimdive.text.patterns_asked import Paper
from trimdive.text.say import Say

PAPERS: dict[Paper, tuple[str, float, float]] = {  # as the typesetter calls it; size [mm]
    "a4": ("a4", 210.0, 297.0),
    "a3": ("a3", 297.0, 420.0),
    "letter": ("us-letter", 215.9, 279.4),
}
LEFT, RIGHT, TOP, BOTTOM = 12.0, 8.0, 10.0, 22.0  # of a sheet, beside the shape [mm]
OVERLAP = 10.0  # of two sheets that are glued together [mm]
EDGE = 4.0  # clear room round a shape [mm]
MM = 1e3
DASHES = {"centre line": "8 2 1 2", "waterline": "6 2"}
CUT, FINE = 0.25, 0.18  # breadth of a line to cut along, and of a mark [mm]


@record
class Shape:
    """A shape in its true size, with the words that go on its sheets."""

    pattern: Pattern
    title: str
    note: str


def shape_of(say: Say, one: Pattern) -> Shape:
    """Return a pattern with its words."""
    return Shape(pattern=one, title=title(say, one), note=note(say, one))


@record
class Stretch:
    """How long the printer makes 100 mm: measured on a sheet, and taken out."""

    along: float = 1.0  # across the sheet, printed over true [-]
    up: float = 1.0  # up the sheet, printed over true [-]


def svg(shape: Shape) -> str:
    """Return a shape as SVG in its true size."""
    low, high = MM * shape.pattern.bounds + np.array([[-EDGE, -EDGE], [EDGE, EDGE]])
    wide, tall = (high - low).tolist()

    def flat(line: Floats) -> Floats:
        return (MM * line) * np.array([1.0, -1.0]) + np.array([-low[0], high[1]])

    marks: list[str] = []
    for mark in shape.pattern.marks:
        line = flat(mark.line)
        marks.append(
            tag("path", d=way(line, closed=False), fill="none", stroke="#555",
                stroke_width=FINE, stroke_dasharray=DASHES[mark.kind])
        )  # fmt: skip
        x, y = (line[0] + np.array([1.0, -1.0])).tolist()
        marks.append(_label(MARKS[mark.kind], x, y if mark.kind == "waterline" else y - 2.0))
    return tag(
        "svg",
        tag("title", clean(shape.title)),
        tag("path", d=ways([flat(one) for one in shape.pattern.cuts]), fill="none",
            stroke="#000", stroke_width=CUT, stroke_linejoin="round"),
        *marks,
        xmlns="http://www.w3.org/2000/svg",
        width=f"{number(wide)}mm",
        height=f"{number(tall)}mm",
        viewBox=f"0 0 {number(wide)} {number(tall)}",
        font_family="DejaVu Sans",
    )  # fmt: skip


def _label(words: str, x: float, y: float) -> str:
    return tag("text", clean(printable(words)), x=x, y=y, font_size=2.6, fill="#555")


def dxf(shapes: Sequence[Shape]) -> str:
    """Return shapes as DXF in millimetres, side by side, each closed line on the layer CUT."""
    from ezdxf import units  # slow to load, and only used here
    from ezdxf.filemanagement import new

    drawing = new("R2010", units=units.MM)
    for name, colour in (("CUT", 7), ("MARK", 5), ("TEXT", 8)):
        drawing.layers.add(name, color=colour)
    space, right = drawing.modelspace(), 0.0
    for shape in shapes:
        low, high = MM * shape.pattern.bounds
        shift = np.array([right - low[0], -low[1]])
        for line in shape.pattern.cuts:
            space.add_lwpolyline(
                (MM * line + shift).tolist(), close=True, dxfattribs={"layer": "CUT"}
            )
        for mark in shape.pattern.marks:
            points = (MM * mark.line + shift).tolist()
            space.add_lwpolyline(points, dxfattribs={"layer": "MARK"})
        text = space.add_text(shape.title, height=3.0, dxfattribs={"layer": "TEXT"})
        text.set_placement((right, float(high[1] - low[1]) + 3.0))
        right += float(high[0] - low[0]) + 10.0
    held = io.StringIO()
    drawing.write(held)
    return held.getvalue()


def pdf(
    shapes: Sequence[Shape],
    title: str,
    measure: str,
    paper: Paper = "a4",
    stretch: Stretch | None = None,
) -> bytes:
    """Return shapes in true size as a tagged PDF, on as many sheets as each takes.

    Args:
        shapes: What to print.
        title: Of the whole.
        measure: What stands beside the ruler.
        paper: Size of the sheets.
        stretch: What the printer does to lengths.
    """
    pull = stretch or Stretch()
    data = {
        "title": title,
        "paper": PAPERS[paper][0],
        "left": LEFT,
        "top": TOP,
        "along": 1.0 / pull.along,
        "up": 1.0 / pull.up,
        "measure": measure,
        "shapes": [_sheets(one, paper, pull) for one in shapes],
    }
    return _at_actual_size(compiled("tiled.typ", data))


def _sheets(shape: Shape, paper: Paper, pull: Stretch) -> dict[str, object]:
    """Return a shape with the sheets that it takes, upright or across, for the template."""
    low, high = MM * shape.pattern.bounds
    size = ((high - low) + 2 * EDGE) / np.array([pull.along, pull.up])
    found = [_laid(size, paper, flipped=flipped) for flipped in (False, True)]
    flipped = found[1][0] * found[1][1] < found[0][0] * found[0][1]
    columns, rows, room = found[flipped]
    tiles: list[dict[str, object]] = [
        {
            "x": column * (room[0] - OVERLAP),
            "y": row * (room[1] - OVERLAP),
            "row": row,
            "column": column,
            "crosses": _crosses((column, row), (columns, rows), room),
            "says": SHEET.format(number=row * columns + column + 1, count=rows * columns),
        }
        for row in range(rows)
        for column in range(columns)
    ]
    return {
        "title": printable(shape.title),
        "note": shape.note,
        "alt": shape.title,
        "svg": svg(shape),
        "wide": float(size[0]),
        "high": float(size[1]),
        "flipped": bool(flipped),
        "room": room,
        "rows": rows,
        "columns": columns,
        "tiles": tiles,
    }


def _laid(size: Floats, paper: Paper, *, flipped: bool) -> tuple[int, int, tuple[float, float]]:
    """Return how many sheets a size takes along and up, and the room on each [mm]."""
    _, wide, high = PAPERS[paper]
    if flipped:
        wide, high = high, wide
    room = wide - LEFT - RIGHT, high - TOP - BOTTOM
    return _count(float(size[0]), room[0]), _count(float(size[1]), room[1]), room


def _crosses(
    at: tuple[int, int], count: tuple[int, int], room: tuple[float, float]
) -> list[tuple[float, float]]:
    """Return where crosses stand on a sheet, two on each seam, by which it meets the next [mm].

    >>> _crosses((0, 0), (2, 1), (190.0, 200.0))
    [(185.0, 50.0), (185.0, 150.0)]
    """
    found: list[tuple[float, float]] = []
    for axis in (0, 1):
        seams = [OVERLAP / 2] if at[axis] else []
        seams += [room[axis] - OVERLAP / 2] if at[axis] < count[axis] - 1 else []
        for seam in seams:
            for share in (0.25, 0.75):
                other = share * room[1 - axis]
                found.append((seam, other) if axis == 0 else (other, seam))
    return found


def _count(long: float, have: float) -> int:
    """Return how many sheets a length takes, each over the next by the overlap.

    >>> _count(180.0, 190.0), _count(195.0, 190.0), _count(370.0, 190.0)
    (1, 2, 2)
    """
    return max(ceil((long - OVERLAP) / (have - OVERLAP) - 1e-9), 1)


def _at_actual_size(data: bytes) -> bytes:
    """Return a PDF that asks to be printed as large as it is, not fitted to the paper."""
    import pikepdf  # slow to load, and only used here

    with pikepdf.open(io.BytesIO(data)) as document:
        preferences = pikepdf.Dictionary(PrintScaling=pikepdf.Name("/None"), DisplayDocTitle=True)
        document.Root.ViewerPreferences = preferences
        held = io.BytesIO()
        document.save(held, deterministic_id=True)
        return held.getvalue()
