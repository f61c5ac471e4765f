"""How sure each figure is: against the full solver by Monte Carlo, closed forms and quadrature."""

from functools import cache
from math import sqrt
from pathlib import Path

import numpy as np
import pytest

from trimdive.assessment import Assessment, assess
from trimdive.boatfile import parse
from trimdive.geometry.lines.mesh import Floats
from trimdive.geometry.solids.cut import cut
from trimdive.hydrostatics.equilibrium import rest, state
from trimdive.hydrostatics.equilibrium.hydrostatics import upright_bg
from trimdive.uncertainty import WIDE, Uncertainty, changed, uncertainty
from trimdive.uncertainty.loads import load_of, stance

ROOT = Path(__file__).parents[2]
TRIES = 400  # of Monte Carlo: a standard deviation is then sure to 3.5 %
COVERED = 3 * (0.95 * 0.05 / TRIES) ** 0.5  # three standard errors of a share of 95 % [-]
SURENESS = 4 * 0.5**0.5 * TRIES**-0.5  # four standard errors of a standard deviation [-]


@cache
def boat(name: str) -> Assessment:
    return assess(ROOT / "boats" / name / "boat.toml")


# Heel and GM bend: she is stiffer or softer by a tenth when all else is off as well.
BENT = {"heel surfaced": 0.12, "heel dived": 0.12, "trim dived": 0.12, "gm": 0.12}
# What lies just under the waterline comes out of it one way and not the other: 95 cases of 100 or a
# few more are as told, but the figure is not normal: Grebe's cylinder, Bittern's foam.
LOPSIDED = {"need", "need at", "draught", "trim surfaced", "gm"}

BARGE = """\
format = 1
name = "Barge"

[waterline]
height = "50 mm"

[[region]]
name = "hull"
surface = "prism"
outline = "box"
x_aft = "0 mm"
x_fore = "1000 mm"
breadth = "200 mm"
z_bottom = "0 mm"
z_top = "120 mm"
sealed = true
mass = "2 kg"
known = "weighed"

[[part]]
name = "load"
mass = "6 kg"
inside = "hull"
spread = "± 1 %"
x = "500 mm"
z = "20 mm"

[[part]]
name = "box"
mass = "2 kg"
inside = "hull"
spread = "± 100 g"
x = "500 mm"
z = "20 mm"

[spreads]
along = "0 mm"
across = "0 mm"
height = "0 mm"
"""


@cache
def barge(more: str = "") -> Assessment:
    return Assessment(boat=parse(BARGE + more), files={})


def test_a_box_shaped_barge_sinks_and_trims_as_closed_forms_have_it() -> None:
    """A box of 1000 x 200 mm: sinkage m/(rho L B), trim m a/(M GM_L), GM_L = KB + L²/12T - KG.

    Source: closed forms of a box in any text on ship hydrostatics, BM_L = L²/(12 T).
    """
    her = Assessment(boat=parse(BARGE.replace('x = "500 mm"', 'x = "300 mm"')), files={})
    level = barge()
    rho, mass, long, broad = her.water.density, 10.0, 1.0, 0.2
    draught = mass / rho / long / broad
    kg = (6 * 0.02 + 2 * 0.02 + 2 * float(level.masses.entries[0].place[2])) / mass
    gm_l = draught / 2 + long**2 / 12 / draught - kg
    found = uncertainty(level)
    box = next(i for i, s in enumerate(found.sources) if found.things[s.thing].name == "box")
    sinks = found.figure("draught", "stern").off[box] + found.figure("draught", "bow").off[box]
    assert WIDE * sinks / 2 == pytest.approx(0.1 / rho / long / broad, rel=1e-6)
    assert WIDE * found.figure("trim surfaced").off[box] == pytest.approx(0.0, abs=1e-9)
    far = parse(BARGE.replace('"box"\nmass = "2 kg"', '"box"\nmass = "0.001 kg"'))
    away = far.model_copy(
        update={
            "parts": (
                far.parts[0].model_copy(update={"mass": 7.999}),
                far.parts[1].model_copy(update={"x": 0.8}),
            )
        }
    )
    found = uncertainty(Assessment(boat=away, files={}))
    box = next(i for i, s in enumerate(found.sources) if found.things[s.thing].name == "box")
    trim = WIDE * found.figure("trim surfaced").off[box]
    kg_now = (8 * 0.02 + 2 * float(level.masses.entries[0].place[2])) / mass
    assert trim == pytest.approx(0.1 * 0.3 / mass / (gm_l + kg - kg_now), rel=2e-3)


def test_independent_masses_add_in_quadrature() -> None:
    """Masses of 2.0 kg ± 20 %, 1.5 ± 10 %, 1.2 ± 1 % and 4.0 ± 5 %: together ± 0.4719 kg.

    The sum of 0.4², 0.15², 0.012² and 0.2² is 0.222644, worked by hand.
    Source: Guide to the expression of uncertainty in measurement, 5.1.2 (from memory).
    """
    masses = ((2.0, 20), (1.5, 10), (1.2, 1), (4.0, 5))
    parts = "".join(
        f'\n[[part]]\nname = "p{k}"\nmass = "{m} kg"\nspread = "± {s} %"\ninside = "hull"\n'
        f'x = "500 mm"\nz = "20 mm"\n'
        for k, (m, s) in enumerate(masses)
    )
    light = BARGE.replace('mass = "2 kg"\nknown = "weighed"', 'mass = "0.1 kg"\nspread = "± 0 g"')
    light = light.replace('"6 kg"', '"0.1 kg"').replace('"± 1 %"', '"± 0 g"')
    light = light.replace('"± 100 g"', '"± 0 g"')
    her = Assessment(boat=parse(light + parts), files={})
    assert uncertainty(her).figure("mass").half == pytest.approx(sqrt(0.222644), rel=1e-9)


