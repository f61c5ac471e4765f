"""What a drawing says of the boat: her state in words, and three figures."""

from trimdive.assessment import Assessment
from trimdive.hydrostatics.equilibrium import State
from trimdive.hydrostatics.equilibrium.named import (
    bg,
    heaviness,
    how_full,
    is_same,
    is_zero,
    lies,
    share,
    trim,
    weight,
)
from trimdive.pictures.drawings.things import shell


def places(assessed: Assessment) -> list[tuple[str, float]]:
    """Return names and places at which draughts are told: her marks, else ends and middle [m]."""
    boat = assessed.boat
    if boat.marks:
        return [(mark.name, mark.x) for mark in sorted(boat.marks, key=lambda mark: mark.x)]
    low, high = shell(assessed).bounds[:, 0]
    return [("stern", float(low)), ("middle", float(low + high) / 2), ("bow", float(high))]


def low_by(assessed: Assessment, state: State, x: float) -> float | None:
    """Return how much deeper than meant she floats at a place [m]; None without a waterline."""
    line = assessed.boat.waterline
    return state.draught(x) - line.height_at(x) if line and state.has_draughts else None


def off_line(assessed: Assessment, off: float) -> str:
    """Return in words how far off her waterline she floats."""
    far = assessed.boat.units.write(abs(off), "length")
    if is_zero(far):
        return "on her waterline"
    return f"{far} {'low' if off > 0 else 'high'}"


def is_blown(assessed: Assessment, state: State) -> bool:
    """Return whether her tanks are blown; only then is she meant to be on her waterline."""
    return is_same(state.rest.waters, assessed.blown_water)


def is_full(assessed: Assessment, state: State) -> bool:
    """Return whether her tanks are full."""
    return is_same(state.rest.waters, assessed.full_water)


def filling(assessed: Assessment, state: State) -> str:
    """Return in words how full the tanks are."""
    if not assessed.boat.tanks:
        return "no tanks"
    if is_blown(assessed, state):
        return "tanks blown"
    if is_full(assessed, state):
        return "tanks full"
    return f"tanks {share(how_full(assessed.floater, state.rest.waters))} full"


def state_words(assessed: Assessment, state: State) -> str:
    """Return her state in one sentence."""
    boat = assessed.boat
    start, heavy = filling(assessed, state).capitalize(), weight(boat, state.rest.excess)
    if state.rest.under:
        held = "held wholly under" if heaviness(boat, state.rest.excess) < 0 else "wholly under"
        how = f"{held}, {heavy}"
    elif is_blown(assessed, state):
        marks = places(assessed)
        off = low_by(assessed, state, marks[len(marks) // 2][1])
        how = "afloat" if off is None else f"floats {off_line(assessed, off)} amidships"
    else:
        how = f"still floats, {heavy}"
    return f"{start}: {how}, {lies(boat, assessed.floater, state)}."


def held_words(assessed: Assessment, state: State) -> str:
    """Return how she would lie if held under, where full tanks leave her afloat; else ""."""
    if not assessed.boat.tanks or state.rest.under or not is_full(assessed, state):
        return ""
    how = lies(assessed.boat, assessed.floater, assessed.dived)
    return f"Held under by hand, tanks full: {how}."


def lever_words(assessed: Assessment, state: State) -> tuple[str, ...]:
    """Return BG as she lies, and where G is."""
    at = f"G at x {assessed.boat.units.write(state.lcg, 'length')}"
    return bg(assessed.boat, state.bg), at


def figures(assessed: Assessment, state: State) -> list[tuple[str, str, str]]:
    """Return the three figures of a state: name, value, and a line of explanation."""
    boat, write = assessed.boat, assessed.boat.units.write
    end = trim(boat, state.trim_angle)
    return [
        ("trim", write(abs(state.trim_angle), "angle"), end.partition(" ")[2] or end),
        ("light or heavy", weight(boat, state.rest.excess), _weighs(assessed, state)),
        ("BG", write(state.bg, "length"), _stands(assessed, state)),
    ]


def _weighs(assessed: Assessment, state: State) -> str:
    """Return what light or heavy belongs to: how full her tanks are, and where she is neutral."""
    text = filling(assessed, state)
    if assessed.lowest_name == "sunk":
        return f"{text}: she sinks"
    if assessed.lowest_name == "tanks full":
        return f"{text}: she will not dive" if is_full(assessed, state) else text
    if assessed.lowest_name == "afloat" or weight(assessed.boat, state.rest.excess) == "neutral":
        return text
    return f"{text}, neutral at {share(assessed.neutral)}"


def _stands(assessed: Assessment, state: State) -> str:
    """Return what keeps her upright as she lies."""
    if state.rest.under:
        return "wholly under: keeps her upright"
    gm = assessed.boat.units.write(state.gm_t, "length")
    return f"afloat: GM {gm} keeps her upright" if state.gm_t > 0 else "afloat"
