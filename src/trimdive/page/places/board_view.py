"""What the drawing board shows of a boat: each piece with its fields, its table or its mesh."""

from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING, cast

from trimdive.boatfile import LinesRegion, MeshRegion, OutlineRegion, Region, RoundRegion, Waterline
from trimdive.boatfile.outline import BreadthRow, ProfileRow, SectionRow
from trimdive.geometry.solids.meshed import drawn_pieces, looked_at
from trimdive.geometry.solids.surfaces import text_of
from trimdive.page.board_drawing import numbers_of
from trimdive.page.offsets import Offsets, offsets_of
from trimdive.page.places.board_fit import stays
from trimdive.page.places.tub_blocks import for_page
from trimdive.page.remains import at_once, urgent
from trimdive.page.shown import name_of
from trimdive.page.typed_fields import Contents, TypedField, fields_of, table_in, typed_in
from trimdive.pictures.drawings.things import things
from trimdive.text.board_short import (
    board_headline,
    board_size,
    getting_out,
    names_short,
    tanks_short,
    waterline_short,
)
from trimdive.text.found import mend, what
from trimdive.text.sentence import capital

if TYPE_CHECKING:
    from trimdive.boatfile.piece import Piece
    from trimdive.geometry.solids.hull import Skin
    from trimdive.page.desk import Desk

