"""Every figure that is given in more than one place, from each place, as it reads there.

The terminal's answers as text and as JSON, findings, drawings, and the page with its slider: each
is asked for the figures that stand in it, and each figure is filed under its name and state.
"""

import re
from collections import defaultdict
from collections.abc import Iterable, Iterator
from math import degrees
from xml.etree import ElementTree

import numpy as np
from tests.drawings.test_boat_drawing import words as in_drawing

from trimdive.assess import Assessment
from trimdive.cli.afloat import float_text
from trimdive.cli.as_json import check_json, float_json, litres_json, weigh_json
from trimdive.cli.dive_json import dive_json
from trimdive.cli.orders import check_text
from trimdive.cli.pond_text import pond_json
from trimdive.cli.scales import weigh_text
from trimdive.drawings import boat_drawing
from trimdive.drawings.words import figures
from trimdive.errors import TrimdiveError
from trimdive.page.places.tub_answers import ANSWERS
from trimdive.page.scene import marks as page_marks
from trimdive.page.step import Slider
from trimdive.page.track import table
from trimdive.page.trial import _told as beside_hand
from trimdive.page.variants import lines_of
from trimdive.page.views import state_told
from trimdive.pond.card import depth_words
from trimdive.pond.today import today
from trimdive.pond.words import told as of_the_day
from trimdive.rest import State
from trimdive.told.ballast import litres_text
from trimdive.told.bench_text import bench_text
from trimdive.told.dive_text import dive_text, dived
from trimdive.told.layout import Block, Grid, Labelled, Words
from trimdive.told.place_text import FIGURES
from trimdive.told.reach_text import reach_text
from trimdive.told.tub_sure import sure_json, sure_text
from trimdive.why import keys, why

Told = dict[str, dict[str, str]]  # by figure with its state, then by place: as it reads there
FULL = re.compile(r"(\S+ \S+ (?:light|heavy)|neutral) with tanks? full")
LINES = {  # figure: what finds it in a paragraph
    "weight, full": FULL,
    "neutral": re.compile(r"tanks? (\d+ %) full[;:]"),
    "need": re.compile(r"She needs (.+?) of ballast water"),
    "need at": re.compile(r"with its middle (.+?) from the"),
    "lack": re.compile(r"They lack (.+?)\."),
    "offset": re.compile(r"from the \w+, (.+? too far \w+):"),
    "least GM": re.compile(r"least GM (.+?) at"),
    "least GM at": re.compile(r"least GM .+? at (\d+ %)"),
    "largest trim": re.compile(r"largest trim (.+?) at"),
    "largest heel": re.compile(r"largest heel (.+?) at"),
    "lolls": re.compile(r"(?:Going down, f|^f)rom (\d+ % to \d+ %) full she will not stand"),
    "lolls by": re.compile(r"(?:Going down, f|^f)rom .*: she lolls by up to (.+?), to either"),
    "hovers": re.compile(r"sinks by herself deeper than (.+?)\.$"),
    "cylinders": re.compile(r"Cylinders bear it to (.+?) by calculation"),
}
ROWS = {  # label of a row: figure; the text is in its second cell
    "trim, tanks blown": "trim, blown",
    "heel, tanks blown": "heel, blown",
    "GM, tanks blown": "GM, blown",
    "BG, dived and upright": "BG, upright",
    "BG, held under": "BG, upright",
    "light or heavy, tanks full": "weight, full",
    "litres needed": "need",
    "  their middle": "need at",
    "mass, tanks empty": "mass",
    "  its middle": "mass at",
    "on the surface: trim": "trim, blown",
    "on the surface: heel": "heel, blown",
    "dived: trim": "trim, low",
    "dived: heel": "heel, low",
    "dived: BG": "BG, low",
    "least GM on the way down": "least GM",
    "dry mass": "mass",
}
WHYS = {
    "tips-by": "size of trim, low",
    "stands-up-by": "BG, low",
    "bg-upright": "BG, upright",
    "lift-left": "weight, low",
    "neutral-filling": "neutral",
    "litres-needed": "need",
    "gm-empty": "GM, blown",
    "gm-least": "least GM",
    "dry-mass": "mass",
}
FINDINGS = {  # check: what finds figures in what it says
    "neutral-band": (("weight, full", FULL), ("trim, low", re.compile(r"trim ([^,]+)"))),
    "tank-margin": (
        ("room", re.compile(r"hold (.+?);")), ("need", re.compile(r"needs (.+?)(?: of water)?$")),
    ),
    "trim-dived": (("trim, low", re.compile(r"at neutral: trim (.+)")),),
    "gm-least": tuple((key, LINES[key]) for key in ("least GM", "lolls", "lolls by")),
}  # fmt: skip


