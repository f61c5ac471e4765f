"""One step of the talk at the tub: what is known, what is open, what to ask next, what to cut.

First the causes are parted; then the figures are asked for that the piece needs, the one that
leaves most open first. Every figure may be passed over; the piece then says how sure it is.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from trimdive.estimates.wethands.cures import Piece, pieces
from trimdive.estimates.wethands.engine import Cause, Open, opened
from trimdive.estimates.wethands.figure import Figure, usual_of
from trimdive.estimates.wethands.known import Known
from trimdive.estimates.wethands.moments import Moment, left_over, moment_of
from trimdive.estimates.wethands.questions import BY_KEY, Question

TURNED = ("weight", "tank", "foam")  # causes that end in a moment lengthways
OTHER = 0.15  # a second cause as likely as this is told with its piece [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Remedy:
    """A cause and what mends it."""

    cause: Cause
    pieces: tuple[Piece, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """Where she stands."""

    known: Known
    open: Open
    next: Question | None  # None: nothing more to ask
    moment: Moment | None  # what tips her dived, where that is told
    remedies: tuple[Remedy, ...]  # none while the causes are still being parted
    left: Figure | None  # angle that she may still hang at once the piece is in [rad]

    @property
    def in_order(self) -> bool:
        """Return whether there is nothing to mend."""
        return self.open.next is None and self.open.likeliest.key == "in order"

    @property
    def is_parted(self) -> bool:
        """Return whether no further test parts the causes."""
        return self.open.next is None


def step(known: Known) -> Step:
    """Return where she stands with all that is known.

    Raises:
        DisagreementError: Two answers disagree.
    """
    found = opened(known)
    moment = moment_of(known)
    if found.next is not None:
        return Step(known=known, open=found, next=found.next, moment=moment, remedies=(), left=None)
    main = found.likeliest.key
    asked = next(_figures(known, main, moment), None)
    causes = [c for k, c in enumerate(found.causes) if k == 0 or c.weight >= OTHER]
    remedies = tuple(Remedy(cause=c, pieces=pieces(known, c.key)) for c in causes)
    left = left_over(known, moment) if moment and not moment.at_least else None
    return Step(
        known=known, open=found, next=asked, moment=moment, remedies=remedies,
        left=left if main in TURNED else None,
    )  # fmt: skip


def _figures(known: Known, cause: str, moment: Moment | None) -> Iterator[Question]:
    """Yield the figures that the piece for a cause still lacks, the most telling first."""
    for key in _keys(known, cause, moment):
        if not known.was_asked(key):
            yield BY_KEY[key]


def _keys(known: Known, cause: str, moment: Moment | None) -> Iterator[str]:
    if cause in TURNED and known.low_end:
        yield from _of_moment(known, cause, moment)
    elif cause == "slack":
        yield from () if _has_spare(known) else ("spare",)
        yield "slack"
    elif cause in ("tank small", "tank large") and not _has_spare(known):
        yield "spare"
    elif cause in ("side weight", "side foam"):
        heel = known.reply("heel")
        yield from () if heel and heel.size else ("heels",)
        yield "breadth"
    elif cause in ("low", "high"):
        ride = known.reply("ride")
        yield from () if ride and ride.size else ("rides",)


def _has_spare(known: Known) -> bool:
    """Return whether the room beyond neutral was told as a figure."""
    found = known.reply("filling")
    return bool(found and found.size)


def _of_moment(known: Known, cause: str, moment: Moment | None) -> Iterator[str]:
    stands = known.option("angle").endswith("bottom")
    if moment is None and not stands:
        yield "degrees"
    is_vague = moment is None or moment.at_least or moment.size.share > usual_of("weighty")
    if is_vague:
        yield "balance"
    if moment is None and stands:
        yield "depth"
    if moment and is_vague and not moment.at_least and known.bg_entered is None:
        yield "shift"
    if cause != "weight" or known.reply("balance"):
        yield "place"
    if cause != "weight":
        yield from () if _has_spare(known) else ("spare",)
        yield "room"
