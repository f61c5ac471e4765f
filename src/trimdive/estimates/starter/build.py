"""From a wish to a boat file that floats at her waterline and dives at once.

The file is drafted without tanks, lead and foam; hull, bodies and ledger are made of it as of any
boat file; tanks, lead and foam follow from their sums, and are checked by letting her go.
"""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from trimdive.boatfile import Boat
from trimdive.errors import BoatError, StarterError
from trimdive.estimates.starter.balance import NONE, Ballast, Sums, dry_ballast, wet_ballast
from trimdive.estimates.starter.chapters import Draft, chapters_of
from trimdive.estimates.starter.drafted import Built, built
from trimdive.estimates.starter.pieces import Chapter
from trimdive.estimates.starter.room import foam_slots
from trimdive.estimates.starter.tanks import no_tanks, tanks_for
from trimdive.estimates.starter.taped import GirthKept, TapeEntry, entries, fitted, girths_kept
from trimdive.estimates.starter.things import Power, power_of
from trimdive.estimates.starter.wish import Plan, Wish, plan
from trimdive.geometry.solids.moments import above, centroid
from trimdive.hydrostatics.equilibrium import Floater, floater, rest, state, tank_waters
from trimdive.hydrostatics.equilibrium.hydrostatics import upright_bg
from trimdive.water import water

UP = np.array([0.0, 0.0, 1.0])
LEAD = (0.13, 0.16, 0.19, 0.22, 0.25, 0.28, 0.31, 0.34)  # of her mass, tried in turn [-]
BG_LEAST = 0.0052  # of her length; what check asks for, and something over [-]
GM_LEAST = 0.0042  # likewise [m]
MOMENTS = 9  # fillings at which she is let go [-]
THIN = 0.12  # of the room for foam: with less the blocks are slivers, and more lead goes in [-]
UPRIGHT = 0.03  # lean beyond which she does not stand upright [rad]
SLIM = (1.0, 0.9, 0.8, 0.7, 0.6, 0.5)  # of the usual outfit and cylinder, tried in turn [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Starter:
    """A first boat file, and what it is planned on."""

    chapters: tuple[Chapter, ...]  # of the boat file, for a person
    boat: Boat
    plan: Plan
    power: Power
    litres: float  # ballast water needed [m³]
    mass: float  # tanks empty [kg]
    lead: float  # [kg]
    bg: float  # dived [m]
    gm: float  # least, at any filling [m]
    taped: tuple[TapeEntry, ...]  # above the waterline, by tape and aboard; none where nobody taped
    girths: tuple[GirthKept, ...]  # likewise


def starter(wish: Wish) -> Starter:
    """Return a first boat file.

    Raises:
        StarterError: What was said cannot be, or makes no boat that floats upright.
    """
    best: Starter | None = None
    refused: BoatError | None = None
    for slim in SLIM:  # a slim hull has little room for foam, and so for lead: carry less
        try:
            taped = fitted(wish, slim) if wish.taped else wish
            best = _stiffer(best, _planned(plan(taped, slim)))
        except BoatError as error:
            refused = refused or error
            continue
        if _stiff(best) >= 1:
            break
    if best is None or best.gm <= 0:
        raise refused or StarterError(
            "with these proportions she does not stay upright, however much lead she carries",
            "the starter",
            "Make her broader, or lower.",
        )
    return best


def _planned(made: Plan) -> Starter:
    """Return the boat of a plan.

    Raises:
        StarterError: There is no room for what she needs, or she does not stay upright.
    """
    bare = Draft(plan=made, tanks=no_tanks(made), area=1.0, ballast=NONE)
    first = built(bare)
    area = _painted(first)
    litres, x = _above(built(Draft(plan=made, tanks=bare.tanks, area=area, ballast=NONE)))
    tanks = tanks_for(made, litres, x)
    unballasted = Draft(plan=made, tanks=tanks, area=area, ballast=NONE)
    best: Starter | None = None
    for ballast in _ballasts(made, built(unballasted)):
        draft = Draft(plan=made, tanks=tanks, area=area, ballast=ballast)
        best = _stiffer(best, _tried(draft, litres))
        if _stiff(best) >= 1:
            break
    if best is None:
        what = "she floats too high for her waterline without any foam"
        raise StarterError(what, "the starter", "Give a higher waterline, or a thicker wall.")
    return best


