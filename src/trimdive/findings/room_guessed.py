"""Guessed lead and foam that share room with one thing: one fault, and one mend for all of them.

Such pieces were worked out for a boat of other sizes. No piece by itself is worth a decision of the
builder's: lead is laid into the cylinder just there, or cut around what it lies in, and foam is
cut; what neither clears is removed.
"""

from collections.abc import Iterator, Sequence

from trimdive.boatfile import Part
from trimdive.fact import fact
from trimdive.findings.assessed import Assessed
from trimdive.findings.finding import Edit, Remedy
from trimdive.findings.room_ways import cut_ways, fields_of, piece_of
from trimdive.findings.ways import Scales, Way, scales
from trimdive.geometry.clashes.moves import into_bore

SNUG = 0.002  # lead laid into a cylinder moves so far along her at the most [m]
MANY = 3  # so many pieces are told as one [-]
GUESSES = ("guess", "worked out")


def guessed(her: Assessed, path: str) -> bool:
    """Return whether a thing is lead or foam that nobody has weighed or measured."""
    if path.partition("[")[0] not in ("lead", "foam"):
        return False
    return piece_of(her, path).known in GUESSES


def around(her: Assessed, paths: Sequence[str], other: str) -> Remedy:
    """Return what clears guessed pieces of what they share room with, all at once.

    Args:
        her: The boat.
        paths: Of the pieces.
        other: The name of what they lie in.
    """
    on = scales(her)
    choices = [_choices(her, path, other) for path in paths]
    chosen = _chosen(on, choices)
    kinds = [way.says.kind for way in chosen]
    says = fact(
        "clear-guessed",
        other=other,
        cut=kinds.count("cut-piece"),
        out=kinds.count("take-piece-out"),
        inside=kinds.count("lies-inside"),
    )
    return says, tuple(_all(chosen))


def _chosen(on: Scales, choices: Sequence[Sequence[Way]]) -> list[Way]:
    """Return one way for each piece: what keeps most of it, and no lead that she is too heavy for.

    A piece goes altogether where that brings her weight nearer to her waterline: lead only where
    she is too heavy, foam only where she is too light.
    """
    chosen = [some[0] for some in choices]
    for k, some in enumerate(choices):
        is_lead = some[-1].edits[0].path.startswith("lead")
        now = on.heavy(_all(chosen))
        gone = on.heavy(_all([*chosen[:k], some[-1], *chosen[k + 1 :]]))
        if (now > 0) == is_lead and abs(gone) < abs(now):
            chosen[k] = some[-1]
    return chosen


def _all(ways: Sequence[Way]) -> list[Edit]:
    return [edit for way in ways for edit in way.edits]


def _choices(her: Assessed, path: str, other: str) -> list[Way]:
    """Return what may become of one piece: laid into the cylinder just there, cut, removed."""
    out = Edit(action="remove", path=path, fields=())
    piece = piece_of(her, path)
    found = [*_inside(her, piece, path, other), *cut_ways(her, path)]
    return [*found, Way(says=fact("take-piece-out", name=piece.name), edits=(out,))]


def _inside(her: Assessed, piece: Part, path: str, other: str) -> Iterator[Way]:
    """Yield that lead goes inside the cylinder that it lies in, no farther along her than SNUG."""
    if piece.kind != "lead" or other not in {bore.name for bore in her.scene.aboard.bores}:
        return
    move = into_bore(her.scene, path, other)
    if move and abs(move.shift[0]) <= SNUG:
        fields = (("inside", other), *fields_of(piece, move))
        says = fact("lies-inside", name=piece.name, cylinder=other)
        yield Way(says=says, edits=(Edit(action="set", path=path, fields=fields),))
