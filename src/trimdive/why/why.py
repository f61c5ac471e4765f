"""A figure asked "why?": its formula, the values put in, where they come from, how sure it is."""

from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

from trimdive.data import cited, table
from trimdive.units import unit_named, write

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.weights import Entry

FINER = 1  # decimals more than a figure is shown with, so that the sum can be done again [-]
WORKED_OUT = "worked out"


@dataclass(frozen=True, slots=True, kw_only=True)
class Value:
    """A value that goes into a formula."""

    symbol: str  # as the formula has it
    says: str  # what it is, in words
    text: str  # with its unit
    value: float  # [SI of its kind]
    kind: str  # of quantity: length, mass, volume, angle, density, ratio, …
    origin: str  # where it comes from
    asks: str  # key under which it can be asked in its turn; "" where it stands for itself


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """One thing of the many that a sum goes over."""

    name: str
    texts: tuple[str, ...]  # under the symbols of the sum
    origin: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Why:
    """Everything that is told of one figure."""

    key: str
    question: str  # in plain words
    answer: str  # the figure as the page shows it
    result: float  # the same [SI of its kind]
    kind: str  # of quantity
    says: str  # the reason in a sentence or two
    formula: str  # in symbols; A_B has an index, {a|b} is a over b, √{a} a root
    values: tuple[Value, ...]
    heads: tuple[str, ...]  # symbols of what is summed
    items: tuple[Item, ...]  # what is summed, largest first
    source: str  # title of where the formula comes from
    sure: str  # how sure it is


@cache
def meanings() -> dict[str, str]:
    """Return what each symbol means."""
    return {entry["symbol"]: entry["meaning"] for entry in table("nomenclature") if entry["symbol"]}


def source_of(*keys: str) -> str:
    """Return how sources are cited, by their keys."""
    return "; ".join(cited(key) for key in keys)


def shown(her: "Assessment", value: float, kind: str, finer: int = FINER) -> str:
    """Return a value in the boat's unit, a decimal finer than usual so that sums can be checked.

    Args:
        her: The boat.
        value: What it measures [SI of its kind].
        kind: Of quantity; "" for a plain number.
        finer: Decimals more than usual.
    """
    if kind == "":
        return f"{value:.4f}"
    unit = her.boat.units.shown(kind)
    if kind == "density":
        unit = her.boat.units.own.get("density", "kg/m³")
    return write(value, kind, unit, unit_named(unit, kind).decimals + finer)


def put_in(
    her: "Assessment",
    symbol: str,
    value: float,
    kind: str,
    *,
    says: str = "",
    origin: str = WORKED_OUT,
    asks: str = "",
    finer: int = FINER,
) -> Value:
    """Return a value as it goes into a formula.

    Args:
        her: The boat.
        symbol: As the formula has it.
        value: The value [SI of its kind].
        kind: Of quantity; "" for a plain number.
        says: What it is; left out, as the list of symbols has it.
        origin: Where it comes from.
        asks: Key under which it can be asked in its turn.
        finer: Decimals more than usual.
    """
    return Value(
        symbol=symbol,
        says=says or meanings()[symbol],
        text=shown(her, value, kind, finer),
        value=value,
        kind=kind,
        origin=origin,
        asks=asks,
    )


def place_of(her: "Assessment", symbol: str, x: float, *, says: str = "", asks: str = "") -> Value:
    """Return a place along the boat as it goes into a formula, told as the builder measures.

    Args:
        her: The boat.
        symbol: As the formula has it.
        x: Forward of the stern [m].
        says: What it is; left out, as the list of symbols has it.
        asks: Key under which it can be asked in its turn.
    """
    return Value(
        symbol=symbol,
        says=says or meanings()[symbol],
        text=shown(her, her.boat.along(x), "length"),
        value=x,
        kind="length",
        origin=f"from the {her.boat.told_from}",
        asks=asks,
    )


def origin_of(entry: "Entry") -> str:
    """Return where a mass comes from: its place in the boat file, and how it is known."""
    return f"{entry.path}, {entry.known}" if entry.known else entry.path


def density_in(her: "Assessment") -> Value:
    """Return the density of her water as it goes into a formula."""
    warm = her.boat.units.write(her.water.celsius, "temperature")
    salt = f", {her.boat.units.write(her.water.salt, 'salt')} of salt" if her.water.salt else ""
    where = f"[water]: {her.water.kind}, {warm}{salt}"
    return put_in(her, "ρ", her.water.density, "density", says="her water", origin=where)
