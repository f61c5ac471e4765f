"""What she floats in: the density and the viscosity of fresh, pool and sea water.

Sources: [water-density-2001], [teos-10], [electrolyte-density-2004], [water-viscosity-2008],
[sea-viscosity-2010].
"""

from trimdive.water.densities import KINDS, Kind, density
from trimdive.water.named import Water, water, waters
from trimdive.water.viscosities import dynamic_viscosity, viscosity

__all__ = [
    "KINDS",
    "Kind",
    "Water",
    "density",
    "dynamic_viscosity",
    "viscosity",
    "water",
    "waters",
]
