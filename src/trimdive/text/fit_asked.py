"""What is asked of ``fit``: a tube, by its outside diameter and its length."""

from typing import TYPE_CHECKING

from trimdive.errors import BoatFileError
from trimdive.units import read

if TYPE_CHECKING:
    from trimdive.boatfile import Boat


def asked_tube(boat: "Boat", outside: str, length: str) -> tuple[float, float] | None:
    """Return length and outside diameter of a tube [m]; None where none is asked for.

    Raises:
        BoatFileError: Only one of both is given, or it is no size.
        UnitError: A figure cannot be read.
    """
    if not (outside or length):
        return None
    for given, option, size in (
        (outside, "--outside", "outside diameter"),
        (length, "--length", "length with the caps on"),
    ):
        if not given:
            raise BoatFileError("a tube needs both its sizes", option, f"Add its {size}.")
    given = ((length, "--length"), (outside, "--outside"))
    sizes = [read(one, "length", boat.units.length, where=option) for one, option in given]
    for size, option in zip(sizes, ("--length", "--outside"), strict=True):
        if not size > 0:
            raise BoatFileError("a tube has some size", option, "Write one above zero.")
    return sizes[0], sizes[1]
