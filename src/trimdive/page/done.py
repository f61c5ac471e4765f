"""What was done to her by typing into one field, in a few words, for "Done" and "Undo"."""

import re
from collections.abc import Iterator, Sequence
from typing import cast

from trimdive.boatfile import Boat
from trimdive.boatfile.fits import capacity
from trimdive.boatfile.ref import Ref, ref
from trimdive.edits.writing import HEIGHTS, PLACES
from trimdive.page.typed_fields import Contents, contents

PLACE = {"y": "{} to port", **dict.fromkeys(HEIGHTS, "height {}")}  # how a place is told on
CARRYING = ("cylinder", "tank")
SAME = 1e-3  # of a tank's room: no more is no change [-]


def done(text: str, field: str, typed: str, new: str = "") -> str:
    r"""Return what was typed into a field of a piece, by the piece's name.

    >>> done('[[part]]\nname = "battery"', "part[1].mass", "700 g")
    'battery: mass 700 g'
    >>> done('[[part]]\nname = "battery"', "part[1].z_bottom", "")
    'battery: z bottom left out'
    >>> done("", "waterline.height", "84 mm")
    'waterline: height 84 mm'
    >>> was = '[[part]]\nname = "a"\nx = "1 mm"\nz = "2 mm"'
    >>> done(was, "part[1].x", "3, 4 mm", was.replace("1", "3").replace("2", "4"))
    'a to 3 mm, height 4 mm'

    Args:
        text: The boat file as it was.
        field: The field, such as "part[1].mass".
        typed: What was typed; "" where it was left out.
        new: The boat file as it is then: what went along with the field is told too.
    """
    at = ref(field)
    name, listed = at.table, contents(text).get(at.table)
    if isinstance(listed, list) and at.number:
        piece = cast("Contents", listed[at.order])
        name = f"{piece.get('name') or f'{at.table} {at.number}'}"
    along = dict(_along(text, new, at))
    with_it = carried_words(at.table, _others(text, new, at)) if new else ""
    if at.field == "x" and typed and at.number:
        value = _typed_there(new, at) if new else typed
        places = [
            PLACE.get(key, f"{key} {{}}").format(_length(text, one)) for key, one in along.items()
        ]
        return f"{', '.join([f'{name} to {_length(text, value)}', *places])}{with_it}"
    key = (at.field or at.table).replace("_", " ")
    more = "".join(f", {_named(one)}{value}" for one, value in along.items())
    said = f"{key} {typed or 'left out'}{more}{with_it}"
    return f"{name.replace('_', ' ')}: {said}" if at.field else said


def held_words(before: Boat, after: Boat) -> str:
    """Return which tanks hold more or less than before a change, and how much, for after it.

    What is lost in each is not counted; a tank that is a mesh, or was not there, is not told.
    """
    was = {one.name: capacity(one) for one in before.tanks}
    found: list[str] = []
    for tank in after.tanks:
        now, earlier = capacity(tank), was.get(tank.name)
        if now is None or earlier is None or abs(now - earlier) <= SAME * earlier:
            continue
        kept, write = 1 - tank.lost, after.units.write
        found.append(
            f"{tank.name} has room for {write(now * kept, 'volume')} now, "
            f"{write(earlier * kept, 'volume')} before"
        )
    return "".join(f"; {one}" for one in found)


def _named(field: str) -> str:
    """Return what a field is called before its figure; how a mass is known says so itself."""
    return "" if field == "known" else f"{field.replace('_', ' ')} "


def carried_words(table: str, count: int) -> str:
    """Return what moved with a cylinder or tank, in words.

    >>> carried_words("cylinder", 5), carried_words("cylinder", 1), carried_words("tank", 2)
    (', with 5 things in it', ', with the one thing in it', ', with its works')
    """
    if not count or table not in CARRYING:
        return ""
    if table == "tank":
        return ", with its works"
    return ", with the one thing in it" if count == 1 else f", with {count} things in it"


def _typed_there(text: str, at: Ref) -> object:
    listed = cast("Sequence[Contents]", contents(text)[at.table])
    return listed[at.order].get(at.field, "")


def _length(text: str, value: object) -> str:
    """Return a length as it was read: a bare number with the unit that it has in the file."""
    units = cast("Contents", contents(text).get("units", {}))
    unit = units.get("length", "") if re.fullmatch(r"[-+]?[\d.,/ ]+", str(value)) else ""
    return f"{value} {unit}".strip()


def _others(text: str, new: str, at: Ref) -> int:
    """Return how many other pieces went with one that was moved."""
    if at.table not in CARRYING or at.field not in (*PLACES, *PLACE):
        return 0
    was, now = contents(text), contents(new)
    moved = [table for table in now if _listed(was, table, at) != _listed(now, table, at)]
    if at.table == "tank" or not moved:
        return len(moved)
    home = _listed(now, at.table)[at.order].get("name")
    return sum(one.get("inside") == home for table in now for one in _listed(now, table))


def _listed(found: Contents, table: str, but: Ref | None = None) -> "list[Contents]":
    """Return the pieces of a list, without one of them; none where it is no list."""
    listed = found.get(table)
    every = cast("list[Contents]", listed) if isinstance(listed, list) else []
    without = but.order if but is not None and but.table == table else None
    return [one for k, one in enumerate(every) if k != without]


def _along(text: str, new: str, at: Ref) -> Iterator[tuple[str, object]]:
    """Yield the other fields of a piece that changed with one of them, as they stand now."""
    if not new:
        return
    was, now = (contents(one).get(at.table) for one in (text, new))
    if not (isinstance(was, list) and isinstance(now, list) and at.number):
        return
    before, after = cast("Contents", was[at.order]), cast("Contents", now[at.order])
    for name, value in after.items():
        if name != at.field and before.get(name) != value:
            yield name, value
