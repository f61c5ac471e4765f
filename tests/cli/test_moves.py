"""The two moves with foam and lead that are offered, against letting the changed boat go.

What is offered is a formula; the whole solver, which is checked against closed forms and other
libraries elsewhere, floats and dives the boat with the move made.
"""

from pathlib import Path

import pytest
from tests.cli.boats import SMALL

from trimdive.assessment import Assessment, assess
from trimdive.ballast.need.moves import UNDER, foam_across, pair_on_board, stand_ins

WATERLINE = 0.080
BLOCK = 20e-6


def with_pieces(folder: Path, text: str) -> Assessment:
    """Return the small boat with more pieces."""
    file = folder / "boat.toml"
    file.write_text(SMALL + text, "utf-8")
    return assess(file)


def foam(z: float) -> str:
    return f"""
[[foam]]
shape = "box"
length = "50 mm"
breadth = "40 mm"
height = "10 mm"
x = "300 mm"
z = "{1000 * z} mm"
"""


def test_foam_across_the_waterline(tmp_path: Path) -> None:
    low, high = (with_pieces(tmp_path, foam(WATERLINE + z)) for z in (-UNDER, UNDER))
    answer = foam_across(
        BLOCK, low.surfaced.waterplane_area, low.dived.displacement_mass, low.water.density
    )
    assert answer
    sinks = high.surfaced.draught(0.3) - low.surfaced.draught(0.3)
    # 1.1 mm over which the waterplane changes a little
    assert answer.sinks == pytest.approx(sinks, rel=0.1)
    assert answer.gain == pytest.approx(high.bg - low.bg, rel=1e-3)
    assert high.neutral == pytest.approx(low.neutral, abs=1e-9), "dived nothing else changes"


def test_foam_across_is_not_told_without_a_waterplane() -> None:
    assert foam_across(BLOCK, 0.0, 2.0, 999.0) is None


def test_lead_and_foam_in_pairs(tmp_path: Path) -> None:
    plain = with_pieces(tmp_path, "")
    afloat = (plain.dived.displacement_mass, plain.bg, plain.water.density)
    pair = pair_on_board(0.001, plain.boat, plain.waterline, afloat)
    high = (WATERLINE - UNDER) * 1000
    changed = with_pieces(
        tmp_path,
        f"""
[[lead]]
mass = "{pair.lead * 1000} g"
x = "300 mm"
z = "8 mm"

[[foam]]
volume = "{pair.foam * 1e6} cm3"
x = "300 mm"
z = "{high} mm"
""",
    )
    assert changed.bg - plain.bg == pytest.approx(0.001, rel=1e-4)
    assert changed.neutral == pytest.approx(plain.neutral, abs=1e-6)
    # the ball that stands for the foam ends just under the waterline
    assert changed.surfaced.draught(0.3) == pytest.approx(plain.surfaced.draught(0.3), abs=2e-4)


def test_stand_ins_are_bare_points_near_the_waterline(tmp_path: Path) -> None:
    extra = """
[[part]]
name = "far below"
mass = "5 g"
volume = "4 cm3"
x = "300 mm"
z = "20 mm"

[[part]]
name = "with a shape"
mass = "5 g"
shape = "sphere"
diameter = "20 mm"
x = "300 mm"
z = "80 mm"
"""
    her = with_pieces(tmp_path, extra)
    assert [body.name for body in stand_ins(her.boat, her.bodies, her.waterline)] == ["mast"]
