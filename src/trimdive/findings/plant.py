"""Checks of what is on the bench of a ballast plant: fast enough, home again, fed, failing well.

They stand apart from the checks of the boat in the water: a boat file that tells nothing of its
plant is asked nothing.
"""

from collections.abc import Callable, Iterator
from math import inf

from trimdive.ballast.dive.whatif import without
from trimdive.bench.entered import not_entered, unset
from trimdive.data import constant
from trimdive.fact import Fact, fact
from trimdive.findings.assessed import Assessed
from trimdive.findings.finding import Finding, Limit, entering, finding, limit_of
from trimdive.plant import (
    Bottle,
    Electric,
    PlantAnswer,
    System,
    fullest,
    gas,
    inside,
    leak_flow,
    systems,
    unpowered,
)
from trimdive.plant.failsafe import (
    FAILURES,
    FailureTable,
    Pressed,
    answers,
    depth_meant,
    failures,
    feeding,
    pressed,
)
from trimdive.plant.linkages import Link, links
from trimdive.plant.state import beside
from trimdive.records import record

MOST_AIR = 0.1  # more free air is no help to any boat [m³]
SPARE = 0.01  # more than it takes, so that she does come up [kg]
MINUTE = 60.0  # [s]
ASKED = ("signal lost", "battery low", "leak", "too deep")  # what a failsafe answers to


@record
class Works:
    """Everything of her plant that a check may look at."""

    assessed: Assessed
    answers: tuple[PlantAnswer, ...]
    systems: tuple[System, ...]
    failures: FailureTable | None
    feeding: tuple[Electric, ...]
    links: tuple[Link, ...]
    pressed: dict[str, Pressed]  # the air in each cylinder, by its name

    def subject(self, name: str) -> str:
        """Return the place of a plant in the boat file, by its name."""
        names = [plant.name for plant in self.assessed.boat.plants]
        return f"plant[{names.index(name) + 1}]"


def works(her: Assessed) -> Works:
    """Return everything of a boat's plant.

    Args:
        her: The boat.

    Raises:
        BoatError: A plant, a linkage or a battery cannot be as it is told.
    """
    found, made = answers(her), systems(her)
    return Works(
        assessed=her,
        answers=found,
        systems=made,
        pressed=pressed(her, made, depth_meant(her.boat)),
        failures=failures(her),
        feeding=feeding(her, found),
        links=links(her.boat, her.floater.density),
    )


PlantCheck = Callable[[Works, Limit], Iterator[Finding]]
PLANT_CHECKS: dict[str, PlantCheck] = {}
plant_check = entering(PLANT_CHECKS)


def plant_findings(her: Works) -> tuple[Finding, ...]:
    """Return what is not in order with her plant, worst first.

    Args:
        her: Her plant.

    Raises:
        BoatError: A limit of the boat file is none.
    """
    boat = her.assessed.boat
    found = [one for key, run in PLANT_CHECKS.items() for one in run(her, limit_of(key, boat))]
    return tuple(sorted(found, key=lambda one: (one.weight != "put right", -one.rank)))


@plant_check("plant-start")
def starts(her: Works, limit: Limit) -> Iterator[Finding]:
    """Yield plants that cannot fill or empty their tanks somewhere."""
    for one in her.answers:
        if len(one.troubles) > limit.value:
            first = one.troubles[0]
            what = fact("plant-troubled", name=one.name, where=first.where, what=first.what)
            yield finding(limit=limit, subject=her.subject(one.name), rank=90,
                          weight="look at" if first.is_snorkel_under else "put right",
                          beyond=len(one.troubles), what=what,
                          stands=float(len(one.troubles)),
                          mend=first.mend)  # fmt: skip


@plant_check("plant-home")
def comes_home(her: Works, limit: Limit) -> Iterator[Finding]:
    """Yield a boat that does not come up by herself when the power of her plant goes."""
    if not her.answers or her.assessed.surfaced.rest.under:
        return  # or she sinks as she is, and that is said
    comes, floater = her.answers[0].home, her.assessed.floater
    if comes.reserve > limit.value or (comes.reserve == limit.value and limit.value > 0):
        return
    failsafe = her.assessed.boat.failsafe
    mend = fact("trim-lighter", by=limit.value - comes.reserve + SPARE)
    if failsafe and failsafe.drops:
        dropped = _dropped(her.assessed, failsafe.drops)
        if failsafe.own_battery and comes.reserve + dropped > limit.value:
            return  # the weight that it drops brings her up
        mend = fact("drop-by-own-battery", name=failsafe.drops, weight=dropped)
        if failsafe.own_battery:
            mend = fact("dropped-too-little", name=failsafe.drops, weight=dropped)
    yield finding(
        limit=limit, subject="boat", rank=80, beyond=-comes.reserve / floater.mass,
        stands=comes.reserve,
        what=fact("stays-down-unpowered", reserve=comes.reserve, depth=comes.depth,
                  from_depth=comes.from_depth),
        mend=mend,
    )  # fmt: skip


