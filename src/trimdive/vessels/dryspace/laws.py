"""Pressure of air that is shut in, as water takes room from it, air leaves it and it warms.

Air that has time takes the temperature of what is around it: p V / T = const. Squeezed at once it
is for a minute or two up to p V^1.4 = const.

Sources: Boyle's law; Gay-Lussac's law; Poisson's for the fast one.
"""

from trimdive.data import constant
from trimdive.errors import BoatError

FAST = 1.4  # exponent of air squeezed too fast to give off its heat [-]


def pressure(room: float, water: float, closed_with: float = 0.0, exponent: float = 1.0) -> float:
    """Return the absolute pressure of air from which water takes room [Pa].

    Args:
        room: Of air and water together [m³].
        water: Now [m³].
        closed_with: Water when it was closed at the air's pressure [m³].
        exponent: 1 where it has time, ``FAST`` where it has none [-].

    Raises:
        BoatError: The water takes all the room that there is.

    Source:
        Boyle's law; Poisson's for the fast one.

    >>> round(pressure(1e-3, 0.25e-3) - 101325)
    33775
    """
    if not (water < room and closed_with < room):
        what = f"{max(water, closed_with) * 1e3:.2f} L of water leave no air of {room * 1e3:.2f} L"
        raise BoatError(what, "air inside", "Leave more free air, or vent the tank outside.")
    return constant("atmosphere") * ((room - closed_with) / (room - water)) ** exponent


def water_at(room: float, closed_with: float, absolute: float) -> float:
    """Return the water with which shut-in air has a pressure [m³].

    Args:
        room: Of air and water together [m³].
        closed_with: Water when it was closed at the air's pressure [m³].
        absolute: The pressure, absolute [Pa].

    Source:
        Boyle's law.

    >>> round(water_at(1e-3, 0.0, 2 * 101325) * 1e3, 6)
    0.5
    """
    return room - (room - closed_with) * constant("atmosphere") / absolute


def drawn(air: float, closed_air: float, kept: float, closed_bag: float) -> float:
    """Return the absolute pressure of air of which some is kept in a bag outside [Pa].

    Args:
        air: Room of the air inside now [m³].
        closed_air: Its room when it was closed at the air's pressure [m³].
        kept: p V of the bag now: its absolute pressure by its size [J].
        closed_bag: Size of the bag when it was closed, at the air's pressure [m³].

    Source:
        Boyle's law: what p V is of both together stays.

    >>> round((drawn(3e-3, 3e-3, 101325 * 0.5e-3, 0.0) - 101325) / 1e5, 3)
    -0.169
    """
    return (constant("atmosphere") * (closed_air + closed_bag) - kept) / air


def warmed(closed_celsius: float, celsius: float) -> float:
    """Return how many times its pressure shut-in air has once it is warmed or cooled [-].

    Args:
        closed_celsius: Temperature when it was closed [°C].
        celsius: Temperature now [°C].

    Raises:
        BoatError: A temperature is at or below absolute zero.

    Source:
        Gay-Lussac's law.

    >>> round((warmed(15.0, 50.0) - 1) * 101.325, 2)
    12.31
    """
    zero = constant("zero-celsius")
    if not min(closed_celsius, celsius) > -zero:
        said = f"{min(closed_celsius, celsius):g} °C cannot be"
        raise BoatError(said, "temperature", f"Enter more than {-zero:g} °C.")
    return (celsius + zero) / (closed_celsius + zero)
