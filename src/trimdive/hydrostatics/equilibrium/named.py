"""The states in which her figures are given, their names, and how each figure is written.

Every place that gives a figure of her gives it of a state that is named here, and writes it by a
function from here: the same state stands first everywhere. That is, for how she floats, on the
surface with her tanks blown; and for how she lies low, dived at neutral, or with her tanks full
where full tanks leave her afloat.
"""

from collections.abc import Sequence
from math import floor
from typing import Literal

import numpy as np

from trimdive.boatfile import Boat
from trimdive.geometry.lines.mesh import Floats
from trimdive.hydrostatics.equilibrium.hydrostatics import State
from trimdive.hydrostatics.equilibrium.others import either_side
from trimdive.hydrostatics.equilibrium.problem import Floater
from trimdive.units import factor_of, unit_named, write

Low = Literal["dived at neutral", "tanks full", "sunk", "afloat"]  # how low she can lie

SAME = 1e-9  # a difference of tank water that is none [m³]
SMALL = 3.0  # fewer grams than this are given with a decimal
FOOT, TENTH = factor_of("ft", "length"), 0.1  # steps in which a bound is given [m]
ROUNDING = 1e-9  # [-]
SMALL_VOLUME = 1e-4  # fewer litres than this are given in millilitres [m³]


def lowest_of(boat: Boat, surfaced: State, full: State, dived: State) -> tuple[Low, State]:
    """Return the state in which she lies low, and its name.

    Args:
        boat: The boat.
        surfaced: At rest with her tanks blown.
        full: At rest with her tanks full.
        dived: Wholly under, where she is neutral or nearest to it.
    """
    if not boat.tanks:
        return "afloat", surfaced
    if surfaced.rest.under:
        return "sunk", dived
    return ("dived at neutral", dived) if full.rest.under else ("tanks full", full)


def how_full(floater: Floater, waters: Floats) -> float:
    """Return how full her tanks are together, of their whole room [-].

    Args:
        floater: The boat.
        waters: In each tank, shape (t,) [m³].
    """
    room = float(floater.tanks.capacities.sum())
    return float(waters.sum()) / room if room else 0.0


def is_same(waters: Floats, others: Floats) -> bool:
    """Return whether her tanks hold the same water, each shape (t,) [m³]."""
    return bool(np.allclose(waters, others, rtol=0, atol=SAME))


def listed(words: Sequence[str]) -> str:
    """Return names or numbers in a sentence.

    >>> listed(["bow"]), listed(["bow", "middle", "stern"])
    ('bow', 'bow, middle and stern')
    """
    return " and ".join([", ".join(words[:-1]), words[-1]] if len(words) > 1 else words)


def share(value: float, digits: int = 0) -> str:
    """Return a share in per cent.

    Args:
        value: The share [-].
        digits: Decimals.

    >>> share(0.888)
    '89 %'
    """
    return f"{value:.{digits}%}".replace("%", " %")


def is_zero(text: str) -> bool:
    """Return whether a quantity reads as zero.

    >>> is_zero("0.00 in"), is_zero("0.01 in")
    (True, False)
    """
    return not any(figure in text for figure in "123456789")


def trim(boat: Boat, angle: float, *, short: bool = False) -> str:
    """Return a trim: "12.4° bow down", or "level".

    Args:
        boat: For its units.
        angle: Bow down [rad].
        short: The end alone, for tables: "12.4° bow".
    """
    down = "" if short else " down"
    return turned(boat, angle, "level", (f"bow{down}", f"stern{down}"))


def heel(boat: Boat, angle: float, *, short: bool = False) -> str:
    """Return a heel: "3.0° to starboard", or "upright".

    Args:
        boat: For its units.
        angle: To starboard [rad].
        short: The side alone, for tables: "3.0° stbd".
    """
    ways = ("stbd", "port") if short else ("to starboard", "to port")
    return turned(boat, angle, "upright", ways)


def turned(boat: Boat, angle: float, none: str, ways: tuple[str, str]) -> str:
    """Return an angle with the way it goes.

    Args:
        boat: For its units.
        angle: To the first of the ways [rad].
        none: What it is called where it reads as zero.
        ways: What an angle above and below zero is called.
    """
    text = boat.units.write(abs(angle), "angle")
    return none if is_zero(text) else f"{text} {ways[0] if angle > 0 else ways[1]}"


def heel_at(boat: Boat, floater: Floater, state: State) -> str:
    """Return the heel of a state; "to either side" where chance decides on the side.

    Args:
        boat: For its units.
        floater: The boat.
        state: How she lies.
    """
    return heel_of(boat, state.heel, either=either_side(floater, state.rest))


