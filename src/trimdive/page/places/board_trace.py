"""Trace a plan, on the Drawing board: the picture brought, marked, its lines taken."""

from base64 import b64encode
from dataclasses import dataclass
from pathlib import PurePosixPath
from typing import TYPE_CHECKING

from starlette.responses import HTMLResponse, JSONResponse, PlainTextResponse, Response

from trimdive.boatfile import append
from trimdive.boatfile.saving import unwritten
from trimdive.boatfile.together import held, write
from trimdive.edits.traced import with_lines, with_waterline
from trimdive.errors import LockedError, PlanError, TrimdiveError
from trimdive.page import reading
from trimdive.page.form import Typed, field_of, number_in
from trimdive.page.marking import done
from trimdive.page.places.board_trace_view import panel_view, sum_view, tracer_view
from trimdive.page.places.place import Take
from trimdive.page.shelf import folder_name
from trimdive.page.templating import rendered
from trimdive.page.tracing import OPEN, asked_plan, open_plan, table_of
from trimdive.pictures.drawings.svg import tag
from trimdive.plans.outline import outline_figures
from trimdive.plans.picture import picture_of
from trimdive.plans.spread import spread_figures, traced_spread
from trimdive.plans.tiles import Tiles, ink_of, png_of
from trimdive.plans.under import Under, plan_under
from trimdive.text.sentence import beside_field

if TYPE_CHECKING:
    from starlette.requests import Request

    from trimdive.page.desk import Desk
    from trimdive.plans.spread import TracedSpread
    from trimdive.plans.tracing import Tracing

BROUGHT = "plan that was brought"  # and could not be read yet
BEHIND = "plan behind the drawing"  # its number, from one; 0 where none is
WRONG = "plan's lines that were refused"
KINDS = (".png", ".jpg", ".jpeg", ".webp")  # kept as they come; of all others the page is kept
COPIES = 99  # names that are tried for a picture [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Read:
    """What came of a picture that was brought."""

    data: bytes  # to be kept beside the boat file; empty where it was refused
    suffix: str  # of its name
    page: int  # which it was, of several; 0 of one
    wrong: str  # why it was refused
    is_locked: bool = False  # a password opens it


@dataclass(frozen=True, slots=True, kw_only=True)
class Brought:
    """A picture that could not be read yet: its page or its password is asked for."""

    name: str
    data: bytes
    wrong: str
    page: str
    is_locked: bool


def read_plan(name: str, data: bytes, page: str, password: str) -> Read:
    """Return a picture that was brought, as it is kept; in a process of its own.

    Of a PDF, and of a file with several pages, the page is kept as a picture: so its marks stay
    where they are, whatever draws the PDF later, and no password is asked for again.
    """
    try:
        if page and not (page.isdecimal() and len(page) < 7):
            what = f"'{page}' is no number of a page"
            raise PlanError(what, name, "Enter a whole number, 1 for the first.")
        found = picture_of(data, name, page=int(page or 0), password=password)
    except TrimdiveError as error:
        locked = isinstance(error, LockedError)
        return Read(data=b"", suffix="", page=0, wrong=beside_field(error), is_locked=locked)
    suffix = PurePosixPath(name).suffix.lower()
    if suffix in KINDS and found.pages == 1:
        return Read(data=data, suffix=suffix, page=0, wrong="")
    number = found.page if found.pages > 1 else 0
    return Read(data=png_of(found.grey), suffix=".png", page=number, wrong="")


def _given(_: "Desk", typed: Typed) -> tuple[object, ...]:
    return field_of(typed, "plan-page"), field_of(typed, "plan-password")


def _take(desk: "Desk", name: str, data: bytes, found: object) -> None:
    """Keep a picture beside the boat file, name it there, and open it."""
    if not isinstance(found, Read):
        return
    if found.wrong:
        desk.kept[BROUGHT] = Brought(
            name=name, data=data, wrong=found.wrong, page="", is_locked=found.is_locked
        )
        return
    stem = PurePosixPath(name).stem.strip() or "plan"
    called = f"{stem}, page {found.page}" if found.page else stem
    plans = desk.own.her.boat.plans
    taken = {plan.name for plan in plans}
    called = next(one for one in names(called[:60], " ") if one not in taken)
    fields = kept_beside(desk, "plan", called, found)
    desk.edit(f"plan {called} added", append(desk.written()[0], "plan", fields))
    desk.kept.pop(BROUGHT, None)
    desk.kept[OPEN] = len(plans) + 1


