"""Why she tips, stands up and lies as deep as she does.

Sources: [floating-bodies]; [stability-masters]; metacentres: [naval-architecture-introduction].
"""

from math import asin
from typing import TYPE_CHECKING

import numpy as np

from trimdive.fact import Fact, fact
from trimdive.geometry.solids.moments import centroid
from trimdive.hydrostatics.equilibrium.named import how_full
from trimdive.hydrostatics.equilibrium.solve import levels_at
from trimdive.hydrostatics.equilibrium.tankwater import tank_water
from trimdive.why.spread import EXACT, spread_now, spread_of
from trimdive.why.why import Item, Why, density_in, figure, place_of, put_in, reasoned, shown

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.hydrostatics.equilibrium import State

UP = np.array([0.0, 0.0, 1.0])
SMALL = 2  # decimals more for short levers [-]


def trim_angle(her: "Assessment", at: "State") -> Why:
    """Return why she tips as she lies."""
    off = at.lcg - at.lcb
    values = (
        place_of(her, "x_G", at.lcg, means="place-of-g"),
        place_of(her, "x_B", at.lcb, means="place-of-b"),
        put_in("x_G − x_B", off, "length", finer=SMALL),
        put_in("BG", at.bg, "length", means="bg-as-she-lies", finer=SMALL),
    )
    return reasoned(
        "trim",
        answer=figure(abs(at.trim_angle), "angle"),
        result=asin(max(-1.0, min(1.0, off / at.bg))) if at.bg else 0.0,
        kind="angle",
        reason=fact("why-trim", trim=at.trim_angle),
        values=values,
        uncertainty=spread_now(her, at, "trim"),
    )


def bg(her: "Assessment", at: "State") -> Why:
    """Return why B lies so far over G as she lies."""
    up = at.rest.n
    kg = float(up @ np.array([0.0, at.tcg, at.kg]))  # K: the keel line where G stands over it
    kb = kg + at.bg
    values = (
        put_in("KB", kb, "length", means="b-on-plumb-line"),
        put_in("KG", kg, "length", means="g-on-plumb-line"),
    )
    return reasoned(
        "bg",
        answer=figure(at.bg, "length"),
        result=kb - kg,
        kind="length",
        reason=fact("why-bg", is_under=at.rest.under),
        values=values,
        uncertainty=spread_now(her, at, "bg"),
    )


def bg_upright(her: "Assessment", _: "State") -> Why:
    """Return why BG is what it is dived and upright, as the limit has it."""
    kb, kg = dived_heights(her)[:2]
    values = (
        put_in("KB", kb, "length", asks="kb-dived", means="b-dived"),
        put_in("KG", kg, "length", asks="kg-dived", means="g-dived"),
    )
    return reasoned(
        "bg-upright",
        answer=figure(her.bg, "length"),
        result=kb - kg,
        kind="length",
        reason=fact("why-bg-upright"),
        values=values,
        uncertainty=spread_of(her, "bg"),
    )


def dived_heights(her: "Assessment") -> tuple[float, float, float, float]:
    """Return KB and KG dived and upright [m], her tank water [m³], and its height [m]."""
    boat, waters = her.floater, her.dived.rest.waters
    water = tank_water(boat, waters, UP, levels_at(boat, waters, UP))
    total = boat.mass + boat.density * water.volume
    own = boat.gravity + boat.tree.centre
    kg = (boat.mass * own + boat.density * water.moment)[2] / total
    kb = float(boat.buoyancy[2] + boat.tree.centre[2])
    high = float(water.moment[2]) / water.volume if water.volume > 0 else 0.0
    return kb, float(kg), water.volume, high


def kb_dived(her: "Assessment", _: "State") -> Why:
    """Return the height of B with all of her under."""
    kb = dived_heights(her)[0]
    sums = _by_path(her)
    items = tuple(
        Item(name=name, figures=(shown(volume, "volume"), shown(high, "length")), origin=path)
        for path, name, volume, high in sums
    )
    return reasoned(
        "kb-dived",
        answer=figure(kb, "length"),
        result=sum(v * z for _, _, v, z in sums) / sum(v for _, _, v, _ in sums),
        kind="length",
        reason=fact("why-kb-dived"),
        heads=("V_i", "z_i"),
        items=items,
        uncertainty=EXACT,
    )


