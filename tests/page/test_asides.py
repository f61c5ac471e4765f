"""Plan and section beside the boat: in the right place, leaning as she leans, by mouse and keys."""

import re
from pathlib import Path

import numpy as np
import pytest
from playwright.sync_api import Browser, expect
from tests.page.browsing import ASKED, Seen, entered, with_browser
from tests.page.conftest import BOATS, Page

from trimdive.assessment import Assessment, assess
from trimdive.page.cut_at import cut_view
from trimdive.page.desk import Desk
from trimdive.page.guard import Keys
from trimdive.page.tank_slides import tanks_view
from trimdive.pictures.drawings.words import low_by, places


@pytest.fixture(scope="module")
def bought() -> Assessment:
    return assess(BOATS / "bittern-as-bought" / "boat.toml")


def test_a_tank_is_cut_in_a_circle_of_its_bore(bought: Assessment) -> None:
    """The bore by the boat file: 125 less twice 3.7 mm, about the axis 88 mm high."""
    answer = cut_view(bought, 1.6)
    (tank,) = answer["tanks"]  # type: ignore[misc]
    y, z = np.array(tank["y"]), np.array(tank["z"])
    assert tank["number"] == 0
    area = abs(y @ np.roll(z, -1) - z @ np.roll(y, -1)) / 2
    assert area == pytest.approx(np.pi * 58.8**2, rel=1e-3), "its facets hold what the bore holds"
    assert (y.max() + y.min(), z.max() + z.min()) == pytest.approx((0.0, 176.0), abs=0.2)
    assert answer["says"] == "section 1600 mm from the stern"


def test_the_skin_is_cut_in_two_lines(bought: Assessment) -> None:
    """The lower hull moulding weighs 4507 g of 1.60 g/cm³ over about 0.86 m²: 3.2 mm."""
    svg = str(cut_view(bought, 1.38)["svg"])
    hull = re.search(r"<title>lower hull</title><path d=\"([^\"]+)\"", svg)
    assert hull is not None
    points = np.array(
        [[float(n) for n in p.split(",")] for p in re.findall(r"-?[\d.]+,-?[\d.]+", hull[1])]
    )
    keel = -points[np.abs(points[:, 0]) < 3.0, 1]
    assert keel.min() == pytest.approx(0.0, abs=0.2)
    assert keel.max() == pytest.approx(3.2, abs=0.4)


def test_beyond_her_ends_the_end_is_cut(bought: Assessment) -> None:
    assert cut_view(bought, 9.0)["x"] == pytest.approx(2299.0, abs=0.5)
    assert cut_view(bought, -9.0)["x"] == pytest.approx(1.0, abs=0.5)


def test_what_is_no_place_is_the_middle(bittern: Page) -> None:
    answer = bittern.client.get("/cut", params={"x": "here<script>"}).json()
    assert answer["x"] == pytest.approx(1150.0, abs=1.0)
    assert "plan-hull" in bittern.client.get("/plan").text


def test_each_tank_filled_as_on_the_planned_way_is_that_moment(bought: Assessment) -> None:
    """Half of what comes in, in each: the dive at a half; she lies as she does there."""
    room = bought.floater.tanks.capacities
    shares = (bought.path.at(0.5) / room).tolist()
    answer = tanks_view(bought, shares)
    lie = answer["lie"]
    assert isinstance(lie, dict)
    assert lie["filling"] == pytest.approx(0.5, abs=1e-6)
    state = bought.moment(0.5).state
    assert lie["trim"] == pytest.approx(np.degrees(state.trim_angle), abs=0.01)


def test_the_forward_tank_alone_tips_her_by_the_bow(bought: Assessment) -> None:
    """By levers: more water forward, bow lower; what is more than a tank takes is its most."""
    bow, stern = (tanks_view(bought, shares)["lie"] for shares in ([1.0, 0.0], [0.0, 1.0]))
    assert isinstance(bow, dict)
    assert isinstance(stern, dict)
    assert bow["trim"] > 1.0 > -1.0 > stern["trim"]
    assert bow["filling"] == pytest.approx(0.5, abs=0.01), "the tanks are alike"