def _dropped(her: Assessed, name: str) -> float:
    """Return what a thing that is dropped weighs under water [kg]."""
    after = without(her, name)[2]
    volume = her.floater.volume - after.volume
    return her.floater.mass - after.mass - her.floater.density * volume


@plant_check("plant-fill-time")
def fills_fast(her: Works, limit: Limit) -> Iterator[Finding]:
    """Yield plants that take too long to fill their tanks."""
    for one in her.answers:
        run = next((fill for fill in one.downs if fill.depth == 0), None)
        if run and run.time > limit.value:
            what = fact("slow-to-fill", name=one.name, time=run.time)
            yield _slow(her, one, limit, run.time, what)


@plant_check("plant-empty-time")
def empties_fast(her: Works, limit: Limit) -> Iterator[Finding]:
    """Yield plants that take too long to empty their tanks at depth."""
    for one in her.answers:
        run = next((fill for fill in one.ups if fill.depth == one.depth), None)
        if run and run.time > limit.value:
            what = fact("slow-to-empty", name=one.name, time=run.time, depth=one.depth)
            yield _slow(her, one, limit, run.time, what)


def _slow(her: Works, one: PlantAnswer, limit: Limit, time: float, what: Fact) -> Finding:
    times = time / limit.value if limit.value > 0 else inf
    return finding(limit=limit, subject=her.subject(one.name), rank=40, stands=time,
                   beyond=limit.excess(time), what=what,
                   mend=fact("make-it-faster", kind=one.kind, times=times))  # fmt: skip


@plant_check("plant-filling")
def fills_enough(her: Works, limit: Limit) -> Iterator[Finding]:
    """Yield plants that do not fill their tanks, and where the pressed air ends them."""
    for one, system in zip(her.answers, her.systems, strict=True):
        full = fullest(system)
        if full >= system.full:
            continue
        air = inside(system, full) - constant("atmosphere")
        needs = _neutral(her.assessed, system)
        short = (needs - full) / system.room
        wanted = needs / system.room if her.assessed.goes_under else None
        is_short = short > limit.value
        yield finding(
            limit=limit, subject=her.subject(one.name), rank=70, beyond=short, stands=short,
            what=fact("tank-not-full", name=one.name, filling=full / system.room, pressure=air,
                      wanted=wanted),
            weight="put right" if is_short else "look at",
            mend=_reaching(system, needs) if is_short else fact("holds-enough"),
        )  # fmt: skip


def _neutral(her: Assessed, system: System) -> float:
    """Return the water in a plant's tanks when she is neutral, or nearest to it [m³]."""
    waters = zip(her.boat.tanks, her.dived.rest.waters, strict=True)
    return sum(float(water) for tank, water in waters if tank.name in system.tanks)


def _reaching(system: System, neutral: float) -> Fact:
    """Return what fills a tank as far as she needs it; the water wanted [m³]."""
    air = constant("atmosphere")
    needs = inside(system, neutral) - air
    if system.kind == "pump closed":
        return fact("pump-ends-later", pressure=needs)
    now = inside(system, fullest(system))  # what it can press against
    water = neutral + beside(system, neutral)
    closed = system.closed_with + system.others.closed
    room = (now * water - air * closed) / (now - air) if now > air else inf
    return fact("press-harder", is_piston=system.kind == "piston", pressure=needs,
                air=room if room < MOST_AIR else None)  # fmt: skip


@plant_check("plant-pressure")
def presses(her: Works, limit: Limit) -> Iterator[Finding]:
    """Yield dry spaces whose air the tanks press too hard."""
    for one in her.pressed.values():
        state = next((each for each in one.states if each.key == "tank full"), None)
        if state is None or state.pressure <= limit.value:
            continue
        times = max(limit.value, 1.0) / constant("atmosphere") + 1
        full = sum(each.full for each in one.space.takers if not each.is_bag)
        air = (times * full - one.space.closed_water) / (times - 1)
        yield finding(
            limit=limit, subject=one.space.path, rank=60,
            beyond=limit.excess(state.pressure), stands=state.pressure,
            what=fact("dry-air-pressed", state=state.state, name=one.space.name,
                      pressure=state.pressure),
            mend=fact("leave-air", air=air),
        )  # fmt: skip