def heel_of(boat: Boat, angle: float, *, either: bool) -> str:
    """Return a heel; "to either side" where chance decides on the side.

    Args:
        boat: For its units.
        angle: To starboard [rad].
        either: Whether chance decides on the side.
    """
    text = heel(boat, angle)
    if text != "upright" and either:
        return f"{boat.units.write(abs(angle), 'angle')} to either side"
    return text


def lies(boat: Boat, floater: Floater, state: State) -> str:
    """Return how she lies: "trim 12.4° bow down", "level, heel 3.0° to port", or "level".

    Args:
        boat: For its units.
        floater: The boat.
        state: How she lies.
    """
    either = either_side(floater, state.rest)
    return lying(boat, (state.trim_angle, state.heel), either=either)


def lying(boat: Boat, angles: tuple[float, float], *, either: bool) -> str:
    """Return how she lies by her angles: "trim 12.4° bow down, heel 3.0° to either side".

    Args:
        boat: For its units.
        angles: Trim, bow down, and heel, to starboard [rad].
        either: Whether chance decides on the side to which she heels.
    """
    end, side = trim(boat, angles[0]), heel_of(boat, angles[1], either=either)
    text = end if end == "level" else f"trim {end}"
    return text if side == "upright" else f"{text}, heel {side}"


def mass(boat: Boat, value: float) -> str:
    """Return a mass; a small one with a decimal where the unit has none.

    Args:
        boat: For its units.
        value: The mass [kg].
    """
    unit = unit_named(boat.units.shown("mass"), "mass")
    more = unit.decimals == 0 and 0 < abs(unit.number(value)) < SMALL
    return write(value, "mass", unit.name, 1 if more else None)


def mass_off(boat: Boat, value: float) -> str:
    """Return how far a mass may be off; what is not zero never reads as zero.

    Args:
        boat: For its units.
        value: How far it may be off, either way [kg].
    """
    text = mass(boat, value)
    return boat.units.write_fine(value, "mass") if value and is_zero(text) else text


def deep(boat: Boat, depth: float) -> str:
    """Return a depth of water in metres, or in feet where the boat counts in inches or feet.

    Args:
        boat: For its units.
        depth: Of water [m].
    """
    return write(depth, "length", "ft" if _in_feet(boat) else "m", 1)


def bound(boat: Boat, depth: float) -> str:
    """Return a depth beyond which she should not go: rounded down, to 0.1 m or a foot.

    Args:
        boat: For its units.
        depth: The most that is borne [m].
    """
    step = FOOT if _in_feet(boat) else TENTH
    down = floor(depth / step * (1 + ROUNDING)) * step
    return write(down, "length", "ft" if _in_feet(boat) else "m", 0 if _in_feet(boat) else 1)


def _in_feet(boat: Boat) -> bool:
    return boat.units.shown("length") in ("in", "ft", "yd")


def volume(boat: Boat, value: float) -> str:
    """Return a volume; a small one in millilitres where she counts in litres.

    Args:
        boat: For its units.
        value: The volume [m³].
    """
    if boat.units.shown("volume") == "L" and abs(value) < SMALL_VOLUME:
        return write(value, "volume", "ml")
    return boat.units.write(value, "volume")


def weight(boat: Boat, excess: float) -> str:
    """Return weight less buoyancy, wholly under: "293 g heavy", "367 g light", or "neutral".

    Args:
        boat: For its units.
        excess: Weight less buoyancy [kg].
    """
    sign, text = heaviness(boat, excess), mass(boat, abs(excess))
    return f"{text} {'heavy' if sign > 0 else 'light'}" if sign else "neutral"


def heaviness(boat: Boat, excess: float) -> int:
    """Return 1 for heavy, -1 for light, 0 for neutral, as far as her unit of mass tells.

    Args:
        boat: For its units.
        excess: Weight less buoyancy [kg].
    """
    return 0 if is_zero(mass(boat, abs(excess))) else (1 if excess > 0 else -1)


def lifted(boat: Boat, value: float) -> str:
    """Return a mass as the one who lifts it would say it, in kilograms or pounds.

    Args:
        boat: For its units.
        value: The mass [kg].
    """
    return write(value, "mass", "lb" if boat.units.shown("mass") in ("oz", "lb") else "kg", 1)


def bg(boat: Boat, value: float) -> str:
    """Return how far B lies over G: "BG 9.2 mm", below zero where B lies under G.

    Args:
        boat: For its units.
        value: B over G [m].
    """
    return f"BG {boat.units.write(value, 'length')}"
