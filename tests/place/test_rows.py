"""What placing keeps, against the sums of the crate by hand and against the boat let go.

Archimedes: afloat and dived, weight is buoyancy and both have one moment. The crate's figures
are worked out by hand in the tests.
"""

from math import pi, tan

import numpy as np
import pytest
from tests.rest.crate import crate

from trimdive.assessment import Assessment
from trimdive.boatfile.placing import Placing
from trimdive.edits.pieces import placed
from trimdive.edits.task import lying, task
from trimdive.placing.solve import Wishes, conditions, programme, sums
from trimdive.placing.solve.sums import ABOVE, DIVED, MASS, VOLUME

RHO, LEAD = 999.1026, 11340.0
WISHES = Wishes(
    waterline=0.001,
    trim_surfaced=0.25 * pi / 180,
    trim_dived=1.0 * pi / 180,
    heel=0.5 * pi / 180,
    bg=0.004,
    gm=0.003,
    margin=0.08,
    filling=(0.0, 1.0),
    stuck=None,
)


def slacks(her: Assessment) -> dict[str, list[float]]:
    """Return how far within each condition she lies, in m, rad or m³."""
    now = sums(lying(her))
    found: dict[str, list[float]] = {}
    for row in conditions(now, WISHES):
        found.setdefault(row.key, []).append(row.slack(now.total))
    return found


def test_sums_of_the_crate_by_hand() -> None:
    """Hull 1000 × 200 × 180 less its inside of 996 × 196 × 176 mm; above 130 mm a rim and a lid.

    The lid is 2 mm of the deck, the rim four walls of 48 mm: 1000 × 200 × 2 + 4784 × 48 mm³.
    """
    now = sums(lying(crate()))
    rim = 1000 * 200 - 996 * 196
    assert now.total[ABOVE][0] == pytest.approx((400_000 + rim * 48) * 1e-9, rel=1e-9)
    assert now.plane.area == pytest.approx(rim * 1e-6, rel=1e-9)
    second = (200 * 1000**3 - 196 * 996**3) / 12
    assert now.plane.along == pytest.approx(second * 1e-12, rel=1e-9)
    assert now.total[MASS][0] == pytest.approx(7.8617, abs=0.0005)
    # neutral: the tanks make up for the difference of volume and weight
    water = now.total[VOLUME][0] - now.total[MASS][0] / RHO
    assert now.total[DIVED][0] == pytest.approx(water, rel=1e-6)  # a level found


def test_ten_grams_off_along_her_by_hand() -> None:
    """1467.35 g moved 0.6815 mm in the dry are 1 kg mm.

    On the surface that counts over the moment to trim, dived over weight times BG.
    """
    before, after = slacks(crate()), slacks(crate(works="x = 620 -> x = 620.6815"))
    moment = 1.46735 * 0.0006815
    her = crate()
    gained = [b - a for a, b in zip(before["trim-dived"], after["trim-dived"], strict=True)]
    weight = her.dived.displacement_mass
    slack = her.dived.free_surface_l
    assert sorted(gained) == pytest.approx(
        [-moment / (weight * (her.bg - slack)), moment / (weight * (her.bg - slack))], rel=1e-3
    )
    gained = [b - a for a, b in zip(before["trim-surfaced"], after["trim-surfaced"], strict=True)]
    along = her.surfaced.displacement_mass * her.surfaced.gm_l
    assert sorted(gained) == pytest.approx([-moment / along, moment / along], rel=1e-3)


def test_a_load_sinks_her_by_its_weight_over_the_waterplane() -> None:
    at_rest = slacks(crate())["waterline-band"]
    heavier = slacks(
        crate('[[part]]\nname = "load"\nmass = 50\nx = 500\nz = 40\ninside = "cylinder"\n')
    )["waterline-band"]
    gained = [b - a for a, b in zip(at_rest, heavier, strict=True)]
    assert sorted(gained) == pytest.approx([-0.050 / (RHO * 4784e-6), 0.050 / (RHO * 4784e-6)])


def test_stiffness_rows_are_bg_and_gm_of_the_boat_let_go() -> None:
    her = crate()
    within = slacks(her)
    assert within["bg-least"] == pytest.approx([her.bg - WISHES.bg], abs=2e-5)
    assert within["gm-least"] == pytest.approx([her.surfaced.gm_t - WISHES.gm], abs=2e-5)
    margin = her.need.fitted - (1 + WISHES.margin) * her.need.volume
    assert within["tank-margin"] == pytest.approx([margin], rel=1e-4)


def test_bands_are_met_just_where_the_boat_let_go_meets_them() -> None:
    """Works moved until she floats 0.25° down by the bow: there the row has nothing left."""
    her = crate()
    lever = her.surfaced.displacement_mass * her.surfaced.gm_l * tan(WISHES.trim_surfaced)
    off = crate(works=f"x = 620 -> x = {620 + lever / 1.46735 * 1e3:.6f}")
    assert off.surfaced.trim_angle == pytest.approx(WISHES.trim_surfaced, rel=1e-3)
    assert min(slacks(off)["trim-surfaced"]) == pytest.approx(0.0, abs=2e-5)


@pytest.mark.parametrize("foam", ["keep", "anew"])
def test_what_the_programme_adds_is_what_the_boat_becomes(foam: str) -> None:
    """An answer made up at random: its sums are those of the boat with its pieces aboard."""
    block = '[[foam]]\nname = "block"\nvolume = 90\nx = 400\ny = 60\nz = 150\npair = "both"\n'
    block += 'shape = "box"\nlength = 90\nbreadth = 25\nheight = 20\n'
    her = crate(block)
    wish = Placing.model_validate({"foam": foam})
    work = task(her, wish)
    it = programme(work)
    x = np.zeros(len(it.least))
    rng = np.random.default_rng(7)
    for k, slot in enumerate(work.slots):
        stays = slot.path and k % 2
        if stays:
            x[it.where[f"stays {k}"]] = 1
        elif slot.most >= slot.least:
            x[it.where[f"cut {k}"]] = 1
            x[it.where[f"steps {k}"]] = rng.integers(slot.least, slot.most + 1)
    _, edits = placed(her, it, x)
    after = sums(lying(her.edited(edits)))
    answer = it.sums(x)
    assert after.total[MASS] == pytest.approx(answer[MASS], rel=1e-9, abs=1e-9)
    assert after.total[VOLUME] == pytest.approx(answer[VOLUME], rel=1e-9, abs=1e-12)
    assert after.total[ABOVE] == pytest.approx(answer[ABOVE], rel=1e-6, abs=1e-11)
