"""Figures in drawings and on the page, as they read there."""

import re
from xml.etree import ElementTree

import numpy as np
from tests.answers.patterns import Found
from tests.drawings.seen import words as in_drawing

from trimdive.assessment import Assessment
from trimdive.hydrostatics.equilibrium import State
from trimdive.hydrostatics.equilibrium.named import weight
from trimdive.page.large import MINUS
from trimdive.page.places.tub_answers import ANSWERS
from trimdive.page.scene import marks as page_marks
from trimdive.page.step import Slider
from trimdive.page.track import table
from trimdive.page.trial import _figures as beside_hand
from trimdive.page.variants import lines_of
from trimdive.page.views import state_view
from trimdive.pictures.drawings import boat_drawing
from trimdive.pictures.drawings.words import figures


def shown(her: Assessment) -> Found:
    """Yield the figures in drawings and on the page."""
    yield from _pictures(her)
    yield from _page(her)


def _pictures(her: Assessment) -> Found:
    for name, state in (("blown", her.surfaced), ("low", her.lowest)):
        svg = ElementTree.fromstring(boat_drawing(her, state))
        yield from _three(name, f"drawing, {name}", figures(her, state), state)
        head = in_drawing(svg, "header")
        for _, value, _ in figures(her, state):
            assert value in head, f"{value} stands in the head of the drawing"
        lever = in_drawing(svg, "lever")[0].removeprefix("BG ")
        yield f"BG, {name}", f"lever of the drawing, {name}", lever
        if need := in_drawing(svg, "need"):
            yield "need", f"drawing, {name}", need[0].removesuffix(" above the waterline,")
        if far := in_drawing(svg, "distance"):
            size, way = far[0].removeprefix("Tank water "), far[1].removeprefix("too far ")
            yield "size of offset", f"drawing, {name}", size
            if re.search("[1-9]", size):
                yield "offset", f"drawing, {name}", f"{size} too far {way}"


def _three(name: str, place: str, three: list[tuple[str, str, str]], state: State) -> Found:
    """Yield the three figures of a state."""
    (_, trim, end), (_, heavy, _), (_, bg, _) = three
    yield f"trim, {name}", place, "level" if end == "level" else f"{trim} {end}"
    if name == "low":
        yield f"size of trim, {name}", place, trim
    yield f"weight, {name}", place, heavy
    yield f"BG, {name}", place, bg
    assert re.search("[0-9]", trim), state


def _page(her: Assessment) -> Found:
    slider = state_view(her, Slider())
    three, lie = slider["figures"], slider["lie"]
    assert isinstance(three, list)
    assert isinstance(lie, dict)
    trim, heavy, bg = three
    end = trim["word"]
    yield "trim, low", "page", "level" if end == "level" else f"{trim['large']} {end}"
    yield "weight, low", "page", " ".join((heavy["large"], heavy["word"]))
    yield "BG, low", "page", bg["large"].replace(MINUS, "-")
    if match := re.search(r"neutral at (\d+ %)", heavy["says"]):
        yield "neutral", "page", match[1]
    yield from _in_browser(her, lie)
    yield from _beside(her)
    for one in lines_of(her):
        if one.name == "litres needed":
            yield "need", "page, variants", one.value
        if one.name in ("tank full", "tanks full"):
            yield "weight, full", "page, variants", one.value
        if one.name == "lifted out":
            yield "mass", "page, variants", one.value
    if said := re.search(r"tank water (.+?) too far (forward|aft)", page_marks(her)):
        yield "offset", "page, under the keel", f"{said[1]} too far {said[2]}"
    if her.boat.tanks:
        for one in ANSWERS["stands"](her, {}).larges:
            figure = {"GM, tanks blown": "GM, blown", "least GM on the way down": "least GM"}
            if one.name in figure:
                yield figure[one.name], "page, tub", one.value
        for one in ANSWERS["litres"](her, {}).larges:
            figure = {"her tanks take": "room", "their centre is off by": "size of offset"}
            if one.name in figure:
                yield figure[one.name], "page, tub", one.value


def _beside(her: Assessment) -> Found:
    """Yield what stands beside a thing that is dragged."""
    beside = dict(beside_hand(her))
    if her.boat.tanks:
        lies = beside[her.lowest_name].partition(", heel ")[0].removeprefix("trim ")
        yield "trim, low", "page, thing in hand", lies
    yield "BG, low", "page, thing in hand", beside[f"BG, {her.lowest_name}"]


def _in_browser(her: Assessment, lie: dict[str, float]) -> Found:
    """Yield what the browser makes of the slider's table: see page/static/figures.js."""
    n, g, b = (np.array([lie[f"{one}_x"], lie[f"{one}_z"]]) for one in ("up", "g", "b"))
    lever = her.boat.units.write(float(n @ (b - g)) / 1e3, "length")
    yield "BG, low", "lever beside the boat", lever
    if her.boat.tanks:
        answer = table(her)["weight"]
        assert isinstance(answer, dict)
        blown, full = answer["blown"], answer["full"]
        grams = {"g": 1e-3, "kg": 1.0, "oz": 0.028349523125}[answer["name"]]
        excess = (blown + lie["filling"] * (full - blown)) * grams
        yield "weight, low", "slider", weight(her.boat, excess)
        yield "weight, full", "slider at its end", weight(her.boat, full * grams)
