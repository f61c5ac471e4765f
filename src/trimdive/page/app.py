"""The page's requests: each reads, calls and shows."""

from collections.abc import Callable
from functools import cache, partial
from pathlib import Path
from urllib.parse import parse_qs, unquote

from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import (
    HTMLResponse,
    JSONResponse,
    PlainTextResponse,
    RedirectResponse,
    Response,
)
from starlette.routing import Mount, Route

from trimdive.errors import TrimdiveError, fence
from trimdive.page import reading
from trimdive.page.acts import act
from trimdive.page.asked import is_alone, kept_moment, length_of, slider_in, slider_of
from trimdive.page.cut_at import cut_view
from trimdive.page.desk import Desk, Note
from trimdive.page.entries.checked import field_checked
from trimdive.page.entries.deeds import WORD as FORM
from trimdive.page.entries.deeds import open_at
from trimdive.page.entries.doors import adds_at, edits_at
from trimdive.page.entries.view import form_view
from trimdive.page.guard import Guard, Keys, TooLargeError, too_large
from trimdive.page.left import do_once, put_of, take_left
from trimdive.page.marked import marked
from trimdive.page.panel import in_panel, panel_view
from trimdive.page.places import PLACES, Typed
from trimdive.page.places.place import Take
from trimdive.page.places.right import RIGHT
from trimdive.page.plan import plan_picture
from trimdive.page.puts import MEANWHILE, Put, taken_in
from trimdive.page.scripts import Static
from trimdive.page.tank_slides import shares_of, tanks_view
from trimdive.page.templating import TEMPLATES, rendered
from trimdive.page.traced import traced
from trimdive.page.trial import in_hand, trial
from trimdive.page.views import page_view, state_view
from trimdive.page.walk import opening, strip_of
from trimdive.page.whys import why_view
from trimdive.page.workshop import Workshop
from trimdive.pictures.drawings.svg import clean
from trimdive.text.sentence import sentence

LONGEST_NAME = 200  # letters of a file that is brought [-]
WALK = "walk"  # whose files every place needs
STATIC = Path(__file__).parent / "static"
ON_DISK = "The file was changed on disk since it was read; it was not overwritten."
AS_WAS = "She is as she was: undo the last change, or check her figures again."


def app(desk: Desk | Workshop, host: str, keys: Keys) -> Guard:
    """Return the page of one boat, behind its guard.

    Args:
        desk: The boat, alone or with the others on the shelf.
        host: Own host and port.
        keys: What opens it.
    """
    inner = Starlette(
        routes=[
            Mount("/static", Static(directory=STATIC)),
            Route("/state", _state),
            Route("/now", _now),
            Route("/marks", _marks),
            Route("/reading", _reading),
            Route("/hold", _hold),
            Route("/try", _try),
            Route("/tanks", _tanks),
            Route("/plan", _plan),
            Route("/cut", _cut),
            Route("/why", _why),
            Route("/act", _act, methods=["POST"]),
            Route("/edit", _edit, methods=["POST"]),
            Route("/left", _left, methods=["POST"]),
            Route("/trace", traced, methods=["POST"]),
            Route("/field", field_checked, methods=["POST"]),
            Route("/", _page),
            Route("/{place}", _page),
            Route("/{place}/{asked:path}", _asked),
            Route("/{place}/{taken:path}", _taken, methods=["POST"]),
        ],
        exception_handlers={
            TooLargeError: _too_large,
            TrimdiveError: _sentence,
            Exception: _trouble,
        },
    )
    workshop = desk if isinstance(desk, Workshop) else Workshop(desk=desk)
    workshop.root = keys.root
    inner.state.workshop = workshop
    return Guard(inner, host, keys)


async def _too_large(_: Request, __: Exception) -> Response:
    return too_large()


async def _trouble(_: Request, error: Exception) -> Response:
    """Answer what went wrong and was not foreseen; she stays as she is, and the page goes on."""
    text = f"That cannot be calculated for her ({type(error).__name__}). She is as she was: undo "
    text += "the last change, or check her figures again."
    return PlainTextResponse(text, status_code=409)


async def _sentence(_: Request, error: Exception) -> Response:
    return PlainTextResponse(str(error), status_code=409)


def _desk(request: Request) -> Desk:
    desk: Desk = request.app.state.workshop.desk
    desk.units = request.cookies.get("units", "")
    return desk


