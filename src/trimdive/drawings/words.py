"""What a drawing says of the boat: her state in words, and three figures."""

from math import degrees

import numpy as np

from trimdive.assess import Assessment
from trimdive.drawings.things import shell
from trimdive.rest import State

LEVEL = 0.05  # less than this is written as level or upright [°]
SAME = 1e-9  # a difference of water that is none [m³]
UPRIGHT = "dived and upright"  # the state for which BG is told
EVEN = 5e-4  # less than this heavy or light is neutral [kg]


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
    if not any(figure in far for figure in "123456789"):
        return "on her waterline"
    return f"{far} {'low' if off > 0 else 'high'}"


def tips(state: State) -> str:
    """Return her trim in words."""
    angle = degrees(state.trim_angle)
    return "level" if abs(angle) < LEVEL else f"{abs(angle):.1f}° {lower_end(state)}"


def lower_end(state: State) -> str:
    """Return by which end she tips."""
    return f"by the {'bow' if state.trim_angle > 0 else 'stern'}"


def leans(state: State) -> str:
    """Return her heel in words."""
    angle = degrees(state.heel)
    if abs(angle) < LEVEL:
        return "upright"
    return f"leans {abs(angle):.1f}° to {'starboard' if angle > 0 else 'port'}"


def tanks_of(assessed: Assessment) -> str:
    """Return "tank" or "tanks"."""
    return "tanks" if len(assessed.boat.tanks) > 1 else "tank"


def is_blown(assessed: Assessment, state: State) -> bool:
    """Return whether her tanks are blown; only then is she meant to be on her waterline."""
    return np.allclose(state.rest.waters, assessed.blown_water, rtol=0, atol=SAME)


def filling(assessed: Assessment, state: State) -> str:
    """Return in words how full the tanks are."""
    boat, at = assessed.boat, state.rest
    if not boat.tanks:
        return "no tanks"
    whose = tanks_of(assessed)
    if is_blown(assessed, state):
        return f"{whose} blown"
    if np.allclose(at.waters, assessed.full_water, rtol=0, atol=SAME):
        return f"{whose} full"
    return f"{whose} {100 * at.waters.sum() / assessed.floater.tanks.capacities.sum():.0f} % full"


def balance(assessed: Assessment, excess: float) -> str:
    """Return in words how heavy or light she is when wholly under."""
    if abs(excess) < EVEN:
        return "neutral"
    mass = assessed.boat.units.write(abs(excess), "mass")
    return f"{mass} {'heavy' if excess > 0 else 'too light'}"


def state_words(assessed: Assessment, state: State) -> str:
    """Return her state in one sentence."""
    start = filling(assessed, state).capitalize()
    if state.rest.under:
        held = "held wholly under" if state.rest.excess < -EVEN else "wholly under"
        how = f"{held}, {balance(assessed, state.rest.excess)}"
    elif is_blown(assessed, state):
        marks = places(assessed)
        off = low_by(assessed, state, marks[len(marks) // 2][1])
        how = "afloat" if off is None else f"floats {off_line(assessed, off)} amidships"
    else:
        how = f"still floats, {balance(assessed, state.rest.excess)} to go under"
    turned = [tips(state), leans(state)]
    if turned[0] != "level" and turned[1] == "upright":
        turned.pop()
    return f"{start}: {', '.join([how, *turned])}."


def held_words(assessed: Assessment, state: State) -> str:
    """Return how she would hang if held under, where full tanks leave her afloat; else ""."""
    is_full = np.allclose(state.rest.waters, assessed.full_water, rtol=0, atol=SAME)
    if not assessed.boat.tanks or state.rest.under or not is_full:
        return ""
    angle = abs(degrees(assessed.dived.trim_angle))
    how = "lie level" if angle < LEVEL else f"tip {tips(assessed.dived)}"
    return f"Held wholly under by hand she would {how}."


def lever_words(assessed: Assessment, state: State) -> tuple[str, ...]:
    """Return how far B stands above G as she lies, and where G is.

    What she stands up by is told dived and upright; where that is another figure, as it is when
    she floats or hangs tipped, both are told, each with its state.
    """
    write = assessed.boat.units.write
    here, dived = (write(abs(bg), "length") for bg in (state.bg, assessed.bg))
    first = f"B {here} {'above' if state.bg >= 0 else 'below'} G"
    at = f"G at x {write(state.lcg, 'length')}"
    if state.rest.under and here == dived:
        return first, at
    where = "" if assessed.bg >= 0 else " below"
    return (
        f"{first} {'as she hangs' if state.rest.under else 'afloat'}",
        f"{UPRIGHT}: {dived}{where}",
        at,
    )


def lift_figure(assessed: Assessment) -> tuple[str, str, str]:
    """Return the figure of her lift with tanks full: what is left of it, or how heavy she is.

    Quite full tanks are meant to make her heavy: she is neutral a little before.
    """
    boat, heavy = assessed.boat, assessed.full.rest.excess
    told = boat.units.write(abs(heavy), "mass")
    name = "with tanks quite full" if len(boat.tanks) > 1 else "with the tank quite full"
    if not boat.tanks:
        return ("no tanks", f"{told} heavy", "she sinks") if heavy > 0 else ("lift left", told, "")
    if heavy <= 0:
        return "lift left", told, f"{tanks_of(assessed)} full: she stays up"
    if assessed.surfaced.rest.under:
        return name, f"{told} heavy", "she sinks, blown too"
    return name, f"{told} heavy", f"neutral at {100 * assessed.neutral:.0f} %"


def figures(assessed: Assessment, state: State) -> list[tuple[str, str, str]]:
    """Return the three figures: name, value, and a line of explanation."""
    angle = abs(degrees(state.trim_angle))
    return [
        ("tips by", f"{angle:.1f}°", "level" if angle < LEVEL else lower_end(state)),
        lift_figure(assessed),
        ("stands up by", assessed.boat.units.write(assessed.bg, "length"), f"BG, {UPRIGHT}"),
    ]
