"""``marks``: holes, plate lines and figures of the draught on the skin, as text and JSON."""

from collections.abc import Callable, Iterator
from math import isnan
from typing import TYPE_CHECKING

from trimdive.text import words
from trimdive.text.documents import common
from trimdive.text.layout import Block, Cells, Document, heading, line, table
from trimdive.text.say import Say

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.geometry.solids.onskin import Spot
    from trimdive.marking.found import Figures, Holes, Lines, Marks

METRIC = ("mm", "cm", "m")
NONE = "–"  # where a figure does not apply
NOTHING = (
    "Nothing is marked on her skin: enter a hole, a plate line or a draught mark, in model size or "
    'as "1.2 m full size".'
)


def marks_text(her: "Assessment", *, every: bool = False) -> Iterator[Block]:
    """Yield what ``marks`` prints.

    Args:
        her: The boat.
        every: Whether every hole and figure is told, not only the first and the last of a row.
    """
    found, say = her.marked, Say(her.boat)
    yield line(words.title(her))
    if not (found.holes or found.lines or found.figures):
        yield line(NOTHING)
        return
    if found.holes:
        yield heading("Holes")
        yield table(
            _head(say, "size"), _rows(say, found.holes, every), right=(1, 2, 3, 4, 5), gap=2
        )
        for one in found.holes:
            yield line(_holes_words(say, one))
        areas = ", ".join(f"{name} {_area(say, area)}" for name, area in found.areas.items())
        yield line(f"Area of the holes on each region, both sides: {areas}.")
    if found.lines:
        yield heading("Lines")
        yield table(_head(say, "along skin"), _line_rows(say, found.lines), right=(1, 2, 3, 4, 5))
        for one in found.lines:
            if says := _line_words(say, one):
                yield line(says)
    if found.figures:
        yield heading("Draught marks")
        head = [*_head(say, "figure")[:5], "up full size"]
        yield table(head, _figure_rows(say, found.figures, every), right=(1, 2, 3, 4, 5))
    yield line(
        f"Places from the {her.boat.entered_from}, heights above the keel line, girth from the "
        "keel round one side along the skin; of a row its aftermost and its foremost."
    )


def marks_short(found: "Marks") -> str:
    """Return in a few words how much is marked and cut on the skin.

    >>> from trimdive.marking.found import Marks
    >>> marks_short(Marks(holes=(), lines=(), figures=()))
    ''
    """
    count = sum(one.count for one in found.holes)
    each = (
        (count, "hole", "holes"),
        (len(found.lines), "line", "lines"),
        (len(found.figures), "draught mark", "draught marks"),
    )
    return ", ".join(
        f"{many} {several if many > 1 else one}" for many, one, several in each if many
    )


def _head(say: Say, size: str) -> Cells:
    return ["", f"from {say.boat.entered_from}", "up", "girth", size, "full size"]


def full_size(say: Say, length: float) -> str:
    """Return a length of the model [m] as it was full size; a dash where she has no scale."""
    if say.boat.scale is None:
        return NONE
    full = length * say.boat.scale
    own = say.units.shown("length")
    if own not in METRIC:
        return say.length(full) if full < 0.6 else say.deep(full)
    return f"{full * 1e3:.0f} mm" if full < 1.0 else f"{full:.2f} m"


def _area(say: Say, area: float) -> str:
    return say.write(area, "area")


def _girth(say: Say, one: "Spot") -> str:
    return NONE if isnan(one.girth) else say.length(one.girth)


def _at(say: Say, one: "Spot") -> list[str]:
    """Return place along, height and girth of a place on the skin."""
    return [say.length(say.boat.along(one.x)), say.length(one.z), _girth(say, one)]


def _size(write: Callable[[float], str], one: "Holes") -> str:
    long, high = map(write, one.size)
    return f"⌀ {long}" if one.shape == "round" else f"{long} × {high}"


def _rows(say: Say, holes: "tuple[Holes, ...]", every: bool) -> Iterator[Cells]:
    for one in holes:
        size, full = _size(say.length, one), _size(lambda length: full_size(say, length), one)
        for name, spot in _row(one.name, one.on(one.spots[0].side), every):
            yield [name, *_at(say, spot), size, full]


