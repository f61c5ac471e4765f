"""Checks of what is on the bench of a ballast plant: fast enough, home again, fed, failing well.

They stand apart from the checks of the boat in the water: a boat file that tells nothing of its
plant is asked nothing.
"""

from collections.abc import Callable, Iterator
from math import inf

from trimdive.bench.entered import not_entered, unset
from trimdive.data import constant
from trimdive.fact import fact
from trimdive.failsafe import (
    FAILURES,
    FailureTable,
    Pressed,
    answers,
    deep_words,
    depth_meant,
    failures,
    feeding,
    pressed,
)
from trimdive.findings.facts import Facts
from trimdive.findings.finding import Finding, Limit, finding, limit_of
from trimdive.linkages import Link, links
from trimdive.plant import (
    Bottle,
    Electric,
    PlantAnswer,
    System,
    fullest,
    gas,
    inside,
    leak_flow,
    seconds,
    systems,
    unpowered,
)
from trimdive.plant.state import beside
from trimdive.records import record
from trimdive.units import write

ENOUGH = "Never wait for a full tank: it holds enough."
MOST_AIR = 0.1  # more free air is no help to any boat [m³]
MINUTE = 60.0  # [s]
ASKED = ("signal lost", "battery low", "leak", "too deep")  # what a failsafe answers to


@record
class Works:
    """Everything of her plant that a check may look at."""

    facts: Facts
    answers: tuple[PlantAnswer, ...]
    systems: tuple[System, ...]
    failures: FailureTable | None
    feeding: tuple[Electric, ...]
    links: tuple[Link, ...]
    pressed: dict[str, Pressed]  # the air in each cylinder, by its name

    def subject(self, name: str) -> str:
        """Return the place of a plant in the boat file, by its name."""
        names = [plant.name for plant in self.facts.boat.plants]
        return f"plant[{names.index(name) + 1}]"


def works(facts: Facts) -> Works:
    """Return everything of a boat's plant.

    Args:
        facts: The boat.

    Raises:
        BoatError: A plant, a linkage or a battery cannot be as it is told.
    """
    found, made = answers(facts), systems(facts)
    return Works(
        facts=facts,
        answers=found,
        systems=made,
        pressed=pressed(facts, made, depth_meant(facts.boat)),
        failures=failures(facts),
        feeding=feeding(facts, found),
        links=links(facts.boat, facts.floater.density),
    )


PlantCheck = Callable[[Works, Limit], Iterator[Finding]]
PLANT_CHECKS: dict[str, PlantCheck] = {}


def plant_check(key: str) -> Callable[[PlantCheck], PlantCheck]:
    """Enter a function as a check of the plant; its limit has the same key."""

    def entered(function: PlantCheck) -> PlantCheck:
        PLANT_CHECKS[key] = function
        return function

    return entered


def plant_findings(her: Works) -> tuple[Finding, ...]:
    """Return what is not in order with her plant, worst first.

    Args:
        her: Her plant.

    Raises:
        BoatError: A limit of the boat file is none.
    """
    boat = her.facts.boat
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
    if not her.answers or her.facts.surfaced.rest.under:
        return  # or she sinks as she is, and that is said
    comes, facts = her.answers[0].home, her.facts
    if comes.reserve > limit.value or (comes.reserve == limit.value and limit.value > 0):
        return
    reach = f"she comes up by herself from {deep_words(facts.boat, comes.from_depth)} at the most"
    if comes.from_depth <= 0:
        reach = "she comes up by herself from nowhere"
    at = deep_words(facts.boat, comes.depth)
    short = facts.mass(limit.value - comes.reserve + 0.01)
    yield finding(
        limit=limit, subject="boat", rank=80, beyond=-comes.reserve / facts.floater.mass,
        stands=comes.reserve,
        what=f"without power she is {facts.mass(abs(comes.reserve))} "
        f"{'heavy' if comes.reserve <= 0 else 'light'} at {at}: {reach}",
        mend=f"Trim her {short} lighter dived, give her a weight to drop, or a valve that opens "
        "by a spring.",
    )  # fmt: skip


@plant_check("plant-fill-time")
def fills_fast(her: Works, limit: Limit) -> Iterator[Finding]:
    """Yield plants that take too long to fill their tanks."""
    for one in her.answers:
        run = next((fill for fill in one.downs if fill.depth == 0), None)
        if run and run.time > limit.value:
            yield _slow(her, one, limit, run.time, "to fill at the surface")


@plant_check("plant-empty-time")
def empties_fast(her: Works, limit: Limit) -> Iterator[Finding]:
    """Yield plants that take too long to empty their tanks at depth."""
    for one in her.answers:
        run = next((fill for fill in one.ups if fill.depth == one.depth), None)
        if run and run.time > limit.value:
            where = f"to empty at {deep_words(her.facts.boat, one.depth)}"
            yield _slow(her, one, limit, run.time, where)


def _slow(her: Works, one: PlantAnswer, limit: Limit, time: float, doing: str) -> Finding:
    times = time / limit.value if limit.value > 0 else inf
    mend = {
        "gas": "Give it a larger vent, more area below, or a larger jet.",
        "snorkel": "Give it a stronger air pump, or a larger vent.",
        "piston": "Take a faster motor or a screw with more lead.",
    }.get(one.kind, f"Take a pump with {times:.1f} times the flow, or a wider hose.")
    return finding(limit=limit, subject=her.subject(one.name), rank=40, stands=time,
                   beyond=limit.excess(time), what=f"{one.name} takes {seconds(time)} {doing}",
                   mend=mend)  # fmt: skip


