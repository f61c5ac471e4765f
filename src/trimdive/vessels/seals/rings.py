"""The rings that are sold, by their number, and the grooves they lie in.

Sources: data/o_rings.csv, glands.csv and seal_rules.csv, row by row.
"""

from dataclasses import dataclass
from functools import cache
from math import isclose, pi
from typing import Literal, cast, get_args

from trimdive.data import Row, row, table
from trimdive.errors import GeometryError
from trimdive.units import read

Motion = Literal["radial", "face", "moving"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Ring:
    """A rubber ring as it is sold."""

    number: str
    inside: float  # diameter [m]
    section: float  # thickness of its rubber [m]
    section_spread: float  # ± of it [m]
    status: str  # lists that agree, or from memory

    @property
    def outside(self) -> float:
        """Return its outside diameter [m]."""
        return self.inside + 2 * self.section

    @property
    def inside_spread(self) -> float:
        """Return ± of its inside diameter [m].

        Source:
            [iso-3601] part 1, class B, from memory.
        """
        across = self.inside * 1e3
        least, slope = rule("inside-least") * 1e3, rule("inside-slope")
        return (least + slope * across ** rule("inside-power")) * 1e-3


@dataclass(frozen=True, slots=True, kw_only=True)
class Gland:
    """A groove with the face that closes it: how much room a ring has."""

    kind: Motion
    section: float  # of the ring it is for [m]
    depth_least: float  # from the bottom of the groove to the face [m]
    depth_most: float  # [m]
    width: float  # [m]
    width_spread: float  # ± of it [m]

    @property
    def depth(self) -> float:
        """Return the depth to aim at [m]."""
        return (self.depth_least + self.depth_most) / 2


def rule(key: str) -> float:
    """Return a row of ``seal_rules.csv``; lengths in m, angles in rad, pressures in Pa.

    Raises:
        DataError: There is no such row.
    """
    entry = row("seal_rules", key)
    kinds = {"mm": "length", "MPa": "pressure", "°": "angle"}
    if entry["unit"] not in kinds:
        return float(entry["value"])
    return read(f"{entry['value']} {entry['unit']}", kinds[entry["unit"]])


@cache
def rings() -> tuple[Ring, ...]:
    """Return every ring of ``o_rings.csv``, in its order."""
    return tuple(
        Ring(
            number=entry["key"],
            inside=read(f"{entry['inside']} {entry['unit']}", "length"),
            section=read(f"{entry['section']} {entry['unit']}", "length"),
            section_spread=read(f"{entry['section_tolerance']} {entry['unit']}", "length"),
            status=entry["status"],
        )
        for entry in table("o_rings")
    )


def ring(number: str) -> Ring:
    """Return a ring by its number.

    Raises:
        DataError: There is no such ring.
    """
    found = row("o_rings", number)["key"]
    return next(one for one in rings() if one.number == found)


def _derived(entry: Row) -> Gland:
    """Return a groove from its row: the depth from the squeeze, the width from the fill."""
    section, loose, askew = (
        read(f"{entry[name]} {entry['unit']}", "length")
        for name in ("section", "depth_spread", "width_spread")
    )
    depth = section * (1 - float(entry["squeeze"]))
    return Gland(
        kind=cast("Motion", entry["kind"]),
        section=section,
        depth_least=depth - loose,
        depth_most=depth + loose,
        width=pi / 4 * section**2 / (float(entry["fill"]) * depth),
        width_spread=askew,
    )


@cache
def glands() -> tuple[Gland, ...]:
    """Return the groove of every row of ``glands.csv``, in its order."""
    return tuple(_derived(entry) for entry in table("glands"))


def gland(section: float, kind: Motion) -> Gland:
    """Return the groove for a ring.

    Args:
        section: Of the ring [m].
        kind: ``radial`` or ``face`` for a ring at rest, ``moving`` for a piston or a rod.

    Raises:
        GeometryError: The table has no groove for such a ring.

    Source:
        ``glands.csv``: the squeeze aimed at, common practice, no source.
    """
    for entry in glands():
        if entry.kind == kind and isclose(entry.section, section, rel_tol=1e-6):
            return entry
    known = ", ".join(f"{one.section * 1e3:.2f}" for one in glands() if one.kind == kind)
    if not known:
        raise GeometryError(
            f"no groove is '{kind}'", "groove", f"Known: {', '.join(get_args(Motion))}."
        )
    said = f"no groove is known for a ring {section * 1e3:.2f} mm thick"
    raise GeometryError(said, "groove", f"Take a ring of {known} mm.")


def squeeze(section: float, depth: float) -> float:
    """Return how much of its thickness a ring is pressed in: (d - depth) / d [-].

    Args:
        section: Of the ring [m].
        depth: From the bottom of the groove to the face [m].
    """
    return (section - depth) / section


def fill(section: float, depth: float, width: float) -> float:
    """Return how much of a groove's room its ring takes: π d²/4 over depth times width [-].

    Args:
        section: Of the ring [m].
        depth: From the bottom of the groove to the face [m].
        width: Of the groove [m].
    """
    return pi / 4 * section**2 / (depth * width)


def thinned(stretch: float) -> float:
    """Return by what share a ring grows thinner when it is stretched, as makers give it [-].

    In per cent, with X the stretch: -0.005 + 1.19 X - 0.19 X² - 0.001 X³ + 0.008 X⁴ to 3 %,
    0.56 + 0.59 X - 0.0046 X² beyond. Rubber keeps its volume, which gives 1 - 1/√(1+X), half as
    much; the makers' form is what squeeze is reckoned with, to be safe.

    Args:
        stretch: Of its inside diameter [-].

    Limits:
        To 25 %; a ring that is not stretched keeps its thickness.

    Source:
        Makers' form, from memory.
    """
    if stretch <= 0:
        return 0.0
    x = stretch * 100
    if x <= 3:
        loss = -0.005 + 1.19 * x - 0.19 * x**2 - 0.001 * x**3 + 0.008 * x**4
    else:
        loss = 0.56 + 0.59 * x - 0.0046 * x**2
    return max(loss, 0.0) / 100


def thinned_by_volume(stretch: float) -> float:
    """Return by what share a stretched ring grows thinner if its rubber keeps its volume [-].

    Args:
        stretch: Of its inside diameter [-].

    Source:
        Area times length is kept, closed form.
    """
    return 1 - (1 + max(stretch, 0.0)) ** -0.5
