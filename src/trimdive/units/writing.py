"""Writes an SI value as text, in a unit and with digits that a builder would use."""

from decimal import Context, Decimal
from fractions import Fraction
from math import floor, log10

from trimdive.units.reading import read, unit_named
from trimdive.units.spread import Spread
from trimdive.units.table import usual_names

SMALLEST_PLAIN, LARGEST_PLAIN = 1e-6, 1e15  # written without powers of ten between these
FEW = 10.0  # below this, two figures need decimals
LARGE = 100.0  # from here on one decimal less says as much


def number_in(value: float, kind: str, unit: str) -> float:
    """Return how many of a unit an SI value makes.

    >>> number_in(0.5, "length", "mm")
    500.0
    """
    return unit_named(unit, kind).number(value)


def write(value: float, kind: str, unit: str, digits: int | None = None) -> str:
    """Return an SI value as text in a unit.

    Args:
        value: What it measures [SI; °C for a temperature, g/kg for salt].
        kind: What it is: "length", "mass", "ratio", ...
        unit: Unit to write it in; a ratio has none.
        digits: Decimals; left out, as many as a builder would read.

    >>> write(1.2345, "length", "mm"), write(0.0123, "length", "mm"), write(0.0853, "mass", "g")
    ('1234 mm', '12.3 mm', '85 g')
    """
    if kind == "ratio":
        return f"1:{value:.{digits}f}" if digits is not None else f"1:{value:g}"
    found = unit_named(unit, kind)
    shown = found.number(value)
    if digits is None:
        digits = max(0, found.decimals - (abs(shown) >= LARGE))
    text = f"{round(shown, digits) + 0.0:.{digits}f}"
    return f"{text}{'' if found.name == '°' else ' '}{found.name}"


def write_fine(value: float, kind: str, unit: str) -> str:
    """Return an SI value as text, with as many decimals as two figures of it need.

    >>> write_fine(2.3e-9, "volume", "cm³"), write_fine(2.3e-4, "volume", "cm³")
    ('0.0023 cm³', '230 cm³')
    """
    size = abs(unit_named(unit, kind).number(value))
    if not 0.0 < size < FEW:
        return write(value, kind, unit)
    own = unit_named(unit, kind).decimals
    return write(value, kind, unit, max(own, 1 - floor(log10(size))))


def exact(value: float, kind: str, unit: str | None = None) -> str:
    """Return text from which ``read`` gives back exactly this value, short where it can be."""
    if kind == "ratio":
        return next(text for text in (f"1:{value:g}", f"1:{value!r}") if read(text, kind) == value)
    for name in dict.fromkeys([unit or usual_names(kind)[0], *usual_names(kind)]):
        found = unit_named(name, kind)
        number = Fraction(value) / found.scale - found.offset
        for digits in (9, 12, 15, 16, 17):
            text = f"{_plain(number, digits)} {found.name}"
            if read(text, kind) == value:
                return text
    raise AssertionError(f"no text for {value!r} of {kind}")


def _plain(number: Fraction, digits: int) -> str:
    """Return a number to so many figures, without noughts at its end."""
    figure = Context(prec=digits).divide(Decimal(number.numerator), Decimal(number.denominator))
    is_handy = not number or SMALLEST_PLAIN <= abs(number) < LARGEST_PLAIN
    return f"{figure.normalize():f}" if is_handy else f"{figure.normalize():e}"


def write_spread(spread: Spread, unit: str | None = None) -> str:
    """Return a spread as it is typed, exactly."""
    kind = "percent" if spread.is_share else "mass"
    return f"± {exact(spread.size, kind, None if spread.is_share else unit)}"
