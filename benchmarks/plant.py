"""A fill of *Bittern*'s tank, her whole plant, and every kind side by side.

A fill as an equation in time is set beside 20 ms, which the page's sliders allow, and beside the
same time by quadrature, where flow hangs on the water alone.
"""

from collections.abc import Callable
from pathlib import Path
from time import perf_counter

from scipy.integrate import quad

from benchmarks.timing import Row, in_words
from trimdive.assessment import assess
from trimdive.findings import plant_findings, works
from trimdive.plant import fill, point, systems
from trimdive.plant.failsafe import compare
from trimdive.plant.fill import forget

BITTERN = Path(__file__).parents[1] / "boats" / "bittern" / "boat.toml"
RUNS = 20
ALLOWED = 0.020  # for a fill [s]
BENCH = 0.050  # for all of a boat's bench [s]


def least(call: Callable[[], object], runs: int = RUNS) -> float:
    """Return the least time of a call with nothing kept from before [s]."""
    times: list[float] = []
    for _ in range(runs):
        forget()
        start = perf_counter()
        call()
        times.append(perf_counter() - start)
    return min(times)


def rows() -> tuple[list[list[str]], list[str]]:
    """Return the lines of the table, and what else was measured in words."""
    her = assess(BITTERN)
    facts, plant = her, systems(her)[0]
    down = least(lambda: fill(plant, 3.0))
    up = least(lambda: fill(plant, 3.0, up=True))
    area = least(lambda: quad(lambda v: 1 / point(plant, v, 3.0, up=False).flow, 0.0, plant.full))
    found = least(lambda: plant_findings(works(facts)), 5)
    side = least(lambda: compare(her), 3)
    lines = [
        Row(what="a fill", beside="20 ms allowed", time=down, other=ALLOWED, least=1.0).cells,
        Row(what="a fill", beside="scipy's quadrature", time=down, other=area).cells,
        Row(what="her plant", beside="50 ms allowed", time=found, other=BENCH, least=1.0).cells,
    ]
    answer = [
        f"Emptied at 3 m: {in_words(up)}. Every kind side by side: {in_words(side)}.",
    ]
    return lines, answer