def _by_path(her: "Assessment") -> list[tuple[str, str, float, float]]:
    """Return path, name, volume [m³] and height [m] of everything that displaces, largest first."""
    found: dict[str, tuple[str, float, float]] = {}
    for body in her.bodies:
        name, volume, moment = found.get(body.path, (body.name, 0.0, 0.0))
        high = float(centroid(body.mesh)[2])
        found[body.path] = name, volume + body.volume, moment + body.volume * high
    rows = [(path, name, v, m / v) for path, (name, v, m) in found.items() if v]
    return sorted(rows, key=lambda one: -abs(one[2]))


def kg_dived(her: "Assessment", _: "State") -> Why:
    """Return the height of G dived, with the water in her tanks."""
    kg, water, high = dived_heights(her)[1:]
    own, z = her.masses.mass, float(her.masses.gravity[2])
    rho = her.floater.density
    values = (
        put_in("m", own, "mass", means="own-mass", asks="dry-mass"),
        put_in("z_G", z, "length", means="own-height", asks="z-of-g"),
        put_in("w", water, "volume", means="water-at-neutral"),
        put_in("z_w", high, "length", means="water-height"),
        density_in(her),
    )
    return reasoned(
        "kg-dived",
        answer=figure(kg, "length"),
        result=(own * z + rho * water * high) / (own + rho * water),
        kind="length",
        reason=fact("why-kg-dived"),
        values=values,
        uncertainty=EXACT,
    )


def gm_empty(her: "Assessment", _: "State") -> Why:
    """Return why she is so stiff on the surface."""
    return _gm(her.surfaced, "gm-empty", fact("why-gm-empty"), spread_of(her, "gm"))


def gm_least(her: "Assessment", _: "State") -> Why:
    """Return where on the way down she is least stiff, and why."""
    worst = her.down.least_gm.state
    reason = fact("why-gm-least", filling=how_full(her.floater, worst.rest.waters))
    return _gm(worst, "gm-least", reason, EXACT)


def _gm(at: "State", key: str, reason: Fact, uncertainty: Fact) -> Why:
    values = (
        put_in("BG", at.bg, "length", means="bg-as-she-lies"),
        put_in("BM_T", at.bm_t, "length", means="worth-of-breadth"),
        put_in("GG_V", at.free_surface_t, "length", means="slack-water"),
    )
    return reasoned(
        key,
        answer=figure(at.gm_t, "length"),
        result=at.bg + at.bm_t - at.free_surface_t,
        kind="length",
        reason=reason,
        values=values,
        uncertainty=uncertainty,
    )


def marks(her: "Assessment") -> list[tuple[str, float]]:
    """Return where her draughts are told: at her marks, else at both ends and the middle [m]."""
    if her.boat.marks:
        return [(mark.name, mark.x) for mark in her.boat.marks]
    if her.boat.regions:
        low, high = (float(x) for x in her.hull.envelope.bounds[:, 0])
    else:
        bounds = [body.mesh.bounds[:, 0] for body in her.bodies]
        low, high = min(float(b[0]) for b in bounds), max(float(b[1]) for b in bounds)
    return [("stern", low), ("middle", (low + high) / 2), ("bow", high)]


def draught(her: "Assessment", name: str) -> Why:
    """Return why she floats so deep at a mark, with her tanks blown."""
    x = dict(marks(her))[name]
    state = her.surfaced
    first, slope = state.draught(0.0), state.draught(1.0) - state.draught(0.0)
    rho = her.floater.density
    values = (
        put_in("M", state.displacement_mass, "mass", means="afloat-mass"),
        density_in(her),
        put_in("∇", state.displacement_mass / rho, "volume", means="volume-under"),
        put_in("T_0", first, "length"),
        put_in("tan θ", slope, ""),
        put_in("x", x, "length", means="place-of-mark", origin=fact("from-end", end="stern")),
    )
    return reasoned(
        f"draught/{name}",
        answer=figure(state.draught(x), "length"),
        result=first + slope * x,
        kind="length",
        reason=fact("why-draught"),
        values=values,
        uncertainty=spread_of(her, "draught", name),
    )