def test_tanks_that_are_not_there_are_left_alone(bittern: Page) -> None:
    for asked in ("", "0.5,0.5,0.5,0.5", "x,<script>", "nan,inf"):
        answer = bittern.client.get("/tanks", params={"full": asked})
        assert answer.status_code == 200
        assert len(answer.json()["lie"]["tanks"]) == 2


def over(seen: Seen, share: float, click: bool = False) -> None:
    """Point at a share of the drawing's breadth, at half its height."""
    box = seen.page.locator(".scene").bounding_box()
    assert box is not None
    at = box["x"] + share * box["width"], box["y"] + 0.15 * box["height"]
    seen.page.mouse.move(*at)
    if click:
        seen.page.mouse.click(*at)


@with_browser
def test_the_section_follows_the_pointer_and_a_click_holds_it(seen: Seen) -> None:
    head = seen.page.locator(".lean dt")
    expect(head).to_have_text("from astern")
    over(seen, 0.5)
    seen.page.locator(".cutting").wait_for(state="attached")
    over(seen, 0.52)
    expect(head).to_have_text(re.compile(r"at \d+ mm"))
    first = head.inner_text()
    over(seen, 0.6)
    expect(head).not_to_have_text(first)
    over(seen, 0.6, click=True)
    expect(seen.page.locator(".lean .explained")).to_contain_text("held")
    held = head.inner_text()
    over(seen, 0.3)
    seen.page.mouse.move(5, 5)
    expect(head).to_have_text(held)
    seen.slide(0.15)
    turn = seen.page.locator(".cutting").get_attribute("transform") or ""
    lean = abs(float(re.findall(r"rotate\((-?[\d.]+)", turn)[0]))
    assert lean == pytest.approx(20, abs=1), "she leans there"
    seen.page.get_by_role("button", name="Do it").first.click()
    expect(seen.page.locator("#note")).to_contain_text("Done")
    expect(head).to_have_text(held)
    assert seen.page.locator(".scene .cutline.held").get_attribute("d")


@with_browser
def test_the_section_by_keyboard(seen: Seen) -> None:
    pane, head = seen.page.locator("svg.astern"), seen.page.locator(".lean dt")
    pane.focus()
    expect(pane).to_have_attribute("aria-valuetext", re.compile("outline"))
    seen.page.keyboard.press("Home")
    expect(head).to_have_text("at 1.0 mm")
    seen.page.keyboard.press("Shift+ArrowRight")
    expect(head).to_have_text("at 100 mm")
    expect(pane).to_have_attribute("aria-valuetext", "section 100 mm from the stern")
    seen.page.keyboard.press("Escape")
    expect(head).to_have_text("from astern")


ON_THE_SCREEN = """(which) => {
  // Of the line itself: the rectangle that a browser tells has the breadth of the stroke besides.
  const path = document.querySelector(which), box = path.getBBox(), to = path.getScreenCTM();
  return [box.x, box.x + box.width].map((x) => new DOMPoint(x, box.y).matrixTransform(to).x);
}"""


@with_browser
def test_the_plan_lies_under_her_on_the_same_x(seen: Seen) -> None:
    """Where she lies level, bow and stern of both are under one another to the pixel."""
    button = seen.page.get_by_role("button", name="From above")
    button.focus()
    seen.page.keyboard.press("Enter")
    expect(button).to_have_attribute("aria-expanded", "true")
    seen.page.locator(".plan-hull path").wait_for(state="attached")
    seen.slide(0.0)
    above = seen.page.evaluate(ON_THE_SCREEN, ".plan-hull path")
    side = seen.page.evaluate(ON_THE_SCREEN, ".scene .silhouette path")
    assert above == pytest.approx(side, abs=1.0)
    seen.page.get_by_role("button", name="Do it").first.click()
    expect(seen.page.locator("#note")).to_contain_text("Done")
    expect(seen.page.locator(".plan-hull path")).to_have_count(1)
    button.click()
    expect(seen.page.locator(".plan-of")).to_be_hidden()


