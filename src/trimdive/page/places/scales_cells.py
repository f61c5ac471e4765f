"""Several cells of the weight table at once: pasted, filled down, weighed; new rows."""

import json
from collections.abc import Sequence
from typing import TYPE_CHECKING, cast

from trimdive.boatfile import append, parse
from trimdive.boatfile.ref import ref
from trimdive.edits.rehoused import put_in
from trimdive.edits.several import as_fields, figures
from trimdive.errors import BoatFileError, TrimdiveError
from trimdive.page.done import done
from trimdive.page.form import Typed
from trimdive.page.step import Note, Step, Wrong, refused_in
from trimdive.page.typed_fields import contents, typed_in
from trimdive.text.sentence import beside_field

if TYPE_CHECKING:
    from trimdive.page.desk import Desk

MOST_CELLS = 5000  # changed at once
MOST_ROWS = 500  # put in at once
ADDED = "scales added"  # what came of the rows that were typed last
KINDS = ("part", "lead", "foam")
NEW = ("name", "mass", "known", "spread", "x", "y", "z", "inside", "material")
WHOLE = "the new row"

Cells = list[tuple[str, str]]


def paste(desk: "Desk", typed: Typed) -> None:
    """Put what was pasted into several cells: all of it, or nothing and why beside the cell."""
    cells = _cells(typed.get("cells", ""))
    _put(desk, cells, f"{len(cells)} cells pasted")


def fill(desk: "Desk", typed: Typed) -> None:
    """Put the same into several cells of a column."""
    cells = _cells(typed.get("cells", ""))
    at = ref(cells[0][0])
    _put(desk, cells, f"{at.field.replace('_', ' ')} {cells[0][1]} in {_rows_of(len(cells))}")


def _rows_of(count: int) -> str:
    return "1 row" if count == 1 else f"{count} rows"


def weighed(desk: "Desk", typed: Typed) -> None:
    """Mark masses as weighed: each that is typed with it, and others that stand in the file.

    A row without a mass of its own stays as it is, and is told.
    """
    cells = _cells(typed.get("cells", ""))
    given = {str(ref(field).piece) for field, _ in cells if ref(field).field == "mass"}
    rows = list(dict.fromkeys(str(ref(field).piece) for field, _ in cells))
    bare = [path for path in rows if path not in given and not _has_mass(desk, path)]
    kept = [(field, text) for field, text in cells if str(ref(field).piece) not in bare]
    if not kept:
        raise BoatFileError("none of these has a mass entered", "the table", "Enter it first.")
    says = f"{len(rows) - len(bare)} masses weighed"
    if len(rows) == 1:
        says = f"{done(desk.written()[0], *cells[0])}, weighed"
    left = f"; {len(bare)} without a mass left as they were" if bare else ""
    _put(desk, kept, says + left)


def _has_mass(desk: "Desk", path: str) -> bool:
    pieces = typed_in(desk, ref(path).table)
    return 0 <= ref(path).order < len(pieces) and "mass" in pieces[ref(path).order]


def _put(desk: "Desk", cells: Cells, says: str) -> None:
    """Put several cells in as one step; nothing and why beside the cell where one is wrong."""
    text, _ = desk.written()
    for field, value in cells:
        try:
            text = put_in(text, field, value, alone=True)
        except TrimdiveError as error:
            desk.wrong = refused_in(field, value, error)
            return
    try:
        desk.edit(says, text)
    except TrimdiveError as error:
        desk.wrong = _which(desk, cells) or Wrong(field="", typed="", says=str(error))
        if not desk.wrong.field:
            raise


def _cells(text: str) -> Cells:
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


def _which(desk: "Desk", cells: Cells) -> Wrong | None:
    """Return the first of several cells with which the file holds a mistake."""
    text, _ = desk.written()
    for field, value in cells:
        text = put_in(text, field, value, alone=True)
        try:
            parse(text, desk.path.name)
        except TrimdiveError as error:
            return refused_in(field, value, error)
    return None


def add(desk: "Desk", typed: Typed) -> None:
    """Put rows that were typed into the list, each a step of its own; say of each what is wrong.

    Those in order go in; those that are not stay with whoever typed them.
    """
    found = _rows(typed.get("rows", ""))
    steps: list[Step] = []
    told: dict[str, tuple[str, str]] = {}  # field and sentence, of a row that is refused
    for key, row in found:
        was = steps[-1] if steps else desk.steps[desk.at]
        try:
            steps.append(_added(desk, was, row))
        except TrimdiveError as error:
            told[key] = _wrong(error)
    if steps:
        try:
            desk.take(steps)
        except TrimdiveError as error:
            told = {key: ("mass", str(error)) for key, _ in found}
    if len(steps) > 1 and desk.note:
        desk.note = Note(kind="done", text=f"Done: {len(steps)} rows added")
    desk.kept[ADDED] = {key: told.get(key) for key, _ in found}


def _rows(text: str) -> list[tuple[str, dict[str, str]]]:
    """Return new rows by the key that the page's script gave each.

    Raises:
        BoatFileError: It is none of that.
    """
    try:
        found = [
            (str(one["key"]), {str(k): str(v).strip() for k, v in one["row"].items()})
            for one in json.loads(text)
        ]
    except (ValueError, TypeError, KeyError, AttributeError):
        raise BoatFileError("that is no row", WHOLE, "Type it again.") from None
    if not found or len(found) > MOST_ROWS:
        raise BoatFileError(f"{len(found)} rows are typed", WHOLE, "Type some of them.")
    return found


def _added(desk: "Desk", was: Step, row: dict[str, str]) -> Step:
    """Return the step with one row more, not yet calculated.

    Raises:
        TrimdiveError: It is not in order.
    """
    kind = row.get("kind") or "part"
    if kind not in KINDS:
        raise BoatFileError(f"'{kind}' cannot be added", WHOLE, "Choose one.")
    if not row.get("mass"):
        error = BoatFileError("the mass is missing", WHOLE, "Enter it.")
        error.place = f"{kind}.mass"
        raise error
    number = len(cast("Sequence[object]", contents(was.text).get(kind, []))) + 1
    fields = {key: row[key] for key in NEW if row.get(key)}
    fields.setdefault("name", f"{kind} {number}")
    if kind != "part":
        fields.pop("material", None)
    fields |= _place(fields.get("x", ""), desk.file_units.own.get("length"))
    return desk.after(was, f"{fields['name']} added", append(was.text, kind, fields))


def _place(typed: str, unit: str | None) -> dict[str, str]:
    """Return the fields of a place that was typed whole; none where it is one figure.

    >>> _place("612, 0, 45", "mm"), _place("612 45 mm", "mm"), _place("612", "mm")
    ({'x': '612', 'z': '45'}, {'x': '612 mm', 'z': '45 mm'}, {})
    """
    found = figures(typed, unit)
    return as_fields(found) if len(found) in (2, 3) else {}


def _wrong(error: TrimdiveError) -> tuple[str, str]:
    """Return in which field of a new row something is wrong, and what."""
    field = error.place.rpartition(".")[2]
    says = error.beside or beside_field(error)
    return (field, says) if field in NEW else ("name", says)
