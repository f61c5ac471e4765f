"""A crate of a boat: a box of glass-fibre, a cylinder, one tank; all of her can be worked by hand.

In order as she stands; the checks spoil one thing at a time. Outside 1000 × 200 × 180 mm, skin
2 mm all round, waterline at 130 mm, cylinder 120 × 600 mm with its axis at 60 mm. Nobody could
build her: the cylinder stands in the skin of the keel, and the lead in it; that keeps her sums
short, and her own limits let it pass. What shares room is tried on other boats.
"""

from trimdive.assessment import Assessment
from trimdive.boatfile import parse

CRATE = """\
format = 1
name = "Crate"

[units]
length = "mm"
mass = "g"
volume = "cm3"

[waterline]
height = 130

[[region]]
name = "hull"
surface = "prism"
outline = "box"
x_aft = 0
x_fore = 1000
breadth = 200
z_bottom = 0
z_top = 180
thickness = 2
density = "1.60 g/cm3"

[[cylinder]]
name = "cylinder"
outside = 120
wall = 3
length = 600
x = 500
z = 60
mass = 1500
known = "weighed"

[[tank]]
name = "tank"
inside = "cylinder"
length = 72
x = 500

[[part]]
name = "fore works"
mass = 1467.35
known = "weighed"
x = 620
z = 40
inside = "cylinder"
shape = "box"
length = 100
breadth = 60
height = 40

[[part]]
name = "after works"
mass = 1467.35
known = "weighed"
x = 380
z = 40
inside = "cylinder"
shape = "box"
length = 100
breadth = 60
height = 40

[[lead]]
name = "keel lead"
mass = 799.8
known = "weighed"
x = 500
z = 8
shape = "box"
length = 220
breadth = 40
height = 8.1
"""


def crate(more: str = "", **changed: str) -> Assessment:
    """Return the crate assessed, with more written at the end and some of its text changed.

    Args:
        more: Further tables of the boat file.
        changed: Any name, and "old -> new" for a piece of the text that occurs once.
    """
    text = CRATE + more
    for change in changed.values():
        old, _, new = change.partition(" -> ")
        assert text.count(old) == 1, f"{old!r} occurs {text.count(old)} times"
        text = text.replace(old, new)
    boat = parse(text)
    passed = {"room-wet": "300 mm", "room-skin": "10 mm"}
    return Assessment(boat=boat.model_copy(update={"limits": passed | boat.limits}), files={})