@plant_check("plant-filling")
def fills_enough(her: Works, limit: Limit) -> Iterator[Finding]:
    """Yield plants that do not fill their tanks, and where the pressed air ends them."""
    for one, system in zip(her.answers, her.systems, strict=True):
        full = fullest(system)
        if full >= system.full:
            continue
        air = inside(system, full) - constant("atmosphere")
        needs = _neutral(her.facts, system)
        short = (needs - full) / system.room
        reached, wanted = (her.facts.share(v / system.room) for v in (full, needs))
        neutral = f"she is neutral at {wanted}"
        what = f"{fills_to(one.name, reached)}, against {_bars(air)} of pressed air; "
        what += neutral if her.facts.goes_under else "even full it would not take her under"
        is_short = short > limit.value
        yield finding(
            limit=limit, subject=her.subject(one.name), rank=70, beyond=short, what=what,
            stands=short,
            weight="put right" if is_short else "look at",
            mend=_reaching(system, needs) if is_short else ENOUGH,
        )  # fmt: skip


def _neutral(facts: Facts, system: System) -> float:
    """Return the water in a plant's tanks when she is neutral, or nearest to it [m³]."""
    waters = zip(facts.boat.tanks, facts.dived.rest.waters, strict=True)
    return sum(float(water) for tank, water in waters if tank.name in system.tanks)


def fills_to(name: str, reached: str) -> str:
    """Return how full a plant makes its tanks, in words: the same wherever it is said.

    Args:
        name: Of the plant.
        reached: How full, in words.
    """
    return f"{name} fills its tank to {reached} and no farther"


def _reaching(system: System, neutral: float) -> str:
    """Return what fills a tank as far as she needs it, with figures; the water wanted [m³]."""
    air = constant("atmosphere")
    needs = inside(system, neutral) - air
    if system.kind == "pump closed":
        return (
            f"Take a pump that ends at {_bars(needs)} or more, a larger tank, or vent it to the "
            "dry space."
        )
    now = inside(system, fullest(system))  # what it can press against
    water = neutral + beside(system, neutral)
    closed = system.closed_with + system.others.closed
    room = (now * water - air * closed) / (now - air) if now > air else inf
    more = f"leave {room * 1e3:.1f} L of free air, " if room < MOST_AIR else ""
    stronger = "piston drive" if system.kind == "piston" else "pump"
    return (
        f"Take a {stronger} that presses against {_bars(needs)} and more, {more}or take a smaller "
        "tank."
    )


def _bars(pressure: float) -> str:
    return write(pressure, "pressure", "bar", 2)


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
            each, at = one.figure("blow"), deep_words(her.facts.boat, one.depth)
            more = write(each.value, "mass", "g", 1) if each else "more"
            yield finding(
                limit=limit, subject=her.subject(one.name), rank=75,
                beyond=limit.value - figure.value, stands=figure.value,
                what=f"the bottle of {one.name} is good for {figure.value:.0f} "
                f"blow{'' if figure.value == 1 else 's'} at {at}",
                mend=f"Fill it for {limit.value:.0f}: {more} a blow; "
                "count them, and go home before the last.",
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
                what=f"{drive.gas} burns: leaked into a hull with motors and batteries it explodes",
                mend="Take a gas that does not; see what local rules and your club allow.",
            )  # fmt: skip


@plant_check("plant-drift")
def drifts(her: Works, limit: Limit) -> Iterator[Finding]:
    """Yield pumps that leak as they stand, so that her trim drifts."""
    for one, system in zip(her.answers, her.systems, strict=True):
        flow = leak_flow(system, system.neutral, one.depth)
        mass = abs(flow) * MINUTE * system.density
        if mass > limit.value:
            end = unpowered(system, system.neutral, one.depth) - system.neutral
            way = "heavier" if flow > 0 else "lighter"
            at = deep_words(her.facts.boat, one.depth)
            yield finding(
                limit=limit, subject=her.subject(one.name), rank=30, weight="look at",
                beyond=1 + limit.excess(mass), stands=mass,
                what=f"{one.name} has no valve: as it stands at {at} "
                f"she grows {her.facts.mass(mass)} {way} a minute, "
                f"{her.facts.mass(abs(end) * system.density)} in the end",
                mend="Put a valve in its hose, or take a hose pump.",
            )  # fmt: skip


@plant_check("failsafe-told")
def told(her: Works, limit: Limit) -> Iterator[Finding]:
    """Yield failures for which no action is set."""
    boat = her.facts.boat
    lacks = unset(boat.failsafe)
    if her.failures is None or len(lacks) <= limit.value:
        return
    for one in not_entered(boat):
        if one.key == limit.key:
            yield finding(
                limit=limit, subject=one.path, rank=85, beyond=len(lacks),
                stands=float(len(lacks)),
                what=fact("failsafe-unset", lacks=lacks), mend=fact("set-failsafe", lacks=lacks),
            )  # fmt: skip


@plant_check("failsafe-bottom")
def stays_up(her: Works, limit: Limit) -> Iterator[Finding]:
    """Yield failures that leave her on the bottom."""
    table, facts = her.failures, her.facts
    if table is None or facts.surfaced.rest.under:
        return  # or she sinks as she is, and that is said
    for failure in FAILURES:
        low = [
            one for one in table.squares
            if one.failure == failure and one.told and one.grams <= limit.value
        ]  # fmt: skip
        if not low or failure == "plant dead":
            continue
        worst = min(low, key=lambda one: one.grams)
        yield finding(
            limit=limit, subject=f"failsafe, {failure}", rank=78,
            weight="put right" if failure in ASKED else "look at",
            beyond=-worst.grams / facts.floater.mass, stands=worst.grams,
            what=fact("fails-and-ends", failure=failure, starts=tuple(one.start for one in low),
                      does=worst.does, ending=worst.ending),
            mend=fact("let-her-come-up"),
        )  # fmt: skip
