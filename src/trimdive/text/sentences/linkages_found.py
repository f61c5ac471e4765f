"""The words for servos, rods and glands that are not in order, and for what mends them."""

from math import degrees

from trimdive.text.said import says
from trimdive.text.say import Say
from trimdive.units import write


@says("planes-turn-less")
def _planes_turn_less(_: Say, name: str, turn: float, wanted: float) -> str:
    return f"{name} turn {degrees(turn):.0f}°; {degrees(wanted):.0f}° wanted"


@says("longer-arm")
def _longer_arm(_: Say) -> str:
    return "Use a longer arm, a shorter horn, or more travel of the servo."


@says("servo-weak")
def _servo_weak(_: Say, name: str, spare: float) -> str:
    return f"the servo of {name} holds {spare:.1f} times what plane and seal need"


@says("stronger-servo")
def _stronger_servo(_: Say, torque: float) -> str:
    return f"Use one that holds {write(torque, 'torque', 'N cm', 0)}, or a shorter arm."


@says("rod-near-shaft")
def _rod_near_shaft(say: Say, name: str, clear: float) -> str:
    if clear <= 0:
        return f"the rod of {name} strikes the shaft"
    return f"the rod of {name} comes as near as {say.length(clear)} to the shaft"


@says("move-rod-away")
def _move_rod_away(say: Say, by: float) -> str:
    return f"Move it {say.length(by)} away."


@says("rod-pulls-sideways")
def _rod_pulls_sideways(_: Say, name: str, pull: float) -> str:
    return f"the rod of {name} pulls {pull:.1f} N sideways at its gland"


@says("guide-rod")
def _guide_rod(_: Say) -> str:
    return "Set the servo farther from the gland, or put a guide bush before it."
