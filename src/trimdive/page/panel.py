"""The panel of a thing in hand: where it is, and the few fields that matter most of its kind."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from trimdive.boatfile.kinds import DECIDING
from trimdive.boatfile.ref import Ref, ref
from trimdive.edits.writing import LISTS
from trimdive.page.cells import KNOWN, Cell, cells_of
from trimdive.page.entries.groups import BRIEF, foremost, name_of
from trimdive.page.form import Typed
from trimdive.page.moving import held
from trimdive.page.templating import rendered
from trimdive.page.typed_fields import typed_in

if TYPE_CHECKING:
    from trimdive.boatfile import Cylinder, Part, Tank
    from trimdive.page.desk import Desk

HAND = "hand"  # told with a figure that was typed in the panel
PLACE = ("x", "z")
PAIR = {"both": "a pair, mass of both", "each": "a pair, mass of each"}
MIDDLE = "middle"


@dataclass(frozen=True, slots=True, kw_only=True)
class Panel:
    """What the panel shows of a thing; its cells are those of its row in the weight table."""

    path: str
    name: str
    told: str  # of what kind it is, how much it holds and in what it lies
    heads: tuple[tuple[str, str], ...]  # columns, and what they are called
    cells: Mapping[str, Cell]
    options: tuple[str, ...]  # how its mass may be known
    ends: tuple[tuple[str, str], ...]  # to which its place may be typed, and where each is
    end: str  # to which it stands in the file
    measured: str  # from which end of the boat


def in_panel(desk: "Desk", typed: Typed) -> dict[str, object]:
    """Return what the template of a thing in hand is given: what was refused stands in it or not.

    Args:
        desk: The boat.
        typed: What stands in the form of the page.
    """
    picked = typed.get("picked", "")
    found = panel_of(desk, picked)
    is_here = found is not None and typed.get(HAND) == "1"
    return {
        "picked": picked,
        "panel": found,
        "wrong_in_hand": desk.wrong if is_here else None,
        "wrong": None if is_here else desk.wrong,
    }


def panel_view(desk: "Desk", path: str) -> dict[str, str]:
    """Return the panel of a thing that is picked up, for the page's script."""
    found = panel_of(desk, path)
    html = rendered("panel.html", panel=found, wrong_in_hand=None)
    return {"told": found.told if found else "", "panel": html}


def panel_of(desk: "Desk", path: str) -> Panel | None:
    """Return the panel of a thing; None where there is none of that path that can be moved."""
    name = dict(desk.shown.handles).get(path)
    if name is None:
        return None
    at, her = ref(path), desk.her
    piece = getattr(her.boat, LISTS[at.table])[at.order]
    typed = typed_in(desk, at.table)[at.order]
    columns = (*PLACE, *foremost(type(piece), at.table, typed))
    entry = next((one for one in her.masses.entries if one.path == path), None)
    cells = cells_of(her, piece, typed, path, entry, columns)
    own = cells["x"].hint or MIDDLE
    ends = _ends(desk, path) if cells["x"].path else ()
    return Panel(
        path=path,
        name=name,
        told=", ".join(_told(desk, at, piece, typed)),
        heads=tuple((one, BRIEF.get(one, one)) for one in columns),
        cells=cells,
        options=KNOWN,
        ends=ends if own in dict(ends) else (),
        end=own,
        measured=her.boat.entered_from,
    )


def _told(
    desk: "Desk", at: Ref, piece: "Cylinder | Tank | Part", typed: Mapping[str, object]
) -> "list[str]":
    """Return in words what a thing is."""
    kind = str(getattr(piece, "kind", "")) if "kind" in DECIDING.get(at.table, ()) else ""
    inside = f" in {piece.inside}" if piece.inside else ""
    found = [f"{kind} {name_of(at.table)}".strip() + inside]
    if at.table == "tank":
        capacity = float(desk.her.floater.tanks.capacities[at.order])
        found.insert(1, desk.her.boat.units.write(capacity, "volume"))
    return [*found, *filter(None, [PAIR.get(str(typed.get("pair")), "")])]


def _ends(desk: "Desk", path: str) -> tuple[tuple[str, str], ...]:
    """Return the middle and the ends of a thing, and where they are; only the middle of a point."""
    her, thing = desk.her, held(desk.her, path)
    places = {MIDDLE: thing.place[0], "after end": thing.low[0], "fore end": thing.high[0]}
    if thing.high[0] - thing.low[0] <= 0:
        places = {MIDDLE: thing.place[0]}
    write, along = her.boat.units.write, her.boat.along
    return tuple((one, write(along(float(x)), "length")) for one, x in places.items())
