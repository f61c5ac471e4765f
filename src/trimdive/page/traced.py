"""The request by which a mark is made on a picture: many come one after another, each small."""

from typing import TYPE_CHECKING
from urllib.parse import parse_qsl

from starlette.concurrency import run_in_threadpool

from trimdive.page.places import tub_photo
from trimdive.page.places.board_trace import did

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

    from trimdive.page.desk import Desk


async def traced(request: "Request") -> "Response":
    """Make a mark on the plan or the photograph that is open, and show what comes of it."""
    desk: Desk = request.app.state.workshop.desk
    desk.units = request.cookies.get("units", "")
    body = (await request.body()).decode("utf-8", "replace")
    typed = dict(parse_qsl(body, keep_blank_values=True))
    do = tub_photo.did if typed.get("of") == "photo" else did
    return await run_in_threadpool(do, desk, typed)
