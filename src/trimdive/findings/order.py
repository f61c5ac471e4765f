"""In which order findings are told: causes first, what mends most before what mends little.

A slip of one figure and what lies where nothing can come before all; then what shares its room;
then what sinks her; then what mends others, and what stands by itself. What goes with a cause is
told under it, so that one fault is one heading however many figures it spoils.
"""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from math import inf

from trimdive.fact import fact
from trimdive.findings.finding import Finding, known_mend

TENFOLD = 10.0  # so many ranks make a finding weigh twice as much [-]
IMPOSSIBLE = (
    "slip", "waterline-place", "place-far", "size-most", "figure-least", "mesh-small", "mesh-large",
)  # fmt: skip
SLIPS = ("mesh-unit", "lines-doubt", "full-size")  # of tables and meshes, with what would be right
NO_MATTER = ("density-most", "density-least")  # nothing is so heavy, or so light, for its size
SHARED = ("battery-wet", "room-", "mesh-trouble", "mesh-overlap")  # how keys begin of such
SINKS = 90.0  # from this rank on a finding is told before any that mends others [-]
LETTERS = "abcdefghijklmnopqrstuvwxyz"  # of what goes with a cause
FAR_WORSE = 2.0  # figure over figure, in limits, from which one that was there is told again [-]
AFLOAT = (  # how she floats, dives and stands
    "waterline-band", "trim-surfaced", "heel", "neutral-band", "tank-margin", "trim-dived",
    "bg-least", "gm-least",
)  # fmt: skip
LOST = 30.0  # so many times the waterline's limit off she is no longer trimmed, but lost [-]
LESS_WELL, TRIFLE = 1.1, 0.1  # beyond a limit by so much more than before is worse [-]
WORSE = 1.001  # burden over burden from which a change makes her worse [-]


def burden(found: Sequence[Finding], slight: float = 0.0) -> float:
    """Return how much is to be put right: the worst weighs more than all the small together [-].

    Args:
        found: Findings.
        slight: What is beyond its limit by less than this share of it weighs so much less [-].
    """
    urgent = [one for one in found if one.weight == "put right"]
    return sum(_weight(one) * (min(one.over / slight, 1.0) if slight else 1.0) for one in urgent)


def _weight(one: Finding) -> float:
    return 2 ** (one.rank / TENFOLD)


def takes(one: Finding, other: Finding) -> bool:
    """Return whether a finding, mended, takes another with it."""
    return one is not other and one.about in other.follows


def cause_of(k: int, found: Sequence[Finding]) -> int | None:
    """Return which finding, told with its change, takes the k-th with it; None: it stands alone.

    The first that is taken by none itself, and is no less urgent.
    """
    for i, one in enumerate(found[:k]):
        is_free = not any(other.edits and takes(other, one) for other in found[:i])
        is_cause = one.edits and takes(one, found[k]) and one.weight == found[k].weight
        if is_free and is_cause:
            return i
    return None


def labels(found: Sequence[Finding]) -> tuple[str, ...]:
    """Return what each finding is called: "2", or "2a" for what goes with it when it is mended.

    One that must be put right stands under the first cause that takes it along; one to look at
    stands under none that must be.

    Args:
        found: In their order, with what each follows.
    """
    over = [cause_of(k, found) for k in range(len(found))]
    heads = [k for k, cause in enumerate(over) if cause is None]
    numbers = {k: str(number) for number, k in enumerate(heads, 1)}
    for k in heads:
        under = [i for i, cause in enumerate(over) if cause == k]
        numbers |= {i: f"{numbers[k]}{_letter(j)}" for j, i in enumerate(under)}
    return tuple(numbers[k] for k in range(len(found)))


