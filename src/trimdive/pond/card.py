"""The card for the pond: the water of the day, what to change, depth, lifting, checks, cautions."""

from contextlib import suppress
from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING

from trimdive.bench import not_entered
from trimdive.data.cautions import cautions
from trimdive.errors import BoatError, TrimdiveError
from trimdive.findings import limit_of
from trimdive.hydrostatics.equilibrium.named import bound, lifted, share
from trimdive.pond.dial import HEAVIEST, LIGHTEST, Dial, dial
from trimdive.pond.today import today
from trimdive.pond.words import WaterWords, water_words
from trimdive.text.deep import UNTESTED, may_go_words
from trimdive.text.found import what
from trimdive.text.gaps import gap
from trimdive.text.held import way_up
from trimdive.text.tub_uncertainty import sure_words
from trimdive.units import write
from trimdive.water import density, waters

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.findings import Finding

MEASURED = "measured"  # a kind of water known by its density alone
KINDS: dict[str, str] = {
    "fresh": "pond, lake or river",
    "pool": "swimming pool",
    "sea": "sea or estuary",
    MEASURED: "measured with a hydrometer",
}
BLOWS = {  # what blows her tanks and keeps her dry, by the keys of what is not entered of it
    "plant": {"plant"},
    "failsafe": {"failsafe-told"},
    "cylinders": {"cylinder", "tube", "ends"},
    "caps": {"caps", "thickness", "material", "hole", "closing"},
    "rings": {"rings", "groove"},
}
GAPS = "Not entered, so not looked at"
SURE = "How sure it is"
GRAMS = 1e3  # in a kilogram [-]
OFF_STEPS = (0.01, 0.1, 0.5, 1.0, 10.0)  # in which it is told how far off a reading may be [g]
REASONS = 3  # told where a card is refused
CHECKS = (
    "Cylinders closed, rings clean and greased; a slight vacuum holds for ten minutes.",
    "Batteries charged, and where they were when she was trimmed.",
    "Lead and foam for this water in place and secured.",
    "Planes and rudders move the right way to both stops; propellers clear.",
    "Range checked on the bank: the radio reaches farther than you will sail.",
    "Transmitter off: the failsafe works, and she blows.",
    "On a line at the edge: she floats on her waterline; tanks filled and blown once; no bubbles.",
    "First dive within reach of your arm.",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Chosen:
    """The water of the day."""

    kind: str  # fresh, pool, sea or measured
    celsius: float  # temperature [°C]
    salt: float  # dissolved salt [g/kg]
    density: float  # [kg/m³]


@dataclass(frozen=True, slots=True, kw_only=True)
class Named:
    """What a named water asks for."""

    name: str
    water: Chosen
    words: WaterWords


@dataclass(frozen=True, slots=True, kw_only=True)
class Card:
    """Everything that stands on the card."""

    name: str
    scale: str
    own: Chosen  # the water that she is trimmed for
    water: Chosen  # of the day
    words: WaterWords
    trimmed: str  # how she is with the change made
    place: str  # where lead goes or comes from
    named: tuple[Named, ...]
    dial: Dial
    off: str  # how far reading the dial may be off
    sure: tuple[str, ...]  # how sure her weight is, and the loose lead for it
    not_entered: tuple[str, ...]  # on her bench, and what is therefore not known
    way_up: tuple[str, ...]  # what to mind while she comes up
    depth: tuple[str, ...]
    lifting: tuple[str, ...]
    cautions: tuple[str, ...]


def chosen(kind: str, celsius: float, salt: float) -> Chosen:
    """Return a water of the day.

    Args:
        kind: fresh, pool or sea.
        celsius: Temperature [°C].
        salt: Dissolved salt; fresh water has none [g/kg].

    Raises:
        BoatError: There is no such water, or it cannot be so warm or so salt.
    """
    salt = 0.0 if kind == "fresh" else salt
    return Chosen(kind=kind, celsius=celsius, salt=salt, density=density(kind, celsius, salt))


def measured(density: float, celsius: float, where: str = "water") -> Chosen:
    """Return a water known by its density alone.

    Args:
        density: As measured [kg/m³].
        celsius: Temperature, for the slider only [°C].
        where: What to call the place in an error.

    Raises:
        BoatError: No water is so light or so heavy.
    """
    if not LIGHTEST <= density <= HEAVIEST:
        what = f"no water to sail on weighs {density:g} kg/m³"
        mend = f"Enter {LIGHTEST:g} to {HEAVIEST:g} kg/m³; a hydrometer may show 1.012 for 1012."
        raise BoatError(what, where, mend)
    return Chosen(kind=MEASURED, celsius=celsius, salt=0.0, density=density)


def own_water(her: "Assessment") -> Chosen:
    """Return the water that she is trimmed for."""
    one = her.water
    return Chosen(kind=one.kind, celsius=one.celsius, salt=one.salt, density=one.density)


def refused(her: "Assessment") -> tuple[str, ...]:
    """Return why there can be no card yet: what must be put right first; nothing where it can."""
    words = tuple(what(her.boat, one) for one in refusing(her))
    try:
        her.bench_findings  # noqa: B018 - whether it can be worked out
    except TrimdiveError as error:  # a cylinder that cannot be as it is told
        return (*words, f"{error.where}: {error.what}")
    return words


def refusing(her: "Assessment") -> "tuple[Finding, ...]":
    """Return what must be put right before there can be a card, in the water and on the bench."""
    found = her.findings
    with suppress(TrimdiveError):  # a cylinder that cannot be as it is told
        found += her.bench_findings
    return tuple(one for one in found if one.weight == "put right")


def card(her: "Assessment", water: Chosen | None = None) -> Card:
    """Return the card of a boat.

    Args:
        her: The boat, trimmed for her own water.
        water: Of the day; left out, her own.

    Raises:
        BoatError: Something must be put right first, or she has no tank.
    """
    if reasons := refused(her):
        more = f" And {len(reasons) - REASONS} more." if len(reasons) > REASONS else ""
        what = f"no card yet, put these right first: {'; '.join(reasons[:REASONS])}.{more}"
        raise BoatError(what.removesuffix("."), her.boat.name, "See: trimdive check BOAT.")
    if not her.boat.tanks:
        raise BoatError("she has no tank", her.boat.name, "A card is for a boat that dives.")
    day = water or own_water(her)
    found = dial(her)
    return Card(
        name=her.boat.name,
        scale=f"1:{her.boat.scale:g}" if her.boat.scale else "",
        own=own_water(her),
        water=day,
        words=water_words(her, today(her, day.density)),
        trimmed=_trimmed(her),
        place=f"{her.boat.place(float(her.masses.gravity[0]))}, as low as it goes",
        named=_named(her),
        dial=found,
        off=off_words(her, found.off),
        sure=sure_words(her),
        not_entered=gaps(her),
        way_up=way_up(her),
        depth=depth_words(her),
        lifting=lifting_words(her),
        cautions=cautions_for(her),
    )


def gaps(her: "Assessment") -> tuple[str, ...]:
    """Return what on her bench is not entered, so that no card calls it in order."""
    return tuple(gap(one).short for one in her.not_entered)


def _trimmed(her: "Assessment") -> str:
    """Return where she is neutral with the change made, as she is in her own water."""
    water = her.boat.units.write(today(her, her.water.density).neutral, "volume")
    full = share(her.neutral)
    return f"then she floats and dives as trimmed: neutral with {water} of tank water, {full}"


def _named(her: "Assessment") -> tuple[Named, ...]:
    found = [(name, chosen(one.kind, one.celsius, one.salt)) for name, one in waters().items()]
    found.sort(key=lambda one: one[1].density)
    return tuple(
        Named(name=name, water=one, words=water_words(her, today(her, one.density)))
        for name, one in found
    )


def off_words(her: "Assessment", off: float) -> str:
    """Return how far the dial may be off, in a sentence.

    Args:
        her: The boat, for her units.
        off: The most that the lead is off [kg].
    """
    most = next(step for step in OFF_STEPS if off * GRAMS < step)
    unit = her.boat.units.shown("mass")
    if unit in ("g", "kg"):
        text = f"{most:g} g"
    else:  # no finer than can be read in ounces
        text = write(max(most, OFF_STEPS[1]) / GRAMS, "mass", "oz", 3)
    return f"From a table calculated beforehand: off by less than {text}."


def depth_words(her: "Assessment") -> tuple[str, ...]:
    """Return how deep she may go, in sentences."""
    depths, brief = her.depths, her.boat.brief
    far = partial(bound, her.boat)
    found = [may_go_words(her)]
    if depths.trimmed <= 0:
        found.append(
            f"With tanks full she sinks from the surface: stop filling at {share(her.neutral)}."
        )
    elif depths.hovers is not None:
        found.append(f"With tanks full she sinks by herself deeper than {far(depths.hovers)}.")
    failsafe = her.boat.failsafe
    deep = failsafe.too_deep_at if failsafe and failsafe.too_deep else None
    acts = f"; her failsafe acts at {far(deep)}" if deep else ""
    if deep and brief and brief.pond_depth and brief.pond_depth < deep:
        acts += ", deeper than her pond"
    if depths.returns is not None:
        found.append(f"Deeper than {far(depths.returns)} blown tanks do not bring her up{acts}.")
    else:
        lacks = _bench_lacks(her)
        known = f", by her list; not entered in full: {lacks}" if lacks else ""
        found.append(f"Blown tanks bring her up from as deep as she may go{known}{acts}.")
    if brief and brief.pond_depth:
        found.append(f"Her pond is {far(brief.pond_depth)} deep.")
    if depths.compressibility.unknown:
        found.append(
            f"Not counted, stiffness not entered: {', '.join(depths.compressibility.unknown)}."
        )
    return (*found, UNTESTED)


def _bench_lacks(her: "Assessment") -> str:
    """Return what is not entered of that which blows her tanks and keeps her dry, or nothing."""
    keys = {one.key for one in not_entered(her.boat)}
    return ", ".join(name for name, of in BLOWS.items() if keys & of)


def cautions_for(her: "Assessment") -> tuple[str, ...]:
    """Return what to take care of at the pond, with what she has."""
    kinds = [plant.kind for plant in her.boat.plants]
    return tuple(one.short for one in cautions("pond", kinds))


def lifting_words(her: "Assessment") -> tuple[str, ...]:
    """Return what is lifted, in sentences."""
    heavy, mass = partial(lifted, her.boat), her.surfaced.displacement_mass
    one, two = (limit_of(key, her.boat) for key in ("lift-one", "lift-two"))
    many = "one person lifts" if mass <= one.value else "two lift" if mass <= two.value else ""
    how = f"{many} her" if many else "three lift her, or a hoist"
    found = [f"Drained, tanks blown, she weighs {heavy(mass)}: {how}."]
    flood = her.heave.flood
    if flood > 0:
        found.append(f"Lift slowly: up to {heavy(flood)} of water must run out of the hull first.")
    found.append(
        f"One person lifts {heavy(one.value)} in good conditions, two "
        f"{heavy(two.value)}; less on a wet bank."
    )
    return tuple(found)