@with_browser
def test_it_is_told_at_each_mark_how_far_off_her_line_she_floats(seen: Seen) -> None:
    """Blown she floats as Python tells it at bow, middle and stern; dived it is not told."""
    seen.slide(0.0)
    her, shown = seen.desk.her, seen.page.locator(".gauges text")
    for (_, x), says in zip(places(her), shown.all_text_contents(), strict=True):
        off = low_by(her, her.surfaced, x)
        assert off is not None
        number, unit, way = says.split(" ")
        assert (unit, way) == ("mm", "low" if off > 0 else "high")
        assert float(number) == pytest.approx(abs(off) * 1e3, abs=0.06)
    bg = seen.desk.her.surfaced.bg * 1e3
    lever = seen.page.locator(".lever text").text_content() or ""
    assert float(lever.split(" ")[-2].replace("−", "-")) == pytest.approx(bg, abs=0.06), lever
    seen.slide(1.0)
    expect(seen.page.locator(".gauges")).to_be_hidden()


@with_browser
def test_a_slider_for_each_tank(seen: Seen) -> None:
    button = seen.page.get_by_role("button", name="Each tank")
    button.focus()
    seen.page.keyboard.press("Enter")
    forward = seen.page.get_by_role("slider", name="forward tank")
    with seen.page.expect_response(re.compile("/tanks")):
        forward.focus()
        seen.page.keyboard.press("Home")
    expect(seen.page.locator(".figures .word").first).to_have_text("stern down")
    expect(forward).to_have_attribute("aria-valuetext", re.compile(r"^\d+ % full$"))
    seen.slide(1.0)
    assert seen.value() == "12.4°"
    assert float(forward.input_value()) == pytest.approx(1.0, abs=0.02)


@with_browser
def test_she_plays_by_herself_and_halts_at_a_jump(seen: Seen) -> None:
    """Back up from 30 %: she flops into the lean, leans, and the pause shows the exact state."""
    seen.slide(0.3)
    seen.page.evaluate("document.querySelector('boat-drawing').boat.isUp = true")
    slider = seen.page.locator(".way input")
    seen.page.get_by_role("button", name="Play").click()
    expect(seen.page.locator(".words")).to_contain_text("Here she flops", timeout=90_000)
    expect(seen.page.locator(".words")).to_contain_text("heel", timeout=90_000)
    with seen.page.expect_response(re.compile("/state")):
        seen.page.get_by_role("button", name="Pause").click()
    stopped = slider.input_value()
    assert float(stopped) < 0.3
    seen.page.wait_for_timeout(300)
    assert slider.input_value() == stopped
    expect(seen.page.get_by_role("button", name="Play")).to_be_visible()


AXE = (Path(__file__).parents[1] / "data" / "axe.min.js").read_text("utf-8")


@with_browser
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_nobody_is_shut_out_of_what_unfolds(
    browser: Browser, served: tuple[Desk, str, Keys], scheme: str
) -> None:
    """WCAG 2.2 A and AA, by axe-core, with all of it unfolded and a section held."""
    seen = entered(browser, served, color_scheme=scheme)
    for name in ("Each tank", "From above"):
        seen.page.get_by_role("button", name=name).click()
    seen.page.locator(".each input").first.wait_for()
    seen.page.locator("svg.astern").focus()
    seen.page.locator(".cutting").wait_for(state="attached")
    seen.page.keyboard.press("ArrowRight")
    expect(seen.page.locator(".lean .explained")).to_contain_text("held")
    seen.page.evaluate(AXE)
    assert seen.page.evaluate(ASKED) == []
    seen.page.context.close()
    assert seen.wrong == []
