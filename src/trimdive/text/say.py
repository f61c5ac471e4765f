"""For whom something is said: in which units, and from which end places are measured."""

from dataclasses import dataclass

from trimdive.boatfile import Boat
from trimdive.boatfile.boat import Units
from trimdive.hydrostatics.equilibrium import named
from trimdive.hydrostatics.equilibrium.named import listed as listed


@dataclass(frozen=True, slots=True)
class Say:
    """How figures are written for one builder, and in one boat's words."""

    boat: Boat  # with the units that are wanted

    @property
    def units(self) -> Units:
        """Return the units wanted."""
        return self.boat.units

    def length(self, value: float) -> str:
        """Return a length [m]."""
        return self.units.write(value, "length")

    def place(self, x: float) -> str:
        """Return a place [m] forward from the stern as the builder measures it, with the end."""
        return self.boat.place(x)

    def along(self, by: float) -> str:
        """Return a move along her [m], forward: "23 mm aft"."""
        return f"{self.length(abs(by))} {'forward' if by > 0 else 'aft'}"

    def mass(self, value: float) -> str:
        """Return a mass [kg]."""
        return named.mass(self.boat, value)

    def deep(self, depth: float) -> str:
        """Return a depth of water [m] in metres, or in feet where she counts in inches or feet."""
        return named.deep(self.boat, depth)

    def bound(self, depth: float) -> str:
        """Return a depth [m] beyond which she should not go, rounded down."""
        return named.bound(self.boat, depth)

    def weight(self, excess: float) -> str:
        """Return weight less buoyancy [kg]: "293 g heavy", or "neutral"."""
        return named.weight(self.boat, excess)

    def volume(self, value: float) -> str:
        """Return a volume [m³]; a small one in millilitres where she counts in litres."""
        return named.volume(self.boat, value)

    def angle(self, value: float) -> str:
        """Return an angle [rad]."""
        return self.units.write(value, "angle")

    def trim(self, angle: float) -> str:
        """Return a trim, bow down [rad]: "12.4° bow down", or "level"."""
        return named.trim(self.boat, angle)

    def heel(self, angle: float, *, either: bool) -> str:
        """Return a heel, to starboard [rad], or to either side: "3.0° to port", or "upright"."""
        return named.heel_of(self.boat, angle, either=either)

    def lies(self, angles: tuple[float, float], *, either: bool) -> str:
        """Return how she lies by trim and heel [rad]: "trim 12.4° bow down", or "level"."""
        return named.lying(self.boat, angles, either=either)

    def share(self, value: float, digits: int = 0) -> str:
        """Return a share [-] in per cent."""
        return named.share(value, digits)

    def shift(self, moment: float, far: float) -> str:
        """Return a moment of mass [kg m] as so much moved so far [m]."""
        return f"{self.mass(abs(moment) / far)} by {self.length(far)}"

    def write(self, value: float, kind: str, digits: int | None = None) -> str:
        """Return any other figure [SI] of a kind: "pressure", "force", "time", ..."""
        return self.units.write(value, kind, digits)

    def fine(self, value: float, kind: str) -> str:
        """Return a figure [SI] of a kind, to two figures at the least."""
        return self.units.write_fine(value, kind)


def say_in(units: Units) -> Say:
    """Return how figures are written where there is no boat yet."""
    return Say(Boat.model_construct(units=units))


def as_moved(name: str) -> str:
    """Return a name as a distance stands after it: a number at its end would run into that.

    >>> as_moved("tank"), as_moved("lead 3")
    ('tank', 'lead 3 by')
    """
    return f"{name} by" if name[-1:].isdigit() else name


def way(offset: float) -> tuple[str, str]:
    """Return which way something lies off [m], and the way back.

    >>> way(0.01)
    ('forward', 'aft')
    """
    return ("forward", "aft") if offset > 0 else ("aft", "forward")
