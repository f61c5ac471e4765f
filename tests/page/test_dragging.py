"""A thing in hand: how far it goes, what it hits, what she does then; by mouse, keys and numbers.

The two minutes: Bittern as bought put right without a number typed, by mouse and by keyboard.
"""

import re
from collections.abc import Callable
from math import degrees

import pytest
from playwright.sync_api import Browser, expect
from tests.page.browsing import ASKED, AXE, Seen, entered, with_browser
from tests.page.conftest import BOATS, Page

from trimdive.assessment import Assessment, assess
from trimdive.page.desk import Desk, Slider, opened
from trimdive.page.guard import Keys
from trimdive.page.moving import edits, gone, held, ways
from trimdive.page.trial import around, entered_place, in_hand, shift_to, trial

WORKS_AHEAD = True


@pytest.fixture(scope="module")
def bought() -> Assessment:
    return assess(BOATS / "bittern-as-bought" / "boat.toml")


def path_of(her: Assessment, name: str) -> str:
    """Return the path of a part by its name."""
    return f"part[{[part.name for part in her.boat.parts].index(name) + 1}]"


def test_a_tank_goes_with_its_works_between_battery_and_cylinder_end(bought: Assessment) -> None:
    """By hand from the boat file: the tank ends at 1665, the battery begins before 1770."""
    thing = held(bought, "tank[1]")
    assert [thing.name, len(thing.along)] == ["forward tank", 2]
    along, upward = ways(bought, thing)
    battery = next(part for part in bought.boat.parts if part.name == "forward battery")
    length = battery.length or 0.0
    assert along.on.what == "forward battery"
    assert along.on.gap == pytest.approx(battery.x - length / 2 - 1.665, abs=1e-4)
    assert along.back.what == "the after end of forward cylinder"
    assert upward.on.gap == pytest.approx(0.0, abs=1e-4), "it fills the bore"


def test_gaps_are_drawn_from_end_to_end(bought: Assessment) -> None:
    """By hand from the boat file: the tank ends at 1665 mm, the battery begins at 1670 mm."""
    answer = around(bought, held(bought, "tank[1]"))
    assert answer["near"] == ["forward 5.0 mm to forward battery"]
    (gap,) = answer["gaps"]  # type: ignore[misc]
    assert gap["start"] == pytest.approx({"x": 1665.0, "z": 88.0}, abs=0.1)
    assert gap["end"] == pytest.approx({"x": 1670.0, "z": 88.0}, abs=0.1)
    assert gap["says"] == "5.0 mm"


def test_it_stops_at_what_it_would_hit(bought: Assessment) -> None:
    thing = held(bought, "tank[1]")
    shift, stopped = gone(bought, thing, shift_to(thing, 2.0, None))
    assert stopped == "forward battery"
    then = bought.edited(edits(bought, thing, shift))
    ahead = ways(then, held(then, "tank[1]"))[0].on
    assert ahead.gap == pytest.approx(0.0, abs=1e-4)


def test_lead_stops_at_the_skin(bought: Assessment) -> None:
    """However far it is pushed down, no corner of it is out of the hull by the drawing's facets."""
    from trimdive.geometry.solids.inside import is_inside
    from trimdive.pictures.drawings.things import things

    thing = held(bought, "lead[2]")
    shift, stopped = gone(bought, thing, shift_to(thing, None, -0.2))
    assert stopped == "the outside of the hull"
    then = bought.edited(edits(bought, thing, shift))
    mesh = next(one for one in things(then) if one.path == "lead[2]").meshes[0]
    assert is_inside(then.hull.envelope, mesh.vertices).all()
    lower = bought.edited(edits(bought, thing, shift - [0.0, 0.004]))
    mesh = next(one for one in things(lower) if one.path == "lead[2]").meshes[0]
    assert not is_inside(lower.hull.envelope, mesh.vertices).all(), "4 mm more would be out"


def test_what_is_tried_is_what_she_does_when_it_is_put_there(bittern: Page) -> None:
    her = bittern.desk.her
    answer = trial(her, "tank[1]", 1.52, None, Slider(filling=0.5))
    bittern.press("move tank[1]", move_x="1520", move_z="88")
    there = bittern.desk.her
    assert there.boat.tanks[0].x == pytest.approx(1.52)
    works = next(part for part in there.boat.parts if part.name == "forward tank works")
    assert works.x == pytest.approx(1.53)
    rows = {row["name"]: row["then"] for row in answer["rows"]}  # type: ignore[attr-defined]
    assert rows["litres needed"] == there.boat.units.write(there.need.volume, "volume")
    assert rows[f"BG, {there.lowest_name}"] == there.boat.units.write(there.lowest.bg, "length")
    state = there.moment(0.5).state
    assert answer["lie"]["trim"] == pytest.approx(degrees(state.trim_angle), abs=0.01)  # type: ignore[index]
    curve = answer["curve"]["trim"]  # type: ignore[index]
    assert curve == pytest.approx([degrees(m.state.trim_angle) for m in there.dive], abs=0.01)
    bittern.press("undo")
    assert bittern.desk.her.boat.tanks[0].x == pytest.approx(1.6)


