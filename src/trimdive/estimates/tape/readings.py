"""What was read with tape, calipers and scales, in SI; x runs forward from the stern."""

from dataclasses import dataclass, field
from typing import Literal

from trimdive.data import row

Kind = Literal["wet", "dry"]


def figure(key: str) -> float:
    """Return a figure of the table of tape readings, in SI; a share as a share.

    >>> figure("girth-reading"), figure("girth-share")
    (0.002, 0.005)
    """
    found = row("tape", key)
    return float(found["value"]) * {"mm": 1e-3, "%": 1e-2, "1": 1.0}[found["unit"]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Girth:
    """One reading: round the hull over the deck, from waterline to waterline."""

    x: float  # [m]
    girth: float  # [m]
    breadth: float | None = None  # straight across at the waterline [m]
    number: int = 0  # its turn in the list as typed, from one


@dataclass(frozen=True, slots=True, kw_only=True)
class Material:
    """What something is made of."""

    name: str
    density: float  # [kg/m³]
    spread: float  # how far it may be off [kg/m³]


@dataclass(frozen=True, slots=True, kw_only=True)
class Moulding:
    """The upper moulding on the scale; its edge may not lie at the waterline."""

    mass: float  # [kg]
    edge: float = 0.0  # height of its lower edge above the waterline [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """Something that stands above the waterline besides the skin of the hull.

    Its volume comes from ``volume``; or from ``mass`` and ``hung``; or from ``mass`` and the
    material; or from girth, height and wall.
    """

    name: str
    x: float  # its middle [m]
    material: Material
    volume: float | None = None  # sealed space, foam or anything measured [m³]
    mass: float | None = None  # [kg]
    hung: float | None = None  # scale reading with it under water [kg]
    girth: float | None = None  # round it [m]
    height: float | None = None  # [m]
    wall: float | None = None  # [m]
    has_top: bool = True  # closed above by a flat top


@dataclass(frozen=True, slots=True, kw_only=True)
class Readings:
    """All readings of one hull."""

    name: str
    length: float  # over all [m]
    kind: Kind
    material: Material  # of the hull's skin
    girths: tuple[Girth, ...]
    walls: tuple[float, ...] = ()  # at spots above the waterline [m]
    moulding: Moulding | None = None
    standing: tuple[Standing, ...] = ()
    from_bow: bool = False  # whether the builder measures from the bow
    units: dict[str, str] = field(default_factory=dict[str, str])  # the builder's, by kind

    def along(self, x: float) -> float:
        """Return a place [m] as the builder measures it [m]."""
        return self.length - x if self.from_bow else x
