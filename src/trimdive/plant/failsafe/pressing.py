"""Pressure in each dry space of a boat, her tanks as full and as empty as her plants get them.

Sources: ``dryspace`` for the pressure; ``plant`` for where a pump or a piston ends.
"""

from collections.abc import Sequence

from trimdive.boatfile.plant import Plant
from trimdive.errors import BoatError
from trimdive.plant import System, emptied, fullest
from trimdive.plant.failsafe.lifting import Made
from trimdive.plant.water import pressure_at
from trimdive.records import record
from trimdive.vessels.dryspace import DrySpace, Inside, dry_spaces, insides
from trimdive.vessels.dryspace.states import Reached


@record
class Pressed:
    """The air in one dry space, and its pressure in every state."""

    space: DrySpace
    states: tuple[Inside, ...]  # that differ from the air's pressure, the highest first

    @property
    def most(self) -> float:
        """Return the highest pressure above the air's, 0 where there is none [Pa]."""
        return max([0.0, *(one.pressure for one in self.states)])

    @property
    def least(self) -> float:
        """Return the lowest pressure, below 0 a vacuum, 0 where there is none [Pa]."""
        return min([0.0, *(one.pressure for one in self.states)])


def pressed(
    her: Made,
    made: Sequence[System],
    depth: float,
    plants: Sequence[Plant] | None = None,
) -> dict[str, Pressed]:
    """Return the pressure in each dry space, by the name of its cylinder.

    Args:
        her: The boat.
        made: Her plants, ready to be run.
        depth: That she is for [m].
        plants: The same in the boat file; None: hers.

    Raises:
        PlantError: The tanks take all the air of one.
    """
    found: dict[str, Pressed] = {}
    for name, space in dry_spaces(her.boat, her.floater, plants).items():
        has_bag = any(one.is_bag for one in space.takers)
        states: dict[str, Inside] = {}
        for deep in (0.0, depth) if has_bag else (0.0,):  # around a bag is what is outside
            outside = pressure_at(deep, her.floater.density)
            for one in insides(space, _reached(space, made, deep), outside):
                known = states.get(one.key)
                if known is None or abs(one.pressure) > abs(known.pressure):
                    states[one.key] = one
        ordered = sorted(states.values(), key=lambda one: -one.pressure)
        found[name] = Pressed(space=space, states=tuple(ordered))
    return found


def _reached(space: DrySpace, made: Sequence[System], depth: float) -> Reached:
    """Return the least and the most water that plants leave in each tank of a dry space [m³]."""
    found: dict[str, tuple[float, float]] = {}
    for system in made:
        own = [one for one in space.takers if one.tank in system.tanks]
        if not own:
            continue
        low, high = system.blown, fullest(system)
        if system.kind == "air bag":
            low = _flat(system, depth)
        room = system.full - system.blown
        for one in own:
            shares = [(water - system.blown) / room for water in (low, high)]
            least, most = (one.blown + share * (one.full - one.blown) for share in shares)
            found[one.tank] = (least, most)
    return found


def _flat(system: System, depth: float) -> float:
    """Return the water that is left beside a bag when it is filled at a depth [m³]."""
    try:
        return emptied(system, depth, system.full)[0]
    except BoatError:  # its pump does not start against that
        return system.full
