"""Checks of cylinders on the bench: they bear her depth, keep their caps, seal, and were tried.

They stand apart from the checks of the boat in the water, as those of her plant do: what a boat
file does not tell is assumed and not complained of.
"""

from collections.abc import Callable, Iterator

from trimdive.bench import CylinderBench, Leak, NotEntered, cylinders, latest, leaks, not_entered
from trimdive.boatfile import Boat
from trimdive.data import constant
from trimdive.errors import TrimdiveError
from trimdive.fact import Fact, fact
from trimdive.findings.assessed import Assessed
from trimdive.findings.finding import Finding, Limit, entering, finding, limit_of
from trimdive.findings.plant import Works, plant_findings
from trimdive.plant import systems
from trimdive.plant.failsafe import depth_meant, pressed
from trimdive.records import record
from trimdive.water import Water
from trimdive.water.viscosities import viscosity


@record
class Bench:
    """Everything on her bench that a check may look at."""

    assessed: Assessed
    depth: float  # that she is for [m]
    cylinders: tuple[CylinderBench, ...]
    leaks: tuple[Leak, ...]


def benched(her: Assessed, water: Water) -> Bench:
    """Return everything on a boat's bench.

    Args:
        her: The boat.
        water: The water that she is for.

    Raises:
        TrimdiveError: A cylinder, a cap or a ring cannot be as it is told.
    """
    boat, depth = her.boat, depth_meant(her.boat)
    dry = pressed(her, systems(her), depth)
    found = cylinders(boat, dry, her.floater.density, depth)
    airs = {one.name: one.air for one in found}
    nu = viscosity(water.kind, water.celsius, water.salt)
    tried = leaks(boat, airs, depth, her.floater.density, nu) if boat.leak_tests else ()
    return Bench(assessed=her, depth=depth, cylinders=found, leaks=tried)


LEAST_VACUUM = 1e3  # less of it is not worth a word [Pa]
ROUNDING = 1e-9  # [-]
DEEPER = 5e-5  # a groove deeper by less than this than it should be is cut as it should [m]
BenchCheck = Callable[[Bench, Limit], Iterator[Finding]]
BENCH_CHECKS: dict[str, BenchCheck] = {}
bench_check = entering(BENCH_CHECKS)


def bench_findings(her: Bench, plant: Works) -> tuple[Finding, ...]:
    """Return what is not in order with her cylinders and her plant, worst first.

    Args:
        her: Her cylinders.
        plant: Her plant.

    Raises:
        BoatError: A limit of the boat file is none.
    """
    boat = her.assessed.boat
    found = [one for key, run in BENCH_CHECKS.items() for one in run(her, limit_of(key, boat))]
    found += plant_findings(plant)
    return tuple(sorted(found, key=lambda one: (one.weight != "put right", -one.rank)))


def gaps(boat: Boat, found: Callable[[], tuple[Finding, ...]]) -> tuple[NotEntered, ...]:
    """Return what on her bench is not entered and no finding complains of already.

    Args:
        boat: Her boat file.
        found: Returns what is not in order on her bench.
    """
    try:
        complained = {one.key for one in found()}
    except TrimdiveError:  # a cylinder that cannot be as it is entered: the bench says so
        complained = set[str]()
    return not_entered(boat, complained)


@bench_check("bench-margin")
def bears(her: Bench, limit: Limit) -> Iterator[Finding]:
    """Yield cylinders that do not bear the depth she is for with the factor kept."""
    for one in her.cylinders:
        if one.margin >= limit.value * (1 - ROUNDING):
            continue
        weak = one.strength.weakest
        is_cap = any(end.cap.name == weak.cap and not end.is_entered for end in one.caps)
        deep = one.strength.depth
        drawn = _vacuum(one)
        yield finding(
            limit=limit, subject=one.path, rank=88, beyond=limit.value - one.margin,
            stands=one.margin,
            what=fact("bears-too-little", name=one.name, bears=deep, factor=weak.factor,
                      depth=her.depth, way=weak.way, cap=weak.cap, vacuum=drawn),
            mend=fact("enter-cap")
            if is_cap
            else fact("make-stronger", is_drawn=drawn is not None, bears=deep),
            weight="look at" if is_cap else "put right",
        )  # fmt: skip


def _vacuum(one: CylinderBench) -> Fact | None:
    """Return how much of the depth a vacuum inside takes; None where there is none."""
    vacuum = one.strength.vacuum
    if vacuum < LEAST_VACUUM:
        return None
    state = min(one.inside, key=lambda each: each.pressure).state
    takes = vacuum / (constant("gravity") * one.strength.density)
    return fact("vacuum-takes", state=state, vacuum=vacuum, takes=takes)


