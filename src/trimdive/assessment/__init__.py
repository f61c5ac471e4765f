"""The order of work: from a boat file to everything that is told of her.

This is the only folder that knows it. An assessment is frozen and works out each answer when asked.
"""

from pathlib import Path

from trimdive.assessment.afloat import STEPS
from trimdive.assessment.record import Assessment
from trimdive.boatfile import Boat, Loaded, checked, load
from trimdive.errors import TrimdiveError
from trimdive.findings.slips import explained_in
from trimdive.geometry.solids.beside import found_beside, read_beside
from trimdive.geometry.solids.surfaces import Files

__all__ = ["STEPS", "Assessment", "assess"]


def assess(
    boat: Boat | Loaded | Path | str, *, beside: Files | Path | str | None = None
) -> Assessment:
    """Return the assessment of a boat: of a boat file, its folder, or a boat made in Python.

    Args:
        boat: A boat file or its folder, what ``load`` gives, or a boat.
        beside: What a boat made in Python names (lines, meshes): the folder, or the bytes by name.

    Raises:
        TrimdiveError: Something in it, or in a file beside it, must be mended.
    """
    if isinstance(boat, Boat):
        return Assessment(boat=(whole := checked(boat)), files=found_beside(whole, beside))
    try:
        found = boat if isinstance(boat, Loaded) else load(boat)
    except TrimdiveError as error:
        raise explained_in(error, Path(str(boat)), Assessment) from None
    return Assessment(boat=found.boat, files=read_beside(found))
