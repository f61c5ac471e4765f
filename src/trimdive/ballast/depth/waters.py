"""What a change of water asks for: how much to add or take out, and where.

At rest the weight of boat and tank water equals that of the water she pushes aside, surfaced and
dived. In water ρ'/ρ times as dense both hold again at the same waterline, the same filling and
the same angles if her own mass becomes ρ'/ρ times itself with its centre where it was. So the
pull to add is (ρ'/ρ - 1) M, at her centre of gravity before tank water. Lead in the wet pushes
water aside as well: it takes more of it. Put lower than there it only makes her stiffer.

Source: Archimedes.
"""

from collections.abc import Iterable
from difflib import get_close_matches
from typing import Protocol

import numpy as np

from trimdive.errors import WaterError
from trimdive.geometry.lines.mesh import Floats
from trimdive.geometry.solids.hull import density_of
from trimdive.hydrostatics.equilibrium import Floater, State, rest, state
from trimdive.hydrostatics.weights import Ledger
from trimdive.records import record
from trimdive.water import Water, waters

LEAD, FOAM = "lead", "XPS foam"


class Trimmed(Protocol):
    """A boat trimmed for her water."""

    @property
    def masses(self) -> Ledger:
        """Everything that weighs."""
        ...

    @property
    def floater(self) -> Floater:
        """The boat ready to be let go."""
        ...


@record
class Change:
    """From the water that she is trimmed for to another."""

    name: str  # of the other water
    water: Water
    pull: float  # weight less buoyancy to add; below 0 to take out [kg]
    lead: float  # the same as lead in the wet; below 0 to take out [kg]
    foam: float  # to add where less lead is aboard than must come out [m³]
    place: Floats  # where: its x, y, and the height above which it makes her tender, shape (3,) [m]
    surfaced: State  # tanks blown, nothing done
    full: State  # tanks full, nothing done

    @property
    def sinks(self) -> float:
        """Return by how much she sinks with full tanks if nothing is done; below 0 none [kg]."""
        return self.full.rest.excess if self.full.rest.under else -self.short

    @property
    def short(self) -> float:
        """Return the lift left with full tanks if nothing is done; below 0 she sinks [kg]."""
        boat = self.full
        return self.water.density * (boat.nabla + boat.reserve) - boat.displacement_mass


def pull_for(mass: float, before: float, after: float) -> float:
    """Return the weight less buoyancy to add for another water; below 0 to take out [kg].

    Args:
        mass: Of the boat before any tank water [kg].
        before: Density of the water that she is trimmed for [kg/m³].
        after: Density of the other [kg/m³].

    >>> round(pull_for(30.0, 999.1, 1026.0), 2)
    0.81
    """
    return (after / before - 1.0) * mass


def as_lead(pull: float, density: float) -> float:
    """Return the lead that pulls so much in the wet [kg].

    Args:
        pull: Weight less buoyancy [kg].
        density: Of the water [kg/m³].
    """
    return pull / (1.0 - density / _known(LEAD))


def as_foam(lift: float, density: float) -> float:
    """Return the foam that lifts so much under water [m³].

    Args:
        lift: Buoyancy less weight [kg].
        density: Of the water [kg/m³].
    """
    return lift / (density - _known(FOAM))


def _known(material: str) -> float:
    return density_of(material, None) or 0.0


def change(her: Trimmed, name: str, other: Water, tanks: tuple[Floats, Floats]) -> Change:
    """Return what a change to another water asks for.

    Args:
        her: The boat.
        name: Of the other water.
        other: The other water.
        tanks: Water in each tank blown and full, each shape (t,) [m³].
    """
    boat = her.floater
    pull = pull_for(boat.mass, boat.density, other.density)
    lead = as_lead(pull, other.density)
    aboard = her.masses.of_kind("lead")
    missing = max(-lead - aboard, 0.0)
    there = boat._replace(density=other.density)
    return Change(
        name=name,
        water=other,
        pull=pull,
        lead=max(lead, -aboard),
        foam=as_foam(missing * (1.0 - other.density / _known(LEAD)), other.density),
        place=np.asarray(boat.gravity + boat.tree.centre),
        surfaced=state(there, rest(there, tanks[0])),
        full=state(there, rest(there, tanks[1])),
    )


def changes(
    her: Trimmed, tanks: tuple[Floats, Floats], names: Iterable[str] = ()
) -> tuple[Change, ...]:
    """Return what changes to named waters ask for, thinnest water first; all of them by default.

    Args:
        her: The boat.
        tanks: Water in each tank blown and full, each shape (t,) [m³].
        names: Of waters.

    Raises:
        WaterError: A name stands for no water.
    """
    known = waters()
    chosen = tuple(names) or tuple(known)
    for name in chosen:
        if name not in known:
            near = get_close_matches(name, known, n=1, cutoff=0.5)
            mend = f"Did you mean '{near[0]}'?" if near else f"Known: {', '.join(known)}."
            raise WaterError(f"there is no water '{name}'", "brief.waters", mend)
    found = (change(her, name, known[name], tanks) for name in dict.fromkeys(chosen))
    return tuple(sorted(found, key=lambda one: one.water.density))
