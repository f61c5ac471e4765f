"""Every cylinder of a boat on the bench: what gives first, how deep, what holds its caps.

What the boat file does not tell is assumed and noted. Sources: the folders strength and seals.
"""

from collections.abc import Mapping, Sequence
from math import pi

from trimdive.boatfile import Boat, Cylinder
from trimdive.boatfile.bench import CapFitted, CapHole, Closing, RingFitted
from trimdive.data import constant
from trimdive.errors import GeometryError
from trimdive.fact import Fact, fact
from trimdive.plant.failsafe import Pressed
from trimdive.records import record
from trimdive.vessels.dryspace import Inside
from trimdive.vessels.seals import (
    Ring,
    Seal,
    ShaftSeal,
    cut_seal,
    ring,
    rule,
    seals_for,
    shaft_seals,
)
from trimdive.vessels.strength import (
    Cap,
    Factors,
    Hole,
    Material,
    PushOff,
    Strength,
    Tube,
    cap,
    material,
    push_off,
    safety,
    strength,
    tube,
    usual_factors,
)

TUBE = "acrylic"  # the weakest usual plastic, taken where no material is told
ENDS = ("after cap", "fore cap")
FRESH = 1000.0  # near enough for a seal [kg/m³]
TOLERANCE = 0.05e-3  # ± of a groove that a builder cuts and measures [m]


@record
class RingBench:
    """A ring as it lies in its groove, and the groove that the table wants for it."""

    ring: Ring
    fitted: Seal  # as cut, or as the table has it where the file does not tell
    wanted: Seal | None  # the nearest that seals here; None: no ring of the table does
    is_entered: bool  # the groove is told in the file

    @property
    def faults(self) -> tuple[Fact, ...]:
        """Return what of it breaks a rule."""
        return self.fitted.faults


@record
class Through:
    """Something that goes through a cap."""

    across: float  # diameter of what goes through, or of the hole [m]
    out: float  # from the middle of the cap [m]
    seal: ShaftSeal | None  # None: nothing is told
    depth: float  # that the seal bears; 0 where none is told [m]


@record
class CapBench:
    """An end cap."""

    name: str  # "after cap", "fore cap"
    cap: Cap
    material: Material
    is_entered: bool  # thickness and material are told in the file
    rings: tuple[RingBench, ...]
    through: tuple[Through, ...]


@record
class CylinderBench:
    """A cylinder on the bench."""

    name: str
    path: str
    material: str
    outside: float  # [m]
    wall: float  # [m]
    length: float  # [m]
    between: float  # between what holds it round [m]
    strength: Strength
    caps: tuple[CapBench, ...]
    closing: Fact  # what holds the caps
    rods: int  # tie rods among that, 0 where there are none
    holds: float  # how hard [N]
    dry: Pressed  # the air in it, and its pressure in every state
    push: PushOff  # of the highest
    depth: float  # that she is for [m]
    assumed: tuple[Fact, ...]  # what was not told

    @property
    def inside(self) -> tuple[Inside, ...]:
        """Return the pressures inside, the highest first."""
        return self.dry.states

    @property
    def air(self) -> float:
        """Return the free air in it with its tanks empty [m³]."""
        return self.dry.space.air

    @property
    def margin(self) -> float:
        """Return how many times it bears what it meets at her depth, the factor kept [-]."""
        return self.strength.margin(self.depth)


def cylinders(
    boat: Boat, dry: Mapping[str, Pressed], density: float, depth: float
) -> tuple[CylinderBench, ...]:
    """Return every cylinder of a boat on the bench.

    Args:
        boat: The boat.
        dry: The air in each cylinder, by its name.
        density: Of the water [kg/m³].
        depth: That she is for [m].

    Raises:
        TrimdiveError: A cylinder cannot be as it is told.
    """
    return tuple(
        cylinder(vessel, f"cylinder[{number}]", dry[vessel.name], density, depth)
        for number, vessel in enumerate(boat.cylinders, 1)
    )


def cylinder(
    vessel: Cylinder, path: str, dry: Pressed, density: float, depth: float
) -> CylinderBench:
    """Return one cylinder on the bench.

    Args:
        vessel: The cylinder.
        path: Its table in the boat file.
        dry: The air in it.
        density: Of the water [kg/m³].
        depth: That she is for [m].

    Raises:
        TrimdiveError: It cannot be as it is told.
    """
    assumed: list[Fact] = []
    made_of = _tube_material(vessel, assumed)
    ends = tuple(
        _cap(vessel, name, fitted, made_of, assumed)
        for name, fitted in zip(ENDS, _entered_caps(vessel), strict=True)
    )
    shape = _shape(vessel, ends, assumed)
    bears = strength(
        shape, made_of, [(end.cap, end.material) for end in ends], density,
        inside=dry.least, factors=_factors(vessel, made_of),
    )  # fmt: skip
    closing, holds = held(vessel.closing, vessel, made_of)
    return CylinderBench(
        name=vessel.name,
        path=path,
        material=made_of.name,
        outside=vessel.outside,
        wall=vessel.wall,
        length=vessel.length,
        between=shape.between,
        strength=bears,
        caps=ends,
        closing=closing,
        rods=_rods(vessel.closing),
        holds=holds,
        dry=dry,
        push=push_off(dry.most, vessel.bore, holds),
        depth=depth,
        assumed=tuple(dict.fromkeys([*assumed, *dry.space.assumed])),
    )


