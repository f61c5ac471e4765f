"""What tips her dived, from whatever was told of it.

Two ways lead there: the angle with mass and BG, and small weights that hang her level, which need
neither. Together they tell BG. An end on the bottom only bounds the angle.

Source: the laws of ``physics``.
"""

from dataclasses import dataclass

from trimdive.errors import DisagreementError
from trimdive.estimates.wethands.figure import Figure, apart, arc, mean_of, tangent
from trimdive.estimates.wethands.known import Known
from trimdive.estimates.wethands.physics import hung_angle, least_angle, moment_at, pull_of_lead

BOTH = 2.0  # two ways to one moment this many times their common ± apart disagree [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Moment:
    """What tips her dived."""

    size: Figure  # without sign [kg m]
    at_least: bool  # a bound only
    bg: Figure | None  # what angle and small weights together say of BG [m]
    by_angle: bool  # whether it comes from an angle, and so from BG


def moment_of(known: Known) -> Moment | None:
    """Return the moment that tips her dived, from whatever was told of it; None without any.

    Raises:
        DisagreementError: Angle and small weights cannot both be right.
    """
    if wrong_side(known):
        raise _disagreeing(known, "angle")
    angle, at_least = angle_of(known)
    laid = balance_of(known)
    by_angle = moment_at(angle, known.dived, known.bg_or_guess) if angle else None
    if laid is None:
        if by_angle is None:
            return None
        return Moment(size=by_angle, at_least=at_least, bg=None, by_angle=True)
    bg = None
    if angle and not at_least and angle.value > 0:
        bg = laid.over(moment_at(angle, known.dived, Figure(1.0, 0.0)))
    if by_angle and not at_least:
        if apart(by_angle, laid) > BOTH:
            raise _disagreeing(known, _angle_key(known))
        return Moment(size=mean_of(by_angle, laid), at_least=False, bg=bg, by_angle=False)
    if by_angle and at_least and laid.value < by_angle.value and apart(by_angle, laid) > BOTH:
        raise _disagreeing(known, "depth" if known.reply("depth") else "angle")
    return Moment(size=laid, at_least=False, bg=bg, by_angle=False)


def _angle_key(known: Known) -> str:
    return "degrees" if known.reply("degrees") else "angle"


def _disagreeing(known: Known, key: str) -> DisagreementError:
    """Return the error for an answer that the small weights deny."""
    one, other = known.reply(key), known.reply("balance")
    assert one is not None
    assert other is not None
    return DisagreementError(one, other)


def left_over(known: Known, what: Moment) -> Figure:
    """Return the angle at which she may still hang once the piece is in, as nought ± so much [rad].

    As surely as the moment is known, so surely it is taken up; by the angle, an error of BG is one
    of the piece in the same share.

    Args:
        known: All that is told of her.
        what: What tips her.
    """
    bg = what.bg or known.bg_or_guess
    angle = hung_angle(Figure(what.size.value, 0.0), known.dived, Figure(bg.value, 0.0))
    slope = tangent(Figure(angle.value, 0.0)).value * what.size.share
    return arc(Figure(0.0, slope))


def angle_of(known: Known) -> tuple[Figure | None, bool]:
    """Return the angle at which she hangs by one end [rad], and whether it is a bound only."""
    for key in ("degrees", "angle"):
        found = known.reply(key)
        if found and found.size and not found.option.endswith("bottom"):
            return found.size, False
    stands = known.option("angle").endswith("bottom")
    depth = known.reply("depth")
    if stands and depth and depth.size:
        least = least_angle(depth.size.value, known.length.value)
        return Figure(least, depth.size.spread / known.length.value), True
    angle = known.reply("angle")
    if stands and angle and angle.size:
        return angle.size, True
    return None, False


def balance_of(known: Known) -> Figure | None:
    """Return the moment that small weights or a spring scale took up when she hung level [kg m].

    Weights that lie on deck push little water aside as lead; what they pull is made up by letting
    tank water out, so that the arm is that from the middle of the tank.
    """
    found = known.reply("balance")
    if found is None or found.size is None or found.place is None:
        return None
    weight = pull_of_lead(found.size, known.water) if found.option == "laid" else found.size
    arm = found.place.minus(known.tank_place)
    return weight.by(Figure(abs(arm.value), arm.spread))


def wrong_side(known: Known) -> bool:
    """Return whether small weights are told at the end that is low already, or a pull at the other.

    Either would tip her farther.
    """
    found = known.reply("balance")
    if found is None or found.place is None or not known.low_end:
        return False
    at_bow = found.place.value > known.tank_place.value
    return (at_bow == (known.low_end == "bow")) == (found.option == "laid")


def spare(known: Known) -> Figure | None:
    """Return the room that the tank has beyond neutral [m³]; None where nobody told."""
    if known.reply("filling") is None:
        return None
    return known.tank.by(Figure(1.0, 0.0).minus(known.filling))
