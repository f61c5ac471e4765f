"""From the cause and the figures told to a piece to cut, and where to fix it, each with its ±.

A bound on the moment gives a bound on the piece.

Sources: the laws of ``physics``; sizes of blocks and margins: common practice, no source.
"""

from dataclasses import dataclass
from math import ceil

from trimdive.estimates.wethands.figure import Figure, usual_of
from trimdive.estimates.wethands.known import Known
from trimdive.estimates.wethands.moments import Moment, moment_of, spare
from trimdive.estimates.wethands.physics import (
    bays_for,
    foam_for,
    foam_lift,
    moment_at,
    pull_of_lead,
    slack_loss,
    taken_by,
    tank_shift,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """One thing to do, with its figure."""

    key: str  # what: "foam above", "tank shift", "lead moved", "foam out", …
    amount: Figure  # of it [SI]
    kind: str  # volume, length, mass, percent
    x: Figure | None = None  # where, its middle from the stern [m]
    towards: str = ""  # which way or at which end
    block: tuple[float, float, float] | None = None  # to cut: length, breadth, height [m]
    count: int = 1  # how many of them
    takes: Figure | None = None  # of the tank [m³]
    has: Figure | None = None  # spare room of the tank before [m³]
    pull: Figure | None = None  # lead that goes with foam at the other end [kg]
    move: Figure | None = None  # how far a weight moves [m]
    is_bound: bool = False  # at least so much

    @property
    def fits(self) -> bool:
        """Return whether the tank has the room that it takes."""
        if self.takes is None or self.has is None:
            return True
        return self.takes.value <= self.has.value


def ends_at(known: Known, end: str, inset: str) -> Figure:
    """Return a place so far from an end, from the stern [m]."""
    off = usual_of(inset) * known.length.value
    at = known.length.value - off if end == "bow" else off
    return Figure(at, 0.0)


def block(volume: float) -> tuple[tuple[float, float, float], int]:
    """Return the sides of a handy block of foam [m], and how many of them.

    Args:
        volume: Of all of it [m³].

    >>> block(38.4e-6)
    ((0.04, 0.04, 0.024), 1)
    """
    count = max(1, ceil(volume / usual_of("block-most")))
    count += count % 2 if count > 1 else 0
    each = volume / count
    side = max(0.005, round((each / usual_of("squat")) ** (1 / 3) / 5e-3) * 5e-3)
    height = max(1e-3, round(each / side**2, 3))
    return (round(side, 3), round(side, 3), height), count


def _foam_piece(known: Known, what: Moment, low: str) -> Piece:
    """Return foam above the waterline at the low end, with what it takes of the tank."""
    room = known.reply("room")
    x = room.place if room and room.place else ends_at(known, low, "foam-inset")
    arm = x.minus(known.tank_place)
    foam = foam_for(what.size, Figure(abs(arm.value), arm.spread), known.water)
    sides, count = block(foam.value)
    return Piece(
        key="foam above", amount=foam, kind="volume", x=x, towards=low, block=sides, count=count,
        takes=taken_by(foam, known.water), has=spare(known), is_bound=what.at_least,
    )  # fmt: skip


def _other(end: str) -> str:
    return {"bow": "stern", "stern": "bow"}.get(end, "")


def _tank(known: Known, what: Moment, low: str) -> list[Piece]:
    taken = known.tank.by(known.filling)
    shift = tank_shift(what.size, taken, known.water)
    return [
        _foam_piece(known, what, low),
        Piece(
            key="tank shift", amount=shift, kind="length", towards=_other(low),
            is_bound=what.at_least,
        ),
    ]  # fmt: skip


def _foam(known: Known, what: Moment, low: str) -> list[Piece]:
    """Return how much foam or closed air to take out at the high end: it gives tank back."""
    high = _other(low)
    x = ends_at(known, high, "foam-inset")
    arm = x.minus(known.tank_place)
    foam = foam_for(what.size, Figure(abs(arm.value), arm.spread), known.water)
    out = Piece(
        key="foam out", amount=foam, kind="volume", x=x, towards=high, is_bound=what.at_least
    )
    return [out, _foam_piece(known, what, low)]


def _weight(known: Known, what: Moment, low: str) -> list[Piece]:
    """Return the lead to move along her, or to add with foam at the other end below the water."""
    high = _other(low)
    inset = usual_of("lead-inset") * known.length.value
    way = Figure(known.length.value - 2 * inset, usual_of("place-off"))
    pull = what.size.over(way)
    lead = pull.times(pull_of_lead(Figure(1.0, 0.0), known.water).value ** -1)
    foam = pull.times(1 / foam_lift(known.water))
    sides, count = block(foam.value)
    at_high = ends_at(known, high, "lead-inset")
    return [
        Piece(
            key="lead moved", amount=lead, kind="mass", x=at_high, towards=high, move=way,
            is_bound=what.at_least,
        ),
        Piece(
            key="lead and foam", amount=foam, kind="volume", pull=lead, x=at_high, towards=high,
            block=sides, count=count, is_bound=what.at_least,
        ),
    ]  # fmt: skip


def _air(known: Known, low: str, what: Moment | None) -> list[Piece]:
    """Return the vent to drill, and about how much air it is."""
    vent = Piece(
        key="vent", amount=Figure(usual_of("vent-least"), 0.0), kind="length", towards=_other(low)
    )
    if what is None or what.at_least:
        return [vent]
    arm = Figure(0.3 * known.length.value, 0.2 * known.length.value)
    return [
        vent,
        Piece(
            key="air",
            amount=what.size.over(arm).times(1 / known.water),
            kind="volume",
            towards=_other(low),
        ),
    ]


def _slack(known: Known) -> list[Piece]:
    """Return what keeps the tank's water from running: full at neutral, or closed bays."""
    found: list[Piece] = []
    room = spare(known)
    if room and room.value > 0:
        foam = room.times(known.water / foam_lift(known.water))
        sides, count = block(foam.value)
        found.append(
            Piece(
                key="foam over tank",
                amount=foam,
                kind="volume",
                x=known.tank_place,
                block=sides,
                count=count,
            )
        )
    inside = known.reply("slack")
    if inside and inside.size and inside.way:
        loss = slack_loss(inside.size, inside.way, known.dived, known.water)
        bays = bays_for(loss.value, known.bg_or_guess.value, usual_of("bay-share"))
        found.append(Piece(key="slack", amount=loss, kind="length"))
        each = inside.size.times(1 / bays)
        found.append(Piece(key="bays", amount=each, kind="length", count=bays))
    return found


def _litres(known: Known, cause: str) -> list[Piece]:
    """Return what a tank too small or too large asks for."""
    room = spare(known)
    if room is None:
        return []
    if cause == "tank small":
        return [Piece(key="foam out anywhere", amount=room.times(-1.0), kind="volume")]
    keep = known.tank.times(usual_of("spare-share"))
    foam = room.minus(keep).times(known.water / foam_lift(known.water))
    stop = Piece(key="stop", amount=known.filling, kind="percent")
    if foam.value <= 0:
        return [stop]
    sides, count = block(foam.value)
    over = Piece(
        key="foam over tank", amount=foam, kind="volume", x=known.tank_place, block=sides,
        count=count, takes=taken_by(foam, known.water), has=room,
    )  # fmt: skip
    return [stop, over]


def _across(known: Known, cause: str) -> list[Piece]:
    """Return what moves or lies across her to put a lean right."""
    heels = known.reply("heels") or known.reply("heel")
    if heels is None or heels.size is None:
        return []
    side = known.option("heel") or known.option("list")
    other = "port" if side == "starboard" else "starboard"
    turn = moment_at(heels.size, known.dived, known.bg_or_guess)
    entered_breadth = known.reply("breadth")
    guess = usual_of("breadth-share") * known.length.value
    breadth = Figure(guess, usual_of("breadth-off") * guess)
    if entered_breadth and entered_breadth.size:
        breadth = entered_breadth.size
    arm = breadth.times(0.4)  # inside the skin: common practice, no source
    if cause == "side foam":
        foam = turn.over(arm).times(1 / foam_lift(known.water))
        sides, count = block(foam.value)
        return [
            Piece(
                key="foam to side",
                amount=foam,
                kind="volume",
                towards=side,
                block=sides,
                count=count,
                takes=taken_by(foam, known.water),
                has=spare(known),
                move=arm,
            )
        ]
    way = arm.times(2.0)
    pull = turn.over(way)
    lead = pull.times(1 / pull_of_lead(Figure(1.0, 0.0), known.water).value)
    return [Piece(key="lead across", amount=lead, kind="mass", towards=other, move=way)]


def _crossing(known: Known, cause: str) -> list[Piece]:
    """Return the foam to move across the waterline."""
    rides = known.reply("rides") or known.reply("ride")
    if rides is None or rides.size is None:
        return []
    guess = usual_of("waterplane") * known.length.value
    area = Figure(guess, usual_of("waterplane-off") * guess)
    foam = rides.size.by(area)
    sides, count = block(foam.value)
    key = "foam down" if cause == "low" else "foam up"
    return [Piece(key=key, amount=foam, kind="volume", block=sides, count=count)]


def pieces(known: Known, cause: str) -> tuple[Piece, ...]:
    """Return what to cut, move or open for a cause; none where a figure is lacking.

    Raises:
        DisagreementError: Two figures cannot both be right.
    """
    what, low = moment_of(known), known.low_end
    if cause in ("tank", "foam", "weight"):
        if what is None or not low:
            return ()
        make = {"tank": _tank, "foam": _foam, "weight": _weight}[cause]
        return tuple(make(known, what, low))
    if cause == "air":
        return tuple(_air(known, low, what))
    if cause == "slack":
        return tuple(_slack(known))
    if cause in ("tank small", "tank large"):
        return tuple(_litres(known, cause))
    if cause in ("side weight", "side foam"):
        return tuple(_across(known, cause))
    return tuple(_crossing(known, cause)) if cause in ("low", "high") else ()
