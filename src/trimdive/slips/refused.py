"""The slipped figure behind a boat file that is refused, where there is one."""

from collections.abc import Callable
from math import inf, isclose, log
from pathlib import Path

from trimdive.boatfile import Boat
from trimdive.boatfile.loading import contents_of, mistaken, unfenced
from trimdive.boatfile.places import line_of, path_of
from trimdive.errors import BoatFileError, TrimdiveError
from trimdive.findings import Edit, Facts, apply, limit_of
from trimdive.slips.asked import slip_finding
from trimdive.slips.candidates import KINDS, Candidate, candidates, things
from trimdive.slips.choose import FAILED, Tried
from trimdive.slips.factors import INCH
from trimdive.slips.search import Suspect, suspects
from trimdive.units.bounds import most

# A boat that is refused may lack what any other has, as a file beside her.
UNTOLD = (*FAILED, LookupError, TypeError, OverflowError)
MOST_PIECES = 300  # of a boat of which a slip is looked for; of more it would take too long [-]
TOO_FAR = 1.5  # a figure so many times as long as she is cannot be [-]
TRIED = 12  # slips of which the likeliest that can be accepted is asked [-]


def explained(
    error: TrimdiveError, text: str, name: str, made: Callable[[Boat], Tried]
) -> TrimdiveError:
    """Return what is said of a boat file that is refused: first the figure that slipped.

    Where no single figure explains it, that is what it was refused for.

    Args:
        error: What it was refused for.
        text: Of the boat file.
        name: What to call the file.
        made: Returns an assessment of a boat.
    """
    try:
        boat = unfenced(text, name)
    except UNTOLD:
        return error
    if len(boat.pieces) > MOST_PIECES:
        return error
    try:
        found = _likeliest(_facts(boat, made), boat)
    except UNTOLD:
        found = _too_far(boat)
    if found is None:
        return error
    told = slip_finding(boat, found.slip, found.gain)
    line = line_of(text, path_of(told.subject))
    where = f"{name}:{line}: {told.subject}" if line else f"{name}: {told.subject}"
    first = BoatFileError(told.what.rstrip("?") + "? As it stands it cannot be", where, told.mend)
    first.others, first.left = (error, *error.others), error.left
    return first


def explained_in(error: TrimdiveError, file: Path, made: Callable[..., Tried]) -> TrimdiveError:
    """Return what is said of a boat file on disk that is refused.

    Args:
        error: What it was refused for.
        file: The boat file.
        made: Returns an assessment of a boat and of the files beside her.
    """
    try:
        text = contents_of(file).decode()
        beside = {one.name: one.read_bytes() for one in file.parent.iterdir() if one.is_file()}
    except (BoatFileError, OSError, ValueError):
        return error
    return explained(error, text, file.name, lambda boat: made(boat=boat, files=beside))


def _facts(boat: Boat, made: Callable[[Boat], Tried]) -> Facts:
    """Return the facts of a boat as typed; without her tanks where they leave none."""
    try:
        return made(boat).facts
    except UNTOLD:
        return made(boat.model_copy(update={"tanks": ()})).facts


def _likeliest(facts: Facts, boat: Boat) -> Suspect | None:
    """Return the likeliest slip with which the boat file would be taken."""
    least = log(max(limit_of("slip", facts.boat).value, 1.0))
    for one in suspects(facts, TRIED):
        if one.gain < least:
            break
        if _is_plain(one.slip) and _is_taken(boat, one.slip.edits):
            return one
    return None


def _too_far(boat: Boat) -> Suspect | None:
    """Return the slip of a figure far longer than she is, where she cannot be calculated with it.

    With it put right her file is taken; of several ways the plainest is asked.
    """
    found = [
        Suspect(slip=slip, gain=log(abs(slip.was) / (boat.length or inf)) - slip.rare)
        for path, piece in things(boat)
        for slip in candidates(boat, path, piece)
        if slip.kind == "length" and abs(slip.was) > TOO_FAR * (boat.length or inf)
        if len(slip.changes) == 1 and _is_plain(slip) and _is_taken(boat, slip.edits)
    ]
    return max(found, key=lambda one: one.gain, default=None)


def _is_plain(slip: Candidate) -> bool:
    """Return whether a figure divided by an inch is plainer so than it was.

    Where she cannot be as written, any smaller figure would do: 500 mm is no 19.7 mm in inches,
    711.2 mm is 28 mm.
    """
    is_inch = isclose(slip.was, slip.would * INCH, rel_tol=1e-9)
    return not is_inch or _digits(slip.would) < _digits(slip.was)


def _digits(metres: float) -> int:
    """Return with how many figures a length is written in millimetres, to a hundredth.

    >>> _digits(0.5), _digits(0.7112), _digits(0.028)
    (1, 4, 2)
    """
    return len(f"{metres * 1e5:.0f}".strip("0-"))


def _is_taken(boat: Boat, edits: tuple[Edit, ...]) -> bool:
    """Return whether a boat with changes made has nothing in it that cannot be right."""
    after, _ = apply(boat, {}, edits)
    for edit in edits:
        for field, value in edit.fields:
            kind = KINDS.get(field, "length")
            if isinstance(value, float) and abs(value) > most(kind):
                return False
    return not mistaken(after) and not _too_much(after)


def _too_much(boat: Boat) -> bool:
    """Return whether any figure aboard is more than a model boat can have."""
    free = [tank for tank in boat.tanks if tank.inside is None]  # others lie where theirs does
    aboard = (*boat.regions, *boat.cylinders, *free, *boat.pieces)
    return any(
        abs(value) > most(KINDS.get(field, "length"))
        for piece in aboard
        for field in (*KINDS, "x", "y", "z", "length", "breadth", "height", "outside", "diameter")
        if isinstance(value := getattr(piece, field, None), float)
    )