def _stiffer(one: Starter | None, other: Starter) -> Starter:
    """Return the stiffer of two, the first where they are alike."""
    return other if one is None or _stiff(other) > _stiff(one) else one


def _stiff(found: Starter) -> float:
    """Return how much of the stiffness aimed at she has, of BG and GM the lesser [-]."""
    return min(found.bg / (BG_LEAST * found.plan.wish.length), found.gm / GM_LEAST)


def _painted(built: Built) -> float:
    """Return the area that is painted [m²]; of a dry hull its shell's."""
    return sum(skin.area for skin in built.hull.skins)


def _above(built: Built) -> tuple[float, float]:
    """Return the volume above the waterline [m³] and its middle [m]."""
    line = built.boat.waterline
    height = line.height_at(0.0) if line else 0.0
    found = [above(body, UP, height) for body in built.bodies]
    volume = sum(one.volume for one in found)
    return volume, float(sum(one.moment[0] for one in found)) / volume


def _sums(built: Built) -> Sums:
    """Return the sums of a boat without lead and foam."""
    density = water("fresh", 15.0, 0.0).density
    volume, x = _above(built)
    whole = sum(body.volume for body in built.bodies)
    moment = sum(body.volume * float(centroid(body.mesh)[0]) for body in built.bodies)
    return Sums(
        mass=built.masses.mass,
        moment=built.masses.mass * float(built.masses.gravity[0]),
        below=whole - volume,
        below_moment=moment - volume * x,
        density=density,
    )


def _ballasts(made: Plan, built: Built) -> Iterator[Ballast]:
    """Yield lead and foam to try, from little to much."""
    sums = _sums(built)
    if made.wish.kind == "dry":
        yield dry_ballast(made, sums)
        return
    slots = foam_slots(made, built.hull)
    refused: BoatError | None = None
    tried = 0
    for share in LEAD:
        try:
            ballast = wet_ballast(made, sums, slots, share * made.mass)
        except BoatError as error:
            refused = error
            break
        if ballast.full > THIN:
            tried += 1
            yield ballast
    if not tried and refused:
        raise refused


def _tried(draft: Draft, litres: float) -> Starter:
    """Return the boat of a draft, let go at several fillings."""
    found = built(draft)
    density = water("fresh", 15.0, 0.0).density
    afloat = floater(found.boat, found.files, found.bodies, found.masses, density)
    waters = tank_waters(found.boat, afloat.tanks, draft.tanks[0].neutral)
    return Starter(
        chapters=chapters_of(draft),
        boat=found.boat,
        plan=draft.plan,
        power=power_of(draft.plan),
        litres=litres,
        mass=found.masses.mass,
        lead=sum(bar.mass for bar in draft.ballast.bars),
        bg=upright_bg(afloat, waters),
        gm=_least_gm(afloat, found.boat),
        taped=entries(draft.plan.wish, found),
        girths=girths_kept(draft.plan),
    )


def _least_gm(afloat: Floater, boat: Boat) -> float:
    """Return the least GM on the way down [m]; negative where she does not stand upright."""
    at = None
    least = float("inf")
    for filling in np.linspace(0.0, 1.0, MOMENTS):
        at = rest(afloat, tank_waters(boat, afloat.tanks, float(filling)), start=at)
        found = state(afloat, at)
        if abs(found.heel) > UPRIGHT:
            return -abs(found.heel) * afloat.length
        least = min(least, found.gm_t)
    return least
