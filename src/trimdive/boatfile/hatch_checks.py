"""What cannot be right in a hatch as it was typed."""

from collections.abc import Iterator

from trimdive.boatfile.boat import Boat
from trimdive.boatfile.messages import Mistake
from trimdive.boatfile.pieces import Hatch

Mistakes = Iterator[Mistake]


def hatch_mistakes(boat: Boat) -> Mistakes:
    """Yield hatches that nobody could open: no edge, no height, or waiting for each other."""
    for number, hatch in enumerate(boat.hatches):
        path = ("hatch", number)
        if not hatch.off:
            yield from _edges(path, hatch)
        if hatch.name in _waits_for(boat, hatch.name):
            what = "it is opened only after itself"
            beside = "Each waits for the other. Leave one of them out."
            yield Mistake((*path, "after"), what, "Take one of the names out.", beside=beside)


def _edges(path: tuple[str, int], hatch: Hatch) -> Mistakes:
    """Yield what the edges of a hatch lack that is cut out of the skin."""
    needed = {
        "up": ("x_aft", "x_fore", "z_bottom"),
        "forward": ("x_aft",),
        "aft": ("x_fore",),
    }[hatch.way]
    missing = [field for field in needed if getattr(hatch, field) is None]
    if missing:
        what = f"it has no {' and no '.join(missing)}"
        mend = f"Add {' and '.join(missing)}, or off with the regions that come off whole."
        beside = "Enter where it is cut, or which regions come off whole."
        yield Mistake(path, what, mend, fields=tuple(missing), beside=beside)


def _waits_for(boat: Boat, name: str) -> set[str]:
    """Return the hatches that must be open before one, and before those."""
    after = {hatch.name: hatch.after for hatch in boat.hatches}
    found: set[str] = set()
    waiting = list(after.get(name, ()))
    while waiting:
        one = waiting.pop()
        if one not in found:
            found.add(one)
            waiting += after.get(one, ())
    return found