@pytest.mark.parametrize("name", ["grebe", "plover", "bittern"])
def test_all_loads_together_are_slope_and_stiffness_of_the_solver(name: str) -> None:
    """What all things add, one by one, is what the solver has of the whole boat at once."""
    her = boat(name)
    for at in (her.surfaced.rest, her.dived.rest):
        found, ready = her.uncertainty, stance(her.floater, at)
        whole = sum((load_of(ready, thing) for thing in found.things), np.zeros(9))
        k = ready.stiffness
        assert whole[:3] == pytest.approx([0.0] * 3, abs=1e-7)
        assert whole[3:6] == pytest.approx([k[0, 0], k[0, 1], k[1, 1]], abs=1e-7)
        assert whole[6:] == pytest.approx([k[0, 2], k[1, 2], k[2, 2]], abs=1e-6)


def drawn(her: Assessment, found: Uncertainty, off: Floats) -> dict[str, float]:
    """Return her figures with these things off, by the full solver."""
    boat, floater = her.boat, changed(her.floater, found.things, found.sources, off)
    fuller = floater.tanks.capacities / her.floater.tanks.capacities
    waters = fuller * her.surfaced.rest.waters
    up = state(floater, rest(floater, waters, start=her.surfaced.rest))
    hung = fuller * her.dived.rest.waters
    down = state(floater, rest(floater, hung, start=her.dived.rest, hanging=True))
    n, d = her.waterline
    top = cut(floater.tree, n, 10.0)
    below = cut(floater.tree, n, d)
    need = top.volume - below.volume
    marks = {f"draught {mark.name}": up.draught(mark.x) for mark in boat.marks}
    return {
        **marks,
        "mass ": floater.mass,
        "middle ": float((floater.gravity + floater.tree.centre)[0]),
        "need ": need,
        "need at ": float((top.moment - below.moment)[0]) / need,
        "trim surfaced ": float(np.tan(up.trim_angle)),
        "heel surfaced ": float(np.tan(up.heel)),
        "gm ": up.gm_t,
        "trim dived ": float(np.tan(down.trim_angle)),
        "heel dived ": float(np.tan(down.heel)),
        "bg ": upright_bg(floater, hung),
        "lift left ": floater.density * (floater.volume - float((fuller * her.full_water).sum()))
        - floater.mass,
    }


@pytest.mark.parametrize("name", ["grebe", "plover", "bittern"])
def test_first_order_agrees_with_monte_carlo(name: str) -> None:
    """400 boats with everything off at random, each let go in the full solver."""
    her, chance = boat(name), np.random.default_rng(7)
    found = her.uncertainty
    rows = [drawn(her, found, chance.standard_normal(len(found.sources))) for _ in range(TRIES)]
    for one in found.figures:
        column = np.array([row[f"{one.key} {one.place}"] for row in rows])
        value, half = one.value, one.half
        if one.kind == "angle":
            value, half = np.tan(value), np.tan(half)
        within = float((np.abs(column - value) <= half).mean())
        if one.key == "gm" and name != "plover":  # it may well be more, where foam comes out
            assert float((column >= value - half).mean()) >= 0.975 - COVERED
            continue
        assert within >= 0.95 - COVERED, one.key
        if one.key in LOPSIDED and name != "plover":
            continue
        assert within <= 0.95 + COVERED, one.key
        bent = BENT.get(one.key, 0.0)
        seen = WIDE * float(column.std(ddof=1))
        assert half == pytest.approx(seen, rel=SURENESS + bent), one.key
        assert float(np.median(column)) == pytest.approx(value, abs=0.12 * half), one.key


def test_what_lies_in_a_cylinder_goes_along_with_it() -> None:
    """Grebe's cylinder 5 mm off: she trims as with its lift less all in it moved, by levers.

    M GM_L tan(trim) = (what it displaces less all masses in it, and itself) times 5 mm: 3.817
    litres at 0.9991 kg/L less 784 + 520 + 520 + 190 + 62 + 74 + 165 g, summed by hand.
    """
    her = boat("grebe")
    found = her.uncertainty
    k = next(i for i, thing in enumerate(found.things) if thing.name == "cylinder")
    i = next(i for i, s in enumerate(found.sources) if s.thing == k and s.what == "along")
    litres = np.pi / 4 * 0.09**2 * 0.6
    pull = litres * her.water.density - 2.315 - her.water.density * her.dived.rest.waters[0]
    turned = pull * 0.005 / her.dived.displacement_mass / her.bg
    # It goes forward and pulls up there: the bow rises.
    assert -WIDE * found.figure("trim dived").off[i] == pytest.approx(turned, rel=2e-3)


def test_spreads_of_your_own_count() -> None:
    text = (ROOT / "boats" / "grebe" / "boat.toml").read_text("utf-8")
    plain = boat("grebe")
    own = f'{text}\n[spreads]\nalong = "0 mm"\nacross = "0 mm"\nheight = "0 mm"\ntank = "0 %"\n'
    surer = Assessment(boat=parse(own), files=plain.files)
    whats = {source.what for source in surer.uncertainty.sources}
    assert whats == {"mass", "volume"}
    assert surer.uncertainty.figure("mass").half == pytest.approx(
        plain.uncertainty.figure("mass").half
    )
    assert surer.uncertainty.figure("trim dived").half < plain.uncertainty.figure("trim dived").half
