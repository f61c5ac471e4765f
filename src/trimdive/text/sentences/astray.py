"""The words for what cannot be where or as large as it is written."""

from collections.abc import Sequence

from trimdive.text.said import says
from trimdive.text.say import Say, listed

HARDLY = 1e-4  # so far off the middle is on it [m]
SIDES = {"length": "long", "breadth": "broad", "height": "high"}
OF = {"z": "{} above the keel line", "y": "{} off the centreline", "": "{} in size"}


@says("far-from-hull")
def _far_from_hull(say: Say, name: str, far: float, place: tuple[float, float, float]) -> str:
    x, y, z = place
    side = "port" if y > 0 else "starboard"
    aside = f", {say.length(abs(y))} to {side}" if abs(y) >= HARDLY else ""
    return f"{name}: {say.length(far)} out of the hull, {say.place(x)}, {say.length(z)} high{aside}"


@says("measure-place")
def _measure_place(
    say: Say, along: tuple[float, float], high: tuple[float, float], beside: str
) -> str:
    begins, ends = (say.length(x) for x in sorted(say.boat.along(x) for x in along))
    low, top = (say.length(z) for z in high)
    also = f"; or that of {beside}, which does not reach under it" if beside else ""
    return (
        f"Measure its position again: the hull is from {begins} to {ends} from the "
        f"{say.boat.entered_from}, and from {low} to {top} high{also}."
    )


@says("not-under-its-load")
def _not_under_its_load(say: Say, name: str, places: Sequence[tuple[str, float]]) -> str:
    where = listed([f"{one} {say.place(x)}" for one, x in places])
    return f"{name} is not under the part on top of it: {where}"


@says("measure-ends")
def _measure_ends(say: Say, name: str, ends: tuple[float, float]) -> str:
    begin, end = (say.place(x) for x in ends)
    return f"Measure the ends of {name} again: now {begin} and {end}."


@says("larger-than-hull")
def _larger_than_hull(say: Say, name: str, side: str, size: float, hull: float) -> str:
    word = SIDES[side]
    return f"{name}: {say.length(size)} {word}; the whole hull is {say.length(hull)} {word}"


@says("measure-or-slipped")
def _measure_or_slipped(_: Say) -> str:
    return "Measure it again; look for a slipped figure."


@says("waterline-off-hull")
def _waterline_off_hull(
    say: Say, height: float, is_above: bool, reaches: tuple[float, float]
) -> str:
    where = "above the whole hull" if is_above else "below the keel"
    low, high = (say.length(z) for z in reaches)
    return f"the waterline is {say.length(height)} high, {where}: she reaches from {low} to {high}"


@says("set-waterline")
def _set_waterline(_: Say) -> str:
    return "Enter how high her waterline is, measured from the keel line."


@says("tiny-figure")
def _tiny_figure(say: Say, name: str, field: str, value: float, likely: float) -> str:
    written = OF[field].format(say.fine(value, "length"))
    return f"{name}, {written}: {say.length(likely)}?"


@says("write-mm-for-m")
def _write_mm_for_m(say: Say, likely: float) -> str:
    return f"Enter {say.length(likely)} (mm for m), if that is what was measured."


@says("or-nothing")
def _or_nothing(_: Say) -> str:
    return "Enter 0, if it lies just there."


@says("lighter-than-its-lead")
def _lighter_than_its_lead(say: Say, name: str, mass: float, likely: float) -> str:
    return f"{name}: {say.mass(mass)}; its shape in lead is {say.mass(likely)}"


@says("weigh-lead")
def _weigh_lead(say: Say, likely: float) -> str:
    return f"Weigh it again, and enter {say.mass(likely)} if that is what it weighs."


@says("measure-lead")
def _measure_lead(_: Say) -> str:
    return "Measure its size again, if its mass is right."
