"""The finding that one figure may have slipped, with the figure that would be right."""

import re
from collections.abc import Sequence
from contextlib import suppress
from decimal import Decimal
from math import exp, isclose

from trimdive.boatfile import Boat
from trimdive.errors import UnitError
from trimdive.fact import Fact, fact, together
from trimdive.findings.finding import Edit, Finding, finding, limit_of
from trimdive.findings.slips.candidates import Candidate
from trimdive.units import number_in, read

COARSE = 0.02  # a figure told farther off than this share is told with all its digits [-]
MOST_DIGITS = 6  # that are asked for, however many were typed [-]
RANK = 120  # above all else: what else is found may follow from it [-]
SAME = 1e-9  # figures nearer than this share are one [-]
MOST_GAIN = 700.0  # beyond it a likelihood is no number any more [-]
DIGIT = re.compile(r"(?<![a-zA-Z])\d")  # of a figure; those of its unit follow a letter
ALONG = ("x", "x_aft", "x_fore", "water_end", "forward_of", "aft_of")


def slip_finding(
    boat: Boat,
    slip: Candidate,
    gain: float,
    others: Sequence[Candidate] = (),
    of_figure: float | None = None,
) -> Finding:
    """Return the finding that a figure may have slipped.

    Args:
        boat: The boat.
        slip: The figure, and what it may have been meant to be.
        gain: Logarithm of how much likelier she is with it put right [-].
        others: What else the same figure may have been meant to be, hardly less likely.
        of_figure: The same of the figure, whatever it was meant to be; None: a refusal names it,
            however likely it is [-].
    """
    limit = limit_of("slip", boat)
    was, ways = in_words(boat, slip)[0], ways_of(boat, slip, others)
    end = boat.entered_from if slip.field in ALONG else None
    would = tuple(text for text, _, _ in ways)
    (first, why, edits), *rest = ways
    second = tuple(fact("slip-or", would=text, why=also) for text, also, _ in rest)
    return finding(
        limit=limit,
        subject=f"{slip.path}.{slip.field}",
        what=fact("slip-asked", name=slip.name, field=slip.field, was=was, end=end, would=would),
        mend=together(fact("slip-write", would=first, why=why), *second),
        rank=RANK,
        beyond=gain,
        stands=None if of_figure is None else exp(min(of_figure, MOST_GAIN)),
        edits=edits,
        ways=tuple((fact("slip-write", would=text, why=also), to) for text, also, to in rest),
    )


def ways_of(
    boat: Boat, slip: Candidate, others: Sequence[Candidate]
) -> tuple[tuple[str, Fact, tuple[Edit, ...]], ...]:
    """Return what a figure may have been meant to be, how it slipped, its changes: one, or two."""
    would = in_words(boat, slip)[1]
    second = [(in_words(boat, other)[1], other.why, other.edits) for other in others]
    return ((would, slip.why, slip.edits), *[way for way in second if way[0] != would][:1])


def in_words(boat: Boat, slip: Candidate) -> tuple[str, str]:
    """Return a figure as it stands and as it would be, in words.

    As it stands it is quoted from her file, so that it is found there, and as it would be it has as
    many digits; a figure that stands in no file is rounded.
    """
    typed = _quoted(boat, slip)
    if len(slip.changes) > 1:
        (_, first), (_, second) = slip.changes
        would = f"{_one(boat, slip, first, typed)}, and {_one(boat, slip, second, typed)}"
        return typed or _one(boat, slip, slip.was), f"{would} for the other"
    if typed:
        return typed, _one(boat, slip, slip.would, typed)
    if (
        slip.kind == "mass"
        and boat.units.shown("mass") == "g"
        and isclose(slip.would, slip.was / 1000, rel_tol=1e-6)
    ):
        return f"{slip.was:g} kg", _one(boat, slip, slip.would)
    return _one(boat, slip, slip.was), _one(boat, slip, slip.would)


def _quoted(boat: Boat, slip: Candidate) -> str:
    """Return a figure as it is typed in her file; nothing where it stands in none, or otherwise."""
    typed = boat.typed(f"{slip.path}.{slip.field}")
    stands = boat.along(slip.was) if slip.field in ALONG else slip.was
    own = boat.units.shown(slip.kind)  # of a number without a unit
    for text in (typed, f"{typed} {own}") if typed else ():
        with suppress(UnitError):
            if isclose(read(text, slip.kind, None), stands, rel_tol=SAME, abs_tol=SAME**2):
                return text
    return ""


def _one(boat: Boat, slip: Candidate, value: float, typed: str = "") -> str:
    """Return a figure as she counts it, with as many digits as tell it, or as were typed."""
    if slip.field in ALONG:
        value = boat.along(value)
    text = boat.units.write(value, slip.kind)
    if value and abs(read(text, slip.kind, None) / value - 1) > COARSE:
        text = boat.units.write_fine(value, slip.kind)
    if not typed or isclose(read(text, slip.kind, None), value, rel_tol=SAME):
        return text
    unit = boat.units.shown(slip.kind)
    digits = min(max(len(DIGIT.findall(one)) for one in (typed, text)), MOST_DIGITS)
    return f"{Decimal(f'{number_in(value, slip.kind, unit):.{digits}g}'):f} {unit}"
