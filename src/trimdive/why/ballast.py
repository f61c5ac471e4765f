"""Why she needs so many litres, where they must be, and what her tanks give.

Sources: [floating-bodies], twice: surfaced and dived. The rule of thumb: [practice].
"""

from typing import TYPE_CHECKING

import numpy as np

from trimdive.rest.named import how_full, share, weight
from trimdive.rest.solve import levels_at
from trimdive.rest.tankwater import tank_water
from trimdive.why.sureness import EXACT, sureness
from trimdive.why.why import Item, Value, Why, density_in, place_of, put_in, shown, source_of

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.lines.mesh import Floats
    from trimdive.rest import State

UP = np.array([0.0, 0.0, 1.0])
AS_WATER = 1000.0  # the rule of thumb's litre weighs a kilogram [kg/m³]
SHOWN = 12  # the largest of a sum that are told one by one; the rest together


def _all_volume(her: "Assessment") -> Value:
    says = "everything solid or sealed, quite under"
    return put_in(her, "∇_0", her.floater.volume, "volume", says=says)


def _own_mass(her: "Assessment") -> Value:
    return put_in(
        her, "m", her.floater.mass, "mass", says="her mass, no tank water", asks="dry-mass"
    )


def lift_left(her: "Assessment", at: "State") -> Why:
    """Return why she is so light or heavy with the water that is in her tanks."""
    full = float(at.rest.waters.sum())
    rho, boat = her.floater.density, her.floater
    lift = rho * (boat.volume - full) - boat.mass
    values = (
        density_in(her),
        _all_volume(her),
        put_in(her, "w", full, "volume", says="water in her tanks"),
        _own_mass(her),
    )
    how = "stays up: she is too light by that" if lift >= 0 else "sinks: she is too heavy by that"
    filled = share(how_full(boat, at.rest.waters))
    return Why(
        key="lift-left",
        question="Why is she so light, or so heavy?",
        answer=weight(her.boat, -lift),
        result=lift,
        kind="mass",
        says=f"With her tanks {filled} full and all of her under she {how}.",
        formula="m_lift = ρ (∇_0 − w) − m",
        values=values,
        heads=(),
        items=(),
        source=source_of("floating-bodies"),
        sure=sureness(her, "lift left"),
    )


def neutral(her: "Assessment", _: "State") -> Why:
    """Return at which filling she is neutral."""
    room = float(her.floater.tanks.capacities.sum())
    boat = her.floater
    values = (
        _all_volume(her),
        _own_mass(her),
        density_in(her),
        put_in(her, "V_t", room, "volume", says="what her tanks hold, dead air and all"),
    )
    return Why(
        key="neutral-filling",
        question="Why is she neutral at just that filling?",
        answer=share(her.neutral),
        result=(boat.volume - boat.mass / boat.density) / room,
        kind="percent",
        says="So full, she weighs as much as the water she pushes aside. Above 100 % her tanks "
        "are too small, or she is too light.",
        formula="f = {∇_0 − m / ρ|Σ V_t}",
        values=values,
        heads=(),
        items=(),
        source=source_of("floating-bodies"),
        sure=EXACT,
    )


def _shares(her: "Assessment") -> tuple[Item, ...]:
    """Return what stands above the waterline: volume and place of each thing."""
    need = her.need
    few = SHOWN if len(need.shares) > SHOWN + 1 else SHOWN + 1
    items = [
        Item(
            name=one.name,
            texts=(shown(her, one.volume, "volume"), shown(her, her.boat.along(one.x), "length")),
            origin=one.path,
        )
        for one in need.shares[:few]
    ]
    if rest := need.shares[few:]:
        volume = sum(one.volume for one in rest)
        x = sum(one.volume * one.x for one in rest) / volume if volume else 0.0
        texts = shown(her, volume, "volume"), shown(her, her.boat.along(x), "length")
        items.append(Item(name=f"{len(rest)} smaller", texts=texts, origin=""))
    return tuple(items)


