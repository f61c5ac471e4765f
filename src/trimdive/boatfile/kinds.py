"""Which fields go with which kind of piece: what the checks hold it to, and what its form asks."""

from collections.abc import Mapping

from trimdive.boatfile.tub import FIGURE
from trimdive.boatfile.tub import NEEDED as BESIDE

NEEDS: dict[str, tuple[str, ...]] = {  # fields that the shape of a part needs
    "point": (),
    "box": ("length", "breadth", "height"),
    "cylinder": ("length", "diameter"),
    "tube": ("length", "diameter", "wall"),
    "sphere": ("diameter",),
    "mesh": ("mesh", "file_unit"),
}
MAY_HAVE = {"mesh": ("length", "breadth", "height"), "point": ()}
OF_SHAPES = tuple(dict.fromkeys(field for fields in NEEDS.values() for field in fields))
WITH_AXIS = ("cylinder", "tube")  # shapes that lie some way

TANK_NEEDS = {"round": ("bore",), "box": ("breadth", "height"), "mesh": ("mesh", "file_unit")}
OF_TANKS = tuple(dict.fromkeys(field for fields in TANK_NEEDS.values() for field in fields))
PISTON = ("water_end", "stroke", "runs")
NOT_PISTON = ("x", "x_aft", "x_fore", "length", "shape")  # follow from where its piston runs

HOLE_NEEDS = {  # fields that the shape of a hole needs
    "round": ("diameter",),
    "slot": ("length", "height"),
    "rectangle": ("length", "height"),
}
OF_LINES = {"boot top": ("band",), "rivets": ("pitch",)}  # fields of some plate lines alone

PLANT_PARTS = {  # parts that only some kinds of plant have
    "pump": ("pump closed", "pump vented", "pump bag", "snorkel", "air bag"),
    "motor": ("piston",),
    "screw": ("piston",),
    "seal": ("piston",),
    "store": ("gas",),
    "vent": ("gas", "snorkel"),
    "openings": ("gas", "snorkel"),
    "stretch": ("pump bag", "air bag"),
}

READ = "read"  # asked of a reading first: which kind it is; the file tells it by its figure
WHERE = ("at", "x", "side", "y")
READ_WITH = {  # what may stand beside the figure of a reading
    "draught": WHERE,
    "freeboard": WHERE,
    "laid": ("of",),
    "shift": ("way", "angle_back", "wet", "of"),
}

DECIDING = {  # fields that say which kind a piece is, by its table: asked first
    "region": ("surface",),
    "tank": ("kind", "shape"),
    "part": ("shape",),
    "lead": ("shape",),
    "foam": ("shape",),
    "hole": ("shape",),
    "plate_line": ("kind",),
    "plant": ("kind",),
    "reading": (READ,),
}


def others(table: str, piece: Mapping[str, object]) -> frozenset[str]:
    """Return the fields of a piece that go with other kinds than its own.

    Args:
        table: In which it stands.
        piece: Its fields as typed.

    >>> sorted(others("plant", {"kind": "piston"}))
    ['openings', 'pump', 'store', 'stretch', 'vent']
    """
    if table == "tank":
        return _of_tank(str(piece.get("kind") or "open"), str(piece.get("shape") or "round"))
    if table in ("part", "lead", "foam"):
        return _of_part(str(piece.get("shape") or "point"))
    if table == "hole":
        every = {field for needs in HOLE_NEEDS.values() for field in needs}
        return frozenset(every - {*HOLE_NEEDS.get(str(piece.get("shape") or "round"), ())})
    if table == "plate_line":
        named = piece.get("kind")
        return frozenset(f for kind, own in OF_LINES.items() if kind != named for f in own)
    if table == "plant":
        kind = piece.get("kind")
        return frozenset(one for one, kinds in PLANT_PARTS.items() if kind and kind not in kinds)
    if table == "reading":
        return _of_reading(str(piece.get(READ) or ""))
    return frozenset()


def _of_tank(kind: str, shape: str) -> frozenset[str]:
    if kind == "piston":
        return frozenset((*OF_TANKS, *NOT_PISTON)) - {*TANK_NEEDS["round"]}
    return frozenset((*OF_TANKS, *PISTON)) - {*TANK_NEEDS.get(shape, ())}


def _of_part(shape: str) -> frozenset[str]:
    own = {*NEEDS.get(shape, ()), *MAY_HAVE.get(shape, ())}
    return frozenset(OF_SHAPES) - own | ({"axis"} if shape not in WITH_AXIS else set[str]())


def _of_reading(kind: str) -> frozenset[str]:
    """Return the fields of every other kind of reading; none where it is not chosen yet."""
    if kind not in FIGURE:
        return frozenset()
    return frozenset(one for each in FIGURE for one in _with(each)) - {*_with(kind)}


def _with(kind: str) -> tuple[str, ...]:
    """Return the fields of one kind of reading."""
    return (FIGURE[kind], *BESIDE.get(kind, ()), *READ_WITH.get(kind, ()))


def read_kind(piece: Mapping[str, object]) -> str:
    """Return which kind a reading is, by its figure; "" where none stands there."""
    return next((kind for kind, field in FIGURE.items() if piece.get(field)), "")
