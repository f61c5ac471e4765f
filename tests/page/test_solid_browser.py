"""The boat in 3D on the drawing board: loaded when asked for, turned, cut, picked, and idle."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect
from tests.page.browsing import entered, on_a_port, with_browser
from tests.page.conftest import desk_of

from trimdive.page.desk import Desk

pytestmark = with_browser
SMALL = {"width": 1000, "height": 640}  # a window; without a graphics card each dot takes its time
READ_BACK = "GL Driver Message"  # the browser's own, where it draws without a graphics card
PAPER = {"light": [250, 248, 242], "dark": [21, 24, 26]}  # --paper in page.css
INK = [29, 28, 26]  # --ink there
KEPT = """(name) => {
  const { solid, canvas } = document.querySelector("board-solid");
  const { width, height } = canvas;
  const copy = Object.assign(document.createElement("canvas"), { width, height });
  const flat = copy.getContext("2d");
  solid.draw();
  flat.drawImage(canvas, 0, 0);
  const dots = new Uint32Array(flat.getImageData(0, 0, width, height).data.buffer);
  (window.pictures ??= {})[name] = dots;
  return [new Set(dots).size, ...new Uint8Array(dots.buffer, dots.byteLength - 4, 3)];
}"""
COUNTED = """([name, red, green, blue]) => {
  const asked = (255 << 24 | blue << 16 | green << 8 | red) >>> 0;
  return window.pictures[name].reduce((sum, dot) => sum + (dot === asked), 0);
}"""
CANVAS = """() => {
  const probe = document.body.appendChild(document.createElement("i"));
  probe.style.color = "Canvas";
  return getComputedStyle(probe).color;
}"""
DIFFERS = """([one, other]) => {
  const [a, b] = [window.pictures[one], window.pictures[other]];
  return a.reduce((sum, dot, i) => sum + (dot !== b[i]), 0) / a.length;
}"""


@dataclass(kw_only=True)
class Shown:
    """The board with its picture in 3D."""

    page: Page
    desk: Desk
    asked: list[str] = field(default_factory=list)  # addresses

    def settled(self) -> None:
        """Wait until what was asked for is drawn."""
        self.page.evaluate(
            "() => new Promise((f) => requestAnimationFrame(() => requestAnimationFrame(f)))"
        )

    def unfold(self) -> "Shown":
        """Open the picture, and wait for it."""
        self.page.locator("#in-3d summary").click()
        self.page.locator("board-solid.shown").wait_for()
        self.page.locator("#solid-picture").scroll_into_view_if_needed()
        self.settled()
        return self

    def keep(self, name: str) -> tuple[int, list[int]]:
        """Keep the picture under a name; return its colours and its last dot."""
        self.settled()
        colours, *last = self.page.evaluate(KEPT, name)
        return colours, last

    def differs(self, one: str, other: str) -> float:
        """Return the share of dots of two pictures that are of another colour [-]."""
        return self.page.evaluate(DIFFERS, [one, other])

    def counted(self, name: str, colour: list[int]) -> int:
        """Return how many dots of a picture are of a colour."""
        return self.page.evaluate(COUNTED, [name, *colour])

    def seen(self) -> bytes:
        """Return the picture as it is on the screen."""
        self.settled()
        return self.page.locator("#solid-picture").screenshot()

    def view(self) -> dict[str, float]:
        """Return from where she is seen."""
        return self.page.evaluate("""() => {
          const { round, high, zoom, shift } = document.querySelector("board-solid").solid.view;
          return { round, high, zoom, right: shift.x, port: shift.y, up: shift.z };
        }""")

    def drawn(self) -> int:
        """Return how many pictures were drawn."""
        return self.page.evaluate("document.querySelector('board-solid').solid.drawn")

    def slide(self, which: str, value: str) -> None:
        """Slide the section or the filling."""
        self.page.locator(f"board-solid .{which}").fill(value)


def boards(browser: Browser, desk: Desk, **looks: object) -> Iterator[Shown]:
    """Yield the board of a boat; afterwards nothing may have gone wrong in it."""
    with on_a_port(desk) as served:
        seen = entered(browser, served, **({"viewport": SMALL} | looks))
        shown = Shown(page=seen.page, desk=desk)
        seen.page.on("request", lambda asked: shown.asked.append(asked.url))
        seen.page.get_by_role("link", name="Drawing board").click()
        seen.page.locator("#in-3d").wait_for()
        yield shown
        seen.page.context.close()
    assert [said for said in seen.wrong if READ_BACK not in said] == []


@pytest.fixture
def desk(copied: Callable[[str], Path]) -> Desk:
    """Return Bittern, opened."""
    return desk_of(copied("bittern"))


@pytest.fixture
def shown(browser: Browser, desk: Desk) -> Iterator[Shown]:
    yield from boards(browser, desk)


def test_nothing_of_it_is_loaded_before_it_is_unfolded(shown: Shown) -> None:
    shown.settled()
    assert not [url for url in shown.asked if "solid" in url or "three" in url]
    shown.unfold()
    assert sum("three.min.js" in url for url in shown.asked) == 1
    assert sum("/board/solid" in url for url in shown.asked) == 1


def test_she_is_seen_and_turned_by_keys(shown: Shown) -> None:
    shown.unfold()
    first, from_where = shown.seen(), shown.view()
    colours, corner = shown.keep("first")
    assert colours > 200
    assert corner == PAPER["light"]
    canvas = shown.page.locator("#solid-picture")
    canvas.focus()
    shown.page.keyboard.press("ArrowRight")
    shown.page.keyboard.press("ArrowDown")
    assert shown.view()["round"] == from_where["round"] - 5
    assert shown.view()["high"] == from_where["high"] + 5
    assert shown.seen() != first
    shown.keep("turned")
    assert shown.differs("first", "turned") > 0.02
    for key in ("+", "Shift+ArrowLeft"):
        shown.page.keyboard.press(key)
    assert shown.view()["zoom"] == pytest.approx(1.2)
    assert shown.view()["right"] > 0
    expect(shown.page.locator(".seen")).to_have_text(
        "She is seen from the starboard bow, 23° from above."
    )
    expect(shown.page.locator(".seen")).to_have_attribute("aria-live", "polite")
    shown.page.keyboard.press("Home")
    assert shown.view() == from_where
    shown.keep("reset")
    assert shown.differs("first", "reset") == 0
    assert canvas.evaluate("(one) => getComputedStyle(one).outlineStyle") == "solid"


def test_she_is_turned_by_mouse_and_moved(shown: Shown) -> None:
    shown.unfold()
    box = shown.page.locator("#solid-picture").bounding_box()
    assert box is not None
    before = shown.view()
    mouse = shown.page.mouse
    mouse.move(box["x"] + 200, box["y"] + 100)
    mouse.down()
    mouse.move(box["x"] + 300, box["y"] + 140)
    mouse.up()
    assert shown.view()["round"] == pytest.approx((before["round"] - 30) % 360)
    assert shown.view()["high"] == pytest.approx(before["high"] + 12)
    shown.page.get_by_role("button", name="Zoom in").click()
    assert shown.view()["zoom"] == pytest.approx(1.2)
    shown.page.get_by_role("button", name="Zoom out").click()
    shown.page.get_by_role("button", name="Reset view").click()
    assert shown.view() == before


def test_she_is_turned_by_touch(browser: Browser, desk: Desk) -> None:
    for shown in boards(browser, desk, has_touch=True, viewport={"width": 400, "height": 850}):
        shown.unfold()
        before = shown.view()
        for kind, x in (("pointerdown", 100), ("pointermove", 140), ("pointerup", 140)):
            shown.page.evaluate(
                """([kind, x]) => {
              const canvas = document.querySelector("#solid-picture");
              canvas.setPointerCapture = () => {};
              const how = { pointerId: 7, pointerType: "touch", bubbles: true, button: 0 };
              canvas.dispatchEvent(new PointerEvent(kind, { ...how, clientX: x, clientY: 300 }));
            }""",
                [kind, x],
            )
        assert shown.view()["round"] == pytest.approx((before["round"] - 12) % 360)
        style = "getComputedStyle(document.querySelector('#solid-picture')).touchAction"
        assert shown.page.evaluate(style) == "pan-y"  # up and down the page goes on scrolling


def test_a_section_is_cut_and_filled(shown: Shown) -> None:
    shown.unfold()
    shown.keep("whole")
    expect(shown.page.locator(".holds .at")).to_have_text("whole")
    shown.slide("section", "500")
    expect(shown.page.locator(".holds .at")).to_have_text("1150 mm from the stern, aft of it")
    shown.keep("aft")
    assert shown.differs("whole", "aft") > 0.05
    assert shown.counted("aft", INK) > 300 + shown.counted(
        "whole", INK
    )  # her skin, where it is cut
    shown.page.get_by_role("button", name="Other half").click()
    expect(shown.page.locator(".holds .at")).to_have_text("1150 mm from the stern, forward of it")
    shown.keep("forward")
    assert shown.differs("aft", "forward") > 0.05
    shown.page.locator("board-solid .section").press("ArrowLeft")
    expect(shown.page.locator(".holds .at")).to_contain_text("1148 mm")
    shown.slide("section", "1000")
    shown.keep("whole again")
    assert shown.differs("whole", "whole again") == 0


def test_no_picture_is_drawn_while_nothing_changes(shown: Shown) -> None:
    shown.unfold()
    before = shown.drawn()
    frames = shown.page.evaluate(
        """async () => {
      let asked = 0;
      const own = window.requestAnimationFrame;
      window.requestAnimationFrame = (f) => { asked += 1; return own(f); };
      await new Promise((done) => setTimeout(done, 1000));
      window.requestAnimationFrame = own;
      return asked;
    }"""
    )
    assert (frames, shown.drawn()) == (0, before)
    shown.page.locator("#solid-picture").press("ArrowUp")
    shown.settled()
    assert shown.drawn() == before + 1


def test_the_tanks_are_filled_and_she_rises(shown: Shown) -> None:
    shown.unfold()
    shown.keep("dived")
    expect(shown.page.locator(".holds .full")).to_contain_text("91 % full")
    shown.slide("filling", "0")
    expect(shown.page.locator(".holds .full")).to_have_text("0 % full")
    assert shown.page.locator("input[name=filling]").input_value() == "0"
    shown.keep("afloat")
    assert shown.differs("dived", "afloat") > 0.05


def test_what_is_pressed_is_chosen_and_the_other_way_round(shown: Shown) -> None:
    shown.unfold()
    canvas = shown.page.locator("#solid-picture")
    box = canvas.bounding_box()
    assert box is not None
    at = {"x": box["width"] * 0.4, "y": box["height"] * 0.5}
    canvas.hover(position=at)
    expect(shown.page.locator(".picture .named")).to_contain_text(": ")
    name = shown.page.locator(".picture .named").inner_text().split(":")[0]
    shown.keep("before")
    with shown.page.expect_response(lambda answer: "/hold?" in answer.url):
        canvas.click(position=at)
    chosen = shown.page.locator("select[name=picked] option:checked").inner_text()
    assert chosen.startswith(name)
    expect(shown.page.locator(".seen")).to_contain_text(f"{name} is chosen")
    shown.keep("chosen")
    assert shown.differs("before", "chosen") > 0.001
    expect(shown.page.locator(".pieces tr.picked")).to_contain_text(name)
    shown.page.locator(".pieces tr[data-path='part[3]'] input").first.focus()
    expect(shown.page.locator(".seen")).to_contain_text("forward tank works is chosen")


def test_an_edit_shows_in_it_and_moves_nothing(shown: Shown) -> None:
    shown.unfold()
    shown.page.locator("#solid-picture").press("ArrowRight")
    turned = shown.view()
    shown.page.evaluate("document.querySelector('#solid-picture').isOwn = true")
    with shown.page.expect_response(lambda answer: "/board/solid" in answer.url):
        shown.page.locator("#fold-board-region-4 > summary").click()
        field = shown.page.locator("[id='field-region[4].thickness']")
        field.fill("4 mm")
        field.press("Enter")
    expect(shown.page.locator("#note")).to_contain_text("Done")
    shown.settled()
    assert shown.view() == turned
    assert shown.page.evaluate("document.querySelector('#solid-picture').isOwn") is True
    assert shown.keep("edited")[0] > 200


def test_it_stays_unfolded_and_folded_as_it_was_left(shown: Shown) -> None:
    """Left and come back to again and again, it has one picture, and the browser has no more."""
    shown.unfold()
    for _ in range(18):  # a browser has some sixteen such pictures at a time, and says so of more
        shown.page.get_by_role("link", name="Scales").click()
        shown.page.locator("section.place.scales").wait_for()
        shown.page.get_by_role("link", name="Drawing board").click()
        shown.page.locator("board-solid.shown").wait_for()
    shown.settled()
    assert shown.drawn() > 0
    shown.page.locator("#in-3d summary").click()
    shown.page.get_by_role("link", name="Scales").click()
    shown.page.locator("section.place.scales").wait_for()
    shown.page.get_by_role("link", name="Drawing board").click()
    expect(shown.page.locator("#in-3d summary")).to_be_visible()
    expect(shown.page.locator("#solid-picture")).to_be_hidden()


def test_in_the_dark_it_is_dark(shown: Shown) -> None:
    shown.unfold()
    shown.page.emulate_media(color_scheme="dark")
    assert shown.keep("dark")[1] == PAPER["dark"]


def test_without_webgl_one_sentence_stands_in_its_place(browser: Browser, desk: Desk) -> None:
    with on_a_port(desk) as served:
        seen = entered(browser, served)
        seen.page.add_init_script("HTMLCanvasElement.prototype.getContext = () => null;")
        asked: list[str] = []
        seen.page.on("request", lambda one: asked.append(one.url))
        seen.page.goto(f"{seen.home}/board")
        seen.page.locator("#in-3d summary").click()
        expect(seen.page.locator("board-solid .instead")).to_be_visible()
        expect(seen.page.locator("#solid-picture")).to_be_hidden()
        assert not [url for url in asked if "three.min.js" in url]
        seen.page.locator("#fold-board-waterline > summary").click()
        seen.page.locator("#mark-name").fill("quarter")
        seen.page.locator("#mark-x").fill("300 mm")
        seen.page.get_by_role("button", name="Add", exact=True).click()
        expect(seen.page.get_by_role("button", name="Remove quarter")).to_be_visible()
        seen.page.context.close()
    assert seen.wrong == []


def test_with_colours_of_ones_own_it_is_drawn_in_them(browser: Browser, desk: Desk) -> None:
    for shown in boards(browser, desk, forced_colors="active", color_scheme="dark"):
        colours, corner = shown.unfold().keep("own")
        asked = shown.page.evaluate(CANVAS)
        assert asked == f"rgb({', '.join(map(str, corner))})"
        assert colours > 200