def litres_needed(her: "Assessment", _: "State") -> Why:
    """Return why she needs so much ballast water."""
    return _volume_above(
        her,
        "litres-needed",
        "Why does she need so much ballast water?",
        "Σ V_t (f_t − r_t) = V_above = Σ V_i",
        "Surfaced all this stands out of the water; to go under she must take in just as much "
        "water. What it weighs does not matter.",
    )


def volume_above(her: "Assessment", _: "State") -> Why:
    """Return what is above the waterline meant."""
    return _volume_above(
        her,
        "volume-above",
        "What stands above the waterline?",
        "V_above = Σ V_i",
        "Walls, foam and sealed space above the waterline meant; water inside the hull runs out "
        "and does not count.",
    )


def _volume_above(her: "Assessment", key: str, question: str, formula: str, says: str) -> Why:
    return Why(
        key=key,
        question=question,
        answer=her.boat.units.write(her.need.volume, "volume"),
        result=sum(one.volume for one in her.need.shares),
        kind="volume",
        says=says,
        formula=formula,
        values=(),
        heads=("V_i", "x_i"),
        items=_shares(her),
        source=source_of("floating-bodies"),
        sure=sureness(her, "need"),
    )


def litres_centre(her: "Assessment", _: "State") -> Why:
    """Return why the tank water must have its middle there."""
    need = her.need
    moment = sum(one.volume * one.x for one in need.shares)
    return Why(
        key="litres-centre",
        question="Why must the tank water have its middle there?",
        answer=her.boat.place(float(need.place[0])),
        result=moment / need.volume,
        kind="length",
        says="Tank water takes the place of what stood above the waterline; with its middle under "
        "the middle of that she dives level.",
        formula="x_above = {Σ V_i x_i|Σ V_i}",
        values=(),
        heads=("V_i", "x_i"),
        items=_shares(her),
        source=source_of("floating-bodies"),
        sure=sureness(her, "need at"),
    )


def _tank_middles(her: "Assessment") -> list[tuple[float, float]]:
    """Return of each tank the water it takes for the need [m³], and its place [m]."""
    boat, low = her.floater, her.blown_water
    high = low + her.need.takes

    def moments(waters: "Floats") -> "Floats":
        found = tank_water(boat, waters, UP, levels_at(boat, waters, UP))
        return np.asarray(waters * found.centroids[:, 0])

    moved = moments(high) - moments(low)
    return [
        (float(w), float(m / w) if w > 0 else 0.0)
        for w, m in zip(her.need.takes, moved, strict=True)
    ]


def tank_water_centre(her: "Assessment", _: "State") -> Why:
    """Return why the tank water has its middle there."""
    rows = _tank_middles(her)
    items = tuple(
        Item(
            name=tank.name,
            texts=(shown(her, w, "volume"), shown(her, her.boat.along(x), "length")),
            origin=f"tank[{k}]",
        )
        for k, (tank, (w, x)) in enumerate(zip(her.boat.tanks, rows, strict=True), 1)
    )
    return Why(
        key="tank-water-centre",
        question="Why has the tank water its middle there?",
        answer=her.boat.place(float(her.need.water_place[0])),
        result=sum(w * x for w, x in rows) / sum(w for w, _ in rows),
        kind="length",
        says="The water that each tank takes on the planned way down, and where it lies with the "
        "boat level.",
        formula="x_tank = {Σ w_t x_t|Σ w_t}",
        values=(),
        heads=("w_t", "x_t"),
        items=items,
        source=source_of("worked-out"),
        sure=EXACT,
    )


def off_plumb_line(her: "Assessment", _: "State") -> Why:
    """Return how far the tank water lies off its plumb line."""
    need = her.need
    values = (
        place_of(her, "x_tank", float(need.water_place[0]), asks="tank-water-centre"),
        place_of(her, "x_above", float(need.place[0]), asks="litres-centre"),
    )
    turned = " Measured from the bow the difference has the other sign."
    return Why(
        key="off-plumb-line",
        question="Why does the tank water lie off the plumb line?",
        answer=her.boat.units.write(abs(need.offset), "length"),
        result=float(need.water_place[0] - need.place[0]),
        kind="length",
        says="Above nothing the water lies too far forward and pulls the bow down dived, below "
        f"nothing the stern.{turned if her.boat.told_from == 'bow' else ''}",
        formula="d = x_tank − x_above",
        values=values,
        heads=(),
        items=(),
        source=source_of("floating-bodies"),
        sure=sureness(her, "need at"),
    )


