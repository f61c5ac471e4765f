"""Why she needs so many litres, where they must be, and what her tanks give.

Sources: [floating-bodies], twice: surfaced and dived. The rule of thumb: [practice].
"""

from typing import TYPE_CHECKING

import numpy as np

from trimdive.data import constant
from trimdive.fact import Fact, fact
from trimdive.hydrostatics.equilibrium.named import how_full
from trimdive.hydrostatics.equilibrium.solve import levels_at
from trimdive.hydrostatics.equilibrium.tankwater import tank_water
from trimdive.why.spread import EXACT, spread_now, spread_of
from trimdive.why.why import (
    Item,
    Value,
    Why,
    density_in,
    figure,
    place_of,
    put_in,
    reasoned,
    shown,
    shown_place,
)

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.geometry.lines.mesh import Floats
    from trimdive.hydrostatics.equilibrium import State

UP = np.array([0.0, 0.0, 1.0])
SHOWN = 12  # the largest of a sum that are told one by one; the rest together


def _all_volume(her: "Assessment") -> Value:
    return put_in("∇_0", her.floater.volume, "volume", means="all-volume")


def _own_mass(her: "Assessment") -> Value:
    return put_in("m", her.floater.mass, "mass", means="own-mass", asks="dry-mass")


def light_by(her: "Assessment", at: "State") -> Why:
    """Return why she is so light or heavy with the water that is in her tanks."""
    full = float(at.rest.waters.sum())
    rho, boat = her.floater.density, her.floater
    lift = rho * (boat.volume - full) - boat.mass
    values = (
        density_in(her),
        _all_volume(her),
        put_in("w", full, "volume", means="tank-water"),
        _own_mass(her),
    )
    return reasoned(
        "light-or-heavy",
        answer=fact("figure-weight", excess=-lift),
        result=lift,
        kind="mass",
        reason=fact("why-light-by", filling=how_full(boat, at.rest.waters), stays=lift >= 0),
        values=values,
        uncertainty=spread_now(her, at, "excess"),
    )


def neutral(her: "Assessment", _: "State") -> Why:
    """Return at which filling she is neutral."""
    room = float(her.floater.tanks.capacities.sum())
    boat = her.floater
    values = (
        _all_volume(her),
        _own_mass(her),
        density_in(her),
        put_in("V_t", room, "volume", means="tank-room"),
    )
    return reasoned(
        "neutral-filling",
        answer=fact("figure-share", share=her.neutral),
        result=(boat.volume - boat.mass / boat.density) / room,
        kind="percent",
        reason=fact("why-neutral"),
        values=values,
        uncertainty=EXACT,
    )


def _shares(her: "Assessment") -> tuple[Item, ...]:
    """Return what stands above the waterline: volume and place of each thing."""
    need = her.need
    few = SHOWN if len(need.shares) > SHOWN + 1 else SHOWN + 1
    items = [
        Item(name=one.name, figures=_at(one.volume, one.x), origin=one.path)
        for one in need.shares[:few]
    ]
    if rest := need.shares[few:]:
        volume = sum(one.volume for one in rest)
        x = sum(one.volume * one.x for one in rest) / volume if volume else 0.0
        name = fact("others-smaller", count=len(rest))
        items.append(Item(name=name, figures=_at(volume, x), origin=""))
    return tuple(items)


def _at(volume: float, x: float) -> tuple[Fact, Fact]:
    """Return a volume [m³] and where it lies, forward of the stern [m]."""
    return shown(volume, "volume"), shown_place(x)


def litres_needed(her: "Assessment", _: "State") -> Why:
    """Return why she needs so much ballast water."""
    return _volume_above(her, "litres-needed", fact("why-litres"))


def volume_above(her: "Assessment", _: "State") -> Why:
    """Return what is above the waterline meant."""
    return _volume_above(her, "volume-above", fact("why-volume-above"))


def _volume_above(her: "Assessment", key: str, reason: Fact) -> Why:
    return reasoned(
        key,
        answer=figure(her.need.volume, "volume"),
        result=sum(one.volume for one in her.need.shares),
        kind="volume",
        reason=reason,
        heads=("V_i", "x_i"),
        items=_shares(her),
        uncertainty=spread_of(her, "need"),
    )


