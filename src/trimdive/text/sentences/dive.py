"""The words for the moments between: jumps on the way down, tanks that stick, depth."""

from trimdive.plant.failsafe import bound_words, deep_words
from trimdive.text.said import says
from trimdive.text.say import Say


@says("dive-turns")
def _dive_turns(say: Say, filled: tuple[float, float], turn: float) -> str:
    before, after = filled
    end = "bow" if turn > 0 else "stern"
    return (
        f"between {say.share(before)} and {say.share(after)} full her trim turns "
        f"by {say.angle(abs(turn))}, {end} down"
    )


@says("shorter-tanks")
def _shorter_tanks(_: Say) -> str:
    return "Shorter tanks, or two for one, or another order of filling."


@says("stuck-full")
def _stuck_full(say: Say, tank: str, out: float) -> str:
    return (
        f"with {tank} stuck full and the rest blown only {say.volume(out)} of her stays out of "
        "the water"
    )


@says("part-in-two")
def _part_in_two(_: Say) -> str:
    return "Divide it in two, or keep a line on her."


@says("no-return")
def _no_return(say: Say, from_depth: float, depth: float, heavier: float, lift: float) -> str:
    return (
        f"deeper than {bound_words(say.boat, from_depth)} she sinks even with her tanks blown: "
        f"{deep_words(say.boat, depth)} down she is {say.mass(heavier)} heavier, and "
        f"they lift {say.mass(lift)}"
    )


@says("stiffer-material")
def _stiffer_material(_: Say, name: str) -> str:
    return f"Use stiffer material for {name}, or a larger tank."
