"""What the buttons of the page do, by what they send."""

from collections.abc import Callable

from trimdive.errors import TrimdiveError
from trimdive.page import reading
from trimdive.page.asked import moved
from trimdive.page.desk import Desk
from trimdive.page.entries.deeds import WORD as FORM
from trimdive.page.entries.deeds import entry_act
from trimdive.page.panel import HAND
from trimdive.page.places import PLACES, Typed
from trimdive.page.step import refused_in

ACTS: dict[str, Callable[[Desk], None]] = {
    "undo": Desk.undo,
    "redo": Desk.redo,
    "save": Desk.save,
    "load again": Desk.load_again,
    "save a copy": Desk.save_copy,
    "stop reading": reading.stop,
}


def act(desk: Desk, typed: dict[str, str]) -> None:
    """Do what was pressed; what follows a place's own word is given to it as "which".

    Raises:
        TrimdiveError: It cannot be done; she is as she was.
    """
    pressed = typed.get("act", "")
    first, _, rest = pressed.partition(" ")
    if first == "do":
        desk.do(rest)
    elif first == "move":
        _move(desk, rest, typed)
    elif first == FORM:
        entry_act(desk, rest, typed)
    elif pressed in ACTS:
        ACTS[pressed](desk)
    elif first in PLACES:
        acts = PLACES[first].acts
        word = rest if rest in acts else rest.partition(" ")[0]
        if word in acts:
            given = {**typed, "which": rest[len(word) :].strip()}
            acts[word](desk, given)
            typed["place"] = given.get("place", "")  # what was pressed may go elsewhere


def _move(desk: Desk, path: str, typed: Typed) -> None:
    """Move a thing; where its place was typed in its panel, what is wrong stands beside that.

    Raises:
        TrimdiveError: It cannot be moved so.
    """
    try:
        desk.make(*moved(desk.own.her, path, typed))
    except TrimdiveError as error:
        if typed.get(HAND) != "1":
            raise
        desk.wrong = refused_in(typed.get("field", ""), typed.get("place_x", ""), error)
