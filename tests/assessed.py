"""A boat that reads the same is assessed once for all tests of a worker.

An assessment is frozen and works out each answer when first asked, so that it can be handed to
whoever assesses the same boat again. Only so many are kept, since each holds all that was asked.
"""

from collections import OrderedDict
from collections.abc import Callable, Mapping
from functools import wraps
from pathlib import Path

from trimdive.assess import Assessment
from trimdive.boatfile import Loaded

MOST = 8  # assessments that are kept, those used last [-]
Assess = Callable[[Loaded | Path | str], Assessment]
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
    def assessed(loaded: Loaded | Path | str) -> Assessment:
        her = assess(loaded)
        text = loaded.text if isinstance(loaded, Loaded) else Path(loaded).read_text("utf-8-sig")
        return same(text, her.files, her)

    return assessed
