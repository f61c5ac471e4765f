"""A first boat that keeps what a tape measured: breadths, girths, walls, and what stands on her.

The breadths of the plain form are made those that were measured at the waterline, place by place,
and its deck is put at the height at which the girth over it is the measured one. What stands above
the waterline is then compared, entry by entry, with what the tape gave.
"""

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np
import numpy.typing as npt

from trimdive.estimates.starter.balance import NONE
from trimdive.estimates.starter.chapters import Draft
from trimdive.estimates.starter.drafted import Built, built, parsed
from trimdive.estimates.starter.names import SKINS, UPPER
from trimdive.estimates.starter.shape import lines_of
from trimdive.estimates.starter.tanks import no_tanks
from trimdive.estimates.starter.wish import Plan, Taped, Wish, plan
from trimdive.estimates.tape import Readings, tape_litres
from trimdive.fact import Fact
from trimdive.geometry.lines.mesh import Floats, Mesh
from trimdive.geometry.solids.moments import above
from trimdive.geometry.solids.section import segments
from trimdive.geometry.solids.surfaces import surface

if TYPE_CHECKING:
    from trimdive.estimates.tape.answer import Share

FITS = 20  # most rounds in which breadths and heights are fitted to a tape [-]
NEAR = 0.002  # of the greatest girth: nearer than this to every reading is near enough [-]
STEP = (0.5, 2.0)  # a figure is changed by at most so much in a round [-]
GENTLY = 0.6  # power of a step: breadths move heights too, and full steps overshoot [-]
OVER_DECK = 0.8  # straight over the deck, as a share of the breadth [-]
LEAST_RISE = 1.12  # a girth is at least so many times the breadth below it [-]
AWASH = -0.1  # a girth of zero: the deck lies so much of its plain height below the water [-]
Flags = npt.NDArray[np.bool_]
UP, FORWARD = np.array([0.0, 0.0, 1.0]), np.array([1.0, 0.0, 0.0])
LITTLE = 1e-4  # of the litres: less than this is not worth a word [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class TapeEntry:
    """One thing above the waterline, by the tape and in the boat file."""

    name: Fact | str  # the hull's part, or the name of a thing
    by_tape: float  # zero where the tape does not have it [m³]
    spread: float  # of what the tape gave, 95 %, to either side [m³]
    aboard: float  # [m³]

    @property
    def off(self) -> float:
        """Return how much more there is in the boat file than by the tape [m³]."""
        return self.aboard - self.by_tape


@dataclass(frozen=True, slots=True, kw_only=True)
class GirthKept:
    """A girth by the tape, and over the deck of the boat in the file."""

    x: float  # forward of the stern [m]
    by_tape: float  # [m]
    aboard: float  # [m]


def wish_by_tape(readings: Readings) -> Wish:
    """Return what tape readings say of her.

    Raises:
        StarterError: They contradict each other.
    """
    broad = [one.breadth for one in readings.girths if one.breadth]
    walls = readings.walls
    return Wish(
        name=readings.name,
        length=readings.length,
        kind=readings.kind,
        material=readings.material.name,
        breadth=max(broad) if broad else None,
        wall=sum(walls) / len(walls) if walls else None,
        taped=Taped(result=tape_litres(readings)),
        units=readings.units,
    )


def fitted(wish: Wish, slim: float) -> Wish:
    """Return the wish with the form that has the measured breadths and girths.

    Args:
        wish: What the builder says, with what the tape gave.
        slim: How much of the usual outfit and cylinder she carries [-].

    Raises:
        StarterError: She cannot be planned so.
    """
    assert wish.taped is not None
    girths = [one for one in wish.taped.result.readings.girths if 0 < one.x < wish.length]
    at = np.array([one.x for one in girths])
    aim = np.array([one.girth for one in girths])
    broad = np.array([one.breadth or 0.0 for one in girths])
    rise, wide = np.ones(len(at)), np.ones(len(at))
    wish = replace(wish, breadth=wish.breadth or plan(wish, slim).breadth)
    best = (np.inf, wish)
    for _ in range(FITS):
        wish = _formed(wish, at, rise, wide)
        wish, wide = _no_broader(wish, plan(wish, slim), at, rise, wide)
        found, across = _round(plan(wish, slim), at)
        wanted = np.where(broad > 0, broad, np.minimum(across, aim / LEAST_RISE))
        off = float(np.abs(np.concatenate([(found - aim)[aim > 0], wanted - across])).max())
        best = min(best, (off, wish), key=lambda one: one[0])
        if off < NEAR * aim.max():
            break
        wide = _spread_over(wide * _near_one(wanted, across), broad > 0, wanted < across - 1e-6)
        flat = OVER_DECK * np.minimum(across, wanted)
        rise *= _near_one(np.maximum(aim - flat, 0.02 * aim), found - flat)
        rise = np.where(aim > 0, np.clip(rise, 0.02, 4.0), AWASH)
    return _walled(best[1], slim)


def girths_kept(made: Plan) -> tuple[GirthKept, ...]:
    """Return the girths that were measured, and those of the boat."""
    if made.wish.taped is None:
        return ()
    girths = made.wish.taped.result.readings.girths
    found, _ = _round(made, np.array([one.x for one in girths]))
    return tuple(
        GirthKept(x=one.x, by_tape=one.girth, aboard=float(girth))
        for one, girth in zip(girths, found, strict=True)
    )


