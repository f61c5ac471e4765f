"""Reads what is left at home or exchanged, for ``what-if`` and ``reach``."""

from collections.abc import Generator, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from typing import TYPE_CHECKING, cast

from trimdive.errors import AskError, BoatError
from trimdive.units import read

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.ballast.dive.whatif import Case, Made, Tanks
    from trimdive.ballast.reach import Wanted
    from trimdive.boatfile import Boat


@dataclass(frozen=True, slots=True, kw_only=True)
class Other:
    """Another thing in a part's place, as typed."""

    name: str | None  # of the part that goes
    mass: str | None
    volume: str | None
    x: str | None
    z: str | None


def _made(her: "Assessment") -> "Made":
    """Return her as what has been made of a boat; that she keeps it is no matter here."""
    return cast("Made", her)


@contextmanager
def typed_after(option: str) -> Generator[None]:
    """Tell a name that stands for nothing as a fault of the option it was typed after."""
    try:
        yield
    except BoatError as error:
        raise AskError(error.what, option, error.mend) from None


def _size(boat: "Boat", text: str, kind: str, option: str) -> float:
    return read(text, kind, boat.units.own.get(kind), where=option)


def _place(her: "Assessment", other: Other) -> tuple[float, float, float] | None:
    """Return the place of another thing, or None where it lies as the old one did [m]."""
    from trimdive.ballast.dive.changed import piece_named

    if other.x is None and other.z is None:
        return None
    boat, name = her.boat, other.name or ""
    path, _ = piece_named(boat, name)
    old = next(entry.place for entry in her.masses.entries if entry.path == path)
    x, y, z = (float(value) for value in old)
    if other.x is not None:
        x = boat.along(_size(boat, other.x, "length", "--x"))  # along undoes itself
    if other.z is not None:
        z = _size(boat, other.z, "length", "--z")
    return x, y, z


def _new_one(
    her: "Assessment", other: Other
) -> tuple[float, float | None, tuple[float, float, float] | None]:
    """Return mass [kg], volume [m³] and place [m] of another thing; None as the old one's."""
    boat = her.boat
    if other.mass is None:
        mend = 'Give it with --mass, such as "310 g".'
        raise AskError("the other part has no mass", "--instead", mend)
    mass = _size(boat, other.mass, "mass", "--mass")
    volume = None if other.volume is None else _size(boat, other.volume, "volume", "--volume")
    return mass, volume, _place(her, other)


def _exchanged(her: "Assessment", other: Other, tanks: "Tanks") -> "Case":
    from trimdive.ballast.dive.whatif import exchanged

    with typed_after("--instead"):
        mass, volume, place = _new_one(her, other)
        return exchanged(
            _made(her), other.name or "", mass=mass, volume=volume, place=place, tanks=tanks
        )


def _fillings(boat: "Boat") -> tuple["Tanks", ...]:
    return ("blown", "full") if boat.tanks else ("blown",)


def _asked(her: "Assessment", without: Sequence[str], other: Other) -> Iterator["Case"]:
    from trimdive.ballast.dive.whatif import left_at_home

    for name in without:
        with typed_after("--without"):
            for tanks in _fillings(her.boat):
                yield left_at_home(_made(her), name, tanks)
    if other.name is not None:
        for tanks in _fillings(her.boat):
            yield _exchanged(her, other, tanks)


def _check(other: Other) -> None:
    """Raise what is wrong where another thing is told of, but not in whose place."""
    given = {"--mass": other.mass, "--volume": other.volume, "--x": other.x, "--z": other.z}
    lone = next((option for option, text in given.items() if text is not None), None)
    if lone and other.name is None:
        mend = "Name the part it replaces."
        raise AskError("it does not say what is replaced", lone, mend)


def asked(her: "Assessment", without: Sequence[str], other: Other) -> tuple["Case", ...]:
    """Return the cases that are asked for; all that may go wrong where none is.

    Raises:
        AskError: There is no such part, or the other thing is not told.
        UnitError: A quantity cannot be read.
    """
    from trimdive.ballast.dive.whatif import cases

    _check(other)
    return tuple(_asked(her, without, other)) or cases(_made(her))


def wanted(her: "Assessment", left: Sequence[str], other: Other) -> tuple["Wanted", ...]:
    """Return the states that water alone should cover, with those that are asked for last.

    Raises:
        AskError: There is no such part, or the other thing is not told.
        UnitError: A quantity cannot be read.
    """
    _check(other)
    return (*her.wanted, *_wanted(her, left, other))


def _wanted(her: "Assessment", left: Sequence[str], other: Other) -> Iterator["Wanted"]:
    from trimdive.ballast.dive.whatif import with_another, without
    from trimdive.ballast.reach import otherwise

    for name in left:
        with typed_after("--without"):
            _, _, ready = without(_made(her), name)
        yield otherwise(f"without {name}", ready, her.midships)
    if other.name is not None:
        with typed_after("--instead"):
            _, _, ready = with_another(_made(her), other.name, *_new_one(her, other))
        yield otherwise(f"another {other.name}", ready, her.midships)
