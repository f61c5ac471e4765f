"""Each tank filled by itself: how she lies then, off the planned way of filling."""

from collections.abc import Sequence

import numpy as np

from trimdive.assessment import Assessment
from trimdive.page.large import larges
from trimdive.page.track import lie
from trimdive.pictures.drawings.words import state_words

View = dict[str, object]


def shares_of(text: str) -> list[float]:
    """Return how full tanks are to be, as the page's script tells it [-]; what is no number is 0.

    >>> shares_of("0.25,1,nan,x")
    [0.25, 1.0, 0.0, 0.0]
    """
    return [_share(part) for part in text.split(",")]


def _share(text: str) -> float:
    try:
        value = float(text)
    except ValueError:
        return 0.0
    return value if 0.0 <= value <= 1.0 else 0.0


def tanks_view(her: Assessment, shares: Sequence[float]) -> View:
    """Return how she lies with each tank filled by itself, for the browser, in words and figures.

    Args:
        her: The boat.
        shares: How full each is to be, in the order of the boat file [-]; never emptier than it
            can be blown, nor fuller than it gets.

    Raises:
        BalanceError: She finds no rest.
    """
    low, high = her.blown_water, her.full_water
    given = np.zeros(len(low))
    given[: len(shares)] = list(shares)[: len(low)]
    waters = np.clip(given * her.floater.tanks.capacities, low, high)
    state = her.at(waters)
    room = float((high - low).sum())
    filling = float((waters - low).sum()) / room if room > 0 else 0.0
    return {
        "lie": lie(her, state, round(filling, 6), 1.0),
        "words": state_words(her, state),
        "figures": larges(her, state),
    }
