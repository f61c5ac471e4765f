"""What pressure inside a cylinder does to its caps: pushed off, or held by rods.

The pressure itself is worked out in ``dryspace``. Source: closed form.
"""

from dataclasses import dataclass
from math import pi

from trimdive.errors import GeometryError
from trimdive.vessels.strength.material import safety


def end_load(pressure: float, sealed_across: float) -> float:
    """Return the force on a cap: p π D²/4 [N].

    Args:
        pressure: Inside less outside [Pa].
        sealed_across: Diameter of the circle on which it seals [m].

    Source:
        Closed form.
    """
    return pressure * pi / 4 * sealed_across**2


@dataclass(frozen=True, slots=True, kw_only=True)
class PushOff:
    """What pushes a cap off at the surface, and what holds it."""

    pressure: float  # inside above outside [Pa]
    load: float  # that pushes it off [N]
    held: float  # by rods, screws, glue or a band, its ring's rubbing not counted [N]
    wanted: float  # times the load, what should hold it [-]

    @property
    def stays(self) -> bool:
        """Return whether it is held as well as wanted."""
        return self.held >= self.wanted * self.load

    @property
    def bears(self) -> float:
        """Return how many times the load the cap is held; endless where nothing pushes [-]."""
        return self.held / self.load if self.load > 0 else float("inf")


def push_off(
    pressure: float, sealed_across: float, held: float, wanted: float | None = None
) -> PushOff:
    """Return whether a cap is pushed off at the surface, where nothing outside helps.

    Args:
        pressure: Inside above that of the air [Pa].
        sealed_across: Diameter of the circle on which it seals [m].
        held: What holds it on, without what closes its ring [N].
        wanted: Times the load [-]; None takes ``safety.csv``.

    Raises:
        GeometryError: The diameter is not above zero or the hold is below it.
    """
    if not (sealed_across > 0 and held >= 0):
        said = f"sealed on {sealed_across * 1e3:g} mm and held by {held:g} N"
        raise GeometryError(said, "cap", "Give a diameter above 0, and 0 N or more.")
    return PushOff(
        pressure=pressure,
        load=max(end_load(pressure, sealed_across), 0.0),
        held=held,
        wanted=safety("push-off") if wanted is None else wanted,
    )


def rod_pull(rods: int, ring_closing: float, push: float) -> float:
    """Return the pull in each of several tie rods: what closes the rings and what pushes off [N].

    Pressure from outside pushes the caps on and relieves them; it is not counted.

    Args:
        rods: How many.
        ring_closing: Force that closes a ring in a face groove, 0 for a ring in a bore [N].
        push: Force that pushes a cap off [N].

    Raises:
        GeometryError: There are no rods.
    """
    if rods < 1:
        raise GeometryError(f"{rods} tie rods hold nothing", "tie rods", "Give 1 or more.")
    return (ring_closing + push) / rods
