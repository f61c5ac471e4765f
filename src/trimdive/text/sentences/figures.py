"""The words for figures that are guessed, that cannot be, or that contradict each other."""

from collections.abc import Sequence

from trimdive.geometry.lines.suspects import length_in
from trimdive.text.said import says
from trimdive.text.say import Say


@says("guessed")
def _guessed(say: Say, masses: Sequence[tuple[str, float, float]]) -> str:
    each = [f"{name}, {say.mass(mass)} ± {say.mass(spread)}" for name, mass, spread in masses]
    if len(each) == 1:
        return f"a guess: the mass of {each[0]}"
    return f"{len(each)} heavy masses are guesses: {'; '.join(each)}"


@says("weigh")
def _weigh(_: Say, many: bool) -> str:
    return "Weigh them, the first one first." if many else "Weigh it."


@says("too-light")
def _too_light(say: Say, name: str, mass: float, volume: float) -> str:
    return f"{name}: {say.mass(mass)} for {say.volume(volume)}; nothing is so light"


@says("too-heavy")
def _too_heavy(say: Say, name: str, mass: float, volume: float) -> str:
    return f"{name}: {say.mass(mass)} for {say.volume(volume)}; nothing is so heavy"


@says("look-for-slip")
def _look_for_slip(_: Say) -> str:
    return "Look for a slipped figure."


@says("more-than-shape")
def _more_than_shape(say: Say, name: str, volume: float, holds: float) -> str:
    return f"{name} displaces {say.volume(volume)}, but its shape holds only {say.volume(holds)}"


@says("measure-size-or-mass")
def _measure_size_or_mass(_: Say) -> str:
    return "Measure its size again, or its mass."


@says("skin-off-its-mass")
def _skin_off_its_mass(
    say: Say, name: str, measured: float, mass: float, density: float, thickness: float
) -> str:
    return (
        f"{name}: its skin is entered as {say.length(measured)} thick, but its {say.mass(mass)} at "
        f"{density / 1000:.2f} g/cm³ would be {say.length(thickness)}; the mass is what counts"
    )


@says("measure-wall-or-weigh-offcut")
def _measure_wall_or_weigh_offcut(_: Say) -> str:
    return "Measure the wall at more spots, or weigh an offcut in air and in water."


@says("hull-off-its-length")
def _hull_off_its_length(say: Say, length: float, given: float) -> str:
    return (
        f"the hull's surfaces are {say.length(length)} long, but the boat file says "
        f"{say.length(given)}"
    )


@says("look-at-units")
def _look_at_units(_: Say) -> str:
    return "Check the units of the tables and meshes, and the boat's length."


@says("measure-again")
def _measure_again(_: Say) -> str:
    return "Measure it again."


@says("write-if-plan-says")
def _write_if_plan_says(_: Say, likely: str) -> str:
    return f"Write {likely}, if that is what the plan says."


@says("keel-doubt")
def _keel_doubt(_: Say, is_sharp: bool, off: float, unit: str) -> str:
    by = length_in(off, unit)
    if is_sharp:
        return (
            "the sections run straight to the keel, as to a knuckle, but the table does not mark "
            f"one and it is drawn round, some {by} fuller"
        )
    return (
        "the sections run round into the keel, but the table marks a knuckle there and it is "
        f"drawn sharp, some {by} finer"
    )


@says("mark-keel")
def _mark_keel(_: Say, is_sharp: bool) -> str:
    if is_sharp:
        return "Write keel under knuckles in every row, if she has a sharp keel."
    return "Remove keel from the column knuckles, if she has a round keel."
