"""What is said of a mesh: how it was taken as a hull, and what was guessed, done and mended."""

from typing import TYPE_CHECKING

from trimdive.boatfile import Units
from trimdive.text.said import said
from trimdive.text.say import say_in

if TYPE_CHECKING:
    from trimdive.estimates.starter import DrawnHull
    from trimdive.fact import Fact
    from trimdive.geometry.meshes import Drawn

STEPS = {  # what is being done while a mesh is looked at
    "repairs": "repairs",
    "edges": "edges",
    "bodies": "bodies",
    "crossings": "faces that pass through each other",
    "hull": "the hull of its points",
}
METRIC = say_in(Units(length="mm", volume="cm³"))
WALLS = {"printed": "as printed, with both faces of its walls", "outside": "outside only"}


def of_mesh(fact: "Fact") -> str:
    """Return a fact about a mesh file in words: in metric units, since it may be of no boat."""
    return said(METRIC, fact)


def kind_of_file(drawn: "Drawn") -> str:
    """Return what kind of file a mesh is."""
    return f"{drawn.kind}, its supports left out" if drawn.without_supports else drawn.kind


def taken_as(drawn: "DrawnHull", units: Units) -> str:
    """Return in a sentence or two how a mesh was taken.

    Args:
        drawn: The hull.
        units: Those of the boat file.
    """
    how = WALLS["printed"] if drawn.is_wall else "as her outside"
    length, broad, high = (
        units.write(one, "length") for one in (drawn.length, drawn.breadth, drawn.height)
    )
    tower = " A tower is drawn with it." if drawn.has_tower else ""
    encloses = units.write(drawn.holds, "volume")
    return (
        f"{drawn.file} is taken {how}: {length} long, {broad} broad, deck {high} above the keel "
        f"line; it encloses {encloses}.{tower}"
    )
