"""Which fields of a form stand on top and which are folded, and what they are called."""

import re
from collections.abc import Mapping

from trimdive.boatfile.form import FormField, form_fields
from trimdive.boatfile.kinds import others
from trimdive.boatfile.piece import Piece
from trimdive.edits.writing import PLACES
from trimdive.page.typed_fields import label_of

TOP: dict[str, tuple[str, ...]] = {  # what matters most of each piece, beside what is needed
    "cylinder": ("name", "outside", "wall", "length", "x", "z"),
    "tank": (
        "name", "inside", "bore", "breadth", "height", "mesh", "file_unit", "length", "water_end",
        "stroke", "runs", "x",
    ),
    "part": ("name", "mass", "known", "x", "z", "inside"),
    "lead": ("name", "mass", "x", "z"),
    "foam": ("name", "mass", "volume", "x", "z"),
    "coat": ("name", "on", "mass", "per_area", "material"),
    "region": ("name", "thickness", "mass", "material"),
    "plant": ("name", "tanks", "battery"),
    "linkage": ("name", "moves"),
    "battery": ("name", "voltage", "capacity", "fuse"),
    "boat": ("name", "scale", "length", "measured_from", "note"),
    "hatch": ("name", "way", "off", "x_aft", "x_fore", "breadth", "z_bottom"),
    "hole": (
        "name", "kind", "x", "z", "girth", "off_middle", "diameter", "length", "height", "count",
        "pitch", "side",
    ),
    "plate_line": (
        "name", "z", "girth", "off_middle", "x", "x_aft", "x_fore", "band", "pitch", "side",
    ),
    "draught_mark": ("name", "at", "x", "set_back", "z", "step", "count", "height", "side"),
    "pocket": ("name", "holds", "inside", "breadth"),
    "reading": (
        "date", "draught", "freeboard", "edge", "at", "pull_aft", "pull_fore", "laid_aft",
        "laid_fore", "x_aft", "x_fore", "moved", "by", "angle", "mass", "litres", "tank", "tips",
    ),
}  # fmt: skip
FEW = 9  # fields that all stand on top, where there are no more [-]
BESIDE = 3  # fields beside its place that are shown of a thing in hand [-]
BRIEF = {  # what a field is called where there is little room, as in the heads of the weight table
    "x": "along",
    "z": "height",
    "mass": "mass",
    "known": "how known",
    "volume": "volume",
    "outside": "outside diameter",
    "bore": "inside diameter",
    "breadth": "breadth",
    "height": "inside height",
    "length": "length",
    "stroke": "stroke",
    "wall": "wall",
}
TITLES = {
    "place": "Place",
    "size": "Measures",
    "mass": "Mass and how it is known",
    "further": "Further",
}
LABELS = {
    "x": "Along",
    "y": "To port",
    "z": "Height",
    "name": "Name",
    "from": "Measured from",
    "known": "How known",
    "spread": "±",
    "aboard": "Aboard",
    "surface": "Surface",
    "shape": "Shape",
    "kind": "Kind",
    "read": "What was read",
    "plant then": "Its plant is then of kind",
}
NAMES = {  # of tables, where the file's own word is none of a builder's
    "boat": "boat", "keep_clear": "keep-clear space", "weigh_in": "weigh-in", "leak_test":
    "leak test", "full_size": "full-size boat", "fill": "row of the filling table", "from_tub":
    "correction from the tub", "units": "units", "water": "water", "limits": "limits",
    "spreads": "uncertainties", "placing": "wishes for lead and foam",
    "coat": "coat of paint or filler", "lane": "track for a sliding part",
    "pocket": "place for lead or foam", "opening": "well through the hull",
    "hatch": "hatch or split of the hull", "hole": "hole or row of holes in the skin",
    "plate_line": "plate line, waterline or boot top",
    "draught_mark": "draught mark with its figures", "plan": "picture of a plan",
    "photo": "photograph of her afloat",
    "run": "hose, cable or rod",
}  # fmt: skip
SURFACES = {
    "lines": "hull by a table of lines",
    "outline": "hull by tape and calipers",
    "round": "round body, by a table of radii",
    "myring": "round body by a formula: nose, middle, tail (Myring)",
    "series58": "round body by a formula (Series 58)",
    "suboff": "round body by a formula (SUBOFF)",
    "mesh": "hull by a mesh",
    "prism": "tower or house with upright sides",
}
SWITCHED = {"true": "yes", "false": "no"}  # a yes as it is chosen


def name_of(table: str) -> str:
    """Return what a piece of a table is called.

    >>> name_of("tank"), name_of("keep_clear")
    ('tank', 'keep-clear space')
    """
    return NAMES.get(table, table.replace("_", " "))


def label(one: FormField) -> str:
    """Return what a field is called."""
    return LABELS.get(one.key) or label_of(one.says, one.key, one.options)


def hint(one: FormField) -> str:
    """Return what else is to be known of a field, beside its label; "" for nothing."""
    if one.key == "name":
        return ""
    named = label(one)
    says = re.sub("^true: ", "", one.says)
    rest = says[len(named) :] if says.casefold().startswith(named.casefold()) else says
    rest = re.sub(r":? see [a-z-]+[.]md", "", rest).lstrip(" .;:,")
    return f"{rest[:1].upper()}{rest[1:]}"


def is_on_top(table: str, one: FormField, count: int) -> bool:
    """Return whether a field stands on top of its form.

    Args:
        table: Of the piece.
        one: The field.
        count: How many fields there are.
    """
    if one.kind in ("table", "rows"):
        return False
    return one.is_needed or one.key in TOP.get(table, ()) or count <= FEW


def foremost(model: type[Piece], table: str, typed: Mapping[str, object]) -> tuple[str, ...]:
    """Return the few fields of a piece that matter most beside its place: figures of its own kind.

    Args:
        model: Of the piece.
        table: In which it stands.
        typed: What stands there of it.

    >>> from trimdive.boatfile import Cylinder, Part, Tank
    >>> foremost(Part, "part", {}), foremost(Cylinder, "cylinder", {})
    (('mass', 'known'), ('outside', 'wall', 'length'))
    >>> foremost(Tank, "tank", {"kind": "piston"}), foremost(Tank, "tank", {})
    (('bore', 'stroke'), ('bore', 'length'))
    """
    fields = {one.key: one for one in form_fields(model)}
    aside = {*PLACES, *others(table, typed)}
    every = [fields[key] for key in TOP.get(table, ()) if key in fields and key not in aside]
    found = [one.key for one in every if one.group in ("mass", "size") or one.key == "volume"]
    return tuple(found[:BESIDE])
