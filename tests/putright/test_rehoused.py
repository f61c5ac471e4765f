"""A tank into another cylinder: it goes along, as far as its ends let it."""

import pytest

from trimdive.boatfile import parse
from trimdive.edits.rehoused import rehoused
from trimdive.errors import BoatFileError

FILE = """\
format = 1
name = "Whinchat"
length = "900 mm"

[units]
length = "mm"

[waterline]
height = "80 mm"

[[region]]
name = "hull"
surface = "prism"
outline = "box"
x_aft = "0 mm"
x_fore = "900 mm"
breadth = "120 mm"
z_bottom = "0 mm"
z_top = "120 mm"
thickness = "2 mm"
material = "GRP"

[[cylinder]]
name = "fore"
outside = "80 mm"
wall = "3 mm"
length = "300 mm"
x = "700 mm"
z = "45 mm"
material = "PVC-U"

[[cylinder]]
name = "aft"
outside = "80 mm"
wall = "3 mm"
length = "200 mm"
x = "200 mm"
z = "50 mm"
material = "PVC-U"

[[tank]]
name = "ballast"  # the one
inside = "fore"
x_aft = "600 mm"
length = "60 mm"
z = "47 mm"

[[tank]]
name = "piston"
kind = "piston"
inside = "fore"
water_end = "840 mm"
stroke = "100 mm"
runs = "aft"
bore = "70 mm"
"""


def test_it_lies_there_as_it_lay_here_its_height_too() -> None:
    text = rehoused(FILE, "tank[1].inside", "aft")
    tank = parse(text).tanks[0]
    assert tank.inside == "aft"
    assert tank.x == pytest.approx(0.130)  # 70 mm abaft the middle, as before
    assert tank.z == pytest.approx(0.052)  # 2 mm above the middle, as before
    assert 'x_aft = "100 mm"' in text  # as it is given in the file
    assert "# the one" in text


def test_a_piston_tank_stops_at_the_end_of_the_shorter_cylinder() -> None:
    tank = parse(rehoused(FILE, "tank[2].inside", "aft")).tanks[1]
    assert tank.water_end == pytest.approx(0.300)  # 90 mm before the middle would end at 340 mm
    assert tank.x == pytest.approx(0.250)


def test_where_there_is_no_such_cylinder_only_the_name_changes() -> None:
    text = rehoused(FILE, "tank[1].inside", "midships")
    assert text == FILE.replace('inside = "fore"', 'inside = "midships"', 1)
    with pytest.raises(BoatFileError, match="midships"):
        parse(text)


def test_a_tank_longer_than_the_cylinder_is_left_where_it_is() -> None:
    text = FILE.replace('x_aft = "600 mm"\nlength = "60 mm"', 'x_aft = "560 mm"\nlength = "220 mm"')
    assert 'x_aft = "560 mm"' in rehoused(text, "tank[1].inside", "aft")
