"""Why she tips, stands up and lies as deep as she does.

Sources: [floating-bodies]; [stability-masters]; metacentres: [naval-architecture-introduction].
"""

from math import asin
from typing import TYPE_CHECKING

import numpy as np

from trimdive.bodies.moments import centroid
from trimdive.rest.named import how_full, is_same, share, trim
from trimdive.rest.solve import levels_at
from trimdive.rest.tankwater import tank_water
from trimdive.why.sureness import EXACT, sureness
from trimdive.why.why import Item, Why, density_in, place_of, put_in, shown, source_of

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.rest import State

UP = np.array([0.0, 0.0, 1.0])
SMALL = 2  # decimals more for short levers [-]


def tips_by(her: "Assessment", at: "State") -> Why:
    """Return why she tips as she lies."""
    off = at.lcg - at.lcb
    says = trim(her.boat, at.trim_angle)
    values = (
        place_of(her, "x_G", at.lcg, says="place of G, tank water and all"),
        place_of(her, "x_B", at.lcb, says="place of B as she lies"),
        put_in(her, "x_G − x_B", off, "length", finer=SMALL),
        put_in(her, "BG", at.bg, "length", says="how far B stands over G as she lies", finer=SMALL),
    )
    return Why(
        key="tips-by",
        question="Why is her trim so?",
        answer=her.boat.units.write(abs(at.trim_angle), "angle"),
        result=asin(max(-1.0, min(1.0, off / at.bg))) if at.bg else 0.0,
        kind="angle",
        says=f"She turns until her weight, at G, and her lift, at B, are on one plumb line: "
        f"{says}.",
        formula="θ = arcsin {x_G − x_B|BG}",
        values=values,
        heads=(),
        items=(),
        source=source_of("floating-bodies"),
        sure=_tip_sure(her, at),
    )


def _tip_sure(her: "Assessment", at: "State") -> str:
    """Return how sure a trim is: worked out for the two ends of the dive."""
    if is_same(at.rest.waters, her.blown_water):
        return sureness(her, "trim surfaced")
    if is_same(at.rest.waters, her.lowest.rest.waters):
        return sureness(her, "trim dived")
    return f"Calculated for her {her.lowest_name}: {sureness(her, 'trim dived')}"


def stands_up_by(her: "Assessment", at: "State") -> Why:
    """Return why B lies so far over G as she lies."""
    up = at.rest.n
    kg = float(up @ np.array([0.0, at.tcg, at.kg]))  # K: the keel line where G stands over it
    kb = kg + at.bg
    where = "wholly under" if at.rest.under else "afloat"
    values = (
        put_in(
            her,
            "KB",
            kb,
            "length",
            says="height of B along the plumb line, over the keel line at G",
        ),
        put_in(her, "KG", kg, "length", says="height of G along it, tank water and all"),
    )
    return Why(
        key="stands-up-by",
        question="Why does B lie so far over G?",
        answer=her.boat.units.write(at.bg, "length"),
        result=kb - kg,
        kind="length",
        says=f"As she lies, {where}. Wholly under nothing else keeps her upright; afloat her "
        "waterplane helps, and BG may be below zero. Lead lower, foam higher, or less weight high "
        "up make it more.",
        formula="BG = KB − KG",
        values=values,
        heads=(),
        items=(),
        source=source_of("stability-masters"),
        sure=sureness(her, "bg"),
    )


