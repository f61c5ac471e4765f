"""What every JSON document of a command tells."""

from typing import TYPE_CHECKING

from trimdive.told import words
from trimdive.told.layout import Document

if TYPE_CHECKING:
    from trimdive.assessment import Assessment


def lowest(her: "Assessment") -> Document:
    """Return how she lies low, with the name of that state: its figures stand first everywhere."""
    state = her.lowest
    return {
        "state": her.lowest_name,
        "filling": words.how_full(her, state.rest.waters),
        "trim_bow_down_rad": state.trim_angle,
        "heel_starboard_rad": state.heel,
        "bg_m": state.bg,
        "excess_kg": state.rest.excess,
    }


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
        "in_order": her.wholly_in_order,
        "things_to_put_right": her.urgent,
        "things_to_put_right_on_bench": her.urgent_on_bench,
        "things_not_entered": len(her.not_entered),
    }