def _letter(number: int) -> str:
    """Return the letter of a number from nought.

    >>> _letter(0), _letter(26)
    ('a', 'za')
    """
    return "z" * (number // len(LETTERS)) + LETTERS[number % len(LETTERS)]


def _tier(one: Finding, mends: Sequence[Finding]) -> int:
    if one.key == "slip":  # it was looked for with the faults of tables and meshes put right
        return -1
    if one.key in (*IMPOSSIBLE, *SLIPS, *NO_MATTER):
        return 0
    if any(each.key.startswith(SHARED) for each in (one, *mends)):
        return 1
    if one.rank >= SINKS:
        return 2
    return 3 if mends else 4


def in_order(found: Sequence[Finding]) -> tuple[Finding, ...]:
    """Return findings causes first, each with what goes with it after it.

    Args:
        found: With what each follows.
    """
    keyed: list[tuple[tuple[bool, int, float, float], Finding]] = []
    for one in found:
        mends = [other for other in found if takes(one, other)]
        worth = _weight(one) + sum(_weight(other) for other in mends)
        is_idle = one.weight != "put right"
        keyed.append(((is_idle, _tier(one, mends), -round(worth, 6), -one.rank), one))
    by_worth = [one for _, one in sorted(keyed, key=lambda pair: pair[0])]
    ranked: list[Finding] = []
    under: set[int] = set()
    for k, one in enumerate(by_worth):
        if k in under:
            continue
        ranked.append(one)
        goes = [
            i
            for i in range(k + 1, len(by_worth))
            if i not in under and takes(one, by_worth[i]) and by_worth[i].weight == one.weight
        ]
        under |= set(goes)
        ranked += sorted((by_worth[i] for i in goes), key=lambda other: -other.rank)
    return tuple(ranked)


def with_rest(
    found: tuple[Finding, ...], after: Mapping[Finding, tuple[Finding, ...] | None]
) -> tuple[Finding, ...]:
    """Return the findings with what remains when each alone is mended, and what each follows.

    A change that makes her worse, or that cannot be calculated, is no mend and is not offered.

    Args:
        found: All findings.
        after: For each that the program can mend, the findings when it alone is; None where she
            cannot be calculated with it.
    """
    known = {one.about: one for one in found}
    good = {
        one: left for one, left in after.items() if left is not None and not worse(one, found, left)
    }
    still = {one: {other.about for other in left} for one, left in good.items()}
    ranked = [
        replace(
            one if one in good or not one.edits else _not_offered(one, found, after.get(one)),
            left=tuple(other.what for other in good.get(one, ())),
            hidden=tuple(o.what for o in good.get(one, ()) if _shows(o, known)),
            follows=tuple(
                cause.about
                for cause, others in still.items()
                if cause is not one and one.about not in others and _may_take(cause, one)
            ),
        )
        for one in found
    ]
    return in_order(ranked)


def _shows(left: Finding, known: Mapping[tuple[str, str], Finding]) -> bool:
    """Return whether what remains with a change is to be told: it is new, or far worse than now.

    Args:
        left: What remains.
        known: What is found as she is, by what it is about.
    """
    was = known.get(left.about)
    if was is None:
        return True
    is_urgent = left.weight == "put right" and left.over < inf and was.over < inf
    return is_urgent and left.over + 1 > FAR_WORSE * (was.over + 1)


def _may_take(cause: Finding, one: Finding) -> bool:
    """Return whether a finding may take another with it: a slip only with the same figure mended.

    A slip is no check of hers: nobody finds it in a boat changed for a trial.
    """
    if one.key != "slip":
        return True
    figures = {(edit.path, field) for edit in one.edits for field, _ in edit.fields}
    return any((edit.path, field) in figures for edit in cause.edits for field, _ in edit.fields)


def worse(one: Finding, found: Sequence[Finding], left: Sequence[Finding]) -> bool:
    """Return whether a change that is to mend one thing makes her worse.

    What only shows once something else is mended is not made by the change, as long as what goes
    outweighs it; that something lies where it cannot is made by it, however little it weighs.

    Args:
        one: What it is to mend.
        found: What is found as she is.
        left: What is found with the change made.
    """
    if one.key == "slip":
        return False  # the full solver let it go when it was chosen
    here = {other.about for other in found}
    new = [other for other in left if other.about not in here]
    if any(other.key in IMPOSSIBLE or other.key.startswith(SHARED) for other in new):
        return True
    if one.key not in IMPOSSIBLE and any(other.key == "outside-slack" for other in new):
        return True
    if loses_her(found, left) or (_removes(one) and _floats_worse(found, left)):
        return True
    slips = [other for other in found if other.key == "slip"]  # it is no check of hers
    return burden(left) > WORSE * (burden(found) - burden(slips))


def loses_her(found: Sequence[Finding], left: Sequence[Finding]) -> bool:
    """Return whether a change leaves her far from her waterline, or over, who was not so before.

    Args:
        found: What is found as she is.
        left: What is found with the change made.
    """
    return any(map(_is_lost, left)) and not any(map(_is_lost, found))


def _is_lost(one: Finding) -> bool:
    """Return whether a finding is that she sinks, lies over, or is very far from her waterline."""
    if one.key != "waterline-band":
        return False
    return one.stands is None or abs(one.stands) > LOST * one.limit.value


def _removes(one: Finding) -> bool:
    """Return whether a finding's change takes lead or foam out."""
    return any(
        edit.action == "remove" and edit.path.startswith(("lead", "foam")) for edit in one.edits
    )


def _floats_worse(found: Sequence[Finding], left: Sequence[Finding]) -> bool:
    """Return whether she floats, dives or stands less well than before a change."""
    was = {other.about: other.over for other in found}
    return any(
        other.weight == "put right"
        and other.key in AFLOAT
        and (other.about not in was or other.over > LESS_WELL * was[other.about] + TRIFLE)
        for other in left
    )


def _not_offered(one: Finding, found: Sequence[Finding], left: Sequence[Finding] | None) -> Finding:
    """Return a finding whose change is not offered, with why."""
    here = {other.about for other in found}
    new = [other for other in left or () if other.about not in here]
    worst = max(new, key=lambda other: other.rank, default=None)
    brings = worst.what if worst else None
    says = fact("see-first", is_calculated=left is not None, brings=brings)
    if one.what.kind == "guessed-share-room":
        says = fact("place-anew", other=one.subject)
    return replace(one, cure=known_mend((says, ())))