def litres_centre(her: "Assessment", _: "State") -> Why:
    """Return why the tank water must have its middle there."""
    need = her.need
    moment = sum(one.volume * one.x for one in need.shares)
    return reasoned(
        "litres-centre",
        answer=fact("figure-place", x=float(need.place[0])),
        result=moment / need.volume,
        kind="length",
        reason=fact("why-litres-centre"),
        heads=("V_i", "x_i"),
        items=_shares(her),
        uncertainty=spread_of(her, "need at"),
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
        Item(name=tank.name, figures=_at(w, x), origin=f"tank[{k}]")
        for k, (tank, (w, x)) in enumerate(zip(her.boat.tanks, rows, strict=True), 1)
    )
    return reasoned(
        "tank-water-centre",
        answer=fact("figure-place", x=float(her.need.water_place[0])),
        result=sum(w * x for w, x in rows) / sum(w for w, _ in rows),
        kind="length",
        reason=fact("why-tank-water-centre"),
        heads=("w_t", "x_t"),
        items=items,
        uncertainty=EXACT,
    )


def off_plumb_line(her: "Assessment", _: "State") -> Why:
    """Return how far the tank water lies off its plumb line."""
    need = her.need
    values = (
        place_of(her, "x_tank", float(need.water_place[0]), asks="tank-water-centre"),
        place_of(her, "x_above", float(need.place[0]), asks="litres-centre"),
    )
    return reasoned(
        "tank-water-offset",
        answer=figure(abs(need.offset), "length"),
        result=float(need.water_place[0] - need.place[0]),
        kind="length",
        reason=fact("why-off-plumb-line", entered_from=her.boat.entered_from),
        values=values,
        uncertainty=spread_of(her, "need at"),
    )


def rule_of_thumb(her: "Assessment", _: "State") -> Why:
    """Return what the rule of thumb says, and why she needs another amount."""
    need = her.need
    thumb = need.rule_litres
    rule = fact("from-rule")
    values = (
        put_in("m_above", need.mass_above, "mass"),
        put_in("ρ", constant("rule-of-thumb"), "density", means="litre-as-kilogram", origin=rule),
    )
    return reasoned(
        "rule-of-thumb",
        answer=figure(thumb, "volume"),
        result=thumb,
        kind="volume",
        reason=fact("why-rule-of-thumb", needed=need.volume),
        values=values,
        uncertainty=EXACT,
    )


def _tank(her: "Assessment", name: str) -> int:
    return [tank.name for tank in her.boat.tanks].index(name)


def _spread_of_litres(her: "Assessment", path: str) -> Fact:
    """Return how sure what a tank holds is, as the boat file or the table of spreads has it."""
    uncertainty = her.uncertainty
    half = [
        s.half
        for s in uncertainty.sources
        if s.what == "litres" and uncertainty.things[s.thing].path == path
    ]
    return fact("spread-of-litres", half=half[0]) if half else EXACT


def tank_volume(her: "Assessment", name: str) -> Why:
    """Return how much water a tank takes in between blown and full."""
    k = _tank(her, name)
    room = float(her.floater.tanks.capacities[k])
    low, high = float(her.blown_water[k]) / room, float(her.full_water[k]) / room
    path = f"tank[{k + 1}]"
    values = (
        put_in("V_t", room, "volume", origin=fact("from-measures", path=path)),
        put_in("f_t", high, "", origin=path),
        put_in("r_t", low, "", origin=path),
    )
    return reasoned(
        f"tank-volume/{name}",
        answer=figure(room * (high - low), "volume"),
        result=room * (high - low),
        kind="volume",
        reason=fact("why-tank-volume"),
        values=values,
        uncertainty=_spread_of_litres(her, path),
    )


def tank_centre(her: "Assessment", name: str) -> Why:
    """Return where the water that a tank takes in has its middle."""
    k = _tank(her, name)
    boat, low, high = her.floater, her.blown_water, her.full_water
    before = tank_water(boat, low, UP, levels_at(boat, low, UP)).centroids[k, 0]
    after = tank_water(boat, high, UP, levels_at(boat, high, UP)).centroids[k, 0]
    x = (high[k] * after - low[k] * before) / (high[k] - low[k])
    path = f"tank[{k + 1}]"
    items = (
        Item(name=fact("tank-full"), figures=_at(float(high[k]), after), origin=path),
        Item(name=fact("tank-blown"), figures=_at(float(low[k]), before), origin=path),
    )
    return reasoned(
        f"tank-centre/{name}",
        answer=fact("figure-place", x=float(x)),
        result=float(x),
        kind="length",
        reason=fact("why-tank-centre"),
        heads=("V_i", "x_i"),
        items=items,
        uncertainty=EXACT,
    )
