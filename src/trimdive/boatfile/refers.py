"""Which fields name another piece, and what names may stand there."""

from collections.abc import Iterator, Mapping
from typing import Any, NamedTuple, cast

from trimdive.boatfile.boat import Boat
from trimdive.boatfile.ref import Ref


class Named(NamedTuple):
    """Pieces that a field may name."""

    what: str  # as an error calls them
    tables: tuple[str, ...]  # in which they stand


class Use(NamedTuple):
    """A field that names a piece."""

    piece: Ref
    field: str
    is_own: bool  # whether the piece goes where the named one goes: it lies in it, or is of it


CYLINDER, TANK = Named("cylinder", ("cylinder",)), Named("tank", ("tank",))
HOME = Named("cylinder", ("cylinder", "region", "tank"))
REGION, MARK = Named("region", ("region",)), Named("mark", ("mark",))
THING = Named("part", ("part", "lead", "foam"))
JOINED = Named("thing", ("cylinder", "tank", *THING.tables))
REFERS: dict[tuple[str, str], Named] = {  # by table and field
    ("cylinder", "inside"): Named("sealed region", ("region",)),
    ("tank", "inside"): CYLINDER,
    **{(table, "inside"): HOME for table in THING.tables},
    **{(table, "works_of"): TANK for table in THING.tables},
    ("coat", "on"): REGION,
    ("hatch", "off"): REGION,
    ("hole", "on"): REGION,
    ("plate_line", "on"): REGION,
    ("hatch", "after"): Named("hatch", ("hatch",)),
    ("region", "like"): REGION,
    ("pocket", "inside"): CYLINDER,
    ("lane", "things"): JOINED,
    ("run", "of"): JOINED,
    ("run", "to"): JOINED,
    ("plant", "tanks"): TANK,
    ("plant", "battery"): Named("battery", ("battery",)),
    ("failsafe", "drops"): THING,
    ("leak_test", "cylinder"): CYLINDER,
    ("reading", "at"): MARK,
    ("reading", "photos"): Named("photograph", ("photo",)),
    ("reading", "tank"): TANK,
    ("from_tub", "tank"): TANK,
    ("fill", "levels"): TANK,
}
FROM = "from"  # where a piece is measured from: a mark may be named there
OWN = {  # fields that make a piece part of the named one: it is removed with it
    ("tank", "inside"), ("leak_test", "cylinder"), ("reading", "tank"), ("from_tub", "tank"),
    ("reading", "at"), ("pocket", "inside"), ("run", "of"), ("run", "to"),
    *((table, field) for table in THING.tables for field in ("inside", "works_of")),
}  # fmt: skip


def names_for(boat: Boat, table: str, field: str) -> tuple[str, ...]:
    """Return the names of pieces that may stand in a field, in the order of the file.

    Only what holds something can have things inside: cylinders, sealed regions, free tanks.
    """
    named = REFERS[(table, field)]
    found = {
        "cylinder": [one.name for one in boat.cylinders],
        "region": [one.name for one in boat.regions if field != "inside" or one.sealed],
        "tank": [one.name for one in boat.tanks if field != "inside" or one.inside is None],
        "battery": [one.name for one in boat.batteries],
        "mark": [one.name for one in boat.marks],
        "hatch": [one.name for one in boat.hatches],
        "photo": [one.name for one in boat.photos],
        "part": [one.name for one in boat.parts],
        "lead": [one.name for one in boat.lead if one.name],
        "foam": [one.name for one in boat.foam if one.name],
    }
    return tuple(name for each in named.tables for name in found[each])


def uses(contents: Mapping[str, Any], table: str, name: str) -> Iterator[Use]:
    """Yield every field in a boat file that names a piece.

    Args:
        contents: What the file holds, as typed.
        table: In which the named piece stands.
        name: Its name.
    """
    for key, held in contents.items():
        is_list = isinstance(held, list)
        for number, piece in enumerate(cast("list[Any]", held) if is_list else [held], 1):
            if not isinstance(piece, dict):
                continue
            at = Ref(key, number if is_list else 0)
            for field, value in cast("dict[str, Any]", piece).items():
                named = MARK if field == FROM else REFERS.get((key, field))
                if named and table in named.tables and _names(value, name):
                    yield Use(at, field, (key, field) in OWN)


def _names(value: object, name: str) -> bool:
    """Return whether a field's value names a piece: by itself, in a list, or as a key."""
    if isinstance(value, str):
        return value.strip() == name
    return isinstance(value, list | dict) and name in value


def called(value: Any, old: str, new: str) -> Any:
    """Return a field's value with a piece called by another name; left out where that is "".

    >>> called(["aft", "fore"], "aft", "stern tank"), called({"aft": "60 %"}, "aft", "")
    (['stern tank', 'fore'], {})
    """
    if isinstance(value, list):
        return [new if one == old else one for one in cast("list[Any]", value) if new or one != old]
    if isinstance(value, dict):
        pairs = cast("dict[str, Any]", value).items()
        return {new if key == old else key: one for key, one in pairs if new or key != old}
    return new
