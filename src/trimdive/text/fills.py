"""How full her plant makes her tanks, and how full they are when something is said to fail."""

from collections.abc import Iterator
from contextlib import suppress
from typing import TYPE_CHECKING

from trimdive.errors import TrimdiveError
from trimdive.hydrostatics.equilibrium.named import how_full, share
from trimdive.plant import fullest, system
from trimdive.plant.failsafe import planned
from trimdive.text.sentence import capital

if TYPE_CHECKING:
    from trimdive.assessment import Assessment


def reached(her: "Assessment") -> Iterator[tuple[str, float, bool]]:
    """Yield each plant, how full it makes its tanks [-], and whether that is less than full.

    Args:
        her: The boat.
    """
    for plant in her.boat.plants:
        with suppress(TrimdiveError):  # a plant that cannot be run is told of on the bench
            one = system(her, plant)
            full = fullest(one)
            yield plant.name, full / one.room, full < one.full


def stops_at(her: "Assessment") -> tuple[tuple[str, float], ...]:
    """Return each plant that cannot fill its tanks, and how full it makes them [-].

    Args:
        her: The boat.
    """
    return tuple((name, full) for name, full, is_short in reached(her) if is_short)


def fills_to(name: str, filling: float) -> str:
    """Return how full a plant makes its tanks, in words.

    Args:
        name: Of the plant.
        filling: Share of their room [-].
    """
    return f"{name} fills its tank to {share(filling)} and no farther"


def stops_words(her: "Assessment") -> tuple[str, ...]:
    """Return what is to be known of a dive that goes on beyond what her plant fills."""
    return tuple(
        f"{capital(text)}: fuller moments below would need another plant. See the bench."
        for name, full in stops_at(her)
        for text in (fills_to(name, full),)
    )


def planned_words(her: "Assessment") -> str:
    """Return how full her tanks are where a failure begins dived, if not as when neutral.

    Args:
        her: The boat.
    """
    full = share(how_full(her.floater, planned(her)))
    if her.lowest_name != "dived at neutral":
        return f"She does not dive yet: dived means held under, tanks {full} full as planned."
    neutral = share(her.neutral)
    if full == neutral:
        return ""
    return f"Dived: tanks {full} full, as planned; she is neutral at {neutral}."
