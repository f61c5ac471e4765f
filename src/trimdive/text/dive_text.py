"""``dive``: every moment from surfaced to dived and back, as text."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from trimdive.ballast.dive.sinking import BLOW_TIME, speed
from trimdive.ballast.dive.upright import lolls, runs
from trimdive.errors import AskError, BalanceError
from trimdive.findings.afloat import lacking
from trimdive.text import words
from trimdive.text.dive_kinks import kinks
from trimdive.text.dive_typed import in_words, ordered
from trimdive.text.fills import stops_words
from trimdive.text.held import held_words
from trimdive.text.layout import Block, Cells, heading, labelled, line, table, terms
from trimdive.text.moments import happenings, how_full
from trimdive.text.said import said
from trimdive.text.say import Say
from trimdive.text.sentences.afloat import lacks
from trimdive.text.surfaces import level_surface

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.ballast.dive import Dive, Jump, Moment
    from trimdive.boatfile import Boat
    from trimdive.hydrostatics.equilibrium import State

ROWS = 25  # steps of the table where none are asked for [-]
FINE = 50  # steps that are calculated at the least [-]
SAME = 1e-9  # fillings closer than this are one [-]
LARGE_HEEL = 0.002  # leaning less than this all the way needs no column [rad]
APART = 0.002  # tanks whose fillings differ by more stand in columns of their own [-]
MOST_COLUMNS = 3  # tanks with columns of their own
DIFFERS = 0.002  # turned by more than this she is not as she was on the way down [rad]
LEADS = (0.04, 0.08)  # of a tank's room, by which one is tried ahead of the others [-]
LITTLE = 0.005  # of her mass: a little lift, such as a failsafe leaves her [-]
COARSE = 40  # steps by which other orders are tried [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Dived:
    """A dive and how it is to be told."""

    her: "Assessment"
    down: "Dive"
    up: "Dive"
    steps: int  # told in the table [-]


def dived(her: "Assessment", steps: int | None) -> Dived:
    """Return her dive, with at least so many steps that the table's are among them.

    Raises:
        AskError: She has no tank.
        BalanceError: She finds no rest somewhere on the way.
    """
    if not her.boat.tanks:
        mend = "Describe one under [[tank]], or ask how she floats: trimdive float."
        raise AskError("she has no tank to dive with", "tank", mend)
    count = steps or ROWS
    fine = count * -(-FINE // count)
    from trimdive.assessment import STEPS

    if fine == STEPS:  # the same dive as everywhere else
        return Dived(her=her, down=her.down, up=her.up, steps=count)
    down, up = her.way(up=False, steps=fine), her.way(up=True, steps=fine)
    return Dived(her=her, down=down, up=up, steps=count)


def dive_text(one: Dived, *, up: bool = False, orders: bool = True) -> Iterator[Block]:
    """Yield what ``dive`` prints.

    Args:
        one: The dive.
        up: Tell the moments of the way up instead.
        orders: Hold it against other orders of filling.
    """
    her = one.her
    yield line(words.title(her))
    yield line(in_words(her.boat))
    yield from _cannot(one)
    for text in stops_words(her):
        yield line(text)
    yield line()
    yield _moments(one, up=up)
    yield heading("Worst moments")
    yield labelled(worst(one.her, one.down))
    bends = kinks(her, one.down)
    if bends:
        yield heading("Why the curves bend, on the way down")
        yield labelled((_full(her, moment.state), text) for moment, text in bends)
    yield heading("Jumps, and the way up")
    for text in _jumps(one):
        yield line(text)
    for _, text in held_words(her):
        yield line(text)
    yield heading("Sinking and rising")
    for text in _sinking(her):
        yield line(text)
    if orders and len(her.boat.tanks) > 1 and not one.down.moments[0].state.rest.under:
        yield heading("Other orders of filling")
        yield from _orders(her, one.down)
    yield heading("What the words mean")
    yield terms("filling", "GM", "BG", "free surface")


def _sinking(her: "Assessment") -> Iterator[str]:
    """Yield how fast she sinks quite full, and how fast a little lift brings her up."""
    write, moves, excess = her.boat.units.write, her.heave, her.full.rest.excess
    fast = speed(excess, moves.plan_area, moves.density)
    if excess > 0:
        yield (
            f"With tanks full she is {words.weight(her.boat, excess)} and sinks ever faster, up "
            f"to {write(fast, 'speed', 2)}. {_stopped(her)}"
        )
    few = LITTLE * moves.dry
    up = write(speed(few, moves.plan_area, moves.density), "speed", 2)
    yield (
        f"{words.mass(her.boat, few)} of lift bring her up at {up}. She takes "
        f"{words.lifted(her.boat, moves.flood)} of flood water with her, and moves about "
        f"{words.lifted(her.boat, moves.added)} of the water around her: she starts and stops "
        "slowly."
    )


def _stopped(her: "Assessment") -> str:
    """Return how long and how deep it takes to stop her by blowing, in a sentence."""
    try:
        stands = her.stop
    except BalanceError as error:
        return f"Blowing does not stop her: {error.what}."
    if stands is None:
        return ""
    is_entered = all(tank.rate for tank in her.boat.tanks)
    pace = "at the rate entered" if is_entered else f"in {BLOW_TIME:.0f} s"
    write = her.boat.units.write
    deeper = write(stands.depth, "length", 0)
    return f"Tanks blown {pace} stop her after {stands.time:.0f} s, {deeper} deeper."


def _cannot(one: Dived) -> Iterator[Block]:
    """Yield what keeps her from floating or from going under, by how much, and what mends it."""
    her, write = one.her, one.her.boat.units.write
    first, last = one.down.moments[0].state.rest, one.down.moments[-1].state.rest
    density = her.floater.density
    if first.under:
        yield line(
            f"She does not float: {words.weight(her.boat, first.excess)} with her tanks blown. "
            "Remove that much, or add foam that lifts as much."
        )
    elif not last.under:
        yield line(
            f"She will not dive: {words.weight(her.boat, last.excess)} with tanks full. "
            f"{_lacking(her, write(-last.excess / density, 'volume'))}"
        )


def _lacking(her: "Assessment", volume: str) -> str:
    """Return what she lacks to go under, as ``check`` has it: room in her tanks, or weight."""
    if reasons := lacks(Say(her.boat), *lacking(her)):
        return f"{reasons}."
    return f"She needs {volume} more of tank, or as much less volume above her waterline."


def _full(her: "Assessment", state: "State") -> str:
    return words.share(how_full(her, state), 1)


def _columns(one: Dived, way: "Dive") -> dict[str, Callable[["State"], str]]:
    """Return the head of each column after the first, and what stands in it."""
    her, boat, write = one.her, one.her.boat, one.her.boat.units.write
    columns: dict[str, Callable[[State], str]] = {}
    room = her.floater.tanks.capacities
    spread = [float((m.state.rest.waters / room).max() - (m.state.rest.waters / room).min())
              for m in way.moments]  # fmt: skip
    if max(spread) > APART and len(boat.tanks) <= MOST_COLUMNS:
        for k, tank in enumerate(boat.tanks):
            columns[tank.name] = lambda s, k=k: words.share(float(s.rest.waters[k] / room[k]))
    columns["trim"] = lambda s: words.trim(boat, s.trim_angle, short=True)
    if abs(way.largest_heel.state.heel) > LARGE_HEEL:
        columns["heel"] = lambda s: words.heel(boat, s.heel, short=True)
    columns["GM"] = lambda s: write(s.gm_t, "length")
    columns["GM lengthways"] = lambda s: write(s.gm_l, "length")
    columns["still out"] = lambda s: "–" if s.rest.under else write(s.reserve, "volume")
    return columns


def _moments(one: Dived, *, up: bool) -> Block:
    """Return the table of moments, with what happens between them."""
    way = one.up if up else one.down
    columns = _columns(one, way)
    marks = {id(h.moment): h.what for h in happenings(way, up=up)}
    jumps = {jump.filling: jump for jump in way.jumps}
    rows: list[Cells] = []
    landed: Jump | None = None
    for moment in way.moments:
        what = marks.get(id(moment), "")
        even = abs(moment.filling * one.steps - round(moment.filling * one.steps)) < SAME
        jump = jumps.get(moment.filling)
        if jump:
            what = f"{what}; flops" if what else "flops"
        if landed:
            what = f"to this; {what}" if what else "to this"
        if even or what:
            cells = [tell(moment.state) for tell in columns.values()]
            rows.append([_full(one.her, moment.state), *cells, what])
        landed = jump
    head = [f"how full, {'up' if up else 'down'}", *columns, "what happens"]
    wide = len(columns) > 4
    return table(head, rows, right=range(len(columns) + 1), gap=1 if wide else 2)


def worst(her: "Assessment", down: "Dive") -> Iterator[tuple[str, str]]:
    """Yield the worst moments on the way down, each with its filling."""
    boat = her.boat
    write, last = boat.units.write, down.moments[-1].state
    least, tip, lean = down.least_gm.state, down.largest_trim.state, down.largest_heel.state
    yield "least GM", f"{write(least.gm_t, 'length')} at {words.filling(her, least)}"
    tips = words.trim(boat, tip.trim_angle)
    yield "largest trim", tips if tips == "level" else f"{tips} at {words.filling(her, tip)}"
    heel = words.heel_at(her, lean)
    yield "largest heel", heel if heel == "upright" else f"{heel} at {words.filling(her, lean)}"
    slack = max(down.moments, key=lambda moment: moment.state.free_surface_t).state
    if slack.free_surface_t > 0:
        takes = write(slack.free_surface_t, "length")
        plain = write(level_surface(her, slack)[0], "length")
        yield (
            "free surface",
            f"lowers GM by up to {takes}, at {words.filling(her, slack)}; handbook's i/∇: {plain}",
        )
    yield "tanks full", f"{words.weight(boat, last.rest.excess)}, {words.lies(her, last)}"


def _jump(one: Dived, jump: "Jump", way: str) -> str:
    boat = one.her.boat
    size = boat.units.write(jump.angle, "angle")
    first, last = (
        f"{words.trim(boat, s.trim_angle)}, {words.heel_at(one.her, s)}"
        for s in (jump.before, jump.after)
    )
    return f"Going {way} she flops at {_full(one.her, jump.before)}, by {size}: {first} → {last}."


def _jumps(one: Dived) -> Iterator[str]:
    """Yield the jumps down and up, where she will not stand upright, and how the ways differ."""
    her = one.her
    for way, name in ((one.down, "down"), (one.up, "up")):
        for jump in way.jumps:
            yield _jump(one, jump, name)
        for loll in lolls(her.floater, runs(her.floater, way)):
            yield (
                f"Going {name}, from {words.share(loll.first)} to {words.share(loll.last)} full "
                f"she will not stand upright: {said(Say(her.boat), loll.does)}."
            )
    if not one.down.jumps and not one.up.jumps:
        yield "She does not flop."
    yield _differs(one)


def _differs(one: Dived) -> str:
    """Return where the way up differs from the way down, in a sentence."""
    up = {round(m.filling / SAME): m for m in one.up.moments}
    pairs = [(m, up[round(m.filling / SAME)]) for m in one.down.moments
             if round(m.filling / SAME) in up]  # fmt: skip
    off = [a for a, b in pairs if _apart(a, b) > DIFFERS]
    if not off:
        return "Coming up she passes the same moments as going down."
    low, high = (_full(one.her, off[k].state) for k in (0, -1))
    return f"Coming up she floats differently than going down between {low} and {high}."


def _apart(one: "Moment", other: "Moment") -> float:
    """Return how differently she lies, a lean to either side being one [rad]."""
    a, b = one.state, other.state
    return max(abs(a.trim_angle - b.trim_angle), abs(abs(a.heel) - abs(b.heel)))


def tried(boat: "Boat", neutral: float) -> dict[str, "Boat"]:
    """Return other orders worth a look, as they are typed after --order."""
    names = [tank.name for tank in boat.tanks]
    typed = ["together"] if boat.fills or len({tank.order for tank in boat.tanks}) > 1 else []
    for lead in LEADS:
        typed += [f"{name} ahead by {words.share(lead)}" for name in names]
    typed += [f"{name} first" for name in names]
    return {text: ordered(boat, text, neutral) for text in typed}


def _orders(her: "Assessment", down: "Dive") -> Iterator[Block]:
    """Yield the worst moments by other orders of filling."""
    from trimdive.assessment import Assessment

    rows: list[Cells] = [_order_row(her, "as planned", down)]
    for name, boat in tried(her.boat, her.neutral).items():
        other = Assessment(boat=boat, files=her.files)
        rows.append(_order_row(her, name, other.way(up=False, steps=COARSE)))
    head = ["order of filling", "largest trim", "at", "least GM", "at", "flops"]
    yield table(head, rows, right=(2, 3, 4, 5))


def _order_row(her: "Assessment", name: str, way: "Dive") -> Sequence[str]:
    boat, tip, least = her.boat, way.largest_trim.state, way.least_gm.state
    return [
        name,
        words.trim(boat, tip.trim_angle, short=True),
        words.share(how_full(her, tip)),
        boat.units.write(least.gm_t, "length"),
        words.share(how_full(her, least)),
        str(len(way.jumps) or "–"),
    ]
