"""The same boat shown in other units: what is worked out stays, only what is written changes.

Nothing here ever reaches the boat file: what is typed without a unit is in the file's own.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from types import MappingProxyType

from trimdive.assessment import Assessment
from trimdive.boatfile import Boat
from trimdive.boatfile.boat import Units
from trimdive.findings import Facts, Finding
from trimdive.page.shown import Shown

AS_FILED = ""  # the file's own units
CHOICES: Mapping[str, str] = MappingProxyType(
    {AS_FILED: "as in the file", "metric": "metric", "inches": "inches and ounces"}
)
UNITS: Mapping[str, Units] = MappingProxyType(
    {
        "metric": Units(
            length="mm", mass="g", volume="cm³", angle="°", temperature="°C", speed="m/s",
            area="cm²", pressure="bar", force="N",
        ),
        "inches": Units(
            length="in", mass="oz", volume="in³", angle="°", temperature="°F", speed="ft/s",
            density="oz/in³", area="in²", pressure="psi", force="lbf",
        ),
    }
)  # fmt: skip
BARE = ("length", "mass", "volume", "temperature")  # kinds whose own unit is told
WITHOUT_UNITS = (  # what is worked out and has no units written in it
    "water", "hull", "bodies", "masses", "floater", "waterline", "need", "blown_water",
    "full_water", "surfaced", "full", "neutral", "dived", "lowest", "path", "dive", "down", "up",
    "held", "heave", "stop", "film", "others", "bg", "midships", "reach", "wanted", "sure",
    "changes", "depths", "bays", "outlines", "urgent", "urgent_on_bench", "in_order",
)  # fmt: skip


@dataclass(frozen=True, kw_only=True, repr=False)
class Rewritten(Assessment):
    """A boat in other units; what has none written in it is worked out once, with her own."""

    own: Assessment
    choice: str  # of units

    @cached_property
    def facts(self) -> Facts:
        """All that a check may look at."""
        facts = self.own.facts
        cleared = facts.cleared
        other = cleared and replace(cleared, boat=_written(cleared.boat, self.choice))
        return replace(facts, boat=self.boat, cleared=other)

    @cached_property
    def mended(self) -> "dict[Finding, Assessment]":
        """Her with each thing alone mended that the program can mend."""
        found = [one for one in self.first_findings if one.edits]
        each = zip(found, self.own.mended.values(), strict=True)
        return {one: rewritten(her, self.choice) for one, her in each}


def _of_own(name: str) -> property:
    """Return a property that her own assessment answers."""
    return property(lambda her: getattr(her.own, name))


for one in WITHOUT_UNITS:
    setattr(Rewritten, one, _of_own(one))


def _written(boat: Boat, choice: str) -> Boat:
    return boat.model_copy(update={"units": UNITS[choice]})


def rewritten(her: Assessment, choice: str) -> Assessment:
    """Return a boat in other units, the same one each time.

    Args:
        her: The boat in her own units.
        choice: Of units; what is no choice is her own.
    """
    if choice not in UNITS:
        return her
    kept: dict[str, Assessment] = her.__dict__.setdefault("in other units", {})
    if choice not in kept:
        boat = _written(her.boat, choice)
        kept[choice] = Rewritten(boat=boat, files=her.files, own=her, choice=choice)
    return kept[choice]


@dataclass(frozen=True, kw_only=True)
class ShownRewritten(Shown):
    """A boat in other units, with what the page shows of her; pictures are her own."""

    own: Shown
    choice: str

    @cached_property
    def picture(self) -> str:
        """What moves with the boat, as SVG."""
        return self.own.picture

    @cached_property
    def end(self) -> str:
        """Her outline from astern, as SVG."""
        return self.own.end


def shown_in(shown: Shown, choice: str) -> Shown:
    """Return what the page shows of a boat in other units, the same one each time.

    Args:
        shown: In her own units.
        choice: Of units; what is no choice is her own.
    """
    if choice not in UNITS:
        return shown
    kept: dict[str, Shown] = shown.__dict__.setdefault("in other units", {})
    if choice not in kept:
        her = rewritten(shown.her, choice)
        kept[choice] = ShownRewritten(her=her, own=shown, choice=choice)
    return kept[choice]


def bare(units: Units) -> str:
    """Return in which units a number counts that is typed without one.

    >>> bare(UNITS["metric"])
    'mm, g, cm³, °C'
    """
    return ", ".join(units.shown(kind) for kind in BARE)