def rule_of_thumb(her: "Assessment", _: "State") -> Why:
    """Return what the rule of thumb says, and why she needs another amount."""
    need = her.need
    thumb = need.mass_above / AS_WATER
    values = (
        put_in(her, "m_above", need.mass_above, "mass"),
        put_in(
            her, "ρ", AS_WATER, "density", says="a litre taken as a kilogram", origin="the rule"
        ),
    )
    return Why(
        key="rule-of-thumb",
        question="What does the rule of thumb say, and why is it off?",
        answer=her.boat.units.write(thumb, "volume"),
        result=thumb,
        kind="volume",
        says="It counts the kilograms above the waterline. What counts is their volume, "
        f"{her.boat.units.write(need.volume, 'volume')}: foam and sealed space have much of it and "
        "weigh little, glass and metal the other way.",
        formula="V_rule = {m_above|ρ}",
        values=values,
        heads=(),
        items=(),
        source=source_of("practice"),
        sure=EXACT,
    )


def _tank(her: "Assessment", name: str) -> int:
    return [tank.name for tank in her.boat.tanks].index(name)


def _litres_sure(her: "Assessment", path: str) -> str:
    """Return how sure what a tank holds is, as the boat file or the table of spreads has it."""
    sure = her.sure
    half = [
        s.half for s in sure.sources if s.what == "litres" and sure.things[s.thing].path == path
    ]
    if not half:
        return EXACT
    return f"± {her.boat.units.write(half[0], 'volume')}: fill it from a measuring jug to know."


def tank_volume(her: "Assessment", name: str) -> Why:
    """Return how much water a tank takes in between blown and full."""
    k = _tank(her, name)
    room = float(her.floater.tanks.capacities[k])
    low, high = float(her.blown_water[k]) / room, float(her.full_water[k]) / room
    values = (
        put_in(her, "V_t", room, "volume", origin=f"tank[{k + 1}], by its measures"),
        put_in(her, "f_t", high, "", origin=f"tank[{k + 1}]"),
        put_in(her, "r_t", low, "", origin=f"tank[{k + 1}]"),
    )
    return Why(
        key=f"tank-volume/{name}",
        question=f"Why does {name} take in so much?",
        answer=her.boat.units.write(room * (high - low), "volume"),
        result=room * (high - low),
        kind="volume",
        says="Its room, less the air that stays in it full and the water that stays in it blown.",
        formula="w_t = V_t (f_t − r_t)",
        values=values,
        heads=(),
        items=(),
        source=source_of("worked-out"),
        sure=_litres_sure(her, f"tank[{k + 1}]"),
    )


def tank_centre(her: "Assessment", name: str) -> Why:
    """Return where the water that a tank takes in has its middle."""
    k = _tank(her, name)
    boat, low, high = her.floater, her.blown_water, her.full_water
    before = tank_water(boat, low, UP, levels_at(boat, low, UP)).centroids[k, 0]
    after = tank_water(boat, high, UP, levels_at(boat, high, UP)).centroids[k, 0]
    x = (high[k] * after - low[k] * before) / (high[k] - low[k])
    heads = (
        Item(
            name="full",
            texts=(
                shown(her, float(high[k]), "volume"),
                shown(her, her.boat.along(after), "length"),
            ),
            origin=f"tank[{k + 1}]",
        ),
        Item(
            name="blown, taken off",
            texts=(
                shown(her, float(low[k]), "volume"),
                shown(her, her.boat.along(before), "length"),
            ),
            origin=f"tank[{k + 1}]",
        ),
    )
    return Why(
        key=f"tank-centre/{name}",
        question=f"Why has the water in {name} its middle there?",
        answer=her.boat.place(float(x)),
        result=float(x),
        kind="length",
        says="The middle of what it takes in between blown and full, boat level.",
        formula="x_t = {Σ V_i x_i|Σ V_i}",
        values=(),
        heads=("V_i", "x_i"),
        items=heads,
        source=source_of("worked-out"),
        sure=EXACT,
    )
