"""Which of the likeliest slips is asked: the full solver lets each go, and has the last word."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import exp, log
from typing import Protocol

from trimdive.boatfile import Boat
from trimdive.boatfile.ref import ref
from trimdive.errors import TrimdiveError
from trimdive.findings import IMPOSSIBLE, Assessed, Edit, Finding, burden, clearing, limit_of
from trimdive.findings.slips.asked import slip_finding
from trimdive.findings.slips.candidates import SIZES, Candidate
from trimdive.findings.slips.clears import sharing
from trimdive.findings.slips.guessed import rests_on_guesses
from trimdive.findings.slips.search import Suspect, suspects
from trimdive.geometry.solids.build import numbered

LEAST = 1.0  # logarithm of how much likelier the sums must find her, to be tried [-]
LEFT = 2.0  # so much less likely is what leaves something that cannot be, as a logarithm [-]
MOST_WON = 1.0  # what vanishes counts in full up to this, as a logarithm, and then as a share [-]
WON_BEYOND = 0.15  # of what vanishes beyond that, what counts [-]
SLIGHT = 0.2  # what is new counts in full from this share beyond its limit on [-]
NEAR = 1.0  # a slip less likely by no more than this is asked beside the likeliest [-]
# With other faults aboard the sums choose badly between two figures for one: both are asked.
NEAR_WITH_OTHERS = 4.0
CLASHING = log(8.0)  # so much likelier still, where things in one room are the fault told [-]
MOST = 4  # slips that the full solver lets go [-]
SHARED = {"room-tanks", "room-inside", "room-wet"}  # checks of things in one place
TOO_LARGE = {"room-bore", "size-most", "outside-slack", "place-far"}  # of things that do not fit
REPAIRED = ("mesh-trouble", "mesh-overlap")  # checks of meshes that repairs mend
FAILED = (TrimdiveError, ArithmeticError, ValueError, LookupError)  # of a trial without answer


@dataclass(frozen=True, slots=True, kw_only=True)
class _LetGo:
    """A slip that the full solver has let go."""

    gain: float  # logarithm of how much likelier she is with it put right [-]
    suspect: Suspect
    left: float  # burden of what is found then [-]
    least: float  # that its figure must gain to be asked [-]


class Tried(Assessed, Protocol):
    """A boat that can be looked at, and changed for a trial."""

    @property
    def checked(self) -> tuple[Finding, ...]:
        """What the checks find."""
        ...

    def edited(self, edits: tuple[Edit, ...]) -> "Tried":
        """Return her with these changes made."""
        ...


def attempted(her: Tried) -> tuple[Finding, ...] | None:
    """Return what the checks find in a boat changed for a trial; None where that cannot be told."""
    try:
        return her.checked
    except FAILED:
        return None


def slipped(her: Tried) -> tuple[Finding, ...]:
    """Return the finding that one figure slipped, where that explains most of what is found.

    Where a whole table is of another size, no single figure is asked before that is put right.
    """
    if any(one.key == "full-size" and one.edits for one in her.checked):
        return ()
    certain = log(max(limit_of("slip", her.boat).value, 1.0))
    found: list[_LetGo] = []
    besides, plain = _put_right(her)
    bases = {(): her, besides: plain}
    clashing, is_guessed = sharing(her), rests_on_guesses(her)
    try:
        chosen = likely(her, plain, besides)
    except FAILED:  # a search without answer leaves out that answer alone
        return ()
    for suspect, edits in chosen:
        before = bases[edits].checked
        others = any(one.key in SHARED for one in before) and suspect.slip.path not in clashing
        least = certain + (CLASHING if others else 0.0)
        if _makes_away(suspect.slip, before):
            continue
        try:
            after = her.edited((*edits, *suspect.slip.edits)).checked
        except FAILED:
            continue
        says = verdict(before, after)
        gain = suspect.gain + (min(says, 0.0) if is_guessed else says)
        found.append(_LetGo(gain=gain, suspect=suspect, left=burden(after), least=least))
    certain = [one for one in found if _figure_gain(one, found) >= one.least]
    return (_finding(her, found, certain),) if certain else ()


def _figure_gain(one: _LetGo, found: Sequence[_LetGo]) -> float:
    """Return how much likelier she is with a figure put right, whatever it was meant to be [-]."""
    same = [other.gain for other in found if is_of_one_figure(other.suspect, one.suspect)]
    return log(sum(exp(gain) for gain in same))


def _put_right(her: Tried) -> tuple[tuple[Edit, ...], Tried]:
    """Return what is put right besides, and her with that; nothing, where she cannot be then."""
    besides = besides_of(her)
    if not besides:
        return (), her
    try:
        plain = her.edited(besides)
        plain.checked  # noqa: B018 - it is worked out once
    except FAILED:
        return (), her
    return besides, plain


def besides_of(her: Tried) -> tuple[Edit, ...]:
    """Return what is put right besides, before a slip is looked for.

    Faults that hide others, and what the repairs of a mesh mend: a fresh slip is not to be drowned
    in an old fault.
    """
    found: list[Edit] = []
    taken: set[tuple[str, str]] = set()
    known = [one for one in her.checked if one.key in REPAIRED]
    cleared = clearing(her) if her.cleared is not None else ()
    for edit in (edit for one in (*cleared, *known) for edit in one.edits):
        figures = {(edit.path, field) for field, _ in edit.fields}
        if not figures & taken:
            found.append(edit)
            taken |= figures
    return tuple(found)


def _finding(her: Assessed, found: Sequence[_LetGo], certain: Sequence[_LetGo]) -> Finding:
    """Return the finding of the likeliest slip, with another of the same figure beside it."""
    best = max(certain, key=lambda one: one.gain)
    near = NEAR_WITH_OTHERS if best.left else NEAR
    others = [
        other.suspect.slip
        for other in sorted(found, key=lambda one: -one.gain)
        if other is not best
        and other.gain > best.gain - near
        and is_of_one_figure(other.suspect, best.suspect)
    ]
    gain = _figure_gain(best, found)
    return slip_finding(her.boat, best.suspect.slip, best.gain, others, gain)


def _makes_away(slip: Candidate, before: Sequence[Finding]) -> bool:
    """Return whether a slip only makes a thing so small that it is in nobody's way.

    Whatever a thing does by being there, it no longer does when it is next to nothing: where it
    shares room or lies in the wet, that is the fault, and its size is not.
    """
    if slip.field not in SIZES or slip.would >= slip.was:
        return False
    keys = {one.key for one in before}
    return bool(keys & SHARED) and not keys & TOO_LARGE


def is_of_one_figure(one: Suspect, other: Suspect) -> bool:
    """Return whether two slips are of one figure."""
    a, b = one.slip, other.slip
    return (a.path, a.field, len(a.changes)) == (b.path, b.field, len(b.changes))


def verdict(before: Sequence[Finding], after: Sequence[Finding]) -> float:
    """Return what the full solver says of a slip put right, as a logarithm of how likely it is [-].

    What vanishes speaks for it, the less of it the more that is, since every small fault is mended
    by something; what is new speaks against it, the less the more vanishes: it may have been
    hidden; and the less, the nearer it is to its limit. So does what is left that cannot be.

    Args:
        before: What is found as she is.
        after: What is found with the slip put right.
    """
    here = {one.about for one in before}
    new = burden([one for one in after if one.about not in here], SLIGHT)
    was, old = burden(before), burden([one for one in after if one.about in here])
    gone = max(was - old, 0.0)
    won = log((was + 1) / (old + new + 1))
    is_left = any(one.key in IMPOSSIBLE for one in after)
    lost = log(1 + (new**2 / (new + gone) if new else 0.0)) + (LEFT if is_left else 0.0)
    return min(won, MOST_WON) + WON_BEYOND * max(won - MOST_WON, 0.0) - lost


def likely(
    her: Assessed, plain: Assessed, besides: tuple[Edit, ...]
) -> tuple[tuple[Suspect, tuple[Edit, ...]], ...]:
    """Return the slips that the sums find likely, each with what is put right besides.

    What that was done to is looked at as it stands too, since it may be the slip.

    Args:
        her: Of the boat.
        plain: Of her with what is put right besides.
        besides: The changes for that.
    """
    gone = [edit.path for edit in besides if edit.action == "remove"]
    found: list[tuple[Suspect, tuple[Edit, ...]]] = [
        (replace(one, slip=replace(one.slip, path=as_filed(one.slip.path, gone))), besides)
        for one in suspects(plain, MOST)
    ]
    if touched := _touched(her.boat, besides):
        found += [(one, ()) for one in suspects(her, MOST, touched)]
    found.sort(key=lambda pair: -pair[0].gain)
    return tuple(pair for pair in found if pair[0].gain >= LEAST)[:MOST]


def _touched(boat: Boat, besides: tuple[Edit, ...]) -> frozenset[str]:
    """Return the paths of what is put right besides, and of what may be at fault in its place.

    Of loose things their cylinders, of a tank every other.
    """
    pieces = dict(numbered(boat))
    loose = {edit.path for edit in besides if edit.path in pieces}
    if any(ref(edit.path).table == "tank" for edit in besides):
        loose |= {f"tank[{i}]" for i, _ in enumerate(boat.tanks, 1)}
    homes = {pieces[path].inside for path in loose if path in pieces}
    vessels = {f"cylinder[{i}]" for i, one in enumerate(boat.cylinders, 1) if one.name in homes}
    return frozenset(loose | vessels)


def as_filed(path: str, gone: Sequence[str]) -> str:
    """Return the path of a thing as the file has it, told as it is with others taken out.

    >>> as_filed("foam[2]", ["foam[1]"]), as_filed("foam[2]", ["lead[1]", "foam[3]"])
    ('foam[3]', 'foam[2]')
    """
    at, out = ref(path), [ref(one) for one in gone]
    place = at.number
    for other in sorted(one.number for one in out if one.table == at.table):
        place += other <= place
    return str(at._replace(number=place)) if at.number else path
