"""The decision engine: which causes are still open, and the one test that parts them best.

Every answer makes boats that would not give it less likely (Bayes); a cause is as likely as its
boats together. The next test is the one whose answer is expected to take most doubt away (least
entropy of the causes), for the effort it costs. Answers that no boat gives together disagree.

Sources: Bayes' rule; expected information gain, any text on sequential testing. How likely each
cause is beforehand: common practice, no source.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from itertools import combinations

import numpy as np

from trimdive.errors import DisagreementError
from trimdive.estimates.wethands.boats import Boats, Floats, Shows, boats, causes, prior, shows
from trimdive.estimates.wethands.figure import usual_of
from trimdive.estimates.wethands.known import Known, Reply
from trimdive.estimates.wethands.likely import fits_of, likely
from trimdive.estimates.wethands.questions import BY_KEY, CHOICES, Question

CERTAIN = 0.9  # a cause so likely needs no further test [-]
WORTH = 0.015  # a test that takes less doubt away than this is not asked for [nat]
DISAGREE = 0.02  # so little as the best boat fits both, two answers disagree [-]
OPEN = 0.02  # a cause less likely than this is no longer told as open [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Cause:
    """What may ail her; ``text`` has its words by its key."""

    key: str
    weight: float  # how likely after all answers [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Open:
    """Where the questions have led so far."""

    causes: tuple[Cause, ...]  # all of them, likeliest first
    next: Question | None  # the test that parts them best; None where they are parted enough

    @property
    def likeliest(self) -> Cause:
        """Return the likeliest cause."""
        return self.causes[0]

    @property
    def still_open(self) -> tuple[Cause, ...]:
        """Return the causes that may still be."""
        return tuple(cause for cause in self.causes if cause.weight >= OPEN)

    @property
    def is_certain(self) -> bool:
        """Return whether one cause stands out."""
        return self.likeliest.weight >= CERTAIN


def opened(known: Known) -> Open:
    """Return the causes still open and the next test.

    Raises:
        DisagreementError: Two answers disagree.
    """
    on, at = _possible(known.only("filling", "shift"))
    weights = _weights(known, on, at)
    shares = _by_cause(on, weights)
    order = np.argsort(-shares, kind="stable")
    found = tuple(Cause(key=causes()[k], weight=float(shares[k])) for k in order)
    is_certain = bool(shares.max() >= CERTAIN)
    return Open(causes=found, next=None if is_certain else _next(known, on, at, weights))


@lru_cache(maxsize=8)
def _possible(known: Known) -> tuple[Boats, Shows]:
    """Return the boats that she may be and what they show, from figures alone; kept for a while."""
    on = boats(known)
    return on, shows(known, on)


def _weights(known: Known, on: Boats, at: Shows) -> Floats:
    """Return how likely each boat is after all answers, shape (n,) [-]."""
    counts = np.bincount(on.cause)
    weights = prior()[on.cause] / counts[on.cause]
    slip = usual_of("slip")
    given = [reply for reply in known.replies if reply.is_entered]
    fitting = [fits_of(reply, known, on, at) for reply in given]
    _refuse_disagreeing(given, fitting)
    for reply, fits in zip(given, fitting, strict=True):
        options = max(len(BY_KEY[reply.key].options), 1)
        weights = weights * ((1 - slip) * fits + slip / options)
    return weights / weights.sum()


def _by_cause(on: Boats, weights: Floats) -> Floats:
    """Return how likely each cause is, shape (c,) [-]."""
    return np.bincount(on.cause, weights=weights, minlength=len(causes())).astype(np.float64)


def _entropy(shares: Floats) -> float:
    """Return the doubt that shares leave [nat]."""
    some = shares[shares > 0]
    return float(-(some * np.log(some)).sum())


def gain(key: str, on: Boats, at: Shows, weights: Floats) -> float:
    """Return the doubt that the answer to a question is expected to take away [nat].

    Args:
        key: Of the question.
        on: The boats.
        at: What they show.
        weights: How likely each is now, shape (n,) [-].
    """
    left = 0.0
    for fits in likely(key, on, at).values():
        joint = _by_cause(on, weights * fits)
        if (total := float(joint.sum())) > 0:
            left += total * _entropy(joint / total)
    return _entropy(_by_cause(on, weights)) - left


def _next(known: Known, on: Boats, at: Shows, weights: Floats) -> Question | None:
    """Return the test that takes most doubt away for its effort, if any is worth it."""
    best, most = None, WORTH
    for question in CHOICES:
        if known.was_asked(question.key) or not question.fits(known):
            continue
        worth = gain(question.key, on, at, weights) / question.effort
        if worth > most:
            best, most = question, worth
    return best


def _refuse_disagreeing(given: list[Reply], fits: list[Floats]) -> None:
    """Raise which two answers no boat gives together.

    Raises:
        DisagreementError: Two disagree.
    """
    worst = min(_pairs(given, fits), key=lambda pair: pair[0], default=None)
    if worst is None or worst[0] >= DISAGREE:
        return
    _, one, other = worst
    raise DisagreementError(one, other)


def _pairs(given: list[Reply], fits: list[Floats]) -> Iterator[tuple[float, Reply, Reply]]:
    """Yield how well the best boat fits each two answers, beside how well it may fit each."""
    both = [(r, f / f.max()) for r, f in zip(given, fits, strict=True) if f.max() > 0]
    for (one, a), (other, b) in combinations(both, 2):
        yield float((a * b).max()), one, other