def test_a_number_to_either_end(bittern: Page) -> None:
    her = bittern.desk.her
    assert entered_place(her, "tank[1]", "1520", "middle") == pytest.approx(1.52)
    assert entered_place(her, "tank[1]", "1455 mm", "after end") == pytest.approx(1.52)
    assert entered_place(her, "tank[1]", "158.5 cm", "fore end") == pytest.approx(1.52)
    bittern.press("move tank[1]", place_x="60 in", place_end="middle")
    assert bittern.desk.her.boat.tanks[0].x == pytest.approx(60 * 0.0254, abs=1e-4)


@pytest.mark.parametrize(
    ("act", "typed", "says"),
    [
        ("move tank[1]", {"place_x": "far"}, "far"),
        ("move tank[9]", {"move_x": "1"}, "tank[9]"),
        ("move region[1]", {"move_x": "1"}, "region[1]"),
        ("move tank[1]", {"move_x": "nan"}, "stays where it is"),
        ("move tank[1]", {}, "stays where it is"),
    ],
)
def test_what_cannot_be_moved_is_told(
    bittern: Page, act: str, typed: dict[str, str], says: str
) -> None:
    text = bittern.press(act, **typed)
    assert says in text
    assert len(bittern.desk.steps) == 1


def test_every_thing_of_every_boat_can_be_taken_in_hand() -> None:
    for name in ("bittern", "grebe", "plover-as-bought"):
        her = assess(BOATS / name / "boat.toml")
        for path in ("tank[1]", "cylinder[1]", "lead[1]", "foam[1]", "part[1]"):
            answer = in_hand(her, path)
            assert answer["path"] == path
            thing = held(her, path)
            for way in ways(her, thing):
                assert way.back.gap >= 0
                assert way.on.gap >= 0


def test_what_is_in_a_cylinder_goes_with_it_or_stays(bittern: Page) -> None:
    """By hand from the boat file: two tanks or parts of works, tray and batteries lie in it."""
    boat = bittern.desk.her.boat
    inside = [one for one in (*boat.tanks, *boat.parts) if one.inside == "forward cylinder"]
    before = {one.name: one.x for one in inside}
    text = bittern.press("move cylinder[1]", move_x="1575", move_z="88")
    assert f"moved 10.0 mm aft, with {len(inside)} things in it" in text
    boat = bittern.desk.her.boat
    for one in (*boat.tanks, *boat.parts):
        if one.name in before:
            assert one.x == pytest.approx(before[one.name] - 0.01)
    bittern.press("undo")
    assert bittern.desk.her.boat.tanks[0].x == pytest.approx(before["forward tank"])
    bittern.press("move cylinder[1]", move_x="1575", move_z="88", alone="1")
    assert bittern.desk.her.boat.tanks[0].x == pytest.approx(before["forward tank"])
    assert bittern.desk.her.boat.cylinders[0].x == pytest.approx(1.575)
    again = bittern.client.get("/").text
    assert 'value="1" checked' in again.partition('name="alone" value=""')[2][:200]


def test_a_piston_tank_is_moved_by_its_water_end() -> None:
    her = assess(BOATS / "grebe" / "boat.toml")
    thing = held(her, "tank[1]")
    then = her.edited(edits(her, thing, shift_to(thing, float(thing.place[0]) - 0.01, None)))
    assert then.boat.tanks[0].water_end == pytest.approx((her.boat.tanks[0].water_end or 0) - 0.01)


def doing(seen: Seen, starts: str) -> None:
    """Press the Do it of a finding by what it says."""
    item = seen.page.locator(".findings > li", has_text=re.compile(starts))
    item.locator("> .do").click()
    expect(seen.page.locator("#note")).to_contain_text("Done")


def changed(seen: Seen, press: Callable[[], None]) -> None:
    """Press something, and wait until the page shows what it made, with all that goes with it."""
    field = seen.page.locator("input[name=revision]")
    before = field.input_value()
    press()
    expect(field).not_to_have_value(before)
    expect(seen.page.locator(".following")).to_have_count(0)


@with_browser
def test_the_two_minutes_by_mouse(seen: Seen) -> None:
    page = seen.page
    assert seen.value() == "12.4°"
    seen.slide(0)
    seen.slide(1)
    doing(seen, "Winch house is closed")
    seen.slide(0)
    flat = page.locator(".track .firm").last.get_attribute("d")
    box = page.locator('.thing[data-path="tank[1]"]').bounding_box()
    assert box is not None
    scale = page.evaluate("document.querySelector('.scene .boat').getScreenCTM().a")
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x - 30 * scale, y, steps=3)
    page.locator(".track .tried").wait_for()
    first = page.locator(".track .tried").get_attribute("d")
    page.mouse.move(x - 82.7 * scale, y, steps=20)
    expect(page.locator(".hand .where")).to_contain_text(re.compile(r"15[12]\d"))
    assert page.locator(".track .tried").get_attribute("d") not in (first, flat), "it flattens"
    expect(page.locator(".hand tbody")).to_contain_text("34.4° bow down")
    page.mouse.up()
    expect(page.locator("#note")).to_contain_text(
        re.compile("Done: forward tank moved .* aft, with its works")
    )
    assert page.locator("select[name=picked]").input_value() == "tank[1]"
    for _ in range(5):
        if page.locator("h2").first.inner_text().startswith("Nothing left to put right"):
            break
        changed(seen, lambda: page.locator(".findings > li > .do").first.click())
    expect(page.locator("h2").first).to_have_text(re.compile("^Nothing left to put right"))
    for filling in [k / 20 for k in [*range(21), *reversed(range(21))]]:
        seen.slide(filling)
        assert float(seen.value().removesuffix("°")) < 6, "Bittern tips 5° with both tanks together"
    page.get_by_role("button", name="Save", exact=True).click()
    expect(page.locator("#note")).to_contain_text("Saved")
    saved = opened(seen.desk.path).her
    assert saved.in_order
    page.reload()
    expect(page.locator("h2").first).to_have_text(re.compile("^Nothing left to put right"))


