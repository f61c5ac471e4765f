"""``bench``: cylinders, what seals them, plant, failsafe, linkages, as blocks."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from trimdive.data import row
from trimdive.data.cautions import cautions
from trimdive.hydrostatics.equilibrium.named import bound, deep
from trimdive.plant.failsafe import FAILURES, STARTS, compare
from trimdive.text import link_figures, words
from trimdive.text.care import care
from trimdive.text.cylinder_text import cylinder_text
from trimdive.text.cylinder_words import leak_words, part_name
from trimdive.text.deep import may_go_words
from trimdive.text.deep_meant import meant_words
from trimdive.text.fills import planned_words
from trimdive.text.found import in_file, mend, what
from trimdive.text.gaps import gap
from trimdive.text.layout import Block, Cells, Grid, heading, labelled, line, table
from trimdive.text.plant_figures import TITLES, label, shown
from trimdive.text.said import said
from trimdive.text.say import Say
from trimdive.text.sentence import capital

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.bench import CylinderBench
    from trimdive.boatfile.plant import Kind
    from trimdive.findings import Finding
    from trimdive.plant import PlantAnswer, Trouble

IN_ORDER, NOT_ENTERED = "in order on the bench", "Not entered"
MARGINS = 5.0  # more than so many times the depth she is for is told as that [-]


def bench_text(
    her: "Assessment", *, why: bool = False, kinds: bool = False, only: str = "",
    with_care: bool = True,
) -> Iterator[Block]:  # fmt: skip
    """Yield what ``bench`` prints.

    Args:
        her: The boat.
        why: Tell how every figure of the plant comes about.
        kinds: Tell what every other kind of plant would do for her.
        only: Name of the one cylinder that is told, part by part; "" for all, in short.
        with_care: Tell cautions too; the page shows them in its own way.
    """
    yield line(f"{words.title(her)}; for {meant_words(Say(her.boat))}")
    yield from _orders(her)
    found = [one for one in her.bench.cylinders if only in ("", one.name)]
    if found:
        yield from _cylinders(her, found)
    for one in found:
        yield from cylinder_text(her, one, whole=bool(only))
    if only:
        return
    yield from _leaks(her, with_care=with_care)
    yield from _plant(her, why=why)
    if kinds:
        yield from compare_text(her, with_care=with_care)
    yield from _failures(her)
    yield from _electric(her)
    yield from _links(her, why=why)
    if with_care:
        yield from care("bench", [plant.kind for plant in her.boat.plants])


def leaks_text(her: "Assessment") -> Iterator[Block]:
    """Yield what the leak tests say."""
    yield from _leaks(her, with_care=False)


def plants_text(her: "Assessment") -> Iterator[Block]:
    """Yield her plants side by side, and below what of each was taken or cannot be done."""
    say, answers = Say(her.boat), her.works.answers
    kinds: dict[Kind, None] = dict.fromkeys(one.kind for one in answers)
    for kind in kinds:
        names = ", ".join(one.name for one in answers if one.kind == kind)
        yield line(f"{capital(names)}: {TITLES[kind]}.")
    if answers:
        texts = [(one.name, [(label(her.boat, one, f), shown(one, f)) for f in one.figures])
                for one in answers]  # fmt: skip
        yield beside(texts)
    notes = [
        (one.name, text)
        for one in answers
        for text in (
            *(_trouble(say, trouble) for trouble in one.troubles),
            *(f"{capital(said(say, taken))}." for taken in one.assumed),
        )
    ]
    for text in dict.fromkeys(text for _, text in notes):
        of = [name for name, other in notes if other == text]
        yield line(text if len(of) == len(answers) else f"{capital(', '.join(of))}: {text}")


def feeding_text(her: "Assessment") -> Iterator[Block]:
    """Yield what is drawn from each battery, with fuse and wire."""
    yield from list(_electric(her))[1:]


def links_text(her: "Assessment") -> Iterator[Block]:
    """Yield her linkages side by side."""
    if her.works.links:
        yield beside(
            [(one.name, [(f.label, f.text) for f in link_figures.figures_of(one)])
             for one in her.works.links]
        )  # fmt: skip


def beside(texts: list[tuple[str, list[tuple[str, str]]]]) -> Grid:
    """Return figures of several pieces side by side: a row a figure, a column a piece.

    Args:
        texts: Name of each piece, and its figures as label and text.

    >>> beside([("one", [("draws", "2 A"), ("lasts", "3 h")]), ("two", [("draws", "5 A")])]).rows
    (('draws', '2 A', '5 A'), ('lasts', '3 h', ''))
    """
    labels = dict.fromkeys(name for _, figures in texts for name, _ in figures)
    columns = [dict(figures) for _, figures in texts]
    rows = [[name, *(column.get(name, "") for column in columns)] for name in labels]
    return table(["", *(name for name, _ in texts)], rows, right=range(1, len(texts) + 1))


def _length(her: "Assessment", value: float) -> str:
    """Return a depth that something bears, rounded down."""
    return bound(her.boat, value)


def headline(her: "Assessment") -> str:
    """Return how she stands on the bench; in order only where all of it was entered."""
    urgent = sum(one.weight == "put right" for one in her.bench_findings)
    missing = words.not_entered(her)
    if urgent:
        return f"{words.things(urgent)} on the bench{f', {missing}' if missing else ''}"
    if missing:
        return f"nothing to put right in what is entered, {missing}"
    tried = {test.cylinder for test in her.boat.leak_tests}
    untried = any(one.name not in tried for one in her.boat.cylinders)
    return f"{IN_ORDER} by what is entered; not yet leak-tested" if untried else IN_ORDER


def _orders(her: "Assessment") -> Iterator[Block]:
    found = her.bench_findings
    urgent = [one for one in found if one.weight == "put right"]
    text = headline(her)
    yield line(f"{capital(text)}. {may_go_words(her)}")
    if found:
        yield heading("To put right on the bench" if urgent else "To look at on the bench")
        yield labelled(
            (f"{k}.", f"{capital(what(her.boat, one))}. {_mend(her, one)}")
            for k, one in enumerate(found, 1)
        )
    if her.not_entered:
        yield heading(NOT_ENTERED)
        yield labelled(("-", gap(one).line) for one in her.not_entered)


def _mend(her: "Assessment", one: "Finding") -> str:
    """Return what mends it, and where in the boat file what the builder enters of that stands."""
    where = f" ({in_file(one.form)})" if one.form and not one.edits else ""
    return f"{mend(her.boat, one)}{where}"


def _cylinders(her: "Assessment", found: "list[CylinderBench]") -> Iterator[Block]:
    yield heading("Cylinders")
    head = ["", "safe depth", "failure depth", "factor", "weakest", "margin"]
    yield table(head, [_cylinder(her, one) for one in found], right=(1, 2, 3))
    yield line(
        "safe depth: the calculated failure depth divided by the safety factor; margin: the safe "
        "depth against hers. Test it at one and a half times the safe depth, empty, under water: "
        "never with air alone."
    )


def _cylinder(her: "Assessment", one: "CylinderBench") -> Cells:
    weak = one.strength.weakest
    times = one.margin
    text = f"more than {MARGINS:.0f} times" if times > MARGINS else f"{times:.1f} times"
    return [
        one.name,
        _length(her, one.strength.depth),
        _length(her, weak.gives_way),
        f"{weak.factor:g}",
        part_name(weak),
        text,
    ]


def _leaks(her: "Assessment", *, with_care: bool) -> Iterator[Block]:
    if not her.bench.leaks and not (with_care and her.bench.cylinders):
        return
    yield heading("Leak tests")
    if not her.bench.leaks:
        yield line("None entered.")
    yield labelled(
        (
            f"{one.date:%Y-%m-%d}",
            f"{one.cylinder}: {leak_words(one.water_in, one.most, one.limit)}"
            f"{f' (after {one.after})' if one.after else ''}",
        )
        for one in her.bench.leaks
    )
    if with_care:
        yield labelled(("-", one.short) for one in cautions("leak test"))


def _plant(her: "Assessment", *, why: bool) -> Iterator[Block]:
    say = Say(her.boat)
    for one in her.works.answers:
        yield heading(f"{capital(one.name)}: {TITLES[one.kind]}")
        figures = [(label(her.boat, one, f), shown(one, f), said(say, f.why)) for f in one.figures]
        if why:
            yield labelled((f"{name}:", f"{value}; {reason}") for name, value, reason in figures)
        else:
            yield table(["", ""], [[name, value] for name, value, _ in figures])
        yield from (line(_trouble(say, trouble)) for trouble in one.troubles)
        taken = (said(say, taken) for taken in one.assumed)
        yield from (line(f"{capital(text)}.") for text in taken)


def _trouble(say: Say, one: "Trouble") -> str:
    """Return what a plant cannot do, and what mends it."""
    return f"{capital(one.where)}: {said(say, one.what)}. {said(say, one.mend)}"


COMPARED = (  # heads of columns, and the figures that stand in them
    ("fills", ("fill-time",)),
    ("to", ("filling",)),
    ("empties", ("empty-deep",)),
    ("peak current", ("current",)),
    ("lasts", ("cycles", "blows")),
    ("home from", ("home-depth",)),
    ("there", ("home-reserve",)),
)


def compare_text(her: "Assessment", *, with_care: bool = True) -> Iterator[Block]:
    """Yield what every kind of plant would do for her, side by side and then one by one.

    Args:
        her: The boat.
        with_care: Tell cautions too.
    """
    found = compare(her)
    if not found:
        return
    yield heading(f"Every kind of plant, for this boat at {deep(her.boat, found[0].depth)}")
    rows = [
        [f"{k}. {one.kind}{' (hers)' if one.fitted else ''}", *(_figures(one, keys)
         for _, keys in COMPARED)]
        for k, one in enumerate(found, 1)
    ]  # fmt: skip
    yield table(["", *(head for head, _ in COMPARED)], rows, right=range(1, len(COMPARED) + 1),
                gap=1)  # fmt: skip
    yield line(
        "fills at the surface, empties at her depth; lasts: dives per charge, with gas blows per "
        "bottle; home from: depth from which she comes up without power, and how light or heavy "
        "she is at her depth then."
    )
    yield labelled(
        (f"{k}.", f"{capital(TITLES[one.kind])}{', as she has it' if one.fitted else ''}. "
         f"For it: {kind['good']}. Against it: {kind['bad']}. Fails: {kind['fails']}.")
        for k, one in enumerate(found, 1)
        for kind in (row("plant_kinds", one.kind),)
    )  # fmt: skip
    if with_care:
        yield from care("kinds")


def _figures(one: "PlantAnswer", keys: tuple[str, ...]) -> str:
    """Return the first of some figures that a plant has."""
    found = (one.figure(key) for key in keys)
    none = "never" if "deep" in keys[0] else ""
    return next((shown(one, figure) for figure in found if figure), none)


def _failures(her: "Assessment") -> Iterator[Block]:
    found = her.works.failures
    if found is None:
        return
    yield heading(f"When something fails, at {deep(her.boat, found.depth)}")
    rows: list[Cells] = []
    say = Say(her.boat)
    for failure in FAILURES:
        for start in STARTS:
            square = found.at(failure, start)
            does, ends = said(say, square.does), said(say, square.ending)
            rows.append([failure if start == STARTS[0] else "", start, does, ends])
    yield table(["fails", "she is", "action", "ends"], rows)
    if planned := planned_words(her):
        yield line(planned)


def _electric(her: "Assessment") -> Iterator[Block]:
    if not her.works.feeding:
        return
    yield heading("Fuses and wires")
    rows = [
        [
            one.battery,
            f"{one.draws:.1f} A",
            f"{one.fuse:g} A" if one.fuse else "not entered",
            f"{one.fuse_wanted:g} A or more",
            f"{one.wire * 1e6:g} mm²" if one.wire else "not entered",
            f"{one.wire_wanted * 1e6:g} mm²",
            f"{one.drop:.2f} V",
        ]
        for one in her.works.feeding
    ]
    head = ["", "peak current", "fuse", "wanted", "wire", "wanted", "voltage drop"]
    yield table(head, rows, right=(1, 2, 3, 4, 5, 6))


def _links(her: "Assessment", *, why: bool) -> Iterator[Block]:
    for one in her.works.links:
        yield heading(f"Linkage of the {one.name}")
        if why:
            yield labelled(
                (f"{f.label}:", f"{f.text}; {f.why}") for f in link_figures.figures_of(one)
            )
        else:
            yield table(["", ""], [[f.label, f.text] for f in link_figures.figures_of(one)])
