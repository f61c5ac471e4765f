"""What every JSON document of a command tells."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from trimdive.edits.writing import KINDS
from trimdive.findings.finding import SI_UNITS
from trimdive.text import words
from trimdive.text.found import limit_text, mend, mend_kind, what
from trimdive.text.layout import Document

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.boatfile import Boat
    from trimdive.findings import Edit, Finding


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


def finding_document(boat: "Boat", found: "Finding") -> Document:
    """Return what is not in order, in a sentence and in figures; not what mends it."""
    return {
        "check": found.key,
        "subject": found.subject,
        "weight": found.weight,
        "what": what(boat, found),
        **measured(boat, found),
    }


def found_document(boat: "Boat", one: "Finding") -> Document:
    """Return what is not in order of what stands apart from the boat in the water, and its mend."""
    return {
        "key": one.key,
        "subject": one.subject,
        "what": what(boat, one),
        **measured(boat, one),
        "mend": mend(boat, one),
        "mend_kind": mend_kind(one),
        "edits": changes(one.edits),
        "must": one.weight == "put right",
    }


def measured(boat: "Boat", found: "Finding") -> Document:
    """Return the figures of a finding: what was measured and its limit, in one unit of SI."""
    limit = found.limit
    return {
        "stands": found.stands,
        "unit": limit.unit,
        "at_most": limit.at_most,
        "at_least": limit.at_least,
        "limit": {
            "key": limit.key,
            "text": limit_text(boat, limit),
            "value": limit.value,
            "quantity": limit.quantity,
            "source": limit.source,
        },
    }


UNITS = {**SI_UNITS, "voltage": "V"}  # of the values of changes


def changes(edits: "Sequence[Edit]") -> list[Document]:
    """Return changes of a boat: each field with its value in SI."""
    return [
        {
            "action": edit.action,
            "path": edit.path,
            "fields": [
                {"field": field, "value": value, "unit": _unit(field, value)}
                for field, value in edit.fields
            ],
        }
        for edit in edits
    ]


def _unit(field: str, value: object) -> str | None:
    """Return the unit of a field's value in SI; None of what is no quantity."""
    if isinstance(value, bool) or not isinstance(value, int | float):
        return None
    return UNITS[KINDS.get(field, "length")]
