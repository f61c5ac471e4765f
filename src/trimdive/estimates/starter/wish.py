"""What a builder says of a boat that is to be, and her plain proportions.

She is sized from the inside out: her mass as is usual for the length, a cylinder that carries most
of it, a hull round the cylinder.

Source: common practice, no source; shares and proportions are those of the demo boats.
"""

from dataclasses import dataclass, field, replace
from math import pi, sqrt
from typing import Literal

import numpy as np

from trimdive.boatfile.plant import Kind as PlantKind
from trimdive.data import row, table
from trimdive.errors import StarterError
from trimdive.estimates.starter.meshed import DrawnHull
from trimdive.estimates.starter.names import TAKEN
from trimdive.estimates.tape import Size, Standing, TapeResult, size_of
from trimdive.estimates.tape.readings import Kind

SHORTEST, LONGEST = 0.5, 3.5  # for which the table of sizes says anything [m]
DECK_OVER = 1.27  # deck above the keel line, in heights of the waterline, of a wet hull [-]
CARRIES = 0.67  # share of the displacement that the cylinders carry [-]
SPAN = 0.46  # of the length that one cylinder takes [-]
MIDDLES = {1: (0.485,), 2: (0.325, 0.675)}  # of one cylinder, of two: of the length [-]
OFF_SKIN = 0.002  # left between a cylinder's ends and the inside of a hull that was drawn [m]
SPAN_MOST = 0.56  # most of it that one or two may take [-]
FITS_IN = 0.66  # of a breadth that was measured a cylinder takes at most [-]
TWO_FROM = 2.2  # length from which there are two cylinders [m]
DRY_BLOCK = 0.62  # displacement over length, breadth and draught [-]
DRY_DEPTH = 0.86  # draught of a dry hull over its breadth [-]
DRY_FULL = 0.85  # a dry hull weighs so much of the most that is usual [-]
WALLS = {  # of a hull of no length [m], and what each metre of length adds [m/m]
    "laminate": (0.0012, 0.0008),
    "plastic": (0.0018, 0.0005),
    "wood": (0.0020, 0.0010),
}
LONGEST_NAME = 70  # letters, with room for a number behind
Factors = tuple[tuple[float, float], ...]
WITHIN = 0.97  # keeps figures inside the table's bands when they are rounded [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """What a section is like at one place, as measured."""

    x: float  # forward of the stern [m]
    breadth: float  # greatest there, both sides [m]
    shape: Literal["round", "oval", "box"]  # its character
    radius: float  # of a box's corners [m]; else nought


@dataclass(frozen=True, slots=True, kw_only=True)
class Taped:
    """What a tape gave, and by how much the plain form was changed to have it."""

    result: TapeResult
    rise: Factors = ()  # heights of the deck above the waterline, by share of the length [-]
    wide: Factors = ()  # breadths, likewise [-]
    density: float | None = None  # of the upper moulding, where it was weighed [kg/m³]

    @property
    def standing(self) -> tuple[Standing, ...]:
        """Return what stands on her, as measured."""
        return self.result.readings.standing

    @property
    def names(self) -> tuple[str, ...]:
        """Return what to call each thing that stands on her; no name stands twice aboard."""
        taken = {entry["name"].casefold() for entry in table("starter")} | set(TAKEN)
        found: list[str] = []
        for thing in self.standing:
            name, number = thing.name[:LONGEST_NAME], 2
            while name.casefold() in taken:
                name, number = f"{thing.name[:LONGEST_NAME]} {number}", number + 1
            taken.add(name.casefold())
            found.append(name)
        return tuple(found)


