"""The boats that are drawn, each assessed once."""

from functools import cache
from pathlib import Path
from xml.etree import ElementTree

from trimdive.assessment import Assessment, assess
from trimdive.hydrostatics.equilibrium import State
from trimdive.pictures.drawings import boat_drawing

ROOT = Path(__file__).parents[2]
BOATS = sorted(folder.name for folder in (ROOT / "boats").iterdir() if folder.is_dir())
STATES = ["surfaced", "full", "dived", "half"]
SVG = "{http://www.w3.org/2000/svg}"


@cache
def boat(name: str) -> Assessment:
    """Return one of the boats of the shelf, assessed."""
    return assess(ROOT / "boats" / name / "boat.toml")


@cache
def state(name: str, which: str) -> State:
    """Return a boat at rest: surfaced, full, dived, or with half of the water that fits."""
    found = boat(name)
    if which == "half":
        return found.at((found.blown_water + found.full_water) / 2)
    at: State = getattr(found, which)
    return at


@cache
def drawn(name: str, which: str) -> ElementTree.Element:
    """Return the drawing of a boat in a state, as read by an XML reader."""
    return ElementTree.fromstring(boat_drawing(boat(name), state(name, which)))
