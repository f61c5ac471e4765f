"""The slipped figure behind a boat file that is refused, where there is one."""

import re
from collections.abc import Callable, Iterable, Sequence
from contextlib import suppress
from math import inf, isclose, log
from pathlib import Path

from trimdive.boatfile import Boat, parse, set_value
from trimdive.boatfile.loading import contents_of, unfenced
from trimdive.boatfile.places import line_of, path_of
from trimdive.errors import BoatFileError, TrimdiveError
from trimdive.findings import Assessed, limit_of
from trimdive.findings.slips.asked import in_words, ways_of
from trimdive.findings.slips.candidates import (
    ALONG,
    Candidate,
    candidates,
    fields_of,
    of_figure,
    things,
)
from trimdive.findings.slips.choose import FAILED, NEAR, Tried, is_of_one_figure
from trimdive.findings.slips.factors import INCH
from trimdive.findings.slips.search import Suspect, suspects, unlikely

# A boat that is refused may lack what any other has, as a file beside her.
UNTRIED = (*FAILED, LookupError, TypeError, OverflowError)
MOST_PIECES = 300  # of a boat of which a slip is looked for; of more it would take too long [-]
TOO_FAR = 1.5  # a figure so many times as long as she is cannot be [-]
NAMED = re.compile(r"([a-z]+\[\d+\]|waterline)(?:\S*\.(\w+))?")  # a thing, and which figure
TRIED = 12  # slips of which the likeliest that can be accepted are let go [-]
MOST_TAKEN = 10  # slips with which a file is taken are let go, the commonest first [-]
WEIGHED = 5  # of those, so many at the most [-]
SI = {"length": "m", "mass": "kg", "volume": "m3", "density": "kg/m3"}
Taken = tuple[Candidate, Boat]  # a slip, and the boat in the file with it put right


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
    except UNTRIED:
        return error
    if len(boat.pieces) > MOST_PIECES:
        return error
    likely = _likeliest(text, boat, made) or _of_what_is_named(text, error, boat)
    found = _let_go(boat, likely, made)
    if not found:
        return error
    first, *more = found
    near = [one for one in more if one.gain > first.gain - NEAR]
    others = [one.slip for one in near if is_of_one_figure(one, first)]
    subject = f"{first.slip.path}.{first.slip.field}"
    line = line_of(text, path_of(subject))
    where = f"{name}:{line}: {subject}" if line else f"{name}: {subject}"
    refused = _refusal(boat, first.slip, others, where)
    refused.others, refused.left = (error, *error.others), error.left
    return refused


def _refusal(boat: Boat, slip: Candidate, others: Sequence[Candidate], where: str) -> BoatFileError:
    """Return the error of a figure that slipped, shortly; a finding tells how it may have.

    Args:
        boat: The boat.
        slip: The figure, and what it may have been meant to be.
        others: What else the same figure may have been meant to be.
        where: It stands, by file, line and field.
    """
    would = ", or ".join(text for text, _, _ in ways_of(boat, slip, others))
    field = slip.field.replace("_", " ")
    what = f"{slip.name}, {field} {in_words(boat, slip)[0]}: {would}? As it stands it cannot be"
    return BoatFileError(what, where, f"Write {would}, if that is what was measured.")


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


def _worked_out(her: Tried) -> Assessed:
    """Return a boat, all that checks look at worked out."""
    for answer in ("scene", "need", "surfaced", "dived", "bg", "down", "plain"):
        getattr(her, answer)
    return her


def _as_typed(boat: Boat, made: Callable[[Boat], Tried]) -> Assessed:
    """Return a boat as typed, worked out; without her tanks where they leave nothing of that."""
    try:
        return _worked_out(made(boat))
    except UNTRIED:
        return _worked_out(made(boat.model_copy(update={"tanks": ()})))


def _likeliest(text: str, boat: Boat, made: Callable[[Boat], Tried]) -> list[Taken]:
    """Return the likeliest slips with which the boat file would be taken, as the sums have it."""
    least = log(max(limit_of("slip", boat).value, 1.0))
    try:
        likely = [one.slip for one in suspects(_as_typed(boat, made), TRIED) if one.gain >= least]
    except UNTRIED:
        return []
    return _taken(text, boat, likely)[:WEIGHED]


def _of_what_is_named(text: str, error: TrimdiveError, boat: Boat) -> list[Taken]:
    """Return the slips of things far out, or named in a mistake, with which the file is taken."""
    matches = [NAMED.search(one.where) for one in (error, *error.others)]
    named = {(found[1], found[2]) for found in matches if found}
    paths, aboard = {path for path, _ in named}, dict(things(boat))
    wheres = {one.where for one in (error, *error.others)}  # the hull names its regions
    paths |= {path for path, piece in aboard.items() if getattr(piece, "name", None) in wheres}
    homes = {getattr(aboard.get(path), "inside", None) for path in paths}
    paths |= {f"cylinder[{i}]" for i, one in enumerate(boat.cylinders, 1) if one.name in homes}
    far = TOO_FAR * (boat.length or inf)
    slips = [
        slip
        for path, piece in aboard.items()
        for slip in candidates(boat, path, piece)
        if path in paths or (slip.kind == "length" and abs(slip.was) > far)
    ]
    for path, field in named:
        if path in aboard and field not in fields_of(aboard[path]):
            slips += of_figure(boat, path, aboard[path], field or "")
    return _taken(text, boat, sorted(slips, key=lambda one: one.rare))


def _taken(text: str, boat: Boat, slips: Iterable[Candidate]) -> list[Taken]:
    """Return the first slips with which a boat file is taken, and the boat in it."""
    found: list[Taken] = []
    for slip in slips:
        if len(found) == MOST_TAKEN:
            break
        if _is_plain(slip) and not slip.is_nothing:
            with suppress(*UNTRIED):
                found.append((slip, parse(_retyped(text, boat, slip))))
    return found


def _retyped(text: str, boat: Boat, slip: Candidate) -> str:
    """Return the text of a boat file with a figure put right."""
    for field, value in slip.changes:
        there = boat.along(value) if field in ALONG else value
        text = set_value(text, f"{slip.path}.{field}", f"{there:.12g} {SI[slip.kind]}")
    return text


def _let_go(boat: Boat, taken: Iterable[Taken], made: Callable[[Boat], Tried]) -> list[Suspect]:
    """Return slips, likeliest first: she is let go with each put right.

    The nearer she lies to balance, and the less odd the figure is by itself, the likelier it is.
    """
    was, found = dict(things(boat)), list[Suspect]()
    for slip, after in taken:
        with suppress(*UNTRIED):
            odd = unlikely(_worked_out(made(after)), slip.path, was[slip.path])
            found.append(Suspect(slip=slip, gain=-odd - slip.rare))
    return sorted(found, key=lambda one: -one.gain)


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
