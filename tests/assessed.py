"""A boat that reads the same is assessed once for all tests of a worker.

An assessment is frozen and works out each answer when first asked, so that it can be handed to
whoever assesses the same boat again. Only so many are kept, since each holds all that was asked;
the demo boats are kept to the end, since most files of tests begin with one.
"""

from collections import OrderedDict
from collections.abc import Callable, Mapping
from functools import cache, wraps
from pathlib import Path

from trimdive.assessment import Assessment
from trimdive.boatfile import Boat, Loaded, load

BOATS = Path(__file__).parents[1] / "boats"
MOST = 8  # assessments that are kept beside the demo boats', those used last [-]
Assess = Callable[..., Assessment]
_kept: OrderedDict[object, Assessment] = OrderedDict()
_demo: dict[object, Assessment] = {}


@cache
def demo_texts() -> frozenset[str]:
    """Return the boat files of the demo boats, as they are shipped."""
    return frozenset(file.read_text("utf-8") for file in BOATS.glob("*/boat.toml"))


def forget() -> None:
    """Let go of what is kept, so that whoever looks how a thing is made sees it made."""
    _demo.clear()
    _kept.clear()


def same(text: str, files: Mapping[str, bytes], her: Assessment) -> Assessment:
    """Return the assessment of a boat file and the files beside it that is kept, else this one."""
    key = text, tuple(sorted(files.items()))
    if text in demo_texts():
        return _demo.setdefault(key, her)
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
