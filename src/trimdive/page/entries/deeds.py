"""What is pressed in a form and on the doors to it: opened, saved, removed, doubled, left."""

import re
from typing import TYPE_CHECKING, Any

from trimdive.boatfile import append, parse
from trimdive.boatfile.filled import count_of, filled, text_of
from trimdive.boatfile.form import tables
from trimdive.boatfile.ref import Ref
from trimdive.boatfile.whole import piece_at, renamed, with_piece, without_piece
from trimdive.edits.carried import MOVED, carrying
from trimdive.edits.rehoused import WEIGHED, replaces_guess
from trimdive.errors import BoatFileError, TrimdiveError, fence
from trimdive.page.entries.along import with_plant
from trimdive.page.entries.draft import (
    Draft,
    asked,
    begun,
    closed,
    keep,
    kept,
    last_at,
    sent,
    still_open,
)
from trimdive.page.entries.groups import label, name_of
from trimdive.page.entries.view import groups_of
from trimdive.page.form import Typed, field_of
from trimdive.page.puts import UNDONE
from trimdive.page.step import Note
from trimdive.page.typed_fields import contents, typed_in
from trimdive.text.say import listed
from trimdive.text.sentence import beside_field, capital

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from trimdive.page.desk import Desk

WORD = "entry"  # begins what the buttons of forms send
OPEN = "entry open"  # where the form that is to be shown is kept until the page is answered
MOST = 3  # fields or pieces that are named in what was done [-]
SAME = "Nothing was changed in it."
ROW = re.compile(r"(.*)\[(\d{1,4})\]")


def open_at(desk: "Desk", typed: Typed, place: str) -> Draft | None:
    """Return the form that is open over a place; where a place is gone to, the one left there."""
    if OPEN in desk.kept:
        found = desk.kept.pop(OPEN)
        return found if isinstance(found, Draft) else None
    draft = still_open(desk, typed)
    if draft is not None and draft.at == place:
        return draft
    return last_at(desk, place) if "act" not in typed and "field" not in typed else None


def entry_act(desk: "Desk", rest: str, typed: Typed) -> None:
    """Do what was pressed in a form, or on a door to one.

    Raises:
        TrimdiveError: It cannot be done; she is as she was.
    """
    word, _, which = rest.partition(" ")
    if word in DOORS:
        DOORS[word](desk, which, typed)
        return
    draft = sent(desk, typed)
    if draft is None or word not in DEEDS:
        raise BoatFileError("there is no such form", "the form", "Open it again.")
    held = dict(draft.typed)
    desk.kept[OPEN] = found = DEEDS[word](desk, draft, which)
    if found is None:
        closed(desk)[draft.key] = held


def is_of_form(pressed: str) -> bool:
    """Return whether a button stands in a form, which knows itself what was changed meanwhile."""
    return pressed.startswith(f"{WORD} ") and pressed.split(" ")[1] in DEEDS


def _edit(desk: "Desk", which: str, typed: Typed) -> None:
    """Open the form of a piece; the one that is half filled, where there is one."""
    named, _, fold = which.partition(" ")
    of = asked(field_of(typed, "picked") if named == "picked" else named)
    sent(desk, typed)
    place = field_of(typed, "place")
    found = kept(desk).get(str(of)) or begun(desk, of, place, {})
    found.at, found.unfolds = place, fold
    if any(one.key == fold and one.kind == "table" for one in found.fields):
        found.typed[fold] = "true"
    keep(desk, found)
    desk.kept[OPEN] = found


def _add(desk: "Desk", which: str, typed: Typed) -> None:
    """Open the form of a new piece: "tank", or "tank kind=piston"."""
    named, *given = which.split(" ", 1)
    of, place = asked(named), field_of(typed, "place")
    sent(desk, typed)
    new = Draft(of=of, at=place, was={}, typed={})
    found = kept(desk).get(new.key)
    if found is None or given:
        pairs = [pair.partition("=") for pair in given]
        found = begun(desk, of, place, {key: text for key, _, text in pairs})
    keep(desk, found)
    desk.kept[OPEN] = found


def _remove(desk: "Desk", which: str, typed: Typed) -> None:
    """Take a piece out, with what lies in it."""
    of = asked(which)
    sent(desk, typed)
    text, others = without_piece(desk.written()[0], of)
    named, along = called(desk, of), sorted({called(desk, one) for one in others})
    few = along if len(along) <= MOST else [*along[: MOST - 1], f"{len(along) - MOST + 1} more"]
    more = f", and with it {listed(few)}" if few else ""
    desk.edit(f"{named} removed{more}", text)
    kept(desk).pop(str(of), None)
    desk.kept[OPEN] = None


def _double(desk: "Desk", which: str, typed: Typed) -> None:
    """Put the same piece in once more, under another name."""
    of = asked(which)
    piece = piece_at(contents(desk.written()[0]), of)
    if piece is None or not tables()[of.table].is_list:
        raise BoatFileError(f"there is no {which} to be doubled", "the list", "Look again.")
    new = dict(piece) | ({"name": _free_name(desk, of)} if "name" in piece else {})
    named = str(new.get("name") or name_of(of.table))
    desk.edit(f"{named} added", append(desk.written()[0], of.table, new))


