"""A boat's cylinders on the bench, beside what sliders allow, and one collapse beside a search.

The search is a general minimiser over a number of lobes that need not be whole: it finds the same
pressure or a little less.
"""

from collections.abc import Callable
from pathlib import Path
from time import perf_counter

from scipy.optimize import minimize_scalar

from benchmarks.timing import Row
from trimdive.assessment import assess
from trimdive.bench import cylinders
from trimdive.plant import systems
from trimdive.plant.failsafe import pressed
from trimdive.vessels.strength import buckling_pressure, collapse, material, tube

BITTERN = Path(__file__).parents[1] / "boats" / "bittern" / "boat.toml"
ALLOWED = 0.050  # for the bench of a boat with three cylinders [s]
RUNS = 20
DEPTH = 3.0  # m


def rows() -> tuple[list[list[str]], list[str]]:
    """Return the lines of the table, and what else was measured in words."""
    her = assess(BITTERN)
    third = her.boat.cylinders[0].model_copy(update={"name": "third cylinder"})
    boat = her.boat.model_copy(update={"cylinders": (*her.boat.cylinders, third)})
    facts, first = her, her.boat.cylinders[0].name
    plants = systems(facts)

    def bench() -> object:
        dry = pressed(facts, plants, DEPTH)
        return cylinders(boat, {**dry, third.name: dry[first]}, facts.floater.density, DEPTH)

    whole = _least(bench)
    shape, made_of = tube(0.125, 0.0037, 0.588), material("PVC-U")
    ours = _least(lambda: collapse(shape, made_of.modulus, made_of.poisson))
    theirs = _least(
        lambda: minimize_scalar(
            lambda n: buckling_pressure(shape, made_of.modulus, made_of.poisson, n), bounds=(2, 200)
        )
    )
    lines = [
        Row(what="three cylinders", beside="50 ms allowed", time=whole, other=ALLOWED, least=1.0),
        Row(what="one collapse", beside="scipy's minimiser", time=ours, other=theirs),
    ]
    return [line.cells for line in lines], []


def _least(call: Callable[[], object]) -> float:
    times: list[float] = []
    for _ in range(RUNS):
        start = perf_counter()
        call()
        times.append(perf_counter() - start)
    return min(times)
