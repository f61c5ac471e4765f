"""What cylinders bear under pressure from outside and inside, and how deep she may go with them."""

from trimdive.vessels.strength.caps import (
    Cap,
    Hole,
    at_hole,
    cap,
    cap_stress,
    cap_yields_at,
    plain_stress,
    sag,
)
from trimdive.vessels.strength.inside import PushOff, end_load, push_off, rod_pull
from trimdive.vessels.strength.material import Material, material, safety, warm_share
from trimdive.vessels.strength.stock import Stock, stock
from trimdive.vessels.strength.tube import (
    Collapse,
    Tube,
    buckling_pressure,
    collapse,
    hoop_stress,
    knocked_down,
    long_tube,
    roundness,
    single_formula,
    tube,
    yields_at,
)
from trimdive.vessels.strength.weakest import (
    Factors,
    Part,
    Strength,
    measured,
    strength,
    usual_factors,
)

__all__ = [
    "Cap",
    "Collapse",
    "Factors",
    "Hole",
    "Material",
    "Part",
    "PushOff",
    "Stock",
    "Strength",
    "Tube",
    "at_hole",
    "buckling_pressure",
    "cap",
    "cap_stress",
    "cap_yields_at",
    "collapse",
    "end_load",
    "hoop_stress",
    "knocked_down",
    "long_tube",
    "material",
    "measured",
    "plain_stress",
    "push_off",
    "rod_pull",
    "roundness",
    "safety",
    "sag",
    "single_formula",
    "stock",
    "strength",
    "tube",
    "usual_factors",
    "warm_share",
    "yields_at",
]
