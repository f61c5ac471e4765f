"""The doors to the forms: what may be added over each place, and whose form opens from there."""

from collections.abc import Mapping
from typing import TYPE_CHECKING, NamedTuple

from trimdive.boatfile.form import surface_of, tables
from trimdive.boatfile.ref import Ref, ref
from trimdive.page.entries.groups import SURFACES, name_of
from trimdive.page.typed_fields import typed_in

if TYPE_CHECKING:
    from trimdive.bench.entered import NotEntered
    from trimdive.page.desk import Desk

CAPS = {"aft_cap", "fore_cap"}  # of a cylinder, entered together where both are alike
TANKS = ("tank kind=piston", "tank kind=open")
BY_FORMULA = ("myring", "series58", "suboff")  # surfaces that few builders have: last in a menu
SURFACE_DOORS = tuple(
    f"region surface={one}"
    for one in sorted(
        (surface_of(model) for model in tables()["region"].models),
        key=lambda one: one in BY_FORMULA,
    )
)
ON_SKIN = ("hole", "plate_line", "draught_mark")
SPACES = ("keep_clear", "pocket", "lane")
ADDS: dict[str, tuple[str, ...]] = {  # by place: tables, and what a new piece begins with
    "scales": ("part", "lead", "foam", "coat", "battery", "cylinder", *TANKS, "weigh_in"),
    "board": (
        "cylinder", *TANKS, "hatch", "opening", *ON_SKIN, "run", "mark", "coat", *SPACES,
        *SURFACE_DOORS,
    ),
    "bench": ("cylinder", *TANKS, "plant", "battery", "failsafe", "linkage", "leak_test"),
    "tub": ("reading", "fill", "mark", "from_tub", *SPACES),
}  # fmt: skip
EDITS: dict[str, tuple[str, ...]] = {  # by place: tables
    "scales": ("region", "coat", "cylinder", "tank", "battery", "weigh_in"),
    "board": (
        "boat", "region", "cylinder", "tank", "hatch", "opening", *ON_SKIN, "run", "mark", "coat",
        *SPACES, "plan", "waterline", "water", "full_size", "units",
    ),
    "bench": (
        "cylinder", "tank", "plant", "battery", "failsafe", "linkage", "leak_test",
    ),
    "tub": (
        "reading", "photo", "fill", "from_tub", *SPACES, "placing", "spreads", "limits", "water",
    ),
    "pond": ("water", "units"),
    "shelf": ("boat", "brief", "full_size", "units"),
}  # fmt: skip


class Door(NamedTuple):
    """A button that opens a form."""

    sends: str  # behind "entry "
    name: str


def adds_at(place: str) -> list[Door]:
    """Return what may be added over a place."""
    return [Door(_opens(kind), offered(kind)) for kind in ADDS.get(place, ())]


def door_to(path: str, fold: str = "") -> Door:
    """Return the door to a piece by its place in the file; to a new one where it has no number.

    Args:
        path: Of the piece.
        fold: The table within it that is to be entered, and so is unfolded; "" for none.

    >>> door_to("cylinder[2]"), door_to("plant").sends, door_to("failsafe").sends
    (Door(sends='edit cylinder[2]', name='cylinder'), 'add plant', 'edit failsafe')
    >>> door_to("cylinder[2]", "caps").sends
    'edit cylinder[2] caps'
    """
    at = ref(path)
    sends = f"edit {path} {fold}".rstrip() if at.number else _opens(at.table)
    return Door(sends, name_of(at.table))


def door_to_gap(gap: "NotEntered") -> Door:
    """Return the door to where something is entered that is missing on the bench."""
    return door_to(gap.path, _fold_of(gap))


def _fold_of(gap: "NotEntered") -> str:
    """Return the table of a form in which something is entered; "" where it is on top of it."""
    if gap.key == "closing":
        return "closing"
    if not gap.lacks or ref(gap.path).table not in ("cylinder", "plant"):
        return ""
    return "caps" if {*gap.lacks} == CAPS else gap.lacks[0].partition(".")[0]


def edits_at(desk: "Desk", place: str) -> list[tuple[str, list[Door]]]:
    """Return the pieces whose forms open over a place, by their tables."""
    named = EDITS.get(place, ())
    single = [Door(f"edit {one}", name_of(one)) for one in named if not tables()[one].is_list]
    found: list[tuple[str, list[Door]]] = [("", single)] if single else []
    for table in named:
        if tables()[table].is_list and (pieces := typed_in(desk, table)):
            doors = [
                Door(f"edit {Ref(table, number)}", _called(one) or str(number))
                for number, one in enumerate(pieces, 1)
            ]
            found.append((name_of(table), doors))
    return found


def _called(piece: Mapping[str, object]) -> str:
    """Return what a piece is called: by its name, or by what it joins; "" where by neither.

    >>> _called({"name": "pump"}), _called({"kind": "hose", "of": "pump", "to": "tank"})
    ('pump', 'hose from pump to tank')
    """
    if "of" in piece and "to" in piece:
        return f"{piece.get('kind', 'run')} from {piece['of']} to {piece['to']}"
    return str(piece.get("name") or "")


def offered(kind: str) -> str:
    """Return what a menu calls a piece that may be added.

    >>> offered("tank kind=piston"), offered("keep_clear"), offered("region surface=prism")
    ('piston tank', 'keep-clear space', 'tower or house with upright sides')
    """
    named, _, given = kind.partition(" ")
    value = given.partition("=")[2]
    return SURFACES.get(value) or " ".join(filter(None, (value, name_of(named))))


def _opens(kind: str) -> str:
    """Return what a button sends that opens the form of a new piece.

    >>> _opens("tank kind=piston"), _opens("failsafe")
    ('add tank kind=piston', 'edit failsafe')
    """
    return f"{'add' if tables()[kind.partition(' ')[0]].is_list else 'edit'} {kind}"
