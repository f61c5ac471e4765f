"""A figure asked "why?": its formula, the values put in, where they come from, how sure it is.

No words here: what is so is told by facts and keys; ``text.whys`` has the words.
"""

from typing import TYPE_CHECKING

from trimdive.data import cited, row
from trimdive.fact import Fact, fact
from trimdive.records import record

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.hydrostatics.weights import Entry

FINER = 1  # decimals more than a figure is shown with, so that the sum can be done again [-]
WORKED_OUT = fact("from-work")

Shown = Fact | str  # a fact; or the name of a piece or its place in the boat file, as it stands


@record
class Value:
    """A value that goes into a formula."""

    symbol: str  # as the formula has it; "" where it goes into none
    means: str  # key of what it is: its symbol, where the list of symbols has that
    shown: Shown  # how it is written
    value: float  # [SI of its kind]
    kind: str  # of quantity: length, mass, volume, angle, density, ratio, …
    origin: Shown  # where it comes from; "" where that needs no word
    asks: str  # key under which it can be asked in its turn; "" where it stands for itself


@record
class Item:
    """One thing of the many that a sum goes over."""

    name: Shown
    figures: tuple[Fact, ...]  # under the symbols of the sum
    origin: Shown


@record
class Why:
    """Everything that is told of one figure."""

    key: str
    answer: Shown  # the figure as the page shows it
    result: float  # the same, from the values put in [SI of its kind]
    kind: str  # of quantity
    reason: Fact
    formula: str  # in symbols; A_B has an index, {a|b} is a over b, √{a} a root; "" where none is
    values: tuple[Value, ...]
    heads: tuple[str, ...]  # symbols of what is summed
    items: tuple[Item, ...]  # what is summed, largest first
    source: str  # title of where the formula comes from
    uncertainty: Fact  # how sure it is

    @property
    def about(self) -> tuple[str, str]:
        """Return which figure it is, and of what: ("draught", "bow"); "" of the whole boat."""
        first, _, rest = self.key.partition("/")
        return first, rest


def reasoned(
    key: str,
    *,
    answer: Fact,
    result: float,
    kind: str,
    reason: Fact,
    uncertainty: Fact,
    values: tuple[Value, ...] = (),
    heads: tuple[str, ...] = (),
    items: tuple[Item, ...] = (),
) -> Why:
    """Return a figure with its reason; formula and source are those of its key in the table.

    Args:
        key: Of the figure; what it is of follows a stroke.
        answer: The figure as the page shows it.
        result: The same, from the values put in [SI of its kind].
        kind: Of quantity.
        reason: Why it is what it is.
        uncertainty: How sure it is.
        values: What is put into the formula.
        heads: Symbols of what is summed.
        items: What is summed, largest first.
    """
    law = row("formulas", key.partition("/")[0])
    return Why(
        key=key,
        answer=answer,
        result=result,
        kind=kind,
        reason=reason,
        formula=law["formula"],
        values=values,
        heads=heads,
        items=items,
        source=cited(law["source"]),
        uncertainty=uncertainty,
    )


def figure(value: float, kind: str) -> Fact:
    """Return a figure as it is shown everywhere.

    Args:
        value: What it measures [SI of its kind].
        kind: Of quantity.
    """
    return fact("figure", value=float(value), kind=kind)


def shown(value: float, kind: str, finer: int = FINER) -> Fact:
    """Return a value shown a decimal finer than usual, so that sums can be checked.

    Args:
        value: What it measures [SI of its kind].
        kind: Of quantity; "" for a plain number.
        finer: Decimals more than usual.
    """
    return fact("figure-finer", value=float(value), kind=kind, finer=finer)


def shown_place(x: float) -> Fact:
    """Return a place along the boat, shown as the builder measures, finer than usual.

    Args:
        x: Forward of the stern [m].
    """
    return fact("figure-along", x=float(x))


def put_in(
    symbol: str,
    value: float,
    kind: str,
    *,
    means: str = "",
    origin: Shown = WORKED_OUT,
    asks: str = "",
    finer: int = FINER,
) -> Value:
    """Return a value as it goes into a formula.

    Args:
        symbol: As the formula has it.
        value: The value [SI of its kind].
        kind: Of quantity; "" for a plain number.
        means: Key of what it is; left out, as the list of symbols has it.
        origin: Where it comes from.
        asks: Key under which it can be asked in its turn.
        finer: Decimals more than usual.
    """
    return Value(
        symbol=symbol,
        means=means or symbol,
        shown=shown(value, kind, finer),
        value=value,
        kind=kind,
        origin=origin,
        asks=asks,
    )


def place_of(her: "Assessment", symbol: str, x: float, *, means: str = "", asks: str = "") -> Value:
    """Return a place along the boat as it goes into a formula, shown as the builder measures.

    Args:
        her: The boat.
        symbol: As the formula has it.
        x: Forward of the stern [m].
        means: Key of what it is; left out, as the list of symbols has it.
        asks: Key under which it can be asked in its turn.
    """
    return Value(
        symbol=symbol,
        means=means or symbol,
        shown=shown_place(x),
        value=x,
        kind="length",
        origin=fact("from-end", end=her.boat.entered_from),
        asks=asks,
    )


def origin_of(entry: "Entry") -> str:
    """Return where a mass comes from: its place in the boat file, and how it is known."""
    return f"{entry.path}, {entry.known}" if entry.known else entry.path


def density_in(her: "Assessment") -> Value:
    """Return the density of her water as it goes into a formula."""
    water = her.water
    where = fact("from-water", water=water.kind, celsius=water.celsius, salt=water.salt)
    return put_in("ρ", water.density, "density", means="her-water", origin=where)
