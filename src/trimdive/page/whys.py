"""What the panel of "why?" is given, and the figures that it tells of."""

from typing import TYPE_CHECKING

from trimdive.page.shown import name_of
from trimdive.page.views import standing
from trimdive.text.sentence import sentence
from trimdive.text.whys import in_words
from trimdive.why import as_text, every_finding, found_keys, why

if TYPE_CHECKING:
    from trimdive.page.desk import Desk, Slider


def why_view(desk: "Desk", key: str, slider: "Slider") -> dict[str, object]:
    """Return what the panel shows of one figure.

    Args:
        desk: The boat.
        key: Of the figure.
        slider: Where the slider stands.

    Raises:
        BoatFileError: There is no such figure of her.
    """
    _, state = standing(desk.her, slider)
    found = in_words(desk.her.boat, why(desk.her, _numbered(desk, key), state))
    return {
        "why": found,
        "answer": sentence(found.answer) if key.startswith("finding/") else found.answer,
        "formula": as_text(found.formula),
        "has_symbols": any(one.symbol for one in found.values),
    }


def _numbered(desk: "Desk", key: str) -> str:
    """Return the key of a finding by its name on the page."""
    first, _, name = key.partition("/")
    if first != "finding":
        return key
    names = [name_of(one) for one in every_finding(desk.her)]
    return found_keys(desk.her)[names.index(name)] if name in names else key
