"""How deep she may go, and what limits it: one answer for bench, card, reach and page.

The least of what her cylinders bear with their factor kept, of what seals whatever goes through
their caps, and of the depth from which blown tanks bring her up.
"""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from trimdive.errors import TrimdiveError
from trimdive.hydrostatics.equilibrium.named import bound
from trimdive.text import words
from trimdive.text.cylinder_words import part_name

if TYPE_CHECKING:
    from collections.abc import Iterator

    from trimdive.assessment import Assessment
    from trimdive.bench import CylinderBench

UNTESTED = "Test cylinders empty, under water, deeper than you will dive, before anything goes in."


@dataclass(frozen=True, slots=True, kw_only=True)
class Bound:
    """A depth beyond which she should not go."""

    depth: float  # [m]
    because: str  # what bears no more, in words
    of: str = ""  # the same of one cylinder, without its name


def bounds(her: "Assessment") -> tuple[Bound, ...]:
    """Return what limits her depth, the least first.

    Args:
        her: The boat.

    Raises:
        TrimdiveError: A cylinder cannot be as it is entered.
    """
    found = [limit for one in her.bench.cylinders for limit in _of(her, one)]
    if her.depths.returns is not None:
        found.append(Bound(depth=her.depths.returns, because="blown tanks no longer bring her up"))
    return tuple(sorted(found, key=lambda one: one.depth))


def bound_of(her: "Assessment", one: "CylinderBench") -> Bound:
    """Return what limits the depth of one cylinder."""
    return min(_of(her, one), key=lambda limit: limit.depth)


def seals_of(her: "Assessment", one: "CylinderBench") -> "tuple[Bound, ...]":
    """Return how deep each seal through the caps of a cylinder bears, the least first."""
    return tuple(sorted([*_of(her, one)][1:], key=lambda limit: limit.depth))


def _of(her: "Assessment", one: "CylinderBench") -> "Iterator[Bound]":
    """Yield what limits one cylinder: its weakest part, and each seal through its caps."""
    weak = one.strength.weakest
    of = part_name(weak)
    yield Bound(depth=weak.depth, because=f"{one.name}, {of}", of=of)
    for end in one.caps:
        for hole in end.through:
            if hole.seal is not None:
                across = her.boat.units.write(hole.across, "length")
                of = f"{hole.seal.name} on {across}, {end.name}"
                yield Bound(depth=hole.depth, because=f"{of} of {one.name}", of=of)


def may_go(her: "Assessment") -> Bound | None:
    """Return the depth she may go to, and what limits it; None where nothing does.

    Args:
        her: The boat.

    Raises:
        TrimdiveError: A cylinder cannot be as it is entered.
    """
    return next(iter(bounds(her)), None)


def may_go_words(her: "Assessment") -> str:
    """Return how deep she may go, in a sentence; it never fails."""
    try:
        found = may_go(her)
    except TrimdiveError as error:
        return f"How deep she may go is not calculated: {error.what}."
    if found is None or not her.bench.cylinders:
        return "How deep she may go is not calculated: no cylinder is entered."
    missing = words.not_entered(her)
    only = f", as far as is entered ({missing})" if missing else ""
    deep = bound(her.boat, found.depth)
    return f"She may go to {deep} by calculation{only}; the limit: {found.because}."


def may_go_json(her: "Assessment") -> dict[str, object]:
    """Return the same for a program."""
    try:
        found = may_go(her)
    except TrimdiveError:
        found = None
    return {"may_go_m": found and found.depth, "may_go_because": found and found.because}
