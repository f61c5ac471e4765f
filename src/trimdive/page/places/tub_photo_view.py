"""What the Tub shows of a photograph that is open: its points, the waterline, how she lies."""

from typing import TYPE_CHECKING

import numpy as np

from trimdive.errors import TrimdiveError
from trimdive.page.photographing import MARK, known_line, open_photo, shot_of, state_of
from trimdive.page.places.board_trace_view import FieldView, ThingView
from trimdive.plans.marks import KNOWN, Marks
from trimdive.text.photo_words import (
    PLACES,
    counted,
    fit_words,
    further_words,
    heel_words,
    next_click,
    point_name,
    rows,
    still_missing,
    thing_name,
    together_words,
)
from trimdive.text.sentence import beside_field
from trimdive.trials.photographs.marked import is_told

if TYPE_CHECKING:
    from trimdive.boatfile import Boat, Photo
    from trimdive.page.desk import Desk
    from trimdive.page.photographing import Found, Shot

FINEST = 1  # decimals of a pixel that the page draws
HINTS = {"x": "along", "z": "up", "y": "out"}


def shot_view(desk: "Desk", number: int, photo: "Photo", wrong: str) -> dict[str, object]:
    """Return all that the page shows of the photograph that is open.

    Args:
        desk: The boat; whoever calls holds its lock.
        number: Of the photograph, from one.
        photo: The photograph.
        wrong: Why it was not recorded; "" where it was not refused.

    Raises:
        TrimdiveError: The picture or its marks cannot be read.
    """
    return {
        "number": number,
        "name": photo.name,
        "close": "tub photo-close",
        "of": "photo",
        "tiles": "/tub/photo-tile",
        "sum": "/tub/photo-sum",
        "whole": "Whole picture",
        "template": "places/photo_panel.html",
        "panel": {**panel_view(desk, shot_of(desk, photo), ""), "refused": wrong},
    }


def panel_view(desk: "Desk", shot: "Shot", wrong: str) -> dict[str, object]:
    """Return what is marked, and what the picture is drawn over with.

    Args:
        desk: The boat; whoever calls holds its lock.
        shot: The photograph.
        wrong: Why what was asked last was refused; "" where it was not.
    """
    marks, boat = shot.marks, desk.own.her.boat
    points = [key for key in KNOWN if marks.of(key) or key == shot.active or _is_begun(marks, key)]
    for key in KNOWN[:2]:
        if key not in points:
            points.append(key)
    try:
        tanks = ""
        state_of(marks)
    except TrimdiveError as error:
        tanks = beside_field(error)
    return {
        "shows": marks.said("shows"),
        "known": marks.said("known"),
        "tanks": marks.said("tanks"),
        "tanks_wrong": tanks,
        "places": [
            ("", "typed in"),
            *((f"{MARK}{one.name}", one.name) for one in boat.marks),
            *PLACES.items(),
        ],
        "points": [_point(shot, key, boat) for key in sorted(points, key=KNOWN.index)],
        "line": _thing(shot, "waterline", ()),
        "missing": still_missing(marks),
        "refused": "",
        "state": {**_state(desk, shot), "refused": wrong},
    }


def _is_begun(marks: Marks, key: str) -> bool:
    return any(marks.said(f"{key}-{what}") for what in ("at", "x", "z", "y"))


def _point(shot: "Shot", key: str, boat: "Boat") -> tuple[ThingView, str]:
    """Return a point that is marked, and at which place of hers it is said to be."""
    marks = shot.marks
    unit = boat.units.length or "mm"
    fields = tuple(
        FieldView(
            key=f"{key}-{axis}",
            label=f"{thing_name(key)}: {hint}",
            value=marks.said(f"{key}-{axis}"),
            hint=f"{hint}, {unit}" if axis != "y" else "out",
            wrong="",
        )
        for axis, hint in HINTS.items()
    )
    return _thing(shot, key, fields), marks.said(f"{key}-at")


def _thing(shot: "Shot", key: str, fields: tuple[FieldView, ...]) -> ThingView:
    marks = shot.marks
    whole = is_told(marks, key) if key in KNOWN else len(marks.of(key)) > 1
    return ThingView(
        key=key,
        name=thing_name(key),
        says=counted(marks, key),
        is_active=shot.active == key,
        is_begun=bool(marks.of(key)),
        is_whole=whole,
        is_spare=False,
        fields=fields,
        note="",
        wrong="",
        is_going=False,
    )


def _state(desk: "Desk", shot: "Shot") -> dict[str, object]:
    """Return what the page draws over the picture, in pixels."""
    marks, opened = shot.marks, open_photo(desk)
    things = {
        key: [
            (*one.at, one.on_ink, point_name(key, number, len(points)))
            for number, one in enumerate(points, 1)
        ]
        for key, points in marks.points.items()
    }
    line = known_line(desk, shot, opened[1]) if opened else np.zeros((0, 2))
    return {
        "size": shot.tiles.size,
        "active": shot.active,
        "named": thing_name(shot.active),
        "says": next_click(marks, shot.active),
        "asked": _asked(shot),
        "things": things,
        "drawn": {"water": line.round(FINEST).tolist()} if len(line) else {},
        "spots": [],
        "undo": bool(shot.past),
        "redo": bool(shot.future),
        "hull": not still_missing(marks),
    }


def _asked(shot: "Shot") -> str:
    """Return which figure is to be typed now; "" for none."""
    key, marks = shot.active, shot.marks
    if key not in KNOWN or not marks.is_whole(key):
        return ""
    return next((f"{key}-{axis}" for axis in "xz" if not marks.said(f"{key}-{axis}")), "")


def sum_view(boat: "Boat", found: "Found", *, is_recorded: bool) -> dict[str, object]:
    """Return how she lies by the photographs, in words and figures."""
    sight = found.shown.sight
    return {
        "rows": rows(boat, found.lies),
        "fit": fit_words(boat, found.shown),
        "agrees": sight.agrees and found.lies.agree,
        "lines": [
            text
            for text in (
                together_words(boat, found.lies, found.names, found.waiting),
                further_words(boat, found.shown.further),
                heel_words(boat, found.lies),
            )
            if text
        ],
        "is_recorded": is_recorded,
        "drawn": {"water": sight.drawn.round(FINEST).tolist()},
    }
