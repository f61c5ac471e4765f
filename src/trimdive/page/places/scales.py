"""Scales: grams and where. The weight table, the balance beam, weigh-ins, lists in and out."""

import datetime
from typing import TYPE_CHECKING

from starlette.responses import Response

from trimdive.boatfile import append, remove
from trimdive.errors import BoatFileError
from trimdive.page.form import Typed, field_of
from trimdive.page.places.place import Place, View
from trimdive.page.places.scales_beam import beam
from trimdive.page.places.scales_cells import ADDED, add, fill, paste, weighed
from trimdive.page.places.scales_list import TAKE, forget, list_view, take_over
from trimdive.page.places.scales_rows import COLUMNS, LISTS, rows, totals
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
    ("inside", "in"),
    ("pull", "moment"),
)
TYPES = {
    ".csv": "text/csv",
    ".xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
}


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
        "added": desk.kept.pop(ADDED, None),
        "known": ("guess", "catalogue", "weighed"),
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
        "paste": paste, "fill": fill, "weighed": weighed, "rows": add, "out": _out, "weigh": _weigh,
        "over": take_over, "forget": forget,
    },
    asks={"export": _export},
    takes={"list": TAKE},
)  # fmt: skip
