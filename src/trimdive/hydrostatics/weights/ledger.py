"""The ledger: every mass aboard with its place and spread, and their sum.

Spreads of single entries are independent and add in quadrature; each is taken as a 95 % band.
"""

from math import sqrt

import numpy as np

from trimdive.boatfile import Boat, Cylinder, Skin
from trimdive.boatfile.piece import Weighed
from trimdive.geometry.lines.mesh import Floats, Mesh, volume
from trimdive.geometry.solids.build import Body, numbered
from trimdive.geometry.solids.hull import density_of
from trimdive.geometry.solids.moments import centroid
from trimdive.geometry.solids.skin import skin
from trimdive.geometry.solids.wall import refined, thickness_over
from trimdive.records import record


@record
class Entry:
    """One mass aboard."""

    name: str
    kind: str  # region, coat, cylinder, tank, part, lead, foam or tub
    path: str  # its place in the boat file
    mass: float  # [kg]; what the tub says is too much is below zero
    spread: float  # how far that may be off, 95 % [kg]
    known: str  # guess, worked out, catalogue or weighed
    place: Floats  # its centre: x, y, z, shape (3,) [m]
    inside: str  # vessel in which it lies, or ""
    dry: float  # before it has soaked [kg]
    aboard: bool  # today; else still to come


@record
class Ledger:
    """All masses aboard, without the water in the tanks."""

    entries: tuple[Entry, ...]

    @property
    def mass(self) -> float:
        """Return the whole mass [kg]."""
        return sum(entry.mass for entry in self.entries)

    @property
    def dry(self) -> float:
        """Return the whole mass before anything has soaked [kg]."""
        return sum(entry.dry for entry in self.entries)

    @property
    def today(self) -> "Ledger":
        """Return the ledger of what is aboard today."""
        return Ledger(entries=tuple(entry for entry in self.entries if entry.aboard))

    @property
    def guessed(self) -> float:
        """Return how much of the mass is only guessed [-]."""
        return self.known_as("guess") / self.mass if self.mass else 0.0

    @property
    def moment(self) -> Floats:
        """Return the first moment of the masses about the origin, shape (3,) [kg m]."""
        return sum((entry.mass * entry.place for entry in self.entries), np.zeros(3))

    @property
    def gravity(self) -> Floats:
        """Return the centre of gravity, shape (3,) [m]."""
        return self.moment / self.mass if self.mass else np.zeros(3)

    @property
    def spread(self) -> float:
        """Return how far the whole mass may be off, 95 % [kg]."""
        return sqrt(sum(entry.spread**2 for entry in self.entries))

    def of_kind(self, kind: str) -> float:
        """Return the mass of all entries of one kind [kg]."""
        return sum(entry.mass for entry in self.entries if entry.kind == kind)

    def known_as(self, known: str) -> float:
        """Return the mass of all entries that are known in one way [kg]."""
        return sum(entry.mass for entry in self.entries if entry.known == known)


def _entry(
    piece: Weighed, name: str, kind: str, path: str, mass: float, place: Floats, inside: str = ""
) -> Entry:
    soaked = mass if piece.soaked is None else piece.soaked
    return Entry(
        name=name,
        kind=kind,
        path=path,
        mass=soaked,
        dry=mass,
        aboard=piece.aboard,
        spread=piece.spread.of(mass),
        known=piece.known,
        place=place,
        inside=inside,
    )


def cylinder_mass(vessel: Cylinder) -> float:
    """Return the mass of a cylinder or pair [kg]; worked out by its walls where not weighed."""
    if vessel.mass is not None:
        return vessel.mass * (2 if vessel.pair == "each" else 1)
    density = density_of(vessel.material, vessel.density) or 0.0
    return density * vessel.wall_volume * (2 if vessel.pair else 1)


def _regions(boat: Boat, found: dict[str, list[Body]]) -> list[Entry]:
    entries: list[Entry] = []
    for i, region in enumerate(boat.regions, 1):
        path = f"region[{i}]"
        body = found[path][0]
        density = density_of(region.material, region.density) or 0.0
        mass = region.mass
        if mass is None:
            mass = density * (_walls(region, body.mesh) if region.sealed else body.volume)
        place = centroid(body.mesh)
        if region.x is not None:
            place = np.array([region.x, place[1], place[2]])
        entries.append(_entry(region, region.name, "region", path, mass, place))
    return entries


def _walls(region: Skin, outer: Mesh) -> float:
    """Return the volume of a sealed region's walls [m³], from its outside and their thickness."""
    if region.spots:
        fine = refined(outer)
        return volume(skin(fine, thickness_over(fine, region.spots, region.name)))
    return volume(skin(outer, region.thickness or 0.0))


def _coats(boat: Boat, found: dict[str, list[Body]]) -> list[Entry]:
    entries: list[Entry] = []
    for i, coat in enumerate(boat.coats, 1):
        path = f"coat[{i}]"
        parts = found.get(path, [])
        whole = sum(body.volume for body in parts)
        density = density_of(coat.material, coat.density) or 0.0
        if not whole or not density:
            continue
        place = sum((b.volume * centroid(b.mesh) for b in parts), np.zeros(3)) / whole
        entries.append(_entry(coat, coat.name, "coat", path, density * whole, place))
    return entries


def _fitted(boat: Boat) -> list[Entry]:
    entries: list[Entry] = []
    for i, vessel in enumerate(boat.cylinders, 1):
        place = np.array([vessel.x, 0.0 if vessel.pair else vessel.y, vessel.z])
        mass = cylinder_mass(vessel)
        entries.append(_entry(vessel, vessel.name, "cylinder", f"cylinder[{i}]", mass, place))
    for i, tank in enumerate(boat.tanks, 1):
        if tank.mass is not None:
            place = np.array([tank.x, tank.y, tank.z])
            path = f"tank[{i}]"
            entries.append(
                _entry(tank, tank.name, "tank", path, tank.mass, place, tank.inside or "")
            )
    return entries


def _parts(boat: Boat, found: dict[str, list[Body]]) -> list[Entry]:
    entries: list[Entry] = []
    for path, part in numbered(boat):
        bodies = found.get(path, [])
        density = density_of(part.material, part.density) or 0.0
        if part.mass is not None:
            mass = part.mass * (2 if part.pair == "each" else 1)
        else:
            mass = density * sum(body.volume for body in bodies)
        place = np.array([part.x, 0.0 if part.pair else part.y, part.z])
        entries.append(_entry(part, part.name, part.kind, path, mass, place, part.inside or ""))
    return entries


def _from_tub(boat: Boat) -> list[Entry]:
    """Return what readings in the tub say the list lacks, or has too much."""
    return [
        Entry(
            name="from the tub",
            kind="tub",
            path=f"from_tub[{i}]",
            mass=piece.mass,
            dry=piece.mass,
            aboard=True,
            spread=0.0,
            known="weighed",
            place=np.array([piece.x, piece.y, piece.z]),
            inside="",
        )
        for i, piece in enumerate(boat.from_tub, 1)
        if piece.mass
    ]


def ledger(boat: Boat, bodies: tuple[Body, ...]) -> Ledger:
    """Return every mass aboard.

    Args:
        boat: A resolved boat.
        bodies: What displaces, for masses worked out from volumes and for centres of skins.
    """
    found: dict[str, list[Body]] = {}
    for body in bodies:
        found.setdefault(body.path, []).append(body)
    return Ledger(
        entries=(
            *_regions(boat, found),
            *_coats(boat, found),
            *_fitted(boat),
            *_parts(boat, found),
            *_from_tub(boat),
        )
    )
