"""What depth does: everything that displaces shrinks, and she grows heavier as she goes deeper.

A closed tube between stiff ends gives ΔV/V = -(p R / E t)(2.5 - 2 ν), a solid or a foam p / K with
K = E / 3 (1 - 2 ν), gas follows p V = const. The water itself grows denser and lifts her a little.
All are of short duration; plastics creep and then give about twice as much.

Sources: membrane theory of thin cylinders, closed form; Hooke's law; Boyle's law.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from math import pi, sqrt
from typing import Literal, Protocol

import numpy as np

from trimdive.boatfile import Boat, Cylinder, Region
from trimdive.boatfile.ref import ref
from trimdive.data import Row, constant, table
from trimdive.errors import AskError, BalanceError
from trimdive.geometry.lines.mesh import Floats
from trimdive.geometry.solids.build import Body, numbered
from trimdive.hydrostatics.equilibrium import Floater
from trimdive.records import record

Kind = Literal["tube", "foam", "gas", "solid", "water"]
RUBBER = "foam rubber"
DEEPEST, STEP = 100.0, 0.1  # as far as depths are looked at, and how finely [m]


class Built(Protocol):
    """A boat with all that displaces."""

    @property
    def boat(self) -> Boat:
        """Her boat file."""
        ...

    @property
    def bodies(self) -> tuple[Body, ...]:
        """Everything that displaces."""
        ...

    @property
    def floater(self) -> Floater:
        """The boat ready to be let go."""
        ...


@dataclass(frozen=True, slots=True, kw_only=True)
class Soft:
    """Something that pushes less water aside the deeper it is."""

    name: str
    path: str  # its place in the boat file, or ""
    kind: Kind
    volume: float  # at the surface [m³]
    gas: float  # of that, gas that follows the pressure [m³]
    yielding: float  # share of its volume lost for each pascal, without its gas [1/Pa]

    def lost(self, pressure: float) -> float:
        """Return the volume lost at a pressure above that of the air [m³]; water gains.

        Args:
            pressure: Above that of the air [Pa].
        """
        air = constant("atmosphere")
        squeezed = self.gas * pressure / (air + pressure)
        return squeezed + min(self.yielding * pressure, 1.0) * (self.volume - self.gas)


@record
class Compressibility:
    """All of a boat that shrinks with depth."""

    softs: tuple[Soft, ...]
    unknown: tuple[str, ...]  # what may shrink too, of a stiffness that nobody told
    density: float  # of the water [kg/m³]

    def heavier(self, depth: float) -> float:
        """Return by how much she is heavier than at the surface [kg]; below 0 lighter.

        Args:
            depth: Of her middle [m].
        """
        pressure = pressure_at(depth, self.density)
        return self.density * sum(soft.lost(pressure) for soft in self.softs)

    def per_metre(self, depth: float = 0.0) -> float:
        """Return by how much each further metre makes her heavier [kg/m].

        Args:
            depth: From where on [m].
        """
        low, high = max(depth - 0.5 * STEP, 0.0), depth + 0.5 * STEP
        return (self.heavier(high) - self.heavier(low)) / (high - low)

    def no_return(self, lift: float) -> float | None:
        """Return the depth below which a lift no longer stops her [m]; None where there is none.

        Args:
            lift: Buoyancy less weight that she can bring up, at the surface [kg].
        """
        if lift <= 0:
            return 0.0
        lacks = np.array([self.heavier(k * STEP) for k in range(round(DEEPEST / STEP) + 1)]) - lift
        first = int(np.argmax(lacks > 0))
        if lacks[first] <= 0:
            return None
        share = lacks[first - 1] / (lacks[first - 1] - lacks[first])
        return float((first - 1 + share) * STEP)


@record
class Depths:
    """How deep she may go."""

    compressibility: Compressibility
    trimmed: float  # lift left with full tanks, at the surface; below 0 she sinks [kg]
    blown: float  # lift with her tanks blown [kg]
    hovers: float | None  # deeper than this she sinks by herself with full tanks [m]
    returns: float | None  # deeper than this she sinks even with her tanks blown [m]


def pressure_at(depth: float, density: float) -> float:
    """Return the pressure above that of the air [Pa].

    Args:
        depth: Under the surface [m].
        density: Of the water [kg/m³].

    Raises:
        BalanceError: The depth lies above the surface, or is no number.
    """
    if not depth >= 0:
        raise BalanceError(
            f"a depth of {depth:g} m is not under water", "depth", "Give a depth of 0 or more."
        )
    return density * constant("gravity") * depth


def tube_yielding(outside: float, wall: float, modulus: float, poisson: float) -> float:
    """Return the share of its volume that a closed tube loses for each pascal [1/Pa].

    Args:
        outside: Diameter [m].
        wall: Its thickness [m].
        modulus: Young's modulus [Pa].
        poisson: Poisson's ratio [-].

    Limits:
        A thin wall, stiff ends, elastic.

    Source:
        membrane theory of thin cylinders under pressure from all sides, closed form.
    """
    return (outside - wall) / 2 / (modulus * wall) * (2.5 - 2.0 * poisson)


def solid_yielding(modulus: float, poisson: float) -> float:
    """Return the share of its volume that a solid or a foam loses for each pascal [1/Pa].

    Args:
        modulus: Young's modulus [Pa].
        poisson: Poisson's ratio [-].

    Source:
        Hooke's law: 1/K = 3 (1 - 2 ν) / E.
    """
    return 3.0 * (1.0 - 2.0 * poisson) / modulus


def elastic(material: str | None) -> tuple[float, float] | None:
    """Return Young's modulus [Pa] and Poisson's ratio of a material, where they are known."""
    found: dict[str, Row] = {entry["material"]: entry for entry in table("elastic")}
    if material not in found:
        return None
    return float(found[material]["modulus"]) * 1e6, float(found[material]["poisson"])


def _tube(vessel: Cylinder, body: Body) -> Soft | None:
    """Return a cylinder, or a pair, as something soft."""
    stiff = elastic(vessel.material)
    if stiff is None:
        return None
    yielding = tube_yielding(vessel.outside, vessel.wall, *stiff)
    return _soft(body, "tube", yielding)


def _dry_hull(region: Region, body: Body) -> Soft | None:
    """Return a sealed region as something soft: a tube as long and as large as it."""
    stiff = elastic(region.material)
    if stiff is None or not region.thickness:
        return None
    low, high = body.mesh.bounds
    across = 2 * sqrt(body.volume / (pi * float(high[0] - low[0])))
    return _soft(body, "tube", tube_yielding(across, region.thickness, *stiff))


def _soft(body: Body, kind: Kind, yielding: float, gas: float = 0.0) -> Soft:
    return Soft(
        name=body.name,
        path=body.path,
        kind=kind,
        volume=body.volume,
        gas=gas,
        yielding=yielding,
    )


def _solid(material: str | None, body: Body) -> Soft | None:
    """Return a solid thing or a piece of foam as something soft."""
    is_foam = body.kind == "foam" or material == RUBBER
    kind: Kind = "foam" if is_foam else "solid"
    if material == RUBBER:
        return _soft(body, kind, 0.0, constant("rubber-gas-share") * body.volume)
    stiff = elastic(material)
    return None if stiff is None else _soft(body, kind, solid_yielding(*stiff))


def _of(boat: Boat, body: Body) -> tuple[Soft | None, bool]:
    """Return a body as something soft, and whether it matters that it is not known."""
    kind, k = ref(body.path).table, ref(body.path).order
    if kind == "cylinder":
        return _tube(boat.cylinders[k], body), True
    if kind == "tank":
        return _solid(boat.tanks[k].material, body), True
    if kind == "region":
        region = boat.regions[k]
        soft = _dry_hull(region, body) if region.sealed else _solid(region.material, body)
        return soft, region.sealed
    if kind == "coat":
        return _solid(boat.coats[k].material, body), False
    if kind == "from_tub":  # what it is made of nobody knows
        return None, False
    piece = dict(numbered(boat))[body.path]
    return _solid(piece.material, body), kind == "foam"


def trapped(name: str, volume: float) -> Soft:
    """Return air or gas on which the water presses: a bubble, a bag, a tank open below.

    Args:
        name: What it is.
        volume: At the surface [m³].

    Raises:
        AskError: The volume is below zero, or no number.
    """
    if not volume >= 0:
        what = f"{volume * 1e6:g} cm³ of air cannot be"
        raise AskError(what, name, "Give a volume of 0 or more.")
    return Soft(name=name, path="", kind="gas", volume=volume, gas=volume, yielding=0.0)


def open_tank_air(boat: Boat, ready: Floater, waters: Floats, names: Iterable[str]) -> list[Soft]:
    """Return the air in tanks that are open below, as gas.

    Args:
        boat: Her boat file.
        ready: The boat.
        waters: Water in each tank, shape (t,) [m³].
        names: Of the tanks that are open below.

    Raises:
        AskError: There is no such tank.
    """
    known = [tank.name for tank in boat.tanks]
    found: list[Soft] = []
    for name in names:
        if name not in known:
            near = get_close_matches(name, known, n=1, cutoff=0.5)
            mend = f"Did you mean '{near[0]}'?" if near else f"Known: {', '.join(known) or 'none'}."
            raise AskError(f"there is no tank '{name}'", "tank", mend)
        k = known.index(name)
        air = max(float(ready.tanks.capacities[k] - waters[k]), 0.0)
        found.append(trapped(f"air in {name}", air))
    return found


def compressibility(her: Built, gases: Sequence[Soft] = ()) -> Compressibility:
    """Return all of a boat that shrinks with depth.

    Hard things whose material is not told count as rigid; tubes and foam that are not told are
    named instead.

    Args:
        her: The boat.
        gases: Air and gas that the water presses on; see ``trapped`` and ``open_tank_air``.
    """
    found: list[Soft] = []
    unknown: list[str] = []
    for body in her.bodies:
        soft, matters = _of(her.boat, body)
        if soft is not None:
            found.append(soft)
        elif matters:
            unknown.append(body.name)
    water = Soft(
        name="the water itself",
        path="",
        kind="water",
        volume=her.floater.volume,
        gas=0.0,
        yielding=-constant("water-compressibility"),
    )
    return Compressibility(
        softs=(*found, *gases, water),
        unknown=tuple(dict.fromkeys(unknown)),
        density=her.floater.density,
    )


def depths(her: Built, blown: Floats, full: Floats, gases: Sequence[Soft] = ()) -> Depths:
    """Return how deep she may go with full tanks, and with them blown.

    Args:
        her: The boat.
        blown: Water in each tank when blown, shape (t,) [m³].
        full: Water in each tank when full, shape (t,) [m³].
        gases: Air and gas that the water presses on.
    """
    boat, soft = her.floater, compressibility(her, gases)
    lift = boat.density * boat.volume - boat.mass
    trimmed = lift - boat.density * float(full.sum())
    out = lift - boat.density * float(blown.sum())
    return Depths(
        compressibility=soft,
        trimmed=trimmed,
        blown=out,
        hovers=soft.no_return(trimmed),
        returns=soft.no_return(out),
    )