def told(her: Assessment) -> Told:
    """Return every figure that stands in more than one place, from each place."""
    found: Told = defaultdict(dict)
    for figure, place, text in _all(her):
        found[figure][place] = " ".join(text.split())
    return found


def _all(her: Assessment) -> Iterator[tuple[str, str, str]]:
    yield from _terminal(her)
    yield from _findings(her)
    yield from _documents(her)
    yield from _pictures(her)
    yield from _page(her)
    for key in set(WHYS) & set(keys(her)):
        yield WHYS[key], f"why {key}", why(her, key).answer
    for label, told_of in FIGURES.items():
        if label in ROWS:
            yield ROWS[label], f"place: {label}", told_of(her)


def _texts(blocks: Iterable[Block]) -> tuple[list[str], list[tuple[str, ...]]]:
    """Return paragraphs, and rows of tables with their labels."""
    lines: list[str] = []
    rows: list[tuple[str, ...]] = []
    for block in blocks:
        if isinstance(block, Words):
            lines.append(block.text)
        elif isinstance(block, Grid | Labelled):
            rows += [row for row in block.rows if row]
    return lines, rows


def _found(place: str, text: str) -> Iterator[tuple[str, str, str]]:
    for figure, pattern in LINES.items():
        if match := pattern.search(text):
            yield figure, place, match[1]


def _terminal(her: Assessment) -> Iterator[tuple[str, str, str]]:
    has_tanks = bool(her.boat.tanks)
    answers = {
        "float": float_text(her, None), "litres": litres_text(her), "tub": sure_text(her),
        "weigh": weigh_text(her), "reach": reach_text(her, her.wanted),
    }  # fmt: skip
    if has_tanks:
        answers["dive"] = dive_text(dived(her, None), orders=False)
    for place, blocks in answers.items():
        lines, rows = _texts(blocks)
        for text in lines:
            yield from _found(place, text)
        for row in rows:
            if row[0] in ROWS:
                yield ROWS[row[0]], place, row[1]
            yield from _row(her, place, row)
    lines, _ = _texts(check_text(her))
    yield from _headline(her, lines[1])


def _row(her: Assessment, place: str, row: tuple[str, ...]) -> Iterator[tuple[str, str, str]]:
    label, first, *more = *row, ""
    name = her.lowest_name
    if label in (f"trim, {name}", f"heel, {name}"):
        yield f"{label.partition(',')[0]}, low", place, first
    if label.startswith("draught at "):
        yield f"{label}, blown", place, first.partition(",")[0]
    if (
        place == "float"
        and len(row) > 2
        and label in ("trim", "heel", "BG", "GM", "light or heavy")
    ):
        figure = label.replace("light or heavy", "weight")
        yield f"{figure}, blown", place, first
        yield f"{figure}, low", place, more[0]
    if (place, label) == ("weigh", "all"):
        yield "mass", place, first
        yield "mass at", place, more[1]
    if (place, label) == ("litres", "together"):
        yield "room", place, first
    if place == "dive":
        yield from _worst(label, first)


def _worst(label: str, text: str) -> Iterator[tuple[str, str, str]]:
    if label in ("least GM", "largest trim", "largest heel"):
        figure, _, at = text.partition(" at ")
        if at:
            yield label, "dive", figure
            yield f"{label} at", "dive", at
    if label == "tanks full":
        yield "weight, full", "dive", text.partition(", ")[0]


def _headline(her: Assessment, text: str) -> Iterator[tuple[str, str, str]]:
    """Yield the figures of the first line of ``check``."""
    yield from _found("check", text)
    trim = re.search(r"trim ([^,;.]+(?:\.\d+[^,;.]*)?)", text)
    yield "trim, low", "check", trim[1] if trim else "level"
    if bg := re.search(r"BG ([^;]+?)[;.]?$|BG ([^;]+);", text):
        yield "BG, low", "check", bg[1] or bg[2]
    if her.lowest_name == "tanks full":
        weight = re.search(r"full: (.+?),", text)
        yield "weight, full", "check", weight[1] if weight else text


