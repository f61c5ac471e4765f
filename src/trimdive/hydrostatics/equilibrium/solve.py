"""Lets a boat go and finds where she comes to rest: a trust-region step on her energy.

Plain Newton fails in places and follows rests that would not hold; here each step must lower
the energy, and a rest that is no least of it is left along the way in which she topples.
"""

import numpy as np

from trimdive.errors import BalanceError
from trimdive.geometry.lines.mesh import Floats
from trimdive.geometry.solids.cut import WIDTH, axes_in_plane
from trimdive.geometry.solids.kernel import inner, kernel
from trimdive.geometry.solids.tree import span
from trimdive.hydrostatics.equilibrium.energy import (
    FLOAT,
    HANG,
    evaluate,
    level_for,
    tank_level,
    whole_mass,
)
from trimdive.hydrostatics.equilibrium.problem import Floater
from trimdive.records import record

FORCE_TOLERANCE = 1e-10  # on buoyancy less weight, of the weight [-]; a hundredth of a mg on 100 g
LEVER_TOLERANCE = 1e-10  # on the distance of G from the vertical through B, of the length [-]
NEUTRAL = 2e-5  # kg; closer to neutral than this counts as wholly under: a fiftieth of a gram
MOST_STEPS = 400  # flat rests, such as of a ball, take a hundred and more; others fewer than ten
NUDGES = (0.03, 0.12)  # rad; turned so far when left on a knife's edge
WAYS = 16  # directions in which she is tried there [-]
LOWER = 10.0  # the energy beside a knife's edge is lower by more than so much rounding [-]
FLAT = 1e-9  # of weight times length: a stiffness of less says nothing [-]
FIRST_RADIUS = 0.2  # rad; how far the first step may turn her
HEAVE = 8.0  # a heave of an eighth of her length weighs like a turn of one radian [-]
NOISE = 1e-13  # of weight times length: differences of energy below this are rounding [-]
FIRST_LEVEL = 1e-9  # of her volume, on that below the level from which she is let go [-]
WORTH_TAKING = 1e-4  # of the gain foretold: with less the step is not taken [-]


@record
class Rest:
    """Where she rests, in boat axes; heights are along ``n`` from the origin."""

    n: Floats  # unit vector up, shape (3,) [-]
    d: float  # water surface n·r = d [m]; when wholly under, a surface just above her
    under: bool  # wholly under water
    excess: float  # weight less the buoyancy of all of her, when under [kg]
    waters: Floats  # in the tanks, shape (t,) [m³]
    levels: Floats  # of that water along n, shape (t,) [m]
    stiffness: Floats  # about forward and port axes, heave free, shape (2, 2) [kg m]
    stable: bool  # no attitude beside it has less energy
    residual: Floats  # moments and force left, shape (3,) [kg m, kg m, kg]
    steps: int  # iterations [-]


@inner
def _step(stiffness: Floats, slope: Floats, shift: float, scale: float, step: Floats) -> bool:
    """Solve (H + shift·scale²) step = -slope by Cholesky; False where that is not positive."""
    a = stiffness[0, 0] + shift
    if a <= 0.0:
        return False
    b, c = stiffness[0, 1] / a, stiffness[0, 2] / a
    d = stiffness[1, 1] + shift - b * stiffness[0, 1]
    if d <= 0.0:
        return False
    e = stiffness[1, 2] - b * stiffness[0, 2]
    f = stiffness[2, 2] + shift * scale * scale - c * stiffness[0, 2] - e * e / d
    if f <= 0.0:
        return False
    y1 = -slope[1] + b * slope[0]
    step[2] = (-slope[2] + c * slope[0] - e / d * y1) / f
    step[1] = (y1 - e * step[2]) / d
    step[0] = -slope[0] / a - b * step[1] - c * step[2]
    return True