def to(seen: Seen, found: str) -> None:
    """Go to what a script finds of the element that has the focus, by the Tab key alone."""
    for _ in range(120):
        if seen.page.evaluate(
            f"(() => {{ const one = document.activeElement; return {found}; }})()"
        ):
            return
        seen.page.keyboard.press("Tab")
    raise AssertionError(found)


@with_browser
def test_the_two_minutes_by_keyboard(seen: Seen) -> None:
    page, keys = seen.page, seen.page.keyboard
    to(seen, "one.matches('input[type=range]')")
    with page.expect_response(re.compile("/state")):
        keys.press("Home")
    with page.expect_response(re.compile("/state")):
        keys.press("End")
    expect(page.locator(".following")).to_have_count(0)
    to(seen, "one.matches('.do')")
    keys.press("Enter")
    expect(page.locator("#note")).to_contain_text("winch house entered as drilled")
    to(seen, "one.id === 'picked'")
    keys.type("forward tank")
    to(seen, "one.matches('.grip')")
    expect(page.locator(".hand .near")).to_contain_text("forward battery")
    for _ in range(8):
        keys.press("Shift+ArrowLeft")
    for _ in range(3):
        keys.press("ArrowLeft")
    expect(page.locator(".hand .where")).to_contain_text("1517")
    keys.press("Escape")
    expect(page.locator(".hand")).not_to_have_class(re.compile("trying"))
    assert len(seen.desk.steps) == 2, "taken back"
    for _ in range(8):
        keys.press("Shift+ArrowLeft")
    for _ in range(3):
        keys.press("ArrowLeft")
    expect(page.locator(".hand .where")).to_contain_text("1517")
    keys.press("Enter")
    expect(page.locator("#note")).to_contain_text("moved 83.0 mm aft")
    expect(page.locator(".following")).to_have_count(0)  # mends are offered then
    for _ in range(5):
        if page.locator("h2").first.inner_text().startswith("Nothing left to put right"):
            break
        to(seen, "one.matches('.do') && one.closest('.findings > li > .do')")
        before = len(seen.desk.steps)
        changed(seen, lambda: keys.press("Enter"))
        assert len(seen.desk.steps) == before + 1
    expect(page.locator("h2").first).to_have_text(re.compile("^Nothing left to put right"))
    keys.press("Control+s")
    expect(page.locator("#note")).to_contain_text("Saved")
    assert opened(seen.desk.path).her.in_order


@with_browser
def test_what_is_picked_elsewhere_takes_no_focus_away(seen: Seen) -> None:
    """As the Scales pick it: the list under the track is changed by a script."""
    seen.page.locator("#units").focus()
    seen.page.evaluate(PICK, "tank[1]")
    expect(seen.page.locator(".scene .thing.held")).to_have_attribute("data-path", "tank[1]")
    expect(seen.page.locator(".hand .near")).to_contain_text("forward battery")
    assert seen.page.evaluate("document.activeElement.id") == "units"


PICK = """(path) => {
  const picked = document.querySelector('#picked');
  picked.value = path;
  picked.dispatchEvent(new Event('change', { bubbles: true }));
}"""


@with_browser
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_nobody_is_shut_out_with_a_thing_in_hand(
    browser: Browser, served: tuple[Desk, str, Keys], scheme: str
) -> None:
    """WCAG 2.2 A and AA, by axe-core; and what is next to it is drawn."""
    seen = entered(browser, served, color_scheme=scheme)
    seen.page.locator("#picked").select_option(label="forward tank")
    expect(seen.page.locator(".hand .near")).to_contain_text("forward battery")
    expect(seen.page.locator(".dimensions text")).to_have_text(["5.0 mm"])
    seen.page.locator(".grip").focus()
    seen.page.keyboard.press("Shift+ArrowLeft")
    expect(seen.page.locator(".hand tbody tr")).to_have_count(5)
    expect(seen.page.locator(".dimensions text").last).to_have_text("15.0 mm")
    seen.page.evaluate(AXE)
    assert seen.page.evaluate(ASKED) == []
    seen.page.context.close()
    assert seen.wrong == []
