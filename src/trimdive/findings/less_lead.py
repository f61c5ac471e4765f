"""Which lead a boat that is too heavy is rid of: about a place, so that she stays as level."""

from collections.abc import Sequence
from dataclasses import dataclass

from trimdive.boatfile import Part
from trimdive.findings.assessed import Assessed
from trimdive.findings.finding import Edit
from trimdive.findings.new_lead import LEAD

STUMP = 0.03  # a piece of which less than this share is left goes whole [-]
NEAR = 0.02  # of her length: so near the place it lies in all [-]
NOTHING = 1e-4  # less than this is not taken [kg]
SCALED = ("mass", "volume", "hung", "length")  # what goes with a piece that is cut shorter


@dataclass(slots=True)
class Piece:
    """A piece of lead, and what of it may still be taken."""

    number: int  # from 1
    x: float  # [m]
    whole: float  # it weighs under water, both of a pair [kg]
    left: float  # of that [kg]


@dataclass(frozen=True, slots=True, kw_only=True)
class LessLead:
    """Lead that is taken out."""

    taken: tuple[tuple[str, float], ...]  # name of each piece, and how much of its mass [kg]
    edits: tuple[Edit, ...]

    @property
    def mass(self) -> float:
        """Return how much lead it is in all [kg]."""
        return sum(mass for _, mass in self.taken)


def less_lead(her: Assessed, heavy: float, x: float) -> LessLead | None:
    """Return lead that weighs so much under water, taken about a place; None: there is not so much.

    Args:
        her: The boat.
        heavy: What she is to be rid of, as it weighs under water [kg].
        x: The place along her about which it is to be taken [m].
    """
    pieces = [_piece(her, number, lead) for number, lead in enumerate(her.boat.lead, 1)]
    moment, wanted = heavy * x, heavy * x
    while heavy > NOTHING:
        sides = _nearest(pieces, moment / heavy)
        if not sides:
            return None
        for piece, share in _shared(sides, heavy, moment / heavy):
            piece.left -= share
            heavy, moment = heavy - share, moment - share * piece.x
    found = [one for one in pieces if one.left < one.whole - NOTHING]
    got = [(one.whole - one.left, one.x) for one in found]
    if abs(sum(m * at for m, at in got) - wanted) > NEAR * her.floater.length * sum(
        m for m, _ in got
    ):
        return None
    return LessLead(
        taken=tuple(_taken(her, one) for one in found),
        edits=tuple(_edit(her, one) for one in found),
    )


def _piece(her: Assessed, number: int, lead: Part) -> Piece:
    under = 1.0 if lead.inside else 1.0 - her.floater.density / LEAD
    weight = (lead.mass or 0.0) * under * (2 if lead.pair == "each" else 1)
    return Piece(number=number, x=lead.x, whole=weight, left=weight)


def _nearest(pieces: Sequence[Piece], x: float) -> list[Piece]:
    """Return the piece next aft of a place and that next forward, of which some is left."""
    some = [one for one in pieces if one.left > NOTHING]
    aft = max((one for one in some if one.x <= x), key=lambda one: one.x, default=None)
    fore = min((one for one in some if one.x > x), key=lambda one: one.x, default=None)
    return [one for one in (aft, fore) if one]


def _shared(sides: list[Piece], heavy: float, x: float) -> list[tuple[Piece, float]]:
    """Return how much of one or two pieces is taken, by the lever, as far as it goes [kg]."""
    if len(sides) == 1:
        return [(sides[0], min(heavy, sides[0].left))]
    aft, fore = sides
    of_aft = heavy * (fore.x - x) / (fore.x - aft.x)
    shares = [(aft, of_aft), (fore, heavy - of_aft)]
    far = min([1.0, *(one.left / share for one, share in shares if share > 0)])
    return [(one, share * far) for one, share in shares]


def _taken(her: Assessed, one: Piece) -> tuple[str, float]:
    lead = her.boat.lead[one.number - 1]
    share = 1.0 if one.left < STUMP * one.whole else 1.0 - one.left / one.whole
    return lead.name, share * (lead.mass or 0.0) * (2 if lead.pair == "each" else 1)


def _edit(her: Assessed, one: Piece) -> Edit:
    path, lead = f"lead[{one.number}]", her.boat.lead[one.number - 1]
    if one.left < STUMP * one.whole:
        return Edit(action="remove", path=path, fields=())
    share = one.left / one.whole
    fields = [(f, value * share) for f in SCALED if (value := getattr(lead, f)) is not None]
    return Edit(action="set", path=path, fields=(*fields, ("known", "worked out")))
