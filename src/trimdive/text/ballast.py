"""``litres``: how much ballast water she needs, where, and what the tanks give, as text."""

from collections.abc import Iterator
from typing import TYPE_CHECKING, Literal

from trimdive.ballast.need import foam_instead, ranges
from trimdive.ballast.need.moves import foam_across, pair_on_board
from trimdive.findings import limit_of
from trimdive.findings.ballast import tip_of
from trimdive.text import words
from trimdive.text.found import limit_text, mend_kind
from trimdive.text.layout import Block, Cells, heading, line, table, terms
from trimdive.text.sentence import capital
from trimdive.text.sentences.ballast import margin_words

if TYPE_CHECKING:
    from trimdive.assessment import Assessment

SHOWN = 10  # the largest shares that are told one by one
MOVED = 100e-6  # foam moved across the waterline in the example [m³]
RAISED = 1e-3  # gain in BG in the example [m]
Placed = Literal["right", "little", "she is off", "others", "move"]  # of the tanks' water
OWN = 0.5  # a trim of which the tank water makes less than this is not the tanks' [-]
CLOSE = 0.02  # so close to the rule of thumb that nothing need be said [-]


def litres_text(her: "Assessment") -> Iterator[Block]:
    """Yield what ``litres`` prints."""
    boat, need = her.boat, her.need
    yield line(words.title(her))
    yield line()
    volume = boat.units.write(need.volume, "volume")
    if need.volume <= 0:
        yield line("Nothing is above her waterline: she needs no ballast water.")
        return
    yield line(
        f"She needs {volume} of ballast water, with its centre {boat.place(float(need.place[0]))}: "
        "the volume above her waterline, and under the centre of that volume."
    )
    yield line(_rule_of_thumb(her))
    yield heading("Above the waterline")
    yield table(["", "volume", "mass", "centre at"], _shares(her), right=(1, 2, 3))
    yield from _tanks(her)
    yield from _moves(her)
    yield heading("What the words mean")
    yield terms("filling", "waterline meant", "BG")


def _rule_of_thumb(her: "Assessment") -> str:
    need, write = her.need, her.boat.units.write
    thumb = need.rule_litres
    off = thumb / need.volume - 1
    if abs(off) < CLOSE:
        return f"The rule of thumb says the same, {write(thumb, 'volume')}."
    dense = "denser" if off > 0 else "lighter"
    return (
        f"The rule of thumb says {write(thumb, 'volume')}, {words.share(abs(off))} too "
        f"{'much' if off > 0 else 'little'}: it counts kilograms, and her upperworks "
        f"are {dense} than water; only their volume counts."
    )


def _shares(her: "Assessment") -> Iterator[Cells]:
    need, write = her.need, her.boat.units.write
    shown = SHOWN if len(need.shares) > SHOWN + 1 else SHOWN + 1
    for share in need.shares[:shown]:
        yield [
            share.name,
            write(share.volume, "volume"),
            write(share.mass, "mass"),
            words.place(her.boat, share.x),
        ]
    rest = need.shares[shown:]
    if rest:
        volume = sum(share.volume for share in rest)
        mass = sum(share.mass for share in rest)
        yield [f"{len(rest)} smaller", write(volume, "volume"), write(mass, "mass"), ""]
    dry = need.mass_above - sum(share.mass for share in need.shares)
    if dry > 0:
        yield ["parts without volume", "", write(dry, "mass"), ""]
    x = words.place(her.boat, float(need.place[0]))
    yield ["all", write(need.volume, "volume"), write(need.mass_above, "mass"), x]


def _tanks(her: "Assessment") -> Iterator[Block]:
    boat, need, write = her.boat, her.need, her.boat.units.write
    yield heading("What the tanks give")
    if not boat.tanks:
        yield line("She has no tank.")
        return
    yield table(["", "room", "needed", "how full"], _each_tank(her), right=(1, 2, 3))
    yield line()
    if need.margin < 0:
        yield line(f"They lack {write(need.volume - need.fitted, 'volume')}.")
    else:
        yield line(f"They take {margin_words(need.margin)} more than she needs.")
    yield line(words.neutral_words(her) + _off_line(her))
    yield line(_where(her))
    found = ranges(her.floater, need, her.full_water / her.floater.tanks.capacities)
    if found:
        each = zip(boat.tanks, found, strict=True)
        parts = [f"{tank.name} {_range(low, high)}" for tank, (low, high) in each]
        yield line(
            f"Each filled by itself, the centre of the water is right with {', '.join(parts)} full."
        )