def _free_name(desk: "Desk", of: Ref) -> str:
    """Return a name for a piece that is doubled which no other has."""
    names = {str(one.get("name", "")) for one in typed_in(desk, of.table)}
    base = called(desk, of)
    return next(f"{base} {k}" for k in range(2, len(names) + 3) if f"{base} {k}" not in names)


def called(desk: "Desk", of: Ref) -> str:
    """Return what the builder calls a piece."""
    piece = piece_at(contents(desk.written()[0]), of) or {}
    number = f" {of.number}" if of.number else ""
    return str(piece.get("name") or f"{name_of(of.table)}{number}")


def _look(_: "Desk", draft: Draft, __: str) -> Draft:
    """Show the form again, with the fields of the kind that was chosen."""
    return draft


def _cancel(desk: "Desk", draft: Draft, __: str) -> None:
    """Leave the form; what was typed is forgotten."""
    kept(desk).pop(draft.key, None)
    desk.note = None


def _more(_: "Desk", draft: Draft, which: str) -> Draft:
    """Put one more row into a table of the form."""
    draft.typed[f"{which}[{count_of(draft.typed, which) + 1}]."] = ""
    return draft


def _less(_: "Desk", draft: Draft, which: str) -> Draft:
    """Take a row out of a table of the form."""
    found = ROW.fullmatch(which)
    if found is None:
        return draft
    path, gone = found[1], int(found[2])
    moved: dict[str, str] = {}
    for key, text in draft.typed.items():
        at = re.match(rf"{re.escape(path)}\[(\d{{1,4}})\](.*)", key)
        if at is None:
            moved[key] = text
        elif int(at[1]) != gone:
            moved[f"{path}[{int(at[1]) - (int(at[1]) > gone)}]{at[2]}"] = text
    draft.typed, draft.wrong = moved, {}
    return draft


def _again(desk: "Desk", draft: Draft, _: str) -> Draft:
    """Begin a further piece with what stands in the form."""
    of = Ref(draft.of.table)
    named = draft.typed.get("name", "")
    typed = draft.typed | ({"name": f"{named} 2"} if named else {})
    new = Draft(of=of, at=draft.at, was={}, typed=typed)
    keep(desk, new)
    return new


def _drop(desk: "Desk", draft: Draft, _: str) -> None:
    """Take the piece of the form out of the boat."""
    of = _there(desk, draft) or draft.of
    _remove(desk, str(of), {})
    kept(desk).pop(draft.key, None)


def _save(desk: "Desk", draft: Draft, _: str) -> Draft | None:
    """Write the form into the boat file, as one change; with anything wrong nothing is changed."""
    draft.wrong, draft.top, draft.both = {}, [], []
    of = _there(desk, draft)
    piece = _own(draft)
    _tidy(draft, piece)
    text = desk.written()[0]
    if of is None and not draft.is_new:
        draft.top = ["It was removed meanwhile. Save it again to add it."]
        draft.of, draft.was = Ref(draft.of.table), {}
        return draft
    of = of or Ref(draft.of.table, len(typed_in(desk, draft.of.table)) + 1)
    now = piece_at(contents(text), of)
    if now is not None and now != draft.was:
        _meet(draft, dict(now), piece)
        return draft
    try:
        with fence("with that she cannot be calculated", "the form", UNDONE):
            new = _written(desk, text, draft, of, piece)
            if new == text:
                desk.note = Note(kind="done", text=SAME)
            else:
                desk.edit(_done(desk, draft, of, piece), new)
    except TrimdiveError as error:
        _refuse(desk, draft, of, error)
        return draft
    kept(desk).pop(draft.key, None)
    return None


def wrong_in(desk: "Desk", draft: Draft) -> dict[str, str]:
    """Return what is wrong in a form as it stands, beside which field; nothing is calculated."""
    of = _there(desk, draft) or Ref(draft.of.table, len(typed_in(desk, draft.of.table)) + 1)
    try:
        parse(_written(desk, desk.written()[0], draft, of, _own(draft)), desk.path.name)
    except TrimdiveError as error:
        _refuse(desk, draft, of, error)
    return draft.wrong


def _own(draft: Draft) -> dict[str, Any]:
    """Return the piece of a form, weighed where its mass was typed over a guess."""
    piece, was = draft.piece, draft.was
    is_as_known = piece.get("known") == was.get("known")
    if was and is_as_known and replaces_guess(draft.of.table, was, piece.get("mass")):
        piece["known"] = draft.typed["known"] = WEIGHED
    return piece


def _tidy(draft: Draft, piece: "Mapping[str, Any]") -> None:
    """Close the gaps of empty rows, so that what is wrong in a row is told in that row."""
    for path in {key.partition("[")[0] for key in draft.typed if "[" in key}:
        if "." not in path and path in piece:
            for key in [key for key in draft.typed if key.startswith(f"{path}[")]:
                del draft.typed[key]
            fields = [one for one in draft.fields if one.key == path]
            draft.typed |= filled(fields, piece)


