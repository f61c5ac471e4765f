"""What a list does not tell and a boat file needs, as sentences with the answer to give."""

from collections.abc import Sequence

from trimdive.lists.alike import is_lead
from trimdive.lists.records import Answers, Ask, ColumnRead, Item
from trimdive.lists.sheet import rows_text
from trimdive.lists.words import FIGURES

VOLUMES = ("material", "inside")  # words that tell how much water a part pushes aside
VOLUME_FIGURES = ("volume", "density", "hung")


def list_asks(columns: Sequence[ColumnRead], unsaid: set[str], is_doubtful: bool) -> list[Ask]:
    """Return what is asked about the whole list: units, and of how many pieces a mass is."""
    found: list[Ask] = []
    for kind in sorted(unsaid):
        of_kind = [c for c in columns if FIGURES.get(c.use) == kind and "not told" in c.why]
        unit = next((c.unit for c in of_kind), "")
        what = f"the list does not say the unit of '{of_kind[0].head}' ({unit} is likely)"
        mend = f"Write it in the head: {of_kind[0].head} [{unit}]."
        option = f"--{kind}-unit {unit}" if kind in ("mass", "length") else ""
        found.append(Ask(field=f"{kind}_unit", what=what, mend=mend, option=option))
    if is_doubtful:
        what = "there are several pieces of some parts, and nothing says whether a mass is of one"
        mend = "Head that column 'mass each' or 'mass of all'."
        option = "--mass-of each or --mass-of all"
        found.append(Ask(field="mass_of", what=what, mend=mend, option=option))
    return found


def missing(items: Sequence[Item], answers: Answers) -> list[Ask]:
    """Return what is asked before some items can become parts of a boat file."""
    found: list[Ask] = []
    arms = [item for item in items if item.words.get("is_arm")]
    if arms:
        what = f"{_parts(arms, items)} a lever arm, and nothing says where it is measured from"
        mend = "Head that column 'from stern' or 'from bow'."
        option = '--from stern, --from bow, or where its zero lies: --from "1150 mm"'
        found.append(Ask(field="measured_from", what=what, mend=mend, option=option))
    behind = [item for item in items if item.figures.get("x", 0.0) < 0.0]
    if behind and not arms:
        what = f"{_parts(behind, items)} a place below zero"
        mend = "If zero lies along the hull, it must be said how far from the stern."
        option = '--from "1150 mm" for a zero so far from the stern'
        found.append(Ask(field="measured_from", what=what, mend=mend, option=option))
    without = [item for item in items if not item.figures.keys() & {"x", "x_aft", "x_fore"}]
    if without and not answers.x:
        what = f"{_parts(without, items)} no place along the boat"
        mend, option = "Add a column x [mm].", '--x "600 mm" for all of them until you know better'
        found.append(Ask(field="x", what=what, mend=mend, option=option))
    flat = [item for item in items if not item.figures.keys() & {"z", "z_bottom", "z_top"}]
    if flat and not answers.z:
        what = f"{_parts(flat, items)} no height above the keel line"
        mend, option = "Add a column z [mm].", '--z "60 mm" for all of them until you know better'
        found.append(Ask(field="z", what=what, mend=mend, option=option))
    if not (answers.material or answers.inside):
        dry = [item for item in items if not tells_volume(item) and not is_lead(item)]
        if dry:
            what = f"{_parts(dry, items)} nothing that tells how much water it pushes aside"
            mend = "Add a column material or volume."
            option = "--material ABS or --inside CYLINDER"
            found.append(Ask(field="material", what=what, mend=mend, option=option))
    return found


def tells_volume(item: Item) -> bool:
    """Return whether an item tells how much water it pushes aside."""
    has_word = any(item.words.get(word) for word in VOLUMES)
    return has_word or any(name in item.figures for name in VOLUME_FIGURES)


def _parts(some: Sequence[Item], items: Sequence[Item]) -> str:
    """Return so many parts, with their rows, as the beginning of a sentence."""
    count = "every part has" if len(some) == len(items) else f"{len(some)} of {len(items)} parts"
    if len(some) == len(items):
        return count
    verb = "has" if len(some) == 1 else "have"
    return f"{count} (row{'s' if len(some) > 1 else ''} {rows_text(i.row for i in some)}) {verb}"
