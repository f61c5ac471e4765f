"""Checks of cylinders on the bench: they bear her depth, keep their caps, seal, and were tried.

They stand apart from the checks of the boat in the water, as those of her plant do: what a boat
file does not tell is assumed and not complained of.
"""

from collections.abc import Callable, Iterator

from trimdive.bench import CylinderBench, Leak, NotEntered, cylinders, latest, leaks, not_entered
from trimdive.boatfile import Boat
from trimdive.data import constant
from trimdive.errors import TrimdiveError
from trimdive.failsafe import bound_words, deep_words, depth_meant, pressed
from trimdive.findings.facts import Facts
from trimdive.findings.finding import Finding, Limit, finding, limit_of
from trimdive.findings.plant import Works, plant_findings
from trimdive.plant import systems
from trimdive.records import record
from trimdive.water import Water
from trimdive.water.viscosities import viscosity


@record
class Bench:
    """Everything on her bench that a check may look at."""

    facts: Facts
    depth: float  # that she is for [m]
    cylinders: tuple[CylinderBench, ...]
    leaks: tuple[Leak, ...]


def benched(facts: Facts, water: Water) -> Bench:
    """Return everything on a boat's bench.

    Args:
        facts: The boat.
        water: The water that she is for.

    Raises:
        TrimdiveError: A cylinder, a cap or a ring cannot be as it is told.
    """
    boat, depth = facts.boat, depth_meant(facts.boat)
    dry = pressed(facts, systems(facts), depth)
    found = cylinders(boat, dry, facts.floater.density, depth)
    airs = {one.name: one.air for one in found}
    nu = viscosity(water.kind, water.celsius, water.salt)
    tried = leaks(boat, airs, depth, facts.floater.density, nu) if boat.leak_tests else ()
    return Bench(facts=facts, depth=depth, cylinders=found, leaks=tried)


BAR = 1e5  # [Pa]
LEAST_VACUUM = 1e3  # less of it is not worth a word [Pa]
ROUNDING = 1e-9  # [-]
BenchCheck = Callable[[Bench, Limit], Iterator[Finding]]
BENCH_CHECKS: dict[str, BenchCheck] = {}


def bench_check(key: str) -> Callable[[BenchCheck], BenchCheck]:
    """Enter a function as a check of the bench; its limit has the same key."""

    def entered(function: BenchCheck) -> BenchCheck:
        BENCH_CHECKS[key] = function
        return function

    return entered


def bench_findings(her: Bench, plant: Works) -> tuple[Finding, ...]:
    """Return what is not in order with her cylinders and her plant, worst first.

    Args:
        her: Her cylinders.
        plant: Her plant.

    Raises:
        BoatError: A limit of the boat file is none.
    """
    boat = her.facts.boat
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
        is_cap = any(end.cap.name == weak.name and not end.is_told for end in one.caps)
        deep = bound_words(her.facts.boat, one.strength.depth)
        drawn = _vacuum(her, one)
        yield finding(
            limit=limit, subject=one.path, rank=88, beyond=limit.value - one.margin,
            stands=one.margin,
            what=f"{one.name} bears {deep} with its factor of "
            f"{weak.factor:g}, she is for {deep_words(her.facts.boat, her.depth)}; "
            f"weakest: {weak.name}{drawn}",
            mend="That cap is assumed: tell its thickness and material."
            if is_cap
            else f"{'Close it with its tanks empty, make' if drawn else 'Make'} it thicker or "
            f"shorter, or stay above {deep}.",
            weight="look at" if is_cap else "put right",
        )  # fmt: skip


def _vacuum(her: Bench, one: CylinderBench) -> str:
    """Return how much of the depth a vacuum inside takes, in words; "" where there is none."""
    vacuum = one.strength.vacuum
    if vacuum < LEAST_VACUUM:
        return ""
    takes = vacuum / (constant("gravity") * one.strength.density)
    state = min(one.inside, key=lambda each: each.pressure)
    return (
        f" ({state.says}, {vacuum / BAR:.2f} bar of vacuum inside take "
        f"{deep_words(her.facts.boat, takes)} of it)"
    )


