"""To put right: what is not in order, worst first, and what mends it."""

from typing import TYPE_CHECKING

from trimdive.page.places.place import Place, Told, Typed
from trimdive.page.rows import causes

if TYPE_CHECKING:
    from trimdive.page.desk import Desk


def _told(desk: "Desk", _: Typed) -> Told:
    found = causes(desk.her.findings)
    return {
        "urgent": [row for row in found if row.is_urgent],
        "others": [row for row in found if not row.is_urgent],
    }


RIGHT = Place(
    key="right",
    name="To put right",
    answers="What is not in order, worst first",
    told=_told,
    acts={},
    asks={},
    takes={},
)
