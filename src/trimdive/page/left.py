"""What a window had sent, and was not answered, as it was left: it counts all the same, once.

A window that is closed or loaded anew gives up what it waits for. It tells it all once more as it
goes, in its order; what came already is known by its name and does not count twice.
"""

import json
from collections.abc import Callable, Mapping
from functools import partial
from typing import TYPE_CHECKING, cast

from starlette.responses import Response

from trimdive.errors import TrimdiveError, fence
from trimdive.page.acts import act
from trimdive.page.asked import is_alone
from trimdive.page.entries.deeds import is_of_form
from trimdive.page.puts import MEANWHILE, TYPED, UNDONE, Put, taken_in
from trimdive.page.step import Note

if TYPE_CHECKING:
    from trimdive.page.desk import Desk
    from trimdive.page.form import Typed

MOST = 500  # of what is taken from one window [-]
EDIT = "edit"  # how a figure is sent; what is pressed is sent as "act"


def put_of(typed: "Typed", respond: "Callable[[Put], Response]") -> Put:
    """Return a figure as a window sent it.

    Args:
        typed: What it sent.
        respond: Answers it, when it is taken in or refused.
    """
    field, text, says, revision = (typed.get(key, "") for key in TYPED)
    return Put(
        field=field, typed=text, says=says, revision=revision, respond=respond,
        alone=is_alone(typed), once=typed.get("once", ""),
    )  # fmt: skip


def take_left(desk: "Desk", typed: "Typed", do: "Callable[[Typed], None]") -> None:
    """Take what a window left behind, one after another.

    Args:
        desk: The boat; another than the window showed is left alone.
        typed: What the window held: "left" is a list in JSON, "boat" her name, "revision" hers.
        do: Does what was pressed.
    """
    with desk.working():
        is_hers = typed.get("boat") == desk.own.her.boat.name
        shared = {key: text for key, text in typed.items() if key not in ("left", "boat")}
        revision = typed.get("revision", "")
        for one in _listed(typed.get("left", "")) if is_hers else ():
            once = one.get("once", "")
            if once not in desk.heard:
                _take(desk, shared | one | {"revision": revision}, do)
            before, after = desk.heard.get(once, (0, 0))
            if str(before) == revision:  # then what was changed since is the window's own
                revision = str(after)


def _take(desk: "Desk", sent: "Typed", do: "Callable[[Typed], None]") -> None:
    if sent.get("is") != EDIT:
        do(sent)
        return
    put = put_of(sent, lambda put: _told(desk, put))
    desk.puts.append(put)
    taken_in(desk, put)


def _told(desk: "Desk", put: Put) -> Response:
    """Leave what came of a figure for the next that is shown."""
    desk.note, desk.wrong = put.note or desk.note, put.wrong or desk.wrong
    return Response()


def _listed(text: str) -> "list[dict[str, str]]":
    """Return what a window left behind; nothing where that cannot be read."""
    try:
        found = json.loads(text)
    except ValueError:
        return []
    listed = cast("list[object]", found)[:MOST] if isinstance(found, list) else []
    dicts = [cast("Mapping[object, object]", one) for one in listed if isinstance(one, dict)]
    return [{str(key): str(value) for key, value in one.items()} for one in dicts]


def do_once(desk: "Desk", typed: "Typed", work: "Callable[[Desk], None] | None" = None) -> None:
    """Do what was asked for, unless it came already or she was changed meanwhile; and save."""
    once, before = typed.get("once", ""), desk.revision
    if desk.heard.is_known(once, before):
        return
    is_late = typed.get("revision") != str(desk.revision)
    if is_late and not is_of_form(typed.get("act", "")):
        desk.note = Note(kind="refused", text=MEANWHILE)
    else:
        try:
            with fence("that cannot be calculated for her", desk.path.name, UNDONE):
                (work or partial(act, typed=dict(typed)))(desk)
        except TrimdiveError as error:
            desk.note = Note(kind="refused", text=str(error))
    desk.heard.done(once, before, desk.revision)
    desk.keep()  # an edit answered is an edit saved
