"""The list of the placing card, and its table of before and after."""

from collections.abc import Sequence
from dataclasses import dataclass

from trimdive.boatfile import Boat
from trimdive.pictures.drawings.ink import Ink
from trimdive.pictures.drawings.placing_marks import Placed
from trimdive.pictures.drawings.svg import number, tag

ROW = 8.0  # height of a row [mm of paper]
GAP = 7.0  # between columns, and between tables [mm of paper]
SIGN = 14.0  # breadth of the marks before the rows [mm of paper]

CUT = ("lead", "foam")  # kinds of piece that are cut
NOT_CUT = "–"


@dataclass(frozen=True, slots=True, kw_only=True)
class Grid:
    """A table: its head, then its rows, each with as many cells; perhaps a mark before each row."""

    ink: Ink
    rows: tuple[tuple[str, ...], ...]
    signs: tuple[str, ...]  # marks about the origin, one a row below the head; or none
    name: str

    @property
    def columns(self) -> list[float]:
        """Return the breadth of each column [mm]."""
        if not self.rows:
            return []
        head, *rest = self.rows
        return [
            max(
                self.ink.breadth(head[k]),
                *(self.ink.breadth(row[k], "plain") for row in rest),
                0.0,
            )
            for k in range(len(head))
        ]

    @property
    def start(self) -> float:
        """Return the room that the marks take before the first column [mm]."""
        return self.ink.mm(SIGN) if self.signs else 0.0

    @property
    def width(self) -> float:
        """Return the breadth of it all [mm]."""
        columns = self.columns
        return self.start + sum(columns) + self.ink.mm(GAP) * max(len(columns) - 1, 0)


def grid(table: Grid, x: float, y: float) -> tuple[str, float]:
    """Return a table drawn from a left upper corner [mm], and where it ends [mm]."""
    ink, columns = table.ink, table.columns
    found = list[str]()
    for i, row in enumerate(table.rows):
        base = y + ink.mm(ROW) * (i + 0.7)
        left = x + table.start
        if i and table.signs:
            place = f"translate({number(x + ink.mm(4.5))} {number(base - ink.mm(1.5))})"
            found.append(tag("g", table.signs[i - 1], transform=place, class_="sign"))
        for text, wide in zip(row, columns, strict=True):
            found.append(ink.words(left, base, text, "plain" if i else "small") if text else "")
            left += wide + ink.mm(GAP)
        under = y + ink.mm(ROW) * (i + 1)
        weight = "fine" if i else "plain"
        found.append(ink.line([(x, under), (x + table.width, under)], weight, class_="rule"))
    return tag("g", *found, class_=table.name), y + ink.mm(ROW) * len(table.rows)


def list_rows(boat: Boat, placed: Sequence[Placed]) -> tuple[tuple[str, ...], ...]:
    """Return head and rows of the list: what to cut and where it goes, in the boat's units."""
    end = f"from the {boat.entered_from}"
    head = (
        "",
        "what",
        "mass",
        "cut: length × breadth × height",
        f"its centre, {end}",
        f"its ends, {end}",
        "centre above keel",
        "side",
    )
    return (head, *(_row(boat, k, piece) for k, piece in enumerate(placed, 1)))


def _row(boat: Boat, k: int, piece: Placed) -> tuple[str, ...]:
    write = boat.units.write
    mass = write(piece.mass, "mass") if piece.mass > 0 else NOT_CUT
    if piece.kind == "foam":
        mass = f"{mass}, {write(piece.volume, 'volume')}"
    mass += f" ({piece.note})" if piece.note else ""
    ends = sorted(boat.along(piece.x + s * piece.size[0] / 2) for s in (-1, 1))
    is_sized = min(piece.size) > 0
    return (
        f"{k}",
        what(boat, piece),
        mass,
        joined(boat, piece.size, " × ") if is_sized and piece.kind in CUT else NOT_CUT,
        write(boat.along(piece.x), "length"),
        joined(boat, ends, " to ") if is_sized else NOT_CUT,
        write(piece.z, "length"),
        f"{side(boat, abs(piece.y))} and starboard" if piece.pair else side(boat, piece.y),
    )


def what(boat: Boat, piece: Placed) -> str:
    """Return what a piece is; of what is moved, how far and which way."""
    if piece.kind == "out":
        return f"remove {piece.name}"
    if piece.moved_from is None:
        known = piece.kind in piece.name.casefold()
        return piece.name if known else f"{piece.kind}, {piece.name}"
    steps = []
    ways = (("forward", "aft"), ("to port", "to starboard"), ("up", "down"))
    places = zip((piece.x, piece.y, piece.z), piece.moved_from, ways, strict=True)
    for now, before, (more, less) in places:
        far = boat.units.write(abs(now - before), "length")
        if is_some(far):
            steps.append(f"{far} {more if now > before else less}")
    return f"{piece.name}: {', '.join(steps) or 'stays'}"


def side(boat: Boat, y: float) -> str:
    """Return how far a place [m] lies to port or starboard."""
    far = boat.units.write(abs(y), "length")
    return f"{far} to {'port' if y > 0 else 'starboard'}" if is_some(far) else "middle"


def is_some(text: str) -> bool:
    """Return whether a figure, as written, is not nothing."""
    return any(figure in text for figure in "123456789")


def joined(boat: Boat, lengths: Sequence[float], between: str) -> str:
    """Return lengths [m] as one text with the unit at its end."""
    texts = [boat.units.write(length, "length") for length in lengths]
    unit = f" {boat.units.shown('length')}"
    return between.join([*(text.removesuffix(unit) for text in texts[:-1]), texts[-1]])
