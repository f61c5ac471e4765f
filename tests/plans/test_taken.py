"""Traced lines written into a boat file: one outline, whatever stood there, all else as it was."""

import numpy as np
import pytest
from tests.plans.marked import found, whole

from trimdive.boatfile import Draught, OutlineRegion, Waterline, parse
from trimdive.edits.traced import with_lines, with_waterline
from trimdive.errors import BoatFileError
from trimdive.geometry.lines.outline_given import spread_of
from trimdive.plans.outline import outline_figures
from trimdive.plans.spread import spread_figures, traced_spread

HEAD = """# Kept as it is.
format = 1
name = "Petrel"
length = "1000 mm"
{more}
[units]
length = "{unit}"
mass = "g"

[waterline]
height = "30 mm"  # a guess

[[mark]]
name = "frame 1"
x = "100 mm"

[[region]]
name = "hull"
surface = "lines"
file = "lines.csv"
material = "GRP"
thickness = "2 mm"
{region}
[[region]]
name = "tower"
surface = "prism"
outline = "oval"
from = "stern"
x_aft = "400 mm"
x_fore = "500 mm"
breadth = "30 mm"
z_bottom = "50 mm"
z_top = "100 mm"
material = "GRP"
thickness = "2 mm"
"""


TEXT = HEAD.format(more="", unit="mm", region="")


def figures() -> dict[str, object]:
    taken = found(whole()).taken
    assert taken is not None
    return outline_figures(taken)


@pytest.mark.parametrize("unit", ["mm", "in", "m", "cm"])
@pytest.mark.parametrize(
    ("more", "region"),
    [("", ""), ('measured_from = "bow"', ""), ("", 'from = "bow"'), ("", 'from = "frame 1"')],
)
def test_they_stand_in_the_place_of_others(unit: str, more: str, region: str) -> None:
    """The figures come back as they were, whatever the unit and wherever x is measured from."""
    text = HEAD.format(unit=unit, more=more, region=region)
    new = with_lines(text, parse(text, "boat.toml"), 1, {}, figures())
    read = parse(new, "boat.toml").regions[0]
    assert isinstance(read, OutlineRegion)
    assert (read.name, read.material, read.thickness) == ("hull", "GRP", 0.002)
    places = sorted(row.x for row in read.profile)
    assert (places[0], places[-1]) == pytest.approx((0.0, 1.0), abs=2e-5)
    stations = np.array(sorted(row.x for row in read.section))
    assert stations == pytest.approx([0.25, 0.5, 0.75], abs=2e-5)
    assert max(row.half or 0.0 for row in read.breadths) == pytest.approx(0.05, abs=2e-5)
    assert "# Kept as it is." in new
    assert "lines.csv" not in new
    assert 'name = "tower"' in new


SKIN = {"material": "GRP", "thickness": "3 mm"}


def test_a_new_region_has_its_name_and_its_skin() -> None:
    text = HEAD.format(unit="mm", more="", region="")
    boat = parse(text, "boat.toml")
    read = parse(
        with_lines(text, boat, 3, {"name": "plan", **SKIN}, figures()), "boat.toml"
    ).regions
    assert [one.name for one in read] == ["hull", "tower", "plan"]
    assert read[2].thickness == pytest.approx(0.003)
    for name, words in (("", "the region has no name"), ("tower", "is called 'tower' already")):
        with pytest.raises(BoatFileError, match=words):
            with_lines(text, boat, 3, {"name": name, **SKIN}, figures())
    with pytest.raises(BoatFileError, match="tower is no hull that is traced"):
        with_lines(text, boat, 2, {}, figures())


@pytest.mark.parametrize("more", ["", 'measured_from = "bow"'])
def test_the_waterline_takes_the_place_of_the_one_before(more: str) -> None:
    text = HEAD.format(unit="mm", more=more, region="")
    boat = parse(text, "boat.toml")
    level = parse(with_waterline(text, boat, Waterline(height=0.041)), "boat.toml").waterline
    assert level is not None
    assert level.height == pytest.approx(0.041)
    aft, fore = Draught(x=0.0, height=0.03), Draught(x=1.0, height=0.04)
    line = Waterline(aft=aft, fore=fore)
    read = parse(with_waterline(text, boat, line), "boat.toml").waterline
    assert read is not None
    assert read.height_at(0.2) == pytest.approx(0.032)


def test_what_the_plan_is_off_goes_along_into_the_volume() -> None:
    """The ± shown beside the plan is the ± of the region afterwards, to what is written of it."""
    hull, line = found(whole()).hull, Waterline(height=0.03)
    assert hull is not None
    sure = traced_spread(hull, line, scale=0.004)
    taken = found(whole()).taken
    assert taken is not None
    bare = outline_figures(taken)
    text = with_lines(TEXT, parse(TEXT), 1, {}, {**bare, "traced": spread_figures(sure)})
    region, plain = (
        parse(one).regions[0] for one in (text, with_lines(TEXT, parse(TEXT), 1, {}, bare))
    )
    assert isinstance(region, OutlineRegion)
    assert isinstance(plain, OutlineRegion)
    kept, without = spread_of(region, line), spread_of(plain, line)
    for name in ("envelope", "nabla", "waterplane", "bm_t"):
        shown, now = getattr(sure, name), getattr(kept, name)
        assert now.spread == pytest.approx(shown.spread, rel=0.02), name
        assert now.spread > getattr(without, name).spread
