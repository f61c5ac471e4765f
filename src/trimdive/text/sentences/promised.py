"""The words for what was promised of her, and for the whole boat on the scale."""

import datetime
from collections.abc import Sequence

from trimdive.text.said import says
from trimdive.text.say import Say


@says("heavy-to-lift")
def _heavy_to_lift(say: Say, mass: float, promised: float) -> str:
    return f"she weighs {say.mass(mass)} ready to lift; the brief allows {say.mass(promised)}"


@says("take-out-to-carry")
def _take_out_to_carry(say: Say, mass: float) -> str:
    return f"Plan to remove {say.mass(mass)} for the carry, such as batteries or lead."


@says("too-long-to-carry")
def _too_long_to_carry(say: Say, length: float, room: float) -> str:
    return f"she is {say.length(length)} long; there is room for {say.length(room)}"


@says("part-the-hull")
def _part_the_hull(_: Say) -> str:
    return "Part the hull, or find another way to carry her."


@says("pond-too-shallow")
def _pond_too_shallow(say: Say, height: float, depth: float) -> str:
    return f"she stands {say.length(height)} high; the water is {say.length(depth)} deep"


@says("needs-depth")
def _needs_depth(say: Say, depth: float) -> str:
    return f"She needs {say.length(depth)} to dive clear of the bottom."


@says("no-such-water")
def _no_such_water(_: Say, name: str) -> str:
    return f"there is no water '{name}' in the table"


@says("write-one-of")
def _write_one_of(_: Say, names: Sequence[str]) -> str:
    return f"Write one of: {', '.join(names)}."


@says("heavier-in-water")
def _heavier_in_water(say: Say, water: str, more: float, spare: float) -> str:
    return (
        f"in {water} she needs {say.mass(more)} more to go under; her tanks have only "
        f"{say.mass(spare)} to spare"
    )


@says("keep-loose-lead")
def _keep_loose_lead(say: Say, mass: float) -> str:
    return f"Keep {say.mass(mass)} of loose lead for it, at her centre of gravity."


@says("off-the-ledger")
def _off_the_ledger(say: Say, date: datetime.date, mass: float, off: float, band: float) -> str:
    way = "more" if off > 0 else "less"
    return (
        f"on {date:%Y-%m-%d} she weighed {say.mass(mass)}, {say.mass(abs(off))} {way} than the "
        f"weight list of what is aboard, which may be off by {say.mass(band)}"
    )


@says("look-through-ledger")
def _look_through_ledger(_: Say) -> str:
    return "Look for a part missing in the list, or not aboard; weigh the guesses."