@dataclass(frozen=True, slots=True, kw_only=True)
class Wish:
    """What the builder says; what is left out is filled in by what is usual."""

    name: str
    length: float  # over all [m]
    kind: Kind = "wet"
    material: str = "GRP"
    scale: float | None = None  # full-size length over the model's [-]
    breadth: float | None = None  # greatest [m]
    height: float | None = None  # keel to deck amidships [m]
    waterline: float | None = None  # above the keel line [m]
    wall: float | None = None  # of the hull [m]
    taped: Taped | None = None  # what a tape gave
    drawn: DrawnHull | None = None  # the hull as a mesh
    sections: tuple[Section, ...] = ()  # from aft; where none is, plain proportions
    cylinders: int | None = None  # one or two
    held: float | None = None  # ballast water in full tanks [m³]
    plant: PlantKind | None = None  # what works the tanks; they are piston tanks where it is one
    is_plant_guessed: bool = False  # nobody named it
    units: dict[str, str] = field(default_factory=dict[str, str])  # the builder's, by kind


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """Her plain proportions."""

    wish: Wish
    size: Size
    mass: float  # aimed at [kg]
    outfit: float  # that the shares of the table are taken of [kg]
    breadth: float  # [m]
    height: float  # keel to deck amidships [m]
    waterline: float  # above the keel line [m]
    wall: float  # of the hull [m]
    cylinders: int
    outside: float  # of a cylinder [m]
    bore_wall: float  # its wall [m]
    span: float  # length of each cylinder over its caps [m]
    axis: float  # height of their axis [m]

    @property
    def bore(self) -> float:
        """Return the inside diameter of a cylinder [m]."""
        return self.outside - 2 * self.bore_wall


def band_of(length: float, name: str) -> tuple[float, float]:
    """Return the usual range of a figure by the table's row for a length, in the table's unit.

    Args:
        length: Over all [m].
        name: Of the figure, such as mass.
    """
    rows = table("sizes")
    found = next((one for one in rows if length < float(one["length_most"])), rows[-1])
    return float(found[f"{name}_low"]), float(found[f"{name}_high"])


def within(value: float, length: float, name: str) -> float:
    """Return a figure held within the table's row for a length.

    Args:
        value: As wished [SI].
        length: Over all [m].
        name: Of the figure.
    """
    low, high = band_of(length, name)
    return min(max(value, low / WITHIN), high * WITHIN)


def plan(wish: Wish, slim: float = 1.0) -> Plan:
    """Return plain proportions for what the builder says.

    Args:
        wish: What the builder says.
        slim: How much of the usual outfit and cylinder she carries [-].

    Raises:
        StarterError: Something that was said cannot be.
    """
    _refuse(wish)
    return _dry(wish, slim) if wish.kind == "dry" else _wet(wish, slim)


def _wet(wish: Wish, slim: float) -> Plan:
    """Return a wet hull: a cylinder that carries her, and a hull round it."""
    length, size, wall = wish.length, size_of(wish.length, "wet"), usual_wall(wish)
    mass = within(size.mass.usual, length, "mass")
    count = wish.cylinders or usual_cylinders(length)
    outside, span = _cylinder(wish, mass, count, slim)
    mass = min(mass, 1000.0 * count * pi / 4 * outside**2 * span / CARRIES)
    axis = wall + 0.006 + 0.08 * outside + outside / 2
    over = outside / 2 + 0.003 + 0.02 * outside  # from the axis to the waterline at the least
    waterline = wish.waterline or axis + over
    axis = max(axis, min(_over_keel(wish, count, span) + wall + outside / 2, waterline - over))
    return Plan(
        wish=wish,
        size=size,
        mass=mass,
        outfit=slim * mass,
        breadth=wish.breadth or 1.52 * outside + 0.006,
        height=wish.height or DECK_OVER * waterline,
        waterline=waterline,
        wall=wall,
        cylinders=count,
        outside=outside,
        bore_wall=max(0.0025, round(0.0009 + 0.0225 * outside, 4)),
        span=span,
        axis=axis,
    )


def _over_keel(wish: Wish, count: int, span: float) -> float:
    """Return how high a cylinder must lie over the skin of a hull that was drawn [m]; else 0.

    Args:
        wish: What the builder says.
        count: Of cylinders.
        span: Length of each [m].
    """
    if wish.drawn is None:
        return 0.0
    places, keels, _ = zip(*wish.drawn.profile, strict=True)
    middles = [share * wish.length for share in MIDDLES[count]]
    ends = [middle + side * span / 2 for middle in middles for side in (-1, 1)]
    return max(float(np.interp(at / wish.length, places, keels)) for at in ends) + OFF_SKIN


