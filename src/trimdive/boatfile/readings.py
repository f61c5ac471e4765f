"""What cannot be right in masses that are told by readings: ends in turn, offcuts, coats."""

from collections.abc import Iterator

from trimdive.boatfile.messages import Mistake
from trimdive.boatfile.piece import Weighed
from trimdive.boatfile.pieces import Coat
from trimdive.boatfile.places import Path

Mistakes = Iterator[Mistake]


def reading_mistakes(path: Path, piece: Weighed) -> Mistakes:
    """Yield masses told twice, and readings that cannot be."""
    if piece.mass is not None and piece.by_ends is not None:
        what, beside = "mass and by_ends both say it", "Its mass is entered too. Keep one of them."
        yield Mistake((*path, "by_ends"), what, "Keep one of them.", beside=beside)
    if piece.by_ends is not None and piece.by_ends.x_aft == piece.by_ends.x_fore:
        what = "both ends hung at the same place"
        yield Mistake((*path, "by_ends"), what, "Measure where the hooks were.")
    if piece.offcut is not None and piece.offcut.water >= piece.offcut.air:
        what = "the offcut weighs as much under water as in air, or more"
        yield Mistake((*path, "offcut"), what, "Weigh both again.")
    if isinstance(piece, Coat):
        yield from _coat(path, piece)


def _coat(path: Path, coat: Coat) -> Mistakes:
    """Yield coats whose mass is told by half, or twice."""
    if (coat.before is None) != (coat.after is None):
        what = "before and after belong together"
        lacks = ("before",) if coat.before is None else ("after",)
        beside = "Before and after belong together. Enter both, or the mass."
        yield Mistake(path, what, "Write both, or the mass.", fields=lacks, beside=beside)
    ways = [coat.mass is not None, coat.per_area is not None, coat.after is not None]
    if sum(ways) > 1:
        what = "its mass is entered twice"
        mend = "Keep one of: mass, per_area, before and after."
        beside = (
            "Its mass is entered twice. Keep the mass, the mass for each area, or before and after."
        )
        yield Mistake(path, what, mend, fields=("mass",), beside=beside)
    if coat.before is not None and coat.after is not None and coat.after <= coat.before:
        what = "it weighs no more after than before"
        yield Mistake((*path, "after"), what, "Weigh it again, dry both times.")
