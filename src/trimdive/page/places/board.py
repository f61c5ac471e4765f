"""Drawing board: regions and their surfaces, stations, skin; cylinders, tanks, places; marks."""

from typing import TYPE_CHECKING

from starlette.responses import HTMLResponse, JSONResponse

from trimdive.boatfile import LinesRegion, OutlineRegion, RoundRegion, append, remove
from trimdive.boatfile.edits import set_value
from trimdive.errors import BoatFileError, TrimdiveError
from trimdive.geometry.lines.doubts import Doubt, doubts
from trimdive.geometry.lines.table import read_table
from trimdive.geometry.solids.surfaces import text_of
from trimdive.page.board_drawing import board_drawing
from trimdive.page.form import Typed, field_of
from trimdive.page.newboat import CORNER
from trimdive.page.offsets import with_cell
from trimdive.page.places import board_arrange, board_fit, board_trace
from trimdive.page.places.board_solid import asked
from trimdive.page.places.board_view import board_view, repairs_of
from trimdive.page.places.place import Place, View
from trimdive.page.step import refused_in
from trimdive.page.templating import rendered
from trimdive.pictures.drawings.body_plan import COUNT, body_plan
from trimdive.text.board_short import body_plan_words

if TYPE_CHECKING:
    from starlette.requests import Request

    from trimdive.assessment import Assessment
    from trimdive.page.desk import Desk


_last: "list[tuple[Assessment, tuple[str, str]]]" = []  # drawn last


def _drawn(her: "Assessment") -> tuple[str, str]:
    """Return plan and body plan of a boat, kept as long as she is not changed."""
    for whose, drawn in _last:
        if whose is her:
            return drawn
    drawn = board_drawing(her), body_plan(her)
    _last[:] = [(her, drawn)]
    return drawn


def _view(desk: "Desk", typed: Typed) -> View:
    found = board_fit.shown(desk)
    return {
        **board_view(desk),
        "fit": found,
        "fit_short": board_fit.short(found, desk),
        "stays": board_fit.stays(desk),
        "arrange": board_arrange.shown(desk, typed),
        "trace": board_trace.shown(desk),
        "trace_short": board_trace.short(desk),
    }


def _drawing(desk: "Desk", _: "Request") -> HTMLResponse:
    with desk.working():
        her = desk.her
    plan, body = _drawn(her)
    under = board_trace.behind(desk)
    shown = {
        "plan": plan.replace("</title>", f"</title>{under}", 1) if under else plan,
        "body": body,
        "says": body_plan_words(her, COUNT) if body else "",
        "boat": her.boat,
    }
    return HTMLResponse(rendered("places/board_drawing.html", **shown))


def _progress(desk: "Desk", request: "Request") -> JSONResponse:
    """Return how far a work beside the page is."""
    is_arranging = request.query_params.get("of") == "arrange"
    return JSONResponse((board_arrange if is_arranging else board_fit).progress(desk))


def _table(desk: "Desk", region: int) -> tuple[str, str]:
    """Return text and name of the table of lines of a region.

    Raises:
        BoatFileError: It has none.
    """
    regions = desk.her.boat.regions
    if 0 < region <= len(regions):
        found = regions[region - 1]
        if isinstance(found, LinesRegion | RoundRegion):
            return text_of(desk.her.files, found.file), found.file
    raise BoatFileError("it has no table of lines", f"region[{region}]", "Look again.")


def _numbers(which: str, count: int) -> list[int]:
    """Return so many numbers from what follows a button's word.

    Raises:
        BoatFileError: They are not there.
    """
    found = which.split()
    if len(found) != count or not all(one.isdecimal() and len(one) < 7 for one in found):
        raise BoatFileError("there is no such part on the board", repr(which), "Look again.")
    return [int(one) for one in found]


def _cell(desk: "Desk", typed: Typed) -> None:
    """Change a cell of a table of lines; what cannot be taken is told beside the table."""
    region, line, column = _numbers(typed["which"], 3)
    text, file = _table(desk, region)
    says, found = typed.get("cell", ""), f"cell {region} {line} {column}"
    try:
        new = with_cell(text, file, line, column, says)
        if new != text:
            desk.edit(
                f"{file}, line {line}: {says or 'left empty'}",
                desk.written()[0],
                {file: new.encode()},
            )
    except TrimdiveError as error:
        desk.wrong = refused_in(found, says, error)


