"""Boats as they are once something has flooded, was left at home or was exchanged."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from difflib import get_close_matches

import numpy as np

from trimdive.boatfile import Boat, Cylinder, MeshRegion, Part, Region
from trimdive.boatfile.ref import ref
from trimdive.data import row
from trimdive.errors import AskError
from trimdive.fact import Fact, fact
from trimdive.geometry.lines.mesh import Mesh, volume
from trimdive.geometry.solids.build import Body, numbered, part_shape, part_volume
from trimdive.geometry.solids.hull import Hull, Skin, density_of
from trimdive.geometry.solids.meshed import outside
from trimdive.geometry.solids.moments import centroid
from trimdive.geometry.solids.surfaces import Files
from trimdive.hydrostatics.equilibrium import Rest
from trimdive.hydrostatics.weights import Entry, Ledger
from trimdive.hydrostatics.weights.ledger import cylinder_mass

LISTS = {"part": "parts", "lead": "lead", "foam": "foam"}
SHORT = 0.4  # of her length: what stands on her and is shorter is a tower [-]
HOLDS = 20e-6  # a tower that holds less water above the surface is no case [m³]


def _unknown(what: str, name: str, known: Iterable[str]) -> AskError:
    """Return the error of a name that stands for nothing."""
    names = list(known)
    near = get_close_matches(name, names, n=1, cutoff=0.5)
    mend = f"Did you mean '{near[0]}'?" if near else f"Known: {', '.join(names) or 'none'}."
    return AskError(f"there is no {what} '{name}'", what, mend)


def tank_numbered(boat: Boat, name: str) -> int:
    """Return which tank goes by a name, counted from 0.

    Raises:
        AskError: None does.
    """
    names = [tank.name for tank in boat.tanks]
    if name not in names:
        raise _unknown("tank", name, names)
    return names.index(name)


def piece_named(boat: Boat, name: str) -> tuple[str, Part]:
    """Return the place in the boat file and the piece of that name: a part, lead or foam.

    Raises:
        AskError: There is none.
    """
    pieces = numbered(boat)
    for path, piece in pieces:
        if piece.name == name:
            return path, piece
    raise _unknown("part", name, (piece.name for _, piece in pieces))


def replaced(boat: Boat, path: str, new: Part | None) -> Boat:
    """Return the boat with another piece at a path, or none."""
    at = ref(path)
    pieces = list(getattr(boat, LISTS[at.table]))
    pieces[at.order : at.number] = [] if new is None else [new]
    return boat.model_copy(update={LISTS[at.table]: tuple(pieces)})


def volume_of(piece: Part, files: Files) -> float:
    """Return what a piece, or both of a pair, would displace if wet [m³]; 0 where unknown."""
    return part_volume(piece, part_shape(piece, files)) * (2 if piece.pair else 1)


def other(old: Part, mass: float, size: float, place: tuple[float, float, float] | None) -> Part:
    """Return another piece in an old one's place.

    Args:
        old: The piece that goes.
        mass: Of the new one, or of both of a pair [kg].
        size: What it displaces [m³].
        place: Of its middle; left out, as the old one [m].

    Raises:
        AskError: It weighs nothing, or less than nothing displaces.
    """
    if not mass > 0 or not size >= 0:
        what = f"{mass * 1e3:g} g with {size * 1e6:g} cm³ cannot be"
        raise AskError(what, old.name, "Give a mass above zero and a volume.")
    x, y, z = place or (old.x, old.y, old.z)
    given = {"mass": mass, "volume": size, "x": x, "y": y, "z": z}
    gone = {"hung": None, "soaked": None, "material": None, "density": None}
    return old.model_copy(update={**gone, **given, "pair": "both" if old.pair else None})


def contents_density() -> float:
    """Return the density taken for things in a flooded vessel whose volume nobody knows [kg/m³]."""
    return float(row("constants", "contents-density")["value"])


def _is_sized(piece: Part) -> bool:
    """Return whether a piece's own volume is known."""
    by_mass = piece.mass is not None and (
        piece.hung is not None or density_of(piece.material, piece.density) is not None
    )
    return piece.volume is not None or by_mass or (piece.shape != "point" and not piece.open)


