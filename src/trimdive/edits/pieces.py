"""From an answer of the solver to pieces that a builder cuts, lays and moves, and to changes."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from trimdive.assessment import Assessment
from trimdive.boatfile import Cylinder, Part, Tank
from trimdive.findings import Edit
from trimdive.geometry.lines.mesh import Floats
from trimdive.geometry.solids.build import numbered
from trimdive.placing.solve import Programme, Slide, Slot

WHOLE = 0.5  # an unknown of 0 or 1 counts as 1 beyond this [-]
STILL = 2e-4  # a slide shorter than this is none [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """One thing to do: a piece to cut and lay, one to take out, or something to move."""

    action: str  # new, cut, out or move
    kind: str  # lead, foam or part
    name: str
    path: str  # of the piece in the boat file as it was; "" for a new one
    mass: float  # after; of both of a pair [kg]
    before: float  # mass before [kg]
    volume: float  # [m³]
    size: tuple[float, float, float]  # length, breadth, height of one piece; 0 where not told [m]
    place: Floats  # middle, of the one to port of a pair, shape (3,) [m]
    pair: bool
    was: Floats  # where it was, shape (3,) [m]


def placed(her: Assessment, it: Programme, x: Floats) -> tuple[list[Placed], tuple[Edit, ...]]:
    """Return what an answer asks for, and the same as changes of the boat."""
    things: list[Placed] = []
    edits: list[Edit] = []
    for k, slot in enumerate(it.task.slots):
        steps = round(float(x[it.where[f"steps {k}"]]))
        stays = slot.path and float(x[it.where[f"stays {k}"]]) > WHOLE
        if stays or (not slot.path and steps == 0):
            continue
        thing = _piece(slot, steps)
        things.append(thing)
        edits.append(_edit(her, slot, thing, steps))
    for k, way in enumerate(it.task.ways):
        far = float(x[it.where[f"up {k}"]] - x[it.where[f"down {k}"]])
        if abs(far) > STILL:
            moved, changes = _moved(her, way, far)
            things.append(moved)
            edits += changes
    return things, tuple(edits)


def _piece(slot: Slot, steps: int) -> Placed:
    mass = steps * slot.step
    length = slot.length(steps)
    action = "new" if not slot.path else "cut" if steps else "out"
    return Placed(
        action=action,
        kind=slot.kind,
        name=slot.name,
        path=slot.path,
        mass=mass,
        before=slot.present,
        volume=mass / slot.density,
        size=(length, slot.breadth, slot.height),
        place=slot.place,
        pair=slot.pair,
        was=slot.place,
    )


def _edit(her: Assessment, slot: Slot, thing: Placed, steps: int) -> Edit:
    """Return the change that cuts, lays or takes out one piece."""
    if thing.action == "out":
        return Edit(action="remove", path=slot.path, fields=())
    if thing.action == "cut":
        piece = dict(numbered(her.boat))[slot.path]
        share = thing.mass / slot.present if slot.present else 1.0
        fields: list[tuple[str, object]] = []
        if piece.mass is not None:
            fields.append(("mass", thing.mass / (2 if piece.pair == "each" else 1)))
        if piece.volume is not None:
            fields.append(("volume", piece.volume * share))
        if slot.breadth:
            fields.append(("length", slot.length(steps)))
        fields += [("known", "worked out"), ("spread", None)]
        return Edit(action="set", path=slot.path, fields=tuple(fields))
    long, broad, high = thing.size
    fields = [
        ("name", _name(her, slot)),
        ("known", "worked out"),
        ("x", float(slot.place[0])),
        ("y", float(slot.place[1])),
        ("z", float(slot.place[2])),
        ("shape", "box"),
        ("length", long),
        ("breadth", broad),
        ("height", high),
    ]
    if slot.pair:
        fields.append(("pair", "both"))
    if slot.home:
        fields.insert(1, ("inside", slot.home))
    if slot.kind == "lead":
        fields.insert(1, ("mass", thing.mass))
    return Edit(action="add", path=slot.kind, fields=tuple(fields))


def _name(her: Assessment, slot: Slot) -> str:
    """Return a name for a new piece that no other has."""
    taken = {piece.name for piece in her.boat.pieces}
    name = slot.name
    while name in taken:
        name += "a"
    return name


def _moved(her: Assessment, way: Slide, far: float) -> tuple[Placed, list[Edit]]:
    """Return a slide as a thing to do, and its changes."""
    axis = "xyz"[way.axis]
    edits: list[Edit] = []
    first: tuple[float, float, float] | None = None
    for path, piece in _all(her):
        if path not in way.paths:
            continue
        at = (piece.x, piece.y, piece.z)
        first = first or at
        field = axis
        value = at[way.axis] + far
        if axis == "x" and isinstance(piece, Tank) and piece.kind == "piston":
            field, value = "water_end", piece.water_end + far
        edits.append(Edit(action="set", path=path, fields=((field, value),)))
    was = np.array(first or (0.0, 0.0, 0.0))
    step = np.zeros(3)
    step[way.axis] = far
    return (
        Placed(
            action="move", kind="part", name=way.name, path="", mass=way.mass, before=way.mass,
            volume=0.0, size=(0.0, 0.0, 0.0), place=was + step, pair=False, was=was,
        ),
        edits,
    )  # fmt: skip


def _all(her: Assessment) -> Iterator[tuple[str, Cylinder | Tank | Part]]:
    vessels: Sequence[tuple[str, Sequence[Cylinder | Tank]]] = (
        ("cylinder", her.boat.cylinders),
        ("tank", her.boat.tanks),
    )
    for kind, pieces in vessels:
        for i, piece in enumerate(pieces, 1):
            yield f"{kind}[{i}]", piece
    yield from numbered(her.boat)
