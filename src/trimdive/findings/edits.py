"""Applies the changes that a finding offers to a boat in memory."""

from collections.abc import Sequence
from typing import Any

from trimdive.boatfile import Boat, Foam, Lead, Part, Tank, Waterline, loosened, resolved
from trimdive.boatfile.plant import Failsafe
from trimdive.boatfile.ref import ref
from trimdive.errors import BoatError
from trimdive.findings.finding import Edit
from trimdive.geometry.solids.surfaces import Files

LISTS = {  # lists of a boat by the names of their tables in the file
    "region": "regions",
    "coat": "coats",
    "cylinder": "cylinders",
    "tank": "tanks",
    "part": "parts",
    "lead": "lead",
    "foam": "foam",
    "battery": "batteries",
    "hatch": "hatches",
}
MODELS = {"part": Part, "lead": Lead, "foam": Foam}


def apply(boat: Boat, files: Files, edits: Sequence[Edit]) -> tuple[Boat, Files]:
    """Return the boat and its files with the changes made.

    Args:
        boat: A resolved boat.
        files: What lies beside the boat file.
        edits: Changes; numbers in paths count from 1, as the file is before any of them.

    Raises:
        BoatError: A path names nothing.
    """
    lists: dict[str, list[Any]] = {}
    gone: dict[str, set[int]] = {}
    new_files = dict(files)
    for edit in edits:
        fields: dict[str, Any] = dict(edit.fields)
        if edit.action == "file":
            new_files[edit.path] = str(fields["text"]).encode()
            continue
        if edit.path in ("waterline", "failsafe"):
            boat = boat.model_copy(update={edit.path: _whole(boat, edit.path, fields)})
            continue
        name, place = ref(edit.path).table, ref(edit.path).order
        if name not in LISTS:
            raise BoatError(f"there is no '{edit.path}'", "edit", f"Use {', '.join(LISTS)}.")
        pieces = lists.setdefault(name, list(getattr(boat, LISTS[name])))
        if edit.action == "add":
            pieces.append(MODELS[name](**fields))
            continue
        if not 0 <= place < len(getattr(boat, LISTS[name])):
            what = f"there is no '{edit.path}'"
            raise BoatError(what, "edit", f"She has {len(getattr(boat, LISTS[name]))} of them.")
        if edit.action == "remove":
            gone.setdefault(name, set()).add(place)
        else:
            pieces[place] = pieces[place].model_copy(update=fields)
    update = {
        LISTS[name]: tuple(p for i, p in enumerate(pieces) if i not in gone.get(name, set()))
        for name, pieces in lists.items()
    }
    if "cylinder" in lists:
        tanks = update.get("tanks", boat.tanks)
        update["tanks"] = tuple(_following(boat, tank, now=tank in boat.tanks) for tank in tanks)
    return resolved(boat.model_copy(update=update)), new_files


def _whole(boat: Boat, path: str, fields: dict[str, Any]) -> Waterline | Failsafe | None:
    """Return a table of which a boat has one, with fields changed; a failsafe may be new."""
    piece: Waterline | Failsafe | None = getattr(boat, path)
    if piece is not None:
        return piece.model_copy(update=fields)
    return Failsafe(**fields) if path == "failsafe" else None


def _following(boat: Boat, tank: Tank, *, now: bool) -> Tank:
    """Return a tank so that it follows its cylinder; one that is changed itself stays."""
    home = next((one for one in boat.cylinders if one.name == tank.inside), None)
    return loosened(tank, home) if home is not None and now else tank
