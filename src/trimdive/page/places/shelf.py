"""Shelf: the boats, a new one, what was promised, variants side by side, versions before."""

import shutil
from typing import TYPE_CHECKING, cast

from starlette.responses import HTMLResponse, JSONResponse

from trimdive.errors import BoatFileError, TrimdiveError
from trimdive.geometry.meshes.guess import UNITS
from trimdive.page.asked import slider_of
from trimdive.page.bringing import Arrived, arrived
from trimdive.page.desk import Note, Slider
from trimdive.page.form import Typed, field_of
from trimdive.page.keeping import Files, plans_beside
from trimdive.page.newboat import Way, begun, made, tape_text
from trimdive.page.newtanks import is_short
from trimdive.page.places.place import Place, Take, View
from trimdive.page.places.shelf_brief import brief_view, toggle_water
from trimdive.page.places.shelf_cards import card_of, cards, versions
from trimdive.page.places.shelf_new import growing, new_view
from trimdive.page.places.shelf_variants import as_she_is, compared, known_variants
from trimdive.page.shelf import demo_text, folder_name
from trimdive.page.templating import rendered
from trimdive.page.variants import shelf_of
from trimdive.page.walk import strip_of, taken_up, walked
from trimdive.text.first_boat import first_boat
from trimdive.why import keys

if TYPE_CHECKING:
    from starlette.requests import Request

    from trimdive.page.desk import Desk
    from trimdive.page.shelf import Shelf
    from trimdive.page.workshop import Workshop


def _workshop(desk: "Desk") -> "tuple[Workshop, Shelf]":
    """Return the workshop and its shelf.

    Raises:
        BoatFileError: There is none: only the boat that was named.
    """
    if desk.workshop is None or desk.workshop.shelf is None:
        raise BoatFileError("there is no shelf here", desk.path.name, "Start it as: trimdive")
    return desk.workshop, desk.workshop.shelf


def _view(desk: "Desk", typed: Typed) -> View:
    _, shelf = _workshop(desk)
    is_asked = typed.get("act") == "shelf begin"  # she was to be added, and is still being entered
    return {
        "folder": str(shelf.folder),
        "mesh_units": tuple(UNITS),
        "mesh_unit": field_of(typed, "bring-unit"),
        "cards": cards(desk, shelf),
        "new": new_view(typed, is_asked=is_asked, is_twice=is_asked and is_twice(shelf, typed)),
        "brief": brief_view(desk),
        "variants": known_variants(desk),
        "versions": versions(desk),
        "as_name": field_of(typed, "as-name"),
        "variant_name": field_of(typed, "variant-name"),
        "may_walk": taken_up(desk),
    }


def _open(desk: "Desk", typed: Typed) -> None:
    workshop, shelf = _workshop(desk)
    workshop.open(shelf.file_of(typed["which"]))
    workshop.desk.note = Note(kind="done", text=f"{workshop.desk.her.boat.name} is on the page.")


def is_twice(shelf: "Shelf", typed: Typed) -> bool:
    """Return whether a boat of the name that was entered lies on the shelf already."""
    name = field_of(typed, "new-name")
    return bool(name) and folder_name(name) in shelf.names()


def _begin(desk: "Desk", typed: Typed) -> None:
    """Put a new boat on the shelf, and show her."""
    workshop, shelf = _workshop(desk)
    way: Way = "figures" if field_of(typed, "new-way") == "figures" else "tape"
    found = begun(way, typed)
    if not found.is_complete:
        left = found.of - found.read
        what = "one figure is wrong" if found.wrong else f"{left} of {found.of} figures are missing"
        raise BoatFileError(what, "the new boat", "See the notes beside the fields.")
    starter = made(found)
    if is_twice(shelf, typed):
        what = f"{starter.boat.name} is on the shelf already"
        raise BoatFileError(what, "her name", "Enter another name, then add her again.")
    beside = {"tape.toml": tape_text(found)} if found.readings else {}
    workshop.open(shelf.put(starter.boat.name, first_boat(starter), beside))
    dives = "but her tanks are too small to dive" if is_short(starter) else "and dives"
    says = (
        f"{starter.boat.name} is on the shelf. She floats {dives}; every mass is guessed until "
        "you have weighed it."
    )
    workshop.desk.note = Note(kind="done", text=says)


def _save_as(desk: "Desk", typed: Typed) -> None:
    """Put what is shown on the shelf under another name, and go on with that."""
    workshop, shelf = _workshop(desk)
    name = _name(typed, "as-name")
    text, files = desk.written()
    workshop.open(shelf.put(name, text, files | _plans(desk)))
    workshop.desk.note = Note(kind="done", text=f"Saved as {workshop.desk.path.parent.name}.")


def _variant(desk: "Desk", typed: Typed) -> None:
    """Put what is shown by as a variant, and go on with the boat."""
    text, files = desk.written()
    kept = shelf_of(desk.path).put(_name(typed, "variant-name"), text, files | _plans(desk))
    desk.note = Note(kind="done", text=f"Saved as variant {kept.parent.name}.")