@inner
def _trusted_step(
    stiffness: Floats, slope: Floats, radius: float, scale: float, step: Floats
) -> None:
    """Write the step that lowers the quadratic model most within ``radius`` (heave times scale)."""
    pull = np.sqrt(slope[0] ** 2 + slope[1] ** 2 + (slope[2] / scale) ** 2)
    floor = abs(stiffness[0, 0]) + abs(stiffness[1, 1]) + abs(stiffness[2, 2]) / scale**2
    floor = 1e-9 * (floor + pull / radius) + 1e-300
    low, shift = 0.0, 0.0
    for _ in range(200):
        if _step(stiffness, slope, shift, scale, step):
            size = np.sqrt(step[0] ** 2 + step[1] ** 2 + (scale * step[2]) ** 2)
            if size <= radius:
                break
        low = shift
        shift = max(4.0 * shift, floor)
    if shift == 0.0:
        return
    trial, high = np.empty(3), shift
    for _ in range(12):
        middle = 0.5 * (low + high)
        fits = _step(stiffness, slope, middle, scale, trial)
        size = np.sqrt(trial[0] ** 2 + trial[1] ** 2 + (scale * trial[2]) ** 2)
        if fits and size <= radius:
            high = middle
            step[0], step[1], step[2] = trial[0], trial[1], trial[2]
            if size >= 0.8 * radius:
                break
        else:
            low = middle


@inner
def _turned(n: Floats, by_forward: float, by_port: float) -> Floats:
    """Return ``n`` moved along forward and port by these angles, still of unit length."""
    forward, port = axes_in_plane(n)
    size = np.sqrt(by_forward * by_forward + by_port * by_port)
    part = np.sin(size) / size if size > 0.0 else 1.0
    turned, square = np.empty(3), 0.0
    for i in range(3):
        turned[i] = np.cos(size) * n[i] + part * (by_forward * forward[i] + by_port * port[i])
        square += turned[i] * turned[i]
    for i in range(3):
        turned[i] /= np.sqrt(square)
    return turned


@kernel
def reduced(stiffness: Floats) -> Floats:
    """Return the stiffness about forward and port with heave free, shape (2, 2) [kg m]."""
    result = np.empty((2, 2))
    for i in range(2):
        for j in range(2):
            result[i, j] = stiffness[i, j]
            if stiffness[2, 2] > 0.0:
                result[i, j] -= stiffness[i, 2] * stiffness[2, j] / stiffness[2, 2]
    return result


@kernel
def _softest(k: Floats) -> tuple[float, float, float]:
    """Return the least eigenvalue of a 2 × 2 stiffness and its direction."""
    mean, half = 0.5 * (k[0, 0] + k[1, 1]), 0.5 * (k[0, 0] - k[1, 1])
    least = mean - np.sqrt(half * half + k[0, 1] * k[0, 1])
    x, y = k[0, 1], least - k[0, 0]
    if abs(x) + abs(y) == 0.0:
        x, y = (1.0, 0.0) if k[0, 0] <= k[1, 1] else (0.0, 1.0)
    size = np.sqrt(x * x + y * y)
    return least, x / size, y / size


@inner
def _gain(slope: Floats, stiffness: Floats, step: Floats) -> float:
    """Return how much a step should lower the energy, by its slope and stiffness [kg m]."""
    gain = 0.0
    for i in range(3):
        gain -= slope[i] * step[i]
        for j in range(3):
            gain -= 0.5 * step[i] * stiffness[i, j] * step[j]
    return gain


@inner
def _trusted_next(ratio: float, size: float, radius: float) -> float:
    """Return how far the next step may go, by how well the last one was foretold."""
    if ratio > 0.7:
        return min(max(radius, 2.5 * size), 0.8)
    return 0.3 * size if ratio < 0.2 else radius


def reach(boat: Floater) -> float:
    """Return how far she extends along her longest axis [m]; along x, but for odd bodies."""
    boxes = boat.tree.boxes
    return 2.0 * float((np.abs(boxes[:, :3]) + boxes[:, 3:]).max())