def _row(name: str, row: "tuple[Spot, ...]", every: bool) -> "Iterator[tuple[str, Spot]]":
    """Yield the places of a row by their names: all, or the first and the last."""
    for number, spot in enumerate(row, 1):
        if every or number in (1, len(row)):
            yield (f"{name}, {number}" if len(row) > 1 else name), spot


def _sides(one: "Holes") -> str:
    sides = {spot.side for spot in one.spots}
    if len(sides) == 2:
        return "on each side"
    is_middle = all(spot.y == 0.0 for spot in one.spots)
    return "on the middle line" if is_middle else f"to {next(iter(sides))}"


def _holes_words(say: Say, one: "Holes") -> str:
    """Return how many there are, how far apart along the skin, and their area."""
    count = len(one.on(one.spots[0].side))
    told = f"{one.name}: {count} {one.kind}{'s' if count > 1 else ''} {_sides(one)}"
    if count > 1:
        run = abs(one.spots[count - 1].x - one.spots[0].x)
        told += f", pitch {say.length(run / (count - 1))} along her and {say.length(one.pitch)} "
        told += f"along the skin, {say.length(one.length)} from the first to the last along it"
    area = f"{_area(say, one.whole_area)} in all" if one.count > 1 else _area(say, one.area)
    return f"{told}; on {one.region}; {area}."


def _line_rows(say: Say, lines: "tuple[Lines, ...]") -> Iterator[Cells]:
    for one in lines:
        sizes = [say.length(one.length), full_size(say, one.length)]
        for which, spot in zip(("from", "to"), one.spots, strict=True):
            yield [f"{one.name}, {which}", *_at(say, spot), *sizes]
            sizes = ["", ""]


def _line_words(say: Say, one: "Lines") -> str:
    if one.rivets:
        return f"{one.name}: {one.rivets} rivets on each side that it runs on."
    if not one.girths[1]:
        return ""
    low, high = (say.length(girth) for girth in one.girths)
    return f"{one.name}: along the skin its band is {low} to {high} broad."


def _figure_rows(say: Say, figures: "tuple[Figures, ...]", every: bool) -> Iterator[Cells]:
    for one in figures:
        row = tuple(spot for spot in one.spots if spot.side == one.spots[0].side)
        high = say.length(one.height) if one.height else NONE
        for name, spot in _row(one.name, row, every):
            yield [name, *_at(say, spot), high, full_size(say, spot.z)]


def marks_json(her: "Assessment") -> Document:
    """Return what ``marks`` tells a program."""
    found = her.marked
    return {
        **common(her),
        "scale": her.boat.scale,
        "holes": [_holes_json(one) for one in found.holes],
        "hole_areas": [{"region": name, "area_m2": area} for name, area in found.areas.items()],
        "plate_lines": [_lines_json(one) for one in found.lines],
        "draught_marks": [_figures_json(one) for one in found.figures],
    }


def _holes_json(one: "Holes") -> Document:
    return {
        "name": one.name,
        "path": one.path,
        "kind": one.kind,
        "shape": one.shape,
        "length_m": one.size[0],
        "height_m": one.size[1],
        "region": one.region,
        "count": one.count,
        "area_m2": one.area,
        "whole_area_m2": one.whole_area,
        "pitch_along_skin_m": one.pitch,
        "row_along_skin_m": one.length,
        "spots": [_spot_json(spot) for spot in one.spots],
    }


def _lines_json(one: "Lines") -> Document:
    return {
        "name": one.name,
        "path": one.path,
        "kind": one.kind,
        "way": one.way,
        "rivets": one.rivets,
        "band_girths_m": list(one.girths),
        "lines": [
            {"side": each.side, "length_m": each.length, "points_m": each.points.tolist()}
            for each in one.lines
        ],
    }


def _figures_json(one: "Figures") -> Document:
    return {
        "name": one.name,
        "path": one.path,
        "at": one.at,
        "figure_height_m": one.height,
        "spots": [_spot_json(spot) for spot in one.spots],
    }


def _spot_json(one: "Spot") -> Document:
    girth = None if isnan(one.girth) else one.girth
    return {"side": one.side, "x_m": one.x, "y_m": one.y, "z_m": one.z, "girth_m": girth}