def _take_variant(desk: "Desk", typed: Typed) -> None:
    """Show a variant as the boat; one step of Undo."""
    from trimdive.page.desk import opened

    other = opened(shelf_of(desk.path).file_of(typed["which"]))
    text, files = other.written()
    desk.edit(f"variant {typed['which']} applied", text, files)


def _plans(desk: "Desk") -> Files:
    """Return what goes along with her beside what she is calculated of."""
    return plans_beside(desk.path, desk.own.her.boat)


def _name(typed: Typed, field: str) -> str:
    """Return a name that was typed.

    Raises:
        BoatFileError: None was.
    """
    if not (name := field_of(typed, field)):
        raise BoatFileError("no name entered", "the name", "Enter a name.")
    return name


def _version(desk: "Desk", typed: Typed) -> None:
    """Open an earlier version as a boat of its own; the boat stays as she is."""
    workshop, shelf = _workshop(desk)
    found = {one.file: one for one in versions(desk)}.get(typed["which"])
    if found is None:
        raise BoatFileError("there is no such earlier version", typed["which"], "Look again.")
    text = found.path.read_text("utf-8")
    _, files = desk.written()
    name = f"{desk.path.parent.name} {found.when}"
    workshop.open(shelf.put(name, text, files | _plans(desk)))
    says = f"This is how she was, {found.when}, as a separate boat."
    workshop.desk.note = Note(kind="done", text=says)


def _bring(desk: "Desk", _: str, __: bytes, found: object) -> None:
    """Put a boat on the shelf that was dropped or chosen, as she was read."""
    workshop, shelf = _workshop(desk)
    assert isinstance(found, Arrived)
    file = shelf.put(found.brought.name, found.brought.text, found.brought.files)
    try:
        workshop.open(file, found.her)
    except TrimdiveError:
        shutil.rmtree(file.parent, ignore_errors=True)
        raise
    workshop.desk.note = Note(kind="done", text=found.brought.says)


def _boat(desk: "Desk", asked: "Request") -> HTMLResponse:
    _, shelf = _workshop(desk)
    with desk.first():
        card = card_of(shelf, asked.query_params.get("which", ""), desk.units)
    return HTMLResponse(rendered("places/shelf_card.html", card=card))


def _growing(desk: "Desk", asked: "Request") -> JSONResponse:
    with desk.first():
        found = growing(dict(asked.query_params))
    html = rendered("places/shelf_growing.html", new=found)
    wrong = {**found.doubts, **found.wrong}
    return JSONResponse({"html": html, "wrong": wrong, "guesses": found.guesses})


def _compared(desk: "Desk", _: "Request") -> HTMLResponse:
    with desk.working():
        own, known = as_she_is(desk), keys(desk.her)
    with desk.first():
        table = compared(desk.path, own)
    return HTMLResponse(rendered("places/shelf_compared.html", table=table, keys=known))


def _slid(desk: "Desk", asked: "Request") -> HTMLResponse:
    """Tell the walk how far she was slid; return its strip as it is then."""
    with desk.working():
        typed = dict(asked.query_params)
        walked(desk, typed.get("filling", ""))
        walk = strip_of(desk, slider_of(typed))
        return HTMLResponse(rendered("walk_strip.html", walk=walk, root=desk.root))


def _leave_walk(desk: "Desk", _: Typed) -> None:
    workshop, shelf = _workshop(desk)
    workshop.has_left = True
    shelf.remember(walk="left")


def _take_up_walk(desk: "Desk", typed: Typed) -> None:
    """Begin the tour again: the boat as she was bought, at its first step, beside her handle."""
    workshop, shelf = _workshop(desk)
    text, files = demo_text()
    if text != desk.written()[0]:
        desk.edit("as bought, for the tour", text, files)
    workshop.has_left, workshop.slid_up, workshop.slides = False, False, ()
    desk.slider = Slider()
    cast("dict[str, str]", typed)["place"] = "right"  # which is shown then
    shelf.remember(walk="")


SHELF = Place(
    key="shelf",
    name="Shelf",
    answers="Boats, a new one, the brief, variants side by side",
    view=_view,
    acts={
        "open": _open,
        "begin": _begin,
        "save-as": _save_as,
        "variant": _variant,
        "take-variant": _take_variant,
        "version": _version,
        "water": toggle_water,
        "leave-walk": _leave_walk,
        "take-up-walk": _take_up_walk,
    },
    asks={"boat": _boat, "growing": _growing, "compared": _compared, "slid": _slid},
    takes={
        "in": Take(
            reads=arrived, takes=_bring, given=lambda _, typed: (typed.get("bring-unit", ""),)
        )
    },
    is_open=lambda desk: desk.workshop is not None and desk.workshop.shelf is not None,
)
