"""A boat that reads the same is assessed once for all tests of a worker.

An assessment is frozen and works out each answer when first asked, so that it can be handed to
whoever assesses the same boat again. Only so many are kept, since each holds all that was asked.
"""

from collections import OrderedDict
from collections.abc import Callable, Mapping
from functools import wraps
from pathlib import Path

from trimdive.assessment import Assessment
from trimdive.boatfile import Boat, Loaded, load

MOST = 8  # assessments that are kept, those used last [-]
Assess = Callable[..., Assessment]
_kept: OrderedDict[object, Assessment] = OrderedDict()


def same(text: str, files: Mapping[str, bytes], her: Assessment) -> Assessment:
    """Return the assessment of a boat file and the files beside it that is kept, else this one."""
    key = text, tuple(sorted(files.items()))
    found = _kept.setdefault(key, her)
    _kept.move_to_end(key)
    while len(_kept) > MOST:
        _kept.popitem(last=False)
    return found


def once(assess: Assess) -> Assess:
    """Return ``assess`` that hands out again what it handed out for the same boat."""

    @wraps(assess)
    def assessed(boat: Boat | Loaded | Path | str, **beside: object) -> Assessment:
        her = assess(boat, **beside)
        if isinstance(boat, Boat):
            return her
        text = boat.text if isinstance(boat, Loaded) else load(boat).text
        return same(text, her.files, her)

    return assessed
