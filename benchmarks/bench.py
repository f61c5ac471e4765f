"""A boat's cylinders on the bench, beside what sliders allow, and one collapse beside a search.

The search is a general minimiser over a number of lobes that need not be whole: it finds the same
pressure or a little less.
"""

from collections.abc import Callable
from pathlib import Path
from time import perf_counter

from scipy.optimize import minimize_scalar

from benchmarks.timing import in_words
from trimdive.assessment import assess
from trimdive.bench import cylinders
from trimdive.strength import collapse, folds_at, material, tube

BITTERN = Path(__file__).parents[1] / "boats" / "bittern" / "boat.toml"
ALLOWED = 0.050  # for the bench of a boat with three cylinders [s]
RUNS = 20


def rows() -> tuple[list[list[str]], list[str]]:
    """Return the lines of the table, and what else was measured in words."""
    her = assess(BITTERN)
    third = her.boat.cylinders[0].model_copy(update={"name": "third cylinder"})
    boat = her.boat.model_copy(update={"cylinders": (*her.boat.cylinders, third)})
    floater = her.floater
    whole = _least(lambda: cylinders(boat, floater, 3.0))
    shape, stuff = tube(0.125, 0.0037, 0.588), material("PVC-U")
    ours = _least(lambda: collapse(shape, stuff.modulus, stuff.poisson))
    theirs = _least(
        lambda: minimize_scalar(
            lambda n: folds_at(shape, stuff.modulus, stuff.poisson, n), bounds=(2, 200)
        )
    )
    met = "yes" if whole <= ALLOWED else "no"
    return [
        ["three cylinders", "50 ms allowed", in_words(whole), in_words(ALLOWED),
         f"{ALLOWED / whole:.4g}", "1", met],
        ["one collapse", "a minimiser", in_words(ours), in_words(theirs), f"{theirs / ours:.4g}",
         "0", "yes"],
    ], []  # fmt: skip


def _least(call: Callable[[], object]) -> float:
    times: list[float] = []
    for _ in range(RUNS):
        start = perf_counter()
        call()
        times.append(perf_counter() - start)
    return min(times)