def _off_line(her: "Assessment") -> str:
    """Return why she is neutral at another filling than the need's, in a sentence; else ""."""
    boat, short = her.boat, her.short
    needs = words.filling_words(her, her.blown_water + her.need.takes)
    if her.need.margin < 0 or needs == words.share(her.neutral):
        return ""
    amiss = f"{words.mass(boat, abs(short))} too {'light' if short > 0 else 'heavy'}"
    return f" The {needs} above is for her waterline; she is {amiss} to float there."


def _range(low: float, high: float) -> str:
    """Return one filling, or the range in which it may lie."""
    least, most = words.share(low, 1), words.share(high, 1)
    return least if least == most else f"{least} to {most}"


def _each_tank(her: "Assessment") -> Iterator[Cells]:
    need, write = her.need, her.boat.units.write
    fitted, low = her.full_water - her.blown_water, her.blown_water
    for k, tank in enumerate(her.boat.tanks):
        full = float((low[k] + need.takes[k]) / her.floater.tanks.capacities[k])
        takes = write(float(need.takes[k]), "volume")
        yield [tank.name, write(float(fitted[k]), "volume"), takes, words.share(full)]
    full = words.filling_words(her, low + need.takes)
    yield ["together", write(need.fitted, "volume"), write(float(need.takes.sum()), "volume"), full]


def tank_place(her: "Assessment") -> Placed:
    """Return what is to be said of where the tank water lies: the same wherever it is said."""
    off = her.boat.units.write(abs(her.need.offset), "length")
    trim, tip = her.lowest.trim_angle, tip_of(her)
    if words.is_zero(off):
        return "right"
    is_little = words.trim(her.boat, tip) == "level"
    if is_little or max(abs(trim), abs(tip)) <= limit_of("trim-dived", her.boat).value:
        return "little"
    if any(one.key == "tank-offset" and mend_kind(one) == "leave-tanks" for one in her.checked):
        return "others"
    return "she is off" if tip * trim <= 0 or abs(tip) < OWN * abs(trim) else "move"


def _where(her: "Assessment") -> str:
    """Return where the tank water lies, what that does, and what would mend it."""
    boat, need, write = her.boat, her.need, her.boat.units.write
    at = boat.place(float(need.water_place[0]))
    off = write(abs(need.offset), "length")
    forward, back = words.way(need.offset)
    place = tank_place(her)
    if place == "right":
        return f"The centre of the tank water is {at}, where her waterline needs it."
    tip, low = tip_of(her), words.lowest_words(her)
    turns = words.trim(boat, tip)
    worth = "too little to see" if turns == "level" else f"by itself that gives {turns} dived"
    start = f"The centre of the tank water is {at}, {off} too far {forward} for her waterline"
    shown = f"{start}: {worth}. {capital(low)}: {words.lies(her, her.lowest)}."
    if turns == "level":
        return shown
    if place == "little":
        most = limit_text(boat, limit_of("trim-dived", boat))
        return f"{shown} Both are within the limit of {most}: nothing to move."
    if place == "others":
        return f"{shown} Fixing her other faults fixes this too: leave the tanks where they are."
    if place == "she is off":
        return (
            f"{shown} She does not float on her waterline: put that right before you move a tank."
        )
    foam = foam_instead(need, words.ends(her))
    text = write(foam.volume, "volume") if foam else ""
    other = (
        f" {text} of foam above the waterline, {boat.place(foam.x)}, would do instead, and needs "
        "as much more ballast water."
        if foam and not words.is_zero(text)
        else ""
    )
    return f"{shown} Move the tanks {off} {back}.{other}"


def _moves(her: "Assessment") -> Iterator[Block]:
    boat, write = her.boat, her.boat.units.write
    mass, density = her.dived.displacement_mass, her.floater.density
    yield heading("Two moves")
    crossing = foam_across(MOVED, her.surfaced.waterplane_area, mass, density)
    if crossing:
        foam = write(crossing.volume, "volume")
        yield line(
            f"Across the waterline: {foam} of foam moved from just under to just above it lets her "
            f"float {write(crossing.sinks, 'length')} lower; dived only BG changes, by "
            f"+{write(crossing.gain, 'length')}. Remove lead until she floats as before, and she "
            f"needs {foam} more ballast water."
        )
    pair = pair_on_board(RAISED, boat, her.waterline, (mass, her.bg, density))
    if pair.lead > 0:
        yield line(
            f"In pairs: {write(pair.lead, 'mass')} of lead on the keel with "
            f"{write(pair.foam, 'volume')} of foam just under the waterline raise BG by "
            f"{write(RAISED, 'length')}; draught, trim and ballast water stay the same."
        )
