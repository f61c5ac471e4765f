"""The moment that is shown stays over a change, and the brief stands where it is found."""

import re
from collections.abc import Callable
from pathlib import Path

from tests.page.conftest import OWN, page_of
from tests.page.shelves import ShelfPage, workshop_of

from trimdive.page.views import lowest_filling


def handle(html: str) -> float:
    """Return where the slider's handle stands."""
    found = re.search(r'name="filling"[^>]*?value="([^"]+)"', html, re.DOTALL)
    assert found is not None
    return float(found[1])


def test_she_is_shown_where_she_was_neutral_when_she_dives_no_longer(
    copied: Callable[[str], Path],
) -> None:
    page = page_of(copied("grebe")).enter()
    stood = handle(page.client.get("/").text)
    assert 0 < stood < 1
    drained = {"field": "tank[1].stroke", "typed": "40 mm"}
    answer = page.client.post(
        "/edit",
        data={**drained, "revision": str(page.desk.revision), "filling": str(stood), "touched": ""},
        headers=OWN | {"hx-request": "true"},
    )
    assert answer.status_code == 200
    assert not page.desk.her.full.rest.under
    assert lowest_filling(page.desk.her) == 1.0
    assert handle(answer.text) == stood


def test_the_brief_stands_above_a_new_boat(tmp_path: Path) -> None:
    html = ShelfPage(workshop_of(tmp_path)).client.get("/shelf").text
    assert html.index("The brief for") < html.index("A new boat")