@plant_check("plant-vacuum")
def draws(her: Works, limit: Limit) -> Iterator[Finding]:
    """Yield dry spaces in which too deep a vacuum is left."""
    for one in her.pressed.values():
        state = min(one.states, key=lambda each: each.pressure, default=None)
        if state is None or -state.pressure <= limit.value:
            continue
        has_bag = any(each.is_bag for each in one.space.takers)
        yield finding(
            limit=limit, subject=one.space.path, rank=59,
            beyond=limit.excess(state.pressure), stands=-state.pressure,
            what=fact("dry-air-drawn", state=state.state, name=one.space.name,
                      vacuum=-state.pressure),
            mend=fact("close-otherwise", has_bag=has_bag),
        )  # fmt: skip


@plant_check("plant-blows")
def blows_enough(her: Works, limit: Limit) -> Iterator[Finding]:
    """Yield bottles that give too few blows."""
    for one in her.answers:
        figure = one.figure("blows")
        if figure is not None and figure.value < limit.value:
            blow = one.figure("blow")
            yield finding(
                limit=limit, subject=her.subject(one.name), rank=75,
                beyond=limit.value - figure.value, stands=figure.value,
                what=fact("few-blows", name=one.name, blows=figure.value, depth=one.depth),
                mend=fact("fill-bottle", blows=limit.value, gas=blow.value if blow else None),
            )  # fmt: skip


@plant_check("plant-burns")
def burns(her: Works, limit: Limit) -> Iterator[Finding]:
    """Yield gases that burn."""
    for one, system in zip(her.answers, her.systems, strict=True):
        drive = system.drive
        if isinstance(drive, Bottle) and gas(drive.gas).burns and limit.value < 1:
            yield finding(
                limit=limit, subject=her.subject(one.name), rank=20, weight="look at",
                stands=1.0,
                what=fact("gas-burns", gas=drive.gas),
                mend=fact("take-another-gas"),
            )  # fmt: skip


@plant_check("plant-drift")
def drifts(her: Works, limit: Limit) -> Iterator[Finding]:
    """Yield pumps that leak as they stand, so that her trim drifts."""
    for one, system in zip(her.answers, her.systems, strict=True):
        flow = leak_flow(system, system.neutral, one.depth)
        mass = abs(flow) * MINUTE * system.density
        if mass > limit.value:
            end = unpowered(system, system.neutral, one.depth) - system.neutral
            yield finding(
                limit=limit, subject=her.subject(one.name), rank=30, weight="look at",
                beyond=1 + limit.excess(mass), stands=mass,
                what=fact("drifts-unpowered", name=one.name, depth=one.depth, minute=mass,
                          end=abs(end) * system.density, grows_heavier=flow > 0),
                mend=fact("put-in-valve"),
            )  # fmt: skip


@plant_check("failsafe-told")
def actions_set(her: Works, limit: Limit) -> Iterator[Finding]:
    """Yield failures for which no action is set."""
    boat = her.assessed.boat
    lacks = unset(boat.failsafe)
    if her.failures is None or len(lacks) <= limit.value:
        return
    for one in not_entered(boat):
        if one.key == limit.key:
            yield finding(
                limit=limit, subject=one.path, rank=85, beyond=len(lacks),
                stands=float(len(lacks)),
                what=fact("failsafe-unset", lacks=lacks), mend=fact("set-failsafe"),
                form="failsafe",
            )  # fmt: skip


@plant_check("failsafe-bottom")
def stays_up(her: Works, limit: Limit) -> Iterator[Finding]:
    """Yield failures that leave her on the bottom, or hovering."""
    table, boat = her.failures, her.assessed
    if table is None or boat.surfaced.rest.under:
        return  # or she sinks as she is, and that is said
    for failure in FAILURES:
        low = [
            one for one in table.squares
            if one.failure == failure
            and one.is_entered
            and (one.grams <= limit.value or one.ends == "hovering")
        ]  # fmt: skip
        if not low or failure == "plant dead":
            continue
        worst = min(low, key=lambda one: one.grams)
        left = 0.0 if worst.ends == "hovering" else worst.grams
        yield finding(
            limit=limit, subject=f"failsafe, {failure}", rank=78,
            weight="put right" if failure in ASKED else "look at",
            beyond=-left / boat.floater.mass, stands=left,
            what=fact("fails-and-ends", failure=failure, starts=tuple(one.start for one in low),
                      does=worst.does, ending=worst.ending),
            mend=fact("let-her-come-up"),
        )  # fmt: skip
