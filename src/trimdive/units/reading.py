"""Reads a quantity as typed into its SI value, or says what is wrong with it."""

import difflib
import math
import re
from fractions import Fraction
from functools import lru_cache
from itertools import pairwise

from trimdive.errors import UnitError
from trimdive.units.spread import Spread
from trimdive.units.table import Unit, by_name, candidates, kinds, usual_names
from trimdive.units.typed import PLUS_MINUS, Typed, taken_apart, tidied, without_about

SMALLER = {  # what may follow a unit in one quantity, as in "3 lb 4 oz"
    ("yd", "ft"), ("ft", "in"), ("yd", "in"), ("lb", "oz"), ("st", "lb"), ("t", "kg"),
    ("kg", "g"), ("km", "m"), ("m", "cm"), ("m", "mm"), ("cm", "mm"), ("L", "ml"),
    ("d", "h"), ("h", "min"), ("min", "s"), ("°", "arcmin"), ("arcmin", "arcsec"),
}  # fmt: skip
LONGEST = 80  # letters in a quantity
NUMBER = r"\d+(?:[.,]\d+)?"
SEVERAL = re.compile(
    rf"(?P<count>\d+) ?[x×*] ?(?P<one>{NUMBER}) ?(?P<unit>[^\W\d_]*)", re.IGNORECASE
)
OF_THEM = re.compile(
    rf"(?P<one>{NUMBER}) ?(?P<unit>[^\W\d_]*?) ?[x×*] ?(?P<count>\d+)", re.IGNORECASE
)
TOGETHER = ("mass", "volume")  # of which several alike come to one figure


def read(text: str, kind: str, default_unit: str | None = None, where: str = "") -> float:
    """Return the SI value of a quantity as typed; a temperature in °C, salt in g/kg.

    Args:
        text: As a person types it, with its unit.
        kind: What it must be: "length", "mass", "ratio" (a scale), ...
        default_unit: Unit of a bare number; without one a bare number is an error.
        where: What to call the place in an error.

    Raises:
        UnitError: It is no quantity of that kind.

    >>> read("9 3/4 in", "length"), read("1:32", "ratio")
    (0.24765, 32.0)
    """
    try:
        return _read(text, kind, default_unit)
    except UnitError as error:
        placed = UnitError(error.what, where or kind, error.mend)
        placed.lacks = error.lacks
        raise placed from None


@lru_cache(maxsize=4096)
def _read(text: str, kind: str, default_unit: str | None) -> float:
    """Return the SI value; the errors say no place."""
    if len(text) > LONGEST:
        what = f"'{text[:20]}…' is too long to be {_a(kind)}"
        raise _no_scale(what) if kind == "ratio" else _refused(what, kind)
    plain = tidied(text)
    if kind == "ratio":
        return _ratio(plain, text)
    plain = without_about(plain)
    middle, *behind = PLUS_MINUS.split(plain, maxsplit=1)
    if middle and behind:
        off = (
            f', and how far it is off apart, as spread = "± {behind[0]}"' if kind == "mass" else ""
        )
        raise UnitError(f"'{text}' tells two figures", "", f'Write "{middle}"{off}.')
    several = SEVERAL.fullmatch(plain) or OF_THEM.fullmatch(plain)
    if several:
        raise _several(text, kind, several)
    try:
        typed = taken_apart(plain)
    except ValueError as error:
        raise _doubtful(text, str(error).strip()) from None
    if typed is None:
        raise _refused(f"'{text}' is not {_a(kind)}", kind)
    try:
        return _sum(text, kind, typed, default_unit)
    except OverflowError:
        what = f"'{text}' is too large a number"
        raise UnitError(what, "", "Write one that can be built.") from None


def _several(text: str, kind: str, found: re.Match[str]) -> UnitError:
    """Return what is said of several alike, such as "3x24 g": what they come to together."""
    count, one, unit = (found[key].replace(",", ".") for key in ("count", "one", "unit"))
    if kind not in TOGETHER:
        return UnitError(
            f"'{text}' tells more than one figure", "", "Write one number and one unit."
        )
    together = f"{float(count) * float(one):.10g} {unit}".strip()
    what = f"'{text}' is {count} times {found['one']} {unit}".rstrip()
    return UnitError(what, "", f'Write what they come to together: "{together}".')


def _sum(text: str, kind: str, typed: Typed, default_unit: str | None) -> float:
    """Return the SI value of amounts that add up.

    Raises:
        UnitError: A unit is missing or unknown, or the amounts do not go together.
    """
    amounts = typed.amounts
    names = [amount.unit or default_unit or "" for amount in amounts]
    if not all(names):
        bare = _refused(f"'{text}' has no {_plain(kind)} unit", kind)
        bare.lacks = kind
        raise bare
    found = [unit_named(name, kind, text) for name in names]
    for i, (large, little) in enumerate(pairwise(found)):
        is_whole = amounts[i].number.denominator == 1
        is_rest = amounts[i + 1].number * little.scale < large.scale
        if (large.name, little.name) not in SMALLER or not (is_whole and is_rest):
            what = f"'{text}' does not add up to one {_plain(kind)}"
            raise UnitError(what, "", "Write one number and one unit.")
    if len(found) == 1:  # a temperature below zero takes its sign before the offset
        return found[0].si(typed.sign * amounts[0].number)
    total = sum(unit.scale * amount.number for unit, amount in zip(found, amounts, strict=True))
    return float(typed.sign * total)


