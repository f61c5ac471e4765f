"""The page's requests: each reads, calls and shows."""

from collections.abc import Callable
from pathlib import Path
from urllib.parse import parse_qs

from jinja2 import Environment, PackageLoader, StrictUndefined
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
from starlette.staticfiles import StaticFiles

from trimdive.errors import TrimdiveError
from trimdive.page.desk import Desk, Note, Slider
from trimdive.page.guard import Guard, Keys, TooLargeError, too_large
from trimdive.page.views import page_told, state_told

STATIC = Path(__file__).parent / "static"
MEANWHILE = "She was changed in another window; this is how she is now. Nothing else was done."
ON_DISK = "The file was changed on disk since it was read; nothing is written over it."
TEMPLATES = Environment(
    loader=PackageLoader("trimdive.page"),
    autoescape=True,
    undefined=StrictUndefined,
    trim_blocks=True,
    lstrip_blocks=True,
)
ACTS: dict[str, Callable[[Desk], None]] = {
    "undo": Desk.undo,
    "redo": Desk.redo,
    "save": Desk.save,
    "load again": Desk.load_again,
    "save a copy": Desk.save_copy,
}


def app(desk: Desk, host: str, keys: Keys) -> Guard:
    """Return the page of one boat, behind its guard.

    Args:
        desk: The boat.
        host: Own host and port.
        keys: What opens it.
    """
    inner = Starlette(
        routes=[
            Route("/", _page),
            Route("/state", _state),
            Route("/now", _now),
            Route("/act", _act, methods=["POST"]),
            Mount("/static", StaticFiles(directory=STATIC)),
        ],
        exception_handlers={TooLargeError: _too_large, TrimdiveError: _sentence},
    )
    inner.state.desk = desk
    return Guard(inner, host, keys)


async def _too_large(_: Request, __: Exception) -> Response:
    return too_large()


async def _sentence(_: Request, error: Exception) -> Response:
    return PlainTextResponse(str(error), status_code=409)


def _desk(request: Request) -> Desk:
    return request.app.state.desk


def _shown(desk: Desk, template: str) -> HTMLResponse:
    """Return the page, or its part that changes; a note is told once."""
    if desk.note is None and desk.is_changed_on_disk():
        desk.note = Note(kind="changed on disk", text=ON_DISK)
    text = TEMPLATES.get_template(template).render(page_told(desk))
    desk.note = None
    return HTMLResponse(text)


def _page(request: Request) -> Response:
    desk = _desk(request)
    with desk.working():
        return _shown(desk, "page.html")


def _state(request: Request) -> Response:
    """Return how she lies at a filling, exactly."""
    desk, slider = _desk(request), slider_of(dict(request.query_params))
    with desk.working():
        told = state_told(desk.her, slider)
        return JSONResponse({**told, **_stand(desk)})


def _now(request: Request) -> Response:
    """Return what a window asks that is looked at again."""
    desk = _desk(request)
    with desk.working():
        return JSONResponse(_stand(desk))


def _stand(desk: Desk) -> dict[str, object]:
    return {"revision": desk.revision, "is_changed_on_disk": desk.is_changed_on_disk()}


async def _act(request: Request) -> Response:
    body = (await request.body()).decode("utf-8", "replace")
    typed = {key: values[-1] for key, values in parse_qs(body).items()}
    return await run_in_threadpool(_done, _desk(request), typed, "hx-request" in request.headers)


def _done(desk: Desk, typed: dict[str, str], is_part: bool) -> Response:
    """Do what was pressed, and show how she is then."""
    with desk.working():
        desk.slider = slider_of(typed) if typed.get("touched") else Slider()
        if typed.get("revision") != str(desk.revision):
            desk.note = Note(kind="refused", text=MEANWHILE)
        else:
            act(desk, typed.get("act", ""))
        return _shown(desk, "sheet.html") if is_part else RedirectResponse("/", status_code=303)


def act(desk: Desk, pressed: str) -> None:
    """Do what was pressed; what cannot be done is told, and she stays as she was."""
    try:
        if pressed.startswith("do "):
            desk.do(pressed.removeprefix("do "))
        elif pressed in ACTS:
            ACTS[pressed](desk)
    except TrimdiveError as error:
        desk.note = Note(kind="refused", text=str(error))


def slider_of(typed: dict[str, str]) -> Slider:
    """Return where the slider stands; what is no share of the water counts as untouched.

    >>> slider_of({"filling": "0.25", "up": "1"}), slider_of({"filling": "nan"})
    (Slider(filling=0.25, up=True), Slider(filling=None, up=False))
    """
    try:
        filling = float(typed.get("filling", ""))
    except ValueError:
        return Slider()
    return Slider(filling=filling, up=typed.get("up") == "1") if 0 <= filling <= 1 else Slider()
