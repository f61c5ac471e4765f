"""What goes along with a tank whose kind is changed: the plant that serves it is of its kind."""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from trimdive.boatfile.kinds import PLANT_PARTS
from trimdive.boatfile.loading import toml
from trimdive.boatfile.plant import KINDS
from trimdive.boatfile.ref import Ref
from trimdive.boatfile.whole import piece_at, with_piece, without_piece
from trimdive.page.entries.draft import Draft
from trimdive.page.typed_fields import typed_in

if TYPE_CHECKING:
    from trimdive.page.desk import Desk

PLANT = "plant then"  # asked in the form of a tank; it is no field of the file
NONE = "none"
PISTON, OPEN = "piston", "open"


def plant_of(desk: "Desk", draft: Draft) -> tuple[Ref, dict[str, Any]] | None:
    """Return the plant of a tank whose kind is changed in its form; None where nothing is asked."""
    was = str(draft.was.get("kind", OPEN))
    if draft.of.table != "tank" or not draft.was or (draft.typed.get("kind") or OPEN) == was:
        return None
    plants = enumerate(typed_in(desk, "plant"), 1)
    name = draft.was.get("name")
    found = ((Ref("plant", n), dict(one)) for n, one in plants if name in _tanks(one))
    return next(found, None)


def _tanks(plant: Mapping[str, Any]) -> list[str]:
    return list(plant.get("tanks", ()))


def kinds_then(desk: "Desk", draft: Draft) -> tuple[str, ...]:
    """Return what may become of the plant of a tank; nothing where that is not asked."""
    found = plant_of(desk, draft)
    if found is None:
        return ()
    fits = [one for one in KINDS if (one == PISTON) == (draft.typed.get("kind") == PISTON)]
    return (*fits, NONE) if len(_tanks(found[1])) == 1 else (NONE,)


def with_plant(text: str, desk: "Desk", draft: Draft) -> str:
    """Return the text with the plant of a tank as it was chosen in the tank's form."""
    kinds, found = kinds_then(desk, draft), plant_of(desk, draft)
    if found is None:
        return text
    of, plant = found
    chosen = draft.typed.get(PLANT) or kinds[0]
    if chosen in kinds and chosen != NONE:
        own = {key: one for key, one in plant.items() if chosen in PLANT_PARTS.get(key, (chosen,))}
        return with_piece(text, of, {**own, "kind": chosen})
    left = [one for one in _tanks(plant) if one != draft.was.get("name")]
    if not left:
        return without_piece(text, of)[0]
    return with_piece(text, of, {**(piece_at(toml(text, "text"), of) or {}), "tanks": left})