def unit_named(name: str, kind: str, text: str = "") -> Unit:
    """Return the unit of a kind that is called so.

    Raises:
        UnitError: There is none, it is of another kind, or the name may mean two.
    """
    found = candidates(name, kind) or candidates(name.removesuffix("."), kind)
    if len(found) == 1:
        return found[0]
    if found:
        choices = " or ".join(unit.name for unit in found)
        raise UnitError(f"'{name}' may mean {choices}", "", "Write which one.")
    others = [other for other in kinds() if candidates(name, other)]
    if others:
        what = f"'{text or name}' is {_a(others[0])}, not {_a(kind)}"
        raise _refused(what, kind)
    near = _near(name, kind)
    if not near:
        return _rare_unit(name, kind, text)
    raise UnitError(f"there is no unit '{name}'", "", f"Did you mean {near}?")


def _near(name: str, kind: str) -> str | None:
    """Return the unit that a misspelt name may mean: one that begins alike, then one as long.

    >>> _near("gr", "mass"), _near("mn", "length")
    ('g', 'mm')
    """
    names = [known for of, known in by_name() if of == kind]
    close = difflib.get_close_matches(name, names, n=5, cutoff=0.5 if len(name) < 3 else 0.75)
    close.sort(key=lambda known: (known[0] != name[0], len(known) != len(name), names.index(known)))
    return close[0] if close else None


def _rare_unit(name: str, kind: str, text: str) -> Unit:
    """Return a unit that the table does not hold, such as a fathom."""
    from trimdive.units.rare import factor_of, kind_of

    factor = factor_of(name, kind)
    if factor is not None:
        return Unit(name=name, kind=kind, scale=Fraction(factor), offset=Fraction(0), decimals=3)
    other = kind_of(name)
    if other:
        what = f"'{text or name}' is {_a(other)}, not {_a(kind)}"
    else:
        what = f"there is no unit '{name}'"
    raise _refused(what, kind)


def read_spread(text: str, default_unit: str | None = None, where: str = "spread") -> Spread:
    """Return how far a mass may be off, from "± 40 g" or "± 5 %".

    Raises:
        UnitError: It is neither a mass nor a share, or it is below zero.
    """
    plain = tidied(text).removeprefix("±").removeprefix("+/-").removeprefix("+-").strip()
    kind = "percent" if plain.endswith(("%", "‰", "per cent", "percent")) else "mass"
    try:
        size = _read(plain, kind, default_unit if kind == "mass" else None)
    except UnitError as error:
        raise UnitError(error.what, where, "Write it as ± 40 g or ± 5 %.") from None
    if size < 0:
        raise UnitError(f"'{text}' is below zero", where, "Write it as ± 40 g or ± 5 %.")
    return Spread(size, is_share=kind == "percent")


def _ratio(plain: str, text: str) -> float:
    """Return how many times smaller than full size: "1:32", "1/32" or "3/8 in = 1 ft"."""
    if "=" in plain:
        model, full = (_read(side.strip(), "length", None) for side in plain.split("=", 1))
    else:
        sides = plain.replace("/", ":").split(":")
        if len(sides) != 2:
            raise _no_scale(f"'{text}' is not a scale")
        try:
            model, full = (float(side.replace(",", ".")) for side in sides)
        except ValueError:
            raise _no_scale(f"'{text}' is not a scale") from None
    if not (model > 0 and 0 < full < math.inf):
        raise _no_scale(f"'{text}' is not a scale")
    return full / model


def _doubtful(text: str, number: str) -> UnitError:
    """Return the error for a number that cannot be read in one way only."""
    if "," not in number:
        return UnitError(f"'{number}' in '{text}' is not a number", "", "Write it as 12.5.")
    whole, _, rest = number.partition(",")
    return UnitError(
        f"'{number}' in '{text}' may part thousands or decimals",
        "",
        f"Write {whole}{rest.replace(',', '')} or {whole}.{rest.replace(',', '')}.",
    )


def _refused(what: str, kind: str) -> UnitError:
    """Return the error for what is no quantity of a kind, with the units that it may have."""
    return UnitError(what, "", f"Write a number and one of: {', '.join(usual_names(kind))}.")


def _no_scale(what: str) -> UnitError:
    """Return the error for what is no scale."""
    return UnitError(what, "", "Write it as 1:20, or as 1/20.")


def _a(kind: str) -> str:
    """Return the kind with its article."""
    plain = _plain(kind)
    return f"{'an' if plain[0] in 'aeiou' else 'a'} {plain}"


def _plain(kind: str) -> str:
    """Return the kind in a builder's words."""
    return {"percent": "percentage", "salt": "salt content", "ratio": "scale"}.get(kind, kind)
