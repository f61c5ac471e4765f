"""The table of units: which names there are, of what kind, and how many SI units each makes.

Sources: data/units.csv, row by row.
"""

from collections import defaultdict
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from trimdive.data import table


@dataclass(frozen=True, slots=True, kw_only=True)
class Unit:
    """A unit as it may be typed; SI value = (number + offset) · factor."""

    name: str
    kind: str
    scale: Fraction  # SI units in one of these, without rounding [-]
    offset: Fraction  # added before the factor; only temperatures have one [-]
    decimals: int  # shown after the point where the number is below 100

    @property
    def factor(self) -> float:
        """Return how many SI units one of these makes."""
        return float(self.scale)

    def si(self, number: Fraction) -> float:
        """Return the SI value of so many of this unit, rounded once.

        Raises:
            OverflowError: It is too large for a number.
        """
        return float((number + self.offset) * self.scale)

    def number(self, value: float) -> float:
        """Return how many of this unit an SI value makes."""
        return value / float(self.scale) - float(self.offset)


Names = dict[tuple[str, str], tuple[Unit, ...]]


@cache
def units() -> tuple[Unit, ...]:
    """Return every unit of the table, the usual ones of a kind first."""
    return tuple(
        Unit(
            name=row["name"],
            kind=row["kind"],
            scale=Fraction(row["factor"]),
            offset=Fraction(row["offset"]),
            decimals=int(row["decimals"]),
        )
        for row in table("units")
    )


@cache
def by_name() -> Names:
    """Return the units by kind and name or alias; two under one name means ambiguous."""
    names: defaultdict[tuple[str, str], tuple[Unit, ...]] = defaultdict(tuple)
    for unit, row in zip(units(), table("units"), strict=True):
        for name in dict.fromkeys([unit.name, *filter(None, row["aliases"].split(";"))]):
            names[unit.kind, name] += (unit,)
    return dict(names)


@cache
def by_loose_name() -> Names:
    """Return the units by kind and name in small letters, where capitals do not matter."""
    names: defaultdict[tuple[str, str], tuple[Unit, ...]] = defaultdict(tuple)
    for (kind, name), found in by_name().items():
        entry = names[kind, name.lower()]
        names[kind, name.lower()] = entry + tuple(unit for unit in found if unit not in entry)
    return dict(names)


def candidates(name: str, kind: str) -> tuple[Unit, ...]:
    """Return the units of a kind that a name may mean; capitals matter only if they must."""
    return by_name().get((kind, name)) or by_loose_name().get((kind, name.lower()), ())


@cache
def factor_of(name: str, kind: str) -> float:
    """Return how many SI units one of a unit makes [SI].

    >>> factor_of("in", "length"), factor_of("ft", "length")
    (0.0254, 0.3048)
    """
    return next(unit.factor for unit in units() if (unit.name, unit.kind) == (name, kind))


@cache
def name_of(factor: float, kind: str) -> str:
    """Return the unit of which one makes so many SI units [SI].

    >>> name_of(0.0254, "length"), name_of(1e-6, "length")
    ('in', 'µm')
    """
    return next(unit.name for unit in units() if (unit.factor, unit.kind) == (factor, kind))


@cache
def kinds() -> tuple[str, ...]:
    """Return the kinds of quantity that have units."""
    return tuple(dict.fromkeys(unit.kind for unit in units()))


@cache
def usual_names(kind: str) -> tuple[str, ...]:
    """Return the names of the usual units of a kind, the usual one first."""
    return tuple(unit.name for unit in units() if unit.kind == kind)[:5]
