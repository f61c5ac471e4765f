"""Scales: grams and where. The weight table, the balance beam, weigh-ins, lists in and out."""

import datetime
import json
from typing import TYPE_CHECKING, cast

from starlette.responses import Response

from trimdive.boatfile import append, parse, remove
from trimdive.boatfile.edits import replaced
from trimdive.errors import BoatFileError, TrimdiveError
from trimdive.page.form import Typed, field_of
from trimdive.page.places.place import Place, View
from trimdive.page.places.scales_beam import beam
from trimdive.page.places.scales_list import TAKE, forget, list_view, take_over
from trimdive.page.places.scales_rows import COLUMNS, LISTS, rows, totals
from trimdive.page.step import Wrong, refused_in
from trimdive.page.typed_fields import typed_in
from trimdive.pictures.drawings.svg import clean
from trimdive.weightlists import written as list_bytes

if TYPE_CHECKING:
    from starlette.requests import Request

    from trimdive.page.desk import Desk

HEADS = (
    ("name", "what"),
    ("mass", "mass"),
    ("known", "how known"),
    ("spread", "±"),
    ("x", "along"),
    ("y", "to port"),
    ("z", "height"),
    ("pull", "moment"),
)
NEW = ("new_kind", "new_name", "new_mass", "new_known", "new_x", "new_z", "new_inside", "new_of")
TYPES = {
    ".csv": "text/csv",
    ".xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
}
MOST_CELLS = 5000  # pasted at once


def _view(desk: "Desk", typed: Typed) -> View:
    her, found = desk.her, rows(desk)
    picked = field_of(typed, "picked")
    return {
        "heads": HEADS,
        "columns": COLUMNS,
        "rows": found,
        "furthest": max(
            (abs(r.mass * (r.place[0] - her.masses.gravity[0])) for r in found), default=1.0
        )
        or 1.0,
        "middle": float(her.masses.gravity[0]),
        "groups": list(dict.fromkeys(row.group for row in found)),
        "homes": [vessel.name for vessel in her.boat.cylinders],
        "totals": totals(her),
        "beam": beam(her, found, picked),
        "picked": picked,
        "sort": field_of(typed, "scales_sort"),
        "show": field_of(typed, "scales_show"),
        "find": field_of(typed, "scales_find"),
        "new": {
            name: "" if desk.kept.pop("scales new", None) else field_of(typed, name) for name in NEW
        },
        "measured": her.boat.entered_from,
        "weighed": _weighed(desk),
        "weighing": {name: field_of(typed, f"weighed_{name}") for name in ("date", "mass", "note")},
        "today": datetime.date.today().isoformat(),
        "list": list_view(desk),
    }


def _weighed(desk: "Desk") -> list[dict[str, str]]:
    """Return what the scale said day by day, held against the day before and against the list."""
    her, given, before = desk.her, [], None
    write = her.boat.units.write
    dated = sorted(enumerate(her.boat.weigh_ins, 1), key=lambda pair: pair[1].date)
    for number, one in dated:
        off = one.mass - her.masses.dry
        grew = None if before is None else one.mass - before
        given.append(
            {
                "path": f"weigh_in[{number}]",
                "date": one.date.isoformat(),
                "mass": write(one.mass, "mass"),
                "grew": "" if grew is None else f"{write(abs(grew), 'mass')} {_more(grew)}",
                "off": f"{write(abs(off), 'mass')} {_more(off)} than the list now",
                "note": one.note,
            }
        )
        before = one.mass
    return given


def _more(value: float) -> str:
    return "more" if value >= 0 else "less"


def _paste(desk: "Desk", typed: Typed) -> None:
    """Put what was pasted into several cells: all of it, or nothing and why beside the cell."""
    cells = _cells(typed.get("cells", ""))
    text, _ = desk.written()
    for field, value in cells:
        try:
            text = replaced(text, field, value)
        except TrimdiveError as error:
            desk.wrong = refused_in(field, value, error)
            return
    try:
        desk.edit(f"{len(cells)} cells pasted", text)
    except TrimdiveError as error:
        desk.wrong = _which(desk, cells) or Wrong(field="", typed="", says=str(error))
        if not desk.wrong.field:
            raise


def _cells(text: str) -> list[tuple[str, str]]:
    """Return fields and what is pasted into them, as the page's script sends them.

    Raises:
        BoatFileError: It is none of that.
    """
    try:
        found = json.loads(text)
        cells = [(str(one["field"]), str(one["typed"]).strip()) for one in found]
    except (ValueError, TypeError, KeyError, IndexError):
        raise BoatFileError("that cannot be pasted", "the table", "Copy whole cells.") from None
    if not cells or len(cells) > MOST_CELLS:
        what = f"{len(cells)} cells are pasted" if cells else "nothing that was pasted has a cell"
        raise BoatFileError(what, "the table", "Start at a cell that can be edited.")
    return cells


