"""A new boat, and the true figures that its builder types over its guesses, one after the other.

The cylinder is far larger than the one that was guessed: her foam then lies in it, she floats high,
and with half of it typed she hangs fifty degrees bow down.
"""

from functools import lru_cache

from trimdive.boatfile import set_value
from trimdive.edits.rehoused import put_in
from trimdive.estimates.starter import Wish, starter
from trimdive.estimates.starter.wish import Section
from trimdive.text.first_boat import first_boat

FIGURES = (
    ("cylinder[1].outside", "75 mm"),
    ("cylinder[1].z", "46 mm"),
    ("cylinder[1].length", "450 mm"),
    ("cylinder[1].mass", "430 g"),
    ("cylinder[1].known", "weighed"),
    ("part[1].mass", "260 g"),
    ("part[1].known", "weighed"),
    ("part[2].mass", "190 g"),
    ("part[2].known", "weighed"),
    ("part[2].x", "420.8 mm"),
    ("part[3].mass", "120 g"),
    ("part[3].known", "weighed"),
    ("part[4].mass", "32 g"),
    ("region[2].mass", "200 g"),
    ("region[2].known", "weighed"),
    ("coat[1].known", "weighed"),
    ("tank[1].stroke", "100 mm"),
    ("tank[1].water_end", "480 mm"),
)
BATTERY = "part[1]"


@lru_cache
def new_boat() -> str:
    """Return the boat file of a new boat of 900 mm, all guesses."""
    measured = ((0.135, 0.052), (0.45, 0.095), (0.765, 0.070))
    sections = tuple(Section(x=x, breadth=b, shape="round", radius=0.0) for x, b in measured)
    wish = Wish(
        name="Dunlin", length=0.9, scale=40.0, breadth=0.095, height=0.1, waterline=0.076,
        sections=sections, plant="piston", units={"length": "mm", "mass": "g", "volume": "cm3"},
    )  # fmt: skip
    return first_boat(starter(wish))


def typed_over(count: int) -> str:
    """Return her boat file with so many of the figures typed."""
    text = new_boat()
    for place, typed in FIGURES[:count]:
        text = set_value(text, place, typed)
    return text


TRUE_TUBE = (
    ("cylinder[1].outside", "90 mm"),
    ("cylinder[1].wall", "3 mm"),
    ("cylinder[1].length", "480 mm"),
    ("cylinder[1].mass", "690 g"),
    ("cylinder[1].z", "52 mm"),
    ("region[1].mass", "750 g"),
    ("region[1].known", "weighed"),
    ("region[2].mass", "460 g"),
    ("region[2].known", "weighed"),
    ("region[3].mass", "50 g"),
    ("region[3].known", "weighed"),
    ("part[1].mass", "260 g"),
    ("part[2].mass", "210 g"),
    ("part[3].mass", "120 g"),
)


@lru_cache
def grebe_with_true_tube() -> str:
    """Return a new boat of 1050 mm with a true tube, and masses as weighed, over its guesses."""
    measured = ((0.16, 0.066), (0.525, 0.118), (0.89, 0.086))
    sections = tuple(Section(x=x, breadth=b, shape="round", radius=0.0) for x, b in measured)
    wish = Wish(
        name="Grebe", length=1.05, scale=40.0, breadth=0.118, height=0.118, waterline=0.084,
        sections=sections, plant="piston", units={"length": "mm", "mass": "g", "volume": "cm3"},
    )  # fmt: skip
    text = first_boat(starter(wish))
    for place, typed in TRUE_TUBE:
        text = put_in(text, place, typed)
    return text
