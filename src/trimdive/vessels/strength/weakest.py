"""Which part of a cylinder is weakest, and how deep she may go with it.

Every part has a pressure at which it fails and a factor that is kept from it; what is left, less
any vacuum inside, is a depth. Pressure inside above that of the air helps and is not counted.

Sources: the modules beside this one; factors from data/safety.csv or the builder.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import inf, isfinite
from typing import Literal

from trimdive.data import constant
from trimdive.errors import StrengthError
from trimdive.fact import Fact, fact
from trimdive.records import record
from trimdive.vessels.strength.caps import Cap, cap_doubts, cap_yields_at
from trimdive.vessels.strength.material import Material, safety
from trimdive.vessels.strength.tube import (
    Collapse,
    Tube,
    collapse,
    knocked_down,
    long_tube,
    single_formula,
    yields_at,
)

Way = Literal["crushed", "folded", "cap"]  # its wall, the tube between its ends, or a cap


@dataclass(frozen=True, slots=True, kw_only=True)
class Factors:
    """What is kept from failing: the builder's own, or those of the table for his material."""

    buckling: float  # on collapse [-]
    yielding: float  # on what the material bears [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One way in which a cylinder fails."""

    way: Way  # what of it gives way, and how
    cap: str  # the name of that cap; "" of the tube
    fails: float  # outside less inside [Pa]
    factor: float  # kept from it [-]
    depth: float  # to which it may go with the factor [m]
    gives_way: float  # depth at which it fails by calculation [m]

    @property
    def kind(self) -> Literal["wall", "cap"]:
        """Return what of the cylinder gives way."""
        return "cap" if self.way == "cap" else "wall"


@record
class Strength:
    """A cylinder's strength: what fails first, and how deep she may go."""

    parts: tuple[Part, ...]  # the weakest first
    round: Collapse  # of the tube if it were round
    long: float  # pressure that flattens it without help from its ends [Pa]
    single: float  # by the well-known single formula, to compare; inf where it ends [Pa]
    vacuum: float  # inside, below the air [Pa]
    density: float  # of the water [kg/m³]
    doubts: tuple[Fact, ...]

    @property
    def weakest(self) -> Part:
        """Return what limits her depth."""
        return self.parts[0]

    @property
    def depth(self) -> float:
        """Return the working depth that the weakest part leaves [m]."""
        return self.weakest.depth

    @property
    def test_pressure(self) -> float:
        """Return the pressure to test her with, empty and under water [Pa].

        Never with air: it stores so much that a cylinder that breaks bursts.
        """
        working = constant("gravity") * self.density * self.depth + self.vacuum
        return safety("test-pressure") * working

    def margin(self, depth: float) -> float:
        """Return how many times the weakest part bears what it meets at a depth, factor kept [-].

        Args:
            depth: Below the surface [m].
        """
        met = constant("gravity") * self.density * depth + self.vacuum
        return inf if met <= 0 else min(part.fails / part.factor for part in self.parts) / met


def usual_factors(material: Material) -> Factors:
    """Return the factors of ``safety.csv`` for a material, and for a load that stays."""
    kind = "held" if material.held else material.kind
    return Factors(buckling=safety(f"buckling-{kind}"), yielding=safety(f"yield-{kind}"))


def _checked(factors: Factors) -> Factors:
    for name, value in (("buckling", factors.buckling), ("yield", factors.yielding)):
        if not (isfinite(value) and value >= 1):
            said = f"a safety factor of {value:g}"
            raise StrengthError(said, name, "Give 1 or more; 1 keeps nothing.")
    return factors


def strength(
    shape: Tube,
    material: Material,
    caps: Sequence[tuple[Cap, Material]],
    density: float,
    *,
    inside: float = 0.0,
    factors: Factors | None = None,
) -> Strength:
    """Return how a cylinder fails under pressure from outside, and how deep she may go.

    Args:
        shape: Its tube.
        material: What the tube is made of.
        caps: Its end caps, each with what it is made of.
        density: Of the water [kg/m³].
        inside: Pressure inside above that of the air; only a vacuum, below zero, counts [Pa].
        factors: The builder's own, for all parts; None takes those of the table.

    Raises:
        StrengthError: A factor is below 1, or the water weighs nothing.
    """
    if not density > 0:
        raise StrengthError(f"water of {density:g} kg/m³", "water", "Give a density above 0.")
    own = None if factors is None else _checked(factors)
    tube_factors = own or usual_factors(material)
    vacuum, weight = max(0.0, -inside), constant("gravity") * density
    folded = collapse(shape, material.modulus, material.poisson)
    knocked = knocked_down(shape, folded.pressure, material.limit)
    fails: list[tuple[Way, str, float, float]] = [
        ("crushed", "", yields_at(shape, material.limit), tube_factors.yielding),
        ("folded", "", knocked, tube_factors.buckling),
    ]
    doubts = list(material.doubts)
    if shape.radius / shape.wall < safety("tube-slender"):
        doubts.append(fact("wall-thick"))
    for cap, made_of in caps:
        factor = (own or usual_factors(made_of)).yielding
        pressure = cap_yields_at(cap, made_of)
        fails.append(("cap", cap.name, pressure, factor))
        doubts += [*made_of.doubts, *cap_doubts(cap, made_of, pressure / factor)]
    parts = [
        Part(
            way=way,
            cap=name,
            fails=pressure,
            factor=factor,
            depth=max(pressure / factor - vacuum, 0.0) / weight,
            gives_way=max(pressure - vacuum, 0.0) / weight,
        )
        for way, name, pressure, factor in fails
    ]
    single = single_formula(shape, material.modulus, material.poisson)
    return Strength(
        parts=tuple(sorted(parts, key=lambda part: part.fails / part.factor)),
        round=folded,
        long=long_tube(shape, material.modulus, material.poisson),
        single=inf if single is None else single,
        vacuum=vacuum,
        density=density,
        doubts=tuple(dict.fromkeys(doubts)),
    )


def measured(
    material: Material, modulus: float | None = None, limit: float | None = None
) -> Material:
    """Return a material with what the builder measured; it comes before the table.

    Args:
        material: As the table has it.
        modulus: Of elasticity, measured [Pa].
        limit: What it bears, measured [Pa].

    Raises:
        StrengthError: A figure is not above zero.
    """
    for name, value in (("modulus", modulus), ("strength", limit)):
        if value is not None and not (isfinite(value) and value > 0):
            said = f"a {name} of {value / 1e6:g} MPa"
            raise StrengthError(said, material.name, "Give a number above 0.")
    return replace(
        material,
        modulus=material.modulus if modulus is None else modulus,
        limit=material.limit if limit is None else limit,
    )