def _which(desk: "Desk", cells: list[tuple[str, str]]) -> Wrong | None:
    """Return the first of several cells with which the file holds a mistake."""
    text, _ = desk.written()
    for field, value in cells:
        text = replaced(text, field, value)
        try:
            parse(text, desk.path.name)
        except TrimdiveError as error:
            return refused_in(field, value, error)
    return None


def _add(desk: "Desk", typed: Typed) -> None:
    """Put a new part, or a piece of lead or foam, into the list."""
    kind = field_of(typed, "new_kind")
    name = field_of(typed, "new_name") or f"{kind} {len(typed_in(desk, kind)) + 1}"
    fields = {
        "name": name,
        "mass": field_of(typed, "new_mass"),
        "known": field_of(typed, "new_known"),
        "x": field_of(typed, "new_x"),
        "z": field_of(typed, "new_z"),
        "inside": field_of(typed, "new_inside") if kind == "part" else "",
        "material": field_of(typed, "new_of") if kind == "part" else "",
    }
    if kind not in ("part", "lead", "foam"):
        raise BoatFileError(f"'{kind}' cannot be added", "the new row", "Choose one.")
    text, _ = desk.written()
    text = append(text, kind, {key: value for key, value in fields.items() if value})
    desk.edit(f"{name} added", text)
    desk.kept["scales new"] = True


def _path(typed: Typed) -> tuple[str, int]:
    """Return the list and number of the row that was pressed.

    Raises:
        BoatFileError: It names none that can be taken out or doubled.
    """
    kind, _, rest = typed["which"].partition("[")
    number = rest.removesuffix("]")
    if kind not in (*LISTS, "weigh_in") or not number.isdecimal():
        raise BoatFileError(f"there is no '{typed['which']}'", "the table", "Try again.")
    return kind, int(number)


def _out(desk: "Desk", typed: Typed) -> None:
    """Take a row out."""
    kind, number = _path(typed)
    named = typed_in(desk, kind)[number - 1 : number]
    text, _ = desk.written()
    name = str(named[0].get("name", f"{kind} {number}")) if named else typed["which"]
    desk.edit(f"{name} removed", remove(text, f"{kind}[{number}]"))


def _double(desk: "Desk", typed: Typed) -> None:
    """Put the same thing in once more."""
    kind, number = _path(typed)
    piece = typed_in(desk, kind)[number - 1]
    if any(isinstance(value, dict) for value in piece.values()):
        what = "it was weighed by its two ends, or has more than one line"
        raise BoatFileError(
            what, str(piece.get("name", kind)), "Add the second one in the boat file."
        )
    names = {str(one.get("name", "")) for one in typed_in(desk, kind)}
    base = str(piece.get("name", kind))
    name = next(f"{base} {k}" for k in range(2, len(names) + 3) if f"{base} {k}" not in names)
    text, _ = desk.written()
    fields = cast("dict[str, str]", {**piece, "name": name})
    desk.edit(f"{name} added", append(text, kind, fields))


def _weigh(desk: "Desk", typed: Typed) -> None:
    """Put down what the scale said."""
    fields = {"date": field_of(typed, "weighed_date"), "mass": field_of(typed, "weighed_mass")}
    for what, value in fields.items():
        if not value:
            raise BoatFileError(f"the {what} is missing", "the weigh-in", "Enter it.")
    try:
        day = datetime.date.fromisoformat(fields["date"])
    except ValueError:
        what = f"there is no date '{fields['date']}'"
        raise BoatFileError(what, "the weigh-in", "Enter it as 2026-05-17.") from None
    text, _ = desk.written()
    note = field_of(typed, "weighed_note")
    more = {"note": note} if note else {}
    new = append(text, "weigh_in", {"date": day.isoformat(), "mass": fields["mass"], **more})
    desk.edit(f"weighed {fields['mass']}", new)


def _export(desk: "Desk", request: "Request") -> Response:
    """Return the list for the spreadsheet."""
    suffix = f".{request.query_params.get('as', 'csv')}"
    if suffix not in TYPES:
        return Response("Choose csv or xlsx.", status_code=404, media_type="text/plain")
    comma = request.query_params.get("comma") == "1"
    with desk.working():
        her = desk.her
        data = list_bytes(her.masses, her.boat.units, suffix, decimal_comma=comma)
    name = (
        "".join(c if c.isalnum() and c.isascii() else "-" for c in her.boat.name).strip("-").lower()
    )
    header = f'attachment; filename="{clean(name) or "boat"}-weights{suffix}"'
    return Response(data, media_type=TYPES[suffix], headers={"content-disposition": header})


SCALES = Place(
    key="scales",
    name="Scales",
    answers="Masses and positions: every part, weigh-ins, lists in and out",
    view=_view,
    acts={
        "paste": _paste, "add": _add, "out": _out, "double": _double, "weigh": _weigh,
        "over": take_over, "forget": forget,
    },
    asks={"export": _export},
    takes={"list": TAKE},
)  # fmt: skip
