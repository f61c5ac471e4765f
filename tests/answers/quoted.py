"""Every figure that is given in more than one place, from each place, as it reads there.

The terminal's answers as text and as JSON, findings, drawings, and the page with its slider: each
is asked for the figures that stand in it, and each figure is filed under its name and state.
"""

import re
from collections import defaultdict
from collections.abc import Iterable
from math import degrees

from tests.answers.patterns import (
    NUMBER,
    WHYS,
    Found,
    in_columns,
    in_finding,
    in_line,
    in_row,
    in_why,
)
from tests.answers.shown import shown
from tests.said import mend_of, what_of

from trimdive.assessment import Assessment
from trimdive.cli.afloat import float_text
from trimdive.cli.as_json import check_json, float_json, litres_json, weigh_json
from trimdive.cli.dive_json import dive_json
from trimdive.cli.orders import check_text
from trimdive.cli.pond_text import pond_json
from trimdive.cli.scales import weigh_text
from trimdive.hydrostatics.equilibrium.named import bound, share, weight
from trimdive.pond.card import depth_words, lifting_words
from trimdive.pond.today import today
from trimdive.pond.words import water_words as of_the_day
from trimdive.text.ballast import litres_text
from trimdive.text.bench_json import bench_json
from trimdive.text.bench_text import bench_text
from trimdive.text.dive_text import dive_text, dived
from trimdive.text.layout import Block, Grid, Labelled, Words
from trimdive.text.place_text import FIGURES
from trimdive.text.reach_text import reach_json, reach_text
from trimdive.text.said import said
from trimdive.text.say import Say
from trimdive.text.tub_uncertainty import uncertainty_json, uncertainty_text
from trimdive.text.whys import answer
from trimdive.why import keys, why

Quoted = dict[str, dict[str, str]]  # by figure with its state, then by place: as it reads there
Document = dict[str, object]


def quoted(her: Assessment) -> Quoted:
    """Return every figure that stands in more than one place, from each place."""
    found: Quoted = defaultdict(dict)
    for figure, place, text in _all(her):
        found[figure][place] = " ".join(text.split())
    return found


def _all(her: Assessment) -> Found:
    yield from _terminal(her)
    yield from _findings(her)
    yield from _documents(her)
    yield from _bench(her)
    yield from _pond(her)
    yield from shown(her)
    for key in set(WHYS) & set(keys(her)):
        yield from in_why(key, answer(her.boat, why(her, key)))
    for label, figure_of in FIGURES.items():
        yield from in_row(f"place: {label}", (label, figure_of(her)))


def _texts(blocks: Iterable[Block]) -> tuple[list[str], list[tuple[str, ...]]]:
    """Return paragraphs, and rows of tables with their labels."""
    lines: list[str] = []
    rows: list[tuple[str, ...]] = []
    for block in blocks:
        if isinstance(block, Words):
            lines.append(block.text)
        elif isinstance(block, Grid | Labelled):
            rows += [tuple(row) for row in block.rows if row]
    return lines, rows


def _terminal(her: Assessment) -> Found:
    answers = {
        "float": float_text(her, None), "litres": litres_text(her), "tub": uncertainty_text(her),
        "weigh": weigh_text(her), "reach": reach_text(her, her.wanted),
    }  # fmt: skip
    if her.boat.tanks:
        answers["dive"] = dive_text(dived(her, None), orders=False)
    for place, blocks in answers.items():
        lines, rows = _texts(blocks)
        for text in lines:
            yield from in_line(place, text)
        for row in rows:
            yield from in_row(place, row)
            yield from _row(her, place, row)
        if place == "float":
            for row in rows:
                yield from in_columns(place, row)
        if place == "dive":
            yield from _moments(rows)
    lines, _ = _texts(check_text(her))
    yield from _headline(her, lines[1])


def _row(her: Assessment, place: str, row: tuple[str, ...]) -> Found:
    label, first, *more = *row, ""
    name = her.lowest_name
    if label in (f"trim, {name}", f"heel, {name}"):
        yield f"{label.partition(',')[0]}, low", place, first
    if label.startswith("draught at "):
        yield f"{label}, blown", place, first.partition(",")[0]
    if (place, label) == ("weigh", "all"):
        yield "mass", place, first
        yield "mass at", place, more[1]
    if (place, label) == ("litres", "together"):
        yield "room", place, first
        yield "need filling", place, more[1]
    if place == "reach" and len(row) == 4 and label in {one.name for one in her.changes}:
        yield f"lead in {label}", place, more[0]
        yield f"weight, full in {label}", place, more[1]
    if place == "dive":
        yield from _worst(label, first)


