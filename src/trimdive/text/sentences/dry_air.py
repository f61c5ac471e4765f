"""The air in a dry space: how it is known, in which state it is, and what presses it."""

from trimdive.fact import Fact
from trimdive.text.said import said, says
from trimdive.text.say import Say
from trimdive.units import write


def _litres(volume: float) -> str:
    return write(volume, "volume", "L", 2)


@says("air-entered")
def _air_entered(say: Say, of: str) -> str:
    return f"as entered in {of}"


@says("air-by-share")
def _air_by_share(say: Say, air: float, of: str, share: float) -> str:
    return f"{_litres(air)} of free air in {of}, {say.share(share)} of its room"


@says("air-less-listed")
def _air_less_listed(say: Say, air: float, of: str) -> str:
    return f"{_litres(air)} of free air in {of}, its room less what is listed in it"


@says("hottest-closed")
def _hottest_closed(say: Say, celsius: float) -> str:
    return f"{say.write(celsius, 'temperature')} closed, at its hottest"


@says("tanks-filled")
def _tanks_filled(say: Say, many: bool, is_short: bool) -> str:
    tanks = "tanks" if many else "tank"
    as_full = f"as full as {'they get' if many else 'it gets'}"
    return f"{tanks} {as_full if is_short else 'full'}"


@says("tanks-emptied")
def _tanks_emptied(say: Say, many: bool) -> str:
    return f"{'tanks' if many else 'tank'} emptied"


@says("in-the-sun")
def _in_the_sun(say: Say) -> str:
    return "in the sun"


@says("in-the-water")
def _in_the_water(say: Say) -> str:
    return "in the water"


@says("both-at-once")
def _both_at_once(say: Say, first: Fact, second: Fact) -> str:
    return f"{said(say, first)}, {said(say, second)}"


@says("pressed-by")
def _pressed_by(say: Say, parts: tuple[Fact, ...]) -> str:
    return "; ".join(said(say, one) for one in parts)


@says("air-room-taken")
def _air_room_taken(
    say: Say, takers: int, moved: float, are_pistons: bool, left: float
) -> str:  # fmt: skip
    name = "piston" if are_pistons else "tank"
    who = f"the {name}" if takers == 1 else f"{takers} {name}s"
    one, many = ("takes", "take") if moved > 0 else ("gives back", "give back")
    does = one if takers == 1 else many
    return f"{who} {does} {_litres(abs(moved))} of {_litres(left)} of air"


@says("bag-takes-air")
def _bag_takes_air(say: Say, out: float, air: float) -> str:
    return f"the bag takes {_litres(out)} out of {_litres(air)} of air"


@says("closed-at")
def _closed_at(say: Say, closed: float, now: float) -> str:
    return f"closed at {closed:g} °C, {now:g} °C now"
