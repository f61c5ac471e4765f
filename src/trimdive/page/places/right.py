"""To put right: what is not in order, worst first, and what mends it.

What remains when one alone is mended may follow a moment after the rest; the page asks for it.
"""

from typing import TYPE_CHECKING

from starlette.responses import HTMLResponse, Response

from trimdive.assessment.marks import marks
from trimdive.page.form import Typed
from trimdive.page.places.board_fit import stays
from trimdive.page.places.place import Place, View
from trimdive.page.remains import at_once, is_whole
from trimdive.page.rows import causes
from trimdive.page.templating import rendered
from trimdive.text.board_short import getting_out
from trimdive.text.held import WAY_UP, way_up
from trimdive.text.marks import marks_line

if TYPE_CHECKING:
    from starlette.requests import Request

    from trimdive.page.desk import Desk


def _view(desk: "Desk", _: Typed) -> View:
    found = causes(desk.her.boat, at_once(desk), is_tried=is_whole(desk.her))
    return {
        "urgent": [row for row in found if row.is_urgent],
        "others": [row for row in found if not row.is_urgent],
        "is_whole": is_whole(desk.her),
        "marks": marks_line(marks(desk.own.her)) if desk.her.in_order else "",
        "getting_out": getting_out(stays(desk)) if desk.her.boat.hatches else "",
        "on_bench": desk.own.her.urgent_on_bench if desk.her.in_order else 0,
        "way_up": {"head": WAY_UP, "texts": way_up(desk.her)},
    }


def _remains(desk: "Desk", request: "Request") -> Response:
    """Return this place with all that is to be said, once it is worked out; what is pressed first.

    Nothing where she was changed meanwhile.
    """
    with desk.working():
        shown, revision = desk.shown, desk.revision
        if request.query_params.get("revision", str(revision)) != str(revision):
            return Response(status_code=204)
    for piece in shown.pieces():
        with desk.working():
            if revision != desk.revision:
                break
            piece()
    with desk.working():
        if revision != desk.revision:
            return Response(status_code=204)
        view = _view(desk, {})
    return HTMLResponse(rendered("places/right.html", place=view))


RIGHT = Place(
    key="right",
    name="To put right",
    answers="What is not in order, worst first",
    view=_view,
    acts={},
    asks={"remains": _remains},
    takes={},
)