def _written(desk: "Desk", text: str, draft: Draft, of: Ref, piece: "Mapping[str, Any]") -> str:
    """Return the text of the boat file with the form's piece; what names it goes along."""
    moved = {f"{of}.{key}": text_of(piece[key]) for key in MOVED if _is_moved(draft, piece, key)}
    text = carrying(text, moved) if moved else text
    new = with_plant(with_piece(text, of, piece), desk, draft)
    before, after = str(draft.was.get("name", "")), str(piece.get("name", ""))
    return renamed(new, of.table, before, after) if before and after not in ("", before) else new


def _is_moved(draft: Draft, piece: "Mapping[str, Any]", key: str) -> bool:
    """Return whether a field of a form moves a piece that was there."""
    return bool(draft.was) and key in piece and piece[key] != draft.was.get(key)


def _there(desk: "Desk", draft: Draft) -> Ref | None:
    """Return where the piece of a form stands now; None where it is nowhere, or is new."""
    if not draft.table.is_list:
        return draft.of
    pieces = typed_in(desk, draft.of.table)
    if draft.is_new or not pieces:
        return None
    if draft.of.number <= len(pieces) and pieces[draft.of.order] == draft.was:
        return draft.of
    if draft.was in pieces:
        return Ref(draft.of.table, pieces.index(draft.was) + 1)
    for number, piece in enumerate(pieces, 1):
        if draft.was == {key: one for key, one in piece.items() if key != "name"}:
            draft.was = dict(piece)  # it was called by its number, which another had to leave
            draft.typed["name"] = draft.typed.get("name") or str(piece["name"])
            return Ref(draft.of.table, number)
    name = draft.was.get("name")
    names = [piece.get("name") for piece in pieces]
    if name is not None:
        return Ref(draft.of.table, names.index(name) + 1) if name in names else None
    return draft.of if draft.of.number <= len(pieces) else None


def _meet(draft: Draft, now: dict[str, Any], piece: "Mapping[str, Any]") -> None:
    """Say that the piece was changed elsewhere meanwhile, and what stands there and here."""
    there, here = filled(draft.fields, now), filled(draft.fields, piece)
    was = filled(draft.fields, draft.was)
    named = {one.key: label(one) for one in draft.fields}
    draft.both = [
        (named.get(key, key), there.get(key, ""), here.get(key, ""))
        for key in {**there, **was}
        if there.get(key) != was.get(key)
    ]
    draft.was = now


def _done(desk: "Desk", draft: Draft, of: Ref, piece: "Mapping[str, Any]") -> str:
    """Return what a saved form has done, for "Undo"."""
    kind = name_of(draft.of.table)
    named = str(piece.get("name") or "")
    if draft.is_new:
        return f"{named or kind} added"
    changed = [
        label(one).lower() for one in draft.fields if piece.get(one.key) != draft.was.get(one.key)
    ]
    view = ", ".join(changed[:MOST]) + (
        f" and {len(changed) - MOST} more" if changed[MOST:] else ""
    )
    return f"{called(desk, of)}: {view or 'kind'} changed"


def _refuse(desk: "Desk", draft: Draft, of: Ref, error: TrimdiveError) -> None:
    """Put what is wrong beside its field; what is wrong in another piece, on top, with its name."""
    seen = {one.path for group in groups_of(desk, draft) for one in group.all() if one.path}
    start = "" if draft.of.table == "boat" else f"{of}."
    for one in (error, *error.others):
        says = one.beside or beside_field(one)
        path = one.place.removeprefix(start) if one.place.startswith(start) else None
        path = "" if one.place == str(of) else path
        if path is None and one.place.endswith(".name"):
            path = "name"  # another has it already
        field = None if path is None or not one.place else nearest(path, seen)
        if field:
            draft.wrong.setdefault(field, says)
        else:
            draft.top.append(says if path is not None else _elsewhere(one, says))
    if error.left:
        draft.top.append(f"{error.left} more to put right after that.")


def _elsewhere(error: TrimdiveError, says: str) -> str:
    """Return what is wrong in another piece, with what that is called."""
    number = ROW.match(error.place.partition(".")[0])
    named = error.name or (f"{name_of(number[1])} {number[2]}" if number else "")
    return f"{capital(named)}: {says}" if named else says


def nearest(path: str, seen: set[str]) -> str:
    """Return the field of a form that a path is in; "" where none is.

    >>> nearest("rings[2].number", {"rings[2]", "rings"}), nearest("stroke", {"bore"})
    ('rings[2]', '')
    """
    while path and path not in seen:
        path = path[: max(path.rfind("."), path.rfind("["), 0)]
    return path


DOORS: "dict[str, Callable[[Desk, str, Typed], None]]" = {
    "edit": _edit, "add": _add, "out": _remove, "double": _double,
}  # fmt: skip
DEEDS: "dict[str, Callable[[Desk, Draft, str], Draft | None]]" = {
    "look": _look, "cancel": _cancel, "more": _more, "less": _less, "save": _save,
    "again": _again, "drop": _drop,
}  # fmt: skip
