"""The words for the ballast: litres, where they lie, and what should not be above the waterline."""

from trimdive.fact import Fact
from trimdive.hydrostatics.equilibrium.named import share
from trimdive.text.said import said, says
from trimdive.text.say import Say, way

FEW = 0.1  # to spare: less than this is given with a decimal [-]


def margin_words(margin: float) -> str:
    """Return tank room beyond the litres needed, in per cent; a little of it with a decimal.

    Args:
        margin: Of the litres needed [-].

    >>> margin_words(0.054), margin_words(0.11)
    ('5.4 %', '11 %')
    """
    return share(margin, 1 if margin < FEW else 0)


@says("tanks-short")
def _tanks_short(say: Say, held: float, needed: float, spare: tuple[float, float] | None) -> str:
    less = ""
    if spare:
        margin, wanted = spare
        less = f": {margin_words(margin)} to spare, {say.share(wanted)} wanted"
    return f"the tanks hold {say.volume(held)}; her upperworks need {say.volume(needed)}{less}"


@says("find-room")
def _find_room(say: Say, room: float, most: str, most_volume: float) -> str:
    return (
        f"Find {say.volume(room)} more room, or reduce the volume above the waterline; the "
        f"largest share is {most}, {say.volume(most_volume)}."
    )


@says("tanks-large")
def _tanks_large(say: Say, held: float, over: float, needed: float) -> str:
    return (
        f"the tanks hold {say.volume(held)}, {say.share(over)} more than the "
        f"{say.volume(needed)} that she needs"
    )


@says("stop-filling")
def _stop_filling(say: Say, filled: float) -> str:
    return (
        f"Stop the fill at {say.share(filled)} and make sure they fill no further, or make them "
        "shorter."
    )


@says("weight-before-tanks")
def _weight_before_tanks(say: Say, light: float) -> str:
    return (
        f"Put her weight right first: she is {say.mass(light)} light with tanks full for want of "
        "weight, not of tank. Then stop the fill, or make them shorter."
    )


@says("no-tank")
def _no_tank(say: Say, needed: float) -> str:
    volume = say.volume(needed)
    return f"she has no tank; her upperworks need {volume} of water"


@says("add-tank")
def _add_tank(say: Say, x: float) -> str:
    return f"Add a tank with its centre {say.place(x)}."


@says("tank-water-off")
def _tank_water_off(say: Say, off: float) -> str:
    return f"tank water {say.length(abs(off))} too far {way(off)[0]}"


@says("tank-water-off-once")
def _tank_water_off_once(say: Say, off: float, once: Fact, now: float) -> str:
    return f"{_tank_water_off(say, off)}, {said(say, once)} ({say.length(abs(now))} now)"


@says("leave-tanks")
def _leave_tanks(_: Say) -> str:
    return "Fixing the other faults fixes this too; leave the tanks where they are."


@says("foam-instead")
def _foam_instead(say: Say, volume: float, x: float) -> str:
    return (
        f"As a guide: {say.volume(volume)} of foam above the waterline, {say.place(x)}, would do "
        "instead, and takes as much more ballast water; placing finds its position where foam may "
        "go above the waterline."
    )


@says("lead-does-not-do")
def _lead_does_not_do(_: Say) -> str:
    return "Lead below the waterline cannot make her level in both states."


@says("closed-part")
def _closed_part(say: Say, name: str, pull: float, air: float) -> str:
    return (
        f"{name} is closed: it pulls up {say.mass(pull)} under water, and its air above the "
        f"waterline takes {say.volume(air)} more ballast water"
    )


@says("drill-holes")
def _drill_holes(_: Say, name: str) -> str:
    return "Drill two 8 mm holes low and a 5 mm vent at its highest point, so that water fills it."


@says("foam-above")
def _foam_above(say: Say, name: str, volume: float, x: float) -> str:
    return (
        f"{name} holds {say.volume(volume)} of foam above the waterline, {say.place(x)}: it "
        "takes as much more ballast water, and shifts the centre of the volume above the waterline"
    )


@says("take-foam-out")
def _take_foam_out(_: Say) -> str:
    return "Remove it; moving lead cannot fix what it does."


@says("trim-dived")
def _trim_dived(say: Say, trim: float, is_level_afloat: bool) -> str:
    level = ", though level on the surface" if is_level_afloat else ""
    return f"dived at neutral: trim {say.trim(trim)}{level}"


@says("water-under-middle")
def _water_under_middle(_: Say) -> str:
    return "Move the tank water under the centre of the volume above the waterline."


@says("level-afloat-first")
def _level_afloat_first(_: Say) -> str:
    return "Bring her level on the surface first; the same shift works dived."
