"""The states that water alone should cover: other waters, gear left at home, masses not so sure.

In each, neutral and level dived asks for a mass of tank water and for its moment.
"""

from collections.abc import Iterable
from typing import Protocol

from trimdive.reach.polygon import Wanted
from trimdive.rest import Floater
from trimdive.water import Water
from trimdive.weights import Ledger


class Ready(Protocol):
    """A boat with her masses, ready to be let go."""

    @property
    def masses(self) -> Ledger:
        """Everything that weighs."""
        ...

    @property
    def floater(self) -> Floater:
        """The boat ready to be let go."""
        ...


def _neutral(boat: Floater, name: str, pull: float, density: float, midships: float) -> Wanted:
    """Return the water that makes her neutral and level, ``pull`` heavier at her G [kg]."""
    centre = boat.tree.centre
    lift = density * boat.volume
    mass = boat.mass + pull
    moment = lift * (boat.buoyancy[0] + centre[0] - midships)
    moment -= mass * (boat.gravity[0] + centre[0] - midships)
    return Wanted(name=name, mass=lift - mass, moment=float(moment))


def wanted(her: Ready, others: Iterable[tuple[str, Water]], midships: float) -> tuple[Wanted, ...]:
    """Return the states to be covered: as she is, at both ends of her masses' ±, in other waters.

    Args:
        her: The boat.
        others: Names and waters besides her own.
        midships: About which moments are taken [m].
    """
    boat, spread = her.floater, her.masses.spread
    rho = boat.density
    return (
        _neutral(boat, "as she is", 0.0, rho, midships),
        _neutral(boat, "masses at the heavy end of their ±", spread, rho, midships),
        _neutral(boat, "masses at the light end of their ±", -spread, rho, midships),
        *(_neutral(boat, name, 0.0, one.density, midships) for name, one in others),
    )
