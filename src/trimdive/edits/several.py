"""Several figures typed as one place: along, to port, height; or along and height."""

import re
from collections.abc import Sequence

from trimdive.boatfile import parse
from trimdive.boatfile.loading import toml
from trimdive.boatfile.ref import ref
from trimdive.edits.writing import HEIGHTS, LISTS, PLACES
from trimdive.errors import BoatFileError, UnitError
from trimdive.units import read

PARTED = re.compile(r"\s*[;\t]\s*|,\s+|\s+/\s+")  # figures of a place
FIGURE = re.compile(r"[-+−]?\d[\d.,]*(?:\s*[^\W\d_]+|\s*[\"'″′])?")
BARE = re.compile(r"[-+−]?[\d.,/ ]+")  # a number without a unit


def figures(typed: str, unit: str | None) -> list[str]:
    """Return the lengths that are typed one after another, each as typed.

    Args:
        typed: Such as "612, 0, 45", "612 45", "24 1/2 in; 3 in". A unit after the last counts for
            those without one.
        unit: Of a bare number.

    >>> figures("612, 0, 45", "mm"), figures("612 45 mm", "mm"), figures("24 1/2 in", "mm")
    (['612', '0', '45'], ['612 mm', '45 mm'], ['24 1/2 in'])
    >>> figures("612,5 45", "mm"), figures("612, , 45", "mm"), figures("far off", "mm")
    (['612,5', '45'], ['612', '', '45'], ['far off'])
    """
    try:
        read(typed, "length", unit)
    except UnitError:
        pass
    else:
        return [typed]
    found = _parted(typed.strip())
    last = re.search(r"[^\W\d_]+$|[\"'″′]$", found[-1])
    if last is None or len(found) == 1:
        return found
    return [f"{one} {last[0]}" if BARE.fullmatch(one) else one for one in found]


def _parted(typed: str) -> list[str]:
    found = [one.strip() for one in PARTED.split(typed)]
    if len(found) == 1 and typed.count(",") > 1:
        found = [one.strip() for one in typed.split(",")]
    if len(found) == 1:
        found = [one.strip() for one in FIGURE.findall(typed)]
        if not found or re.sub(r"\s", "", "".join(found)) != re.sub(r"\s", "", typed):
            found = [typed]
    return found or [typed]


def place_fields(text: str, place: str, typed: str) -> dict[str, str]:
    """Return what is typed in a field by field: more than one where it is a whole place.

    Args:
        text: Text of a boat file.
        place: The field, such as "part[3].x".
        typed: What is typed there.

    Raises:
        BoatFileError: The text holds a mistake, or more than three figures are typed.
    """
    at = ref(place)
    if at.field not in PLACES or at.table not in LISTS or not re.search(r"\S[\s,;/]+\S", typed):
        return {place: typed}
    boat = parse(text)
    found = figures(typed, boat.units.own.get("length"))
    if len(found) == 1:
        return {place: typed}
    if len(found) > 3:
        what = f"'{typed}' has {len(found)} figures"
        raise BoatFileError(what, place, "Enter along, to port, height, as 612, 0, 45.")
    raw = toml(text, "text")[at.table][at.order]
    height = next((one for one in HEIGHTS if one in raw), "z")
    given = as_fields(found, at.field, height, is_aside="y" in raw)
    return {f"{at.piece}.{field}": one for field, one in given.items()}


def as_fields(
    found: Sequence[str], along: str = "x", height: str = "z", *, is_aside: bool = False
) -> dict[str, str]:
    """Return two or three figures of a place by their fields, those that are empty left out.

    Args:
        found: Along and height, or along, to port, height.
        along: The field for the first.
        height: And for the last.
        is_aside: Whether the piece lies to a side; else 0 to port is left out.

    >>> as_fields(["612", "0", "45"]), as_fields(["612 mm", "45 mm"])
    ({'x': '612', 'z': '45'}, {'x': '612 mm', 'z': '45 mm'})
    """
    port = found[1] if len(found) == 3 else ""
    if not is_aside and port.split()[:1] == ["0"]:
        port = ""
    given = {along: found[0], "y": port, height: found[-1]}
    return {field: one for field, one in given.items() if one}