@dataclass(frozen=True, slots=True, kw_only=True)
class Guessed:
    """Things in a flooded vessel whose volume nobody knows."""

    count: int
    mass: float  # of all of them [kg]


def _wetted(
    boat: Boat, vessels: Sequence[str]
) -> tuple[dict[str, tuple[Part, ...]], Guessed | None]:
    """Return parts, lead and foam with those in flooded vessels wet, and those of guessed size."""
    guessed: list[Part] = []
    lists: dict[str, tuple[Part, ...]] = {}
    for field in LISTS.values():
        pieces: list[Part] = []
        for piece in getattr(boat, field):
            own = piece
            if piece.inside in vessels:
                own = piece.model_copy(update={"inside": None})
                if not _is_sized(piece) and piece.mass is not None:
                    guessed.append(piece)
                    size = piece.mass / contents_density()
                    own = own.model_copy(update={"volume": size})
            pieces.append(own)
        lists[field] = tuple(pieces)
    if not guessed:
        return lists, None
    mass = sum((p.mass or 0.0) * (2 if p.pair == "each" else 1) for p in guessed)
    return lists, Guessed(count=len(guessed), mass=mass)


def _supposed(guessed: Guessed | None, *, both: bool = False, is_wall: bool = False) -> Fact | None:
    """Return what was taken for granted of a flooded vessel, if anything.

    Args:
        guessed: Things in it whose volume nobody knows.
        both: Whether both of a pair are flooded.
        is_wall: Whether the density of its wall was taken for granted too.
    """
    if not (guessed or both or is_wall):
        return None
    return fact(
        "flooded-supposed",
        both=both,
        wall=contents_density() if is_wall else None,
        things=guessed.count if guessed else 0,
        mass=guessed.mass if guessed else 0.0,
        density=contents_density(),
    )


def wall_volume(vessel: Cylinder) -> float:
    """Return the volume of a cylinder's wall and caps, of both of a pair [m³].

    By mass and material where both are known, else by the thickness of its wall.
    """
    density = density_of(vessel.material, vessel.density)
    if vessel.mass is not None and density:
        return cylinder_mass(vessel) / density
    return vessel.wall_volume * (2 if vessel.pair else 1)


def flooded_boat(boat: Boat, k: int) -> tuple[Boat, Fact | None]:
    """Return the boat with cylinder ``k`` flooded, and what was supposed.

    Its wall becomes a tube in the wet, its contents wet parts; its tanks are gone, their works
    stay. A tube in the wet lies level.
    """
    vessel = boat.cylinders[k]
    tanks = [tank for tank in boat.tanks if tank.inside == vessel.name]
    names = [vessel.name, *(tank.name for tank in tanks)]
    wall = Part(
        name=vessel.name, shape="tube", diameter=vessel.outside, wall=vessel.wall,
        length=vessel.length, x=vessel.x, y=vessel.y, z=vessel.z, mass=cylinder_mass(vessel),
        volume=wall_volume(vessel), pair="both" if vessel.pair else None,
        known=vessel.known, spread=vessel.spread,
    )  # fmt: skip
    works = tuple(
        Part(
            name=tank.name, x=tank.x, y=tank.y, z=tank.z, mass=tank.mass,
            volume=tank.mass / contents_density(), known=tank.known, spread=tank.spread,
        )
        for tank in tanks
        if tank.mass is not None
    )  # fmt: skip
    lists, guessed = _wetted(boat, names)
    update = {
        **lists,
        "parts": (*lists["parts"], *works, wall),
        "cylinders": tuple(c for c in boat.cylinders if c is not vessel),
        "tanks": tuple(tank for tank in boat.tanks if tank not in tanks),
    }
    return boat.model_copy(update=update), _supposed(guessed, both=bool(vessel.pair))


