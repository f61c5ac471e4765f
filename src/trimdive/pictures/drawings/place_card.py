"""The placing card: a drawing and a list of every piece, before and after."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from trimdive.text import words

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.boatfile import Boat
    from trimdive.edits.pieces import Placed
    from trimdive.edits.work import Work
    from trimdive.findings import Edit
    from trimdive.pictures.drawings.placing import Placed as Drawn

AXES = "xyz"


def card_of(done: "Work") -> str:
    """Return the card of a placing as SVG; "" where nothing is placed."""
    from trimdive.pictures.drawings.placing import placing_card
    from trimdive.text.place_text import before_after

    if done.found is None:
        return ""
    her, after = done.her, done.found.after
    table = [["", "before", "after"], *before_after(her, after)]
    drawn = [*_mended(done), *(_drawn(her.boat, one) for one in done.found.things)]
    return placing_card(after, drawn, table)


def _drawn(boat: "Boat", one: "Placed") -> "Drawn":
    """Return a thing to do as the card draws it."""
    from trimdive.pictures.drawings.placing import Placed as Drawn

    kinds = {"out": "out", "move": "moved"}
    x, y, z = (float(place) for place in one.place)
    was = tuple(float(place) for place in one.was)
    note = f"was {words.mass(boat, one.before)}" if one.action == "cut" else ""
    return Drawn(
        name=one.name,
        kind=kinds.get(one.action, one.kind),  # pyright: ignore[reportArgumentType] - lead or foam
        mass=one.before if one.action == "out" else one.mass,
        volume=one.volume,
        size=one.size,
        x=x,
        y=y,
        z=z,
        moved_from=(was[0], was[1], was[2]) if one.action == "move" else None,
        pair=one.pair,
        note=note,
    )


def _mended(done: "Work") -> "Iterator[Drawn]":
    """Yield what the mends before the placing move or take out."""
    now = done.her
    for edits in done.steps:
        yield from _moves(now, edits)
        now = now.edited(edits)


def _moves(her: "Assessment", edits: "tuple[Edit, ...]") -> "Iterator[Drawn]":
    from trimdive.boatfile import extents
    from trimdive.geometry.solids.build import numbered
    from trimdive.pictures.drawings.placing import Placed as Drawn

    masses = {entry.path: entry.mass for entry in her.masses.entries}
    tanks = {f"tank[{i}]": tank for i, tank in enumerate(her.boat.tanks, 1)}
    parts = dict(numbered(her.boat))
    places: dict[str, dict[str, float]] = {}
    for edit in edits:
        if edit.action == "remove" and edit.path in parts:
            places.setdefault(edit.path, {})
        for field, value in edit.fields:
            if edit.action == "set" and field in AXES and isinstance(value, float):
                places.setdefault(edit.path, {})[field] = value
    for path, moved in places.items():
        piece = parts.get(path) or tanks.get(path)
        if piece is None:
            continue
        was = (piece.x, piece.y, piece.z)
        now = tuple(moved.get(axis, place) for axis, place in zip(AXES, was, strict=True))
        across = tanks[path].bore or 0.0 if path in tanks else 0.0
        sides = extents(parts[path]) if path in parts else (piece.length, across, across)
        size = tuple(side or 0.0 for side in sides)
        yield Drawn(
            name=piece.name, kind="moved" if moved else "out", mass=masses.get(path, 0.0),
            volume=0.0, size=(size[0], size[1], size[2]), x=now[0], y=now[1], z=now[2],
            moved_from=was if moved else None,
        )  # fmt: skip
