"""Rings that seal a bore, a tube or a face, the grooves to cut for them, and whether they seal."""

from trimdive.vessels.seals.rings import (
    Gland,
    Ring,
    fill,
    gland,
    glands,
    ring,
    rings,
    rule,
    squeeze,
    thinned,
    thinned_by_volume,
)
from trimdive.vessels.seals.seal import (
    Between,
    Seal,
    closing_force,
    closing_line,
    cut_seal,
    face_seal,
    face_seals_around,
    radial_seal,
    seals_for,
)
from trimdive.vessels.seals.shafts import ShaftSeal, shaft_seals

__all__ = [
    "Between",
    "Gland",
    "Ring",
    "Seal",
    "ShaftSeal",
    "closing_force",
    "closing_line",
    "cut_seal",
    "face_seal",
    "face_seals_around",
    "fill",
    "gland",
    "glands",
    "radial_seal",
    "ring",
    "rings",
    "rule",
    "seals_for",
    "shaft_seals",
    "squeeze",
    "thinned",
    "thinned_by_volume",
]