def flooded_region(
    boat: Boat, displacing: tuple[Body, ...], masses: Ledger, name: str
) -> tuple[int, Boat, tuple[Body, ...], Fact | None]:
    """Return which region it is, and boat, bodies and what was supposed once it is flooded.

    Raises:
        AskError: There is no sealed region of that name, nor a cylinder.
    """
    sealed = {region.name: i for i, region in enumerate(boat.regions, 1) if region.sealed}
    if name not in sealed:
        raise _unknown("vessel", name, [*(c.name for c in boat.cylinders), *sealed])
    number = sealed[name]
    path = f"region[{number}]"
    region = boat.regions[number - 1]
    mass = next(entry.mass for entry in masses.entries if entry.path == path)
    density = density_of(region.material, region.density)
    lists, guessed = _wetted(boat, [name])
    regions = list(boat.regions)
    regions[number - 1] = region.model_copy(update={"mass": mass})
    changed = boat.model_copy(update={**lists, "regions": tuple(regions)})
    wall = mass / (density or contents_density())
    kept = tuple(
        replace(body, share=body.share * wall / body.volume, volume=wall)
        if body.path == path
        else body
        for body in displacing
    )
    return number, changed, kept, _supposed(guessed, is_wall=density is None)


def outside_of(region: Region, skin: Skin) -> Mesh:
    """Return the outside shape of a region with the room in it, also where it is drawn as walls."""
    if isinstance(region, MeshRegion) and region.closed_walls:
        return outside([skin.outer], region.name)
    return skin.outer


def _held(region: Region, skin: Skin) -> float:
    """Return the water that a region holds when full [m³]."""
    return volume(outside_of(region, skin)) - skin.shape_volume


def towers(boat: Boat, hull: Hull, water: Rest) -> tuple[str, ...]:
    """Return the regions that stand on her, above the water, and could come up full of it."""
    ends = hull.envelope.bounds[:, 0]
    found: list[str] = []
    for region, skin in zip(boat.regions, hull.skins, strict=True):
        low, high = skin.outer.bounds
        middle = (low + high) / 2
        is_short = high[0] - low[0] < SHORT * (ends[1] - ends[0])
        stands = float(middle @ water.n) > water.d
        if is_short and stands and not region.sealed and _held(region, skin) > HOLDS:
            found.append(region.name)
    return tuple(found)


def held_water(
    boat: Boat,
    hull: Hull,
    displacing: tuple[Body, ...],
    masses: Ledger,
    name: str,
    density: float,
) -> tuple[tuple[Body, ...], Ledger, int, float]:
    """Return bodies and ledger with a region full of water, its number, and how much it holds [m³].

    Its whole outside shape displaces then, and the water in it weighs. Things inside it are
    counted as water as well, so that what of them stands above the surface weighs too much.

    Args:
        boat: The boat.
        hull: Her hull.
        displacing: Everything that displaces.
        masses: Everything that weighs.
        name: Of the region.
        density: Of the water [kg/m³].

    Raises:
        AskError: There is no such region, or it holds no water.
    """
    names = [region.name for region in boat.regions]
    if name not in names:
        raise _unknown("region", name, names)
    k = names.index(name)
    skin, path = hull.skins[k], f"region[{k + 1}]"
    outer = outside_of(boat.regions[k], skin)
    held = volume(outer) - skin.shape_volume
    if boat.regions[k].sealed or held <= 0:
        raise AskError("it holds no water", name, "Name a region that floods.")
    whole = replace(
        next(body for body in displacing if body.path == path),
        mesh=outer, share=1.0, volume=volume(outer),
    )  # fmt: skip
    moment = whole.volume * centroid(outer) - skin.shape_volume * centroid(skin.body)
    water = Entry(
        name=f"water in {name}", kind="water", path=path, mass=density * held, spread=0.0,
        known="worked out", place=np.asarray(moment / held), inside="", dry=density * held,
        aboard=True,
    )  # fmt: skip
    kept = tuple(whole if body.path == path else body for body in displacing)
    return kept, Ledger(entries=(*masses.entries, water)), k + 1, held
