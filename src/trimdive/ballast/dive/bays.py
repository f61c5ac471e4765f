"""What dividing a tank into bays does to the stiffness that its slack water takes away.

A free surface takes rho_tank i / (rho ∇) off GM, with i its second moment about its own middle.
Parted lengthways into n equal bays, i along the boat falls to 1/n²; parted by bulkheads along the
middle line, i across falls so. Two tanks for one carry half the water each, with surfaces half as
long: a quarter of what the one takes away lengthways.

Source: ordinary naval architecture; free surface and divisions in any text on ship stability.
"""

from dataclasses import dataclass

from trimdive.ballast.dive.table import Moment


@dataclass(frozen=True, slots=True, kw_only=True)
class Bays:
    """A boat at her worst filling, with her tanks parted into so many bays."""

    count: int  # bays along each tank [-]
    filling: float  # where lengthways stiffness is least [-]
    gm_l: float  # lengthways there, with the bays [m]
    lost_l: float  # what slack water then takes off GM_L [m]
    lost_t: float  # what it takes off GM_T, for comparison [m]


def free_surface_loss(length: float, breadth: float, volume: float, count: int = 1) -> float:
    """Return what a level surface takes off GM lengthways, n bays along it [m].

    Args:
        length: Of the surface [m].
        breadth: Of the surface [m].
        volume: Displaced by the boat [m³].
        count: Bays [-].

    >>> round(free_surface_loss(0.5, 0.1, 0.030), 4)
    0.0347
    """
    return breadth * length**3 / 12 / volume / count**2


def bays(moments: tuple[Moment, ...], most: int = 4) -> tuple[Bays, ...]:
    """Return what 1 to ``most`` bays along each tank make of the softest moment of the dive.

    The surfaces are those by geometry at each moment, as if each bay were filled alike.

    Args:
        moments: Of the dive.
        most: Bays [-].
    """
    found: list[Bays] = []
    for count in range(1, most + 1):
        gain = 1 - 1 / count**2
        worst = min(moments, key=lambda m: m.state.gm_l + gain * m.state.free_surface_l)
        state = worst.state
        found.append(
            Bays(
                count=count,
                filling=worst.filling,
                gm_l=state.gm_l + gain * state.free_surface_l,
                lost_l=state.free_surface_l / count**2,
                lost_t=state.free_surface_t,
            )
        )
    return tuple(found)
