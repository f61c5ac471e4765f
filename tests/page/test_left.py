"""What a window tells as it is left counts once, in its order, and works over nobody.

The rules are the project's own: nothing typed is lost, and nobody works over another.
"""

import json

import pytest
from tests.page.conftest import OWN, Page

from trimdive.boatfile import load


def edit(once: str, field: str, typed: str) -> dict[str, str]:
    """Return a figure as a window sent it."""
    return {"once": once, "is": "edit", "field": field, "typed": typed}


def left(page: Page, *sent: dict[str, str], revision: int = 1, boat: str = "") -> None:
    """Leave a window that waits for some answers."""
    name = boat or page.desk.own.her.boat.name
    body = {"left": json.dumps(sent), "revision": str(revision), "boat": name, "place": "scales"}
    answer = page.client.post("/left", data=body, headers=OWN)
    assert answer.status_code == 204, answer.text


def masses(page: Page) -> list[float]:
    """Return the masses of her parts on disk [g]."""
    return [round(1000 * (one.mass or 0), 3) for one in load(page.file).boat.parts[:2]]


def test_all_of_it_counts_in_its_order(sprat: Page) -> None:
    sent = [("a", "part[1].mass", "410 g"), ("b", "part[2].mass", "11 g")]
    left(sprat, *(edit(*one) for one in sent), edit("c", "part[1].mass", "420 g"))
    assert masses(sprat) == [420, 11]
    assert len(sprat.desk.steps) == 4


def test_what_came_already_counts_once(sprat: Page) -> None:
    first = edit("a", "part[1].mass", "410 g")
    sent = {**first, "revision": "1", "place": "scales"}
    own = OWN | {"hx-request": "true"}
    assert sprat.client.post("/edit", data=sent, headers=own).status_code == 200
    left(sprat, first, edit("b", "part[1].mass", "420 g"))
    assert masses(sprat)[0] == 420
    late = {**edit("b", "part[1].mass", "420 g"), "revision": "3", "place": "scales"}
    assert "420 g" in sprat.client.post("/edit", data=late, headers=own).text
    assert len(sprat.desk.steps) == 3


def test_a_button_pressed_after_a_figure_is_done_after_it(sprat: Page) -> None:
    left(sprat, edit("a", "part[1].mass", "410 g"), {"once": "b", "is": "act", "act": "undo"})
    assert masses(sprat)[0] == 400
    assert len(sprat.desk.steps) == 2


def test_it_works_over_nobody(sprat: Page) -> None:
    other = {"field": "part[1].mass", "typed": "430 g", "revision": "1", "place": "scales"}
    sprat.client.post("/edit", data=other, headers=OWN | {"hx-request": "true"})
    left(sprat, edit("a", "part[1].mass", "410 g"), edit("b", "part[2].mass", "11 g"))
    assert masses(sprat) == [430, 11]


def test_what_is_refused_of_it_is_told_next_and_the_rest_counts(sprat: Page) -> None:
    left(sprat, edit("a", "part[1].mass", "abc"), edit("b", "part[2].mass", "11 g"))
    assert masses(sprat) == [400, 11]
    assert 'id="wrong-part[1].mass"' in sprat.client.get("/scales").text


def test_another_boat_is_left_alone(sprat: Page) -> None:
    left(sprat, edit("a", "part[1].mass", "410 g"), boat="Another")
    assert masses(sprat)[0] == 400


@pytest.mark.parametrize("text", ["", "{", "1", "[1, null, {}]", '[{"once": "x", "is": "edit"}]'])
def test_what_cannot_be_read_of_it_does_nothing(sprat: Page, text: str) -> None:
    body = {"left": text, "revision": "1", "boat": sprat.desk.own.her.boat.name}
    assert sprat.client.post("/left", data=body, headers=OWN).status_code == 204
    assert masses(sprat)[0] == 400