SURFACES = {
    "lines": "a table of lines",
    "outline": "an outline by tape and calipers",
    "round": "a table of radii",
    "myring": "a round body: nose, middle, tail",
    "series58": "a round body of Series 58",
    "suboff": "the SUBOFF bare hull",
    "mesh": "a mesh",
    "prism": "upright sides",
}
FIRST = {
    "region": ("name", "material", "thickness", "mass", "known"),
    "cylinder": ("x", "z", "outside", "wall", "length"),
    "tank": ("x", "length"),
    "part": ("x", "y", "z", "inside"),
}
OF_SHAPE = (  # how checks begin that are of shape and room
    "room-", "mesh-", "lines-", "tower-", "place-", "hull-", "size-", "waterline-", "outside-",
    "clear-", "closed-print",
)  # fmt: skip
REPAIRED = {
    "weld": "points drawn together",
    "drop": "loose triangles dropped",
    "flip": "turned right side out",
    "cap": "holes closed",
    "union": "bodies joined",
    "fit": "cut off inside others",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Trouble:
    """Something wrong with a mesh that the program can mend."""

    what: str
    mend: str
    name: str  # of the finding, for its button; "" where nothing can be done


@dataclass(frozen=True, slots=True, kw_only=True)
class MeshView:
    """What stands in a region's meshes."""

    lines: tuple[str, ...]
    troubles: tuple[Trouble, ...]
    repairs: tuple[str, ...]  # that are done, in words


@dataclass(frozen=True, slots=True, kw_only=True)
class Rows:
    """A list of figures of an outline."""

    name: str
    heads: tuple[str, ...]
    rows: tuple[tuple[TypedField, ...], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class RegionView:
    """A region of the hull."""

    number: int
    name: str
    surface: str  # in words
    about: str  # its area, skin and mass
    fields: list[TypedField]
    more: list[TypedField]
    table: Offsets | None  # None also where a region before has the same
    like: str  # the region before that has the same table; "" for none
    rows: tuple[Rows, ...]  # of an outline
    mesh: MeshView | None

    @property
    def troubles(self) -> int:
        """Return how much is to be put right in its table or its meshes."""
        return len(self.table.doubts if self.table else ()) + len(
            self.mesh.troubles if self.mesh else ()
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceView:
    """A cylinder, a tank or a part."""

    path: str
    number: int  # on the drawing; 0 where it is not drawn
    name: str
    fields: list[TypedField]
    more: list[TypedField]


def board_view(desk: "Desk") -> dict[str, object]:
    """Return all that the drawing board shows."""
    boat = desk.her.boat
    line = table_in(desk, "waterline")
    waterline, more = fields_of(Waterline, line, "waterline", ("height",))
    regions = [
        _region(desk, k, region, typed)
        for k, (region, typed) in enumerate(
            zip(boat.regions, typed_in(desk, "region"), strict=True), 1
        )
    ]
    return {
        "headline": _headline(desk),
        **_on_skin(desk),
        "size": board_size(desk.her),
        "shorts": {
            "waterline": capital(waterline_short(desk.her)),
            "cylinders": capital(names_short(boat.cylinders, "cylinders")),
            "tanks": capital(tanks_short(desk.her)),
            "parts": capital(names_short(boat.parts, "parts")),
        },
        "regions": regions,
        "cylinders": _pieces(desk, "cylinder", boat.cylinders),
        "tanks": _pieces(desk, "tank", boat.tanks),
        "parts": _pieces(desk, "part", boat.parts),
        "waterline": waterline or more,
        "is_sloped": "aft" in line or "fore" in line,
        "marks": typed_in(desk, "mark"),
    }


def _headline(desk: "Desk") -> str:
    """Return how much is to be put right as the bar counts it, and how much of that here."""
    found = at_once(desk)
    own = [one for one in found if one.key.startswith(OF_SHAPE)]
    says = board_headline(urgent(own), urgent(found))
    return f"{says}; {getting_out(shut).removesuffix('.')}" if (shut := stays(desk)) else says


def _pieces(desk: "Desk", key: str, pieces: "tuple[Piece, ...]") -> list[PieceView]:
    found: list[PieceView] = []
    numbers = numbers_of(things(desk.her))
    for k, (piece, typed) in enumerate(zip(pieces, typed_in(desk, key), strict=True), 1):
        fields, more = fields_of(type(piece), typed, f"{key}[{k}]", FIRST[key])
        name = str(typed.get("name", f"{key} {k}"))
        if key == "part":  # masses are for the scales
            fields = [one for one in fields if one.key in FIRST["part"]]
        shown = [one for one in fields if one.key != "name"]
        path = f"{key}[{k}]"
        found.append(
            PieceView(path=path, number=numbers.get(path, 0), name=name, fields=shown, more=more)
        )
    return found


def _region(desk: "Desk", number: int, region: Region, typed: Contents) -> RegionView:
    her, path = desk.her, f"region[{number}]"
    fields, more = fields_of(type(region), typed, path, FIRST["region"])
    like = _like(desk, number, region)
    return RegionView(
        number=number,
        name=region.name,
        surface=SURFACES[region.surface],
        about=_about(desk, region, her.hull.skins[number - 1]),
        fields=[one for one in fields if one.key != "file"],
        more=more,
        table=_table(desk, region) if not like else None,
        like=like,
        rows=_outline(path, typed) if isinstance(region, OutlineRegion) else (),
        mesh=_mesh(desk, region) if isinstance(region, MeshRegion) else None,
    )


def _on_skin(desk: "Desk") -> dict[str, object]:
    """Return what is marked and cut on the skin, as the terminal has it; nothing where none is."""
    found = desk.her.marked
    if not (found.holes or found.lines or found.figures):
        return {"on_skin": (), "on_skin_short": ""}
    from trimdive.text.skin_marks import marks_short, marks_text

    return {
        "on_skin": tuple(for_page(marks_text(desk.her))),
        "on_skin_short": marks_short(found),
    }


def _like(desk: "Desk", number: int, region: Region) -> str:
    """Return the name of a region before that has the same table; "" for none."""
    if not isinstance(region, LinesRegion | RoundRegion):
        return ""
    before = desk.her.boat.regions[: number - 1]
    found = (one for one in before if isinstance(one, LinesRegion | RoundRegion))
    return next((one.name for one in found if one.file == region.file), "")


def _about(desk: "Desk", region: Region, skin: "Skin") -> str:
    """Return its length and its skin: as its mass makes it, and as entered where that is other."""
    write = desk.her.boat.units.write
    wall = f", skin {write(skin.thickness, 'length')}" if skin.thickness else ""
    if wall and region.spots:
        least, most = (write(f(s.thickness for s in region.spots), "length") for f in (min, max))
        return (
            f"{_long(desk, skin)}{wall} on the mean, {least} to {most} at {len(region.spots)} spots"
        )
    entered = write(region.thickness, "length") if region.thickness else ""
    if wall and entered and entered != write(skin.thickness, "length"):
        wall += f" by its mass, entered as {entered}"
    return f"{_long(desk, skin)}{wall}"


def _long(desk: "Desk", skin: "Skin") -> str:
    low, high = skin.outer.bounds
    return f"{desk.her.boat.units.write(float(high[0] - low[0]), 'length')} long"


def _table(desk: "Desk", region: Region) -> Offsets | None:
    if not isinstance(region, LinesRegion | RoundRegion):
        return None
    return _offsets(text_of(desk.her.files, region.file), region.file)


@lru_cache(maxsize=16)
def _offsets(text: str, file: str) -> Offsets:
    return offsets_of(text, file)


def _outline(path: str, typed: Contents) -> tuple[Rows, ...]:
    """Return the lists of figures of an outline, each figure a field."""
    kinds: tuple[tuple[str, str, type[Piece]], ...] = (
        ("profile", "Keel and deck line", ProfileRow),
        ("breadths", "Breadths", BreadthRow),
        ("section", "Character of the section", SectionRow),
    )
    found: list[Rows] = []
    for key, says, model in kinds:
        entries = cast("list[Contents]", typed.get(key, []))
        if not entries:
            continue
        keys = [one for one in model.model_fields if any(one in entry for entry in entries)]
        fields = [
            {one.key: one for part in fields_of(model, entry, f"{path}.{key}[{k}]") for one in part}
            for k, entry in enumerate(entries, 1)
        ]
        heads = tuple(one for one in keys if all(one in row for row in fields))
        rows = tuple(tuple(row[head] for head in heads) for row in fields)
        found.append(Rows(name=says, heads=tuple(h.replace("_", " ") for h in heads), rows=rows))
    return tuple(found)


def _mesh(desk: "Desk", region: MeshRegion) -> MeshView:
    her = desk.her
    lines: list[str] = []
    for name, mesh in drawn_pieces(region, her.files):
        found = looked_at(mesh, name, True)
        shut = (
            "closed"
            if found.is_closed
            else f"open at {found.open_edges + found.turned_edges} edges"
        )
        bodies = found.solid_bodies
        volume = her.boat.units.write(abs(found.volume), "volume")
        lines.append(
            f"{name}: {found.triangles} triangles, {bodies} {'body' if bodies == 1 else 'bodies'}, "
            f"{shut}, {volume}"
        )
    troubles = [
        Trouble(
            what=what(her.boat, one),
            mend=mend(her.boat, one),
            name=name_of(one) if one.edits else "",
        )
        for one in her.checked
        if one.key.startswith("mesh") and one.subject.startswith(f"{region.name}: ")
    ]
    done = tuple(REPAIRED.get(one, one) for one in region.repairs)
    return MeshView(lines=tuple(lines), troubles=tuple(troubles), repairs=done)


def repairs_of(desk: "Desk", number: int) -> tuple[str, ...]:
    """Return the repairs that are asked for in a region's meshes."""
    regions = desk.her.boat.regions
    found = regions[number - 1] if 0 < number <= len(regions) else None
    return found.repairs if isinstance(found, MeshRegion) else ()
