"""What a changed cylinder does to the room of the tank in it stands beside what was done."""

from math import pi
from pathlib import Path
from shutil import copytree

from tests.page.conftest import BOATS, OWN, Page, page_of


def put(page: Page, field: str, typed: str) -> None:
    """Type into a field."""
    sent = {"field": field, "typed": typed, "revision": str(page.desk.revision)}
    answer = page.client.post("/edit", data=sent, headers=OWN | {"hx-request": "true"})
    assert answer.status_code == 200, answer.text


def test_a_tank_that_grows_with_its_tube_is_named(tmp_path: Path) -> None:
    file = Path(copytree(BOATS / "bittern", tmp_path / "bittern")) / "boat.toml"
    page = page_of(file).enter()
    boat = page.desk.her.boat
    tank, home = boat.tanks[0], boat.cylinders[0]
    put(page, "cylinder[1].wall", "4 mm")
    says = page.desk.steps[-1].says
    bore = home.outside - 2 * 0.004
    room = pi / 4 * bore**2 * tank.length * (1 - tank.lost) * 1e6
    before = pi / 4 * tank.bore**2 * tank.length * (1 - tank.lost) * 1e6
    assert says.endswith(
        f"; {tank.name} has room for {room:.0f} cm³ now, {before:.0f} cm³ before"
    ), says
    put(page, "part[1].mass", "900 g")
    assert "room for" not in page.desk.steps[-1].says


def test_the_board_says_what_her_tanks_hold() -> None:
    page = page_of(BOATS / "bittern" / "boat.toml").enter()
    held = page.desk.her.boat.units.write(page.desk.her.need.fitted, "volume")
    assert f"Forward tank, after tank: hold {held}" in page.client.get("/board").text
    assert f"her tanks take {held}" in page.client.get("/tub").text