@kernel
def _lower_beside(
    boat: Floater, waters: Floats, mode: int, at: tuple[Floats, float, float], levels: Floats,
    stiffness: Floats, enough: float,
) -> tuple[Floats, float, float]:  # fmt: skip
    """Return n, d and energy of the lowest place tried around a knife's edge, or the edge itself.

    Both ways along the softest axis come first. Where they lead nowhere, as beside a rest that has
    just lost its hold and whose curvature says nothing, every way is tried.

    Args:
        boat: The boat.
        waters: Water in each tank, shape (t,) [m³].
        mode: FLOAT or HANG [-].
        at: The edge: unit vector up, height of the water, energy [-, m, kg m].
        levels: Of the water in the tanks, shape (t,) [m].
        stiffness: There, shape (3, 3) [kg m, kg, kg/m].
        enough: Lower by this is more than rounding [kg m].
    """
    n, d, energy = at
    low_n, low_d, low = n, d, energy
    slope, other, levels = np.empty(3), np.empty((3, 3)), levels.copy()
    _, x, y = _softest(reduced(stiffness))
    for k in range(WAYS):
        if k == 2 and low < energy - enough:
            break  # along the softest axis it goes down, as beside any saddle
        turn = np.pi * ((k & 1) + (k >> 1) * 2.0 / WAYS)
        a, b = np.cos(turn) * x - np.sin(turn) * y, np.sin(turn) * x + np.cos(turn) * y
        for size in NUDGES:
            n2, d2 = _turned(n, size * a, size * b), d
            if stiffness[2, 2] > 0.0:
                d2 -= size * (stiffness[0, 2] * a + stiffness[1, 2] * b) / stiffness[2, 2]
            energy2 = evaluate(boat, waters, mode, n2, d2, levels, slope, other)
            if energy2 < low:
                low_n, low_d, low = n2, d2, energy2
    return low_n, low_d, low


@kernel
def settle(
    boat: Floater, waters: Floats, mode: int, n: Floats, d: float, levels: Floats, size: float,
    most: int,
) -> tuple[Floats, float, float, Floats, Floats, bool, int]:  # fmt: skip
    """Let her go, and return n, d, energy, slope, stiffness, whether she rests there, and steps.

    Args:
        boat: The boat.
        waters: Water in each tank, shape (t,) [m³].
        mode: FLOAT or HANG [-].
        n: Unit vector up to begin from, shape (3,) [-].
        d: Height of the water from the tree's centre [m].
        levels: Of the water in the tanks: first guess in, kept up, shape (t,) [m].
        size: How far she extends [m].
        most: Steps that she is given [-].
    """
    total = whole_mass(boat, waters)
    scale, noise = HEAVE / size, NOISE * total * size
    slope, stiffness, step = np.empty(3), np.empty((3, 3)), np.zeros(3)
    slope2, stiffness2 = np.empty(3), np.empty((3, 3))
    energy = evaluate(boat, waters, mode, n, d, levels, slope, stiffness)
    radius = FIRST_RADIUS
    for count in range(most):
        lever = max(abs(slope[0]), abs(slope[1])) / total
        if abs(slope[2]) <= FORCE_TOLERANCE * total and lever <= LEVER_TOLERANCE * boat.length:
            return n, d, energy, slope, stiffness, True, count
        _trusted_step(stiffness, slope, radius, scale, step)
        n2, d2 = _turned(n, step[0], step[1]), d + step[2]
        energy2 = evaluate(boat, waters, mode, n2, d2, levels, slope2, stiffness2)
        ratio = (energy - energy2 + noise) / (_gain(slope, stiffness, step) + noise)
        far = np.sqrt(step[0] ** 2 + step[1] ** 2 + (scale * step[2]) ** 2)
        radius = _trusted_next(ratio, far, radius)
        if ratio > WORTH_TAKING:
            n, d, energy = n2, d2, energy2
            slope, slope2 = slope2, slope
            stiffness, stiffness2 = stiffness2, stiffness
        if radius < 1e-13:
            break
    return n, d, energy, slope, stiffness, False, most


