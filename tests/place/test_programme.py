"""Placing against hand, against a general linear solver, and against trying everything.

The relaxed programme is built a second time here, thing by thing, and given to scipy's linprog,
which is a general solver; small whole-numbered ones are tried out in full.
"""

from itertools import product
from math import pi, tan

import numpy as np
import pytest
from scipy.optimize import linprog
from tests.place.aims import NO_FOAM
from tests.rest.crate import crate

from trimdive.assessment import Assessment
from trimdive.boatfile.placing import Placing
from trimdive.edits.placing import Hindered, Placement, place
from trimdive.edits.task import task
from trimdive.placing.solve import Programme, answer, programme, shortfalls
from trimdive.placing.solve.solve import costs, is_solvable

RHO, LEAD = 999.1026, 11340.0
NET = 1 - RHO / LEAD  # of lead's mass that counts under water
POCKET = """
[[pocket]]
name = "{name}"
holds = "lead"
x_aft = {aft}
x_fore = {fore}
breadth = 60
z_bottom = 4
z_top = 12
"""


def pocket(name: str, x: float, half: float = 40) -> str:
    """Return a pocket for lead with its middle there [mm]."""
    return POCKET.format(name=name, aft=x - half, fore=x + half)


def light(more: str, grams: float = 100, x: float = 600) -> Assessment:
    """Return the crate with works lighter by so much, as if taken away at x [mm]."""
    left = (1467.35 * 620 - grams * x) / (1467.35 - grams)
    return crate(
        more + NO_FOAM,
        works=f'mass = 1467.35\nknown = "weighed"\nx = 620 -> mass = {1467.35 - grams}\n'
        f'known = "weighed"\nx = {left:.6f}',
    )


KEEP = Placing(lead="keep", foam="keep", waterline=0.0005)


def test_one_pocket_by_hand() -> None:
    """100 g lack at x 600: 100 / (1 - ρ / ρ_lead) = 109.7 g of lead there.

    Within 0.5 mm of the waterline, 2.39 g of buoyancy: at least 107.04 g, in steps of 5 g 110 g.
    """
    found = place(light(pocket("keel", 600)), KEEP)
    assert isinstance(found, Placement)
    (piece,) = found.things
    least = (0.100 - 0.0005 * RHO * 4784e-6) / NET
    assert piece.mass == pytest.approx(np.ceil(least / 0.005) * 0.005)
    assert piece.mass == pytest.approx(0.110)
    assert found.after.surfaced.draught(0.6) == pytest.approx(0.130, abs=5e-4)


def test_two_pockets_share_by_the_lever() -> None:
    """100 g net lack at x 500 with pockets at 400 and 700: two parts to one, by the lever.

    Trim within 0.01°: each share within what that band leaves.
    """
    wish = KEEP.model_copy(update={"trim_surfaced": 0.02 * pi / 180, "trim_dived": 0.01 * pi / 180,
                                   "lead_step": 0.0005})  # fmt: skip
    her = light(pocket("aft", 400) + pocket("fore", 700), x=500)
    found = place(her, wish)
    assert isinstance(found, Placement)
    mass = {piece.name: piece.mass for piece in found.things}
    assert mass["aft"] + mass["fore"] == pytest.approx(0.100 / NET, abs=0.003)
    # moment about 500 mm: nothing is left over but what the band of trim dived allows
    moment = (mass["fore"] * 0.2 - mass["aft"] * 0.1) * NET
    allowed = her.dived.displacement_mass * her.bg * tan(wish.trim_dived or 0)
    assert abs(moment) <= allowed * 1.05


def test_what_lead_cannot_do_is_told_with_how_much() -> None:
    """Tank 20 mm forward: it tips her by 0.629 kg × 20 mm over her stiffness dived.

    She is on her waterline, so that no more than 0.5 mm of lead, 2.39 g net, may be added: at
    x 200, 300 mm aft, it takes as much water out of the tank. The rest is beyond the band of 1°.
    """
    her = crate(
        pocket("aft", 200) + pocket("fore", 800) + NO_FOAM,
        tank="length = 72\nx = 500 -> length = 72\nx = 520",
    )
    found = place(her, KEEP)
    assert isinstance(found, Hindered)
    (one,) = found.shortfalls
    assert one.key == "trim-dived"
    stiff = her.dived.displacement_mass * (her.bg - her.dived.free_surface_l)
    lead = 0.0005 * RHO * 4784e-6
    left = RHO * 629.632e-6 * 0.020 - lead * (0.300 + 0.020)
    assert one.value == pytest.approx(left / stiff - tan(pi / 180), rel=0.01)


def relaxed(it: Programme, aim: str) -> float:
    """Return the least of an aim with pieces of any size, by our own matrices."""
    from trimdive.placing.solve.solve import _run  # pyright: ignore[reportPrivateUsage]

    found = _run(it, costs(it, aim), 10.0, whole=False)
    return float(found.fun)


