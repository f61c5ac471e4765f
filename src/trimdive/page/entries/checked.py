"""What is wrong with a field of a form as it is left: told beside it, before anything is saved."""

from dataclasses import replace
from typing import TYPE_CHECKING
from urllib.parse import parse_qs

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from trimdive.page.entries.deeds import wrong_in
from trimdive.page.entries.draft import FIELD, Draft, read

if TYPE_CHECKING:
    from trimdive.page.desk import Desk
    from trimdive.page.form import Typed

LEFT = "left"  # which field was left, in what the page's script sends


async def field_checked(request: Request) -> Response:
    """Return the sentence for beside a field of the form that is open; "" where it is in order."""
    body = (await request.body()).decode("utf-8", "replace")
    typed = {key: values[-1] for key, values in parse_qs(body, keep_blank_values=True).items()}
    desk = request.app.state.workshop.desk
    return JSONResponse({"says": await run_in_threadpool(said_beside, desk, typed)})


def said_beside(desk: "Desk", typed: "Typed") -> str:
    """Return what is wrong with the field that was left; nothing of one that is empty.

    Args:
        desk: The boat.
        typed: What stands in the form, and which field was left.
    """
    path = typed.get(LEFT, "").removeprefix(FIELD)
    with desk.working():
        draft = read(desk, typed)
        if draft is None or not draft.typed.get(path, "").strip():
            return ""
        tried: Draft = replace(draft, typed=dict(draft.typed), wrong={}, top=[], both=[])
        says = wrong_in(desk, tried).get(path, "")
        if says:
            draft.wrong[path] = says
        else:
            draft.wrong.pop(path, None)
        return says