def _shown(desk: Desk, template: str, typed: Typed) -> HTMLResponse:
    """Return the page, or its part that changes; a note is told once."""
    note_disk(desk)
    desk.slider = kept_moment(desk.her, opening(desk), typed)
    desk.kept["alone"] = typed.get("alone", desk.kept.get("alone", ""))
    at = PLACES.get(typed.get("place", ""), RIGHT)
    draft = open_at(desk, typed, at.key)
    try:
        with fence(f"{at.name} cannot be calculated for her", desk.path.name, AS_WAS):
            entry = form_view(desk, draft) if draft else None
            place = at.view(desk, typed) if entry is None else {}
    except TrimdiveError as error:
        if at is RIGHT:
            raise
        desk.note = Note(kind="refused", text=str(error))
        at, place, entry = RIGHT, RIGHT.view(desk, typed), None
    walk = strip_of(desk)
    view = {
        **page_view(desk),
        **in_panel(desk, typed),
        "root": desk.root,
        "at": at,
        "place": place,
        "entry": entry,
        "adds": adds_at(at.key),
        "edits": edits_at(desk, at.key),
        "walk": walk,
        "alone": desk.kept["alone"],
        "reading": reading.running(desk),
        "places": [one for one in PLACES.values() if one.is_open(desk)],
        "own": dict.fromkeys(
            (*(_own_files(WALK) if walk else ()), *_own_files(FORM if entry else at.key))
        ),
        "files": _own_files,
    }
    text = TEMPLATES.get_template(template).render(view)
    desk.note = desk.wrong = None
    return HTMLResponse(text)


def note_disk(desk: Desk) -> None:
    """Say with whatever was done that the file was changed on disk, where it was."""
    if (desk.note is None or desk.note.kind == "done") and desk.is_changed_on_disk():
        text = f"{sentence(desk.note.text)} {ON_DISK}" if desk.note else ON_DISK
        desk.note = Note(kind="changed on disk", text=text)


@cache
def _own_files(key: str) -> tuple[str, ...]:
    """Return the names of a place's own style sheet and script, where it has them."""
    names = (f"{key}.css", f"{key}.js")
    return tuple(name for name in names if (STATIC / "places" / name).exists())


def _page(request: Request) -> Response:
    """Return a place of the page; only its part that changes where the page itself asks."""
    desk, typed = _desk(request), dict(request.query_params) | dict(request.path_params)
    if "place" in request.path_params and typed["place"] not in PLACES:
        return PlainTextResponse("There is no such place on this page.", status_code=404)
    with desk.working():
        if "revision" in typed:
            desk.slider = slider_in(typed)
        is_part = "hx-request" in request.headers
        return _shown(desk, "sheet.html" if is_part else "page.html", typed)


def _asked(request: Request) -> Response:
    """Return what a place alone answers."""
    place = PLACES.get(request.path_params["place"])
    ask = place and place.asks.get(request.path_params["asked"])
    if ask is None:
        return PlainTextResponse("There is no such place on this page.", status_code=404)
    return ask(_desk(request), request)


async def _taken(request: Request) -> Response:
    """Take a file that was dropped or chosen, and show how she is then."""
    place = PLACES.get(request.path_params["place"])
    take = place and place.takes.get(request.path_params["taken"])
    if place is None or take is None:
        return PlainTextResponse("There is no such place on this page.", status_code=404)
    name = clean(unquote(request.headers.get("x-name", "")))[-LONGEST_NAME:]
    data = await request.body()
    typed = dict(request.query_params) | {"place": place.key}
    return await run_in_threadpool(_read, _desk(request), typed, take, name, data)


def _read(desk: Desk, typed: Typed, take: Take, name: str, data: bytes) -> Response:
    """Read a file beside the page; show what came of it, or that it is still read."""
    with desk.working():
        desk.slider = slider_in(typed)
        if typed.get("revision") != str(desk.revision):
            desk.note = Note(kind="refused", text=MEANWHILE)
            return _answer(desk, typed, is_part=True)
        found = reading.begin(desk, typed, take, name, data)
    return _when_read(desk, typed, found, is_part=True)


def _reading(request: Request) -> Response:
    """Return how long a file is read; the way to the page, when it is done."""
    desk = _desk(request)
    found = reading.running(desk)
    if found is None:
        return _elsewhere(desk, dict(request.query_params), is_part=True)
    return HTMLResponse(rendered("reading.html", reading=found, root=desk.root))


def _state(request: Request) -> Response:
    """Return how she lies at a filling, exactly."""
    desk, slider = _desk(request), slider_of(dict(request.query_params))
    with desk.working():
        view = state_view(desk.her, slider)
        return JSONResponse({**view, **_stand(desk)})


def _why(request: Request) -> Response:
    """Return the panel that tells why a figure is what it is."""
    desk, typed = _desk(request), dict(request.query_params)
    with desk.working():
        slider = slider_in(typed)
        view = why_view(desk, typed.get("key", ""), slider)
        return HTMLResponse(TEMPLATES.get_template("why.html").render(view))


def _hold(request: Request) -> Response:
    """Return what is told of a thing that is picked up."""
    desk, asked = _desk(request), request.query_params
    path = asked.get("path", "")
    with desk.working():
        view = in_hand(desk.her, path, alone=is_alone(asked))
        return JSONResponse({**view, **panel_view(desk, path)})


def _try(request: Request) -> Response:
    """Return what she does with a thing held somewhere else."""
    desk, asked = _desk(request), dict(request.query_params)
    x, z = (length_of(asked.get(name, "")) for name in ("x", "z"))
    slider = slider_in(asked)
    with desk.working():
        view = trial(desk.her, asked.get("path", ""), x, z, slider, alone=is_alone(asked))
        return JSONResponse({**view, "revision": desk.revision})