def test_relaxed_against_linprog_on_matrices_of_its_own() -> None:
    """The same crate written down anew: unknown are the masses in three pockets and the water.

    With x, z the place of a pocket's middle and w the water in the tank: on the surface force and
    moment about the middle of the waterplane, dived force (an equation) and moment, each in bands.
    """
    xs = np.array([0.25, 0.55, 0.80])
    more = "".join(pocket(f"p{k}", 1e3 * x) for k, x in enumerate(xs))
    her = light(more, grams=150, x=560)
    it = programme(task(her, KEEP))
    masses, floater, need = her.masses, her.floater, her.need
    volume = floater.volume
    b = floater.buoyancy + floater.tree.centre
    below, place_below = volume - need.volume, (volume * b - need.volume * need.place)
    z = np.full(3, 0.008)
    area, second = 4784e-6, (0.2 * 1.0**3 - 0.196 * 0.996**3) / 12
    sink = RHO * area
    tank_x = 0.5
    # unknowns: m0, m1, m2, w
    net = np.append(np.full(3, NET), 0.0)
    rows: list[np.ndarray] = []
    least: list[float] = []

    def band(off: np.ndarray, off0: float, most: np.ndarray, most0: float) -> None:
        rows.extend([off - most, -off - most])
        least.extend([most0 - off0, most0 + off0])

    band(net, masses.mass - RHO * below, np.zeros(4), sink * 0.0005)
    arm = np.append(NET * (xs - 0.5), 0.0)
    stiff = np.append(-NET * z, 0.0)
    stiff0 = RHO * second + RHO * place_below[2] - masses.moment[2]
    t = tan(it.task.wishes.trim_surfaced)
    moment0 = masses.moment[0] - 0.5 * masses.mass - RHO * (place_below[0] - 0.5 * below)
    band(arm, moment0, t * stiff, t * stiff0)
    # dived: the water's height and its slack surface as at the filling at which she is neutral now
    from trimdive.edits.task import lying
    from trimdive.placing.solve import sums

    now = sums(lying(her))
    w0 = now.water  # the tank is full before she is neutral
    slope, water0 = now.per_water[16:20], now.total[16:20]
    arm = np.append(NET * xs, RHO * slope[1])
    moment0 = masses.moment[0] - RHO * volume * b[0] + RHO * (water0[1] - slope[1] * w0)
    stiff = np.append(-NET * z, -RHO * slope[3])
    stiff0 = (
        RHO * volume * b[2] - masses.moment[2] - RHO * (water0[3] - slope[3] * w0)
        - RHO * now.slack.dived[0]
    )  # fmt: skip
    t = tan(it.task.wishes.trim_dived)
    band(arm, moment0, t * stiff, t * stiff0)
    assert slope[1] == pytest.approx(tank_x, abs=1e-9)
    found = linprog(
        c=[1.0, 1.0, 1.0, 0.0],
        A_ub=np.array(rows),
        b_ub=np.array(least),
        A_eq=[np.append(np.full(3, NET), RHO)],
        b_eq=[RHO * volume - masses.mass],
        bounds=[(0, RHO and 0.08 * 0.06 * 0.008 * LEAD)] * 3 + [(0, her.need.fitted)],
    )
    assert found.success
    # HiGHS keeps rows to 1e-7 of their unit; our waterplane is summed from triangles.
    assert relaxed(it, "mass") == pytest.approx(found.fun, rel=5e-6)


@pytest.mark.parametrize("seed", range(6))
def test_whole_steps_against_trying_everything(seed: int) -> None:
    """Three pockets of at most 12 steps of 10 g: every combination is tried."""
    rng = np.random.default_rng(seed)
    xs = np.sort(rng.uniform(180, 820, 3))
    while np.diff(xs).min() < 30:
        xs = np.sort(rng.uniform(180, 820, 3))
    more = "".join(
        pocket(f"p{k}", x, half=13).replace("z_top = 12", 'z_top = 12\nmost = "120 g"')
        for k, x in enumerate(xs)
    )
    her = light(more, grams=float(rng.uniform(60, 220)), x=float(rng.uniform(440, 560)))
    wish = KEEP.model_copy(update={"lead_step": 0.010, "waterline": 0.001})
    it = programme(task(her, wish))
    n = len(it.task.slots)
    count = len(it.rows)
    best = np.inf
    for steps in product(*(range(slot.most + 1) for slot in it.task.slots)):
        x = np.zeros(len(it.least))
        for k, step in enumerate(steps):
            x[it.where[f"steps {k}"]] = step
        level = it.matrix[count]
        water = it.where["water"]
        x[water] = (it.low[count] - level @ x) / level[water]
        within = it.least[water] - 1e-9 <= x[water] <= it.most[water] + 1e-9
        if within and (it.matrix[:count] @ x >= it.low[:count] - 1e-9).all():
            best = min(best, sum(steps) * 0.010)
    found = answer(it, ("mass",), 20.0)
    assert n == 3
    if not np.isfinite(best):
        assert found is None
        return
    assert found is not None
    assert found.aims[0].value == pytest.approx(best, abs=1e-9)
    assert found.aims[0].proven


def test_aims_in_the_order_that_is_chosen() -> None:
    """100 g net at x 500: one pocket there, heavier by its height; or two lighter aft and fore.

    With few pieces first, one piece; with any order no condition is lost.
    """
    her = light(pocket("aft", 300) + pocket("middle", 500) + pocket("fore", 700), x=500)
    first = place(her, KEEP.model_copy(update={"aims": ("pieces", "mass")}))
    assert isinstance(first, Placement)
    assert [piece.name for piece in first.things] == ["middle"]
    assert [aim.aim for aim in first.aims] == ["pieces", "mass"]
    assert first.aims[0].value == 1


def test_no_more_than_a_pocket_holds() -> None:
    """Lead that may weigh 50 g where 110 g lack: off her waterline by 55 g net less the band."""
    her = light(pocket("keel", 500).replace("z_top = 12", 'z_top = 12\nmost = "50 g"'), x=500)
    it = programme(task(her, KEEP))
    assert not is_solvable(it, 5.0)
    lacks = {one.key: one.value for one in shortfalls(it, 5.0)}
    high = (0.100 - 0.050 * NET) / (RHO * 4784e-6) - 0.0005
    assert lacks["waterline-band"] == pytest.approx(high, rel=1e-3)
