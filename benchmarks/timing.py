"""Times calls side by side, and prints what came of it."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import cycle, islice
from statistics import median
from time import perf_counter
from typing import TypeVar

T = TypeVar("T")


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One line of the table: two times and what is wanted of their ratio, if anything is."""

    what: str
    time: float  # [s]
    other: float  # what it is set beside: another's time, or what is allowed [s]
    beside: str  # what that is; our own code is called so
    least: float | None = None  # other over time, at least [-]

    @property
    def ratio(self) -> float:
        """Return how many times as fast it is."""
        return self.other / self.time

    @property
    def cells(self) -> list[str]:
        """Return the line as text."""
        wanted, met = NOTHING, NOTHING
        if self.least is not None:
            wanted, met = f"{self.least:.3g}", "yes" if self.ratio >= self.least else "no"
        times = [in_words(self.time), in_words(self.other)]
        return [self.what, self.beside, *times, f"{self.ratio:.3g}", wanted, met]


NOTHING = "–"  # nothing is wanted, or nothing is set beside it
HEADS = ["what", "beside", "its time", "the other", "ratio", "wanted", "met"]


def in_words(seconds: float) -> str:
    """Return a time with its unit."""
    for size, unit in ((1.0, "s"), (1e-3, "ms")):
        if seconds >= size:
            return f"{seconds / size:.3g} {unit}"
    return f"{seconds * 1e6:.3g} µs"


def typical(call: Callable[[T], object], cases: Sequence[T], runs: int) -> float:
    """Return the median over the cases of the least time [s] that each took.

    The calls go round the cases, ``runs`` times in all and one round before that, so that the
    machine cannot learn the way through the work by heart; the least of the times of one case is
    the one that other work on the machine disturbed least.
    """
    times: list[list[float]] = [[] for _ in cases]
    for case in cases:
        call(case)
    for k in islice(cycle(range(len(cases))), runs):
        start = perf_counter()
        call(cases[k])
        times[k].append(perf_counter() - start)
    return median(min(some) for some in times if some)


def print_table(rows: list[list[str]]) -> None:
    """Print rows of text with their heads, each column as wide as it must be."""
    lines = [HEADS, *rows]
    widths = [max(len(line[k]) for line in lines) for k in range(len(HEADS))]
    for line in lines:
        left = [cell.ljust(width) for cell, width in zip(line[:2], widths, strict=False)]
        right = [cell.rjust(width) for cell, width in zip(line[2:], widths[2:], strict=True)]
        print("  ".join([*left, *right]).rstrip())
