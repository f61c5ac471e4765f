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


def plain_boat(
    name: str, sizes: tuple[float, ...], sections: tuple[tuple[float, float], ...]
) -> str:
    """Return the boat file of a round boat with a piston tank, all guesses.

    Args:
        name: Hers.
        sizes: Length, breadth, height, height of the waterline [m].
        sections: Place and breadth of each [m].
    """
    length, breadth, height, waterline = sizes
    found = tuple(Section(x=x, breadth=b, shape="round", radius=0.0) for x, b in sections)
    wish = Wish(
        name=name, length=length, scale=40.0, breadth=breadth, height=height, waterline=waterline,
        sections=found, plant="piston", units={"length": "mm", "mass": "g", "volume": "cm3"},
    )  # fmt: skip
    return first_boat(starter(wish))


@lru_cache
def new_boat() -> str:
    """Return the boat file of a new boat of 900 mm, all guesses."""
    sections = ((0.135, 0.052), (0.45, 0.095), (0.765, 0.070))
    return plain_boat("Dunlin", (0.9, 0.095, 0.1, 0.076), sections)


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
    sections = ((0.16, 0.066), (0.525, 0.118), (0.89, 0.086))
    text = plain_boat("Grebe", (1.05, 0.118, 0.118, 0.084), sections)
    for place, typed in TRUE_TUBE:
        text = put_in(text, place, typed)
    return text