def _findings(her: Assessment) -> Iterator[tuple[str, str, str]]:
    for one in her.first_findings:
        for figure, pattern in FINDINGS.get(one.key, ()):
            if match := pattern.search(one.what):
                yield figure, f"finding {one.key}", match[1]
        if one.key == "tank-offset":
            now = re.search(r"\((.+?) now\)", one.what)
            far = re.search(r"tank water (.+? too far \w+)$", one.what)
            if now:
                yield "size of offset", "finding", now[1]
            elif far:
                yield "offset", "finding", far[1]
        if one.key == "neutral-band" and (lack := re.search(r"tanks lack (.+?)( and|:)", one.mend)):
            yield "lack", "finding", lack[1]
        if one.key == "bg-least" and "once" not in one.what:
            yield "BG, upright", "finding", one.what.partition("BG ")[2].partition(";")[0]


def _trim(radians: float) -> str:
    text = f"{abs(degrees(radians)):.1f}°"
    return "level" if text == "0.0°" else f"{text} {'bow' if radians > 0 else 'stern'} down"


def _documents(her: Assessment) -> Iterator[tuple[str, str, str]]:
    """Yield figures of JSON documents, rounded as they are told."""
    write = her.boat.units.write
    floats, litres, check = float_json(her, None), litres_json(her), check_json(her)
    for name, one in (("float", floats), ("litres", litres), ("check", check)):
        low = one["lowest"]
        assert isinstance(low, dict)
        yield "trim, low", f"{name} --json", _trim(low["trim_bow_down_rad"])
        yield "BG, low", f"{name} --json", write(low["bg_m"], "length")
        yield "exact trim, low", f"{name} --json", repr(low["trim_bow_down_rad"])
    blown = floats["surfaced"]
    assert isinstance(blown, dict)
    yield "trim, blown", "float --json", _trim(blown["trim_bow_down_rad"])
    yield "GM, blown", "float --json", write(blown["gm_t_m"], "length")
    for one in blown["draughts"] or ():
        yield f"draught at {one['mark']}, blown", "float --json", write(one["draught_m"], "length")
    yield "need", "litres --json", write(litres["need_m3"], "volume")  # type: ignore[arg-type]
    yield "room", "litres --json", write(litres["fitted_m3"], "volume")  # type: ignore[arg-type]
    yield "mass", "weigh --json", write(weigh_json(her)["mass_kg"], "mass")  # type: ignore[arg-type]
    yield "exact lift", "float --json", repr(floats["lift_left_kg"])
    yield "exact lift", "check --json", repr(check["lift_left_kg"])
    if her.boat.tanks:
        yield from _of_the_dive(her, floats)
    sure = sure_json(her)["sure"]
    assert isinstance(sure, dict)
    for one in sure["figures"]:
        if one["key"] in ("trim dived", "trim surfaced"):
            state = "low" if one["key"] == "trim dived" else "blown"
            yield f"trim, {state}", "tub --json", _trim(one["value"])


def _of_the_dive(her: Assessment, floats: dict[str, object]) -> Iterator[tuple[str, str, str]]:
    document = dive_json(dived(her, None), [])
    down, write = document["down"], her.boat.units.write
    assert isinstance(down, dict)
    for name, one in (("dive", down), ("float", floats)):
        least, largest = one["least_gm"], one["largest_trim"]
        assert isinstance(least, dict)
        assert isinstance(largest, dict)
        yield "least GM", f"{name} --json", write(least["gm_t_m"], "length")
        yield "exact least GM", f"{name} --json", repr(least["gm_t_m"])
        yield "largest trim", f"{name} --json", _trim(largest["trim_bow_down_rad"])
    yield "exact lift", "dive --json", repr(document["lift_left_kg"])
    if (short := pond_json(her, None, None)["lift_left_kg"]) is not None:
        assert isinstance(short, float)
        yield "weight, full", "pond --json", _weight(her, -short)


def _weight(her: Assessment, excess: float) -> str:
    text = her.boat.units.write(abs(excess), "mass")
    if her.boat.units.shown("mass") == "g" and abs(excess) < 3e-3:
        text = f"{1e3 * abs(excess):.1f} g"
    is_none = not re.search("[1-9]", text)
    return "neutral" if is_none else f"{text} {'heavy' if excess > 0 else 'light'}"


def _pictures(her: Assessment) -> Iterator[tuple[str, str, str]]:
    for name, state in (("blown", her.surfaced), ("low", her.lowest)):
        svg = ElementTree.fromstring(boat_drawing(her, state))
        yield from _three(name, f"drawing, {name}", figures(her, state), state)
        head = in_drawing(svg, "header")
        for _, value, _ in figures(her, state):
            assert value in head, f"{value} stands in the head of the drawing"
        yield f"BG, {name}", f"lever of the drawing, {name}", _first(in_drawing(svg, "lever"))
        if need := in_drawing(svg, "need"):
            yield "need", f"drawing, {name}", need[0].removesuffix(" above the waterline,")
        if far := in_drawing(svg, "distance"):
            size, _, way = far[0].removeprefix("Tank water ").rpartition(" ")
            yield "size of offset", f"drawing, {name}", size
            if re.search("[1-9]", size):
                yield "offset", f"drawing, {name}", f"{size} too far {way}"


