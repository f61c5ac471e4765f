"""Photographs of the boat afloat, in the Tub: brought, marked, recorded as readings."""

import datetime
from pathlib import PurePosixPath
from typing import TYPE_CHECKING

from starlette.responses import HTMLResponse, JSONResponse, PlainTextResponse, Response

from trimdive.boatfile import append, remove
from trimdive.edits.photographed import earlier, with_photographed
from trimdive.errors import TrimdiveError
from trimdive.page.form import Typed, number_in
from trimdive.page.marking import done
from trimdive.page.photographing import (
    OPEN,
    asked_shot,
    found_of,
    of_one_state,
    open_photo,
    state_of,
)
from trimdive.page.places.board_trace import Read, kept_beside, names, read_plan, square_of
from trimdive.page.places.place import Take
from trimdive.page.places.tub_photo_view import panel_view, shot_view, sum_view
from trimdive.page.templating import rendered
from trimdive.text.sentence import beside_field

if TYPE_CHECKING:
    from starlette.requests import Request

    from trimdive.page.desk import Desk

WRONG = "photograph that was refused"
LONGEST = 60  # letters of a photograph's name [-]


def _take(desk: "Desk", name: str, data: bytes, found: object) -> None:
    """Keep a picture beside the boat file, name it there, and open it."""
    del data
    desk.kept.pop(WRONG, None)
    if not isinstance(found, Read):
        return
    if found.wrong:
        desk.kept[WRONG] = f"{name}: {found.wrong}"
        return
    stem = PurePosixPath(name).stem.strip() or "photograph"
    photos = desk.own.her.boat.photos
    taken = {one.name for one in photos}
    called = next(one for one in names(stem[:LONGEST], " ") if one not in taken)
    today = datetime.datetime.now().astimezone().date().isoformat()
    fields = {**kept_beside(desk, "photo", called, found), "date": today}
    desk.edit(f"photograph {called} added", append(desk.written()[0], "photo", fields))
    desk.kept[OPEN] = len(photos) + 1


def _open(desk: "Desk", typed: Typed) -> None:
    desk.kept[OPEN] = number_in(typed["which"])
    desk.kept.pop(WRONG, None)


def _close(desk: "Desk", _: Typed) -> None:
    desk.kept[OPEN] = 0


def _drop(desk: "Desk", typed: Typed) -> None:
    """Take a photograph out of the boat file, with what was recorded by it; its files stay.

    Raises:
        TrimdiveError: The file cannot be read then.
    """
    which, boat = typed["which"], desk.own.her.boat
    if not which.isdecimal() or not 0 < int(which) <= len(boat.photos):
        return
    photo, text = boat.photos[int(which) - 1], desk.written()[0]
    for number in reversed(earlier(boat, (photo.name,))):
        text = remove(text, f"reading[{number}]")
    desk.edit(f"photograph {photo.name} removed", remove(text, f"photo[{which}]"))
    desk.kept[OPEN] = 0


def _record(desk: "Desk", _: Typed) -> None:
    """Write what the photographs of one state come to into the boat file, as readings."""
    desk.kept.pop(WRONG, None)
    opened = open_photo(desk)
    try:
        shot, her = asked_shot(desk), desk.own.her
        if opened is None:
            return
        found = found_of(her, desk.kept, of_one_state(desk, shot, opened[1]))
        tanks, date = state_of(shot.marks), opened[1].date.isoformat()
        text = with_photographed(desk.written()[0], her.boat, found.lies, found.names, date, tanks)
        desk.edit(f"readings from {' and '.join(found.names)}", text)
        desk.kept[OPEN] = 0
    except TrimdiveError as error:
        desk.kept[WRONG] = beside_field(error)


def shown(desk: "Desk") -> dict[str, object]:
    """Return all that the Tub shows of photographs, and the one that is open."""
    found, boat = open_photo(desk), desk.own.her.boat
    view: dict[str, object] = {
        "photos": [
            (one.name, one.date.isoformat(), bool(earlier(boat, (one.name,))))
            for one in boat.photos
        ],
        "wrong": str(desk.kept.get(WRONG, "")),
        "open": None,
    }
    if found is not None:
        try:
            view["open"] = shot_view(desk, *found, str(desk.kept.get(WRONG, "")))
        except TrimdiveError as error:
            view["wrong"], desk.kept[OPEN] = str(error), 0
    return view


def did(desk: "Desk", typed: Typed) -> Response:
    """Do what was asked of a photograph, and show what comes of it."""
    with desk.working():
        shot, wrong = asked_shot(desk), ""
        try:
            done(shot, typed)
        except TrimdiveError as error:
            wrong = beside_field(error)
        view = panel_view(desk, shot, wrong)
        html = rendered("places/photo_panel.html", panel=view)
        return JSONResponse({"html": html, "state": view["state"]})


def _tile(desk: "Desk", request: "Request") -> Response:
    """Return a square of the picture."""
    with desk.working():
        tiles = asked_shot(desk).tiles
    return square_of(tiles, request)


def _sum(desk: "Desk", _: "Request") -> Response:
    """Return how she lies by the marks: it takes a second, so it is asked for by itself."""
    with desk.working():
        opened = open_photo(desk)
        if opened is None:
            return PlainTextResponse("No photograph is open.", status_code=404)
        shot, her, kept = asked_shot(desk), desk.own.her, desk.kept
        boat = desk.her.boat
        try:
            taken = of_one_state(desk, shot, opened[1])
        except TrimdiveError as error:
            return HTMLResponse(rendered("places/photo_sum.html", wrong=beside_field(error)))
    try:
        found = found_of(her, kept, taken)
    except TrimdiveError as error:
        return HTMLResponse(rendered("places/photo_sum.html", wrong=beside_field(error)))
    recorded = bool(earlier(her.boat, found.names))
    view = sum_view(boat, found, is_recorded=recorded)
    return HTMLResponse(rendered("places/photo_sum.html", wrong="", **view))


ACTS = {
    "photo-open": _open,
    "photo-close": _close,
    "photo-drop": _drop,
    "photo-record": _record,
}
ASKS = {"photo-tile": _tile, "photo-sum": _sum}
TAKES = {"photo": Take(reads=read_plan, takes=_take, given=lambda _, __: ("", ""))}
