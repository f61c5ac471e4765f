"""Whether she is in order, in three marks: afloat, on the bench, for the pond.

In order has this one meaning everywhere: nothing is to be put right there, and all that belongs
there has been entered. What has not been entered is never in order. A boat that is in order and yet
heels over on the way up, as long as a tower holds water, is in order but to be watched there:
no limit is passed, since she drains and stands up again, but whoever drives her must know it.
"""

from typing import Literal, Protocol

from trimdive.bench import NotEntered
from trimdive.records import record

Where = Literal["afloat", "bench", "pond"]


class Checked(Protocol):
    """A boat of whom it is known how much is to be put right."""

    @property
    def urgent(self) -> int: ...  # noqa: D102
    @property
    def urgent_on_bench(self) -> int: ...  # noqa: D102
    @property
    def not_entered(self) -> tuple[NotEntered, ...]: ...  # noqa: D102
    @property
    def heels_coming_up(self) -> bool: ...  # noqa: D102


@record
class Mark:
    """How she stands in one place of the three."""

    where: Where
    urgent: int  # things to put right there
    missing: int  # things that belong there and are not entered
    is_watched: bool  # the way up is to be watched

    @property
    def in_order(self) -> bool:
        """Return whether nothing is to be put right there, and nothing to be entered."""
        return not (self.urgent or self.missing)


def afloat(urgent: int, *, is_watched: bool) -> Mark:
    """Return how she stands afloat, surfaced and dived.

    Args:
        urgent: How much is to be put right of that.
        is_watched: She heels over on the way up.
    """
    return Mark(where="afloat", urgent=urgent, missing=0, is_watched=is_watched)


def marks(her: Checked) -> tuple[Mark, Mark, Mark]:
    """Return how she stands afloat, on the bench, and for the pond, which takes both.

    Args:
        her: The boat.
    """
    missing, bench, heels = len(her.not_entered), her.urgent_on_bench, her.heels_coming_up
    return (
        afloat(her.urgent, is_watched=heels),
        Mark(where="bench", urgent=bench, missing=missing, is_watched=False),
        Mark(where="pond", urgent=her.urgent + bench, missing=missing, is_watched=heels),
    )
