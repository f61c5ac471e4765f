"""A shelf with boats on it, and the page open on the first of them."""

import time
from pathlib import Path
from urllib.parse import quote

from starlette.testclient import TestClient
from tests.cli.boats import SMALL
from tests.page.conftest import HOST, OWN, desk_of

from trimdive.page.app import app
from trimdive.page.desk import Desk
from trimdive.page.guard import Keys
from trimdive.page.shelf import FIRST, Shelf
from trimdive.page.workshop import Workshop

TAPE = {
    "new-way": "tape",
    "new-name": "Sanderling",
    "new-unit": "mm",
    "tape-length": "1410 mm",
    "tape-girth-1": "72",
    "tape-girth-2": "178",
    "tape-girth-3": "19.3 cm",
    "tape-girth-4": "6 15/16 in",
    "tape-girth-5": "8 cm",
    "tape-breadth": "150",
    "tape-wall-1": "2.4",
    "tape-wall-2": "2.7",
    "tape-wall-3": "2.3",
}
FIGURES = {
    "new-way": "figures",
    "new-name": "Dunlin",
    "figures-length": "1.4 m",
    "figures-breadth": "15 cm",
    "figures-height": "150 mm",
    "figures-waterline": "118",
    "section-breadth-1": "90",
    "section-shape-1": "oval",
    "section-breadth-2": "150",
    "section-shape-2": "box",
    "section-breadth-3": "110",
    "section-shape-3": "oval",
}


def workshop_of(folder: Path, first: str = SMALL) -> Workshop:
    """Return a workshop with one small boat on its shelf, shown."""
    shelf = Shelf(folder / "shelf")
    found = Workshop(desk=desk_of(shelf.put("Sprat", first, {})), shelf=shelf)
    found.desk.is_keeping = True
    return found


def bittern_on_a_shelf(folder: Path) -> Workshop:
    """Return a workshop as it is at the first start."""
    shelf = Shelf(folder / "shelf")
    found = Workshop(desk=desk_of(shelf.begin()), shelf=shelf)
    assert shelf.names() == (FIRST,)
    found.desk.is_keeping = True
    return found


class ShelfPage:
    """The page of a workshop, without a browser."""

    def __init__(self, workshop: Workshop) -> None:
        self.workshop = workshop
        keys = Keys()
        self.client = TestClient(app(workshop, HOST, keys), base_url=f"http://{HOST}{keys.root}")
        assert self.client.get("/").status_code == 200

    @property
    def desk(self) -> Desk:
        """Return the boat that is shown now."""
        return self.workshop.desk

    def press(self, pressed: str, **more: str) -> str:
        """Press a button on the shelf, and return what the page is then."""
        typed = {"act": pressed, "revision": str(self.desk.revision), "place": "shelf", **more}
        answer = self.client.post("/act", data=typed, headers=OWN | {"hx-request": "true"})
        assert answer.status_code == 200, answer.text
        if to := answer.headers.get("hx-redirect"):
            return self.client.get(f"http://{HOST}{to}").text
        return answer.text

    def give(self, name: str, data: bytes) -> str:
        """Drop a file on the shelf, wait until it is read, and return what the page is then."""
        return given(self.client, "shelf/in", self.desk, name, data)


def given(client: TestClient, address: str, desk: Desk, name: str, data: bytes) -> str:
    """Drop a file somewhere, wait until it is read, and return what the page is then."""
    asked = {"revision": str(desk.revision), "place": address.partition("/")[0]}
    head = OWN | {"x-name": quote(name)}
    answer = client.post(f"/{address}", params=asked, content=data, headers=head)
    assert answer.status_code == 200, answer.text
    if 'class="reading"' in answer.text:
        while "hx-redirect" not in answer.headers:
            time.sleep(0.05)
            answer = client.get("/reading", params={"place": asked["place"]})
            assert answer.status_code == 200, answer.text
    to = answer.headers.get("hx-redirect")
    return client.get(f"http://{HOST}{to}").text if to else answer.text
