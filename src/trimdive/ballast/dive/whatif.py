"""What if something fails or is forgotten: does some of her stay above water, and how does she lie?

Each case is a boat changed as it would be, and let go from upright in still water with every
space that floods flooded: a rest, not the way to it.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal, Protocol

from trimdive.ballast.dive.changed import (
    flooded_boat,
    flooded_region,
    held_water,
    other,
    piece_named,
    replaced,
    tank_numbered,
    towers,
    volume_of,
)
from trimdive.boatfile import Boat
from trimdive.fact import Fact, fact
from trimdive.geometry.lines.mesh import Floats
from trimdive.geometry.solids.build import Body, bodies
from trimdive.geometry.solids.hull import Hull
from trimdive.geometry.solids.surfaces import Files
from trimdive.hydrostatics.equilibrium import Floater, State, floater, rest, state, tank_waters
from trimdive.hydrostatics.weights import Ledger, ledger

Kind = Literal["tank full", "tank empty", "flooded", "tower full", "left at home", "exchanged"]
Tanks = Literal["blown", "full"]
WORTH = 0.02  # of her mass: a lighter part left at home is no case of its own [-]


class Made(Protocol):
    """A boat with what has been made of her."""

    @property
    def boat(self) -> Boat:
        """Her boat file."""
        ...

    @property
    def files(self) -> Files:
        """What lies beside it."""
        ...

    @property
    def hull(self) -> Hull:
        """Her hull."""
        ...

    @property
    def bodies(self) -> tuple[Body, ...]:
        """Everything that displaces."""
        ...

    @property
    def masses(self) -> Ledger:
        """Everything that weighs."""
        ...

    @property
    def floater(self) -> Floater:
        """The boat ready to be let go."""
        ...


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """One thing that went otherwise than planned, and how she rests then."""

    kind: Kind
    thing: str  # name of the tank, vessel, region or part
    subject: str  # its place in the boat file
    tanks: Tanks  # how the tanks are that do what they should
    others: bool  # whether there are such tanks
    state: State
    out: float  # of her that stays above water [m³]
    spare: float  # that she could still carry with some of her out; below 0 she sinks [kg]
    supposed: Fact | None  # what was taken for granted

    @property
    def stays_up(self) -> bool:
        """Return whether something of her stays above water."""
        return not self.state.rest.under


def _case(
    boat: Floater,
    waters: Floats,
    kind: Kind,
    thing: tuple[str, str],
    tanks: Tanks = "blown",
    *,
    others: bool,
    supposed: Fact | None = None,
) -> Case:
    """Return a case: the boat let go with this water in her tanks.

    Args:
        boat: Ready to be let go.
        waters: In each tank, shape (t,) [m³].
        kind: What goes otherwise than planned.
        thing: Name of what it is about, and its place in the boat file.
        tanks: How the tanks are that do what they should.
        others: Whether there are such tanks.
        supposed: What was taken for granted.
    """
    at = state(boat, rest(boat, waters))
    return Case(
        kind=kind,
        thing=thing[0],
        subject=thing[1],
        tanks=tanks,
        others=others,
        state=at,
        out=0.0 if at.rest.under else at.reserve,
        spare=boat.density * boat.volume - at.displacement_mass,
        supposed=supposed,
    )


def stuck_full(her: Made, tank: str) -> Case:
    """Return her with one tank full and the others blown.

    Raises:
        AskError: There is no such tank.
    """
    k = tank_numbered(her.boat, tank)
    waters = tank_waters(her.boat, her.floater.tanks, "blown")
    waters[k] = tank_waters(her.boat, her.floater.tanks, "full")[k]
    thing = tank, f"tank[{k + 1}]"
    return _case(her.floater, waters, "tank full", thing, "blown", others=len(waters) > 1)


def stuck_empty(her: Made, tank: str) -> Case:
    """Return her with one tank blown and the others full.

    Raises:
        AskError: There is no such tank.
    """
    k = tank_numbered(her.boat, tank)
    waters = tank_waters(her.boat, her.floater.tanks, "full")
    waters[k] = tank_waters(her.boat, her.floater.tanks, "blown")[k]
    thing = tank, f"tank[{k + 1}]"
    return _case(her.floater, waters, "tank empty", thing, "full", others=len(waters) > 1)


def _made_anew(her: Made, boat: Boat) -> tuple[Boat, Floater]:
    """Return a changed boat, of the same hull, ready to be let go."""
    displacing = bodies(boat, her.hull, her.files)
    masses = ledger(boat, displacing)
    return boat, floater(boat, her.files, displacing, masses, her.floater.density)


def _blown(boat: Boat, ready: Floater, filling: Tanks = "blown") -> Floats:
    return tank_waters(boat, ready.tanks, filling)


def flooded(her: Made, vessel: str) -> Case:
    """Return her with a cylinder, both of a pair, or a sealed region flooded, tanks blown.

    Its wall and contents then displace only their own volume; a tank inside it neither weighs
    nor lifts any more.

    Raises:
        AskError: There is no such cylinder or sealed region.
    """
    boat = her.boat
    number = next((i for i, c in enumerate(boat.cylinders, 1) if c.name == vessel), None)
    if number is None:
        number, changed, displacing, supposed = flooded_region(boat, her.bodies, her.masses, vessel)
        ready = floater(
            changed, her.files, displacing, ledger(changed, displacing), her.floater.density
        )
        subject = f"region[{number}]"
    else:
        changed, supposed = flooded_boat(boat, number - 1)
        changed, ready = _made_anew(her, changed)
        subject = f"cylinder[{number}]"
    waters, others = _blown(changed, ready), bool(changed.tanks)
    return _case(ready, waters, "flooded", (vessel, subject), others=others, supposed=supposed)


def tower_full(her: Made, region: str) -> Case:
    """Return her on the surface, tanks blown, with a tower still full of water to its top.

    Raises:
        AskError: There is no such region.
    """
    displacing, masses, number, held = held_water(
        her.boat, her.hull, her.bodies, her.masses, region, her.floater.density
    )
    ready = floater(her.boat, her.files, displacing, masses, her.floater.density)
    return _case(
        ready,
        _blown(her.boat, ready),
        "tower full",
        (region, f"region[{number}]"),
        others=bool(her.boat.tanks),
        supposed=fact("tower-holds", mass=her.floater.density * held),
    )


def without(her: Made, part: str) -> tuple[str, Boat, Floater]:
    """Return a part's place in the boat file, and her without it, ready to be let go.

    Raises:
        AskError: There is no such part.
    """
    path, _ = piece_named(her.boat, part)
    return path, *_made_anew(her, replaced(her.boat, path, None))


def with_another(
    her: Made,
    part: str,
    mass: float,
    volume: float | None = None,
    place: tuple[float, float, float] | None = None,
) -> tuple[str, Boat, Floater]:
    """Return a part's place in the boat file, and her with another there, such as a battery.

    Args:
        her: The boat.
        part: Its name.
        mass: Of the new one; of both of a pair [kg].
        volume: Of the new one; left out, as the old one's [m³].
        place: Of its middle; left out, where the old one is [m].

    Raises:
        AskError: There is no such part, or the new one weighs nothing.
    """
    path, old = piece_named(her.boat, part)
    size = volume_of(old, her.files) if volume is None else volume
    return path, *_made_anew(her, replaced(her.boat, path, other(old, mass, size, place)))


def left_at_home(her: Made, part: str, tanks: Tanks = "blown") -> Case:
    """Return her without a part.

    Raises:
        AskError: There is no such part.
    """
    path, boat, ready = without(her, part)
    waters, others = _blown(boat, ready, tanks), bool(boat.tanks)
    return _case(ready, waters, "left at home", (part, path), tanks, others=others)


def exchanged(
    her: Made,
    part: str,
    *,
    mass: float,
    volume: float | None = None,
    place: tuple[float, float, float] | None = None,
    tanks: Tanks = "blown",
) -> Case:
    """Return her with another in a part's place; arguments and errors as ``with_another``."""
    path, boat, ready = with_another(her, part, mass, volume, place)
    waters, others = _blown(boat, ready, tanks), bool(boat.tanks)
    return _case(ready, waters, "exchanged", (part, path), tanks, others=others)


def _each(her: Made) -> Iterator[Case]:
    """Yield what may go wrong with a boat, one thing at a time."""
    boat = her.boat
    for tank in boat.tanks:
        yield stuck_full(her, tank.name)
        yield stuck_empty(her, tank.name)
    sealed = [region.name for region in boat.regions if region.sealed]
    for name in (*(cylinder.name for cylinder in boat.cylinders), *sealed):
        yield flooded(her, name)
    water = rest(her.floater, tank_waters(boat, her.floater.tanks, "blown"))
    for name in towers(boat, her.hull, water):
        yield tower_full(her, name)
    for entry in her.masses.entries:
        if entry.kind == "part" and entry.mass >= WORTH * her.masses.mass:
            yield left_at_home(her, entry.name, "blown")
            if boat.tanks:
                yield left_at_home(her, entry.name, "full")


def cases(her: Made) -> tuple[Case, ...]:
    """Return what may go wrong with a boat, one thing at a time.

    Raises:
        BalanceError: She finds no rest in one of them.
    """
    return tuple(_each(her))