def _worst(label: str, text: str) -> Found:
    if label in ("least GM", "largest trim", "largest heel"):
        figure, _, at = text.partition(" at ")
        if at:
            yield label, "dive", figure
            yield f"{label} at", "dive", at
    if label == "tanks full":
        heavy, _, lies = text.partition(", ")
        yield "weight, full", "dive", heavy
        yield "trim, full", "dive", lies.removeprefix("trim ").partition(", heel ")[0]


def _moments(rows: list[tuple[str, ...]]) -> Found:
    """Yield the first and the last of the moments going down."""
    moments = [row for row in rows if len(row) > 5 and row[0].endswith("%")]
    for name, row in (("blown", moments[0]), ("full", moments[-1])):
        yield f"trim, {name}", "dive, moments", row[1] if row[1] == "level" else f"{row[1]} down"
        yield f"out, {name}", "dive, moments", row[-2]
        if name == "blown":
            yield "GM, blown", "dive, moments", row[-4]
            yield "GM_L, blown", "dive, moments", row[-3]


def _headline(her: Assessment, text: str) -> Found:
    """Yield the figures of the first line of ``check``."""
    yield from in_line("check", text)
    trim = re.search(rf"trim ({NUMBER})", text)
    yield "trim, low", "check", trim[1] if trim else "level"
    if bg := re.search(r"BG ([^;]+?)[;.]?$|BG ([^;]+);", text):
        yield "BG, low", "check", bg[1] or bg[2]
    if her.lowest_name == "tanks full":
        heavy = re.search(r"full: (.+?),", text)
        yield "weight, full", "check", heavy[1] if heavy else text


def _findings(her: Assessment) -> Found:
    for one in her.first_findings:
        yield from in_finding(one.key, what_of(one, Say(her.boat)))
        if one.key == "neutral-band" and (
            lack := re.search(r"tanks lack (.+?)( and|:)", mend_of(one, Say(her.boat)))
        ):
            yield "lack", "finding", lack[1]
        if one.key == "bg-least" and "once" not in what_of(one, Say(her.boat)):
            yield (
                "BG, upright",
                "finding",
                what_of(one, Say(her.boat)).partition("BG ")[2].partition(";")[0],
            )


def trim_text(radians: float) -> str:
    """Return a trim as it is told, from the angle of a document."""
    text = f"{abs(degrees(radians)):.1f}°"
    return "level" if text == "0.0°" else f"{text} {'bow' if radians > 0 else 'stern'} down"


def _documents(her: Assessment) -> Found:
    """Yield figures of JSON documents, rounded as they are told."""
    write = her.boat.units.write
    floats, litres, check = float_json(her, None), litres_json(her), check_json(her)
    for name, one in (("float", floats), ("litres", litres), ("check", check)):
        low = one["lowest"]
        assert isinstance(low, dict)
        yield "trim, low", f"{name} --json", trim_text(low["trim_bow_down_rad"])
        yield "BG, low", f"{name} --json", write(low["bg_m"], "length")
        yield "exact trim, low", f"{name} --json", repr(low["trim_bow_down_rad"])
    yield from _surfaced(her, floats)
    yield "need", "litres --json", write(litres["need_m3"], "volume")  # type: ignore[arg-type]
    yield "room", "litres --json", write(litres["fitted_m3"], "volume")  # type: ignore[arg-type]
    yield "mass", "weigh --json", write(weigh_json(her)["mass_kg"], "mass")  # type: ignore[arg-type]
    for name, one in (("float", floats), ("check", check)):
        yield "exact lift", f"{name} --json", repr(one["lift_left_kg"])
        yield "exact BG, upright", f"{name} --json", repr(one["upright_bg_m"])
    if her.boat.tanks:
        yield "neutral", "float --json", share(floats["neutral_filling"])  # type: ignore[arg-type]
        yield "neutral", "litres --json", share(litres["neutral_filling"])  # type: ignore[arg-type]
        if (turns := trim_text(litres["tips_bow_down_rad"])) != "level":  # type: ignore[arg-type]
            yield "offset alone", "litres --json", turns
        yield "need filling", "litres --json", share(litres["filling"])  # type: ignore[arg-type]
        yield from _of_the_dive(her, floats)
    uncertainty = uncertainty_json(her)["uncertainty"]
    assert isinstance(uncertainty, dict)
    for one in uncertainty["figures"]:
        if one["key"] in ("trim dived", "trim surfaced"):
            state = "low" if one["key"] == "trim dived" else "blown"
            yield f"trim, {state}", "tub --json", trim_text(one["value"])


