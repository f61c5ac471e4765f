"""The states that water alone should cover: other waters, other gear, masses not so sure.

In each, neutral and level dived asks for a mass of tank water and for its moment.
"""

from collections.abc import Iterable
from math import sqrt
from typing import Protocol

from trimdive.ballast.reach.polygon import Wanted
from trimdive.hydrostatics.equilibrium import Floater
from trimdive.hydrostatics.weights import Ledger
from trimdive.water import Water


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


def _neutral(
    boat: Floater,
    name: str,
    midships: float,
    *,
    density: float,
    more: tuple[float, float] = (0.0, 0.0),
) -> Wanted:
    """Return the water that makes her neutral and level.

    Args:
        boat: The boat.
        name: Of the state.
        midships: About which moments are taken [m].
        density: Of the water [kg/m³].
        more: Weight less buoyancy on top of her own, and its moment [kg, kg m].
    """
    centre, lift = boat.tree.centre, density * boat.volume
    moment = lift * (boat.buoyancy[0] + centre[0] - midships)
    moment -= boat.mass * (boat.gravity[0] + centre[0] - midships)
    return Wanted(
        name=name,
        mass=lift - boat.mass - more[0],
        moment=float(moment) - more[1],
        denser=density / boat.density,
    )


def spreads(masses: Ledger, midships: float) -> tuple[tuple[float, float], ...]:
    """Return how far mass and moment may be off together: heaviest, lightest, by bow, by stern.

    The 95 % bands of single masses are independent, so that those of mass and moment lie on an
    ellipse; these are its four outmost points.

    Args:
        masses: Everything that weighs.
        midships: About which moments are taken [m].
    """
    off = [(entry.spread, entry.spread * (entry.place[0] - midships)) for entry in masses.entries]
    mass = sqrt(sum(m * m for m, _ in off))
    turn = sqrt(sum(q * q for _, q in off))
    both = float(sum(m * q for m, q in off))
    if mass <= 0 or turn <= 0:
        return ((mass, 0.0), (-mass, 0.0), (0.0, turn), (0.0, -turn))
    heavy, bow = (mass, both / mass), (both / turn, turn)
    return (heavy, (-heavy[0], -heavy[1]), bow, (-bow[0], -bow[1]))


SPREADS = ("masses heavy", "masses light", "bow heavy", "stern heavy")


def wanted(her: Ready, others: Iterable[tuple[str, Water]], midships: float) -> tuple[Wanted, ...]:
    """Return the states to be covered: as she is, at the ends of her masses' ±, in other waters.

    Args:
        her: The boat.
        others: Names and waters besides her own.
        midships: About which moments are taken [m].
    """
    boat = her.floater
    rho = boat.density
    ends = zip(SPREADS, spreads(her.masses, midships), strict=True)
    return (
        _neutral(boat, "as she is", midships, density=rho),
        *(_neutral(boat, name, midships, density=rho, more=more) for name, more in ends),
        *(_neutral(boat, name, midships, density=one.density) for name, one in others),
    )


def otherwise(name: str, boat: Floater, midships: float) -> Wanted:
    """Return what is wanted with a thing left at home or exchanged for another.

    Args:
        name: Of the state.
        boat: As she is then, in the water that she is trimmed for.
        midships: About which moments are taken [m].
    """
    return _neutral(boat, name, midships, density=boat.density)
