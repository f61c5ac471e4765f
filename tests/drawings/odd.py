"""Boats that are drawn seldom."""

from trimdive.assessment import Assessment
from trimdive.boatfile import parse

TUBE = """
format = 1
name = "tube"
[units]
length = "mm"
mass = "g"
[waterline]
height = "40 mm"
[[cylinder]]
name = "tube"
outside = "60 mm"
wall = "2 mm"
length = "300 mm"
x = "300 mm"
z = "45 mm"
material = "acrylic"
mass = "300 g"
"""
NOSE_HEAVY = """
format = 1
name = "nose & <heavy>"
[units]
length = "in"
mass = "oz"
[[region]]
name = "hull"
surface = "myring"
nose = "120 mm"
middle = "300 mm"
tail = "180 mm"
diameter = "100 mm"
power = 2.0
tail_angle = "25 °"
z = "50 mm"
thickness = "2 mm"
material = "GRP"
[[foam]]
volume = "200 cm3"
x = "150 mm"
z = "50 mm"
shape = "box"
length = "160 mm"
breadth = "36 mm"
height = "36 mm"
[[lead]]
mass = "100 g"
x = "550 mm"
z = "50 mm"
shape = "box"
length = "40 mm"
breadth = "20 mm"
height = "11 mm"
"""
STEEP = """
format = 1
name = "Steep"
length = "900 mm"
[units]
length = "mm"
mass = "g"
volume = "cm3"
[waterline]
height = "65 mm"
[[region]]
name = "hull"
surface = "prism"
outline = "oval"
x_aft = 0
x_fore = 900
breadth = 110
z_bottom = 0
z_top = 90
thickness = 2
material = "GRP"
[[cylinder]]
name = "cylinder"
outside = 75
wall = 3
length = 500
x = 450
z = 45
mass = 700
known = "weighed"
[[tank]]
name = "tank"
inside = "cylinder"
x = 450
length = 200
[[part]]
name = "battery"
mass = 400
x = 480
z = 20
inside = "cylinder"
[[part]]
name = "motor"
mass = 100
x = 330
z = 40
inside = "cylinder"
known = "weighed"
[[lead]]
mass = 600
x = 500
z = 10
"""


def assessed(text: str) -> Assessment:
    return Assessment(boat=parse(text, "boat.toml"), files={})
