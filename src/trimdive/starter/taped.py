"""From tape readings to what a first boat is planned on."""

from trimdive.starter.wish import Wish
from trimdive.tape import Readings, tape_litres


def wish_by_tape(readings: Readings) -> Wish:
    """Return what tape readings say of her.

    Raises:
        BoatFileError: They contradict each other.
    """
    skin = tape_litres(readings).shares[0]
    broad = [one.breadth for one in readings.girths if one.breadth]
    walls = readings.walls
    return Wish(
        name=readings.name,
        length=readings.length,
        kind=readings.kind,
        material=readings.material.name,
        breadth=max(broad) if broad else None,
        wall=sum(walls) / len(walls) if walls else None,
        skin_above=skin.volume if readings.kind == "wet" else None,
        units=readings.units,
    )