def _tanks(request: Request) -> Response:
    """Return how she lies with each tank filled by itself."""
    desk, shares = _desk(request), shares_of(request.query_params.get("full", ""))
    with desk.working():
        return JSONResponse({**tanks_view(desk.her, shares), **_stand(desk)})


def _plan(request: Request) -> Response:
    """Return her plan."""
    desk = _desk(request)
    with desk.working():
        return HTMLResponse(plan_picture(desk.her))


def _cut(request: Request) -> Response:
    """Return a section across her."""
    desk, x = _desk(request), length_of(request.query_params.get("x", ""))
    with desk.working():
        return JSONResponse(cut_view(desk.her, desk.her.midships if x is None else x))


def _now(request: Request) -> Response:
    """Return what a window asks that is looked at again."""
    desk = _desk(request)
    with desk.working():
        return JSONResponse(_stand(desk))


def _marks(request: Request) -> Response:
    """Return all three marks, calculated, by the place of each."""
    desk = _desk(request)
    with desk.working():
        found = marked(desk.own.her)
        html = {key: rendered("marked.html", one=one) for key, one in found.items()}
        return JSONResponse({"revision": desk.revision, "marks": html})


def _stand(desk: Desk) -> dict[str, object]:
    return {
        "revision": desk.revision,
        "is_changed_on_disk": desk.is_changed_on_disk(),
        "is_saved": desk.is_saved,
        "trouble": desk.trouble,
    }


async def _form(request: Request) -> dict[str, str]:
    """Return what a form of the page held."""
    body = (await request.body()).decode("utf-8", "replace")
    return {key: values[-1] for key, values in parse_qs(body, keep_blank_values=True).items()}


async def _act(request: Request) -> Response:
    typed = await _form(request)
    work = partial(act, typed=typed)
    is_part = "hx-request" in request.headers
    return await run_in_threadpool(_done, _desk(request), typed, work, is_part=is_part)


async def _edit(request: Request) -> Response:
    """Put what was typed into a field of the boat file."""
    desk, typed = _desk(request), await _form(request)
    respond = partial(_put_response, desk, typed, desk.units)
    return await run_in_threadpool(_put, desk, put_of(typed, respond))


async def _left(request: Request) -> Response:
    """Take what a window sent and was not answered as it was left, in its order."""
    desk, typed = _desk(request), await _form(request)
    await run_in_threadpool(take_left, desk, typed, partial(do_once, desk))
    return Response(status_code=204)


def _put(desk: Desk, put: Put) -> Response:
    """Take in what was typed, with what others type meanwhile."""
    desk.puts.append(put)
    with desk.working():
        taken_in(desk, put)
    return put.answer.result()


def _put_response(desk: Desk, typed: Typed, units: str, put: Put) -> Response:
    """Return what a window is answered that typed something."""
    if _now_at(desk) is not desk:
        return _elsewhere(desk, typed, is_part=True)
    desk.slider = slider_in(typed)
    desk.units, desk.note, desk.wrong = units, put.note or desk.note, put.wrong
    return _answer(desk, typed, is_part=True)


def _done(desk: Desk, typed: Typed, work: Callable[[Desk], None], *, is_part: bool) -> Response:
    """Do what was asked for unless she was changed meanwhile, and show how she is then."""
    with desk.working():
        before = reading.running(desk)
        desk.slider = slider_in(typed)
        do_once(desk, typed, work)
        begun = reading.running(desk)
        begun = None if begun is before else begun
        if begun is None and _now_at(desk) is desk:
            return _answer(desk, typed, is_part)
    return _when_read(desk, typed, begun, is_part=is_part)


def _when_read(
    desk: Desk, typed: Typed, begun: reading.Reading | None, *, is_part: bool
) -> Response:
    """Return how she is when a file is read, or soon after it was begun; or the way elsewhere."""
    if begun is not None:
        begun.over.wait(reading.PROMPT)
    with desk.working():
        if _now_at(desk) is desk:
            return _answer(desk, typed, is_part)
    return _elsewhere(desk, typed, is_part)


def _elsewhere(desk: Desk, typed: Typed, is_part: bool) -> Response:
    """Return the way to the whole page, where another boat is shown now."""
    to = f"{desk.root}/{typed.get('place', '')}"
    return Response(headers={"HX-Redirect": to}) if is_part else RedirectResponse(to, 303)


def _answer(desk: Desk, typed: Typed, is_part: bool) -> Response:
    """Return how she is now: the part of the page that changes, or the way to all of it."""
    if is_part:
        return _shown(desk, "sheet.html", typed)
    at = typed.get("place", "")
    return RedirectResponse(f"{desk.root}/{at if at != RIGHT.key else ''}", status_code=303)


def _now_at(desk: Desk) -> Desk:
    """Return the desk that is shown now: another one where another boat was opened."""
    return desk.workshop.desk if desk.workshop else desk