def _near_one(wanted: Floats, found: Floats) -> Floats:
    """Return by how much to change figures to bring some nearer to others, within a step [-]."""
    return np.clip(wanted / np.maximum(found, 1e-6), *STEP) ** GENTLY


def _spread_over(wide: Floats, is_measured: Flags, is_narrow: Flags) -> Floats:
    """Return factors of the breadth: where it was not measured, those of the places beside.

    Args:
        wide: By place, shape (n,) [-].
        is_measured: Where a breadth was measured, shape (n,) [-].
        is_narrow: Where the girth allows no more, shape (n,) [-].
    """
    kept = np.flatnonzero(is_measured)
    if not len(kept):
        return wide
    between = np.interp(np.arange(len(wide)), kept, wide[kept])
    return np.where(is_measured, wide, np.where(is_narrow, np.minimum(wide, between), between))


def _formed(wish: Wish, at: Floats, rise: Floats, wide: Floats) -> Wish:
    """Return the wish with factors of the plain form's heights and breadths at places."""
    assert wish.taped is not None
    share = at / wish.length

    def pairs(factors: Floats) -> tuple[tuple[float, float], ...]:
        return tuple(zip(share.tolist(), factors.tolist(), strict=True))

    return replace(wish, taped=replace(wish.taped, rise=pairs(rise), wide=pairs(wide)))


def _no_broader(
    wish: Wish, made: Plan, at: Floats, rise: Floats, wide: Floats
) -> tuple[Wish, Floats]:
    """Return the wish whose broadest place has the breadth named, and the factors to it."""
    most = max(row[1] for row in lines_of(made)[1])
    wish = replace(wish, breadth=(wish.breadth or made.breadth) * most)
    return _formed(wish, at, rise, wide / most), wide / most


def _round(made: Plan, at: Floats) -> tuple[Floats, Floats]:
    """Return girths over the deck and breadths at the waterline of a plan at places [m]."""
    draft = Draft(plan=made, tanks=no_tanks(made), area=1.0, ballast=NONE)
    whole = surface(parsed(draft).regions[0], {})
    found = [_girth(whole, float(x), made.waterline) for x in at]
    return np.array([girth for girth, _ in found]), np.array([across for _, across in found])


def _girth(whole: Mesh, x: float, waterline: float) -> tuple[float, float]:
    """Return girth above a height, and breadth at it, of a section [m]."""
    lines = segments(whole.corners, FORWARD, x)[:, :, 1:]
    z = lines[:, :, 1] - waterline
    low, high = z.min(axis=1), z.max(axis=1)
    share = np.clip(high / np.maximum(high - low, 1e-12), 0.0, 1.0)
    girth = float((np.linalg.norm(lines[:, 1] - lines[:, 0], axis=1) * share).sum())
    crosses = (low <= 0) & (high >= 0) & (high - low > 1e-12)
    a, b, h = lines[crosses][:, 0], lines[crosses][:, 1], z[crosses]
    y = a[:, 0] + (b[:, 0] - a[:, 0]) * (h[:, 0] / (h[:, 0] - h[:, 1]))
    return girth, float(np.ptp(y)) if len(y) else 0.0


def _walled(wish: Wish, slim: float) -> Wish:
    """Return the wish whose upper moulding, as weighed, has the volume that the tape gave.

    With a moulding on the scale the tape's volume goes by both scale and wall; the density at which
    the mass has that volume is written beside it.
    """
    taped = wish.taped
    if taped is None or wish.kind == "dry" or not taped.result.readings.moulding:
        return wish
    wanted = taped.result.shares[0].volume
    for _ in range(FITS):
        made = plan(replace(wish, taped=taped), slim)
        found = built(Draft(plan=made, tanks=no_tanks(made), area=1.0, ballast=NONE))
        volumes = {
            body.name: above(body, UP, found.waterline).volume
            for body in found.bodies
            if body.kind == "region" and body.name in SKINS
        }
        upper = volumes.pop(UPPER, 0.0)
        off = upper / max(wanted - sum(volumes.values()), 0.1 * wanted)
        density = taped.density or taped.result.readings.material.density
        taped = replace(taped, density=density * off)
        if abs(off - 1) < NEAR:
            break
    return replace(wish, taped=taped)


def entries(wish: Wish, made: Built) -> tuple[TapeEntry, ...]:
    """Return what stands above the waterline, by the tape and in the boat file.

    Args:
        wish: What she was planned on.
        made: Her boat.
    """
    if wish.taped is None:
        return ()
    found: dict[Fact | str, float] = {}
    skin, *standing = wish.taped.result.shares
    for body in made.bodies:
        name = skin.name if body.kind == "region" and body.name in SKINS else body.name
        found[name] = found.get(name, 0.0) + above(body, UP, made.waterline).volume
    by_tape: dict[Fact | str, Share] = {skin.name: skin}
    by_tape |= zip(wish.taped.names, standing, strict=True)
    known = [
        TapeEntry(name=name, by_tape=one.volume, spread=one.spread, aboard=found.pop(name, 0.0))
        for name, one in by_tape.items()
    ]
    rest = [
        TapeEntry(name=name, by_tape=0.0, spread=0.0, aboard=volume)
        for name, volume in sorted(found.items(), key=lambda one: -one[1])
        if volume > LITTLE * wish.taped.result.volume
    ]
    return (*known, *rest)
