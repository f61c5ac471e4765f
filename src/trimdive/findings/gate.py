"""The gate that every mend passes: none is offered that lays things into each other."""

from dataclasses import replace
from typing import get_args

from trimdive.boatfile import Boat
from trimdive.boatfile.ref import ref
from trimdive.fact import fact
from trimdive.findings.assessed import Assessed
from trimdive.findings.edits import apply
from trimdive.findings.finding import Edit, Finding, Mend, Remedy, limit_of
from trimdive.geometry.clashes.found import Clash, Sort
from trimdive.geometry.clashes.scene import Scene, scene, worse
from trimdive.geometry.solids.hull import hull

MOVES = ("cylinder", "tank", "part", "lead", "foam")


def gated(found: Finding, her: Assessed) -> Finding:
    """Return a finding without its changes where they would make things share room, and say so."""
    return replace(found, cure=Mend(lambda: _passed(found, her)))


def _passed(found: Finding, her: Assessed) -> Remedy:
    """Return a mend as far as it passes."""
    if not found.edits or (clash := first_clash(her, found.edits)) is None:
        return found.mend, found.edits
    is_out = clash.sort in ("home", "bore")
    names = clash.one.name, clash.name
    return fact("in-the-way", mend=found.mend, is_out=is_out, names=names), ()


def first_clash(her: Assessed, edits: tuple[Edit, ...]) -> Clash | None:
    """Return what would share more room after changes than before them; None: nothing."""
    if not all(ref(edit.path).table in MOVES for edit in edits):
        return None  # another hull, or another file: what it leaves is found when it is made
    boat, files = apply(her.boat, her.files, edits)
    after = scene(boat, hull(boat, files), files)
    return next(iter(refused(her.boat, her.scene, after)), None)


def refused(boat: Boat, before: Scene, after: Scene) -> tuple[Clash, ...]:
    """Return what shares more room after a change, beyond what the boat file lets pass."""
    slacks = {sort: limit_of(f"room-{sort}", boat).value for sort in get_args(Sort)}
    return worse(before, after, slacks)
