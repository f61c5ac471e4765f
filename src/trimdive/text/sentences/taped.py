"""Readings with a tape: what looks wrong among them, and what to measure next."""

from trimdive.text.said import says
from trimdive.text.say import Say


@says("hull-above-waterline")
def _hull_above_waterline(say: Say) -> str:
    return "hull above the waterline"


@says("hull-skin")
def _hull_skin(say: Say) -> str:
    return "skin of the hull"


@says("tape-girth-odd")
def _tape_girth_odd(
    say: Say, at: float, girth: float, off: float, likely: str, ought: float
) -> str:
    return (
        f"the girth at {say.length(at)}, {say.length(girth)}, is {say.length(abs(off))} "
        f"{'more' if off > 0 else 'less'} than its neighbours suggest; "
        f"{likely or 'about ' + say.length(ought)}?"
    )


@says("tape-measure-again")
def _tape_measure_again(say: Say) -> str:
    return "Measure it again."


@says("tape-walls-apart")
def _tape_walls_apart(say: Say, measured: float, by_scale: float) -> str:
    return (
        f"the wall was measured {say.length(measured)}, but the upper moulding's mass makes it "
        f"{say.length(by_scale)}"
    )


@says("tape-walls-mend")
def _tape_walls_mend(say: Say) -> str:
    return "Measure the wall at more spots, or weigh an offcut in air and in water."


@says("tape-walls")
def _tape_walls(say: Say, spots: int, weigh: bool) -> str:
    more = "four more spots" if spots > 1 else "five spots"
    scale = ", or weigh the upper moulding" if weigh else ""
    return f"Measure the wall at {more}, some near each end{scale}."


@says("tape-girth-at")
def _tape_girth_at(say: Say, x: float, end: str) -> str:
    return f"Measure one more girth, at {say.length(x)} from the {end}."


@says("tape-girths-twice")
def _tape_girths_twice(say: Say) -> str:
    return "Measure every girth twice and use the mean."


@says("tape-waterline-again")
def _tape_waterline_again(say: Say) -> str:
    return "Mark the waterline again with the hull held level on a flat board."


@says("tape-offcut")
def _tape_offcut(say: Say) -> str:
    return "Weigh an offcut of the laminate in air and hung in water."


@says("tape-finer-scale")
def _tape_finer_scale(say: Say) -> str:
    return "Weigh the upper moulding on a finer scale."


@says("tape-near-ends")
def _tape_near_ends(say: Say) -> str:
    return "Measure two more girths near the ends."


@says("tape-section-card")
def _tape_section_card(say: Say) -> str:
    return "Make a card template of the section amidships; the outline of the hull helps."


@says("tape-hang")
def _tape_hang(say: Say, name: str) -> str:
    return f"Hang {name} from a scale, in air and under water."