def _dry(wish: Wish, slim: float) -> Plan:
    """Return a dry hull: as slim as her usual mass allows, and low in the water."""
    length, size = wish.length, size_of(wish.length, "wet")
    mass = within(DRY_FULL * size.mass.high, length, "mass")
    section = mass / (1000.0 * DRY_BLOCK * length)
    breadth = wish.breadth or sqrt(section / DRY_DEPTH)
    waterline = wish.waterline or DRY_DEPTH * breadth
    height = wish.height or 1.24 * waterline
    return Plan(
        wish=wish,
        size=size,
        mass=mass,
        outfit=slim * within(size.mass.usual, length, "mass"),
        breadth=breadth,
        height=height,
        waterline=waterline,
        wall=usual_wall(wish),
        cylinders=0,
        outside=0.8 * min(breadth, height),
        bore_wall=0.0,
        span=0.56 * length,
        axis=0.5 * height,
    )


def usual_cylinders(length: float) -> int:
    """Return how many cylinders a wet hull of a length [m] usually has."""
    return 2 if length >= TWO_FROM else 1


def usual_wall(wish: Wish) -> float:
    """Return the wall of the hull, as measured or as is usual for the material [m]."""
    if wish.wall is not None:
        return wish.wall
    least, more = WALLS[row("materials", wish.material)["kind"]]
    return round(least + more * wish.length, 4)


def _cylinder(wish: Wish, mass: float, count: int, slim: float) -> tuple[float, float]:
    """Return outside diameter and length of each cylinder [m]."""
    room = CARRIES * mass / 1000.0 / count
    outside = sqrt(4 * room / (pi * SPAN * wish.length / count))
    outside = within(outside, wish.length, "cylinder")
    if wish.waterline is not None:
        outside = min(outside, 0.8 * wish.waterline)
    if wish.breadth is not None:
        outside = min(outside, FITS_IN * wish.breadth)
    outside = round(outside * sqrt(slim), 3)
    span = 4 * room / (pi * outside**2)
    return outside, round(min(span, SPAN_MOST * wish.length / count), 3)


def _refuse(wish: Wish) -> None:
    """Refuse what cannot be.

    Raises:
        StarterError: With the first of it.
    """
    if not SHORTEST <= wish.length <= LONGEST:
        what = f"a model {wish.length:g} m long is beyond what is known of such boats"
        raise StarterError(what, "length", f"Choose {SHORTEST:g} to {LONGEST:g} m.")
    kind = row("materials", wish.material)["kind"]
    if kind not in WALLS:
        what = f"no hull is made of {wish.material}"
        raise StarterError(what, "material", "Name a laminate, a plastic or a wood.")
    if wish.cylinders not in (None, 1, 2):
        what = f"{wish.cylinders} cylinders are not planned for"
        raise StarterError(what, "cylinders", "Write 1 or 2; add more by hand.")
    slim = {"breadth": (0.06, 0.25), "height": (0.05, 0.30), "waterline": (0.04, 0.25)}
    for key, (low, high) in slim.items():
        value: float | None = getattr(wish, key)
        if value is not None and not low * wish.length <= value <= high * wish.length:
            what = f"a {key} of {value * 1e3:.0f} mm does not go with a length of {wish.length:g} m"
            mend = f"Between {low * wish.length * 1e3:.0f} and {high * wish.length * 1e3:.0f} mm."
            raise StarterError(what, key, mend)
    for one in wish.sections:
        if not 0 < one.x < wish.length or not 0 < one.breadth <= (wish.breadth or one.breadth):
            what = f"a section {one.breadth * 1e3:.0f} mm broad at {one.x * 1e3:.0f} mm cannot be"
            mend = "It lies between her ends and is no broader than she is."
            raise StarterError(what, "section", mend)
    if wish.height and wish.waterline and wish.height <= wish.waterline:
        what = "the deck amidships is no higher than the waterline"
        raise StarterError(what, "height", "Measure both up from the keel line.")


def is_measured(plan: Plan) -> bool:
    """Return whether a tape measured what stands on her, so that nothing there is guessed."""
    return plan.wish.taped is not None and bool(plan.wish.taped.standing)


def wish_by_mesh(wish: Wish, drawn: DrawnHull) -> Wish:
    """Return a wish whose hull is a mesh: its size is that of the mesh.

    Args:
        wish: What the builder says.
        drawn: The hull.
    """
    return replace(
        wish,
        drawn=drawn,
        length=drawn.length,
        breadth=drawn.breadth,
        height=drawn.height,
        waterline=wish.waterline or drawn.height / DECK_OVER,
    )
