"""The demo boats at full size: invented figures that must be the model times its scale.

Lengths times the scale λ, volumes times λ³; speeds by Froude's law of comparison, v_model =
v_ship / √λ (closed form). The model's speeds and the tonnes are those that were worked out
for these boats before this program was; the international knot is 1852 m an hour (ISO 80000-3).
"""

from math import sqrt

import numpy as np
import pytest
from tests.conftest import BOATS
from tests.figures import held

from trimdive.assessment import Assessment
from trimdive.boatfile import load
from trimdive.geometry.solids.cut import cut
from trimdive.geometry.solids.tree import plant

UP = np.array([0.0, 0.0, 1.0])
WIDE = {"bittern": 0.224, "grebe": 0.120, "plover": 0.092}  # m, greatest breadth of the model
SCALES = {"bittern": 20, "grebe": 28, "plover": 50}
KNOT = 1852 / 3600  # m/s
FROUDE = {"bittern": (1.09, 0.75), "grebe": (0.87, 0.63), "plover": (0.55, 0.95)}


@pytest.mark.parametrize("bought", ["", "-as-bought"])
@pytest.mark.parametrize("name", sorted(SCALES))
def test_full_size_is_the_model_times_its_scale(name: str, bought: str) -> None:
    boat = load(BOATS / f"{name}{bought}" / "boat.toml").boat
    scale, full = SCALES[name], boat.full_size
    assert boat.scale == scale
    assert full is not None
    assert full.length == pytest.approx(boat.length * scale, abs=0.05)  # to 0.1 m
    assert full.draught == pytest.approx(boat.waterline.height * scale, abs=0.005)  # to 0.01 m
    assert full.breadth == pytest.approx(WIDE[name] * scale, abs=0.005)
    answer = [speed / sqrt(scale) for speed in (full.speed_surfaced, full.speed_dived)]
    assert answer == pytest.approx(FROUDE[name], abs=0.006)  # they print 0.01; 0.875 as 0.87


def test_plover_outside_shape_at_full_size(plover: Assessment) -> None:
    """About 428 t to the waterline, 477 t whole, the fin (126 cm³ closed) with it.

    Ours is 2.4 % less to the waterline: her radii run smoothly here (464 t; cones between the same
    radii give 461 t).
    """
    tonnes = 50**3 * plover.water.density / 1e3
    envelope = plant(plover.hull.envelope)
    assert cut(envelope, UP, 0.076).volume * tonnes == held(417.7, printed=428, rel=0.03)
    hull = cut(envelope, UP, 0.0921).volume
    assert (hull + 126e-6) * tonnes == pytest.approx(477, rel=0.01)