def _shape(vessel: Cylinder, ends: Sequence[CapBench], assumed: list[Fact]) -> Tube:
    """Return the tube between its caps; what is not told is assumed and said."""
    between = vessel.between
    if between is None:
        between = vessel.length - sum(end.cap.thickness for end in ends)
        assumed.append(fact("between-caps-taken"))
    if vessel.out_of_round is None:
        assumed.append(fact("out-of-round-taken", share=safety("out-of-round")))
    return tube(
        vessel.outside,
        vessel.wall,
        between,
        None if vessel.out_of_round is None else vessel.out_of_round / 4,
        vessel.name,
    )


def _factors(vessel: Cylinder, made_of: Material) -> Factors | None:
    """Return the builder's own safety factors; None where he tells none."""
    if vessel.folding_factor is None and vessel.breaking_factor is None:
        return None
    usual = usual_factors(made_of)
    return Factors(
        buckling=vessel.folding_factor or usual.buckling,
        yielding=vessel.breaking_factor or usual.yielding,
    )


def _entered_caps(vessel: Cylinder) -> tuple[CapFitted | None, CapFitted | None]:
    return vessel.aft_cap or vessel.caps, vessel.fore_cap or vessel.caps


def _tube_material(vessel: Cylinder, assumed: list[Fact]) -> Material:
    """Return what the tube is made of; where that is not told, the weakest usual plastic."""
    if vessel.material is None:
        assumed.append(fact("tube-taken", material=TUBE))
    return material(vessel.material or TUBE)


def _cap(
    vessel: Cylinder,
    name: str,
    given: CapFitted | None,
    tube_material: Material,
    assumed: list[Fact],
) -> CapBench:
    """Return one cap, with what is not told of it assumed and said."""
    fitted = given or CapFitted()
    thickness = fitted.thickness
    if thickness is None:
        share = safety("cap-thickness")
        thickness = share * vessel.outside
        assumed.append(fact("cap-thickness-taken", share=share))
    if fitted.material is None:
        assumed.append(fact("cap-material-taken", material=tube_material.name))
    holes = tuple(Hole(out=hole.out, across=hole.bore) for hole in fitted.holes)
    plate = cap(name, vessel.bore, thickness, fitted.edge, holes, of=vessel.name)
    return CapBench(
        name=name,
        cap=plate,
        material=material(fitted.material) if fitted.material else tube_material,
        is_entered=fitted.thickness is not None and fitted.material is not None,
        rings=tuple(ring_bench(vessel, one) for one in fitted.rings),
        through=tuple(_through(hole) for hole in fitted.holes),
    )


def _through(hole: CapHole) -> Through:
    """Return what goes through a hole, and how deep its seal bears it in fresh water."""
    seal = shaft_seals().get(hole.seal)
    weight = constant("gravity") * FRESH
    return Through(
        across=hole.shaft or hole.bore,
        out=hole.out,
        seal=seal,
        depth=seal.bears / weight if seal else 0.0,
    )


def ring_bench(vessel: Cylinder, given: RingFitted) -> RingBench:
    """Return a ring as it lies in its groove.

    Raises:
        GeometryError: A measure makes no sense.
    """
    one = ring(given.number) if given.number is not None else _measured(given)
    faced = {"plug": vessel.bore, "sleeve": vessel.outside}.get(
        given.sort, one.inside + one.section
    )
    gap = rule("clearance") if given.gap is None else given.gap
    wanted = None
    if given.sort != "face":
        try:
            found = seals_for(given.sort, faced, 0.0, gap)
            wanted = min(found, key=lambda seal: abs(seal.ring.section - one.section))
        except GeometryError:
            wanted = None
    width = given.width or (wanted.width if wanted else 1.35 * one.section)
    depth = given.depth or (wanted.cut if wanted else 0.8 * one.section)
    gap = 0.0 if given.sort == "face" else gap
    fitted = cut_seal(one, given.sort, faced, depth, width, gap, TOLERANCE)
    return RingBench(ring=one, fitted=fitted, wanted=wanted, is_entered=given.depth is not None)


def _measured(given: RingFitted) -> Ring:
    return Ring(
        number="measured", inside=given.inside or 0.0, section=given.section or 0.0,
        section_spread=TOLERANCE, status="measured",
    )  # fmt: skip


def _rods(closing: Closing | None) -> int:
    """Return how many tie rods hold the caps, as told."""
    return closing.count if closing is not None and closing.by == "rods" else 0


def held(closing: Closing | None, vessel: Cylinder, made_of: Material) -> tuple[Fact, float]:
    """Return what holds the caps on against pressure from inside, and how hard [N].

    Rods: their section by what stainless steel bears. Screws: what shears them or tears the wall,
    whichever is less. Glue: its area by what a joint bears. Rings alone hold nothing.

    Args:
        closing: As told.
        vessel: The cylinder.
        made_of: What its tube is made of.

    Source:
        Closed forms; shares of ``safety.csv``, common practice.
    """
    if closing is None:
        return fact("held-by-nothing-known"), 0.0
    if closing.by == "nothing":
        return fact("held-by-rings"), closing.holds or 0.0
    if closing.holds is not None:
        return fact("held-as-tried", by=closing.by), closing.holds
    across = closing.diameter or 0.0
    steel = material("stainless").limit
    if closing.by == "rods":
        rods = closing.count * pi / 4 * across**2 * steel
        return fact("held-by-rods", count=closing.count), rods
    if closing.by == "screws":
        sheared = pi / 4 * across**2 * safety("shear-share") * steel
        torn = across * vessel.wall * made_of.limit
        return fact("held-by-screws", count=closing.count), closing.count * min(sheared, torn)
    area = pi * vessel.bore * (closing.overlap or 0.0)
    return fact("held-by-glue"), area * safety("glue-shear") * 1e6


def worst(found: Sequence[CylinderBench]) -> CylinderBench | None:
    """Return the cylinder that bears least at her depth; None where she has none."""
    return min(found, key=lambda one: one.margin, default=None)
