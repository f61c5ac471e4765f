"""Where a finding is put right that the program has no change for: a form, or a place and fold."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from trimdive.boatfile import Boat
from trimdive.boatfile.form import OWN, tables
from trimdive.boatfile.ref import WRITTEN, ref
from trimdive.findings.slips.candidates import things
from trimdive.page.entries.doors import TANKS, door_to

if TYPE_CHECKING:
    from trimdive.fact import Fact
    from trimdive.findings import Finding

# What lead and foam, placed together, put right.
PLACED = (
    "waterline-band", "trim-surfaced", "trim-dived", "neutral-band", "tank-offset", "bg-least",
    "gm-least", "heel", "foam-above",
)  # fmt: skip
ROOM = ("tank-margin", "stuck-tank")  # put right by tanks of another size
WEIGHED = ("guess-share", "weigh-in", "density-least", "density-most")
FOLDS = {"reach-spread": ("reach", "Reach"), "tub-behind": ("read", "Readings")}  # of the Tub
TABLES = {"waterline-place": "waterline", "full-size": "full_size", "plant-home": "failsafe"}
BRIEF = "brief-"  # begins the checks of what was promised
SCALES, TUB = "scales", "tub"


@dataclass(frozen=True, slots=True, kw_only=True)
class MendDoor:
    """A button that leads to where a thing is put right."""

    name: str  # what stands on it
    sends: str = ""  # opens a form, behind "entry "; "" where it leads to a place
    place: str = ""
    fold: str = ""  # of the Tub: which is unfolded


def door_of(boat: Boat, one: "Finding") -> MendDoor | None:
    """Return where a finding is put right; None where it has its change, or is only to look at.

    Args:
        boat: The boat.
        one: The finding.
    """
    if one.weight != "put right" or one.edits:
        return None
    if one.key in FOLDS:
        key, name = FOLDS[one.key]
        return MendDoor(name=name, place=TUB, fold=key)
    if one.key in WEIGHED or _is_far_off(one.mend):
        return MendDoor(name="Open Scales", place=SCALES)
    kinds = {told.kind for told in _facts(one.mend)}
    if "water-under-middle" in kinds:
        return _tank(boat)
    if "place-anew" in kinds:
        return MendDoor(name="Lead and foam", place=TUB, fold="placing")
    if one.key in ROOM or (one.key in PLACED and _lacks_room(boat, one.mend)):
        return _tank(boat)
    if one.key in PLACED:
        return MendDoor(name="Lead and foam", place=TUB, fold="placing")
    return _form(boat, one)


def _is_far_off(mend: "Fact") -> bool:
    """Return whether a weight is wrong, so that no lead or foam is to be placed yet."""
    facts = _facts(mend)
    return any(one.kind == "weighs-far-off" for one in facts)


def _lacks_room(boat: Boat, mend: "Fact") -> bool:
    """Return whether she cannot dive for want of room in her tanks, or has none."""
    lacks = any(one.kind == "find-more-room" or one.values.get("room") for one in _facts(mend))
    return lacks or not boat.tanks


def _facts(mend: "Fact") -> tuple["Fact", ...]:
    """Return what is told one after another in a mend."""
    held = mend.values.get("facts")
    return held if isinstance(held, tuple) else (mend,)


def _tank(boat: Boat) -> MendDoor:
    """Return the door to the largest tank; to a new one where she has none."""
    if not boat.tanks:
        return MendDoor(name="Add a tank", sends=f"add {TANKS[0]}")
    longest = max(boat.tanks, key=lambda tank: tank.stroke or tank.length or 0.0)
    number = boat.tanks.index(longest) + 1
    return MendDoor(name=f"Edit {longest.name}", sends=f"edit tank[{number}]")


def _form(boat: Boat, one: "Finding") -> MendDoor:
    """Return the door to the form of what a finding is about; to Scales where it is about all."""
    table = "brief" if one.key.startswith(BRIEF) else TABLES.get(one.key, "")
    path = table or _path(boat, one.subject)
    if not path:
        return MendDoor(name="Open Scales", place=SCALES)
    named = dict(things(boat)).get(path)
    door = door_to(path)
    called = getattr(named, "name", "") or door.name
    return MendDoor(name=f"Edit {called}", sends=door.sends)


def _path(boat: Boat, subject: str) -> str:
    """Return the place in the file of what a finding is about; "" where it is no one thing.

    >>> _path(Boat(name="Dunlin"), "boat"), _path(Boat(name="Dunlin"), "cylinder[2].wall")
    ('', 'cylinder[2]')
    >>> _path(Boat(name="Dunlin"), "cylinder")  # which would be called so
    ''
    """
    if _is_written(subject):
        return "" if subject == OWN else str(ref(subject).piece)
    named = subject.partition(": ")[0]  # of a table or mesh, with what is wrong with it
    found = ((path, getattr(one, "name", "")) for path, one in things(boat))
    return next((path for path, name in found if name in (subject, named)), "")


def _is_written(subject: str) -> bool:
    """Return whether a subject is a place in the file, and not a name, such as that of a cylinder.

    >>> _is_written("cylinder[2].wall"), _is_written("brief"), _is_written("cylinder")
    (True, True, False)
    """
    if not WRITTEN.fullmatch(subject) or ref(subject).table not in tables():
        return False
    return bool(ref(subject).number) or not tables()[ref(subject).table].is_list