def bg_upright(her: "Assessment", _: "State") -> Why:
    """Return why BG is what it is dived and upright, as the limit has it."""
    kb, kg = dived_heights(her)[:2]
    values = (
        put_in(her, "KB", kb, "length", asks="kb-dived", says="height of B, all of her under"),
        put_in(her, "KG", kg, "length", asks="kg-dived", says="height of G, tank water and all"),
    )
    return Why(
        key="bg-upright",
        question="Why is BG so much, dived and upright?",
        answer=her.boat.units.write(her.bg, "length"),
        result=kb - kg,
        kind="length",
        says="Dived nothing else keeps her upright: her weight hangs so far below her lift. Lead "
        "lower, foam higher, or less weight high up make it more.",
        formula="BG = KB − KG",
        values=values,
        heads=(),
        items=(),
        source=source_of("stability-masters"),
        sure=sureness(her, "bg"),
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
        Item(
            name=name,
            texts=(shown(her, volume, "volume"), shown(her, high, "length")),
            origin=path,
        )
        for path, name, volume, high in sums
    )
    return Why(
        key="kb-dived",
        question="Why is B so high when she is under?",
        answer=her.boat.units.write(kb, "length"),
        result=sum(v * z for _, _, v, z in sums) / sum(v for _, _, v, _ in sums),
        kind="length",
        says="B is the middle of everything solid or sealed. Water inside the hull lifts nothing.",
        formula="KB = {Σ V_i z_i|Σ V_i}",
        values=(),
        heads=("V_i", "z_i"),
        items=items,
        source=source_of("stability-masters"),
        sure=EXACT,
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
        put_in(her, "m", own, "mass", says="her mass, no tank water", asks="dry-mass"),
        put_in(her, "z_G", z, "length", says="its height", asks="z-of-g"),
        put_in(her, "w", water, "volume", says="water in the tanks, where she is neutral"),
        put_in(her, "z_w", high, "length", says="height of its middle, boat level"),
        density_in(her),
    )
    return Why(
        key="kg-dived",
        question="Why is G so high when she is under?",
        answer=her.boat.units.write(kg, "length"),
        result=(own * z + rho * water * high) / (own + rho * water),
        kind="length",
        says="Tank water weighs too: high tanks lift G, low ones bring it down.",
        formula="KG = {m z_G + ρ w z_w|m + ρ w}",
        values=values,
        heads=(),
        items=(),
        source=source_of("stability-masters"),
        sure=EXACT,
    )


def gm_empty(her: "Assessment", _: "State") -> Why:
    """Return why she is so stiff on the surface."""
    return _gm(her, her.surfaced, "gm-empty", "with her tanks blown", sureness(her, "gm"))


def gm_least(her: "Assessment", _: "State") -> Why:
    """Return where on the way down she is least stiff, and why."""
    worst = her.down.least_gm.state
    full = share(how_full(her.floater, worst.rest.waters))
    where = f"with her tanks {full} full: the least of the way down"
    return _gm(her, worst, "gm-least", where, EXACT)


def _gm(her: "Assessment", at: "State", key: str, where: str, sure: str) -> Why:
    values = (
        put_in(her, "BG", at.bg, "length", says="how far B stands over G as she lies"),
        put_in(
            her, "BM_T", at.bm_t, "length", says="what her breadth in the waterline is worth"
        ),
        put_in(her, "GG_V", at.free_surface_t, "length", says="what slack tank water takes off"),
    )  # fmt: skip
    return Why(
        key=key,
        question="Why is she so stiff, or so tender?",
        answer=her.boat.units.write(at.gm_t, "length"),
        result=at.bg + at.bm_t - at.free_surface_t,
        kind="length",
        says=f"GM, {where}. Only what is solid or sealed counts in the waterline: a wet hull gives "
        "little.",
        formula="GM_T = BG + BM_T − GG_V",
        values=values,
        heads=(),
        items=(),
        source=source_of("naval-architecture-introduction"),
        sure=sure,
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
        put_in(her, "M", state.displacement_mass, "mass", says="mass of boat and dead water"),
        density_in(her),
        put_in(her, "∇", state.displacement_mass / rho, "volume", says="so much goes under, M / ρ"),
        put_in(her, "T_0", first, "length"),
        put_in(her, "tan θ", slope, ""),
        put_in(her, "x", x, "length", says="place of the mark", origin="from the stern"),
    )
    return Why(
        key=f"draught/{name}",
        question=f"Why does she float so deep at {name}?",
        answer=her.boat.units.write(state.draught(x), "length"),
        result=first + slope * x,
        kind="length",
        says="She sinks in and turns until what is under pushes aside her own mass of water, with "
        "its middle on one plumb line with G. That fixes T_0 and θ.",
        formula="T_x = T_0 + x tan θ,  ρ ∇ = M",
        values=values,
        heads=(),
        items=(),
        source=source_of("floating-bodies"),
        sure=sureness(her, "draught", name),
    )