def _first(lines: list[str]) -> str:
    return lines[0].removeprefix("BG ")


def _three(
    name: str, place: str, three: list[tuple[str, str, str]], state: State
) -> Iterator[tuple[str, str, str]]:
    """Yield the three figures of a state."""
    (_, trim, end), (_, weight, _), (_, bg, _) = three
    yield f"trim, {name}", place, "level" if end == "level" else f"{trim} {end}"
    yield f"size of trim, {name}", place, trim
    yield f"weight, {name}", place, weight
    yield f"BG, {name}", place, bg
    assert re.search("[0-9]", trim), state


def _page(her: Assessment) -> Iterator[tuple[str, str, str]]:
    slider = state_told(her, Slider())
    shown = slider["figures"]
    assert isinstance(shown, list)
    trim, weight, bg = shown
    end = trim["says"]
    yield "trim, low", "page", "level" if end == "level" else f"{trim['large']} {end}"
    yield "weight, low", "page", " ".join((weight["large"], weight["word"]))
    yield "BG, low", "page", bg["large"]
    lie = slider["lie"]
    assert isinstance(lie, list)
    yield from _in_browser(her, lie)
    beside = dict(beside_hand(her))
    if her.boat.tanks:
        lies = beside[her.lowest_name].partition(", heel ")[0].removeprefix("trim ")
        yield "trim, low", "page, thing in hand", lies
    yield "BG, low", "page, thing in hand", beside[f"BG, {her.lowest_name}"]
    for one in lines_of(her):
        if one.name == "litres needed":
            yield "need", "page, variants", one.value
        if one.name in ("tank full", "tanks full"):
            yield "weight, full", "page, variants", one.value
        if one.name == "lifted out":
            yield "mass", "page, variants", one.value
    if said := re.search(r"tank water (.+?) (forward|aft) of its plumb line", page_marks(her)):
        yield "offset", "page, under the keel", f"{said[1]} too far {said[2]}"
    if her.boat.tanks:
        stands = ANSWERS["stands"](her, {}).larges
        for one in stands:
            figure = {"GM, tanks blown": "GM, blown", "least GM on the way down": "least GM"}
            if one.name in figure:
                yield figure[one.name], "page, tub", one.value
    yield from _depths(her)


def _in_browser(her: Assessment, lie: list[float]) -> Iterator[tuple[str, str, str]]:
    """Yield what the browser makes of the slider's table: see page/static/figures.js."""
    n, g, b = np.array([lie[1], lie[3]]), np.array(lie[5:7]), np.array(lie[7:9])
    yield (
        "BG, low",
        "lever beside the boat",
        her.boat.units.write(float(n @ (b - g)) / 1e3, "length"),
    )
    if her.boat.tanks:
        weight = table(her)["weight"]
        assert isinstance(weight, dict)
        blown, full = weight["ends"]
        grams = {"g": 1e-3, "kg": 1.0, "oz": 0.028349523125}[weight["unit"]]
        excess = (blown + lie[0] * (full - blown)) * grams
        yield "weight, low", "slider", _weight(her, excess)
        yield "weight, full", "slider at its end", _weight(her, full * grams)


def _depths(her: Assessment) -> Iterator[tuple[str, str, str]]:
    """Yield how deep she may go, on the bench and at the pond, and what the pond says of her."""
    if her.boat.tanks:
        day = of_the_day(her, today(her, her.water.density))
        if match := re.search(r"is (.+? (?:heavy|light)) with", day.full):
            yield "weight, full", "pond", match[1]
        if match := re.search(r", (\d+ %)$", day.neutral):
            yield "neutral", "pond", match[1]
        if match := re.search(r"trim (.+?),|(level),", day.hangs):
            yield "trim, low", "pond", match[1] or match[2]
    try:
        for text in depth_words(her):
            yield from _found("pond", text)
        cylinders = {one.name: one for one in her.bench.cylinders}
        _, rows = _texts(bench_text(her))
        for row in rows:
            if row[0] in cylinders and len(row) > 4:
                weakest = min(cylinders.values(), key=lambda one: one.strength.depth)
                if row[0] == weakest.name:
                    yield "cylinders", "bench", row[1]
    except TrimdiveError:
        return