def _likely(desk: "Desk", typed: Typed) -> None:
    """Write the likely figure in the place of a doubted one."""
    region, number = _numbers(typed["which"], 2)
    text, file = _table(desk, region)
    table = read_table(text, file)
    found: tuple[Doubt, ...] = doubts(table)
    if not 0 < number <= len(found) or not found[number - 1].changes:
        raise BoatFileError("that warning is gone", file, "Check the table again.")
    doubt = found[number - 1]
    new = text
    for change in doubt.changes:
        new = with_cell(new, file, change.line, change.column, change.likely)
    desk.edit(
        f"{doubt.likely} for {doubt.found} in {file}", desk.written()[0], {file: new.encode()}
    )


def _shape(desk: "Desk", typed: Typed) -> None:
    """Give a section of an outline another character; a box gets corners, others lose them."""
    number, row = _numbers(typed["which"], 2)
    regions, shape = desk.her.boat.regions, typed.get("shape", "")
    found = regions[number - 1] if 0 < number <= len(regions) else None
    if not isinstance(found, OutlineRegion) or not 0 < row <= len(found.section):
        raise BoatFileError("there is no such section", f"region[{number}]", "Look again.")
    place, text = f"region[{number}].section[{row}]", desk.written()[0]
    now = found.section[row - 1]
    for key in ("radius", "deck_radius"):
        if shape != "box" and getattr(now, key) is not None:
            text = remove(text, f"{place}.{key}")
    text = set_value(text, f"{place}.shape", shape)
    if shape == "box" and now.radius is None:
        text = set_value(text, f"{place}.radius", f"{CORNER * found.breadth * 1e3:.0f} mm")
    try:
        desk.edit(f"section {row} of {found.name}: {shape}", text)
    except TrimdiveError as error:
        desk.wrong = refused_in(f"{place}.shape", shape, error)


def _add_mark(desk: "Desk", typed: Typed) -> None:
    """Put in a mark at which draughts are read."""
    name, at = field_of(typed, "mark-name"), field_of(typed, "mark-x")
    if not name or not at:
        raise BoatFileError("a mark needs a name and a position", "marks", "Enter both.")
    desk.edit(f"{name} added", append(desk.written()[0], "mark", {"name": name, "x": at}))


def _drop_mark(desk: "Desk", typed: Typed) -> None:
    (number,) = _numbers(typed["which"], 1)
    marks = desk.her.boat.marks
    if not 0 < number <= len(marks):
        raise BoatFileError("there is no such mark", str(number), "Look again.")
    says = f"{marks[number - 1].name} removed"
    desk.edit(says, remove(desk.written()[0], f"mark[{number}]"))


def _undo_repair(desk: "Desk", typed: Typed) -> None:
    """Take one repair of a mesh back."""
    region, number = _numbers(typed["which"], 2)
    now = repairs_of(desk, region)
    if not 0 < number <= len(now):
        raise BoatFileError("that repair is not done", f"region[{region}]", "Look again.")
    kept = [one for k, one in enumerate(now, 1) if k != number]
    place = f"region[{region}].repairs"
    text = desk.written()[0]
    desk.edit(
        f"undone: {now[number - 1]}",
        set_value(text, place, kept) if kept else remove(text, place),
    )


BOARD = Place(
    key="board",
    name="Drawing board",
    answers="Shape and room: regions, stations, skin, cylinders, tanks, positions, marks",
    view=_view,
    acts={
        "cell": _cell,
        "likely": _likely,
        "shape": _shape,
        "add-mark": _add_mark,
        "drop-mark": _drop_mark,
        "undo-repair": _undo_repair,
        "fit": board_fit.start,
        "halt-fit": board_fit.halt,
        "cut": board_fit.cut,
        "tube": board_fit.ask_tube,
        "arrange": board_arrange.start,
        "halt-arrange": board_arrange.halt,
        "take-arranged": board_arrange.take,
        **board_trace.ACTS,
    },
    asks={
        "drawing": _drawing,
        "solid": asked,
        "progress": _progress,
        **board_trace.ASKS,
    },
    takes=board_trace.TAKES,
)