def _held(
    boat: Floater, waters: Floats, mode: int, n: Floats, d: float, levels: Floats, escape: bool
) -> tuple[Floats, float, Floats, Floats, bool, int]:
    """Return n, d, slope, stiffness, whether she holds, and steps; levels are kept up.

    With ``escape`` a rest that would not hold is left; without, it is returned as found.

    Raises:
        BalanceError: No rest was found.
    """
    size, steps = reach(boat), 0
    worth = (boat.mass + boat.density * float(waters.sum())) * size
    while True:
        n, d, energy, slope, stiffness, found, more = settle(
            boat, waters, mode, n, d, levels, size, MOST_STEPS - steps
        )
        steps += more
        if not found:
            what = f"no rest within {MOST_STEPS} steps; {abs(slope[2]) * 1e3:.3g} g out of balance"
            raise BalanceError(what, "balance", "Look for a part with an odd place or volume.")
        least, _, _ = _softest(reduced(stiffness))
        if least > FLAT * worth or not escape:
            return n, d, slope, stiffness, least > 0.0, steps
        enough = LOWER * NOISE * worth
        n2, d2, lower = _lower_beside(boat, waters, mode, (n, d, energy), levels, stiffness, enough)
        if lower >= energy - enough:
            return n, d, slope, stiffness, True, steps
        n, d, steps = n2, d2, steps + 1


def rest(
    boat: Floater,
    waters: Floats,
    *,
    start: Rest | None = None,
    n: Floats | None = None,
    hanging: bool = False,
    escape: bool = True,
) -> Rest:
    """Return where she rests with this water in her tanks.

    Args:
        boat: What comes to rest.
        waters: Water in each tank, shape (t,) [m³].
        start: A rest nearby, to begin from.
        n: Direction up to begin from, shape (3,) [-]; upright by default.
        hanging: Hold her wholly under even where she would float.
        escape: Leave a rest that would not hold.

    Raises:
        BalanceError: No rest was found.
    """
    centre = boat.tree.centre
    total = boat.mass + boat.density * float(waters.sum())
    excess = total - boat.density * boat.volume
    under = hanging or excess > -NEUTRAL
    up = np.array([0.0, 0.0, 1.0]) if n is None else n
    levels = np.zeros(len(waters))
    d = 0.0
    if start is not None and n is None:
        up = start.n
        d = start.d - float(up @ centre)
        levels = start.levels - float(up @ centre)
    elif not under:
        bounds = (-2.0 * boat.length, 2.0 * boat.length, 0.0)
        volume = total / boat.density
        close, out = FIRST_LEVEL * volume, np.empty(WIDTH)
        d = float(level_for(boat.tree, boat.tree.roots, volume, up, bounds, close, out))
    mode = HANG if under else FLOAT
    up, d, slope, stiffness, holds, steps = _held(boat, waters, mode, up, d, levels.copy(), escape)
    return Rest(
        n=up,
        d=(_top(boat, up) if under else d) + float(up @ centre),
        under=under,
        excess=excess,
        waters=waters,
        levels=levels_at(boat, waters, up),
        stiffness=reduced(stiffness),
        stable=holds,
        residual=slope,
        steps=steps,
    )


@kernel
def _levels(boat: Floater, waters: Floats, n: Floats) -> Floats:
    """Return the water level of every tank along ``n``; empty and full ones at their ends."""
    levels, out = np.zeros(len(waters)), np.empty(WIDTH)
    for k in range(len(waters)):
        low, high = span(boat.tanks.tree, k, n)
        full = boat.tanks.volumes[k] * boat.tanks.shares[k]
        if waters[k] <= 0.0:
            levels[k] = low
        elif waters[k] >= full * (1.0 - 1e-12) or boat.tanks.pistons[k] > 0.0:
            levels[k] = high
        else:
            levels[k] = tank_level(boat.tanks, k, waters[k], n, 0.5 * (low + high), out)
    return levels


def levels_at(boat: Floater, waters: Floats, n: Floats) -> Floats:
    """Return the water level of every tank along ``n`` from the origin, shape (t,) [m]."""
    return np.asarray(_levels(boat, waters, n) + float(n @ boat.tree.centre))


def _top(boat: Floater, n: Floats) -> float:
    """Return a height along ``n`` that nothing of her stands above, from the tree's centre [m]."""
    boxes = boat.tree.boxes
    return float((boxes[:, :3] @ n + boxes[:, 3:] @ np.abs(n)).max())
