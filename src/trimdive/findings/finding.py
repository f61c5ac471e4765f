"""A finding: what is not in order, by how much, against which limit, and what mends it.

Figures stand in ``stands`` and in the limit, in SI; the sentence is for people alone.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from math import inf, pi
from typing import Literal, TypeVar

from trimdive.boatfile import Boat
from trimdive.data import cited_by, row, table
from trimdive.errors import BoatError
from trimdive.fact import Fact, fact
from trimdive.findings.assessed import Assessed
from trimdive.records import record
from trimdive.units import read

Weight = Literal["put right", "look at"]
Sense = Literal["at most", "at least"]

# Checks of which some finding measures nothing.
UNMEASURED = (
    "waterline-band",  # sunk, or so steep that there is no draught
    "mesh-trouble",  # a mesh that does not close has no figure
    "brief-waters",  # a name that no table has
    "reach-spread",  # water is lacking, which is no angle
    "bench-leak",  # never tried
    "slip",  # a file is refused for it, however likely it is
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Limit:
    """A limit with its source."""

    key: str
    sense: Sense
    value: float  # in SI [by its unit]
    quantity: str  # what it is of: "length", "angle", "share", ...
    unit: str  # of the value, in SI; "1" of a share, a count and a ratio
    text: str  # as it stands in the table or the boat file
    is_own: bool  # the boat file's
    source: str  # title of the source, or "common practice, no source"
    note: str
    is_practice: bool  # common practice: nothing stands behind it

    @property
    def at_most(self) -> float | None:
        """Return its value where a figure may be no larger; None where it may be no less."""
        return self.value if self.sense == "at most" else None

    @property
    def at_least(self) -> float | None:
        """Return its value where a figure may be no less; None where it may be no larger."""
        return self.value if self.sense == "at least" else None

    def excess(self, stands: float) -> float:
        """Return by what share of the limit a figure is beyond it; inf beyond a limit of zero [-].

        Args:
            stands: The figure [unit of the limit].
        """
        if not self.value:
            return inf
        if self.sense == "at most":
            return abs(stands) / self.value - 1
        return (self.value - stands) / self.value


@dataclass(frozen=True, slots=True, kw_only=True)
class Edit:
    """One change of a boat that mends something."""

    action: Literal["set", "add", "remove", "file"]
    path: str  # "part[3]", "lead" for a new piece, or the name of a file
    fields: tuple[tuple[str, object], ...]  # values in SI; of a file its text


Remedy = tuple[Fact, tuple[Edit, ...]]  # what to do, and as changes where the program can


class Mend:
    """What mends something: worked out when it is first asked for, and kept.

    Most boats are only looked at for a trial, and their mends are never asked for.
    """

    __slots__ = ("_remedy", "_work")

    def __init__(self, work: Callable[[], Remedy]) -> None:
        """Take the work that tells it."""
        self._work: Callable[[], Remedy] | None = work
        self._remedy: Remedy = (fact("nothing"), ())

    @property
    def remedy(self) -> Remedy:
        """Return what to do, and as changes."""
        if self._work is not None:
            self._remedy, self._work = self._work(), None
        return self._remedy

    def __reduce__(self) -> "tuple[Callable[[Remedy], Mend], tuple[Remedy]]":
        """Go to another process as what it tells: the work for it stays here."""
        return known_mend, (self.remedy,)


def known_mend(remedy: Remedy) -> Mend:
    """Return a mend that is known already, and as changes."""
    return Mend(lambda: remedy)


@record
class Finding:
    """Something that is not in order."""

    key: str  # of the check
    subject: str  # what it is about: a path in the boat file, or "boat"
    weight: Weight
    rank: float  # worst first: how urgent, then how far beyond the limit [-]
    what: Fact  # what is so
    stands: float | None  # what was measured, as the limit counts it; None: nothing [its unit]
    limit: Limit
    cure: Mend = field(repr=False, compare=False)  # what mends it
    left: tuple[Fact, ...]  # what remains to be put right when this alone is mended
    hidden: tuple[Fact, ...]  # of those, what shows only then, or is then far worse
    follows: tuple[tuple[str, str], ...]  # what findings are about that take this one with them
    over: float = field(compare=False)  # by what share of its limit it is beyond; inf: untold [-]
    form: str  # where in the boat file what mends it is entered: "part[3].mass"; "" for nowhere
    ways: tuple[Remedy, ...]  # other ways that the program can go, each alone

    @property
    def mend(self) -> Fact:
        """Return what to do."""
        return self.cure.remedy[0]

    @property
    def edits(self) -> tuple[Edit, ...]:
        """Return the same as changes, where the program can."""
        return self.cure.remedy[1]

    @property
    def about(self) -> tuple[str, str]:
        """Return what tells it from others: its check, and its subject unless that is a choice."""
        return self.key, "" if self.key == "tank-offset" else self.subject


def _cure(mend: Fact | Mend | Callable[[], Remedy], edits: tuple[Edit, ...]) -> Mend:
    """Return a mend, however it was told."""
    if isinstance(mend, Fact):
        return known_mend((mend, edits))
    return mend if isinstance(mend, Mend) else Mend(mend)


def _part(beyond: float) -> float:
    """Return how far beyond a limit as part of a rank, from 0 to 1 [-].

    >>> _part(0.0), _part(1.0), _part(inf)
    (0.0, 0.5, 1.0)
    """
    return beyond / (1.0 + beyond) if beyond < inf else 1.0


def finding(
    *,
    limit: Limit,
    subject: str,
    what: Fact,
    stands: float | None,
    mend: Fact | Mend | Callable[[], Remedy],
    rank: int,
    beyond: float | Literal["by limit"] = 0.0,
    over: float = inf,
    key: str = "",
    edits: tuple[Edit, ...] = (),
    weight: Weight = "put right",
    form: str = "",
    ways: tuple[Remedy, ...] = (),
) -> Finding:
    """Return a finding as its check makes it: what remains when it is mended comes later.

    Args:
        limit: Limit that it is held against.
        subject: What it is about.
        what: What is so.
        stands: What is held against the limit, in its quantity and in SI; None where nothing is
            measured, of which UNMEASURED has the key [unit of the limit].
        mend: What to do; or the work that tells it, with its changes, when it is asked for.
        rank: How urgent its kind is; larger comes first [-].
        beyond: How far beyond the limit, to order those of one kind [-]. "by limit": worked out,
            with ``over``, from what stands against it.
        over: By what share of the limit it is beyond it; inf where that says nothing [-].
        key: Of the check, where it is not the limit's.
        edits: The mend as changes, where it is told in words.
        weight: Whether it must be put right.
        form: Where in the boat file what mends it is entered, where the builder enters it.
        ways: Other ways that the program can go, each alone.
    """
    if beyond == "by limit":
        over = inf if stands is None else limit.excess(stands)
        beyond = over + (limit.sense == "at most")
    return Finding(
        key=key or limit.key,
        subject=subject,
        weight=weight,
        rank=rank + _part(max(beyond, 0.0)),
        what=what,
        stands=stands,
        limit=limit,
        cure=_cure(mend, edits),
        left=(),
        hidden=(),
        follows=(),
        over=over,
        form=form,
        ways=ways,
    )


Check = Callable[[Assessed, Limit], Iterable[Finding]]
CHECKS: dict[str, tuple[Check, str]] = {}  # by key: the function, and the key of its limit


def check(key: str, *, limit: str = "") -> Callable[[Check], Check]:
    """Enter a function as the check ``key``; its limit has the same key unless named."""

    def entered(function: Check) -> Check:
        CHECKS[key] = function, limit or key
        return function

    return entered


F = TypeVar("F")


def entering(checks: dict[str, F]) -> Callable[[str], Callable[[F], F]]:
    """Return what enters a function in a table of checks; its limit has the same key."""

    def under(key: str) -> Callable[[F], F]:
        def entered(function: F) -> F:
            checks[key] = function
            return function

        return entered

    return under


SI_OF = {
    "mm/m": 1e-3,
    "%": 1e-2,
    "cm³": 1e-6,
    "°/m": pi / 180,
    "count": 1.0,
    "times": 1.0,
}  # units that stand only in the table of limits
QUANTITIES = {
    "mm": ("length", "m"),
    "mm/m": ("slope", "m/m"),
    "cm³": ("volume", "m3"),
    "°": ("angle", "rad"),
    "°/m": ("twist", "rad/m"),
    "kg": ("mass", "kg"),
    "g": ("mass", "kg"),
    "kg/m³": ("density", "kg/m3"),
    "s": ("time", "s"),
    "bar": ("pressure", "Pa"),
    "N": ("force", "N"),
    "%": ("share", "1"),
    "count": ("count", "1"),
    "times": ("ratio", "1"),
}  # by the unit of the table: the quantity, and its unit in SI
SI_UNITS = dict(QUANTITIES.values())  # by quantity


def _si(value: str, unit: str) -> float:
    if unit in SI_OF:
        return float(value) * SI_OF[unit]
    return read(f"{value} {unit}", QUANTITIES[unit][0], None)


def limit_of(key: str, boat: Boat) -> Limit:
    """Return a limit: the boat file's own where it has one, else the table's.

    Raises:
        BoatError: The boat file's limit is not a number with the table's unit.
    """
    entry = row("limits", key)
    unit = entry["unit"]
    quantity, si_unit = QUANTITIES[unit]
    text = f"{entry['value']} {unit}".removesuffix(" count")
    source = cited_by(entry)
    if key not in boat.limits:
        value = _si(entry["value"], unit)
    else:
        own = boat.limits[key].strip()
        value, text, source = _own(own, key, text, unit), own, "the boat file"
    return Limit(
        key=key,
        sense="at least" if entry["sense"] == "at least" else "at most",
        value=value,
        quantity=quantity,
        unit=si_unit,
        text=text,
        is_own=key in boat.limits,
        source=source,
        note=entry["note"],
        is_practice=key not in boat.limits and entry["source"] == "practice",
    )


def _own(own: str, key: str, such: str, unit: str) -> float:
    """Return a limit of the boat's own [its SI unit]; ``such`` is one that could be written."""
    number = own.removesuffix(unit).strip().replace(",", ".")
    try:
        if not 0 <= float(number) < inf:
            raise ValueError
        return _si(str(float(number)), unit)
    except ValueError:
        what = f"'{own}' is no limit in {unit}"
        raise BoatError(what, f"limits.{key}", f'Write a number, such as "{such}".') from None


def keys() -> tuple[str, ...]:
    """Return the keys of all limits."""
    return tuple(entry["key"] for entry in table("limits"))