@bench_check("bench-push")
def keeps_caps(her: Bench, limit: Limit) -> Iterator[Finding]:
    """Yield cylinders whose caps are pushed off from inside, where it is told what holds them."""
    for vessel, one in zip(her.assessed.boat.cylinders, her.cylinders, strict=True):
        load = one.push.load
        if vessel.closing is None or load <= 0 or one.holds >= limit.value * load:
            continue
        state = one.inside[0]
        yield finding(
            limit=limit, subject=one.path, rank=92, beyond=load / max(one.holds, 1.0),
            stands=one.holds / load,
            what=fact("pushes-caps", state=state.state, name=one.name, load=load,
                      pressure=state.pressure, why=state.why, closing=one.closing,
                      holds=one.holds),
            mend=fact("hold-caps", force=limit.value * load),
        )  # fmt: skip


@bench_check("bench-ring")
def seals(her: Bench, limit: Limit) -> Iterator[Finding]:
    """Yield rings that do not seal in the grooves that the file tells."""
    for one in her.cylinders:
        for end in one.caps:
            for ring in end.rings:
                if len(ring.faults) <= limit.value:
                    continue
                fitted, wanted = ring.fitted, ring.wanted
                mend = fact("take-another-ring")
                if wanted is not None:
                    mend = fact("cut-groove", depth=wanted.cut, width=wanted.width,
                                ring=wanted.ring.number,
                                is_too_deep=fitted.cut > wanted.cut + DEEPER)  # fmt: skip
                yield finding(
                    limit=limit, subject=one.path, rank=86, beyond=len(ring.faults),
                    stands=float(len(ring.faults)),
                    what=fact("ring-leaks", name=one.name, cap=end.name, faults=ring.faults,
                              groove=fitted.cut, squeeze=fitted.squeeze.usual),
                    mend=mend,
                )  # fmt: skip


@bench_check("bench-shaft")
def seals_shafts(her: Bench, limit: Limit) -> Iterator[Finding]:
    """Yield what goes through a cap sealed by what does not bear the depth she is for."""
    for one in her.cylinders:
        for end in one.caps:
            for hole in end.through:
                if hole.seal is None or hole.depth >= limit.value * her.depth:
                    continue
                yield finding(
                    limit=limit, subject=one.path, rank=84, beyond=her.depth - hole.depth,
                    stands=hole.depth / her.depth,
                    what=fact("shaft-leaks", name=one.name, cap=end.name, seal=hole.seal.name,
                              across=hole.across, bears=hole.depth, depth=her.depth),
                    mend=fact("seal-shaft"),
                )  # fmt: skip


@bench_check("bench-leak")
def tried(her: Bench, limit: Limit) -> Iterator[Finding]:
    """Yield cylinders whose latest leak test failed, and of several those that were never tried."""
    for one in her.cylinders:
        last = latest(her.leaks, one.name)
        if last is not None and not last.passes:
            yield finding(
                limit=limit, subject=one.path, rank=90, beyond=1.0, stands=1.0,
                what=fact("leak-test-failed", name=one.name, water=last.water_in,
                          most=last.most, limit=last.limit),
                mend=fact("dry-and-test-again"),
            )  # fmt: skip
        elif last is None and len(her.leaks) > limit.value:
            yield finding(
                limit=limit, subject=one.path, rank=20, stands=None,
                what=fact("never-tried", name=one.name),
                mend=fact("draw-a-vacuum"),
                weight="look at",
            )  # fmt: skip


@bench_check("bench-air")
def air_in_a_leak_test(her: Bench, limit: Limit) -> Iterator[Finding]:
    """Yield cylinders whose latest leak test held more air than is safe."""
    for one in her.cylinders:
        tests = [test for test in her.assessed.boat.leak_tests if test.cylinder == one.name]
        last = max(tests, key=lambda test: test.date, default=None)
        if last is not None and last.gauge_start > limit.value * (1 + ROUNDING):
            yield finding(
                limit=limit, subject=one.path, rank=75, beyond=limit.excess(last.gauge_start),
                stands=last.gauge_start,
                what=fact("tested-with-air", name=one.name, pressure=last.gauge_start,
                          limit=limit.text),
                mend=fact("test-with-water"),
                weight="look at",
            )  # fmt: skip