@bench_check("bench-push")
def keeps_caps(her: Bench, limit: Limit) -> Iterator[Finding]:
    """Yield cylinders whose caps are pushed off from inside, where it is told what holds them."""
    for vessel, one in zip(her.facts.boat.cylinders, her.cylinders, strict=True):
        load = one.push.load
        if vessel.closing is None or load <= 0 or one.holds >= limit.value * load:
            continue
        state = one.inside[0]
        held = f"{one.closing} hold {one.holds:.0f} N"
        if one.holds == 0:
            held = "nothing holds it but its ring"
        yield finding(
            limit=limit, subject=one.path, rank=92, beyond=load / max(one.holds, 1.0),
            stands=one.holds / load,
            what=f"{state.says}, {one.name} pushes each cap "
            f"off with {load:.0f} N ({state.pressure / BAR:.2f} bar inside: {state.why}); "
            f"{held}",
            mend=f"Tie rods, or screws, that hold {_round(limit.value * load)} N; or vent the tank "
            "outside.",
        )  # fmt: skip


def _round(newtons: float) -> str:
    """Return a force to two figures.

    >>> _round(497.3), _round(36.0)
    ('500', '36')
    """
    return f"{float(f'{newtons:.2g}'):.0f}"


@bench_check("bench-ring")
def seals(her: Bench, limit: Limit) -> Iterator[Finding]:
    """Yield rings that do not seal in the grooves that the file tells."""
    write = her.facts.boat.units.write
    for one in her.cylinders:
        for end in one.caps:
            for ring in end.rings:
                if len(ring.faults) <= limit.value:
                    continue
                fitted, wanted = ring.fitted, ring.wanted
                mend = "Take another ring."
                if wanted is not None:
                    mend = (
                        f"Cut it {write(wanted.cut, 'length', 2)} deep and "
                        f"{write(wanted.width, 'length')} wide for ring {wanted.ring.number}."
                    )
                yield finding(
                    limit=limit, subject=one.path, rank=86, beyond=len(ring.faults),
                    stands=float(len(ring.faults)),
                    what=f"{one.name}, {end.name}: its ring is {', and '.join(ring.faults)} "
                    f"(groove {write(fitted.cut, 'length', 2)} deep, "
                    f"{fitted.squeeze.usual:.0%} squeeze)",
                    mend=mend,
                )  # fmt: skip


@bench_check("bench-shaft")
def seals_shafts(her: Bench, limit: Limit) -> Iterator[Finding]:
    """Yield what goes through a cap sealed by what does not bear the depth she is for."""
    write = her.facts.boat.units.write
    for one in her.cylinders:
        for end in one.caps:
            for hole in end.through:
                if hole.seal is None or hole.depth >= limit.value * her.depth:
                    continue
                yield finding(
                    limit=limit, subject=one.path, rank=84, beyond=her.depth - hole.depth,
                    stands=hole.depth / her.depth,
                    what=f"{one.name}, {end.name}: the {hole.seal.name} on "
                    f"{write(hole.across, 'length')} bears "
                    f"{bound_words(her.facts.boat, hole.depth)}, she is for "
                    f"{deep_words(her.facts.boat, her.depth)}",
                    mend="Take two with grease between, or a ring in a groove.",
                )  # fmt: skip


@bench_check("bench-leak")
def tried(her: Bench, limit: Limit) -> Iterator[Finding]:
    """Yield cylinders whose latest leak test failed, and of several those that were never tried."""
    for one in her.cylinders:
        last = latest(her.leaks, one.name)
        if last is not None and not last.passes:
            yield finding(
                limit=limit, subject=one.path, rank=90, beyond=1.0, stands=1.0,
                what=f"{one.name} let in {last.says}",
                mend="Dry it, look at its rings and holes, and test it again before she dives.",
            )  # fmt: skip
        elif last is None and len(her.leaks) > limit.value:
            yield finding(
                limit=limit, subject=one.path, rank=20, stands=None,
                what=f"{one.name} was never tried for leaks",
                mend="Draw a vacuum in it and watch the gauge for half an hour.",
                weight="look at",
            )  # fmt: skip


@bench_check("bench-air")
def air_in_a_leak_test(her: Bench, limit: Limit) -> Iterator[Finding]:
    """Yield cylinders whose latest leak test held more air than is safe."""
    for one in her.cylinders:
        tests = [test for test in her.facts.boat.leak_tests if test.cylinder == one.name]
        last = max(tests, key=lambda test: test.date, default=None)
        if last is not None and last.gauge_start > limit.value * (1 + ROUNDING):
            yield finding(
                limit=limit, subject=one.path, rank=75, beyond=limit.excess(last.gauge_start),
                stands=last.gauge_start,
                what=f"{one.name} was tested with air at {last.gauge_start / BAR:.2g} bar above "
                f"the air outside, more than {limit.text}",
                mend="Air bursts what breaks. For more pressure fill it with water, or sink it "
                "empty; stand behind a wall and start low.",
                weight="look at",
            )  # fmt: skip
