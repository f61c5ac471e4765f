"""How far a figure may be off, as an amount or as a share."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Spread:
    """A ± as typed: so many kilograms, or such a share of the mass."""

    size: float  # [kg], or [-] where it is a share
    is_share: bool

    def of(self, mass: float) -> float:
        """Return the spread [kg] of a mass [kg].

        >>> Spread(0.25, is_share=True).of(2.0)
        0.5
        """
        return self.size * abs(mass) if self.is_share else self.size
