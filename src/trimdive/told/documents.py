"""What every JSON document of a command tells."""

from typing import TYPE_CHECKING

from trimdive.told import words
from trimdive.told.layout import Document

if TYPE_CHECKING:
    from trimdive.assess import Assessment


def common(her: "Assessment") -> Document:
    """Return what every document tells."""
    water = her.water
    return {
        "boat": her.boat.name,
        "water": {
            "kind": water.kind,
            "temperature_celsius": water.celsius,
            "salt_g_kg": water.salt,
            "density_kg_m3": water.density,
        },
        "in_order": her.in_order,
        "things_to_put_right": words.to_put_right(her),
    }
