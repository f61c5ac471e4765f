"""What it means how she lies on the surface and dived: the cause, what mends it, what does not.

Source: builders' practice at the tub [practice].
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from trimdive.trials.correction import Meaning


@dataclass(frozen=True, slots=True)
class Diagnosis:
    """The words of what it means."""

    cause: str
    cure: str
    not_cure: str = ""  # what does not mend it; "" where nothing is told


def diagnosis(meaning: "Meaning") -> Diagnosis:
    """Return what it means how she lies in words."""
    return DIAGNOSES[meaning.key]


DIAGNOSES: Mapping[str, Diagnosis] = {
    "stern stern": Diagnosis(
        "her weight lies too far aft",
        "lead forward, or foam under the waterline aft",
        "foam above the waterline",
    ),
    "bow bow": Diagnosis(
        "her weight lies too far forward",
        "lead aft, or foam under the waterline forward",
        "foam above the waterline",
    ),
    "level stern": Diagnosis(
        "the tank lies aft of the centre of the upperworks",
        "foam above the waterline aft, or the tank forward, or less volume above the "
        "waterline forward",
        "moving lead",
    ),
    "level bow": Diagnosis(
        "the tank lies forward of the centre of the upperworks",
        "foam above the waterline forward, or the tank aft, or less volume above the waterline aft",
        "moving lead",
    ),
    "stern level": Diagnosis(
        "her weight lies too far aft, and the tank forward of the centre of the upperworks",
        "foam at the stern moved from above the waterline to below it, or lead forward and "
        "the tank aft",
        "moving lead alone",
    ),
    "bow level": Diagnosis(
        "her weight lies too far forward, and the tank aft of the centre of the upperworks",
        "foam at the bow moved from above the waterline to below it, or lead aft and the "
        "tank forward",
        "moving lead alone",
    ),
    "stern bow": Diagnosis(
        "her weight lies too far aft, and the tank far forward of the centre of the upperworks",
        "the tank aft first, then lead forward",
        "moving lead alone",
    ),
    "bow stern": Diagnosis(
        "her weight lies too far forward, and the tank far aft of the centre of the upperworks",
        "the tank forward first, then lead aft",
        "moving lead alone",
    ),
    "right heavy": Diagnosis(
        "the tanks take more than the upperworks need",
        "stop the fill sooner, or foam above the waterline over the tanks",
        "less lead, since the waterline rises",
    ),
    "right light": Diagnosis(
        "the upperworks are larger than the tanks can take: a hidden room, foam or trapped air",
        "find the room or the bubble, remove foam above the waterline, or fit a larger tank",
        "more lead, since the waterline sinks",
    ),
    "low neutral": Diagnosis(
        "the upperworks are too large for her tanks, or foam is above the waterline that "
        "could be below",
        "foam moved down across the waterline, or a larger tank",
        "less lead",
    ),
    "high neutral": Diagnosis(
        "the tanks are larger than needed",
        "do not empty them fully, or foam moved up across the waterline",
        "more lead",
    ),
    "low heavy": Diagnosis(
        "she weighs too much",
        "less lead, or more foam under the waterline",
        "foam above the waterline",
    ),
    "high light": Diagnosis(
        "she weighs too little",
        "more lead, or less foam under the waterline",
        "more tank",
    ),
    "low light": Diagnosis(
        "she weighs too much, and the upperworks are larger than the tanks can take",
        "foam moved down across the waterline, then less lead",
        "more lead",
    ),
    "high heavy": Diagnosis(
        "she weighs too little, and the tanks take more than the upperworks need",
        "more lead, and stop the fill sooner",
        "less lead",
    ),
    "leans leans": Diagnosis(
        "weight is off the centreline",
        "lead or battery moved across",
    ),
    "upright leans": Diagnosis(
        "foam or a bubble lies off the centreline above the waterline",
        "move the foam, vent the bubble",
        "moving lead",
    ),
    "leans upright": Diagnosis(
        "weight is off the centreline, and foam or air above the waterline against it",
        "move both to the centreline",
        "moving lead alone",
    ),
}