def _surfaced(her: Assessment, floats: Document) -> Found:
    blown, write = floats["surfaced"], her.boat.units.write
    assert isinstance(blown, dict)
    yield "trim, blown", "float --json", trim_text(blown["trim_bow_down_rad"])
    for one in blown["draughts"] or ():
        yield f"draught at {one['mark']}, blown", "float --json", write(one["draught_m"], "length")
    low = floats[{"tanks full": "full", "afloat": "surfaced"}.get(her.lowest_name, "dived")]
    for name, state in (("blown", blown), ("low", low), ("full", floats["full"])):
        assert isinstance(state, dict)
        out = state["out_of_water_m3"]
        yield f"out, {name}", "float --json", "–" if state["under"] else write(out, "volume")
        if name != "full":
            yield f"GM, {name}", "float --json", write(state["gm_t_m"], "length")
            yield f"GM_L, {name}", "float --json", write(state["gm_l_m"], "length")


def _of_the_dive(her: Assessment, floats: Document) -> Found:
    document = dive_json(dived(her, None), [])
    down, write = document["down"], her.boat.units.write
    assert isinstance(down, dict)
    for name, one in (("dive", down), ("float", floats)):
        least, largest = one["least_gm"], one["largest_trim"]
        assert isinstance(least, dict)
        assert isinstance(largest, dict)
        yield "least GM", f"{name} --json", write(least["gm_t_m"], "length")
        yield "exact least GM", f"{name} --json", repr(least["gm_t_m"])
        yield "largest trim", f"{name} --json", trim_text(largest["trim_bow_down_rad"])
    yield "exact lift", "dive --json", repr(document["lift_left_kg"])


def _bench(her: Assessment) -> Found:
    """Yield how deep she may go and what her cylinders bear, from the bench and from reach."""
    lines, rows = _texts(bench_text(her))
    for text in lines:
        yield from in_line("bench", text)
    names = {one.name for one in her.bench.cylinders}
    for row in rows:
        if row[0] in names and len(row) > 4:
            yield f"{row[0]} bears", "bench", row[1]
    bench, reach = bench_json(her), reach_json(her, her.wanted)
    for one in bench["cylinders"]:  # type: ignore[attr-defined]
        yield f"{one['name']} bears", "bench --json", bound(her.boat, one["bears_m"])
    for name, document in (("bench", bench), ("reach", reach)):
        yield from _may_go(her, f"{name} --json", document)
    for square in her.works.failures.squares if her.works.failures else ():
        is_blown = (square.failure, square.start) == ("signal lost", "surfaced")
        text = said(Say(her.boat), square.ending)
        if is_blown and square.ends == "on top":
            lift, _, lies = text.removeprefix("on top, ").partition(" light, ")
            yield "weight, blown", "bench, surfaced", f"{lift} light"
            lies = lies.removeprefix("trim ").partition("heel ")[0].removesuffix(", ")
            yield "trim, blown", "bench, surfaced", lies or "level"


def _may_go(her: Assessment, place: str, document: Document) -> Found:
    if (deep := document["may_go_m"]) is not None:
        assert isinstance(deep, float)
        yield "may go", place, bound(her.boat, deep)
        yield "may go because", place, str(document["may_go_because"])
        yield "exact may go", place, repr(deep)


def _pond(her: Assessment) -> Found:
    """Yield what is told for the pond: depth, lifting, and of her in each water."""
    for text in (*depth_words(her), *lifting_words(her)):
        yield from in_line("pond", text)
        if match := re.search(r"she weighs (.+?):", text):
            yield "lifted", "pond", match[1]
    if not her.boat.tanks:
        return
    document = pond_json(her, None, None)
    yield from _may_go(her, "pond --json", document)
    if (short := document["lift_left_kg"]) is not None:
        assert isinstance(short, float)
        yield "weight, full", "pond --json", weight(her.boat, -short)
    day = of_the_day(her, today(her, her.water.density))
    if match := re.search(r"is (.+? (?:heavy|light)|neutral) with", day.full):
        yield "weight, full", "pond", match[1]
    if match := re.search(r", (\d+ %)$", day.neutral):
        yield "neutral", "pond", match[1]
    if match := re.search(r"trim (.+?),|(level),", day.hangs):
        yield "trim, low", "pond", match[1] or match[2]
    for one in her.changes:
        in_it = of_the_day(her, today(her, one.water.density))
        if "of foam" not in in_it.ask:
            yield f"lead in {one.name}", "pond", _signed(her, in_it.ask)
        if match := re.search(r"is (.+? (?:heavy|light)|neutral) with", in_it.full):
            yield f"weight, full in {one.name}", "pond", match[1]


def _signed(her: Assessment, ask: str) -> str:
    """Return what a water asks for as a table has it: minus for what comes out."""
    if ask == "nothing to change":
        return her.boat.units.write(0.0, "mass")
    sign, lead = ("-", "remove ") if ask.startswith("remove") else ("", "add ")
    return f"{sign}{ask.removeprefix(lead).removesuffix(' of lead')}"
