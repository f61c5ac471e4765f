"""What goes where a thing goes: works with their tank, whatever is inside with a cylinder."""

from collections.abc import Mapping, Sequence

import numpy as np
from numpy.typing import NDArray

from trimdive.boatfile import Boat, Cylinder, Part, Tank, parse
from trimdive.boatfile.loading import toml
from trimdive.boatfile.ref import Ref, ref
from trimdive.boatfile.resolve import loosened
from trimdive.edits.writing import HEIGHTS, PLACES, rewritten
from trimdive.errors import UnitError
from trimdive.findings import Edit
from trimdive.findings.works import belongs
from trimdive.geometry.solids.build import numbered
from trimdive.units import read

FINE = 5e-5  # a shorter way is none [m]
Shift = NDArray[np.float64]


def carried_by(boat: Boat, path: str) -> tuple[str, ...]:
    """Return the paths of what goes where a thing goes, its own first."""
    kind, at = ref(path).table, ref(path).order
    if kind == "tank":
        works = [p for p, part in numbered(boat) if belongs(part, boat.tanks[at])]
        return (path, *works)
    if kind == "cylinder":
        home = boat.cylinders[at].name
        tanks = [f"tank[{k}]" for k, tank in enumerate(boat.tanks, 1) if tank.inside == home]
        return (path, *tanks, *(p for p, part in numbered(boat) if part.inside == home))
    return (path,)


def shifted(boat: Boat, paths: Sequence[str], shift: Shift) -> tuple[Edit, ...]:
    """Return the move of things by a shift, shape (3,) [m].

    Height and breadth that a tank has from its cylinder are not written where that moves too.
    """
    homes = {one.name: one for k, one in enumerate(boat.cylinders, 1) if f"cylinder[{k}]" in paths}
    found: list[Edit] = []
    for path in paths:
        piece = piece_at(boat, ref(path))
        fields = [
            (field, value + float(far))
            for field, value, far in zip("xyz", (piece.x, piece.y, piece.z), shift, strict=True)
            if abs(far) > FINE and not _follows(piece, field, homes)
        ]
        if isinstance(piece, Tank) and piece.kind == "piston":
            end = piece.water_end or 0.0
            fields = [
                ("water_end", end + float(shift[0])) if f == "x" else (f, v) for f, v in fields
            ]
        if fields:
            found.append(Edit(action="set", path=path, fields=tuple(fields)))
    return tuple(found)


def _follows(piece: Cylinder | Tank | Part, field: str, homes: Mapping[str, Cylinder]) -> bool:
    """Return whether a tank has a height or breadth from its cylinder, which moves itself."""
    home = homes.get(piece.inside or "")
    if not isinstance(piece, Tank) or home is None or field == "x":
        return False
    return getattr(loosened(piece, home), field) is None


def piece_at(boat: Boat, at: Ref) -> Cylinder | Tank | Part:
    """Return the cylinder, tank, part, lead or foam at a place in the boat file."""
    if at.table in ("cylinder", "tank"):
        return (boat.cylinders if at.table == "cylinder" else boat.tanks)[at.order]
    return dict(numbered(boat))[str(at.piece)]


def carrying(text: str, values: Mapping[str, str]) -> str:
    """Return the text with all that goes along moved as far as what is typed moves its piece.

    The piece itself is moved too, as near as a length is written; what is typed is still to be put
    in. Where it cannot be read nothing moves, and it is refused when it is put in.

    Args:
        text: Text of a boat file that is in order.
        values: What is typed, by field, all of one cylinder or tank.
    """
    at = ref(next(iter(values)))
    kind = at.table
    if kind not in ("cylinder", "tank") or not {ref(one).field for one in values} & MOVED:
        return text
    boat = parse(text)
    if not 0 < at.number <= len(boat.cylinders if kind == "cylinder" else boat.tanks):
        return text
    paths = carried_by(boat, str(at.piece))
    try:
        shift = _shift(text, boat, at, values)
    except UnitError:
        return text
    if len(paths) == 1 or float(np.abs(shift).max()) <= FINE:
        return text
    return rewritten(text, shifted(boat, paths, shift), {})


MOVED = {*PLACES, "y", *HEIGHTS}


def _shift(text: str, boat: Boat, at: Ref, values: Mapping[str, str]) -> Shift:
    """Return how far what is typed moves a piece, shape (3,) [m].

    Raises:
        UnitError: It is no length.
    """
    raw, piece, unit = (
        toml(text, "text")[at.table][at.order],
        piece_at(boat, at),
        boat.units.own.get("length"),
    )
    shift = np.zeros(3)
    for place, typed in values.items():
        field = ref(place).field
        if field not in MOVED or not typed:
            continue
        new = read(typed, "length", unit)
        if field in PLACES and field not in raw:
            continue  # it is told by another field: refused when it is put in
        resolved = {"y": piece.y, "z": piece.z}
        was = read(str(raw[field]), "length", unit) if field in raw else resolved.get(field, new)
        axis = 0 if field in PLACES else 1 if field == "y" else 2
        is_back = axis == 0 and (raw.get("from") or boat.entered_from) == "bow"
        shift[axis] += was - new if is_back else new - was
    return shift
