"""``float``: how she floats on the surface and hangs dived, as text."""

from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING

from trimdive.ballast.need.moves import stand_ins
from trimdive.cli.layout import Block, Cells, heading, line, table, terms
from trimdive.text import words
from trimdive.text.said import said
from trimdive.text.say import Say
from trimdive.units import read

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.hydrostatics.equilibrium import State


def float_text(her: "Assessment", asked: "State | None") -> Iterator[Block]:
    """Yield what ``float`` prints.

    Args:
        her: The boat.
        asked: At rest with the tanks as asked for, to be shown alone; or None.
    """
    yield line(words.title(her))
    states = [(_head(her, asked), asked)] if asked else _both(her)
    head = ["", *(title for title, _ in states)]
    columns = [state for _, state in states]
    yield line()
    yield table(head, [*_draughts(her, columns), *_figures(her, columns)])
    yield line()
    for text in dict.fromkeys(words.instead_of_draughts(her, state) for state in columns):
        if text:
            yield line(text)
    if asked is None:
        yield from _notes(her)
    elif asked.rest.under:
        yield line(f"She is wholly under, {words.weight(her.boat, asked.rest.excess)}.")
    else:
        yield line("She is not wholly under.")
    yield from _stand_ins(her)
    yield heading("What the words mean")
    yield terms("centre of buoyancy", "centre of gravity", "BG", "GM", "waterplane")
    yield line(
        "B is the centre of buoyancy, G the centre of gravity; heights are above the keel line. BG "
        "matters dived, GM on the surface."
    )


def _both(her: "Assessment") -> list[tuple[str, "State"]]:
    """Return the two states that are told, each with its head."""
    low = {
        "dived at neutral": f"dived, tanks {words.filling(her, her.lowest)} full",
        "tanks full": "tanks full",
        "sunk": "sunk",
        "afloat": "held under",
    }[her.lowest_name]
    if not her.boat.tanks:
        return [("on the surface", her.surfaced), (low, her.dived)]
    return [("tanks blown", her.surfaced), (low, her.lowest)]


def _head(her: "Assessment", state: "State") -> str:
    fillings = state.rest.waters / her.floater.tanks.capacities
    if float(fillings.max() - fillings.min()) < 5e-4:
        return f"tanks {words.share(float(fillings[0]))} full"
    each = zip(her.boat.tanks, fillings, strict=True)
    return ", ".join(f"{tank.name} {words.share(float(filling))} full" for tank, filling in each)


def marks_of(her: "Assessment") -> list[tuple[str, float]]:
    """Return name and place of each mark; stern, middle and bow where the file names none [m]."""
    if her.boat.marks:
        return [(mark.name, mark.x) for mark in her.boat.marks]
    low, high = words.ends(her)
    return [("stern", low), ("middle", (low + high) / 2), ("bow", high)]


def _draughts(her: "Assessment", states: list["State"]) -> Iterator[Cells]:
    for name, x in marks_of(her):
        yield [f"draught at {name}", *(_draught(her, state, x) for state in states)]


def _draught(her: "Assessment", state: "State", x: float) -> str:
    if not state.has_draughts:
        return words.no_draughts(state)
    units, draught = her.boat.units, state.draught(x)
    text = units.write(draught, "length")
    line_meant = her.boat.waterline
    if line_meant is None:
        return text
    off = draught - line_meant.height_at(x)
    far = units.write(abs(off), "length")
    if not any(figure in far for figure in "123456789"):
        return f"{text}, on her waterline"
    return f"{text}, {far} {'low' if off > 0 else 'high'}"


def _figures(her: "Assessment", states: list["State"]) -> Iterator[Cells]:
    """Yield a row a figure: its name, and its value in each state."""
    boat, end = her.boat, her.boat.entered_from
    write = boat.units.write
    step = "0.1 in" if boat.units.shown("length") in words.INCHES else "1 mm"
    step_mm = 1e3 * read(step, "length", None)
    rows: dict[str, Callable[[State], str]] = {
        "trim": lambda s: words.trim(boat, s.trim_angle),
        "heel": lambda s: words.heel_at(her, s),
        "light or heavy": lambda s: words.weight(boat, s.rest.excess),
        "BG": lambda s: write(s.bg, "length"),
        "GM": lambda s: write(s.gm_t, "length"),
        "GM lengthways": lambda s: write(s.gm_l, "length"),
        "displacement": lambda s: write(s.displacement_mass, "mass"),
        "still out of the water": lambda s: write(s.reserve, "volume"),
        "KB, height of B": lambda s: write(s.kb, "length"),
        "KG, height of G": lambda s: write(s.kg, "length"),
        f"LCB, B from {end}": lambda s: words.place(boat, s.lcb),
        f"LCG, G from {end}": lambda s: words.place(boat, s.lcg),
        "waterplane": lambda s: words.area(boat, s.waterplane_area),
        f"mass to sink {step}": lambda s: words.mass(boat, s.mass_to_sink_1_mm * step_mm),
        "moment to trim 1°": lambda s: words.moment(boat, s.moment_to_trim_1_degree),
    }
    surface_only = ("waterplane", f"mass to sink {step}", "still out of the water")
    for name, text in rows.items():
        yield [name, *("–" if s.rest.under and name in surface_only else text(s) for s in states)]


def _notes(her: "Assessment") -> Iterator[Block]:
    boat, units = her.boat, her.boat.units
    yield line(words.neutral_words(her))
    afloat = not her.surfaced.rest.under
    if boat.tanks and afloat:
        yield line(_way_down(her))
    sink = her.surfaced.mass_to_sink_1_mm
    if her.film > 0 and sink > 0:
        yield line(
            f"Surface tension holds her down by up to {units.write(her.film, 'mass')}, "
            f"{units.write(her.film / sink * 1e-3, 'length')} deeper than the draughts above; dirt "
            "or detergent take up to two thirds of that away."
        )
    for name, outline in her.outlines.items():
        yield line(
            f"Given by its outline only, the volume of {name} below the waterline may be off by "
            f"± {words.share(outline.nabla.share)}, its waterplane by "
            f"± {words.share(outline.waterplane.share)}. "
            f"{said(Say(boat), outline.further.advice)}"
        )
    if not afloat:
        return
    ways = list(dict.fromkeys(words.rest_words(her, other) for other in her.others))
    if ways:
        yield line(f"On the surface she could also float {'; or '.join(ways)}.")
    else:
        yield line("There is no other way she could float.")


def _way_down(her: "Assessment") -> str:
    """Return the worst moments between blown and full, in one sentence."""
    boat, down = her.boat, her.down
    least, tip, lean = (one.state for one in (down.least_gm, down.largest_trim, down.largest_heel))
    gm = boat.units.write(least.gm_t, "length")
    text = f"On the way down: least GM {gm} at {words.filling(her, least)} full"
    for name, words_of, worst in (
        ("trim", words.trim(boat, tip.trim_angle), tip),
        ("heel", words.heel_at(her, lean), lean),
    ):
        if words_of not in ("level", "upright"):
            text += f"; largest {name} {words_of} at {words.filling(her, worst)}"
    return f"{text}."


def _stand_ins(her: "Assessment") -> Iterator[Block]:
    found = stand_ins(her.boat, her.bodies, her.waterline)
    if found:
        names = ", ".join(body.name for body in found)
        balls = "a small ball replaces it" if len(found) == 1 else "small balls replace them"
        yield line(
            f"No shape is given for {names}: {balls}, near the waterline. With shapes the draughts "
            "are more accurate."
        )