def names(stem: str, gap: str) -> list[str]:
    """Return names that are tried for a picture, in their order."""
    return [stem, *(f"{stem}{gap}{number}" for number in range(2, COPIES + 1))]


def kept_beside(desk: "Desk", kind: str, called: str, found: Read) -> dict[str, str]:
    """Keep a picture beside the boat file; return its fields there: name, file, marks.

    Args:
        desk: The boat.
        kind: With which word its file's name begins.
        called: What it is called.
        found: What was brought.

    Raises:
        TrimdiveError: It cannot be written, or there are too many of that name.
    """
    file, marks = _free(desk, kind, folder_name(called), found.suffix)
    try:
        with held(desk.path.parent):
            write(desk.path.parent, {file: found.data})
    except OSError as error:
        raise unwritten(desk.path.parent / file, error) from None
    return {"name": called, "file": file, "marks": marks}


def _free(desk: "Desk", kind: str, stem: str, suffix: str) -> tuple[str, str]:
    """Return names beside the boat file that nothing has yet: of the picture and of its marks.

    Args:
        desk: The boat.
        kind: With which word they begin.
        stem: What follows it.
        suffix: Of the picture.

    Raises:
        PlanError: There are too many of that name.
    """
    folder = desk.path.parent
    for one in names(f"{kind}-{stem.removeprefix(f'{kind}-')}", "-"):
        if not (folder / f"{one}{suffix}").exists() and not (folder / f"{one}.json").exists():
            return f"{one}{suffix}", f"{one}.json"
    raise PlanError(f"too many {kind}s have that name", stem, "Rename the file, then bring it.")


def _again(desk: "Desk", typed: Typed) -> None:
    """Read a picture again that was brought, with its page and its password."""
    found = desk.kept.get(BROUGHT)
    if isinstance(found, Brought):
        reading.begin(desk, {**typed, "place": "board"}, PLAN, found.name, found.data)


def _drop(desk: "Desk", _: Typed) -> None:
    """Forget a picture that could not be read."""
    desk.kept.pop(BROUGHT, None)


def _open(desk: "Desk", typed: Typed) -> None:
    desk.kept[OPEN] = number_in(typed["which"])
    desk.kept.pop(WRONG, None)


def _close(desk: "Desk", _: Typed) -> None:
    desk.kept[OPEN] = 0


def _take_lines(desk: "Desk", typed: Typed) -> None:
    """Write the lines into the boat file: a region, and the waterline where it was traced."""
    desk.kept.pop(WRONG, None)
    table, boat = asked_plan(desk), desk.own.her.boat
    found = table.tracing(boat)
    where = field_of(typed, "trace-where")
    new = {key: field_of(typed, f"trace-{key}") for key in ("name", "material", "thickness")}
    try:
        if found.taken is None:
            what = "the lines do not make a hull yet"
            raise PlanError(what, "plan", "Trace what is missing first.")
        number = number_in(where) or len(boat.regions) + 1
        text = desk.written()[0]
        figures = outline_figures(found.taken)
        if (spread := _spread(found)) is not None:
            figures["traced"] = spread_figures(spread)
        text = with_lines(text, boat, number, new, figures)
        if found.waterline is not None and typed.get("trace-waterline") == "true":
            text = with_waterline(text, boat, found.waterline)
        called = boat.regions[number - 1].name if number <= len(boat.regions) else new["name"]
        desk.edit(f"lines of {called} from the plan", text)
    except TrimdiveError as error:
        desk.kept[WRONG] = beside_field(error)


def shown(desk: "Desk") -> dict[str, object]:
    """Return all that the board shows of plans, and the one that is open."""
    found, brought = open_plan(desk), desk.kept.get(BROUGHT)
    view: dict[str, object] = {
        "plans": [plan.name for plan in desk.own.her.boat.plans],
        "behind": desk.kept.get(BEHIND, 0),
        "brought": brought if isinstance(brought, Brought) else None,
        "wrong": "",
        "open": None,
    }
    if found is not None:
        try:
            wrong = str(desk.kept.get(WRONG, ""))
            view["open"] = tracer_view(desk, *found, wrong)
        except TrimdiveError as error:
            view["wrong"], desk.kept[OPEN] = str(error), 0
    return view


