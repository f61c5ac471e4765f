"""The words for a hull that is not of the size of the full-size boat by the scale."""

from trimdive.text.said import says
from trimdive.text.say import Say

Sizes = tuple[tuple[str, float, float], ...]  # "length" or "breadth", as drawn, as meant [m]
LONG = {"length": "long", "breadth": "broad"}


def _drawn(say: Say, sizes: Sizes) -> str:
    return " and ".join(f"{say.length(drawn)} {LONG[of]}" for of, drawn, _ in sizes)


def _meant(say: Say, sizes: Sizes) -> str:
    return " and ".join(say.length(full) for _, _, full in sizes)


@says("half-breadths-wrong")
def _half_breadths_wrong(say: Say, table: str, drawn: float, full: float, is_twice: bool) -> str:
    times, asked = "half", "were half-breadths halved again?"
    if is_twice:
        times, asked = "twice", "were breadths entered as half-breadths?"
    return (
        f"{table}: the hull is {say.length(drawn)} broad, {times} the {say.length(full)} of the "
        f"full-size boat by the scale: {asked}"
    )


@says("scale-half-breadths")
def _scale_half_breadths(_: Say, table: str, is_twice: bool) -> str:
    verb = "Halve" if is_twice else "Double"
    return f"{verb} all half-breadths of {table}, if that is so."


@says("table-in-unit")
def _table_in_unit(say: Say, table: str, unit: str, instead: str, sizes: Sizes) -> str:
    return (
        f"{table}: read in {unit} the hull is {_drawn(say, sizes)}; the full-size boat by the "
        f"scale is {_meant(say, sizes)}: {instead}?"
    )


@says("write-unit-in-head")
def _write_unit_in_head(_: Say, table: str, unit: str, instead: str) -> str:
    return f"Write {instead} for {unit} in the head of {table}, if that is so."


@says("hull-off-scale")
def _hull_off_scale(say: Say, sizes: Sizes) -> str:
    drawn, meant = _drawn(say, sizes), _meant(say, sizes)
    return f"the hull is {drawn}; the full-size boat by the scale is {meant}"


@says("look-at-scale")
def _look_at_scale(_: Say) -> str:
    return "Check her scale, the full-size boat and the hull's own figures: one of them is wrong."
