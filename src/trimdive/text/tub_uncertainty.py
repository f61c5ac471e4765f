"""``tub`` before anything was read: how sure each figure is, what to weigh and what to read."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from trimdive.ballast.depth import as_lead
from trimdive.findings.bands import bands
from trimdive.text import words
from trimdive.text.documents import common
from trimdive.text.layout import Block, Cells, Document, heading, line, table, terms
from trimdive.text.said import said
from trimdive.text.say import Say
from trimdive.uncertainty import (
    ANY,
    Gained,
    Spare,
    Step,
    doubts,
    halves,
    order,
    spare,
    steps,
    trials,
)

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.uncertainty import Figure

MOST = 6  # things to weigh or measure, and readings, that are told
AT_ENDS = 0.1  # of her length from either end: where loose weight is kept [-]
AT_LINES = 0.05  # of her length from either end: where two scales hold her [-]
LABELS = {
    "mass": "mass, tanks empty",
    "middle": "  its centre",
    "need": "litres needed",
    "need at": "  their centre",
    "draught": "draught at",
    "trim surfaced": "trim, tanks blown",
    "heel surfaced": "heel, tanks blown",
    "gm": "GM, tanks blown",
    "trim dived": "trim, {}",
    "heel dived": "heel, {}",
    "bg": "BG, dived and upright",
    "lift left": "light or heavy, tanks full",
}


ACTS = {
    "weigh": "weigh it",
    "hang": "hang it under water",
    "place": "measure where it lies",
    "fill": "measure what it holds",
}


def label_of(her: "Assessment", one: "Figure") -> str:
    """Return the name of a figure, with the state that it belongs to."""
    if one.key == "bg" and her.lowest_name == "tanks full":
        return "BG, held under"
    place = f" {one.place}" if one.place else ""
    return f"{LABELS[one.key].format(her.lowest_name)}{place}"


def bands_of(her: "Assessment") -> dict[str, float]:
    """Return the band in which each figure should lie [m, kg, m³, rad]."""
    return bands(her.boat, her.masses.mass, her.need.volume, her.floater.length)


def _inset(her: "Assessment", share: float) -> tuple[float, float]:
    """Return two places so far from stern and bow [m]; the share is of her length [-]."""
    aft, fore = words.ends(her)
    return aft + share * (fore - aft), fore - share * (fore - aft)


def spare_of(her: "Assessment") -> Spare:
    """Return the loose weight to keep at hand near both ends."""
    return spare(her.uncertainty.pull, her.uncertainty.moment, *_inset(her, AT_ENDS))


def read_first(her: "Assessment") -> list[Gained]:
    """Return what to read in the tub first."""
    rows = doubts(her.uncertainty, bands_of(her))
    return order(rows, trials(her.uncertainty, _inset(her, AT_LINES)), MOST)


def uncertainty_text(her: "Assessment") -> Iterator[Block]:
    """Yield what ``tub`` prints of a boat without readings."""
    boat = her.boat
    yield line(words.title(her))
    yield line()
    if boat.readings:
        yield line(
            "All readings are of the boat before she was changed. What they showed is in her "
            "list; each ± is the list's own, as before. Read her again to be surer."
        )
    else:
        yield line("No readings in the tub yet; this is by her weight list alone.")
    yield line()
    yield table(
        ["", "by the list", "±"], (_figure(her, one) for one in her.uncertainty.figures), (1, 2)
    )
    yield line()
    yield line(
        "± is how far off it may be, either way (95 cases in 100): from the ± of masses, "
        f"places and volumes. Positions are from the {boat.entered_from}."
    )
    yield from _loose(her)
    yield heading("To weigh or measure next, most useful first")
    found = steps(her.uncertainty, bands_of(her), MOST)
    head = ["", "do", "± now", "helps most with", "± now", "± then"]
    yield table(head, (_step(her, one) for one in found), right=(2, 4, 5), gap=1)
    yield heading("To read in the tub, in this order")
    head, say, first = ["", "uncertainty left then"], Say(boat), read_first(her)
    yield table(head, ([said(say, one.what), words.share(one.left)] for one in first), right=(1,))
    yield line("Uncertainty is all ± together, each compared with how far its figure may be off.")
    yield line()
    yield line(typed='Record readings with: trimdive tub BOAT --read "draught bow 97 mm"')
    yield heading("What the words mean")
    yield terms("BG", "GM")


def _figure(her: "Assessment", one: "Figure") -> Cells:
    return [label_of(her, one), written(her, one), off(her, one)]


def off(her: "Assessment", one: "Figure") -> str:
    """Return how far a figure may be off, in words."""
    is_any = one.kind == "angle" and one.half > ANY
    return "any angle" if is_any else f"± {size(her, one.kind, one.half)}"


def written(her: "Assessment", one: "Figure") -> str:
    """Return a figure in words."""
    boat = her.boat
    if one.key.startswith("trim"):
        return words.trim(boat, one.value)
    if one.key.startswith("heel"):
        return words.heel(boat, one.value)
    if one.key == "lift left":
        return words.weight(boat, -one.value)
    if one.key in ("middle", "need at"):
        return words.place(boat, one.value)
    return size(her, one.kind, one.value)


def size(her: "Assessment", kind: str, value: float) -> str:
    """Return a quantity in the boat's unit.

    Args:
        her: The boat.
        kind: Of the quantity.
        value: The quantity [SI].
    """
    return words.mass(her.boat, value) if kind == "mass" else her.boat.units.write(value, kind)


def _loose(her: "Assessment") -> Iterator[Block]:
    yield heading("Loose weight to keep at hand")
    yield line(
        f"{loose_words(her)} In 95 cases in 100 that makes her what the list says: {_full(her)}."
    )


def loose_words(her: "Assessment") -> str:
    """Return how much loose lead to keep at hand, and where it goes, in a sentence."""
    boat, kept, rho = her.boat, spare_of(her), her.floater.density
    return (
        f"Keep {words.mass(boat, as_lead(kept.aft, rho))} of lead for {boat.place(kept.x_aft)} and "
        f"{words.mass(boat, as_lead(kept.fore, rho))} for {boat.place(kept.x_fore)}, and have as "
        "much there that can come out."
    )


def sure_words(her: "Assessment") -> tuple[str, ...]:
    """Return how sure her weight is at the pond, and what to take along for it, in sentences."""
    half = words.mass(her.boat, halves(her, her.full).excess)
    return f"How heavy she is: by her list to ± {half}, in 95 cases in 100.", loose_words(her)


def _full(her: "Assessment") -> str:
    """Return how she is with her tanks full, in words."""
    heavy = f"{words.weight(her.boat, her.full.rest.excess)} with tanks full"
    return f"{heavy}, {words.lies(her, her.full)}"


def _step(her: "Assessment", one: Step) -> Cells:
    label = label_of(her, one.most).removeprefix("  ")
    return [
        one.name,
        ACTS[one.act],
        size(her, one.kind, one.half),
        label,
        size(her, one.most.kind, one.most.half),
        size(her, one.most.kind, one.after),
    ]


def uncertainty_json(her: "Assessment") -> Document:
    """Return what ``tub --json`` prints of how sure she is by her list."""
    return {**common(her), "uncertainty": uncertainty_document(her)}


def uncertainty_document(her: "Assessment") -> Document:
    """Return how sure she is by her list, what to weigh next and what to read first."""
    kept = spare_of(her)
    return {
        "figures": [
            {"key": f.key, "place": f.place or None, "kind": f.kind, "value": f.value,
             "half": f.half}
            for f in her.uncertainty.figures
        ],
        "loose": [
            {"x_m": kept.x_aft, "pull_kg": kept.aft},
            {"x_m": kept.x_fore, "pull_kg": kept.fore},
        ],
        "next": [
            {"name": s.name, "path": s.path, "act": ACTS[s.act], "kind": s.kind, "half": s.half,
             "gain": s.gain, "tells": s.most.key, "before": s.most.half, "after": s.after}
            for s in steps(her.uncertainty, bands_of(her), MOST)
        ],
        "read_first": [
            {"name": said(Say(her.boat), one.what), "gain": one.gain, "left": one.left}
            for one in read_first(her)
        ],
    }  # fmt: skip
