"""What the panel of "why?" is given, and the figures that it tells of."""

from typing import TYPE_CHECKING

from trimdive.page.views import standing
from trimdive.why import as_text, why

if TYPE_CHECKING:
    from trimdive.page.desk import Desk, Slider


def why_told(desk: "Desk", key: str, slider: "Slider") -> dict[str, object]:
    """Return what the panel shows of one figure.

    Args:
        desk: The boat.
        key: Of the figure.
        slider: Where the slider stands.

    Raises:
        BoatFileError: There is no such figure of her.
    """
    _, state = standing(desk.her, slider)
    found = why(desk.her, key, state)
    return {
        "why": found,
        "formula": as_text(found.formula),
        "has_symbols": any(one.symbol for one in found.values),
    }
