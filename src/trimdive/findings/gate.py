"""The gate that every mend passes: none is offered that lays things into each other."""

from dataclasses import replace
from typing import get_args

from trimdive.boatfile import Boat
from trimdive.boatfile.ref import ref
from trimdive.bodies.hull import hull
from trimdive.clashes.found import Clash, Sort
from trimdive.clashes.scene import Scene, scene, worse
from trimdive.fact import fact
from trimdive.findings.edits import apply
from trimdive.findings.facts import Facts
from trimdive.findings.finding import Edit, Finding, Known, Mend, limit_of

MOVES = ("cylinder", "tank", "part", "lead", "foam")


def gated(found: Finding, facts: Facts) -> Finding:
    """Return a finding without its changes where they would make things share room, and say so."""
    return replace(found, cure=Mend(lambda: _passed(found, facts)))


def _passed(found: Finding, facts: Facts) -> Known:
    """Return a mend as far as it passes."""
    if not found.edits or (clash := first_clash(facts, found.edits)) is None:
        return found.mend, found.edits
    is_out = clash.sort in ("home", "bore")
    names = clash.one.name, clash.name
    return fact("in-the-way", mend=found.mend, is_out=is_out, names=names), ()


def first_clash(facts: Facts, edits: tuple[Edit, ...]) -> Clash | None:
    """Return what would share more room after changes than before them; None: nothing."""
    if not all(ref(edit.path).table in MOVES for edit in edits):
        return None  # another hull, or another file: what it leaves is found when it is made
    boat, files = apply(facts.boat, facts.files, edits)
    after = scene(boat, hull(boat, files), files)
    return next(iter(refused(facts.boat, facts.scene, after)), None)


def refused(boat: Boat, before: Scene, after: Scene) -> tuple[Clash, ...]:
    """Return what shares more room after a change, beyond what the boat file lets pass."""
    slacks = {sort: limit_of(f"room-{sort}", boat).value for sort in get_args(Sort)}
    return worse(before, after, slacks)