def _tile(desk: "Desk", request: "Request") -> Response:
    """Return a square of the picture."""
    with desk.working():
        tiles = asked_plan(desk).tiles
    return square_of(tiles, request)


def square_of(tiles: Tiles, request: "Request") -> Response:
    """Return the square of a picture that is asked for."""
    numbers = [request.query_params.get(name, "") for name in ("level", "across", "down")]
    known = all(one.isdecimal() and len(one) < 6 for one in numbers)
    data = tiles.tile(*(int(one) for one in numbers)) if known else None
    if data is None:
        return PlainTextResponse("There is no such square of this picture.", status_code=404)
    return Response(data, media_type="image/png")


def _sum(desk: "Desk", _: "Request") -> Response:
    """Return what the traced hull encloses: it takes a second, so it is asked for by itself."""
    with desk.working():
        table, boat = asked_plan(desk), desk.her.boat
        found = table.tracing(desk.own.her.boat)
    spread = _spread(found)
    if spread is None:
        return HTMLResponse("")
    return HTMLResponse(rendered("places/trace_sum.html", rows=sum_view(found, spread, boat.units)))


def _spread(found: "Tracing") -> "TracedSpread | None":
    """Return how sure the traced hull is; None where there is none yet."""
    if found.hull is None:
        return None
    checked = found.lie.checked
    return traced_spread(found.hull, found.waterline, scale=checked.share if checked else 0.0)


def did(desk: "Desk", typed: Typed) -> Response:
    """Do what was asked of a plan, and show what comes of it; what is wrong stands beside it."""
    with desk.working():
        table, wrong = asked_plan(desk), None
        try:
            done(table, typed)
        except TrimdiveError as error:
            wrong = (typed.get("key", ""), beside_field(error))
        view = panel_view(desk, table, wrong)
        html = rendered("places/trace_panel.html", panel=view)
        return JSONResponse({"html": html, "state": view["state"]})


def _behind(desk: "Desk", typed: Typed) -> None:
    """Show a plan behind the board's drawing, or no longer."""
    which = int(typed["which"]) if typed["which"] in map(str, range(1, COPIES)) else 0
    desk.kept[BEHIND] = 0 if desk.kept.get(BEHIND) == which else which
    if desk.kept[BEHIND] and _under(desk) is None:
        desk.kept[BEHIND] = 0
        what = "its half-breadth plan is not traced yet"
        raise PlanError(what, "plan", "Open it, and trace the hull first.")


def _under(desk: "Desk") -> Under | None:
    """Return the plan that stands behind the board's drawing, laid straight; None for none."""
    boat, number = desk.own.her.boat, desk.kept.get(BEHIND, 0)
    if not isinstance(number, int) or not 0 < number <= len(boat.plans):
        return None
    try:
        table = table_of(desk, boat.plans[number - 1])
        return plan_under(table.tiles.grey, table.marks, table.tracing(boat))
    except TrimdiveError:
        return None  # it says why where it is opened


def behind(desk: "Desk") -> str:
    """Return the plan that stands behind the board's drawing, as SVG in millimetres of the boat."""
    with desk.working():
        found = _under(desk)
    if found is None:
        return ""
    return tag(
        "image",
        href=f"data:image/png;base64,{b64encode(ink_of(found.ink)).decode()}",
        class_="under",
        x=found.x * 1e3,
        y=-found.y * 1e3,
        width=found.length * 1e3,
        height=found.breadth * 1e3,
        preserveAspectRatio="none",
    )


def short(desk: "Desk") -> str:
    """Return the plans of the boat in a few words."""
    plans = desk.own.her.boat.plans
    if not plans:
        return "from a scan, a photograph or a PDF"
    return ", ".join(plan.name for plan in plans)


PLAN = Take(reads=read_plan, takes=_take, given=_given)
ACTS = {
    "plan-again": _again,
    "plan-behind": _behind,
    "plan-drop": _drop,
    "plan-open": _open,
    "plan-close": _close,
    "plan-take": _take_lines,
}
ASKS = {"plan-tile": _tile, "plan-sum": _sum}
TAKES = {"plan": PLAN}
