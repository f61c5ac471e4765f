"""The same boat shown in other units: what is worked out stays, only what is written changes.

Nothing here ever reaches the boat file: what is typed without a unit is in the file's own.
"""

from collections.abc import Mapping
from types import MappingProxyType

from trimdive.assessment import Assessment
from trimdive.boatfile.boat import Units
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


def in_choice(her: Assessment, choice: str) -> Assessment:
    """Return a boat in the units of a choice; what is no choice is her own."""
    return her.in_units(UNITS[choice]) if choice in UNITS else her


def shown_in(shown: Shown, choice: str) -> Shown:
    """Return what the page shows of a boat in other units, the same one each time.

    Args:
        shown: In her own units.
        choice: Of units; what is no choice is her own.
    """
    if choice not in UNITS:
        return shown
    if choice not in shown.by_units:
        shown.by_units[choice] = Shown(her=in_choice(shown.her, choice), own=shown)
    return shown.by_units[choice]


def bare(units: Units) -> str:
    """Return in which units a number counts that is typed without one.

    >>> bare(UNITS["metric"])
    'mm, g, cm³, °C'
    """
    return ", ".join(units.shown(kind) for kind in BARE)
